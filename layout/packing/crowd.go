package packing

import (
	"math"

	"threepost/geometry/plane"
)

// crowd is a set of things and where they are at the moment, with the needs
// that are asked of them at the moment: the energy's whole input. The fixed
// ones come first.
//
// The variables are x0 y0 x1 y1 ... and then one for every thing that turns:
// its turn as the way of its far end, mm, so that all are of one scale.
type crowd struct {
	g      *ground
	n      int
	fixed  int
	kind   []int32
	want   []int32
	turn   []float64 // degrees, of those that do not turn
	swing  []int32   // variable of the turn, or -1
	x      []float64
	thick  []bool           // not a point
	first  []int32          // first of its parts in world
	world  []plane.Skeleton // parts where they stand, of thick things
	sides  [][]plane.Vec    // and their normals
	middle plane.Vec
	anyone bool // some thing is thick

	class []int32
	table table
	near  neighbours

	spin      []float64        // scratch: gradient of turns, per radian
	work      int64            // looks, not yet units
	lone      []plane.Skeleton // scratch: the parts of the thing that alone looks at
	loneSides [][]plane.Vec
}

// newCrowd is an empty crowd with the fixed things in it.
func newCrowd(g *ground, fixed []Standing) *crowd {
	c := &crowd{g: g}
	for _, s := range fixed {
		c.add(s.Kind, s.Want, s.At, s.Turn, true)
	}
	c.fixed = c.n
	c.middle = plane.Lerp(g.low, g.up, 0.5)
	return c
}

// add puts a thing in; the tables must be made anew after it.
func (c *crowd) add(kind, want int, at plane.Vec, turn float64, fixed bool) {
	f := &c.g.kinds[kind]
	swings := c.x[2*c.n:]
	x := make([]float64, 0, len(c.x)+3)
	x = append(append(append(x, c.x[:2*c.n]...), at[0], at[1]), swings...)
	for i := range c.swing {
		if c.swing[i] >= 0 {
			c.swing[i] += 2
		}
	}
	c.kind = append(c.kind, int32(kind))
	c.want = append(c.want, int32(want))
	c.thick = append(c.thick, !f.thin)
	c.turn = append(c.turn, turn)
	if f.turns && !fixed {
		c.swing = append(c.swing, int32(len(x)))
		x = append(x, turn/f.degrees())
	} else {
		c.swing = append(c.swing, -1)
	}
	c.x = x
	c.first = append(c.first, int32(len(c.world)))
	if !f.thin {
		c.anyone = true
		for _, s := range f.parts {
			c.world = append(c.world, make(plane.Skeleton, 0, len(s)))
			c.sides = append(c.sides, make([]plane.Vec, 0, len(s)))
		}
	}
	c.spin = append(c.spin, 0)
	c.n++
	c.near.forget()
}

// degrees is how many degrees one unit of the turn's variable makes.
func (f *form) degrees() float64 { return radian / math.Max(0.7*f.far, 1e-3) }

// turnAt is the turn of thing i in the variables x, degrees.
func (c *crowd) turnAt(x []float64, i int) float64 {
	if s := c.swing[i]; s >= 0 {
		return x[s] * c.g.kinds[c.kind[i]].degrees()
	}
	return c.turn[i]
}

// standings lists where the things are.
func (c *crowd) standings(x []float64) []Standing {
	list := make([]Standing, c.n)
	for i := range list {
		list[i] = Standing{Kind: int(c.kind[i]), Want: int(c.want[i]), Fixed: i < c.fixed,
			At: plane.Vec{x[2*i], x[2*i+1]}, Turn: plane.NormalTurn(c.turnAt(x, i))}
		if i < c.fixed {
			list[i].Turn = c.turn[i]
		}
	}
	return list
}

// without is a crowd of the same things less thing i.
func (c *crowd) without(gone int) *crowd {
	d := &crowd{g: c.g, middle: c.middle}
	for i := 0; i < c.n; i++ {
		if i != gone {
			d.add(int(c.kind[i]), int(c.want[i]), plane.Vec{c.x[2*i], c.x[2*i+1]}, c.turnAt(c.x, i), i < c.fixed)
			if i < c.fixed {
				d.fixed++
			}
		}
	}
	return d
}

// growth says how the needs grow with a class's figure t.
type growth int

const (
	asNeeded growth = iota // not at all
	byScale                // by t times the need
	byEase                 // by t mm, or a share of it
)

// asked is what is asked of a crowd over its bare needs.
type asked struct {
	grow           growth
	t              float64
	edge, obstacle float64   // shares for byEase
	crumbs         bool      // room for rounding besides
	level          []float64 // byEase: a thing's own t, by thing; nil: t for all
}

// table holds the needs that are asked, by class: the kind and how much over
// its needs a thing is asked.
type table struct {
	classes []class
	touch   []float64 // [class*C+class] centres this far apart cannot matter
	base    []int32   // first part of a class
	parts   int
	need    []float64 // [part*parts+part]
	depth   [][]float64
	oTouch  []float64 // [obstacle*C+class]
	oNeed   []float64 // [obstacle*parts+part]
}

type class struct {
	kind  int32
	fixed bool
	t     float64
}

// ask makes the tables for what is asked of the crowd now.
func (c *crowd) ask(a asked) {
	c.near.forget()
	t := &c.table
	t.classes = t.classes[:0]
	c.class = c.class[:0]
	for i := 0; i < c.n; i++ {
		k := class{kind: c.kind[i], fixed: i < c.fixed, t: a.t}
		if a.level != nil {
			k.t = a.level[i]
		}
		if k.fixed {
			k.t = math.Inf(-1) // the other one says
		}
		c.class = append(c.class, int32(t.find(k)))
	}
	t.fill(c.g, a)
}

// askAlso makes sure that a class of an unfixed thing of this kind exists, for
// one that is not in the crowd yet, and gives its number.
func (c *crowd) askAlso(a asked, kind int) int {
	before := len(c.table.classes)
	k := c.table.find(class{kind: int32(kind), t: a.t})
	if len(c.table.classes) > before {
		c.table.fill(c.g, a)
	}
	return k
}

func (t *table) find(k class) int {
	for i := range t.classes {
		if t.classes[i] == k {
			return i
		}
	}
	t.classes = append(t.classes, k)
	return len(t.classes) - 1
}

// fill works out every figure of the table.
func (t *table) fill(g *ground, a asked) {
	n := len(t.classes)
	t.base = t.base[:0]
	t.parts = 0
	for _, k := range t.classes {
		t.base = append(t.base, int32(t.parts))
		t.parts += len(g.kinds[k.kind].parts)
	}
	t.touch = refit(t.touch, n*n)
	t.need = refit(t.need, t.parts*t.parts)
	t.oTouch = refit(t.oTouch, len(g.blocks)*n)
	t.oNeed = refit(t.oNeed, len(g.blocks)*t.parts)
	for len(t.depth) < n {
		t.depth = append(t.depth, nil)
	}
	crumb := func(k class) float64 {
		if a.crumbs && !k.fixed {
			return g.kinds[k.kind].crumb
		}
		return 0
	}
	for i, k := range t.classes {
		fk := &g.kinds[k.kind]
		for j, l := range t.classes {
			fl := &g.kinds[l.kind]
			more := math.Max(k.t, l.t)
			touch := math.Inf(-1)
			for p := range fk.parts {
				for q := range fl.parts {
					need := a.over(g.p.Need[k.kind][p][l.kind][q], more, 1) + crumb(k) + crumb(l)
					t.need[(int(t.base[i])+p)*t.parts+int(t.base[j])+q] = need
					touch = math.Max(touch, need+fk.reach[p]+fl.reach[q])
				}
			}
			t.touch[i*n+j] = touch
		}
		t.depth[i] = refit(t.depth[i], len(fk.limits))
		for m, l := range fk.limits {
			t.depth[i][m] = a.over(l.Depth, k.t, a.edge) + crumb(k)
		}
		for o := range g.blocks {
			touch := math.Inf(-1)
			for p := range fk.parts {
				need := a.over(g.p.Obstacles[o].Need[k.kind][p], k.t, a.obstacle) + crumb(k)
				t.oNeed[o*t.parts+int(t.base[i])+p] = need
				touch = math.Max(touch, need+fk.reach[p]+g.blocks[o].reach)
			}
			t.oTouch[o*n+i] = touch
		}
	}
}

// over is what is asked where so much is needed.
func (a *asked) over(need, t, share float64) float64 {
	if math.IsInf(need, -1) || math.IsInf(t, -1) {
		return need
	}
	switch a.grow {
	case byScale:
		return need + float64(t*need)
	case byEase:
		return need + float64(t*share)
	}
	return need
}

func refit(s []float64, n int) []float64 {
	if cap(s) < n {
		return make([]float64, n)
	}
	return s[:n]
}
