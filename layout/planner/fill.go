package planner

import (
	"sort"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/packing"
)

// fillAll packs all storeys of a frame: the tallest first with what needs them
// and what the estimate gives them, then everything left wherever it still goes.
func (s *Search) fillAll(f *frame, work int64, seed uint64) {
	quota := s.quotas(f)
	order := make([]int, len(f.storeys))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return f.storeys[order[a]].tallest() > f.storeys[order[b]].tallest() })
	rest := s.restOf(f)
	each := max(work/int64(2*len(order)+1), 1)
	for n, i := range order {
		st := f.storeys[i]
		lower := 0.0 // the tallest body that a later storey takes
		for _, j := range order[n+1:] {
			lower = max(lower, f.storeys[j].tallest())
		}
		wants := map[int]int{}
		for k, kd := range s.context.kinds {
			if !s.context.movable(k) || rest[k] <= 0 || !s.context.takes(st, k) {
				continue
			}
			q := int(float64(quota[i][k]*1.12) + 0.999)
			if kd.body.Height > lower+plane.Tolerance {
				q = rest[k]
			}
			if q = min(q, rest[k]); q > 0 {
				wants[k] = q
			}
		}
		s.fillStorey(st, wants, each, seed+uint64(i))
		for _, p := range st.set {
			rest[p.kind]--
		}
	}
	for n := len(order) - 1; n >= 0; n-- {
		s.topUp(f.storeys[order[n]], rest, each, seed+100+uint64(n))
	}
}

// quotas is how many pots of each kind the estimate gives each storey.
func (s *Search) quotas(f *frame) [][]float64 {
	type slot struct {
		bin    bin
		storey int
	}
	var slots []slot
	for i, st := range f.storeys {
		area := s.freeArea(st)
		for _, z := range st.zones {
			slots = append(slots, slot{bin{z.takes, area / float64(len(st.zones))}, i})
		}
	}
	sort.SliceStable(slots, func(a, b int) bool { return slots[a].bin.takes < slots[b].bin.takes })
	bins := make([]bin, len(slots))
	quota := make([][]float64, len(slots))
	for i := range slots {
		bins[i] = slots[i].bin
		quota[i] = make([]float64, len(s.context.kinds))
	}
	s.assign(bins, s.areas(f.design.division), quota)
	out := make([][]float64, len(f.storeys))
	for i := range out {
		out[i] = make([]float64, len(s.context.kinds))
	}
	for i, sl := range slots {
		for k, q := range quota[i] {
			out[sl.storey][k] += q
		}
	}
	return out
}

// counts is how many pots of each kind there are to place.
func (s *Search) counts() []int {
	out := make([]int, len(s.context.kinds))
	for k, kd := range s.context.kinds {
		out[k] = len(kd.free)
	}
	return out
}

// fillStorey packs a storey anew with the wants beside what is fixed on it, and
// keeps the better of old and new.
func (s *Search) fillStorey(st *storey, wants map[int]int, work int64, seed uint64) {
	if st.sealed || len(wants) == 0 {
		return
	}
	s.partFume(st, wants)
	sp := s.context.problemOf(st, wants, st.fixed)
	res, err := packing.Fill(sp.problem, s.seed*1000003+seed, work)
	if err != nil {
		return
	}
	s.spent += res.Work
	fresh := s.placedOf(sp, res)
	s.enter(st, fresh)
	if s.better(fresh, st.set) {
		st.set = fresh
	}
}

// placedOf reads a packing result back as placed pots, without names yet.
func (s *Search) placedOf(sp *shelfProblem, res packing.Result) []placed {
	var out []placed
	for _, p := range res.Set {
		if p.Fixed {
			continue
		}
		out = append(out, placed{kind: sp.kinds[p.Kind], at: p.At, turn: p.Turn})
	}
	return out
}

// worth is the musts' value and the whole value of placed pots.
func (s *Search) worth(set []placed) (musts, value float64) {
	for _, p := range set {
		k := s.context.kinds[p.kind]
		value += k.value
		if k.must {
			musts += k.value
		}
	}
	return musts, value
}

// better says whether one set of pots is worth more than another.
func (s *Search) better(a, b []placed) bool {
	am, av := s.worth(a)
	bm, bv := s.worth(b)
	if am != bm {
		return am > bm
	}
	return av > bv+1e-9
}

// topUp lets everything that is left onto a storey, beside or instead of what
// stands there, and counts down what is left.
func (s *Search) topUp(st *storey, rest []int, work int64, seed uint64) {
	if st.sealed {
		return
	}
	wants := map[int]int{}
	more := false
	for k := range s.context.kinds {
		if s.context.movable(k) && rest[k] > 0 && s.context.takes(st, k) {
			wants[k] = rest[k]
			more = true
		}
	}
	if !more {
		return
	}
	for _, p := range st.set {
		rest[p.kind]++
		wants[p.kind] = max(wants[p.kind], 0) + 1
	}
	// Beside what stands there first: cheap, and it keeps what is good.
	s.addBeside(st, wants, work/2, seed)
	s.fillStorey(st, wants, work, seed+7)
	for _, p := range st.set {
		rest[p.kind]--
	}
}

// addBeside adds wants into the gaps of a storey without moving anything.
func (s *Search) addBeside(st *storey, wants map[int]int, work int64, seed uint64) {
	more := map[int]int{}
	for k, n := range wants {
		more[k] = n
	}
	for _, p := range st.set {
		more[p.kind]--
	}
	for k, n := range more {
		if n <= 0 {
			delete(more, k)
		}
	}
	if len(more) == 0 {
		return
	}
	s.partFume(st, more)
	standing := append(append([]placed(nil), st.fixed...), st.set...)
	sp := s.context.problemOf(st, more, standing)
	res, err := packing.Fill(sp.problem, s.seed*1000003+seed, work)
	if err != nil {
		return
	}
	s.spent += res.Work
	st.set = append(st.set, s.placedOf(sp, res)...)
	s.enter(st, st.set)
}

// partFume keeps ware that takes colour from fume off a storey that has, or is
// to have, ware that gives it.
func (s *Search) partFume(st *storey, wants map[int]int) {
	gives, takes := 0.0, 0.0
	tally := func(k int, n float64) {
		switch s.context.kinds[k].fume {
		case fumeGives:
			gives += float64(n * s.context.kinds[k].value)
		case fumeTakes:
			takes += float64(n * s.context.kinds[k].value)
		}
	}
	for _, p := range st.fixed {
		tally(p.kind, 1e6)
	}
	for _, p := range st.set {
		tally(p.kind, 1000)
	}
	for k := range s.context.kinds {
		tally(k, float64(wants[k]))
	}
	if gives == 0 || takes == 0 {
		return
	}
	drop := fumeTakes
	if takes > gives {
		drop = fumeGives
	}
	for k := range s.context.kinds {
		if s.context.kinds[k].fume == drop {
			delete(wants, k)
		}
	}
}

// spread evens out the storeys of a finished plan.
func (s *Search) spread(f *frame, work int64) {
	each := max(work/int64(len(f.storeys)+1), 1)
	for i, st := range f.storeys {
		if st.sealed || len(st.set) == 0 {
			continue
		}
		s.spreadStorey(st, each, uint64(i))
	}
}

func (s *Search) spreadStorey(st *storey, work int64, seed uint64) {
	sp, r := s.standingOn(st, st.set)
	r = packing.Spread(sp.problem, r, drawnApart(), s.seed*1000003+seed, work)
	r = packing.Scatter(sp.problem, r, drawnApart())
	s.spent += r.Work
	if set := s.placedOf(sp, r); len(set) == len(st.set) {
		st.set = set
	}
}

// comfort is the slack beyond the plan distance, mm, past which drawing pots
// apart is of no use.
const comfort = 20

// drawnApart is how far pots are drawn apart: half as far from the edge as from
// each other, and seven tenths from posts.
func drawnApart() packing.Ease { return packing.Ease{Comfort: comfort, Edge: 0.5, Obstacle: 0.7} }

// arrangement is the frame's towers with all pots named and set.
func (s *Search) arrangement(f *frame) []layout.Tower {
	towers := layout.CloneTowers(f.towers)
	next := make([]int, len(s.context.kinds))
	for i, st := range f.storeys {
		level := &towers[f.at[i].tower].Levels[f.at[i].level]
		for _, p := range st.fixed {
			if p.pot.Ware == "" {
				p.pot = s.context.kinds[p.kind].free[next[p.kind]]
				next[p.kind]++
			}
			level.Set = append(level.Set, layout.Placement{Pot: p.pot, At: p.at, Turn: p.turn, Locked: p.lock})
		}
		for _, p := range st.set {
			pot := s.context.kinds[p.kind].free[next[p.kind]]
			next[p.kind]++
			level.Set = append(level.Set, layout.Placement{Pot: pot, At: p.at, Turn: p.turn})
		}
	}
	return towers
}
