package clearance

import (
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
)

// drawBorders lists the borders of all places where the pot may not stand.
func (s *snapper) drawBorders() {
	m := s.moving(s.pot, plane.Vec{}, s.turn)
	body := s.b.Pots[s.pot].Body
	for _, j := range s.pots {
		q := &s.b.Pots[j].Solid
		s.between(m, q, s.figure(s.potLimits(s.pot, j)))
	}
	for _, j := range s.posts {
		s.between(m, &s.b.Posts[j].Solid, s.figure(s.lim.post))
	}
	for k := range s.b.Probes {
		s.between(m, &s.b.Probes[k].Solid, s.figure(s.lim.probe))
	}
	_, wall := s.wallLimits(s.pot)
	_, edge := s.edgeLimits(s.pot)
	own := s.b.Shelves[s.shelfAt(s.pot, s.want)].Outline
	for i := range m.Body.Parts {
		r := m.Body.Parts[i].Profile.Max()
		s.inside(m.Skeleton(i), s.b.Chamber, r+s.figure(wall))
		s.inside(m.Skeleton(i), own, r-s.rim)
		for _, k := range s.shelves {
			s.beside(m.Skeleton(i), s.b.Shelves[k].Outline, r+s.figure(s.lim.post))
		}
	}
	s.inside(body.Foot.At(plane.Pose{Turn: s.turn}), own, body.FootR+s.figure(edge))
}

// between adds the borders that fixed body q puts round moving body m, which
// stands at the origin: each pair of parts forbids all places within its need
// of the difference of the two skeletons.
func (s *snapper) between(m, q *solid.Placed, g float64) {
	dz := q.Base() - s.b.Pots[s.pot].Z
	for i := range m.Body.Parts {
		for j := range q.Body.Parts {
			d := solid.Need(m.Body.Parts[i], q.Body.Parts[j], g, dz)
			if d < 0 || math.IsInf(d, 0) {
				continue
			}
			s.around(difference(q.Skeleton(j), m.Skeleton(i)), d)
		}
	}
}

// around adds the border of a ring of points widened by d.
func (s *snapper) around(ring []plane.Vec, d float64) {
	for i, p := range ring {
		s.borders = append(s.borders, border{round: true, a: p, radius: d})
		if len(ring) < 2 {
			continue
		}
		q := ring[(i+1)%len(ring)]
		off := plane.Scale(plane.Unit(plane.Right(plane.Sub(q, p))), d)
		s.borders = append(s.borders, border{a: plane.Add(p, off), b: plane.Add(q, off)})
	}
}

// inside adds the borders of places where a skeleton keeps d from the ring of
// an outline about it.
func (s *snapper) inside(k plane.Skeleton, o plane.Outline, d float64) {
	for _, e := range o.Edges() {
		for _, v := range k {
			if e.Kind == plane.Arc {
				if r := e.Radius - d; r > 0 {
					s.borders = append(s.borders, border{round: true, a: plane.Sub(e.Center, v), radius: r})
				}
				continue
			}
			in := plane.Scale(plane.Unit(plane.Left(plane.Sub(e.To, e.From))), d)
			s.borders = append(s.borders, border{a: plane.Sub(plane.Add(e.From, in), v), b: plane.Sub(plane.Add(e.To, in), v)})
		}
	}
}

// beside adds the borders of places where a skeleton keeps d from an outline
// beside it.
func (s *snapper) beside(k plane.Skeleton, o plane.Outline, d float64) {
	for _, e := range o.Edges() {
		for _, v := range k {
			s.borders = append(s.borders, border{round: true, a: plane.Sub(e.From, v), radius: d})
			if e.Kind == plane.Arc {
				s.borders = append(s.borders, border{round: true, a: plane.Sub(e.Center, v), radius: e.Radius + d})
				continue
			}
			out := plane.Scale(plane.Unit(plane.Right(plane.Sub(e.To, e.From))), d)
			s.borders = append(s.borders, border{a: plane.Sub(plane.Add(e.From, out), v), b: plane.Sub(plane.Add(e.To, out), v)})
		}
	}
}

// difference is the hull of all a - b, counter-clockwise: where b's origin may
// lie when the two skeletons meet.
func difference(a, b plane.Skeleton) []plane.Vec {
	pts := make([]plane.Vec, 0, len(a)*len(b))
	for _, p := range a {
		for _, q := range b {
			pts = append(pts, plane.Sub(p, q))
		}
	}
	return hullOf(pts)
}

// hullOf is the convex hull of points, counter-clockwise (Andrew's chain).
func hullOf(pts []plane.Vec) []plane.Vec {
	if len(pts) < 2 {
		return pts
	}
	sort.Slice(pts, func(i, j int) bool {
		return pts[i][0] < pts[j][0] || pts[i][0] == pts[j][0] && pts[i][1] < pts[j][1]
	})
	chain := func(from, to, step int, ring []plane.Vec) []plane.Vec {
		base := len(ring)
		for i := from; i != to; i += step {
			for len(ring) >= base+2 && plane.Cross(plane.Sub(ring[len(ring)-1], ring[len(ring)-2]), plane.Sub(pts[i], ring[len(ring)-1])) <= 0 {
				ring = ring[:len(ring)-1]
			}
			ring = append(ring, pts[i])
		}
		return ring[:len(ring)-1]
	}
	ring := chain(0, len(pts), 1, nil)
	ring = chain(len(pts)-1, -1, -1, ring)
	if len(ring) == 0 {
		return pts[:1]
	}
	return ring
}

// nearest is the point of a border nearest to v.
func (b border) nearest(v plane.Vec) plane.Vec {
	if b.round {
		return plane.Add(b.a, plane.Scale(plane.Unit(plane.Sub(v, b.a)), b.radius))
	}
	if b.a == b.b {
		return b.a
	}
	q, _ := plane.Skeleton{b.a, b.b}.Nearest(v)
	return q
}

// cross is where two borders cross.
func cross(p, q border) []plane.Vec {
	switch {
	case p.round && q.round:
		return circles(p.a, p.radius, q.a, q.radius)
	case p.round:
		return onCircle(q.a, q.b, p.a, p.radius)
	case q.round:
		return onCircle(p.a, p.b, q.a, q.radius)
	}
	return straights(p.a, p.b, q.a, q.b)
}

func circles(a plane.Vec, ra float64, b plane.Vec, rb float64) []plane.Vec {
	d := plane.Distance(a, b)
	if d == 0 || d > ra+rb || d < math.Abs(ra-rb) {
		return nil
	}
	x := (float64(ra*ra) - float64(rb*rb) + float64(d*d)) / (2 * d)
	h := math.Sqrt(math.Max(0, float64(ra*ra)-float64(x*x)))
	u := plane.Unit(plane.Sub(b, a))
	foot := plane.Add(a, plane.Scale(u, x))
	side := plane.Scale(plane.Left(u), h)
	return []plane.Vec{plane.Add(foot, side), plane.Sub(foot, side)}
}

func onCircle(a, b, c plane.Vec, r float64) []plane.Vec {
	if a == b {
		return nil
	}
	u := plane.Unit(plane.Sub(b, a))
	t := plane.Dot(u, plane.Sub(c, a))
	off := plane.Cross(u, plane.Sub(c, a))
	if math.Abs(off) > r {
		return nil
	}
	h, long := math.Sqrt(float64(r*r)-float64(off*off)), plane.Distance(a, b)
	var out []plane.Vec
	for _, k := range []float64{t - h, t + h} {
		if k >= 0 && k <= long {
			out = append(out, plane.Add(a, plane.Scale(u, k)))
		}
	}
	return out
}

func straights(a, b, c, d plane.Vec) []plane.Vec {
	u, v := plane.Sub(b, a), plane.Sub(d, c)
	den := plane.Cross(u, v)
	if den == 0 {
		return nil
	}
	t := plane.Cross(plane.Sub(c, a), v) / den
	k := plane.Cross(plane.Sub(c, a), u) / den
	if t < 0 || t > 1 || k < 0 || k > 1 {
		return nil
	}
	return []plane.Vec{plane.Add(a, plane.Scale(u, t))}
}
