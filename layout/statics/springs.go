package statics

import (
	"math"

	"threepost/geometry/plane"
)

// row is the equation's column of one support: force and two moments, about
// the supports' middle and in units of their spread, so that the three are of
// one size.
type row [3]float64

// rows gives each support's row, and the load's right-hand side for a total
// of 1.
func rows(points []plane.Vec, balance plane.Vec) ([]row, row) {
	n := float64(len(points))
	var mid plane.Vec
	for _, p := range points {
		mid = plane.Add(mid, plane.Scale(p, 1/n))
	}
	spread := 0.0
	for _, p := range points {
		spread = math.Max(spread, plane.Distance(p, mid))
	}
	if !(spread > 0) {
		spread = 1
	}
	of := func(p plane.Vec) row { return row{1, (p[0] - mid[0]) / spread, (p[1] - mid[1]) / spread} }
	out := make([]row, len(points))
	for i, p := range points {
		out[i] = of(p)
	}
	return out, of(balance)
}

func (a row) dot(b row) float64 {
	return float64(a[0]*b[0]) + float64(a[1]*b[1]) + float64(a[2]*b[2])
}

// bilateral is the reactions of a stiff plate on equal springs that can also
// pull: the least sum of squares that balances.
func bilateral(points []plane.Vec, total float64, balance plane.Vec) []float64 {
	a, b := rows(points, balance)
	var h [3]row
	for _, v := range a {
		addOuter(&h, v)
	}
	y, ok := solve3(h, b)
	if !ok {
		return nil
	}
	out := make([]float64, len(points))
	for i, v := range a {
		out[i] = float64(v.dot(y) * total)
	}
	return out
}

// springs is the reactions of a stiff plate on equal springs that cannot pull:
// min sum R^2 with R >= 0 in balance. Its dual is the plane y of the plate's
// sinking, R = max(0, a.y), found by Newton's method on a convex function with
// few pieces; nil if the balance point is not inside the supports' ring.
func springs(points []plane.Vec, total float64, balance plane.Vec) []float64 {
	a, b := rows(points, balance)
	n := float64(len(points))
	y := row{1 / n, 0, 0}
	value := dual(a, b, y)
	const damping = 1e-12
	for step := 0; step < 200; step++ {
		g, h := slope(a, b, y)
		if worst(g) < 1e-14 {
			break
		}
		for k := range h {
			h[k][k] += float64(damping * n)
		}
		d, ok := solve3(h, row{-g[0], -g[1], -g[2]})
		if !ok {
			break
		}
		next, nextValue, moved := descend(a, b, y, d, g, value)
		if !moved {
			break
		}
		y, value = next, nextValue
	}
	if g, _ := slope(a, b, y); worst(g) > 1e-7 {
		return nil
	}
	out := make([]float64, len(points))
	for i, v := range a {
		out[i] = float64(math.Max(0, v.dot(y)) * total)
	}
	return out
}

// descend goes from y along d as far as the dual falls.
func descend(a []row, b, y, d, g row, value float64) (row, float64, bool) {
	fall := g.dot(d)
	for t := 1.0; t > 1e-12; t /= 2 {
		next := row{y[0] + float64(t*d[0]), y[1] + float64(t*d[1]), y[2] + float64(t*d[2])}
		v := dual(a, b, next)
		if v <= value+float64(float64(1e-4*t)*fall) && v < value {
			return next, v, true
		}
		// Close to the bottom the value no longer tells; the slope does.
		if near, _ := slope(a, b, next); worst(near) < worst(g)/2 {
			return next, v, true
		}
	}
	return y, value, false
}

// dual is the function whose slope vanishes in balance.
func dual(a []row, b, y row) float64 {
	sum := -b.dot(y)
	for _, v := range a {
		if s := v.dot(y); s > 0 {
			sum += float64(s * s / 2)
		}
	}
	return sum
}

// slope is the dual's gradient, the imbalance, and its second derivative.
func slope(a []row, b, y row) (g row, h [3]row) {
	g = row{-b[0], -b[1], -b[2]}
	for _, v := range a {
		s := v.dot(y)
		if s <= 0 {
			continue
		}
		for k := range g {
			g[k] += float64(v[k] * s)
		}
		addOuter(&h, v)
	}
	return g, h
}

func addOuter(h *[3]row, v row) {
	for i := range v {
		for j := range v {
			h[i][j] += float64(v[i] * v[j])
		}
	}
}

func worst(g row) float64 {
	return math.Max(math.Abs(g[0]), math.Max(math.Abs(g[1]), math.Abs(g[2])))
}

// solve3 solves h x = b by elimination with the largest pivot; false when h
// has no inverse to speak of.
func solve3(h [3]row, b row) (x row, ok bool) {
	for c := 0; c < 3; c++ {
		p := c
		for r := c + 1; r < 3; r++ {
			if math.Abs(h[r][c]) > math.Abs(h[p][c]) {
				p = r
			}
		}
		if !(math.Abs(h[p][c]) > 1e-18) {
			return x, false
		}
		h[c], h[p] = h[p], h[c]
		b[c], b[p] = b[p], b[c]
		for r := c + 1; r < 3; r++ {
			f := h[r][c] / h[c][c]
			for k := c; k < 3; k++ {
				h[r][k] -= float64(f * h[c][k])
			}
			b[r] -= float64(f * b[c])
		}
	}
	for c := 2; c >= 0; c-- {
		v := b[c]
		for k := c + 1; k < 3; k++ {
			v -= float64(h[c][k] * x[k])
		}
		x[c] = v / h[c][c]
	}
	return x, true
}
