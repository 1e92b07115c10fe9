package drawing

import "math"

// line is one part of a flattened path: straight from point to point.
type line struct {
	at     []Point
	closed bool
}

// flatten turns curves into straight pieces that stray at most tolerance from
// them, in the path's own units.
func flatten(p Path, tolerance float64) []line {
	var out []line
	var now line
	end := func() {
		if len(now.at) > 0 {
			out = append(out, now)
		}
		now = line{}
	}
	for _, s := range p {
		switch s.Op {
		case MoveTo:
			end()
			now.at = append(now.at, s.P[0])
		case LineTo:
			now.at = append(now.at, s.P[0])
		case CubicTo:
			if len(now.at) == 0 {
				now.at = append(now.at, s.P[0])
			}
			now.at = flattenCubic(now.at, s.P, tolerance)
		case Close:
			if len(now.at) == 0 {
				continue
			}
			start := now.at[0]
			now.closed = true
			end()
			// What follows a Close begins where the part began.
			now.at = append(now.at, start)
		}
	}
	if len(now.at) > 1 || len(out) == 0 || !out[len(out)-1].closed {
		end()
	}
	return withoutStubs(out)
}

// withoutStubs drops the single points that a Close followed by a MoveTo
// leaves behind.
func withoutStubs(lines []line) []line {
	kept := lines[:0]
	for _, l := range lines {
		if len(l.at) > 1 {
			kept = append(kept, l)
		}
	}
	return kept
}

// flattenCubic steps evenly. A chord over a step h strays by at most
// h^2 / 8 times the largest second derivative, which for a cubic is 6 times
// the larger second difference of its controls.
func flattenCubic(at []Point, p [3]Point, tolerance float64) []Point {
	from := at[len(at)-1]
	d := max(secondDifference(from, p[0], p[1]), secondDifference(p[0], p[1], p[2]))
	n := int(math.Ceil(math.Sqrt(6 * d / (8 * tolerance))))
	n = max(1, min(n, 200))
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		a, b, c := between(from, p[0], t), between(p[0], p[1], t), between(p[1], p[2], t)
		at = append(at, between(between(a, b, t), between(b, c, t), t))
	}
	return append(at, p[2])
}

func secondDifference(a, b, c Point) float64 {
	dx, dy := a.X-float64(2*b.X)+c.X, a.Y-float64(2*b.Y)+c.Y
	return math.Sqrt(float64(dx*dx) + float64(dy*dy))
}
