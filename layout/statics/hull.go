package statics

import (
	"sort"

	"threepost/geometry/plane"
)

// collinear is how far, in mm, a point may lie off a line and still count as
// on it: far under what a post can be placed to, far over rounding.
const collinear = 1e-7

// ring is the convex hull of points, counter-clockwise, without points on its
// sides: one point, two for points in one line, else a polygon.
func ring(points []plane.Vec) []plane.Vec {
	p := append([]plane.Vec(nil), points...)
	sort.Slice(p, func(i, j int) bool {
		if p[i][0] != p[j][0] {
			return p[i][0] < p[j][0]
		}
		return p[i][1] < p[j][1]
	})
	n := 0
	for i, v := range p { // drop equal points
		if i == 0 || v != p[n-1] {
			p[n] = v
			n++
		}
	}
	p = p[:n]
	if n < 3 {
		return p
	}
	hull := make([]plane.Vec, 0, n+1)
	hull = chain(hull, p, 0)
	base := len(hull) - 1
	hull = hull[:base]
	for i, j := 0, n-1; i < j; i, j = i+1, j-1 {
		p[i], p[j] = p[j], p[i]
	}
	hull = chain(hull, p, base)
	return hull[:len(hull)-1]
}

// chain appends one side of the hull (monotone chain) to dst from index base.
func chain(dst, points []plane.Vec, base int) []plane.Vec {
	for _, v := range points {
		for len(dst) >= base+2 && !turnsLeft(dst[len(dst)-2], dst[len(dst)-1], v) {
			dst = dst[:len(dst)-1]
		}
		dst = append(dst, v)
	}
	return dst
}

// turnsLeft tells whether b lies to the right of the way from a to c by more
// than the collinear allowance.
func turnsLeft(a, b, c plane.Vec) bool {
	way := plane.Sub(c, a)
	return plane.Cross(plane.Sub(b, a), way) > float64(collinear*plane.Length(way))
}

// inside is the distance of p to the boundary of a ring, positive inside. For
// a ring of one or two points it is 0 on it and negative off it.
func inside(hull []plane.Vec, p plane.Vec) float64 {
	switch len(hull) {
	case 0:
		return 0
	case 1:
		return -plane.Distance(hull[0], p)
	case 2:
		d := toSegment(hull[0], hull[1], p)
		if d <= collinear {
			return 0
		}
		return -d
	}
	within := true
	least := -1.0
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		if plane.Cross(plane.Sub(b, a), plane.Sub(p, a)) < 0 {
			within = false
		}
		if d := toSegment(a, b, p); least < 0 || d < least {
			least = d
		}
	}
	if !within {
		return -least
	}
	return least
}

// nearest is the point of a ring's boundary nearest to p.
func nearest(hull []plane.Vec, p plane.Vec) plane.Vec {
	best, least := p, -1.0
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		at := a
		if way := plane.Sub(b, a); plane.Dot(way, way) > 0 {
			t := plane.Dot(plane.Sub(p, a), way) / plane.Dot(way, way)
			at = plane.Lerp(a, b, min(1, max(0, t)))
		}
		if d := plane.Distance(at, p); least < 0 || d < least {
			best, least = at, d
		}
	}
	return best
}

// toSegment is the distance of p to the segment a b.
func toSegment(a, b, p plane.Vec) float64 {
	way := plane.Sub(b, a)
	l := plane.Dot(way, way)
	if !(l > 0) {
		return plane.Distance(a, p)
	}
	t := plane.Dot(plane.Sub(p, a), way) / l
	switch {
	case t <= 0:
		return plane.Distance(a, p)
	case t >= 1:
		return plane.Distance(b, p)
	}
	return plane.Distance(plane.Lerp(a, b, t), p)
}
