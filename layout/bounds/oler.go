package bounds

import (
	"math"

	"threepost/geometry/plane"
)

// tangents is how many tangent lines stand in for a curved outline. The shape
// between them is larger than the outline by less than 1 part in 4,000.
const tangents = 120

// mostPoints is a count past which a bound is of no use.
const mostPoints = 1e6

// Points is the most points that lie at least inset mm inside an outline and
// pairwise at least apart mm from each other: Oler's inequality for the inner
// parallel shape of area A and perimeter P,
//
//	n <= 2 A / (sqrt(3) apart^2) + P / (2 apart) + 1
//
// (N. Oler, An inequality in the geometry of numbers, Acta Mathematica 105,
// 1961). The points also lie on the given sides of lines. It is 0 where nothing
// lies that deep, and -1, no bound, for distances that are none.
func Points(o plane.Outline, inset, apart float64, sides ...Side) int {
	if !(apart > 0) || math.IsInf(apart, 1) || math.IsNaN(inset) {
		return -1
	}
	area, around, ok := inner(o, inset, sides)
	if !ok {
		return 0
	}
	n := 2*area/float64(math.Sqrt(3)*float64(apart*apart)) + around/(2*apart) + 1
	if n > mostPoints {
		return -1
	}
	return int(math.Floor(n + 1e-9))
}

// inner is the area and perimeter of a shape that holds all points at least
// inset inside the outline; ok is false when there are none.
func inner(o plane.Outline, inset float64, sides []Side) (area, around float64, ok bool) {
	if o.Empty() {
		return 0, 0, false
	}
	lo, hi := o.Bounds()
	out := plane.Vec{math.Max(0, -inset), math.Max(0, -inset)}
	lo, hi = plane.Sub(lo, out), plane.Add(hi, out)
	ring := []plane.Vec{{lo[0], lo[1]}, {hi[0], lo[1]}, {hi[0], hi[1]}, {lo[0], hi[1]}}
	cut := func(out plane.Vec) {
		ring = clip(ring, out, plane.Dot(o.Support(out), out)-inset)
	}
	for i := 0; i < tangents; i++ {
		cut(plane.FromBearing(1, 360*float64(i)/tangents))
	}
	points := o.Points(1)
	for i, p := range points {
		side := plane.Sub(points[(i+1)%len(points)], p)
		if plane.Length(side) > plane.Tolerance {
			cut(plane.Unit(plane.Right(side)))
		}
	}
	for _, s := range sides {
		ring = clip(ring, s.Out, s.At)
	}
	if len(ring) == 0 {
		return 0, 0, false
	}
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		area += float64(plane.Cross(p, q) / 2)
		around += plane.Length(plane.Sub(q, p))
	}
	return math.Abs(area), around, true
}

// clip is the part of a convex ring on the inner side of a line.
func clip(ring []plane.Vec, out plane.Vec, at float64) []plane.Vec {
	cuts := false
	for _, p := range ring {
		if plane.Dot(p, out)-at > plane.Tolerance {
			cuts = true
			break
		}
	}
	if !cuts {
		return ring
	}
	kept := make([]plane.Vec, 0, len(ring)+1)
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		a, b := plane.Dot(p, out)-at, plane.Dot(q, out)-at
		if a <= plane.Tolerance {
			kept = append(kept, p)
		}
		if (a <= plane.Tolerance) != (b <= plane.Tolerance) {
			kept = append(kept, plane.Lerp(p, q, a/(a-b)))
		}
	}
	return kept
}
