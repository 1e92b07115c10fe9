package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout/stacks"
)

// keepWithin draws in, toward the axis, what would stand out of the body's
// parts, so that nothing is ever drawn larger than what is checked. It gives
// the number of vertices it moved.
func (f *form) keepWithin(b *stacks.Body) int {
	moved := 0
	for i, p := range f.pos {
		if q := drawnIn(&b.Solid, p); q != p {
			f.pos[i] = q
			moved++
		}
	}
	for i := range f.lines {
		for e := range 2 {
			f.lines[i][e] = drawnIn(&b.Solid, f.lines[i][e])
		}
	}
	return moved
}

// slack is how far a vertex may stand out of the parts, mm: rounding.
const slack = 1e-3

// drawnIn is a point moved level toward the axis until a part holds it.
func drawnIn(b *solid.Body, p mgl64.Vec3) mgl64.Vec3 {
	if held(b, p) {
		return p
	}
	lo, hi := 0.0, 1.0
	for range 24 {
		mid := (lo + hi) / 2
		if held(b, mgl64.Vec3{p[0] * mid, p[1] * mid, p[2]}) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return mgl64.Vec3{p[0] * lo, p[1] * lo, p[2]}
}

// held tells whether a part holds a point.
func held(b *solid.Body, p mgl64.Vec3) bool {
	for i := range b.Parts {
		q := &b.Parts[i]
		if p[2] < q.Profile.Bottom()-slack || p[2] > q.Profile.Top()+slack {
			continue
		}
		z := min(max(p[2], q.Profile.Bottom()), q.Profile.Top())
		if _, d := q.Skeleton.Nearest(plane.Vec{p[0], p[1]}); d <= q.Profile.R(z)+slack {
			return true
		}
	}
	return false
}
