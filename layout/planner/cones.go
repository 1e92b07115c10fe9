package planner

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/packing"
	"threepost/layout/stacks"
)

// sightSlope is the tangent of 14 degrees, the most a line of sight may lean
// off a spyhole's axis (19 mm hole through 76 mm of brick).
const sightSlope = 0.24932800284318068

// placePacks tells the storeys what the wishes keep off them, and sets the cone
// packs before any pot: watched ones where a spyhole shows them, the others
// spread over the storeys. Watched ones that no spyhole shows are packed among
// the pots (movable); loose says that all watched ones are.
func (s *Search) placePacks(f *frame, loose bool) {
	s.hear(f)
	n := 0
	for k, kd := range s.context.kinds {
		switch {
		case kd.cones == nil || len(kd.free) == 0:
		case !kd.cones.Watched:
			s.placeUnwatched(f, k, n)
			n++
		case !loose:
			s.placeWatched(f, k)
		}
	}
}

// placeWatched sets a pack on the axis of a spyhole, as near to it as the wall
// allows, on the storey whose tips come closest to the axis, of the side at the
// hole if it can be.
func (s *Search) placeWatched(f *frame, k int) {
	spies := s.context.spies
	body := s.context.kinds[k].body
	want := s.context.kinds[k].cones.Spyhole
	var best *storey
	var at placed
	var line tube
	least := 1e300
	for i := range spies {
		if want > 0 && want != i+1 || s.taken(f, spies[i]) {
			continue
		}
		spy := &spies[i]
		for _, st := range f.storeys {
			if st.sealed || !st.fits(body.Height) {
				continue
			}
			rise := abs(st.top + body.Height - spy.Height)
			cost := rise + s.beyond(f, st, spy)
			if cost >= least {
				continue
			}
			if p, ok := s.seat(f, st, k, spy, rise); ok {
				best, at, least = st, p, cost
				low := min(spy.Height, st.top+body.Height) - st.top - sightRoom
				line = tube{from: spy.Mouth, to: p.at, low: low}
			}
		}
	}
	if best == nil {
		return
	}
	best.fixed = append(best.fixed, at)
	best.tubes = append(best.tubes, line)
}

// beyond is half of how much farther a storey's shelf lies from a spyhole than
// the nearest shelf, mm: what stands on that one would be in the line of sight.
func (s *Search) beyond(f *frame, st *storey, spy *stacks.Spy) float64 {
	near := 1e300
	for _, x := range f.storeys {
		near = min(near, -x.site.outline.Depth(spy.Mouth))
	}
	return (-st.site.outline.Depth(spy.Mouth) - near) / 2
}

// taken says whether a pack already stands before a spyhole.
func (s *Search) taken(f *frame, spy stacks.Spy) bool {
	for _, st := range f.storeys {
		for _, t := range st.tubes {
			if plane.Distance(t.from, spy.Mouth) < 1 {
				return true
			}
		}
	}
	return false
}

// seat is the nearest place to a spyhole, on its axis or as little beside it as
// the line of sight may lean, where a pack may stand and no furniture hides it.
func (s *Search) seat(f *frame, st *storey, k int, spy *stacks.Spy, rise float64) (placed, bool) {
	turn := plane.NormalTurn(plane.Bearing(spy.Inward))
	lo, hi := s.context.chamber.Bounds()
	across := max(hi[0]-lo[0], hi[1]-lo[1])
	side := plane.Right(spy.Inward)
	for d := 40.0; d < 0.7*across; d += 5 {
		for n := 0; n < 9; n++ {
			off := float64((n+1)/2) * 15
			if n%2 == 1 {
				off = -off
			}
			if plane.Hypot(rise, off) > float64(d*sightSlope)-2 {
				break
			}
			p := placed{kind: k, turn: grid(turn)}
			p.at = plane.Add(plane.Add(spy.Mouth, plane.Scale(spy.Inward, d)), plane.Scale(side, off))
			p.at = plane.Vec{grid(p.at[0]), grid(p.at[1])}
			if s.context.seesPast(f, st, spy, p) && s.clear(st, p) {
				return p, true
			}
		}
	}
	return placed{}, false
}

// clear says whether a pot may stand there beside what is fixed on the storey.
func (s *Search) clear(st *storey, p placed) bool {
	sp := s.context.problemOf(st, map[int]int{p.kind: 1}, st.fixed)
	set := append([]packing.Standing(nil), sp.problem.Fixed...)
	set = append(set, packing.Standing{Kind: sp.index[p.kind], Want: 0, At: p.at, Turn: p.turn})
	return packing.Slack(&sp.problem, set) >= -plane.Tolerance
}

// placeUnwatched sets the n-th unseen pack: the middle storey first, then the
// lowest, then the top.
func (s *Search) placeUnwatched(f *frame, k, n int) {
	count := len(f.storeys)
	starts := []int{count / 2, 0, count - 1}
	for i := 0; i < count; i++ {
		st := f.storeys[(starts[n%3]+i)%count]
		if st.sealed || !st.fits(s.context.kinds[k].body.Height) {
			continue
		}
		sp := s.context.problemOf(st, map[int]int{k: 1}, st.fixed)
		res, err := packing.Fill(sp.problem, s.seed+uint64(k), 30)
		if err != nil {
			continue
		}
		s.spent += res.Work
		if got := s.placedOf(sp, res); len(got) > 0 {
			st.fixed = append(st.fixed, got...)
			return
		}
	}
}

// grid rounds to the file's grid of 0.1.
func grid(x float64) float64 {
	n := float64(x * 10)
	if n < 0 {
		return -float64(int64(-n+0.5)) / 10
	}
	return float64(int64(n+0.5)) / 10
}

// spiesOf are the spyholes of the load as built.
func spiesOf(l *layout.Load) []stacks.Spy {
	bare := *l
	bare.Towers = nil
	if b, err := stacks.Build(&bare); err == nil {
		return b.Spies
	}
	return nil
}
