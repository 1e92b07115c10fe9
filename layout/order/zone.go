package order

import (
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// liking is the order in which a hand would like to set a level's pots, by
// their place in the level's list, and what each was sorted by.
type liking struct {
	order  []int
	zone   []Zone
	center plane.Vec // what the ring goes round
}

// likingOf sorts the pots of a level as hands like it. Common practice: into a
// top-loader, standing at 6, the pots round the edge first, from the far side
// round; then the middle, far side first; tall narrow pots late, since a sleeve
// fells them; cones last. Into a front-loader back to front.
func likingOf(b *stacks.Built, level int) liking {
	pots := b.Levels[level].Pots
	k := liking{zone: make([]Zone, len(pots)), center: middleOf(b, level)}
	var parts [ConeZone + 1][]int
	for i, p := range pots {
		k.zone[i] = zoneOf(b, p, k.center)
		parts[k.zone[i]] = append(parts[k.zone[i]], i)
	}
	place := func(i int) plane.Vec { return b.Pots[pots[i]].At }
	for _, z := range []Zone{Middle, Late, Rows, ConeZone} {
		sort.SliceStable(parts[z], func(i, j int) bool {
			a, c := place(parts[z][i]), place(parts[z][j])
			if a[1] != c[1] {
				return a[1] > c[1]
			}
			return a[0] < c[0]
		})
	}
	parts[Ring] = round(parts[Ring], func(i int) plane.Vec { return plane.Sub(place(i), k.center) })
	for _, z := range []Zone{Rows, Ring, Middle, Late, ConeZone} {
		k.order = append(k.order, parts[z]...)
	}
	return k
}

// middleOf is what a ring on a level goes round: the kiln's middle where the
// level's shelves lie round or beside it, else their own.
func middleOf(b *stacks.Built, level int) plane.Vec {
	var mid plane.Vec
	shelves := b.Levels[level].Shelves
	for _, s := range shelves {
		o := &b.Shelves[s].Outline
		if o.Depth(plane.Vec{}) > -25 {
			return plane.Vec{}
		}
		mid = plane.Add(mid, plane.Scale(o.Centroid(), 1/float64(len(shelves))))
	}
	return mid
}

// zoneOf tells where a pot belongs.
func zoneOf(b *stacks.Built, p int, center plane.Vec) Zone {
	pot := &b.Pots[p]
	switch {
	case pot.Cones != nil:
		return ConeZone
	case tallNarrow(b.Load, pot):
		return Late
	case b.Load.Kiln.Opens == layout.Front:
		return Rows
	case pot.Shelf < 0:
		return Middle
	}
	// At the edge is a pot outside of which no other of its size would stand.
	width := math.Min(pot.Solid.Max[0]-pot.Solid.Min[0], pot.Solid.Max[1]-pot.Solid.Min[1])
	if outward(&b.Shelves[pot.Shelf].Outline, pot, center) < float64(0.6*width) {
		return Ring
	}
	return Middle
}

// tallNarrow tells whether a pot is higher than the rule's multiple of its
// foot.
func tallNarrow(l *layout.Load, pot *stacks.Pot) bool {
	limit := l.Limits(layout.TallNarrow).Plan
	lo, hi := pot.Body.Foot.Bounds()
	foot := math.Min(hi[0]-lo[0], hi[1]-lo[1]) + float64(2*pot.Body.FootR)
	return limit > 0 && foot > 0 && pot.Body.Height > float64(limit*foot)
}

// round sorts places about an origin into a ring. A closed ring starts at the
// place nearest to 12 o'clock and goes clockwise; an open one, on a half
// shelf, starts at its far end.
func round(items []int, at func(i int) plane.Vec) []int {
	if len(items) < 2 {
		return items
	}
	bearing := map[int]float64{}
	for _, i := range items {
		bearing[i] = plane.Bearing(at(i))
	}
	sort.SliceStable(items, func(i, j int) bool { return bearing[items[i]] < bearing[items[j]] })
	n := len(items)
	widest, start := -1.0, 0 // the widest empty stretch, and what follows it
	for i := range items {
		if gap := plane.NormalTurn(bearing[items[i]] - bearing[items[(i+n-1)%n]]); gap > widest {
			widest, start = gap, i
		}
	}
	if widest <= 100 { // closed
		start = 0
		for i := range items {
			if toTwelve(bearing[items[i]]) < toTwelve(bearing[items[start]]) {
				start = i
			}
		}
		return append(append([]int(nil), items[start:]...), items[:start]...)
	}
	open := append(append([]int(nil), items[start:]...), items[:start]...)
	if at(open[n-1])[1] > at(open[0])[1]+plane.Tolerance {
		for i, j := 0, n-1; i < j; i, j = i+1, j-1 {
			open[i], open[j] = open[j], open[i]
		}
	}
	return open
}

// toTwelve is how far a bearing is from 12 o'clock, degrees.
func toTwelve(bearing float64) float64 { return math.Min(bearing, 360-bearing) }
