package order

import (
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout/stacks"
)

// handy is how far off a thing may be and still say where a pot goes, mm:
// three fingers.
const handy = 60

// looker finds what stands near the pots of one level.
type looker struct {
	b     *stacks.Built
	posts []PostStep
	near  map[int][]Neighbour // per pot (into Built.Pots): pots of the level near it, from the nearest
}

// newLooker finds, for every pot of a level, the others near it.
func newLooker(b *stacks.Built, level int, posts []PostStep) *looker {
	k := &looker{b: b, posts: posts, near: map[int][]Neighbour{}}
	pots := append([]int(nil), b.Levels[level].Pots...)
	sort.SliceStable(pots, func(i, j int) bool { return b.Pots[pots[i]].Solid.Min[0] < b.Pots[pots[j]].Solid.Min[0] })
	for n, i := range pots {
		a := &b.Pots[i].Solid
		for _, j := range pots[n+1:] {
			c := &b.Pots[j].Solid
			if c.Min[0] > a.Max[0]+handy {
				break
			}
			if c.Min[1] > a.Max[1]+handy || a.Min[1] > c.Max[1]+handy {
				continue
			}
			if gap, w := solid.Gap(a, c); gap <= handy {
				k.near[i] = append(k.near[i], Neighbour{Kind: NearPot, Pot: j, Gap: gap, Toward: toward(b.Pots[i].At, planOf(w.B), b.Pots[j].At)})
				k.near[j] = append(k.near[j], Neighbour{Kind: NearPot, Pot: i, Gap: gap, Toward: toward(b.Pots[j].At, planOf(w.A), b.Pots[i].At)})
			}
		}
	}
	for _, list := range k.near {
		sortNear(list)
	}
	return k
}

func planOf(v [3]float64) plane.Vec { return plane.Vec{v[0], v[1]} }

// toward is the bearing from a pot to the nearest point of another, or to its
// middle where that point lies under the pot's own middle.
func toward(from, point, middle plane.Vec) float64 {
	if way := plane.Sub(point, from); plane.Length(way) > 1 {
		return plane.Bearing(way)
	}
	return plane.Bearing(plane.Sub(middle, from))
}

// sortNear sorts from the nearest; equals by bearing.
func sortNear(list []Neighbour) {
	sort.SliceStable(list, func(i, j int) bool {
		if list[i].Gap != list[j].Gap {
			return list[i].Gap < list[j].Gap
		}
		return list[i].Toward < list[j].Toward
	})
}

// of chooses the neighbours of a pot among the posts and the pots that stand
// already (number tells, by pot: its order number, present when it stands).
func (k *looker) of(pot int, number map[int]int) []Neighbour {
	var list []Neighbour
	for _, n := range k.near[pot] {
		if at, stands := number[n.Pot]; stands {
			n.Number = at
			list = append(list, n)
		}
	}
	p := &k.b.Pots[pot]
	for _, post := range k.posts {
		w := &k.b.Posts[post.Post]
		if gap, at := solid.Gap(&p.Solid, &w.Solid); gap <= handy {
			list = append(list, Neighbour{Kind: NearPost, Pot: -1, Letter: post.Letter, Gap: gap, Toward: toward(p.At, planOf(at.B), w.At)})
		}
	}
	sortNear(list)
	return choose(list, k.edge(p))
}

// edge is the shelf's edge as a neighbour; nil where it is far.
func (k *looker) edge(p *stacks.Pot) *Neighbour {
	if p.Shelf < 0 {
		return nil
	}
	gap, bearing := nearestEdge(&k.b.Shelves[p.Shelf].Outline, p)
	if gap > 100 {
		return nil
	}
	return &Neighbour{Kind: NearEdge, Pot: -1, Gap: gap, Toward: bearing}
}

// choose takes the two that say best where a pot goes: near, and at least 60
// degrees apart; further apart is worth a little. With no such two it takes
// the nearest, and the edge where that points elsewhere.
func choose(list []Neighbour, edge *Neighbour) []Neighbour {
	if len(list) > 10 {
		list = list[:10]
	}
	best := math.Inf(1)
	var pair []Neighbour
	for i := range list {
		for j := i + 1; j < len(list); j++ {
			apart := between(list[i].Toward, list[j].Toward)
			if apart < 60 {
				continue
			}
			if cost := list[i].Gap + list[j].Gap - float64(0.03*apart); cost < best {
				best, pair = cost, []Neighbour{list[i], list[j]}
			}
		}
	}
	switch {
	case pair != nil:
		return pair
	case len(list) == 0 && edge != nil:
		return []Neighbour{*edge}
	case len(list) > 0 && edge != nil && between(list[0].Toward, edge.Toward) >= 45:
		return []Neighbour{list[0], *edge}
	case len(list) > 1:
		return list[:2]
	}
	return list
}

// handleTo is the pot that a handle points at, standing or not, or -1.
func (k *looker) handleTo(pot int, bearing float64) int {
	for _, n := range k.near[pot] {
		way := plane.Sub(k.b.Pots[n.Pot].At, k.b.Pots[pot].At)
		if between(plane.Bearing(way), bearing) <= 25 {
			return n.Pot
		}
	}
	return -1
}
