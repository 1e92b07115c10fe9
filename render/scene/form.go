package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// paint is which of a few colours a vertex of a form wears.
type paint uint8

const (
	warePaint  paint = iota // the pot's own
	standPaint              // cookies, stilts, wads
	conePaint
	padPaint
)

// form is a piece before it is placed: about its own origin, z = 0 where it
// stands. Alike pots share one.
type form struct {
	pos, nor []mgl64.Vec3
	outward  []mgl64.Vec3
	tone     []float64 // what the paint is multiplied with
	paint    []paint
	idx      []uint32
	lines    [][2]mgl64.Vec3
}

// vertex adds a vertex and gives its number.
func (f *form) vertex(p, n mgl64.Vec3, tone float64, c paint) uint32 {
	f.pos = append(f.pos, p)
	f.nor = append(f.nor, unit(n))
	f.tone = append(f.tone, tone)
	f.paint = append(f.paint, c)
	return uint32(len(f.pos) - 1)
}

// triangle adds a triangle unless it has no area.
func (f *form) triangle(a, b, c uint32) {
	if a == b || b == c || a == c {
		return
	}
	u, v := f.pos[b].Sub(f.pos[a]), f.pos[c].Sub(f.pos[a])
	if n := u.Cross(v); dot(n, n) < 1e-10 {
		return
	}
	f.idx = append(f.idx, a, b, c)
}

// quad adds a, b, c, d, counter-clockwise from outside.
func (f *form) quad(a, b, c, d uint32) {
	f.triangle(a, b, c)
	f.triangle(a, c, d)
}

// line adds a crease.
func (f *form) line(a, b mgl64.Vec3) { f.lines = append(f.lines, [2]mgl64.Vec3{a, b}) }

// ring adds a closed crease.
func (f *form) ring(points []mgl64.Vec3) {
	for i, p := range points {
		f.line(p, points[(i+1)%len(points)])
	}
}

// close works out the outward directions: at one corner the normals of all
// faces that meet there give one, so that a hull grown along them has no gaps.
func (f *form) close() *form {
	type spot [3]int32
	at := func(p mgl64.Vec3) spot {
		return spot{int32(math.Round(p[0] * 50)), int32(math.Round(p[1] * 50)), int32(math.Round(p[2] * 50))}
	}
	sum := make(map[spot]mgl64.Vec3, len(f.pos))
	for i, p := range f.pos {
		k := at(p)
		sum[k] = sum[k].Add(f.nor[i])
	}
	f.outward = make([]mgl64.Vec3, len(f.pos))
	for i, p := range f.pos {
		n := sum[at(p)]
		if dot(n, n) < 1e-6 {
			n = f.nor[i]
		}
		f.outward[i] = unit(n)
	}
	return f
}

// footing is how high the underside of a piece is drawn over what it stands
// on, mm, so that no two faces lie in one plane.
const footing = 0.2

// offShelf lifts the underside of a form off what it stands on.
func (f *form) offShelf() {
	for i := range f.pos {
		f.pos[i][2] = math.Max(f.pos[i][2], footing)
	}
	for i := range f.lines {
		for e := range 2 {
			f.lines[i][e][2] = math.Max(f.lines[i][e][2], footing)
		}
	}
}

func unit(v mgl64.Vec3) mgl64.Vec3 {
	l := math.Sqrt(dot(v, v))
	if !(l > 1e-12) {
		return mgl64.Vec3{0, 0, 1}
	}
	return mgl64.Vec3{v[0] / l, v[1] / l, v[2] / l}
}
