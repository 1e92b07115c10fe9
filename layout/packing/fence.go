package packing

import (
	"math"

	"threepost/geometry/plane"
)

// fence is an outline made ready for the energy. Where the outline is an
// intersection of half planes and whole discs, every one of them pushes by
// itself, which keeps the energy smooth in corners; otherwise the depth of the
// outline does.
type fence struct {
	outline plane.Outline
	plain   bool // lines and discs say it all
	lines   []line
	discs   []disc
	low, up plane.Vec // bounds
}

// line is a half plane: its inside is where nx x + ny y - c >= 0.
type line struct{ nx, ny, c float64 }

// disc is a circle that holds the outline.
type disc struct{ x, y, r float64 }

func newFence(o plane.Outline) fence {
	f := fence{outline: o, plain: true}
	f.low, f.up = o.Bounds()
	for _, e := range o.Edges() {
		if e.Kind == plane.Line {
			n := plane.Unit(plane.Left(plane.Sub(e.To, e.From)))
			f.lines = append(f.lines, line{n[0], n[1], plane.Dot(n, e.From)})
			continue
		}
		d := disc{e.Center[0], e.Center[1], e.Radius}
		if o.Reach(e.Center) > e.Radius+float64(1e-9*e.Radius) {
			f.plain = false
		}
		f.discs = append(f.discs, d)
	}
	return f
}

// depth is how deep a point lies, mm; only its sign is exact outside.
func (f *fence) depth(x, y float64) float64 {
	if !f.plain {
		return f.outline.Depth(plane.Vec{x, y})
	}
	d := math.Inf(1)
	for i := range f.lines {
		l := &f.lines[i]
		d = math.Min(d, float64(l.nx*x)+float64(l.ny*y)-l.c)
	}
	for i := range f.discs {
		c := &f.discs[i]
		d = math.Min(d, c.r-plane.Hypot(x-c.x, y-c.y))
	}
	return d
}

// inside is a quick look whether a point lies deep enough in a fence that is
// one disc; false says nothing.
func (f *fence) inside(x, y, need float64) bool {
	if !f.plain || len(f.lines) > 0 || len(f.discs) != 1 {
		return false
	}
	c := &f.discs[0]
	dx, dy, r := x-c.x, y-c.y, c.r-need
	return r > 0 && float64(dx*dx)+float64(dy*dy) <= float64(r*r)
}

// push is the energy of a point that should lie at least need deep, and its
// gradient.
func (f *fence) push(x, y, need float64) (e, gx, gy float64) {
	if !f.plain {
		d, in := f.outline.DepthNormal(plane.Vec{x, y})
		if v := need - d; v > 0 {
			return float64(v * v), float64(-2 * v * in[0]), float64(-2 * v * in[1])
		}
		return 0, 0, 0
	}
	for i := range f.lines {
		l := &f.lines[i]
		v := need + l.c - float64(l.nx*x) - float64(l.ny*y)
		if v > 0 {
			e += float64(v * v)
			gx -= float64(2 * v * l.nx)
			gy -= float64(2 * v * l.ny)
		}
	}
	for i := range f.discs {
		c := &f.discs[i]
		dx, dy := x-c.x, y-c.y
		r := c.r - need
		q := float64(dx*dx) + float64(dy*dy)
		if r > 0 && q <= float64(r*r) {
			continue
		}
		d := math.Sqrt(q)
		v := d - r
		e += float64(v * v)
		if d > 0 {
			k := 2 * v / d
			gx += float64(k * dx)
			gy += float64(k * dy)
		}
	}
	return e, gx, gy
}
