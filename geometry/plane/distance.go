package plane

import "math"

// SignedDistance is how far apart two skeletons lie in plan, mm.
//
// Laws: it is symmetric; it does not change when both are moved or turned
// together; when they do not meet it is their distance and pa, pb the nearest
// pair; when they overlap it is minus the length of the shortest move that
// parts them, and moving b by pa - pb is such a move. Points and segments
// inside polygons, and crossing segments, count as overlaps.
func SignedDistance(a, b Skeleton) (d float64, pa, pb Vec) {
	d, pa, pb, _ = Separation(a, b)
	return d, pa, pb
}

// Distance is the signed distance of s and t without its witnesses, with a
// short way for points and segments.
func (s Skeleton) Distance(t Skeleton) float64 {
	if len(s) == 1 && len(t) == 1 {
		return Hypot(s[0][0]-t[0][0], s[0][1]-t[0][1])
	}
	if len(s) > len(t) {
		s, t = t, s
	}
	if len(s) == 1 && len(t) == 2 {
		return math.Sqrt(square(s[0], nearestOnSegment(s[0], t[0], t[1])))
	}
	if len(s) == 1 && len(t) > 2 {
		if _, d := t.Nearest(s[0]); d > 0 {
			return d
		}
	}
	d, _, _, _ := Separation(s, t)
	return d
}

// Nearest is the point of s nearest to p, and its distance: 0 when s holds p.
func (s Skeleton) Nearest(p Vec) (Vec, float64) {
	switch len(s) {
	case 0:
		return p, math.Inf(1)
	case 1:
		return s[0], Distance(s[0], p)
	case 2:
		q := nearestOnSegment(p, s[0], s[1])
		return q, Distance(p, q)
	}
	inside := true
	best, at := math.Inf(1), p
	for i, v := range s {
		w := s[(i+1)%len(s)]
		if Cross(Sub(w, v), Sub(p, v)) >= 0 {
			continue
		}
		inside = false
		q := nearestOnSegment(p, v, w)
		if d2 := square(p, q); d2 < best {
			best, at = d2, q
		}
	}
	if inside {
		return p, 0
	}
	return at, math.Sqrt(best)
}

// Separation is SignedDistance with the unit direction n from a to b along
// which the distance is measured: moving b along n parts them. Where they
// touch so that several directions would do, one is chosen.
func Separation(a, b Skeleton) (d float64, pa, pb, n Vec) {
	switch {
	case len(a) == 0 || len(b) == 0:
		return math.Inf(1), Vec{}, Vec{}, Vec{1, 0}
	case len(a) == 1 && len(b) == 1:
		return apart(a[0], b[0], Vec{1, 0})
	case len(a) <= 2 && len(b) <= 2:
		return thinSeparation(a, b)
	}
	fa, fb := widestFacet(a, b), widestFacet(b, a)
	if max(fa.gap, fb.gap) > 0 {
		d2, pa, pb := ringsNearest(a, b)
		if d2 > 0 {
			return apart(pa, pb, Vec{1, 0})
		}
	}
	return wayOut(a, b, fa, fb)
}

// apart is the separation of two points; fallback is the direction when they
// are one.
func apart(p, q, fallback Vec) (d float64, pa, pb, n Vec) {
	d = Distance(p, q)
	if d > 0 {
		return d, p, q, Scale(Sub(q, p), 1/d)
	}
	return 0, p, q, fallback
}

// thinSeparation is the separation of points and segments, at least one of
// them a segment.
func thinSeparation(a, b Skeleton) (d float64, pa, pb, n Vec) {
	if len(a) == 1 {
		pa, pb = a[0], nearestOnSegment(a[0], b[0], b[1])
		return apart(pa, pb, Unit(Right(Sub(b[1], b[0]))))
	}
	if len(b) == 1 {
		pa, pb = nearestOnSegment(b[0], a[0], a[1]), b[0]
		return apart(pa, pb, Unit(Right(Sub(a[1], a[0]))))
	}
	d2, pa, pb := segmentsNearest(a[0], a[1], b[0], b[1])
	if d2 > 0 {
		return apart(pa, pb, Vec{1, 0})
	}
	if Cross(Sub(a[1], a[0]), Sub(b[1], b[0])) == 0 {
		return 0, pa, pb, Unit(Right(Sub(a[1], a[0])))
	}
	return wayOut(a, b, widestFacet(a, b), widestFacet(b, a))
}

// facet is a side of one skeleton seen as the wall between two: n points out
// of it, gap is how far the other lies beyond it (negative: how deep it
// reaches behind it), deepest the other's corner that does.
type facet struct {
	gap     float64
	n       Vec
	deepest Vec
}

// widestFacet is the side of a that b lies farthest beyond.
func widestFacet(a, b Skeleton) facet {
	best := facet{gap: math.Inf(-1)}
	if len(a) < 2 {
		return best
	}
	for i, v := range a {
		w := a[(i+1)%len(a)]
		n := Unit(Right(Sub(w, v)))
		low, at := math.Inf(1), Vec{}
		for _, q := range b {
			if h := Dot(Sub(q, v), n); h < low {
				low, at = h, q
			}
		}
		if low > best.gap {
			best = facet{gap: low, n: n, deepest: at}
		}
	}
	return best
}

// wayOut turns the widest facets of two overlapping skeletons into the
// shortest move that parts them: the difference of two convex polygons has
// their sides as its sides, so the nearest of its sides is one of these.
func wayOut(a, b Skeleton, fa, fb facet) (d float64, pa, pb, n Vec) {
	if fa.gap >= fb.gap {
		d = min(fa.gap, 0)
		return d, Sub(fa.deepest, Scale(fa.n, d)), fa.deepest, fa.n
	}
	d = min(fb.gap, 0)
	return d, fb.deepest, Sub(fb.deepest, Scale(fb.n, d)), Scale(fb.n, -1)
}

// ringsNearest is the squared distance of two skeletons that do not overlap
// and the nearest pair, one of which is a corner.
func ringsNearest(a, b Skeleton) (d2 float64, pa, pb Vec) {
	d2 = math.Inf(1)
	if len(b) > 1 {
		for _, p := range a {
			for j, v := range b {
				q := nearestOnSegment(p, v, b[(j+1)%len(b)])
				if e := square(p, q); e < d2 {
					d2, pa, pb = e, p, q
				}
			}
		}
	}
	if len(a) > 1 {
		for _, q := range b {
			for i, v := range a {
				p := nearestOnSegment(q, v, a[(i+1)%len(a)])
				if e := square(p, q); e < d2 {
					d2, pa, pb = e, p, q
				}
			}
		}
	}
	return d2, pa, pb
}
