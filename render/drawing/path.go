package drawing

// Op says what a Segment does.
type Op uint8

// What a segment can do.
const (
	MoveTo  Op = iota // lift the pen and set it down at P[0]
	LineTo            // straight to P[0]
	CubicTo           // Bezier by P[0] and P[1] to P[2]
	Close             // straight back to the last MoveTo
)

// Segment is one step of a path; Op says how many of its points count.
type Segment struct {
	Op Op
	P  [3]Point
}

// Path is a figure of any number of open or closed parts. Filled paths use
// the nonzero winding rule.
type Path []Segment

// Move starts a new part at a point.
func (p *Path) Move(to Point) *Path { return p.add(MoveTo, to) }

// Line goes straight to a point.
func (p *Path) Line(to Point) *Path { return p.add(LineTo, to) }

// Cubic goes along a Bezier curve with controls a and b.
func (p *Path) Cubic(a, b, to Point) *Path { return p.add(CubicTo, a, b, to) }

// Close goes straight back to where the part began.
func (p *Path) Close() *Path { return p.add(Close) }

func (p *Path) add(op Op, at ...Point) *Path {
	s := Segment{Op: op}
	copy(s.P[:], at)
	*p = append(*p, s)
	return p
}

// points is how many of a segment's points count.
func (s Segment) points() int {
	switch s.Op {
	case MoveTo, LineTo:
		return 1
	case CubicTo:
		return 3
	}
	return 0
}

// Apply is the path with every point mapped.
func (p Path) Apply(t Transform) Path {
	out := make(Path, len(p))
	for i, s := range p {
		out[i].Op = s.Op
		for j := range s.points() {
			out[i].P[j] = t.Apply(s.P[j])
		}
	}
	return out
}

// LinePath is the straight line from a to b.
func LinePath(a, b Point) Path {
	var p Path
	p.Move(a).Line(b)
	return p
}

// Polyline goes straight from point to point and stays open.
func Polyline(at ...Point) Path {
	var p Path
	for i, q := range at {
		if i == 0 {
			p.Move(q)
		} else {
			p.Line(q)
		}
	}
	return p
}

// Polygon goes straight from point to point and back to the first.
func Polygon(at ...Point) Path {
	p := Polyline(at...)
	if len(p) > 0 {
		p.Close()
	}
	return p
}

// Rect is the rectangle with its top left corner at (x, y), w across and
// h down, mm.
func Rect(x, y, w, h float64) Path {
	return Polygon(Point{x, y}, Point{x + w, y}, Point{x + w, y + h}, Point{x, y + h})
}

// RoundedRect is a rectangle with corners of radius r mm, at most half of the
// shorter side.
func RoundedRect(x, y, w, h, r float64) Path {
	r = min(r, w/2, h/2)
	if r <= 0 {
		return Rect(x, y, w, h)
	}
	var p Path
	p.Move(Point{x + r, y})
	p.Line(Point{x + w - r, y}).Arc(Point{x + w - r, y + r}, r, 0, 90)
	p.Line(Point{x + w, y + h - r}).Arc(Point{x + w - r, y + h - r}, r, 90, 180)
	p.Line(Point{x + r, y + h}).Arc(Point{x + r, y + h - r}, r, 180, 270)
	p.Line(Point{x, y + r}).Arc(Point{x + r, y + r}, r, 270, 360)
	p.Close()
	return p
}

// Circle is the circle about (x, y) with radius r mm.
func Circle(x, y, r float64) Path { return Ellipse(x, y, r, r) }

// Ellipse is the ellipse about (x, y) with radii rx across and ry down, mm.
func Ellipse(x, y, rx, ry float64) Path {
	var p Path
	p.Arc(Point{}, 1, 0, 360).Close()
	return p.Apply(Stretch(rx, ry).Then(Move(x, y)))
}

// ArcPath is the open arc about (x, y) of radius r mm from one bearing to
// another, clockwise when to > from.
func ArcPath(x, y, r, from, to float64) Path {
	var p Path
	p.Arc(Point{x, y}, r, from, to)
	return p
}

// Arc adds an arc about a centre, radius r mm, between two bearings, going
// clockwise when to > from. A line joins it to what came before; an empty
// path starts with it. One cubic spans at most 90 degrees, which keeps it
// within 0.03 % of r of the true circle.
func (p *Path) Arc(centre Point, r, from, to float64) *Path {
	start := centre.Toward(from, r)
	switch {
	case len(*p) == 0 || (*p)[len(*p)-1].Op == Close:
		p.Move(start)
	default:
		p.Line(start)
	}
	n, step := quarters(from, to)
	k := arcHandle(step) * r
	for i := range n {
		a := from + float64(step*float64(i))
		b := a + step
		if i == n-1 {
			b = to
		}
		pa, pb := centre.Toward(a, r), centre.Toward(b, r)
		p.Cubic(pa.Toward(a+90, k), pb.Toward(b-90, k), pb)
	}
	return p
}
