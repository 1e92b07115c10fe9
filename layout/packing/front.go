package packing

import (
	"math"

	"threepost/geometry/plane"
)

// curve is where the centre of a disc may lie when it just meets the need to
// one thing: a circle about a corner, or a line along a side.
type curve struct {
	line bool
	x, y float64 // centre, or the normal of a line
	r    float64 // radius, or the line's offset along its normal
}

// front is where one more disc of a class would touch two things at once: the
// corners of the room that is left to it.
//
// Source of the idea: corner-occupying placement, Huang, Li, Li, Xu, Computers
// & Operations Research 33 (2006).
type front struct {
	c      *crowd
	class  int
	curves []curve
	seen   int // things of the crowd whose curves are in
	spots  []spot
}

func newFront(c *crowd, class int) *front {
	f := &front{c: c, class: class}
	t := &c.table
	kind := &c.g.kinds[t.classes[class].kind]
	for m, l := range kind.limits {
		need := t.depth[class][m]
		for _, k := range c.g.areas[l.Area] {
			for _, e := range c.g.fences[k].lines {
				f.take(curve{line: true, x: e.nx, y: e.ny, r: e.c + need})
			}
			for _, d := range c.g.fences[k].discs {
				f.take(curve{x: d.x, y: d.y, r: d.r - need})
			}
		}
	}
	nc := len(t.classes)
	for o := range c.g.blocks {
		if !math.IsInf(t.oTouch[o*nc+class], -1) {
			f.round(c.g.blocks[o].skeleton, t.oNeed[o*t.parts+int(t.base[class])])
		}
	}
	return f
}

// round takes the curves round a skeleton at distance need.
func (f *front) round(s plane.Skeleton, need float64) {
	if need < 0 || math.IsInf(need, 0) {
		return
	}
	for i, v := range s {
		f.take(curve{x: v[0], y: v[1], r: need})
		if len(s) > 1 {
			n := plane.Unit(plane.Right(plane.Sub(s[(i+1)%len(s)], v)))
			f.take(curve{line: true, x: n[0], y: n[1], r: plane.Dot(n, v) + need})
		}
	}
}

// take adds a curve and the places where it meets the others.
func (f *front) take(k curve) {
	if !k.line && k.r < 0 {
		return
	}
	f.c.work += int64(len(f.curves))
	for i := range f.curves {
		a, b, n := meet(&f.curves[i], &k)
		if n > 0 {
			f.try(a)
		}
		if n > 1 {
			f.try(b)
		}
	}
	f.curves = append(f.curves, k)
}

// try keeps a spot where nothing is missing.
func (f *front) try(v plane.Vec) {
	s := spot{x: v[0], y: v[1]}
	if e, _, _, _ := f.c.alone(f.class, s, -1, 1e-12); e <= 1e-12 {
		f.spots = append(f.spots, s)
	}
}

// renew takes in the things that have come to the crowd and drops the spots
// that they took.
func (f *front) renew() {
	if f.seen == f.c.n {
		return
	}
	from := f.seen
	f.seen = f.c.n
	kept := f.spots[:0]
	for _, s := range f.spots {
		if e, _, _, _ := f.c.alone(f.class, s, -1, 1e-12); e <= 1e-12 {
			kept = append(kept, s)
		}
	}
	f.spots = kept
	t := &f.c.table
	for j := from; j < f.c.n; j++ {
		k := int(f.c.class[j])
		var buf [1]plane.Vec
		for b := range f.c.g.kinds[f.c.kind[j]].parts {
			need := t.need[int(t.base[f.class])*t.parts+int(t.base[k])+b]
			f.round(f.c.part(j, b, f.c.x, &buf), need)
		}
	}
}

// along adds spots that touch one thing only, for rooms without a corner.
func (f *front) along() {
	for _, k := range f.curves {
		if k.line {
			continue
		}
		for b := 0; b < 12; b++ {
			v := plane.FromBearing(k.r, 30*float64(b))
			f.try(plane.Vec{k.x + v[0], k.y + v[1]})
		}
	}
	f.try(f.c.middle)
}

// meet is where two curves meet, and in how many points.
func meet(a, b *curve) (p, q plane.Vec, n int) {
	switch {
	case a.line && b.line:
		den := float64(a.x*b.y) - float64(a.y*b.x)
		if math.Abs(den) < 1e-9 {
			return
		}
		return plane.Vec{(float64(a.r*b.y) - float64(b.r*a.y)) / den, (float64(a.x*b.r) - float64(b.x*a.r)) / den}, q, 1
	case b.line:
		a, b = b, a
		fallthrough
	case a.line:
		h := a.r - float64(a.x*b.x) - float64(a.y*b.y) // from b's centre to the line
		w := float64(b.r*b.r) - float64(h*h)
		if w < 0 {
			return
		}
		w = math.Sqrt(w)
		fx, fy := b.x+float64(h*a.x), b.y+float64(h*a.y)
		return plane.Vec{fx - float64(w*a.y), fy + float64(w*a.x)}, plane.Vec{fx + float64(w*a.y), fy - float64(w*a.x)}, 2
	}
	dx, dy := b.x-a.x, b.y-a.y
	sum, dif := a.r+b.r, a.r-b.r
	d2 := float64(dx*dx) + float64(dy*dy)
	if d2 >= float64(sum*sum) || d2 <= float64(dif*dif) || d2 == 0 {
		return
	}
	// u: from a's centre along the line of centres to the chord, in parts of it
	u := (d2 + float64(a.r*a.r) - float64(b.r*b.r)) / (2 * d2)
	w := math.Sqrt(math.Max(0, float64(a.r*a.r)/d2-float64(u*u)))
	fx, fy := a.x+float64(u*dx), a.y+float64(u*dy)
	return plane.Vec{fx - float64(w*dy), fy + float64(w*dx)}, plane.Vec{fx + float64(w*dy), fy - float64(w*dx)}, 2
}
