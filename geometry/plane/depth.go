package plane

import "math"

// Depth is how deep p lies in the outline, mm: its distance to the ring when
// inside, minus its distance to the outline when outside.
//
// Laws: it is exact; it is concave over the inside; it never changes faster
// than p moves; so a disc of radius r about p keeps Depth(p) - r from the
// ring, inside and outside alike.
func (o Outline) Depth(p Vec) float64 {
	d := math.Inf(1)
	for i := range o.edges {
		e := &o.edges[i]
		if e.Kind == Line {
			d = min(d, Dot(Sub(p, e.From), e.in))
			continue
		}
		if q := Sub(p, e.Center); e.whole || e.inCone(q) {
			d = min(d, e.Radius-Length(q))
		}
	}
	if d >= 0 && len(o.edges) > 0 {
		return d
	}
	_, far := o.outside(p)
	return -far
}

// DepthNormal is Depth and the unit direction in which it grows fastest, for
// optimisers: inward from the nearest point of the ring. At the middle of a
// round shape any direction would do and (0, 1) is given.
func (o Outline) DepthNormal(p Vec) (depth float64, inward Vec) {
	depth = math.Inf(1)
	inward = Vec{0, 1}
	for i := range o.edges {
		e := &o.edges[i]
		if e.Kind == Line {
			if d := Dot(Sub(p, e.From), e.in); d < depth {
				depth, inward = d, e.in
			}
			continue
		}
		q := Sub(p, e.Center)
		if !e.whole && !e.inCone(q) {
			continue
		}
		if l := Length(q); e.Radius-l < depth {
			depth, inward = e.Radius-l, Vec{0, 1}
			if l > 0 {
				inward = Scale(q, -1/l)
			}
		}
	}
	if depth >= 0 && len(o.edges) > 0 {
		return depth, inward
	}
	at, far := o.outside(p)
	if far > 0 && len(o.edges) > 0 {
		inward = Scale(Sub(at, p), 1/far)
	}
	return -far, inward
}

// Contains tells whether p lies in the outline or on its ring.
func (o Outline) Contains(p Vec) bool {
	for i := range o.edges {
		e := &o.edges[i]
		if e.Kind == Line {
			if Dot(Sub(p, e.From), e.in) < 0 {
				return false
			}
			continue
		}
		if q := Sub(p, e.Center); (e.whole || e.inCone(q)) && Length(q) > e.Radius {
			return false
		}
	}
	return len(o.edges) > 0
}

// outside is the nearest point of the outline to a p outside of it, and its
// distance.
func (o Outline) outside(p Vec) (at Vec, far float64) {
	far = math.Inf(1)
	take := func(v Vec) {
		if d := Distance(p, v); d < far {
			far, at = d, v
		}
	}
	for i := range o.edges {
		e := &o.edges[i]
		if e.Kind == Line {
			take(nearestOnSegment(p, e.From, e.To))
			continue
		}
		take(e.From)
		take(e.To)
		q := Sub(p, e.Center)
		if l := Length(q); l >= e.Radius && e.inCone(q) {
			if l-e.Radius < far {
				far, at = l-e.Radius, Add(e.Center, Scale(q, e.Radius/l))
			}
		}
	}
	return at, far
}

// NearestEdge is the point of the ring nearest to p, inside or outside.
func (o Outline) NearestEdge(p Vec) Vec {
	far, at := math.Inf(1), p
	take := func(v Vec) {
		if d := Distance(p, v); d < far {
			far, at = d, v
		}
	}
	for i := range o.edges {
		e := &o.edges[i]
		if e.Kind == Line {
			take(nearestOnSegment(p, e.From, e.To))
			continue
		}
		take(e.From)
		take(e.To)
		if q := Sub(p, e.Center); Length(q) > 0 && e.inCone(q) {
			take(Add(e.Center, Scale(Unit(q), e.Radius)))
		}
	}
	return at
}

// Clearance is how far a skeleton widened by r keeps from the ring, from
// inside, mm: the least depth of its corners, less r. Negative: how far it
// reaches beyond.
func Clearance(o Outline, s Skeleton, r float64) float64 {
	least := math.Inf(1)
	for _, v := range s {
		least = min(least, o.Depth(v))
	}
	return least - r
}
