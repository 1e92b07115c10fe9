package order

import (
	"sort"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/stacks"
)

// relation is the before-relation of the pots of one level, by their place in
// the level's list.
type relation struct {
	pots  []int              // into Built.Pots
	first [][]int            // first[j]: those that must stand before j
	after [][]int            // after[i]: those that must come after i
	lack  map[[2]int]float64 // mm that i lacks to be let down beside j: [i, j]
	stuck [][2]int           // pairs of which neither can be let down beside the other
}

// handRoom is the room for fingers beside a pot that is let down, mm: the
// rule's, but no more than the gap at which pots are planned to stand, so that
// bisque that touches can still be set.
func handRoom(l *layout.Load) float64 {
	hand := l.Limits(layout.HandRoom).Plan
	if gap := l.Limits(layout.PotToPot).Plan; gap < hand {
		hand = gap
	}
	if !(hand > 0) {
		return 0
	}
	return hand
}

// relationOf finds, for every two pots of a level that come near each other,
// which can be let down beside which.
func relationOf(b *stacks.Built, level int) *relation {
	pots := b.Levels[level].Pots
	r := &relation{
		pots:  pots,
		first: make([][]int, len(pots)),
		after: make([][]int, len(pots)),
		lack:  map[[2]int]float64{},
	}
	hand := handRoom(b.Load)
	byX := make([]int, len(pots))
	for i := range byX {
		byX[i] = i
	}
	box := func(i int) *solid.Placed { return &b.Pots[pots[i]].Solid }
	sort.SliceStable(byX, func(i, j int) bool { return box(byX[i]).Min[0] < box(byX[j]).Min[0] })
	for k, i := range byX {
		for _, j := range byX[k+1:] {
			if box(j).Min[0] > box(i).Max[0]+hand {
				break
			}
			if box(j).Min[1] <= box(i).Max[1]+hand && box(i).Min[1] <= box(j).Max[1]+hand {
				r.pair(min(i, j), max(i, j), box(min(i, j)), box(max(i, j)), hand)
			}
		}
	}
	for i := range r.first {
		sort.Ints(r.first[i])
		sort.Ints(r.after[i])
	}
	sort.Slice(r.stuck, func(i, j int) bool {
		a, c := r.stuck[i], r.stuck[j]
		return a[0] < c[0] || (a[0] == c[0] && a[1] < c[1])
	})
	return r
}

// pair relates two pots.
func (r *relation) pair(i, j int, a, c *solid.Placed, hand float64) {
	jLacks := solid.LowerDepth(a, c, hand) // j let down beside i
	iLacks := solid.LowerDepth(c, a, hand)
	jCan, iCan := jLacks <= plane.Tolerance, iLacks <= plane.Tolerance
	switch {
	case jCan && iCan:
		return
	case jCan:
		r.before(i, j, iLacks)
	case iCan:
		r.before(j, i, jLacks)
	default:
		r.stuck = append(r.stuck, [2]int{i, j})
		r.lack[[2]int{i, j}] = min(iLacks, jLacks)
	}
}

// before has i stand before j, since i lacks so many mm beside a standing j.
func (r *relation) before(i, j int, lack float64) {
	r.first[j] = append(r.first[j], i)
	r.after[i] = append(r.after[i], j)
	r.lack[[2]int{i, j}] = lack
}

// cycles lists what forbids every order of the level: the stuck pairs, and one
// shortest ring of each knot of pots that wait for each other.
func (r *relation) cycles(b *stacks.Built, level int) []Cycle {
	var out []Cycle
	for _, s := range r.stuck {
		out = append(out, r.cycle(b, level, s[:], r.lack[s]))
	}
	for _, knot := range r.knots() {
		ring := r.ring(knot)
		short := -1.0
		for k, i := range ring {
			if lack := r.lack[[2]int{i, ring[(k+1)%len(ring)]}]; short < 0 || lack < short {
				short = lack
			}
		}
		out = append(out, r.cycle(b, level, ring, short))
	}
	return out
}

func (r *relation) cycle(b *stacks.Built, level int, ring []int, short float64) Cycle {
	c := Cycle{Level: level, Short: short}
	for _, i := range ring {
		c.Pots = append(c.Pots, r.pots[i])
		c.Names = append(c.Names, b.Pots[r.pots[i]].Pot.String())
	}
	return c
}

// knots are the sets of pots that all wait, in the end, for each other, found
// by taking away what nothing holds back from either side and then gathering
// what reaches what.
func (r *relation) knots() [][]int {
	left := r.core()
	var out [][]int
	taken := map[int]bool{}
	for i := range r.pots {
		if !left[i] || taken[i] {
			continue
		}
		down, up := r.reach(i, r.after, left), r.reach(i, r.first, left)
		var knot []int
		for j := range r.pots {
			if down[j] && up[j] {
				knot = append(knot, j)
				taken[j] = true
			}
		}
		if len(knot) > 1 {
			out = append(out, knot)
		}
	}
	return out
}

// core is what is left of the level when pots that wait for none, and pots
// that none waits for, are taken away again and again.
func (r *relation) core() []bool {
	left := make([]bool, len(r.pots))
	ins, outs := make([]int, len(r.pots)), make([]int, len(r.pots))
	var queue []int
	for i := range left {
		left[i] = true
		ins[i], outs[i] = len(r.first[i]), len(r.after[i])
		if ins[i] == 0 || outs[i] == 0 {
			queue = append(queue, i)
		}
	}
	for len(queue) > 0 {
		i := queue[0]
		queue = queue[1:]
		if !left[i] {
			continue
		}
		left[i] = false
		for _, j := range r.after[i] {
			if ins[j]--; ins[j] == 0 {
				queue = append(queue, j)
			}
		}
		for _, j := range r.first[i] {
			if outs[j]--; outs[j] == 0 {
				queue = append(queue, j)
			}
		}
	}
	return left
}

// reach marks what can be reached from i over the ways, within left.
func (r *relation) reach(i int, ways [][]int, left []bool) []bool {
	seen := make([]bool, len(r.pots))
	seen[i] = true
	for queue := []int{i}; len(queue) > 0; {
		k := queue[0]
		queue = queue[1:]
		for _, j := range ways[k] {
			if left[j] && !seen[j] {
				seen[j] = true
				queue = append(queue, j)
			}
		}
	}
	return seen
}

// ring is a shortest ring of before-relations through the first pot of a knot
// that lies on one of the shortest; each stands before the next.
func (r *relation) ring(knot []int) []int {
	in := make([]bool, len(r.pots))
	for _, i := range knot {
		in[i] = true
	}
	var best []int
	for _, start := range knot {
		from := map[int]int{}
		for queue := []int{start}; len(queue) > 0; {
			k := queue[0]
			queue = queue[1:]
			for _, j := range r.after[k] {
				if !in[j] {
					continue
				}
				if j == start {
					queue = nil
					var ring []int
					for at := k; at != start; at = from[at] {
						ring = append([]int{at}, ring...)
					}
					if ring = append([]int{start}, ring...); best == nil || len(ring) < len(best) {
						best = ring
					}
					break
				}
				if _, seen := from[j]; !seen {
					from[j] = k
					queue = append(queue, j)
				}
			}
		}
	}
	return best
}
