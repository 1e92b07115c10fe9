package order

import (
	"math"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
)

// ray is how far it is from p in direction bearing to the edge of an outline,
// mm: 0 for a p outside.
func ray(o *plane.Outline, p plane.Vec, bearing float64) float64 {
	if o.Empty() || !(o.Depth(p) > 0) {
		return 0
	}
	lo, hi := o.Bounds()
	dir := plane.FromBearing(1, bearing)
	depth := func(t float64) float64 { return o.Depth(plane.Add(p, plane.Scale(dir, t))) }
	near, far := 0.0, plane.Distance(lo, hi)+1
	in, out := depth(near), depth(far)
	// The depth is concave along the ray, so it crosses 0 once: false position,
	// the standing end halved (the Illinois rule) so that both close in.
	for i := 0; i < 60 && far-near > 1e-9; i++ {
		t := near + float64((far-near)*in)/(in-out)
		d := depth(t)
		switch {
		case d > 1e-10:
			near, in, out = t, d, out/2
		case d < -1e-10:
			far, out, in = t, d, in/2
		default:
			return t
		}
	}
	return near
}

// outward is the room, mm, between a pot and the shelf's edge, straight
// outward from a center; negative past the edge.
func outward(o *plane.Outline, pot *stacks.Pot, center plane.Vec) float64 {
	bearing := plane.Bearing(plane.Sub(pot.At, center))
	return ray(o, pot.At, bearing) - bodyReach(pot, bearing)
}

// plan is the plan of a pot's body where it stands, without handle and spout.
func plan(pot *stacks.Pot) (plane.Skeleton, float64) {
	d := &pot.Body.Drawn.Body
	if len(d.Skeleton) > 0 {
		return d.Skeleton.At(plane.Pose{At: pot.At, Turn: pot.Turn}), d.Radius
	}
	if len(pot.Solid.Body.Parts) > 0 {
		return pot.Solid.Skeleton(0), pot.Solid.Body.Parts[0].Profile.Max()
	}
	return plane.Skeleton{pot.At}, 0
}

// bodyReach is how far a pot's body reaches from its place toward a bearing,
// mm.
func bodyReach(pot *stacks.Pot, bearing float64) float64 {
	dir := plane.FromBearing(1, bearing)
	skeleton, r := plan(pot)
	far := math.Inf(-1)
	for _, v := range skeleton {
		far = math.Max(far, plane.Dot(plane.Sub(v, pot.At), dir))
	}
	return far + r
}

// nearestEdge is the room, mm, between a pot's body and the nearest edge of
// its shelf, and the bearing of that edge.
func nearestEdge(o *plane.Outline, pot *stacks.Pot) (gap, toward float64) {
	skeleton, r := plan(pot)
	gap = math.Inf(1)
	for _, v := range skeleton {
		if depth, inward := o.DepthNormal(v); depth-r < gap {
			gap, toward = depth-r, plane.NormalTurn(plane.Bearing(inward)+180)
		}
	}
	return gap, toward
}

// handleOf is the bearing of a pot's first handle, or of the spout of ware
// that has no handle; false for ware with neither.
func handleOf(pot *stacks.Pot) (bearing float64, spout, ok bool) {
	limbs := pot.Body.Drawn.Handles
	if pot.Ware == nil || len(limbs) == 0 {
		return 0, false, false
	}
	var tip plane.Vec
	for _, v := range limbs[0].Skeleton {
		if plane.Length(v) > plane.Length(tip) {
			tip = v
		}
	}
	if !(plane.Length(tip) > plane.Tolerance) {
		return 0, false, false
	}
	spout = len(limbs) == 1 && pot.Ware.Spout != nil && len(pot.Ware.Handles) == 0
	return plane.NormalTurn(plane.Bearing(tip) + pot.Turn), spout, true
}

// between is the angle between two bearings, 0 to 180 degrees.
func between(a, b float64) float64 {
	d := plane.NormalTurn(a - b)
	return math.Min(d, 360-d)
}
