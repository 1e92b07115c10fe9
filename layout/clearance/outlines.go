package clearance

import (
	"math"

	"threepost/geometry/plane"
)

// insideBy is how far an outline keeps from the ring of another that should
// hold it, mm, and where it comes nearest; negative: how far it reaches out.
//
// Depth in a convex outline is concave, so over a convex shelf it is least at
// a corner, or on an arc where the arc faces a straight side, or on an arc
// where it lies farthest from the centre of one of the holder's arcs.
func insideBy(inner, holder plane.Outline) (float64, plane.Vec) {
	best, where := math.Inf(1), plane.Vec{}
	try := func(p plane.Vec) {
		if d := holder.Depth(p); d < best {
			best, where = d, p
		}
	}
	walls := holder.Edges()
	for _, e := range inner.Edges() {
		try(e.From)
		if e.Kind != plane.Arc {
			continue
		}
		for _, w := range walls {
			dir := plane.Right(plane.Sub(w.To, w.From))
			if w.Kind == plane.Arc {
				dir = plane.Sub(e.Center, w.Center)
			}
			if facing(e, dir) {
				try(plane.Add(e.Center, plane.Scale(plane.Unit(dir), e.Radius)))
			}
		}
	}
	return best, where
}

// facing tells whether an arc has a point in direction dir from its centre.
func facing(e plane.Edge, dir plane.Vec) bool {
	if e.From == e.To {
		return true
	}
	u, v := plane.Sub(e.From, e.Center), plane.Sub(e.To, e.Center)
	if plane.Cross(u, v) < 0 { // over half a turn
		return !(plane.Cross(v, dir) > 0 && plane.Cross(dir, u) > 0)
	}
	return plane.Cross(u, dir) >= 0 && plane.Cross(dir, v) >= 0
}

// outlinesApart is the signed distance of two outlines: how far apart they
// lie, or minus the shortest move that parts them, and a point between them.
//
// It is the greatest, over directions n, of how far b begins beyond where a
// ends. The greatest is found at a side of one of them, or where two corners
// or centres of arcs face each other.
func outlinesApart(a, b plane.Outline) (float64, plane.Vec) {
	best, where := math.Inf(-1), plane.Vec{}
	try := func(n plane.Vec) {
		if plane.Length(n) == 0 {
			return
		}
		n = plane.Unit(n)
		p, q := a.Support(n), b.Support(plane.Scale(n, -1))
		if d := plane.Dot(n, plane.Sub(q, p)); d > best {
			best, where = d, plane.Lerp(p, q, 0.5)
		}
	}
	ea, eb := a.Edges(), b.Edges()
	for _, e := range ea {
		if e.Kind == plane.Line {
			try(plane.Right(plane.Sub(e.To, e.From)))
		}
	}
	for _, e := range eb {
		if e.Kind == plane.Line {
			try(plane.Left(plane.Sub(e.To, e.From)))
		}
	}
	for _, p := range turningPoints(ea) {
		for _, q := range turningPoints(eb) {
			try(plane.Sub(q, p))
		}
	}
	return best, where
}

// turningPoints are the corners of a ring and the centres of its arcs: where
// the outward normal turns.
func turningPoints(edges []plane.Edge) []plane.Vec {
	var out []plane.Vec
	for _, e := range edges {
		out = append(out, e.From)
		if e.Kind == plane.Arc {
			out = append(out, e.Center)
		}
	}
	return out
}
