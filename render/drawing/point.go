package drawing

import "math"

// Point is a place on the page, mm right of and below its top left corner.
type Point struct{ X, Y float64 }

// At is the point x mm right of and y mm below the origin.
func At(x, y float64) Point { return Point{x, y} }

// Toward is the point r mm from p on a bearing in degrees clockwise, where
// bearing 0 is up the page.
func (p Point) Toward(bearing, r float64) Point {
	s, c := sinCos(bearing)
	return Point{p.X + float64(r*s), p.Y - float64(r*c)}
}

// sinCos gives sine and cosine of an angle in degrees, exact at the quarter
// turns so that upright things stay upright.
func sinCos(degrees float64) (sin, cos float64) {
	degrees = math.Mod(degrees, 360)
	if degrees < 0 {
		degrees += 360
	}
	switch degrees {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(degrees * math.Pi / 180)
}

// Transform maps a group's points to the page:
// x' = A x + C y + E, y' = B x + D y + F.
// The zero Transform collapses everything; use Same for "no change".
type Transform struct{ A, B, C, D, E, F float64 }

// Same leaves every point where it is.
func Same() Transform { return Transform{A: 1, D: 1} }

// Move shifts by x mm to the right and y mm down.
func Move(x, y float64) Transform { return Transform{A: 1, D: 1, E: x, F: y} }

// Scale enlarges by s about the origin.
func Scale(s float64) Transform { return Transform{A: s, D: s} }

// Stretch enlarges by sx across and sy down. Stretch(s, -s) turns the kiln's
// frame, whose y runs to the back, into the page's: texts are not mirrored,
// but bearings of arcs inside are, since a mirror is what it is.
func Stretch(sx, sy float64) Transform { return Transform{A: sx, D: sy} }

// Turn turns clockwise about the origin by an angle in degrees.
func Turn(degrees float64) Transform {
	s, c := sinCos(degrees)
	return Transform{A: c, B: s, C: -s, D: c}
}

// Then is the transform that does t first and u after it.
func (t Transform) Then(u Transform) Transform {
	o := u.Apply(Point{t.E, t.F})
	return Transform{
		A: float64(u.A*t.A) + float64(u.C*t.B), B: float64(u.B*t.A) + float64(u.D*t.B),
		C: float64(u.A*t.C) + float64(u.C*t.D), D: float64(u.B*t.C) + float64(u.D*t.D),
		E: o.X, F: o.Y,
	}
}

// Apply maps a point. The products are kept from being fused so that the
// page has the same bytes on every processor.
func (t Transform) Apply(p Point) Point {
	return Point{
		X: float64(t.A*p.X) + float64(t.C*p.Y) + t.E,
		Y: float64(t.B*p.X) + float64(t.D*p.Y) + t.F,
	}
}
