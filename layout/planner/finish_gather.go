package planner

import (
	"math/bits"
	"sort"

	"threepost/layout"
	"threepost/layout/packing"
)

// gatherWork is the work, in units, after which no further gathering is tried.
const gatherWork = 20000

// admitWork is the work after which pots are only pressed for room any longer
// where no more than nearlyAll lack it.
const (
	admitWork = 300
	admitMore = 500
	nearlyAll = 2
)

// fewPots of a kind, or fewer, are strays on a level while others of the kind
// stand elsewhere.
const fewPots = 2

// gathering is a change by which a kind stands on fewer levels, or no longer
// as strays: its pots leave some storeys for others, and pots of another kind
// may go back in exchange.
type gathering struct {
	kind   int
	from   uint64 // the storeys that its pots leave, a bit each
	to     int    // the storey that takes them first
	spill  bool   // what has no room there may go to other storeys where it stands
	back   int    // the kind that goes from there to the storey left; -1: none
	amount int    // so many of it
}

// mostBits is how many storeys the bits of a gathering name; on more nothing is
// gathered.
const mostBits = 64

// gathered is a candidate in which the pots of a kind stand on fewer levels:
// fewer kinds on a level are sooner set and easier found again, and a mug among
// bowls asks to be knocked. Nothing that a plan is judged by gets worse, no
// level becomes tighter than the tightest (or than a hand wants), and no more
// heavy ware stands out of reach.
func (s *Search) gathered(c *candidate) *candidate {
	if len(c.frame.storeys) > mostBits {
		return c
	}
	until := s.spent + gatherWork
	bar := s.tightest(c.frame)
	failed := map[gathering]bool{}
	for {
		found := false
		for _, g := range s.gatherings(c.frame) {
			if s.spent >= until {
				return c
			}
			if failed[g] {
				continue
			}
			now := s.gatherBy(c.frame, g, bar)
			if asGood(now, c) && s.scatter(now.frame) < s.scatter(c.frame) && s.asWellPlaced(now.frame, c.frame) {
				c, found = now, true
				break
			}
			failed[g] = true
		}
		if !found {
			return c
		}
	}
}

// asWellPlaced says whether a frame has no more heavy and wide ware out of reach
// than another and its sides carry about as much.
func (s *Search) asWellPlaced(now, was *frame) bool {
	look := func(f *frame) (deep int, apart float64) {
		var side []float64
		whole := 0.0
		for _, x := range f.design.division.sites {
			sum := 0.0
			for _, st := range f.storeys {
				if mass, _ := s.heft(st); st.site == x {
					sum += mass
				}
			}
			side = append(side, sum)
			whole += sum
		}
		for _, st := range f.storeys {
			if _, big := s.heft(st); s.context.load.Kiln.Opens != layout.Front && s.context.load.Kiln.Height-st.top > reachDeep {
				deep += big
			}
		}
		if len(side) == 2 && whole > 0 {
			apart = abs(side[0]-side[1]) / whole
		}
		return deep, apart
	}
	deepNow, apartNow := look(now)
	deepWas, apartWas := look(was)
	return deepNow <= deepWas && (apartNow <= unlike || apartNow <= apartWas)
}

// gatherings are the changes of a frame that would leave its ware less
// scattered and for which there is room by area, the most promising first.
func (s *Search) gatherings(f *frame) []gathering {
	m := s.measured(f)
	var all []promised
	for k, kd := range s.context.kinds {
		if kd.cones != nil {
			continue
		}
		for _, g := range s.gatheringsOf(f, m.tally, k) {
			if p, ok := m.promise(g); ok && p.gain > 0 {
				all = append(all, p)
			}
		}
	}
	sort.SliceStable(all, func(a, b int) bool {
		if all[a].gain != all[b].gain {
			return all[a].gain > all[b].gain
		}
		return all[a].full < all[b].full-1e-9
	})
	out := make([]gathering, len(all))
	for i, r := range all {
		out[i] = r.gathering
	}
	return out
}

// gatheringsOf are the ways in which the pots of one kind might leave storeys:
// one, two or all but one of those they stand on, for one where they stand or
// another, and in exchange for a kind that stands there.
func (s *Search) gatheringsOf(f *frame, tally [][]int, k int) []gathering {
	var homes []int
	var mask uint64
	for i, st := range f.storeys {
		if tally[i][k] > 0 && !st.sealed {
			homes = append(homes, i)
			mask |= 1 << i
		}
	}
	if len(homes) < 2 {
		return nil
	}
	var out []gathering
	for j, st := range f.storeys {
		if st.sealed || !s.context.takes(st, k) {
			continue
		}
		to := uint64(1) << j
		if all := mask &^ to; bits.OnesCount64(all) > 2 { // one and two follow below
			out = append(out, gathering{kind: k, from: all, to: j, back: -1})
		}
		for a, i := range homes {
			if i == j {
				continue
			}
			one := uint64(1) << i
			out = append(out, gathering{kind: k, from: one, to: j, back: -1, spill: mask&to != 0})
			for _, other := range homes[a+1:] {
				if other != j {
					out = append(out, gathering{kind: k, from: one | 1<<other, to: j, back: -1})
				}
			}
			for q, qd := range s.context.kinds {
				if q == k || qd.cones != nil || tally[j][q] == 0 || !s.context.takes(f.storeys[i], q) {
					continue
				}
				out = append(out, gathering{kind: k, from: one, to: j, back: q, amount: tally[j][q]})
				like := int(float64(float64(tally[i][k])*s.ground(k))/s.ground(q) + 0.999)
				if like < tally[j][q] {
					out = append(out, gathering{kind: k, from: one, to: j, back: q, amount: like})
				}
			}
		}
	}
	return out
}

// gatherBy is a frame after a gathering, checked; nil where the pots find no
// room with so much slack.
func (s *Search) gatherBy(f *frame, g gathering, bar float64) *candidate {
	next := f.clone()
	left := 0
	for i, st := range next.storeys {
		if g.from>>i&1 == 1 {
			left += drop(st, g.kind, -1)
		}
	}
	to := next.storeys[g.to]
	if g.back >= 0 {
		from := next.storeys[bits.TrailingZeros64(g.from)]
		if drop(to, g.back, g.amount) != g.amount || s.admit(to, g.kind, left) != left || s.admit(from, g.back, g.amount) != g.amount ||
			!s.eased(from, bar) || !s.eased(to, bar) {
			return nil
		}
		return s.verify(next)
	}
	for n := range next.storeys {
		j := (g.to + n) % len(next.storeys)
		st := next.storeys[j]
		if j != g.to && (!g.spill || g.from>>j&1 == 1 || howMany(st.set, g.kind) == 0) {
			continue
		}
		had := st.set
		more := s.admit(st, g.kind, left)
		if more == 0 {
			continue
		}
		if !s.eased(st, bar) {
			st.set = had
			continue
		}
		if left -= more; left == 0 {
			return s.verify(next)
		}
	}
	return nil
}

// drop takes so many pots of a kind off a storey, all where most is negative,
// and answers with how many.
func drop(st *storey, kind, most int) int {
	var stay []placed
	n := 0
	for _, p := range st.set {
		if p.kind == kind && n != most {
			n++
			continue
		}
		stay = append(stay, p)
	}
	st.set = stay
	return n
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

// admit sets as many as it can of so many more pots of a kind on a storey,
// beside all that stands there, and answers with how many.
func (s *Search) admit(st *storey, kind, count int) int {
	if st.sealed || count <= 0 || !s.context.takes(st, kind) {
		return 0
	}
	wants := map[int]int{kind: count}
	for _, p := range st.set {
		wants[p.kind]++
	}
	whole, had := len(wants), howMany(st.set, kind)
	if s.partFume(st, wants); len(wants) < whole {
		return 0
	}
	sp := s.context.problemOf(st, wants, st.fixed)
	for i := range sp.problem.Wants {
		w := &sp.problem.Wants[i]
		w.Must, w.Value = sp.kinds[w.Kind] != kind, 1
	}
	search, err := packing.NewSearch(sp.problem, s.seed*1000003+uint64(kind))
	if err != nil {
		return 0
	}
	asked := len(st.set) + count
	if !search.Step(admitWork) && len(s.placedOf(sp, search.Best()))+nearlyAll >= asked {
		search.Step(admitMore)
	}
	s.spent += search.Work()
	res := search.Best()
	more := howMany(s.placedOf(sp, res), kind) - had
	if more <= 0 || len(s.placedOf(sp, res)) != len(st.set)+more {
		return 0
	}
	st.set = s.placedOf(sp, res)
	return more
}

// eased draws the pots of a storey apart where they have less slack than asked,
// and reports whether they have it.
func (s *Search) eased(st *storey, bar float64) bool {
	sp, r := s.standingOn(st, st.set)
	if drawnApart().Least(sp.problem, r) >= bar {
		return true
	}
	r = packing.Spread(sp.problem, r, drawnApart(), s.seed*1000003, finishWork)
	s.spent += r.Work
	st.set = s.placedOf(sp, r)
	return drawnApart().Least(sp.problem, r) >= bar
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
