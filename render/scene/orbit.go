package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
)

// Limits of how near and far a camera goes, mm.
const (
	nearest  = 60
	farthest = 12000
)

// Orbit turns the camera about its target: degrees to the right and up.
func (c Camera) Orbit(right, up float64) Camera {
	c.Azimuth = plane.NormalTurn(c.Azimuth + right)
	c.Elevation = math.Min(90, math.Max(-20, c.Elevation+up))
	return c
}

// Pan moves target and eye so that what lay under the pointer follows it by
// dx, dy px.
func (c Camera) Pan(dx, dy float64, s Screen) Camera {
	r, u, _ := c.axes()
	k := c.scale(s, math.Max(c.Distance, 1))
	c.Target = c.Target.Sub(r.Mul(dx / k)).Add(u.Mul(dy / k))
	return c
}

// Zoom brings the camera nearer by a factor (over 1) or farther; the point of
// the target's plane under x, y stays there.
func (c Camera) Zoom(factor, x, y float64, s Screen) Camera {
	if !(factor > 0) || math.IsInf(factor, 1) {
		return c
	}
	size := c.Distance
	if c.Parallel() {
		size = c.Span
	}
	now := math.Min(farthest, math.Max(nearest, size/factor))
	factor = size / now
	if c.Parallel() {
		c.Span = now
	} else {
		c.Distance = now
	}
	k := 1 - 1/factor
	// The point under the pointer moves away from the middle by the factor; the
	// target makes up for it.
	before := c
	if c.Parallel() {
		before.Span = size
	} else {
		before.Distance = size
	}
	return shifted(c, before, (x-s.W/2)*k, (y-s.H/2)*k, s)
}

func shifted(c, before Camera, dx, dy float64, s Screen) Camera {
	c.Target = before.Pan(-dx, -dy, s).Target
	return c
}

// Pinch is two fingers that were at a, b and are at c, d, px: it pans, zooms
// about their middle and turns by their twist.
func (c Camera) Pinch(a, b, to, tod mgl64.Vec2, s Screen) Camera {
	was, now := plane.Distance(a, b), plane.Distance(to, tod)
	mid0, mid1 := plane.Lerp(a, b, 0.5), plane.Lerp(to, tod, 0.5)
	c = c.Pan(mid1[0]-mid0[0], mid1[1]-mid0[1], s)
	if was > 1 && now > 1 {
		c = c.Zoom(now/was, mid1[0], mid1[1], s)
	}
	return c
}

// Fit is the camera moved along its line of sight and sideways so that a box
// fills the screen but for a margin, a share of the shorter side.
func (c Camera) Fit(b Box, s Screen, margin float64) Camera {
	if b.Empty() {
		return c
	}
	c.Target = b.Middle()
	for range 16 { // perspective: each round settles nearer
		c = c.fitOnce(b, s, margin)
	}
	return c
}

// fitOnce centres the box and takes the distance at which it just fits.
func (c Camera) fitOnce(b Box, s Screen, margin float64) Camera {
	r, u, back := c.axes()
	half := c.tangent()
	wide := half * s.aspect()
	room := 1 - 2*margin
	need, span := 0.0, 0.0
	lo, hi := mgl64.Vec2{math.Inf(1), math.Inf(1)}, mgl64.Vec2{math.Inf(-1), math.Inf(-1)}
	for i := range 8 {
		d := b.corner(i).Sub(c.Target)
		x, y, z := dot(d, r), dot(d, u), dot(d, back)
		if c.Parallel() {
			span = max(span, 2*math.Abs(y)/room, 2*math.Abs(x)/room/s.aspect())
		} else {
			need = max(need, z+math.Abs(x)/(wide*room), z+math.Abs(y)/(half*room))
		}
		k := 1.0
		if !c.Parallel() {
			k = c.Distance / math.Max(1, c.Distance-z)
		}
		lo[0], hi[0] = min(lo[0], x*k), max(hi[0], x*k)
		lo[1], hi[1] = min(lo[1], y*k), max(hi[1], y*k)
	}
	if c.Parallel() {
		c.Span = math.Max(1, span)
		c.Distance = math.Max(c.Distance, 1)
	} else {
		c.Distance = math.Max(nearest, need)
	}
	if c.Distance > 1 {
		c.Target = c.Target.Add(r.Mul((lo[0] + hi[0]) / 2)).Add(u.Mul((lo[1] + hi[1]) / 2))
	}
	return c
}

func (c Camera) tangent() float64 { return math.Tan(mgl64.DegToRad(c.Angle) / 2) }

// corner is the i-th of the box's eight corners.
func (b Box) corner(i int) mgl64.Vec3 {
	p := b.Min
	for k := range p {
		if i>>k&1 == 1 {
			p[k] = b.Max[k]
		}
	}
	return p
}

// Corners are the eight corners of the box.
func (b Box) Corners() [8]mgl64.Vec3 {
	var list [8]mgl64.Vec3
	for i := range list {
		list[i] = b.corner(i)
	}
	return list
}

// lens is the angle of view of the presets with perspective, degrees: long
// enough that a shelf looks level.
const lens = 26

// Stand is the view of a person who stands before the kiln and looks down
// into it. A top-loader is looked down into at 24 degrees, so that rims open
// up and shelves stay slim; a front-loader nearly level.
func Stand(b *stacks.Built, box Box, s Screen) Camera {
	c := Camera{Azimuth: 180, Elevation: 24, Distance: 2400, Angle: lens}
	if b.Load.Kiln.Opens == "front" {
		c.Elevation = 12
	}
	return c.Fit(box, s, 0.06)
}

// Top is the view straight down, 12 o'clock up, without perspective.
func Top(box Box, s Screen) Camera {
	return Camera{Azimuth: 180, Elevation: 90, Distance: 4000, Span: 1000}.Fit(box, s, 0.06)
}

// Side is the level view from a bearing without perspective: 180 is front, 90
// is from the right.
func Side(bearing float64, box Box, s Screen) Camera {
	return Camera{Azimuth: bearing, Distance: 4000, Span: 1000}.Fit(box, s, 0.06)
}

// Through is the view through spyhole n, counted from 0, along its axis. It is
// not ok when the kiln has no such hole.
func Through(b *stacks.Built, n int) (Camera, bool) {
	if n < 0 || n >= len(b.Spies) {
		return Camera{}, false
	}
	spy := &b.Spies[n]
	far := 400.0
	at := plane.Add(spy.Mouth, plane.Scale(spy.Inward, far))
	return Camera{
		Target: mgl64.Vec3{at[0], at[1], spy.Height}, Azimuth: plane.Bearing(plane.Scale(spy.Inward, -1)),
		Distance: far + 60, Angle: 56, Near: 62,
	}, true
}

// Blend is the camera t of the way from one to another, eased out, t from 0
// to 1. Azimuths go the short way round. Perspective gives way to parallel at
// the end, and the other way round at the start.
func Blend(from, to Camera, t float64) Camera {
	if t >= 1 {
		return to
	}
	if t <= 0 {
		return from
	}
	k := 1 - (1-t)*(1-t)*(1-t)
	mix := func(a, b float64) float64 { return a + (b-a)*k }
	turn := plane.NormalTurn(to.Azimuth - from.Azimuth)
	if turn > 180 {
		turn -= 360
	}
	a, b := from.lensed(), to.lensed()
	return Camera{
		Target:    mgl64.Vec3{mix(a.Target[0], b.Target[0]), mix(a.Target[1], b.Target[1]), mix(a.Target[2], b.Target[2])},
		Azimuth:   plane.NormalTurn(from.Azimuth + turn*k),
		Elevation: mix(a.Elevation, b.Elevation),
		Distance:  math.Exp(mix(math.Log(a.Distance), math.Log(b.Distance))),
		Angle:     math.Exp(mix(math.Log(a.Angle), math.Log(b.Angle))),
		Near:      mix(a.Near, b.Near),
	}
}

// lensed is a parallel camera as a perspective one with a very long lens that
// shows the same height at the target.
func (c Camera) lensed() Camera {
	if !c.Parallel() {
		return c
	}
	c.Angle = 6
	c.Distance = c.Span / 2 / c.tangent()
	c.Span = 0
	return c
}
