package plane

import "math"

// Distance is how far skeleton s keeps from the outline, mm, 0 when they
// meet.
//
// It is the least over the straight edges and the ends of the arcs and, for
// each arc, the distance of its centre to s cut to the arc's cone, less the
// radius. The cut needs no cutting: if the point of s nearest to the centre
// lies in the cone it is the one, and if not, the nearest within the cone
// lies on the cone's border, where the arc's end is as near.
func (o Outline) Distance(s Skeleton) float64 {
	if len(s) == 1 {
		return max(0, -o.Depth(s[0]))
	}
	for _, v := range s {
		if o.Contains(v) {
			return 0
		}
	}
	best := math.Inf(1)
	for i := range o.edges {
		e := &o.edges[i]
		if e.Kind == Line {
			if !e.holds(s) {
				best = min(best, edgeDistance([2]Vec{e.From, e.To}, s))
			}
		} else {
			best = min(best, o.arcDistance(e, s))
		}
		if best <= 0 {
			return 0
		}
	}
	return best
}

// holds tells whether s lies wholly on the inner side of a straight edge.
// Then the edge is not what s is nearest to, nor what it crosses: at a corner
// that is nearest, one of the two edges has s beyond it.
func (r *ringEdge) holds(s Skeleton) bool {
	for _, v := range s {
		if Dot(Sub(v, r.From), r.in) < 0 {
			return false
		}
	}
	return true
}

// arcDistance is the distance of s to an arc of the outline, 0 when s is
// found to meet the outline.
func (o Outline) arcDistance(e *ringEdge, s Skeleton) float64 {
	q, d := s.Nearest(e.Center)
	if d <= e.Radius {
		if o.Contains(q) {
			return 0
		}
	} else if e.inCone(Sub(q, e.Center)) {
		return d - e.Radius
	}
	_, from := s.Nearest(e.From)
	_, to := s.Nearest(e.To)
	return min(from, to)
}

// edgeDistance is the distance of a segment and a skeleton, 0 when they meet.
func edgeDistance(edge [2]Vec, s Skeleton) float64 {
	if _, d := s.Nearest(edge[0]); d == 0 {
		return 0
	}
	best := math.Inf(1)
	for j, v := range s {
		w := s[(j+1)%len(s)]
		d2, _, _ := segmentsNearest(edge[0], edge[1], v, w)
		best = min(best, d2)
		if len(s) == 2 {
			break
		}
	}
	return math.Sqrt(best)
}

// SignedDistance is Distance while s and the outline do not meet, and minus
// the length of the shortest move that parts them when they do.
//
// The move is the least over directions of how far the outline reaches in
// that direction plus how far s reaches against it; the least is found at a
// side of one of the two, or where a corner of s faces an arc's centre.
func (o Outline) SignedDistance(s Skeleton) float64 {
	if len(s) == 1 {
		return -o.Depth(s[0])
	}
	if d := o.Distance(s); d > 0 || o.Empty() || len(s) == 0 {
		return d
	}
	least := math.Inf(1)
	try := func(n Vec) {
		w := Dot(o.Support(n), n) - Dot(s.Support(Scale(n, -1)), n)
		least = min(least, w)
	}
	for i := range o.edges {
		e := &o.edges[i]
		if e.Kind == Line {
			try(Scale(e.in, -1))
			continue
		}
		for _, v := range s {
			if q := Sub(v, e.Center); Length(q) > 0 && e.inCone(q) {
				try(Unit(q))
			}
		}
	}
	for i, v := range s {
		try(Unit(Left(Sub(s[(i+1)%len(s)], v))))
	}
	return -max(0, least)
}
