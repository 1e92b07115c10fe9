package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// conePack lays slender cones, leaning along the pack, in a pad of clay.
func (f *form) conePack(b *stacks.Body, c *layout.ConePack) {
	lo, hi := b.Drawn.Body.Skeleton.Bounds()
	r := b.Drawn.Body.Radius
	length, width := hi[0]-lo[0]+2*r, hi[1]-lo[1]+2*r
	pad := math.Min(15, b.Height/3)
	ring := planOf(stacks.Widened{Skeleton: plane.Skeleton{
		{-length / 2, -width / 2}, {length / 2, -width / 2}, {length / 2, width / 2}, {-length / 2, width / 2},
	}}, 20, math.Min(5, width/4))
	f.prism(ring, 0, pad, 2, padPaint, [3]float64{0.7, 0.9, 1})
	n := 3
	if c != nil && len(c.Cones) > 0 {
		n = min(len(c.Cones), 6)
	}
	room := length * 0.84 / float64(n)
	w := math.Min(math.Min(room*0.62, 13), width*0.5)
	for i := range n {
		x := -length*0.42 + room*(float64(i)+0.32)
		lean := math.Min(room*0.35, (b.Height-pad)*0.14)
		f.cone(plane.Vec{x, 0}, pad-1, w, lean, b.Height)
	}
}

// cone is a slender three-sided pyramid with a blunt tip.
func (f *form) cone(at plane.Vec, z, w, lean, top float64) {
	foot, tip := make([]mgl64.Vec3, 3), make([]mgl64.Vec3, 3)
	for i := range 3 {
		d := plane.FromBearing(w*0.58, 90-120*float64(i))
		foot[i] = mgl64.Vec3{at[0] + d[0], at[1] + d[1], z}
		tip[i] = mgl64.Vec3{at[0] + lean + d[0]*0.22, at[1] + d[1]*0.22, top}
	}
	for i := range 3 {
		j := (i + 1) % 3
		n := foot[j].Sub(foot[i]).Cross(tip[i].Sub(foot[i]))
		a, b := f.vertex(foot[i], n, 0.9, conePaint), f.vertex(foot[j], n, 0.9, conePaint)
		c, d := f.vertex(tip[j], n, 1, conePaint), f.vertex(tip[i], n, 1, conePaint)
		f.quad(a, b, c, d)
		f.line(foot[i], tip[i])
	}
	up := mgl64.Vec3{0, 0, 1}
	f.triangle(f.vertex(tip[0], up, 1, conePaint), f.vertex(tip[1], up, 1, conePaint), f.vertex(tip[2], up, 1, conePaint))
	down := mgl64.Vec3{0, 0, -1}
	f.triangle(f.vertex(foot[0], down, 1, conePaint), f.vertex(foot[2], down, 1, conePaint), f.vertex(foot[1], down, 1, conePaint))
}
