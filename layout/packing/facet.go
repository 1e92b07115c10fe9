package packing

import (
	"math"

	"threepost/geometry/plane"
)

// normals are the unit outward normals of a skeleton's sides, as listed; none
// for a point.
func normals(s plane.Skeleton) []plane.Vec {
	if len(s) < 2 {
		return nil
	}
	list := make([]plane.Vec, len(s))
	for i, v := range s {
		list[i] = plane.Unit(plane.Right(plane.Sub(s[(i+1)%len(s)], v)))
	}
	return list
}

// facet is the side of one skeleton that another lies farthest beyond: by gap,
// with its corner nearest to the side.
type facet struct {
	gap  float64
	side int
	at   plane.Vec
}

// widest finds the widest facet of s, whose normals are n, toward t. It ends
// early with a facet of enough.
func widest(s plane.Skeleton, n []plane.Vec, t plane.Skeleton, enough float64) facet {
	best := facet{gap: math.Inf(-1)}
	for i, v := range n {
		base := float64(v[0]*s[i][0]) + float64(v[1]*s[i][1])
		low, at := math.Inf(1), 0
		for k, q := range t {
			if h := float64(v[0]*q[0]) + float64(v[1]*q[1]) - base; h < low {
				low, at = h, k
			}
		}
		if low > best.gap {
			best = facet{gap: low, side: i, at: t[at]}
			if low >= enough {
				return best
			}
		}
	}
	return best
}

// near is the separation of two skeletons for the energy: d, the nearest
// points, and the direction from a to b; only that d is need or more is said
// of those that are so far apart. na and nb are their normals.
//
// A side's distance is a lower bound of the distance, so it is the distance
// when the nearest corner stands square before the side. Where it does not,
// package plane works it out.
func near(a, b plane.Skeleton, na, nb []plane.Vec, need float64) (d float64, pa, pb, n plane.Vec) {
	if len(na) == 0 && len(nb) == 0 {
		return separation(a, b)
	}
	fa := widest(a, na, b, need)
	if fa.gap >= need {
		return fa.gap, a[0], b[0], plane.Vec{1, 0}
	}
	fb := widest(b, nb, a, need)
	if fb.gap >= need {
		return fb.gap, a[0], b[0], plane.Vec{1, 0}
	}
	if fa.gap >= fb.gap {
		n = na[fa.side]
		pb = fa.at
		pa = plane.Sub(pb, plane.Scale(n, fa.gap))
		if fa.gap <= -1e-9 || (fa.gap > 0 && between(pa, a, fa.side)) {
			return fa.gap, pa, pb, n
		}
		return plane.Separation(a, b)
	}
	n = nb[fb.side]
	pa = fb.at
	pb = plane.Sub(pa, plane.Scale(n, fb.gap))
	if fb.gap <= -1e-9 || (fb.gap > 0 && between(pb, b, fb.side)) {
		return fb.gap, pa, pb, plane.Scale(n, -1)
	}
	return plane.Separation(a, b)
}

// between says whether a point on the line of a side lies on the side.
func between(p plane.Vec, s plane.Skeleton, side int) bool {
	v, w := s[side], s[(side+1)%len(s)]
	d := plane.Sub(w, v)
	t := plane.Dot(plane.Sub(p, v), d)
	return t >= 0 && t <= plane.Dot(d, d)
}
