package planner

import (
	"math"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/bounds"
)

// Bound is how much nobody can set in the load at its plan distances, in the
// ways to divide the kiln that the planner knows: full shelves, with one sort
// of halves or one grid of shelves beside or over them. A load in which
// something is locked or stands already may keep other distances and has no
// bound but its own count.
func Bound(l *layout.Load) (bounds.Bound, error) {
	c, err := newContext(l.Clone())
	if err != nil {
		return bounds.Bound{}, err
	}
	if keptFrame(c) != nil {
		b := bounds.Bound{}
		for _, k := range c.kinds {
			if k.ware != nil {
				b.Count += k.ware.Count
				b.Value += float64(k.worth * float64(k.ware.Count))
			}
		}
		return b, nil
	}
	var best bounds.Bound
	for i, family := range c.families() {
		b := bounds.Most(family)
		value := math.Max(b.Value, best.Value)
		if i == 0 || b.Count > best.Count {
			best = b
		}
		best.Value = value
	}
	return best, nil
}

// families are the problems whose worst is the bound: the full shelves with
// each pair of halves, and with each grid.
func (c *context) families() []*bounds.Load {
	var full, split []*division
	for _, d := range c.maker().divisions() {
		switch {
		case d.base != nil: // a mixture of two others
		case len(d.sites) == 1:
			full = append(full, d)
		default:
			split = append(split, d)
		}
	}
	if len(split) == 0 {
		split = append(split, &division{})
	}
	var out []*bounds.Load
	for _, s := range split {
		out = append(out, c.family(full, s))
	}
	return out
}

// family is one problem: every site of a division is a column, and a full shelf
// fills them all.
func (c *context) family(full []*division, split *division) *bounds.Load {
	columns := max(1, len(split.sites))
	l := &bounds.Load{Kinds: c.boundKinds(), Lid: c.limits[layout.RoomToLid].Plan}
	bottom := c.leastPost(c.limits[layout.BottomShelf].Plan)
	for i := 0; i < columns; i++ {
		l.Columns = append(l.Columns, c.load.Kiln.Height-bottom)
	}
	for _, k := range c.load.Furniture.Shelves {
		l.Stocks = append(l.Stocks, k.Count)
	}
	place := func(s *site, columns []int) *bounds.Place {
		l.Places = append(l.Places, bounds.Place{Name: s.name, Outlines: append([]plane.Outline{s.outline}, s.beside...),
			Thick: s.kind.Thick, Columns: columns, Stock: s.group, Shelves: float64(1 + len(s.beside))})
		return &l.Places[len(l.Places)-1]
	}
	var all []int
	for i := range l.Columns {
		all = append(all, i)
	}
	for _, d := range full {
		place(d.sites[0], all)
		first := len(l.Places)
		if columns == 2 { // a base: the room over each side has its own height
			middle := [2]plane.Vec{split.sites[0].outline.Centroid(), split.sites[1].outline.Centroid()}
			for i := range middle {
				p := place(d.sites[0], []int{i})
				p.Shelves = 0.5
				out := plane.Unit(plane.Sub(middle[1-i], middle[i]))
				p.Beside = []int{first + 1 - i}
				p.Sides = []bounds.Side{{Out: out, At: plane.Dot(plane.Lerp(middle[0], middle[1], 0.5), out)}}
			}
		}
	}
	for i, s := range split.sites {
		place(s, []int{i})
	}
	for _, p := range c.load.Furniture.Posts {
		l.Posts += float64(p.RealHeight() * float64(p.Count))
	}
	l.Storey = func(height float64) float64 { return c.leastPost(height + c.room) }
	shallow, deep := c.limits[layout.PotToPot].Plan, c.limits[layout.PotToPotDeep].Plan
	l.Apart = c.apartOf(shallow)
	l.Post, l.Slices = c.boundPost(), c.boundSlices(shallow)
	if deep > shallow && c.deep(bottom+thinnest(l.Places)) {
		l.DeepFrom, l.DeepApart = c.limits[layout.DeepFrom].Plan, c.apartOf(deep)
		for _, s := range c.boundSlices(deep) {
			s.Deep = true
			l.Slices = append(l.Slices, s)
		}
		l.Places = append(l.Places, deepOf(l.Places)...)
	}
	return l
}

// deepOf are the places again, for their deep levels.
func deepOf(places []bounds.Place) []bounds.Place {
	out := append([]bounds.Place(nil), places...)
	for i := range out {
		out[i].Deep = true
		out[i].Beside = append([]int(nil), out[i].Beside...)
		for j := range out[i].Beside {
			out[i].Beside[j] += len(places)
		}
	}
	return out
}

// thinnest is the least shelf of the places, mm.
func thinnest(places []bounds.Place) float64 {
	least := math.Inf(1)
	for _, p := range places {
		least = math.Min(least, p.Thick)
	}
	return least
}

// leastPost is the least height that three posts can have together and that is
// no less than asked; the height itself where none is made that tall.
func (c *context) leastPost(height float64) float64 {
	for _, h := range c.madeHeights(3) {
		if h >= height-plane.Tolerance {
			return h
		}
	}
	return height
}

// widest is the greatest radius of the discs that a kind's central parts hold, mm.
func widest(k *kind) float64 {
	most := 0.0
	for _, p := range central(k) {
		most = math.Max(most, p.Profile.Max()+middle(p.Skeleton))
	}
	return most
}

// boundKinds are the rows of ware that may be set.
func (c *context) boundKinds() []bounds.Kind {
	var out []bounds.Kind
	for _, k := range c.kinds {
		if k.ware == nil {
			continue
		}
		size := widest(k)
		room := size - c.limits[layout.RimPastEdge].Plan
		if len(k.body.Foot) > 0 {
			room = math.Max(room, k.body.FootR+c.limits[layout.FootToEdge].Plan)
		}
		out = append(out, bounds.Kind{Name: k.name, Count: len(k.free), Height: k.body.Height,
			Value: k.worth, Room: math.Max(0, room), Size: size})
	}
	return out
}

// central are the parts of a kind's body whose skeleton holds its middle.
func central(k *kind) []solid.Part {
	var out []solid.Part
	for _, p := range k.body.Solid.Parts {
		if d, _, _ := plane.SignedDistance(p.Skeleton, plane.Skeleton{{0, 0}}); d <= plane.Tolerance {
			out = append(out, p)
		}
	}
	return out
}

// middle is the radius of the disc about the body's middle that lies in a
// skeleton; 0 for a point or a line.
func middle(s plane.Skeleton) float64 {
	if len(s) < 3 {
		return 0
	}
	o, err := plane.Polygon(s)
	if err != nil {
		return 0
	}
	return math.Max(0, o.Depth(plane.Vec{}))
}
