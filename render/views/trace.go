package views

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/render/drawing"
)

// trace is SVG path data in the making: M, L, C and Z with absolute px,
// rounded to a hundredth.
type trace []byte

// number appends a figure rounded to a hundredth, without idle zeros.
func (t *trace) number(v float64) {
	if math.IsNaN(v) || math.Abs(v) > 1e7 {
		v = 0
	}
	n := int64(math.Round(v * 100))
	if n < 0 {
		*t = append(*t, '-')
		n = -n
	}
	*t = strconv.AppendInt(*t, n/100, 10)
	if rest := n % 100; rest != 0 {
		*t = append(*t, '.', byte('0'+rest/10))
		if rest%10 != 0 {
			*t = append(*t, byte('0'+rest%10))
		}
	}
}

func (t *trace) pair(x, y float64) {
	t.number(x)
	*t = append(*t, ' ')
	t.number(y)
}

func (t *trace) move(x, y float64) *trace {
	*t = append(*t, 'M')
	t.pair(x, y)
	return t
}

func (t *trace) line(x, y float64) *trace {
	*t = append(*t, 'L')
	t.pair(x, y)
	return t
}

func (t *trace) cubic(x1, y1, x2, y2, x, y float64) *trace {
	*t = append(*t, 'C')
	t.pair(x1, y1)
	*t = append(*t, ' ')
	t.pair(x2, y2)
	*t = append(*t, ' ')
	t.pair(x, y)
	return t
}

func (t *trace) close() *trace {
	*t = append(*t, 'Z')
	return t
}

// rect is an upright rectangle.
func (t *trace) rect(x, y, w, h float64) *trace {
	return t.move(x, y).line(x+w, y).line(x+w, y+h).line(x, y+h).close()
}

// circle is a whole circle.
func (t *trace) circle(x, y, r float64) *trace {
	k := r * 0.5522847498
	t.move(x+r, y)
	t.cubic(x+r, y+k, x+k, y+r, x, y+r)
	t.cubic(x-k, y+r, x-r, y+k, x-r, y)
	t.cubic(x-r, y-k, x-k, y-r, x, y-r)
	t.cubic(x+k, y-r, x+r, y-k, x+r, y)
	return t.close()
}

// arc goes on from where the trace is along a circle, between two bearings of
// the picture (0 is up, clockwise), by cubics of at most 45 degrees.
func (t *trace) arc(x, y, r, from, to float64) {
	n := int(math.Ceil(math.Abs(to-from)/45 - 1e-9))
	if n < 1 {
		return
	}
	step := (to - from) / float64(n)
	k := 4.0 / 3 * math.Tan(step/4*math.Pi/180) * r
	s0, c0 := plane.SinCos(from)
	for i := 1; i <= n; i++ {
		s1, c1 := plane.SinCos(from + step*float64(i))
		t.cubic(x+r*s0+k*c0, y-r*c0+k*s0, x+r*s1-k*c1, y-r*c1-k*s1, x+r*s1, y-r*c1)
		s0, c0 = s1, c1
	}
}

// ring adds an outline of the kiln as the frame has it.
func (t *trace) ring(f Frame, o plane.Outline) *trace {
	edges := o.Edges()
	for i, e := range edges {
		x, y := f.Px(e.From)
		if i == 0 {
			t.move(x, y)
		}
		if e.Kind == plane.Line {
			if x, y = f.Px(e.To); i < len(edges)-1 {
				t.line(x, y)
			}
			continue
		}
		from := plane.Bearing(plane.Sub(e.From, e.Center)) + f.Turn
		cx, cy := f.Px(e.Center)
		t.arc(cx, cy, e.Radius*f.Per, from, from-e.Sweep())
	}
	if len(edges) > 0 {
		t.close()
	}
	return t
}

// drawn adds a path of package drawing, whose points go through to.
func (t *trace) drawn(p drawing.Path, to func(drawing.Point) (x, y float64)) *trace {
	for _, s := range p {
		x, y := to(s.P[0])
		switch s.Op {
		case drawing.MoveTo:
			t.move(x, y)
		case drawing.LineTo:
			t.line(x, y)
		case drawing.CubicTo:
			x2, y2 := to(s.P[1])
			x3, y3 := to(s.P[2])
			t.cubic(x, y, x2, y2, x3, y3)
		case drawing.Close:
			t.close()
		}
	}
	return t
}

func rectPath(x, y, w, h float64) string { return string(*new(trace).rect(x, y, w, h)) }

func circlePath(x, y, r float64) string { return string(*new(trace).circle(x, y, r)) }

func linePath(x1, y1, x2, y2 float64) string { return string(*new(trace).move(x1, y1).line(x2, y2)) }

func ringPath(f Frame, o plane.Outline) string { return string(*new(trace).ring(f, o)) }

// hundredth rounds a px to a hundredth.
func hundredth(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return math.Round(v*100) / 100
}
