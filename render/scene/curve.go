package scene

import (
	"math"
	"sort"

	"threepost/layout"
)

// curve is one side of a pot: radius over height, drawn smooth through its
// knots without ever leaving the range between two of them, as a thrower
// would have it.
type curve struct {
	z, r, slope []float64
}

// step is the height under which two knots are a step, mm.
const step = 1e-6

// newCurve takes a profile as people measure it. The slopes are those of
// Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980): flat at a greatest or
// least radius, else the harmonic mean of both sides.
func newCurve(p []layout.Knot) curve {
	var c curve
	for i, k := range p {
		if i == 0 && k.Height > step {
			c.z, c.r = append(c.z, 0), append(c.r, k.Diameter/2)
		}
		c.z, c.r = append(c.z, k.Height), append(c.r, k.Diameter/2)
	}
	n := len(c.z)
	c.slope = make([]float64, n)
	chord := func(i int) float64 {
		if dz := c.z[i+1] - c.z[i]; dz > step {
			return (c.r[i+1] - c.r[i]) / dz
		}
		return 0
	}
	for i := range c.z {
		switch {
		case n < 2:
		case i == 0:
			c.slope[i] = chord(0)
		case i == n-1:
			c.slope[i] = chord(n - 2)
		default:
			if a, b := chord(i-1), chord(i); a*b > 0 {
				c.slope[i] = 2 * a * b / (a + b)
			}
		}
	}
	return c
}

// at is the radius at a height.
func (c curve) at(z float64) float64 {
	n := len(c.z)
	if n == 0 {
		return 0
	}
	if z <= c.z[0] {
		return c.r[0]
	}
	for i := 1; i < n; i++ {
		h := c.z[i] - c.z[i-1]
		if z > c.z[i] || h <= step {
			continue
		}
		t := (z - c.z[i-1]) / h
		t2, t3 := t*t, t*t*t
		r := (2*t3-3*t2+1)*c.r[i-1] + (t3-2*t2+t)*h*c.slope[i-1] +
			(3*t2-2*t3)*c.r[i] + (t3-t2)*h*c.slope[i]
		lo, hi := math.Min(c.r[i-1], c.r[i]), math.Max(c.r[i-1], c.r[i])
		return math.Min(hi, math.Max(lo, r))
	}
	return c.r[n-1]
}

// top is the height of the last knot.
func (c curve) top() float64 {
	if len(c.z) == 0 {
		return 0
	}
	return c.z[len(c.z)-1]
}

// most is the greatest radius.
func (c curve) most() float64 {
	r := 0.0
	for _, v := range c.r {
		r = math.Max(r, v)
	}
	return r
}

// heights are where rings are laid between two heights: at the knots and
// between them, closer where the side bends, about n in all.
func (c curve) heights(from, to float64, n int) []float64 {
	list := []float64{from, to}
	bend := make([]float64, len(c.z))
	sum := 0.0
	for i := 1; i < len(c.z); i++ {
		h := c.z[i] - c.z[i-1]
		if h <= step {
			continue
		}
		bend[i] = math.Abs(c.slope[i]-c.slope[i-1])*20 + math.Sqrt(h*h+(c.r[i]-c.r[i-1])*(c.r[i]-c.r[i-1]))*0.35
		sum += bend[i]
	}
	for i := 1; i < len(c.z); i++ {
		h := c.z[i] - c.z[i-1]
		if h <= step {
			continue
		}
		parts := max(1, int(math.Round(float64(n)*bend[i]/math.Max(sum, step))))
		for k := 0; k <= parts; k++ {
			if z := c.z[i-1] + h*float64(k)/float64(parts); z > from && z < to {
				list = append(list, z)
			}
		}
	}
	sort.Float64s(list)
	out := list[:1]
	for _, z := range list[1:] {
		if z-out[len(out)-1] > math.Min(1.2, (to-from)/50) {
			out = append(out, z)
		} else if z == to {
			out[len(out)-1] = to
		}
	}
	return out
}
