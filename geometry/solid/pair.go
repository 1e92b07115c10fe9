package solid

import (
	"math"

	"threepost/geometry/plane"
)

// pair is two profiles at a planar distance: all that the gap of two upright
// parts depends on. b's heights are lifted by dz into a's frame.
//
//	  a | <- d -> | b       in the (u, z) plane a is {u <= rA(z)} and
//	____|         |____     b is {u >= d - rB(z)}
//	    |         |
type pair struct {
	a, b Profile
	dz   float64 // height of b's frame over a's, mm
	d    float64 // signed distance of the skeletons, mm
}

// meeting is where the gap of a pair is found: on a at height za (a's frame)
// and u mm from its skeleton toward b; on b at za less the rise and u less
// the run.
type meeting struct {
	gap       float64
	za, u     float64
	run, rise float64 // overlap: the way out for b, out along u and up. Else: a less b
}

// meet is the signed gap of the pair.
func (p pair) meet() meeting {
	if p.d <= p.a.Max()+p.b.Max() {
		if m := p.sum(); m >= p.d {
			return p.overlap(m)
		}
	}
	return p.apart()
}

// sum is M(0), the greatest rA(z) + rB(z) over the heights that both have;
// -Inf when they share none. The sum is straight between knots, so the knots
// suffice.
func (p pair) sum() float64 {
	best := math.Inf(-1)
	for _, k := range p.a {
		best = max(best, k.R+widthAt(p.b, k.Z-p.dz))
	}
	for _, k := range p.b {
		best = max(best, k.R+widthAt(p.a, k.Z+p.dz))
	}
	return best
}

// widthAt is Profile.R by a plain walk, which is faster for few knots.
func widthAt(p Profile, z float64) float64 {
	n := len(p)
	if n > 32 {
		return p.R(z)
	}
	if n == 0 || !(z >= p[0].Z) || z > p[n-1].Z {
		return math.Inf(-1)
	}
	i := 0
	for p[i].Z < z {
		i++
	}
	if p[i].Z > z {
		return between(p[i-1], p[i], z)
	}
	r := p[i].R
	for i++; i < n && p[i].Z == z; i++ {
		r = max(r, p[i].R)
	}
	return r
}

// apart is the distance of two regions that do not meet. It is found between
// a knot of one and a straight or a flat end of the other: equal heights or
// knots alone would miss a knot that faces the middle of a straight.
func (p pair) apart() meeting {
	best := meeting{gap: math.Inf(1)}
	for _, k := range p.a {
		if x, y, ok := nearestOf(p.b, k.R-p.d, k.Z-p.dz, &best.gap); ok {
			best.za, best.u, best.run, best.rise = k.Z, k.R, -x, -y
		}
	}
	for _, k := range p.b {
		if x, y, ok := nearestOf(p.a, k.R-p.d, k.Z+p.dz, &best.gap); ok {
			best.za, best.u, best.run, best.rise = k.Z+p.dz+y, p.d-k.R-x, -x, y
		}
	}
	return best
}

// nearestOf looks from a knot of one profile at the other profile q: over is
// how far the knot reaches beyond q's skeleton (its radius less the planar
// distance), z its height in q's frame. If something of q lies nearer than
// best, it lowers best and gives how far across and how far up it lies.
func nearestOf(q Profile, over, z float64, best *float64) (x, y float64, ok bool) {
	last := len(q) - 1
	for _, e := range [2]Knot{q[0], q[last]} {
		if ey := e.Z - z; -over-e.R <= 0 && math.Abs(ey) < *best {
			*best, x, y, ok = math.Abs(ey), 0, ey, true
		}
	}
	x0, y0 := -over-q[0].R, q[0].Z-z
	if e := plane.Hypot(x0, y0); e < *best && x0 > 0 {
		*best, x, y, ok = e, x0, y0, true
	}
	for i := 0; i < last; i++ {
		x1, y1 := -over-q[i+1].R, q[i+1].Z-z
		fx, fy := x0, y0
		dx, dy := x1-x0, y1-y0
		x0, y0 = x1, y1
		g := *best
		if fy > g {
			break
		}
		if y1 < -g || (fx > g && x1 > g) {
			continue
		}
		if t := -(float64(fx*dx) + float64(fy*dy)); t > 0 {
			if l := float64(dx*dx) + float64(dy*dy); t < l {
				t /= l
				fx, fy = fx+float64(dx*t), fy+float64(dy*t)
			} else {
				fx, fy = x1, y1
			}
		}
		if e := float64(fx*fx) + float64(fy*fy); e < float64(g*g) {
			*best, x, y, ok = math.Sqrt(e), fx, fy, true
		}
	}
	return x, y, ok
}
