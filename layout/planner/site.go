package planner

import (
	"fmt"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/stacks"
)

// site is a place for a tower: the shelf each of its levels gets, and where its
// posts stand.
type site struct {
	name     string
	shelf    layout.ShelfAt
	kind     *layout.ShelfKind
	stock    int // how many levels the owned shelves of this shape can make, shared by sites of one group
	group    int // sites of one group draw on the same shelves
	outline  plane.Outline
	beside   []plane.Outline // further shelves of the same level
	lines    []layout.Line
	sibling  int   // an earlier site of the same shape: their capacities are alike
	like     *site // that site; nil where there is none
	marked   string
	covers   float64 // area of its outline, mm2, once asked for
	neighbor bool    // another tower stands beside it

	comes map[*solid.Placed]bool // which probes its shelf comes near to in plan, once asked for
}

// comesTo says whether the site's shelf comes nearer to a probe than so many mm
// in plan. It is asked for every order of every design, and worked out once.
func (s *site) comesTo(probe *solid.Placed, need float64) bool {
	if near, ok := s.comes[probe]; ok {
		return near
	}
	near := false
	for j, part := range probe.Body.Parts {
		near = near || s.outline.Distance(probe.Skeleton(j))-part.Profile.Max() < need
	}
	if s.comes == nil {
		s.comes = map[*solid.Placed]bool{}
	}
	s.comes[probe] = near
	return near
}

// mark tells sites apart by what stands where, whatever load they come from.
func (s *site) mark() string {
	if s.marked == "" {
		s.marked = fmt.Sprint(s.shelf, s.lines)
	}
	return s.marked
}

// area is the area of the site's shelf, mm2.
func (s *site) area() float64 {
	if s.covers == 0 {
		s.covers = s.outline.Area()
	}
	return s.covers
}

// division is a way to divide the kiln: an optional base whose last level
// carries the sites, or sites on the floor.
type division struct {
	name  string
	base  *site
	bases int // levels of the base
	sites []*site

	columns *columns // how it goes on from what stands; nil where nothing does
}

// maker builds divisions for one load.
type maker struct {
	load    *layout.Load
	chamber plane.Outline
	section layout.Section
	probes  []solid.Placed
	inset   float64
}

// divisions lists the ways to divide the kiln that its shelves allow, the
// simplest first.
func (m *maker) divisions() []*division {
	var out []*division
	fulls := m.fullSites()
	halves := m.halfPairs()
	want := m.load.Wishes.Towers
	if want != layout.HalfTowers {
		for _, f := range fulls {
			out = append(out, &division{name: "full shelves", sites: []*site{f}})
		}
	}
	if want != layout.OneTower {
		for _, pair := range halves {
			out = append(out, &division{name: "two sides", sites: pair})
			for _, f := range fulls {
				for bases := 1; bases <= min(3, f.stock); bases++ {
					if d := m.onBase(f, bases, pair); d != nil {
						out = append(out, d)
					}
				}
			}
		}
		out = append(out, m.trios()...)
		out = append(out, m.grids()...)
	}
	return out
}

// onBase puts a pair of sides over full levels: the full shelves carry a post
// under every line above them.
func (m *maker) onBase(full *site, bases int, pair []*site) *division {
	base := *full
	base.name = "base"
	base.lines = nil
	for _, s := range pair {
		base.lines = append(base.lines, s.lines...)
	}
	for _, l := range base.lines {
		if full.outline.Depth(l.At) < m.inset-plane.Tolerance {
			return nil
		}
	}
	return &division{name: "full below, sides above", base: &base, bases: bases, sites: pair}
}

// fullSites are the shelf kinds that stand alone in the middle of the kiln.
func (m *maker) fullSites() []*site {
	var out []*site
	area := m.chamber.Area()
	for i := range m.load.Furniture.Shelves {
		k := &m.load.Furniture.Shelves[i]
		o, err := k.Shape.Outline()
		if err != nil || !usable(k) || isHalf(k.Shape.Kind) || o.Area() < 0.35*area {
			continue
		}
		for _, turn := range []float64{0, 90} {
			posed := o.At(plane.Pose{Turn: turn})
			if m.wallRoom(posed) < m.load.Limits(layout.ShelfToWall).Plan-plane.Tolerance {
				continue
			}
			s := &site{name: "stack", kind: k, stock: k.Count, group: i, outline: posed,
				shelf: layout.ShelfAt{Kind: k.Name, Turn: turn}, sibling: -1}
			s.lines = m.roundLines(posed)
			if s.lines != nil {
				out = append(out, s)
			}
			break
		}
	}
	return out
}

func usable(k *layout.ShelfKind) bool { return k.Count > 0 && !k.Cracked && !k.Damp }

func isHalf(k layout.ShapeKind) bool {
	return k == layout.HalfRound || k == layout.HalfSided || k == layout.HalfOval
}

// halfPairs are the half shelves that make two sides, left and right of the
// middle; half ovals sawn along make a back and a front.
func (m *maker) halfPairs() [][]*site {
	var out [][]*site
	gap := m.load.Limits(layout.ShelfToShelf).Plan
	for i := range m.load.Furniture.Shelves {
		k := &m.load.Furniture.Shelves[i]
		o, err := k.Shape.Outline()
		if err != nil || !usable(k) || k.Count < 2 || !isHalf(k.Shape.Kind) {
			continue
		}
		for _, way := range []struct {
			names [2]string
			turns [2]float64
			dir   plane.Vec
		}{
			{[2]string{"left side", "right side"}, [2]float64{270, 90}, plane.Vec{1, 0}},
			{[2]string{"back", "front"}, [2]float64{0, 180}, plane.Vec{0, -1}},
		} {
			var pair []*site
			for side := 0; side < 2; side++ {
				sign := float64(2*side - 1)
				at := plane.Scale(way.dir, float64(sign*gap)/2)
				pose := plane.Pose{At: at, Turn: way.turns[side]}
				posed := o.At(pose)
				if m.wallRoom(posed) < m.load.Limits(layout.ShelfToWall).Plan-plane.Tolerance {
					break
				}
				s := &site{name: way.names[side], kind: k, stock: k.Count, group: i, outline: posed,
					shelf: layout.ShelfAt{Kind: k.Name, At: at, Turn: way.turns[side]}, sibling: -1, neighbor: true}
				s.lines = m.halfLines(posed, pose)
				if s.lines == nil {
					break
				}
				pair = append(pair, s)
			}
			if len(pair) == 2 {
				pair[1].sibling, pair[1].like = 0, pair[0]
				out = append(out, pair)
				break
			}
		}
	}
	return out
}

// grids are rectangles (or any shelves) side by side in a chamber, as many as
// go in.
func (m *maker) grids() []*division {
	var out []*division
	gap := m.load.Limits(layout.ShelfToShelf).Plan
	lo, hi := m.chamber.Bounds()
	for i := range m.load.Furniture.Shelves {
		k := &m.load.Furniture.Shelves[i]
		o, err := k.Shape.Outline()
		if err != nil || !usable(k) || isHalf(k.Shape.Kind) {
			continue
		}
		for _, turn := range []float64{0, 90} {
			turned := o.At(plane.Pose{Turn: turn})
			a, b := turned.Bounds()
			w, d := b[0]-a[0], b[1]-a[1]
			cols := int((hi[0] - lo[0] + gap) / (w + gap))
			rows := int((hi[1] - lo[1] + gap) / (d + gap))
			for ; cols > 0 && rows > 0 && cols*rows > 1; cols-- {
				if dv := m.grid(k, i, o, turn, cols, rows, plane.Vec{w + gap, d + gap}); dv != nil {
					out = append(out, dv)
					break
				}
			}
		}
	}
	return out
}

// grid is one grid of alike shelves, or nil when it does not go in.
func (m *maker) grid(k *layout.ShelfKind, group int, o plane.Outline, turn float64, cols, rows int, pitch plane.Vec) *division {
	if cols*rows < 2 || cols*rows > 9 || k.Count < cols*rows {
		return nil
	}
	d := &division{name: "side by side"}
	for r := 0; r < rows; r++ {
		for c := 0; c < cols; c++ {
			at := plane.Vec{
				float64((float64(c) - float64(float64(cols-1)/2)) * pitch[0]),
				float64((float64(float64(rows-1)/2) - float64(r)) * pitch[1]),
			}
			posed := o.At(plane.Pose{At: at, Turn: turn})
			if m.wallRoom(posed) < m.load.Limits(layout.ShelfToWall).Plan-plane.Tolerance {
				return nil
			}
			s := &site{name: gridName(c, cols, r, rows), kind: k, stock: k.Count, group: group, outline: posed,
				shelf: layout.ShelfAt{Kind: k.Name, At: at, Turn: turn}, sibling: -1, neighbor: true}
			if len(d.sites) > 0 {
				s.sibling, s.like = 0, d.sites[0]
			}
			s.lines = m.boxLines(posed)
			if s.lines == nil {
				return nil
			}
			d.sites = append(d.sites, s)
		}
	}
	return d
}

// gridName names a place in a grid as people point at it.
func gridName(c, cols, r, rows int) string {
	across := map[int][]string{1: {""}, 2: {"left", "right"}, 3: {"left", "middle", "right"}}[cols]
	along := map[int][]string{1: {""}, 2: {"back", "front"}, 3: {"back", "middle", "front"}}[rows]
	if across == nil || along == nil {
		return "place " + string(rune('A'+c+r*cols))
	}
	switch {
	case along[r] == "":
		return across[c] + " side"
	case across[c] == "":
		return along[r] + " side"
	}
	return along[r] + " " + across[c]
}

// wallRoom is the least distance of an outline from the wall.
func (m *maker) wallRoom(o plane.Outline) float64 {
	least := m.chamber.Depth(o.Points(0.05)[0])
	for _, p := range o.Points(0.05) {
		least = min(least, m.chamber.Depth(p))
	}
	return least
}

// probesOf are the probes of the load as solids.
func probesOf(l *layout.Load) []solid.Placed {
	bare := *l
	bare.Towers = nil
	b, err := stacks.Build(&bare)
	if err != nil || b == nil {
		return nil
	}
	var out []solid.Placed
	for _, p := range b.Probes {
		out = append(out, p.Solid)
	}
	return out
}
