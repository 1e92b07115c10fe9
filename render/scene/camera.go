package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
)

// Camera is an eye that looks at a target. The zero value is useless; begin
// with a preset.
type Camera struct {
	Target    mgl64.Vec3 `json:"target"`    // mm
	Azimuth   float64    `json:"azimuth"`   // bearing on which the eye stands, degrees clockwise from 12
	Elevation float64    `json:"elevation"` // degrees over the horizon, -90 to 90
	Distance  float64    `json:"distance"`  // eye to target, mm
	Angle     float64    `json:"angle"`     // of view, top to bottom, degrees; 0: parallel
	Span      float64    `json:"span"`      // parallel only: height of what is seen, mm
	Near      float64    `json:"near"`      // 0: a share of the distance
}

// Parallel tells whether the camera has no perspective.
func (c Camera) Parallel() bool { return c.Angle <= 0 }

// Screen is a picture's size in px.
type Screen struct{ W, H float64 }

// axes are the camera's right, up and backward (toward the eye) unit vectors.
func (c Camera) axes() (right, up, back mgl64.Vec3) {
	s, co := plane.SinCos(c.Azimuth)
	se, ce := plane.SinCos(c.Elevation)
	back = mgl64.Vec3{s * ce, co * ce, se}
	up = mgl64.Vec3{-s * se, -co * se, ce}
	right = mgl64.Vec3{-co, s, 0}
	return right, up, back
}

// Eye is where the camera stands.
func (c Camera) Eye() mgl64.Vec3 {
	_, _, back := c.axes()
	return c.Target.Add(back.Mul(c.Distance))
}

// depths are the nearest and farthest distance drawn.
func (c Camera) depths() (near, far float64) {
	if c.Parallel() {
		return c.Distance - 1e4, c.Distance + 1e4
	}
	near = c.Near
	if near <= 0 {
		near = math.Max(1, c.Distance/100)
	}
	return near, c.Distance + 2e4
}

// View is the matrix from the kiln's frame to the camera's: x right, y up, z
// toward the eye.
func (c Camera) View() mgl64.Mat4 {
	r, u, b := c.axes()
	e := c.Eye()
	return mgl64.Mat4{
		r[0], u[0], b[0], 0,
		r[1], u[1], b[1], 0,
		r[2], u[2], b[2], 0,
		-dot(r, e), -dot(u, e), -dot(b, e), 1,
	}
}

// Projection is the matrix from the camera's frame to clip space as OpenGL
// has it.
func (c Camera) Projection(s Screen) mgl64.Mat4 {
	near, far := c.depths()
	aspect := s.aspect()
	if c.Parallel() {
		h := c.Span / 2
		return mgl64.Ortho(-h*aspect, h*aspect, -h, h, near, far)
	}
	return mgl64.Perspective(mgl64.DegToRad(c.Angle), aspect, near, far)
}

func (s Screen) aspect() float64 {
	if !(s.W > 0 && s.H > 0) {
		return 1
	}
	return s.W / s.H
}

// scale is how many px a mm is large at a distance in front of the eye.
func (c Camera) scale(s Screen, depth float64) float64 {
	if c.Parallel() {
		return s.H / c.Span
	}
	return s.H / (2 * depth * math.Tan(mgl64.DegToRad(c.Angle)/2))
}

// Project is where a point lies on the screen, px from its upper left corner,
// and how far it lies in front of the eye, mm. It is not ok behind the eye.
func (c Camera) Project(p mgl64.Vec3, s Screen) (at mgl64.Vec2, depth float64, ok bool) {
	r, u, b := c.axes()
	d := p.Sub(c.Eye())
	depth = -dot(d, b)
	near, _ := c.depths()
	if depth < near {
		return at, depth, false
	}
	k := c.scale(s, depth)
	return mgl64.Vec2{s.W/2 + dot(d, r)*k, s.H/2 - dot(d, u)*k}, depth, true
}

// Ray is a half line.
type Ray struct{ Origin, Dir mgl64.Vec3 }

// At is the point t of the way.
func (r Ray) At(t float64) mgl64.Vec3 { return r.Origin.Add(r.Dir.Mul(t)) }

// Ray is the line of sight through a point of the screen, px; its direction
// has length 1.
func (c Camera) Ray(x, y float64, s Screen) Ray {
	r, u, b := c.axes()
	k := c.scale(s, math.Max(c.Distance, 1))
	off := r.Mul((x - s.W/2) / k).Add(u.Mul((s.H/2 - y) / k))
	if c.Parallel() {
		near, _ := c.depths()
		return Ray{c.Eye().Add(off).Sub(b.Mul(near)), b.Mul(-1)}
	}
	return Ray{c.Eye(), off.Sub(b.Mul(math.Max(c.Distance, 1))).Normalize()}
}

// OnLevel is where a ray meets the level plane at height z, mm; not ok when
// it never does.
func (r Ray) OnLevel(z float64) (plane.Vec, bool) {
	if math.Abs(r.Dir[2]) < 1e-9 {
		return plane.Vec{}, false
	}
	t := (z - r.Origin[2]) / r.Dir[2]
	if t < 0 || t > 1e6 {
		return plane.Vec{}, false
	}
	p := r.At(t)
	return plane.Vec{p[0], p[1]}, true
}

func dot(a, b mgl64.Vec3) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func unit3(v [3]float32) [3]float32 {
	l := float32(math.Sqrt(float64(v[0]*v[0] + v[1]*v[1] + v[2]*v[2])))
	if !(l > 0) {
		return [3]float32{0, 0, 1}
	}
	return [3]float32{v[0] / l, v[1] / l, v[2] / l}
}

// NearDepth is the least distance in front of the eye that is drawn, mm.
func (c Camera) NearDepth() float64 {
	near, _ := c.depths()
	return near
}
