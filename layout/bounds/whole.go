package bounds

import (
	"math"
	"slices"
	"sort"
)

// Most steps of one bound: programs solved anew with cuts, and branches over
// whole numbers of levels.
const (
	mostRounds = 60
	mostFinds  = 24
	mostTurns  = 6 // choices of discs and prices tried for a solution that nothing breaks
	mostNodes  = 60
	// Rounds in which the bound falls by less than a thousandth, and sums of the
	// pivots of one bound, its branches included.
	mostStalled = 20
	mostWork    = 30e6
	sideWork    = 5e6 // of a bound that only tells the reason
)

// most is the bound on a gain, summed over the pots that are set and the levels
// they stand on: a linear program, to which cuts are added until none that it
// breaks is found, and branches over whole numbers of levels, as many as given.
func (c *counter) most(gain func(Kind) float64, level func(takes float64) float64, nodes int) float64 {
	v := c.start(gain, level)
	// As if all pots stood on one level, and everywhere: what breaks that is
	// where to begin.
	all := make([]float64, len(v.program.gain))
	for p := range v.pots {
		for k, i := range v.pots[p] {
			if i >= 0 {
				all[i] = float64(c.load.Kinds[k].Count)
			}
		}
	}
	if len(c.cuts) == 0 {
		c.find(v, all)
	}
	used := map[int]bool{}
	c.enter(v, all, used, 1, 3*mostEnter)
	finds, work := mostFinds, int(mostWork)
	if nodes == 0 {
		finds, work = 2, sideWork
	}
	bound, x, used := c.tighten(v, used, mostRounds, finds, work)
	if nodes == 0 || x == nil {
		return bound
	}
	return c.branched(v, bound, x, used, nodes)
}

// tighten solves a program with cuts; used are those it has already. Its x is
// nil where nothing keeps all conditions.
func (c *counter) tighten(v *variables, used map[int]bool, rounds, finds, work int) (bound float64, x []float64, now map[int]bool) {
	now = map[int]bool{}
	for i := range used {
		now[i] = true
	}
	prices, x := v.program.solve()
	bound = v.program.bound(prices)
	stalled := 0
	for range rounds {
		if stalled >= mostStalled || v.program.spent() > work {
			break
		}
		if v.program.nothing() {
			return math.Inf(-1), nil, now
		}
		more := c.enter(v, x, now, mostAlike, mostEnter)
		if !more {
			found := false
			for again := 0; again < mostTurns && finds > 0 && !found; again++ {
				finds--
				found = c.find(v, x)
			}
			if !found {
				break
			}
			if !c.enter(v, x, now, mostAlike, mostEnter) {
				break
			}
		}
		prices, x = v.program.solve()
		next := v.program.bound(prices)
		if stalled++; next < bound*(1-1e-3) {
			stalled = 0
		}
		bound = math.Min(bound, next)
	}
	if v.program.nothing() {
		return math.Inf(-1), nil, now
	}
	return bound, x, now
}

// Most cuts that enter a program at once: in all, and of one ground and height.
const (
	mostEnter = 60
	mostAlike = 2
)

// enter adds those of the cuts found so far that a solution breaks most.
func (c *counter) enter(v *variables, x []float64, used map[int]bool, alikes, most int) bool {
	type offer struct {
		cut int
		by  float64
	}
	var list []offer
	for i := range c.cuts {
		if !used[i] {
			if by := c.over(v, x, &c.cuts[i]); by > broken {
				list = append(list, offer{i, by})
			}
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return list[a].by > list[b].by })
	alike := map[[2]int]int{}
	entered := 0
	for _, o := range list {
		k := &c.cuts[o.cut]
		if at := [2]int{k.ground, k.from}; alike[at] < alikes && entered < most {
			alike[at]++
			entered++
			v.program.add(0, c.row(v, k))
			used[o.cut] = true
		}
	}
	return entered > 0
}

// open is a branch that has not been followed.
type open struct {
	program *program
	bound   float64
	x       []float64
	used    map[int]bool
}

// branched is the greatest bound of branches in which the numbers of levels
// that take so much or more are whole. It follows the branch of the greatest
// bound, as often as nodes says; what is left open then counts as it stands.
func (c *counter) branched(v *variables, bound float64, x []float64, used map[int]bool, nodes int) float64 {
	list := []open{{v.program, bound, x, used}}
	for ; nodes > 0 && v.program.spent() <= mostWork; nodes-- {
		at := 0
		for i := range list {
			if list[i].bound > list[at].bound {
				at = i
			}
		}
		if len(list) == 0 {
			return 0
		}
		o := list[at]
		row, parts := c.fraction(v, o.x)
		if row == nil {
			return o.bound
		}
		list = append(list[:at], list[at+1:]...)
		for _, up := range []bool{false, true} {
			w := *v
			w.program = o.program.fork()
			limit := math.Floor(parts)
			branch := row
			if up {
				branch = make([]float64, len(row))
				for i := range row {
					branch[i] = -row[i]
				}
				limit = -limit - 1
			}
			w.program.add(limit, branch)
			b, x, used := c.tighten(&w, o.used, 2, 1, mostWork)
			if x != nil {
				list = append(list, open{w.program, math.Min(b, o.bound), x, used})
			}
		}
	}
	most := 0.0
	for _, o := range list {
		most = math.Max(most, o.bound)
	}
	return most
}

// fraction is the number of levels, or of shelves under several rooms, that is
// farthest from a whole number in a solution; nil where all are whole.
func (c *counter) fraction(v *variables, x []float64) (row []float64, parts float64) {
	const whole = 1e-5
	far := whole
	offer := func(visit func(func(int))) {
		sum := 0.0
		visit(func(i int) { sum += x[i] })
		off := math.Abs(sum - math.Round(sum))
		if off > far {
			far, parts = off, sum
			row = make([]float64, len(x))
			visit(func(i int) { row[i] = 1 })
		}
	}
	// Deep levels and others together first: there are fewer ways.
	for p := range v.under {
		if q := c.twin(p); q >= 0 {
			for t := range c.takes {
				offer(func(visit func(int)) { v.levels(p, t, visit); v.levels(q, t, visit) })
			}
		}
	}
	if row != nil {
		return row, parts
	}
	for p := range v.under {
		for t := range c.takes {
			offer(func(visit func(int)) { v.levels(p, t, visit) })
		}
	}
	for _, at := range v.shelf {
		if at >= 0 {
			offer(func(visit func(int)) { visit(at) })
		}
	}
	return row, parts
}

// twin is where the deep levels of a place are listed, or -1.
func (c *counter) twin(p int) int {
	a := &c.load.Places[p]
	for q := p + 1; q < len(c.load.Places) && !a.Deep; q++ {
		b := &c.load.Places[q]
		if b.Deep && b.Name == a.Name && b.Stock == a.Stock && slices.Equal(a.Columns, b.Columns) && len(a.Sides) == len(b.Sides) {
			return q
		}
	}
	return -1
}
