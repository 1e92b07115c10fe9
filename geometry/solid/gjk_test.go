package solid

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// A second opinion on gaps that knows nothing of slices: the distance of two
// convex solids given by their support functions, after Gilbert, Johnson and
// Keerthi (1988), with its own certificate. A part is convex between two
// knots, so a body is a list of frusta.

// frustum is the convex piece of a part between two knots.
type frustum struct {
	skeleton plane.Skeleton
	lo, hi   Knot // heights over the floor
}

func (f frustum) support(d mgl64.Vec3) mgl64.Vec3 {
	flat := plane.Vec{d[0], d[1]}
	s := f.skeleton.Support(flat)
	u := plane.Unit(flat)
	a := mgl64.Vec3{s[0] + u[0]*f.lo.R, s[1] + u[1]*f.lo.R, f.lo.Z}
	b := mgl64.Vec3{s[0] + u[0]*f.hi.R, s[1] + u[1]*f.hi.R, f.hi.Z}
	if a.Dot(d) >= b.Dot(d) {
		return a
	}
	return b
}

func frusta(w *Placed) []frustum {
	var list []frustum
	for _, p := range w.parts {
		for i := 0; i+1 < len(p.profile); i++ {
			lo, hi := p.profile[i], p.profile[i+1]
			if lo.Z < hi.Z {
				list = append(list, frustum{p.skeleton, Knot{lo.Z + w.Pose.Z, lo.R}, Knot{hi.Z + w.Pose.Z, hi.R}})
			}
		}
	}
	return list
}

// nearestInHull is the point of the hull of up to four points nearest to the
// origin and the points that carry it: every subset's affine nearest point is
// tried, and of those inside their subset the nearest wins.
func nearestInHull(pts []mgl64.Vec3) (mgl64.Vec3, []mgl64.Vec3) {
	best := math.Inf(1)
	var at mgl64.Vec3
	var keep []mgl64.Vec3
	for mask := 1; mask < 1<<len(pts); mask++ {
		var sub []mgl64.Vec3
		for i, p := range pts {
			if mask>>i&1 == 1 {
				sub = append(sub, p)
			}
		}
		if v, ok := affineNearest(sub); ok && v.Dot(v) < best {
			best, at, keep = v.Dot(v), v, sub
		}
	}
	return at, keep
}

// affineNearest solves for the nearest point of the affine hull and says
// whether it lies within the simplex.
func affineNearest(p []mgl64.Vec3) (mgl64.Vec3, bool) {
	e := make([]mgl64.Vec3, len(p)-1)
	for i := range e {
		e[i] = p[i+1].Sub(p[0])
	}
	var m [3][4]float64
	n := len(e)
	for i := range n {
		for j := range n {
			m[i][j] = e[i].Dot(e[j])
		}
		m[i][3] = -e[i].Dot(p[0])
	}
	scale := 0.0
	for i := range n {
		scale = math.Max(scale, m[i][i])
	}
	for i := range n { // Gauss with pivots; a flat simplex is left to its faces
		piv := i
		for k := i; k < n; k++ {
			if math.Abs(m[k][i]) > math.Abs(m[piv][i]) {
				piv = k
			}
		}
		m[i], m[piv] = m[piv], m[i]
		if math.Abs(m[i][i]) < 1e-11*scale {
			return mgl64.Vec3{}, false
		}
		for k := range n {
			if k != i {
				f := m[k][i] / m[i][i]
				for j := range 4 {
					m[k][j] -= f * m[i][j]
				}
			}
		}
	}
	v, sum := p[0], 0.0
	for i := range n {
		l := m[i][3] / m[i][i]
		if l < 0 {
			return mgl64.Vec3{}, false
		}
		sum += l
		v = v.Add(e[i].Mul(l))
	}
	return v, sum <= 1
}

// convexDistance gives bounds of the distance of two convex solids: the
// nearest point found is an upper bound, and a plane across the way to it is
// a lower bound. Below enough, it stops as soon as the bounds agree within
// tol or the distance is known to be over enough.
func convexDistance(a, b frustum, tol, enough float64) (lower, upper float64) {
	v := a.support(mgl64.Vec3{1, 0, 0}).Sub(b.support(mgl64.Vec3{-1, 0, 0}))
	simplex := []mgl64.Vec3{v}
	lower = math.Inf(-1)
	for range 400 {
		upper = v.Len()
		if upper < tol {
			return 0, upper
		}
		w := a.support(v.Mul(-1)).Sub(b.support(v))
		lower = math.Max(lower, v.Dot(w)/upper)
		if upper-lower <= tol || lower > enough {
			return lower, upper
		}
		next, keep := nearestInHull(append(simplex, w))
		if next.Len() >= upper || len(keep) == 4 {
			if len(keep) == 4 {
				return lower, 0 // the origin lies inside: they overlap
			}
			return lower, upper
		}
		v, simplex = next, keep
	}
	return lower, upper
}

func TestGapAgreesWithConvexDistanceNearContact(t *testing.T) {
	const pairs, tol = 12000, 1e-7
	r := chance(1)
	apart, overlaps, close := 0, 0, 0
	worst := 0.0
	for k := range pairs {
		a, b := nearContact(r, somePart(r, 4), somePart(r, 4))
		gap, w := Gap(&a, &b)
		lower, upper := math.Inf(1), math.Inf(1)
		for _, f := range frusta(&a) {
			for _, g := range frusta(&b) {
				l, u := convexDistance(f, g, tol, upper)
				lower, upper = math.Min(lower, l), math.Min(upper, u)
			}
		}
		if gap > 0 {
			apart++
			require.LessOrEqual(t, gap, upper+tol, "pair %d: over the upper bound\n%+v\n%+v", k, a, b)
			require.GreaterOrEqual(t, gap, lower-tol, "pair %d: under the lower bound", k)
			worst = math.Max(worst, upper-lower)
		} else {
			overlaps++
			require.LessOrEqual(t, lower, tol, "pair %d is parted by a plane, gap %g", k, gap)
		}
		if math.Abs(gap) < 0.5 {
			close++
		}
		require.InDelta(t, math.Abs(gap), w.A.Sub(w.B).Len(), 1e-9, "pair %d: witnesses", k)
	}
	require.Less(t, worst, 1e-3, "the second opinion is no longer sharp")
	t.Logf("%d pairs: %d apart, %d overlapping, %d within half a mm of contact; widest bounds %.2g mm", pairs, apart, overlaps, close, worst)
	require.Greater(t, close, pairs/4)
	require.Greater(t, overlaps, pairs/10)
}

// width is how far b has to go along the unit direction n to be parted from
// a by a plane across n.
func width(a, b []frustum, n mgl64.Vec3) float64 {
	out, back := math.Inf(-1), math.Inf(-1)
	for _, f := range a {
		out = math.Max(out, f.support(n).Dot(n))
	}
	for _, g := range b {
		back = math.Max(back, g.support(n.Mul(-1)).Dot(n.Mul(-1)))
	}
	return out + back
}

// For convex solids the shortest way out is the least width over all
// directions: no direction may do better than the gap says, and the
// witnesses' direction must do as well.
func TestOverlapOfConvexPartsIsTheLeastWidth(t *testing.T) {
	r := chance(2)
	seen := 0
	for seen < 1500 {
		pa, pb := somePart(r, 2), somePart(r, 2)
		a, b := nearContact(r, pa, pb)
		gap, w := Gap(&a, &b)
		if gap >= -1e-6 {
			continue
		}
		seen++
		fa, fb := frusta(&a), frusta(&b)
		way := w.A.Sub(w.B).Normalize()
		require.InDelta(t, -gap, width(fa, fb, way), 1e-7, "along the witnesses")
		for range 60 {
			n := mgl64.Vec3{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Normalize()
			require.GreaterOrEqual(t, width(fa, fb, n), -gap-1e-9)
			n = way.Add(n.Mul(0.05)).Normalize()
			require.GreaterOrEqual(t, width(fa, fb, n), -gap-1e-9, "near the witnesses' direction")
		}
	}
}
