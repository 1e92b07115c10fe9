package planner

import (
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/stacks"
)

// plantShapes are the chambers that are planted, in turn.
var plantShapes = [...]string{"sided", "round", "oval", "rectangle", "front-loader"}

// kiln is a chamber with the shelves that people have for it. Its height comes
// later.
func (p planter) kiln(shape string) (layout.Kiln, []layout.ShelfKind) {
	k := layout.Kiln{Height: 3000, Opens: layout.Top}
	shelf := func(name string, s layout.Shape) layout.ShelfKind {
		return layout.ShelfKind{Name: name, Shape: s, Thick: p.between(12, 20), Count: 20}
	}
	pick := func(full, half layout.ShelfKind) []layout.ShelfKind {
		return [][]layout.ShelfKind{{full}, {half}, {full, half}}[p.rnd.IntN(3)]
	}
	switch shape {
	case "sided", "round":
		across := p.between(400, 720)
		k.Chamber = layout.Shape{Kind: layout.Round, Across: across}
		disc := across - p.between(26, 60)
		full := layout.Shape{Kind: layout.Round, Across: disc}
		half := layout.Shape{Kind: layout.HalfRound, Across: disc, Depth: disc/2 - 3}
		if shape == "sided" {
			k.Chamber = layout.Shape{Kind: layout.Sided, Sides: 5 + p.rnd.IntN(8), Across: across, FlatAt: 15 * float64(p.rnd.IntN(4))}
			if n := k.Chamber.Sides; n%2 == 0 && n >= 8 && p.one(2) { // shelves with corners too
				k.Chamber.FlatAt = 0
				full = layout.Shape{Kind: layout.Sided, Sides: n, Across: disc}
				half = layout.Shape{Kind: layout.HalfSided, Sides: n, Across: disc, Depth: disc/2 - 3}
			}
		}
		return k, pick(shelf("full", full), shelf("half", half))
	case "oval":
		d := p.between(400, 520)
		w := d + p.between(60, 300)
		k.Chamber = layout.Shape{Kind: layout.Oval, Width: w, Depth: d}
		return k, pick(shelf("oval", layout.Shape{Kind: layout.Oval, Width: w - 50, Depth: d - 50}),
			shelf("half", layout.Shape{Kind: layout.HalfOval, Width: w - 50, Depth: (d - 56) / 2}))
	}
	w, d := p.between(420, 820), p.between(400, 560)
	cols := 1 + p.rnd.IntN(2)
	if shape == "front-loader" {
		k.Opens = layout.Front
		w, cols = p.between(640, 1000), 2
		if w > 850 {
			cols = 2 + p.rnd.IntN(2)
		}
	}
	k.Chamber = layout.Shape{Kind: layout.Rectangle, Width: w, Depth: d}
	wide := math.Floor((w-50-6*float64(cols-1))/float64(cols)) - float64(p.rnd.IntN(10))
	return k, []layout.ShelfKind{shelf("board", layout.Shape{Kind: layout.Rectangle, Width: wide, Depth: d - 50})}
}

// probes reach in from the wall: none, one or two. Their heights come later.
func (p planter) probes(k *layout.Kiln) {
	for range []int{0, 1, 1, 2}[p.rnd.IntN(4)] {
		k.Probes = append(k.Probes, layout.Probe{At: 15 * float64(p.rnd.IntN(24)), Height: 1500,
			Reach: p.between(20, 70), Diameter: []float64{8, 12}[p.rnd.IntN(2)]})
	}
}

// heights draws the levels of a design, two to six over each other, and gives
// the load just the furniture and the kiln just the height that they take.
func (p planter) heights(c *context, l *layout.Load, d *design) {
	tall := func() float64 {
		return math.Ceil((c.kinds[p.rnd.IntN(len(l.Ware))].body.Height+12)/5) * 5
	}
	used := map[string]int{}
	z := d.floor
	if b := d.division.base; b != nil {
		z += b.kind.Thick
		for i := 1; i < d.division.bases; i++ {
			d.base = append(d.base, tall())
			z += d.base[i-1] + b.kind.Thick
		}
		used[b.kind.Name] = d.division.bases
	}
	most := z
	for _, s := range d.division.sites {
		levels := 1 + p.rnd.IntN(5) // over the one that stands on the floor
		top := z
		if d.division.base != nil {
			levels = 1 + p.rnd.IntN(3)
		} else {
			top += s.kind.Thick
			used[s.kind.Name]++
		}
		var h []float64
		for i := 0; i < levels; i++ {
			h = append(h, tall())
			top += h[i] + s.kind.Thick
		}
		sort.Sort(sort.Reverse(sort.Float64Slice(h)))
		used[s.kind.Name] += levels
		d.lists = append(d.lists, list{heights: h})
		most = math.Max(most, top)
	}
	l.Kiln.Height = math.Ceil(most + c.kinds[p.rnd.IntN(len(l.Ware))].body.Height + 25 + p.between(0, 15))
	var shelves []layout.ShelfKind
	for _, k := range l.Furniture.Shelves {
		if k.Count = used[k.Name]; k.Count > 0 {
			shelves = append(shelves, k)
		}
	}
	l.Furniture.Shelves = shelves
}

// posts gives the load just the posts of a design, some of them in two pieces.
func (p planter) posts(l *layout.Load, d *design, section layout.Section) {
	whole, thin := map[float64]int{}, map[float64]int{}
	seen := map[float64]float64{} // the spacer of a height
	for _, dm := range d.demand() {
		add, ok := seen[dm.Height]
		if !ok && dm.Height >= 60 && p.one(3) {
			add = []float64{5, 10, 15}[p.rnd.IntN(3)]
		}
		seen[dm.Height] = add
		whole[dm.Height-add] += dm.Posts
		if add > 0 {
			thin[add] += dm.Posts
		}
	}
	l.Furniture.Posts = nil
	for _, of := range []map[float64]int{whole, thin} {
		from := len(l.Furniture.Posts)
		for h, n := range of {
			l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Height: h, Section: section, Count: n, Spacer: h < 25})
		}
		sort.Slice(l.Furniture.Posts[from:], func(i, j int) bool {
			return l.Furniture.Posts[from+i].Height < l.Furniture.Posts[from+j].Height
		})
	}
}

// liftProbes puts the probes at heights where no shelf comes near them; false
// where there are none.
func (p planter) liftProbes(l *layout.Load, f *frame) bool {
	for i := range l.Kiln.Probes {
		pr := &l.Kiln.Probes[i]
		alone := *l
		alone.Kiln.Probes = []layout.Probe{*pr}
		tube := probesOf(&alone)[0]
		var may []float64
		for z := 60.0; z < l.Kiln.Height-60; z += 5 {
			clear := true
			for _, st := range f.storeys {
				if st.site.outline.Distance(tube.Skeleton(0))-pr.Diameter/2 < 25 {
					clear = clear && (st.top <= z-pr.Diameter/2-26 || st.top-st.site.kind.Thick >= z+pr.Diameter/2+26)
				}
			}
			if clear {
				may = append(may, z)
			}
		}
		if len(may) == 0 {
			return false
		}
		pr.Height = may[p.rnd.IntN(len(may))]
	}
	return true
}

// cones draws cone packs: watched ones with a spyhole each, at the height of
// the tips on some storey, and one that nobody sees.
func (p planter) cones(l *layout.Load, f *frame) {
	names := []string{"low cones", "high cones"}
	watched := []int{0, 1, 1, 2}[p.rnd.IntN(4)]
	for i := range watched {
		pack := layout.ConePack{Name: names[i], Watched: true}
		if p.one(2) {
			pack.Spyhole = i + 1
		}
		if p.one(3) {
			pack.Length, pack.Width, pack.Height = 50, 25, 60
		}
		body, err := stacks.ConeBody(l, &pack)
		if err != nil {
			continue
		}
		st := f.storeys[p.rnd.IntN(len(f.storeys))]
		at := math.Mod(15*float64(p.rnd.IntN(24)), 360)
		if l.Kiln.Chamber.Kind == layout.Rectangle { // through the middles of its sides
			at = 90 * float64(p.rnd.IntN(4))
		}
		l.Kiln.Spyholes = append(l.Kiln.Spyholes, layout.Spyhole{At: at, Height: st.top + body.Height + p.between(-8, 8)})
		l.Cones = append(l.Cones, pack)
	}
	if p.one(4) {
		l.Cones = append(l.Cones, layout.ConePack{Name: "ring", Length: 40, Width: 40, Height: 45})
	}
}

// setCones stands the packs up: a watched one on the axis of a hole, where the
// hole was made for, an unwatched one anywhere. False where one has no place.
func (p planter) setCones(c *context, grounds []*ground) bool {
	hole := 0
	for k, kd := range c.kinds {
		if kd.cones == nil {
			continue
		}
		if !kd.cones.Watched {
			if !p.setRing(grounds, k) {
				return false
			}
			continue
		}
		spy := c.spies[hole]
		hole++
		if !p.setBefore(grounds, k, spy) {
			return false
		}
	}
	return true
}

// setBefore stands a pack on the axis of a spyhole on the storey that has the
// tips nearest to it in height, and keeps the line of sight.
func (p planter) setBefore(grounds []*ground, k int, spy stacks.Spy) bool {
	turn := grid(plane.NormalTurn(plane.Bearing(spy.Inward)))
	for d := 50.0; d < 400; d += 5 {
		at := plane.Add(spy.Mouth, plane.Scale(spy.Inward, d))
		at = plane.Vec{grid(at[0]), grid(at[1])}
		for _, g := range grounds {
			rise := g.st.top + g.c.kinds[k].body.Height - spy.Height
			if math.Abs(rise) > d*sightSlope-2 || math.Abs(rise) > 10 || !g.takes(k) {
				continue
			}
			if one := g.standing(k, at, turn); g.free(one) {
				g.set = append(g.set, one.kept())
				g.keepOff(plane.Skeleton{spy.Mouth, at}, func(part solid.Part) float64 { return part.Profile.Max() + 7 })
				return true
			}
		}
	}
	return false
}

// setRing stands a small pack anywhere in the outer half of some level.
func (p planter) setRing(grounds []*ground, k int) bool {
	for range 200 {
		g := grounds[p.rnd.IntN(len(grounds))]
		lo, hi := g.st.site.outline.Bounds()
		at := plane.Vec{grid(lo[0] + (hi[0]-lo[0])*p.rnd.Float64()), grid(lo[1] + (hi[1]-lo[1])*p.rnd.Float64())}
		if one := g.standing(k, at, 0); g.takes(k) && g.free(one) {
			g.set = append(g.set, one.kept())
			return true
		}
	}
	return false
}
