package order

import (
	"math"
	"sort"

	"threepost/layout"
	"threepost/layout/stacks"
)

// stage is one of the two things done to a level: its shelf is laid, or its
// posts and pots are set.
type stage struct {
	level int
	pots  bool
}

// sequence is the order of the stages of all levels.
type sequence struct {
	stages []stage
	waits  [][]int // per level: levels of other towers whose shelves it waits for
}

// sequenceOf orders laying shelves and setting pots over all towers.
//
// From the bottom up, and of what can be done the lowest shelf first; but
// where pots will rise past a shelf of another tower, that shelf is laid
// before them: a shelf that is let down beside standing pots knocks them.
//
// Law: there is always such an order. Give the laying of a shelf its height,
// and the setting of a level the height of its tallest pot: everything that
// must come before is lower.
func sequenceOf(b *stacks.Built) sequence {
	n := len(b.Levels)
	g := &graph{after: make([][]int, 2*n), need: make([]int, 2*n)}
	rise := rises(b)
	over := make([][]int, n)
	for l := range b.Levels {
		g.add(2*l, 2*l+1)
		over[l] = overs(b, l)
		for _, x := range over[l] {
			g.add(2*l+1, 2*x)
			rise[l] = math.Min(rise[l], b.Levels[x].Top)
		}
	}
	hand := b.Load.Limits(layout.HandRoom).Plan
	waits := make([][]int, n)
	for l := range b.Levels {
		for x := range b.Levels {
			if b.Levels[x].Tower != b.Levels[l].Tower && b.Levels[x].Top+hand < rise[l] {
				g.add(2*x, 2*l+1)
				if b.Levels[x].Top > b.Levels[l].Top {
					waits[l] = append(waits[l], x)
				}
			}
		}
	}
	done := g.order(func(i, j int) bool {
		a, c := &b.Levels[i/2], &b.Levels[j/2]
		if a.Top != c.Top {
			return a.Top < c.Top
		}
		return i < j
	})
	s := sequence{waits: waits}
	for _, i := range done {
		s.stages = append(s.stages, stage{level: i / 2, pots: i%2 == 1})
	}
	return s
}

// rises is how high the pots of each level reach, mm over the floor.
func rises(b *stacks.Built) []float64 {
	rise := make([]float64, len(b.Levels))
	for l := range b.Levels {
		rise[l] = b.Levels[l].Top
	}
	for i := range b.Pots {
		l := b.Pots[i].Level
		rise[l] = math.Max(rise[l], b.Pots[i].Solid.Top())
	}
	return rise
}

// overs lists the levels whose shelves cannot go in before a level is set:
// those that stand on it, and those that lie over it.
func overs(b *stacks.Built, l int) []int {
	seen := map[int]bool{}
	for _, x := range b.Levels[l].Above {
		seen[x] = true
	}
	own := b.Towers[b.Levels[l].Tower].Levels
	if k := b.Levels[l].Number; k < len(own) {
		seen[own[k]] = true
	}
	for t := range b.Towers {
		for _, on := range b.Towers[t].On {
			if on == l && len(b.Towers[t].Levels) > 0 {
				seen[b.Towers[t].Levels[0]] = true
			}
		}
	}
	out := make([]int, 0, len(seen))
	for x := range seen {
		if b.Levels[x].Top > b.Levels[l].Top {
			out = append(out, x)
		}
	}
	sort.Ints(out)
	return out
}

// graph is a before-relation.
type graph struct {
	after [][]int // what comes after each
	need  []int   // how many come before each
}

func (g *graph) add(first, second int) {
	g.after[first] = append(g.after[first], second)
	g.need[second]++
}

// order is the topological order in which, of what is free, the least goes
// first. What is in a cycle is left out.
func (g *graph) order(less func(i, j int) bool) []int {
	need := append([]int(nil), g.need...)
	var free, out []int
	for i, n := range need {
		if n == 0 {
			free = append(free, i)
		}
	}
	for len(free) > 0 {
		best := 0
		for k := range free {
			if less(free[k], free[best]) {
				best = k
			}
		}
		i := free[best]
		free = append(free[:best], free[best+1:]...)
		out = append(out, i)
		for _, j := range g.after[i] {
			if need[j]--; need[j] == 0 {
				free = append(free, j)
			}
		}
	}
	return out
}
