package statics

import (
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
)

// footing is what stands on what: it is read from a built load once.
type footing struct {
	b        *stacks.Built
	posts    [][]int // per shelf: the posts under it
	standing [][]int // per shelf: the posts that stand on it
	under    []int   // per post: the shelf it stands on, or -1
	floor    []bool  // per post: it stands on the floor
	pots     []int   // per pot: the shelf it stands on, or -1
	down     []int   // shelves from the top down
}

// footings finds what every post and pot stands on. A post that misses every
// shelf below it is given to the nearest: what comes of that shows as a
// balance point outside.
func footings(b *stacks.Built) *footing {
	f := &footing{
		b:        b,
		posts:    make([][]int, len(b.Shelves)),
		standing: make([][]int, len(b.Shelves)),
		under:    make([]int, len(b.Posts)),
		floor:    make([]bool, len(b.Posts)),
		pots:     make([]int, len(b.Pots)),
		down:     make([]int, len(b.Shelves)),
	}
	for i := range b.Posts {
		p := &b.Posts[i]
		for _, s := range p.Shelves {
			f.posts[s] = append(f.posts[s], i)
		}
		f.under[i], f.floor[i] = stands(b, p)
		if f.under[i] >= 0 {
			f.standing[f.under[i]] = append(f.standing[f.under[i]], i)
		}
	}
	for i := range b.Pots {
		f.pots[i] = b.Pots[i].Shelf
		if f.pots[i] < 0 {
			f.pots[i] = deepest(b, []int{b.Pots[i].Level}, b.Pots[i].At)
		}
	}
	for i := range f.down {
		f.down[i] = i
	}
	sort.SliceStable(f.down, func(i, j int) bool { return b.Shelves[f.down[i]].Top > b.Shelves[f.down[j]].Top })
	return f
}

// Standing lists the posts that stand on each shelf (as Built.Shelves), and
// those that stand on the floor.
func Standing(b *stacks.Built) (on [][]int, floor []int) {
	on = make([][]int, len(b.Shelves))
	for i := range b.Posts {
		s, down := stands(b, &b.Posts[i])
		switch {
		case down:
			floor = append(floor, i)
		case s >= 0:
			on[s] = append(on[s], i)
		}
	}
	return on, floor
}

// stands is the shelf a post stands on, -1 where it is the floor or nothing.
func stands(b *stacks.Built, p *stacks.Post) (shelf int, floor bool) {
	below, floor := levelsUnder(b, p.Level)
	if floor || p.Bottom <= plane.Tolerance { // a tower may stand half on the floor
		return -1, true
	}
	return deepest(b, below, p.At), false
}

// levelsUnder lists the levels that the posts of a level stand on, or tells
// that they stand on the floor.
func levelsUnder(b *stacks.Built, level int) (levels []int, floor bool) {
	v := &b.Levels[level]
	t := &b.Towers[v.Tower]
	if v.Number > 1 && v.Number-2 < len(t.Levels) {
		return t.Levels[v.Number-2 : v.Number-1], false
	}
	return t.On, len(t.On) == 0
}

// deepest is the shelf of the levels in whose outline p lies deepest, or -1
// when they have none.
func deepest(b *stacks.Built, levels []int, p [2]float64) int {
	best, depth := -1, math.Inf(-1)
	for _, l := range levels {
		if l < 0 || l >= len(b.Levels) {
			continue
		}
		for _, s := range b.Levels[l].Shelves {
			if d := b.Shelves[s].Outline.Depth(p); d > depth || best < 0 {
				best, depth = s, d
			}
		}
	}
	return best
}
