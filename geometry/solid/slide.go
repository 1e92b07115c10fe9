package solid

import (
	"math"

	"threepost/geometry/plane"
)

// Slide is how far, mm, 0 or more, moving has to go along dir until it keeps
// gap g from fixed; 0 when it keeps it already. The heights stay. A dir
// without length stands for +x.
//
// For each pair of parts the positions that are too near form one stretch of
// the way, found in closed form: the way crosses the difference of the two
// skeletons, widened by their need, and that is bounded by strips along its
// sides and discs about its corners. The least way out of all stretches is
// taken.
//
// Law: after sliding, the gap is g or more, and every position before it on
// the way that lies past the last free one is nearer than g.
func Slide(moving, fixed *Placed, dir plane.Vec, g float64) float64 {
	u := plane.Unit(dir)
	t := 0.0
	for again := true; again; {
		again = false
		for i := range moving.parts {
			p := &moving.parts[i]
			for j := range fixed.parts {
				q := &fixed.parts[j]
				need := needOf(p.profile, q.profile, g, fixed.Pose.Z-moving.Pose.Z)
				if math.IsInf(need, -1) {
					continue
				}
				in, out := tooNear(p.skeleton, q.skeleton, u, need)
				if in+level < t && t < out-level || t == 0 && in < 0 && level < out {
					t, again = out, true
				}
			}
		}
	}
	return t
}

// tooNear is the stretch of travels along u over which skeleton p is nearer
// than need to q; in > out when it never is.
func tooNear(p, q plane.Skeleton, u plane.Vec, need float64) (in, out float64) {
	in, out = math.Inf(1), math.Inf(-1)
	for i, v := range p {
		for j, w := range q {
			at := plane.Sub(w, v)
			capEnd(at, u, need, &in, &out)
			if len(q) > 1 {
				capSide(at, plane.Sub(q[(j+1)%len(q)], v), u, need, &in, &out)
			}
			if len(p) > 1 {
				capSide(at, plane.Sub(w, p[(i+1)%len(p)]), u, need, &in, &out)
			}
		}
	}
	return in, out
}

// capEnd widens the stretch by the disc of radius r about c.
func capEnd(c, u plane.Vec, r float64, in, out *float64) {
	off := plane.Cross(u, c)
	h := float64((r - off) * (r + off))
	if h < 0 {
		return
	}
	mid, half := plane.Dot(u, c), math.Sqrt(h)
	*in, *out = min(*in, mid-half), max(*out, mid+half)
}

// capSide widens the stretch by where the way crosses the two sides of the
// strip of half width r along the segment from a to b.
func capSide(a, b, u plane.Vec, r float64, in, out *float64) {
	ab := plane.Sub(b, a)
	l := plane.Length(ab)
	if l == 0 {
		return
	}
	n := plane.Scale(plane.Right(ab), 1/l)
	across := plane.Dot(n, u)
	if across == 0 {
		return
	}
	for _, side := range [2]float64{-r, r} {
		t := (plane.Dot(n, a) + side) / across
		along := plane.Dot(plane.Sub(plane.Scale(u, t), a), ab)
		if along >= 0 && along <= float64(l*l) {
			*in, *out = min(*in, t), max(*out, t)
		}
	}
}
