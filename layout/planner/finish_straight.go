package planner

import (
	"threepost/geometry/plane"
	"threepost/layout/packing"
)

// straight is a candidate with its oblong ware along the kiln's axes, as a
// person lays dishes, tiles and bakers, where that costs no pot and hardly any
// of the room between them: the whole storey laid out anew, else single pots
// turned where they stand.
func (s *Search) straight(c *candidate) *candidate {
	if c.frame.kept {
		return c
	}
	for i := range c.frame.storeys {
		if c.frame.storeys[i].sealed || !s.crooked(c.frame.storeys[i].set) {
			continue
		}
		f := c.frame.clone()
		if !s.layStraight(f.storeys[i]) {
			continue
		}
		if now := s.verify(f); asGood(now, c) {
			c = now
		}
	}
	return c
}

// oblong says whether a kind is longer than wide and nothing sticks out of it.
func (s *Search) oblong(k int) bool {
	b := s.context.kinds[k].body
	return s.context.kinds[k].cones == nil && b.Turns && b.Drawn.Oblong && len(b.Drawn.Handles) == 0
}

// crooked says whether some oblong pot lies off the axes.
func (s *Search) crooked(set []placed) bool {
	for _, p := range set {
		if s.oblong(p.kind) && quarter(p.turn) != p.turn {
			return true
		}
	}
	return false
}

// quarter is the nearest quarter turn, 0 or 90: an oblong thing looks alike
// after half a turn.
func quarter(turn float64) float64 {
	t := turn
	for t >= 180 {
		t -= 180
	}
	if t > 45 && t < 135 {
		return 90
	}
	return 0
}

// keepsRoom is the slack over the needs, mm, that a storey laid straight must
// leave where it had as much before.
const keepsRoom = 2

// layStraight lays the oblong pots of a storey straight and reports whether it
// did: as they lie now, all one way, or all the other way.
func (s *Search) layStraight(st *storey) bool {
	sp, r := s.standingOn(st, st.set)
	before := drawnApart().Least(sp.problem, r)
	bar := min(before, keepsRoom) - plane.Tolerance
	best := before - 1e9
	var laid []placed
	for _, way := range []func(float64) float64{
		quarter,
		func(float64) float64 { return 0 },
		func(float64) float64 { return 90 },
	} {
		set := append([]placed(nil), st.set...)
		for i, p := range set {
			if s.oblong(p.kind) {
				set[i].turn = way(p.turn)
			}
		}
		sp, r := s.stiff(st, set)
		if !packing.Valid(&sp.problem, r.Set) {
			res, err := packing.Fill(sp.problem, s.seed*1000003+uint64(len(set)), finishWork)
			if err != nil {
				continue
			}
			s.spent += res.Work
			if r = res; len(s.placedOf(sp, r)) != len(set) {
				continue
			}
		}
		r = packing.Spread(sp.problem, r, drawnApart(), s.seed*1000003, finishWork)
		s.spent += r.Work
		if least := drawnApart().Least(sp.problem, r); least >= bar && least > best+0.5 {
			best, laid = least, s.placedOf(sp, r)
		}
	}
	if laid != nil {
		st.set = laid
		return true
	}
	return s.turnSingly(st, bar)
}

// turnSingly turns the oblong pots of a storey straight one by one, where they
// stand or a little beside, as many as the room allows.
func (s *Search) turnSingly(st *storey, bar float64) bool {
	turned := false
	for i, p := range st.set {
		if !s.oblong(p.kind) || quarter(p.turn) == p.turn {
			continue
		}
		first := quarter(p.turn)
		for _, n := range []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17} {
			to := plane.Vec{grid(p.at[0] + float64(4*float64(n%9%3-1))), grid(p.at[1] + float64(4*float64(n%9/3-1)))}
			turn := first
			if n >= 9 {
				turn = 90 - first
			}
			set := append([]placed(nil), st.set...)
			set[i].at, set[i].turn = to, turn
			sp, r := s.standingOn(st, set)
			s.spent++
			if packing.Valid(&sp.problem, r.Set) && drawnApart().Least(sp.problem, r) >= bar {
				st.set = set
				turned = true
				break
			}
		}
	}
	return turned
}

// stiff is a storey as a packing problem in which oblong pots keep the turns
// they have: each turn is a kind of its own that does not turn.
func (s *Search) stiff(st *storey, set []placed) (*shelfProblem, packing.Result) {
	sp, r := s.standingOn(st, set)
	p := &sp.problem
	whole := len(p.Kinds)
	type stiffKind struct {
		kind int
		turn float64
	}
	seen := map[stiffKind]int{}
	origin := make([]int, whole)
	for k := range origin {
		origin[k] = k
	}
	p.Wants = append([]packing.Want(nil), p.Wants...)
	for i := range r.Set {
		q := &r.Set[i]
		if q.Fixed || !s.oblong(sp.kinds[q.Kind]) {
			continue
		}
		at := stiffKind{q.Kind, q.Turn}
		k, ok := seen[at]
		if !ok {
			k = len(p.Kinds)
			seen[at] = k
			kind := p.Kinds[q.Kind]
			kind.Turns, kind.Tried = false, []float64{q.Turn}
			p.Kinds = append(p.Kinds, kind)
			sp.kinds = append(sp.kinds, sp.kinds[q.Kind])
			origin = append(origin, q.Kind)
			for o := range p.Obstacles {
				p.Obstacles[o].Need = append(p.Obstacles[o].Need, p.Obstacles[o].Need[q.Kind])
			}
			w := p.Wants[q.Want]
			w.Kind, w.Count = k, 0
			p.Wants = append(p.Wants, w)
		}
		p.Wants[q.Want].Count--
		q.Kind = k
		q.Want = len(p.Wants) - len(p.Kinds) + k
		p.Wants[q.Want].Count++
	}
	need := packing.NewNeeds(p.Kinds)
	for a := range p.Kinds {
		for b := a; b < len(p.Kinds); b++ {
			for pa := range p.Kinds[a].Parts {
				for pb := range p.Kinds[b].Parts {
					need.Set(a, pa, b, pb, p.Need[origin[a]][pa][origin[b]][pb])
				}
			}
		}
	}
	p.Need = need
	return sp, r
}
