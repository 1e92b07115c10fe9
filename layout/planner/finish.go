package planner

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/packing"
)

// A plan that sets as much can still be one at which an experienced potter
// shakes the head: one side stacked to the lid beside one that stops half way,
// the heavy platters on the level one must dive for. What is done about that
// changes nothing that a plan is judged by (beats), so it is done once, to the
// plan that is shown.
//
// What arms reach is common practice and differs from pottery to pottery; here
// it only decides between places that are as good.
const (
	reachDeep = 450 // mm below the rim beyond which heavy and wide ware is hard to set
	heavyPot  = 2.0 // kg of one pot
	widePot   = 250 // mm across
	unlike    = 0.15
)

// tidied is a candidate as good as c, with its sides of one height, its rows
// together, its levels about as full, and its heavy and wide ware where arms
// set it.
func (s *Search) tidied(c *candidate) *candidate {
	if c.frame.kept || len(c.frame.storeys) < 2 {
		return c
	}
	return s.traded(s.opened(s.gathered(s.sidesEvened(c))))
}

// asGood says whether now may be shown in place of c.
func asGood(now, c *candidate) bool { return now != nil && !c.beats(now) }

// heft is the mass of what stands on a storey, kg, and how many of its pots are
// heavy or wide.
func (s *Search) heft(st *storey) (mass float64, big int) {
	for _, set := range [][]placed{st.fixed, st.set} {
		for _, p := range set {
			b := s.context.kinds[p.kind].body
			mass += b.Mass
			if b.Mass >= heavyPot || s.acrossOf(p.kind) >= widePot {
				big++
			}
		}
	}
	return mass, big
}

// acrossOf is about how wide a kind is where it is widest, mm.
func (s *Search) acrossOf(k int) float64 {
	across := 0.0
	for _, part := range s.context.kinds[k].body.Solid.Parts {
		for _, v := range part.Skeleton {
			across = max(across, float64(2*(plane.Length(v)+part.Profile.Max())))
		}
	}
	return across
}

// motion carries a place on one site to the like place on another of the same
// shelf: shifted and turned, or in the mirror; ok is false where the sites
// differ.
func motion(a, b *site) (move func(placed) placed, ok bool) {
	if a == b {
		return func(p placed) placed { return p }, true
	}
	if a.kind != b.kind || len(a.beside)+len(b.beside) > 0 || len(a.lines) != len(b.lines) {
		return nil, false
	}
	from, to := plane.Pose{At: a.shelf.At, Turn: a.shelf.Turn}, plane.Pose{At: b.shelf.At, Turn: b.shelf.Turn}
	for _, m := range []struct {
		at   func(plane.Vec) plane.Vec
		turn func(float64) float64
	}{
		{func(v plane.Vec) plane.Vec { return to.Apply(from.Undo(v)) }, func(t float64) float64 { return t + to.Turn - from.Turn }},
		{func(v plane.Vec) plane.Vec { return plane.Vec{from.At[0] + to.At[0] - v[0], v[1]} }, func(t float64) float64 { return -t }},
		{func(v plane.Vec) plane.Vec { return plane.Vec{v[0], from.At[1] + to.At[1] - v[1]} }, func(t float64) float64 { return 180 - t }},
	} {
		if !onLines(a, b, m.at) {
			continue
		}
		return func(p placed) placed {
			at := m.at(p.at)
			p.at = plane.Vec{grid(at[0]), grid(at[1])}
			p.turn = plane.NormalTurn(grid(m.turn(p.turn)))
			return p
		}, true
	}
	return nil, false
}

// onLines says whether a motion brings the middle and the lines of one site
// upon those of another, or beside them where one kept clear of a probe.
func onLines(a, b *site, at func(plane.Vec) plane.Vec) bool {
	const near = 60
	if plane.Distance(at(a.outline.Centroid()), b.outline.Centroid()) > near {
		return false
	}
	for _, l := range a.lines {
		found := false
		for _, m := range b.lines {
			found = found || plane.Distance(at(l.At), m.At) < near
		}
		if !found {
			return false
		}
	}
	return true
}

// carried are pots of one storey at their places on another site.
func carried(set []placed, from, to *site) ([]placed, bool) {
	move, ok := motion(from, to)
	if !ok {
		return nil, false
	}
	out := make([]placed, len(set))
	for i, p := range set {
		out[i] = move(p)
	}
	return out, true
}

// standsOn says whether pots stand well on a storey beside what is fixed there.
func (s *Search) standsOn(st *storey, set []placed) bool {
	for _, p := range set {
		if !s.context.takes(st, p.kind) {
			return false
		}
	}
	sp, r := s.standingOn(st, set)
	s.spent++
	return packing.Valid(&sp.problem, r.Set)
}

// standingOn is a storey with pots on it as a packing problem and its answer.
func (s *Search) standingOn(st *storey, set []placed) (*shelfProblem, packing.Result) {
	wants := map[int]int{}
	for _, p := range set {
		wants[p.kind]++
	}
	sp := s.context.problemOf(st, wants, st.fixed)
	r := packing.Result{Set: append([]packing.Standing(nil), sp.problem.Fixed...)}
	want := map[int]int{}
	for i, w := range sp.problem.Wants {
		want[w.Kind] = i
	}
	for _, p := range set {
		k := sp.index[p.kind]
		r.Set = append(r.Set, packing.Standing{Kind: k, Want: want[k], At: p.at, Turn: p.turn})
	}
	return sp, r
}

// settled are the pots of a storey where they stand, else packed anew; nil when
// they do not all go in.
func (s *Search) settled(st *storey, set []placed) ([]placed, bool) {
	if len(set) == 0 || s.standsOn(st, set) {
		return set, true
	}
	wants := map[int]int{}
	for _, p := range set {
		if !s.context.takes(st, p.kind) {
			return nil, false
		}
		wants[p.kind]++
	}
	sp := s.context.problemOf(st, wants, st.fixed)
	res, err := packing.Fill(sp.problem, s.seed*1000003+uint64(len(set)), finishWork)
	if err != nil {
		return nil, false
	}
	s.spent += res.Work
	out := s.placedOf(sp, res)
	return out, len(out) == len(set)
}

// finishWork is the work of packing one storey again while a plan is finished.
const finishWork = 1200

// mostTrades is how many trades of a finished plan are tried at most.
const mostTrades = 24

// traded lets the pots of two storeys change places where both are as good for
// them and a person would rather have them there.
func (s *Search) traded(c *candidate) *candidate {
	for tries := 0; tries < mostTrades; {
		f := c.frame
		type trade struct {
			a, b int
			gain float64
		}
		var best []trade
		now := s.unease(f, func(i int) *storey { return f.storeys[i] })
		for a := range f.storeys {
			for b := range a {
				if !s.mayTrade(f.storeys[a], f.storeys[b]) {
					continue
				}
				gain := now - s.unease(f, func(i int) *storey {
					switch i {
					case a:
						return f.storeys[b]
					case b:
						return f.storeys[a]
					}
					return f.storeys[i]
				})
				if gain >= leastGain {
					best = append(best, trade{a, b, gain})
				}
			}
		}
		var next *candidate
		for len(best) > 0 && next == nil && tries < mostTrades {
			tries++
			k := 0
			for i, t := range best {
				if t.gain > best[k].gain+1e-9 {
					k = i
				}
			}
			if now := s.trade(f, best[k].a, best[k].b); asGood(now, c) {
				next = now
			}
			best = append(best[:k], best[k+1:]...)
		}
		if next == nil {
			return c
		}
		c = next
	}
	return c
}

// leastGain is the unease below which a trade is not worth it: half a kilogram
// of ware a level of 100 mm lower.
const leastGain = 0.5

// mayTrade says whether the pots of each of two storeys fit under the other.
func (s *Search) mayTrade(a, b *storey) bool {
	if a.sealed || b.sealed || len(a.zones) != 1 || len(b.zones) != 1 || len(a.set)+len(b.set) == 0 {
		return false
	}
	for _, x := range [][2]*storey{{a, b}, {b, a}} {
		for _, p := range x[0].set {
			if !s.context.takes(x[1], p.kind) {
				return false
			}
		}
	}
	_, ok := motion(a.site, b.site)
	return ok
}

// trade is a frame with the pots of two storeys in each other's place, checked.
func (s *Search) trade(f *frame, a, b int) *candidate {
	g := f.clone()
	sa, sb := g.storeys[a], g.storeys[b]
	toA, ok := carried(sb.set, sb.site, sa.site)
	if !ok {
		return nil
	}
	toB, ok := carried(sa.set, sa.site, sb.site)
	if !ok {
		return nil
	}
	sa.set, sb.set = nil, nil
	if toA, ok = s.settled(sa, toA); !ok {
		return nil
	}
	if toB, ok = s.settled(sb, toB); !ok {
		return nil
	}
	sa.set, sb.set = toA, toB
	return s.verify(g)
}

// unease is what a person minds about what stands how high: heavy and wide ware
// beyond the reach of arms most, then sides of unlike mass, then mass high up,
// kg at 100 mm. on(i) is the storey whose pots stand on storey i.
func (s *Search) unease(f *frame, on func(int) *storey) float64 {
	sum := 0.0
	side := make([]float64, len(f.design.division.sites))
	whole := 0.0
	for i, st := range f.storeys {
		mass, big := s.heft(on(i))
		sum += float64(mass * st.top / 100)
		if s.context.load.Kiln.Opens != layout.Front {
			if deep := s.context.load.Kiln.Height - st.top - reachDeep; deep > 0 {
				sum += float64(float64(big) * (20 + float64(deep*0.1)))
			}
		}
		for j, x := range f.design.division.sites {
			if x == st.site {
				side[j] += mass
				whole += mass
			}
		}
	}
	if len(side) == 2 && whole > 0 {
		if d := abs(side[0]-side[1]) / whole; d > unlike {
			sum += float64(1000 * (d - unlike))
		}
	}
	return sum
}
