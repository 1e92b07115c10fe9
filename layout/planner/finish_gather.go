package planner

import (
	"threepost/layout/packing"
)

// Stray pots: at most so many of a kind on a level, where another has at least
// enough of it; so many moves are tried at most.
const (
	fewPots    = 2
	enoughPots = 4
	mostMoves  = 12
)

// gathered is a candidate in which a pot or two that stand alone among other
// ware join those of their own kind, where these have room: fewer kinds on a
// level are sooner set and easier found again.
func (s *Search) gathered(c *candidate) *candidate {
	tries := 0
	bar := s.tightest(c.frame)
	for i := range c.frame.storeys {
		for k := range s.context.kinds {
			n := howMany(c.frame.storeys[i].set, k)
			if n == 0 || n > fewPots || c.frame.storeys[i].sealed || len(c.frame.storeys[i].set) == n {
				continue
			}
			for _, j := range s.homes(c.frame, i, k) {
				if tries++; tries > mostMoves {
					return c
				}
				if now := s.moved(c.frame, i, j, k, bar); asGood(now, c) {
					c = now
					break
				}
			}
		}
	}
	return c
}

func howMany(set []placed, kind int) int {
	n := 0
	for _, p := range set {
		if p.kind == kind {
			n++
		}
	}
	return n
}

// homes are the storeys on which enough pots of a kind stand.
func (s *Search) homes(f *frame, but, kind int) []int {
	var out []int
	for j, st := range f.storeys {
		if j != but && !st.sealed && howMany(st.set, kind) >= enoughPots {
			out = append(out, j)
		}
	}
	return out
}

// moved is a frame with all pots of a kind taken from one storey to another,
// checked; nil where they find no room there with so much slack.
func (s *Search) moved(f *frame, from, to, kind int, bar float64) *candidate {
	g := f.clone()
	a, b := g.storeys[from], g.storeys[to]
	var stay []placed
	set := append([]placed(nil), b.set...)
	for _, p := range a.set {
		if p.kind == kind {
			set = append(set, p)
		} else {
			stay = append(stay, p)
		}
	}
	wants := map[int]int{}
	for _, p := range set {
		wants[p.kind]++
	}
	sp := s.context.problemOf(b, wants, b.fixed)
	res, err := packing.Fill(sp.problem, s.seed*1000003+uint64(from), finishWork)
	if err != nil {
		return nil
	}
	s.spent += res.Work
	res = packing.Spread(sp.problem, res, drawnApart(), s.seed*1000003, finishWork)
	s.spent += res.Work
	placed := s.placedOf(sp, res)
	if len(placed) < len(set) || drawnApart().Least(sp.problem, res) < bar {
		return nil
	}
	a.set, b.set = stay, placed
	return s.verify(g)
}

// tightest is the slack of the tightest storey of a frame, mm, at most
// keepsRoom: no storey is made tighter than that.
func (s *Search) tightest(f *frame) float64 {
	least := float64(keepsRoom)
	for _, st := range f.storeys {
		sp, r := s.standingOn(st, st.set)
		least = min(least, drawnApart().Least(sp.problem, r))
	}
	return max(least, 0)
}
