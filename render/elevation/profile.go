package elevation

import (
	"math"

	"threepost/layout"
	"threepost/render/drawing"
)

// side is one side of a pot's profile: radius over height, drawn smooth
// through its knots without ever leaving the range between two of them.
type side struct {
	z, r  []float64
	slope []float64 // of r over z at each knot
}

// newSide takes a profile as people measure it; wide is what a diameter is
// multiplied with for half the width that is seen.
func newSide(p []layout.Knot, wide float64) side {
	var s side
	for _, k := range p {
		s.z = append(s.z, k.Height)
		s.r = append(s.r, float64(k.Diameter*wide))
	}
	s.slopes()
	return s
}

// least is the height under which two knots are a step, mm.
const least = 1e-6

// ProfilePath is the closed side view of a profile as every picture draws it:
// smooth through its knots; u to the right of the middle, z up, mm.
func ProfilePath(p []layout.Knot) drawing.Path { return newSide(p, 0.5).outline(0) }

// slopes are those of Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980):
// flat at a greatest or least radius, else the harmonic mean of both sides.
func (s *side) slopes() {
	n := len(s.z)
	s.slope = make([]float64, n)
	chord := func(i int) float64 {
		dz := s.z[i+1] - s.z[i]
		if dz < least {
			return 0
		}
		return (s.r[i+1] - s.r[i]) / dz
	}
	for i := range s.z {
		switch {
		case n < 2:
		case i == 0:
			s.slope[i] = chord(0)
		case i == n-1:
			s.slope[i] = chord(n - 2)
		default:
			a, b := chord(i-1), chord(i)
			if float64(a*b) > 0 {
				s.slope[i] = 2 * float64(a*b) / (a + b)
			}
		}
	}
}

// at is the radius at a height, straight between knots: near enough for where
// a handle begins.
func (s side) at(z float64) float64 {
	for i := 1; i < len(s.z); i++ {
		if z <= s.z[i] && s.z[i]-s.z[i-1] >= least {
			t := math.Max(0, (z-s.z[i-1])/(s.z[i]-s.z[i-1]))
			return s.r[i-1] + float64((s.r[i]-s.r[i-1])*t)
		}
	}
	if n := len(s.r); n > 0 {
		return s.r[n-1]
	}
	return 0
}

// most is the greatest radius.
func (s side) most() float64 {
	r := 0.0
	for _, v := range s.r {
		r = math.Max(r, v)
	}
	return r
}

// outline is the closed path of both sides, lifted by up mm.
func (s side) outline(up float64) drawing.Path {
	var p drawing.Path
	n := len(s.z)
	if n < 2 {
		return nil
	}
	p.Move(drawing.At(s.r[0], s.z[0]+up))
	for i := 1; i < n; i++ {
		s.piece(&p, i-1, i, 1, up)
	}
	p.Line(drawing.At(-s.r[n-1], s.z[n-1]+up))
	for i := n - 1; i > 0; i-- {
		s.piece(&p, i, i-1, -1, up)
	}
	p.Close()
	return p
}

// piece goes from knot i to knot j on the right side (sign 1) or the left.
func (s side) piece(p *drawing.Path, i, j int, sign, up float64) {
	dz := s.z[j] - s.z[i]
	if math.Abs(dz) < least {
		p.Line(drawing.At(sign*s.r[j], s.z[j]+up))
		return
	}
	third := dz / 3
	a := drawing.At(sign*(s.r[i]+float64(s.slope[i]*third)), s.z[i]+third+up)
	b := drawing.At(sign*(s.r[j]-float64(s.slope[j]*third)), s.z[j]-third+up)
	p.Cubic(a, b, drawing.At(sign*s.r[j], s.z[j]+up))
}
