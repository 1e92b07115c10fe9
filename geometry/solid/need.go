package solid

import (
	"math"

	"threepost/geometry/plane"
)

// level is how near in mm two heights are one: room for rounding, a
// thousandth of the tolerance.
const level = 1e-9

// Need is the least signed distance of two skeletons that keeps gap g (mm, 0
// or more) between their parts, with b's base dz mm over a's:
//
//	D = max over |s| < g of ( M(s) + sqrt(g^2 - s^2) )
//
// with M(s) the greatest sum of the radii when b is lifted by s. It is a
// maximum over knots of one against straights of the other in closed form.
// It is -Inf when no planar distance is needed, because the heights alone
// keep the gap: a pot that stands on a shelf keeps gap 0 from it anywhere.
//
// Laws: at distance D the gap is g, and a micron nearer it is less; Need(a,
// b, g, dz) is Need(b, a, g, -dz); it never falls when g or a radius grows.
func Need(a, b Part, g, dz float64) float64 { return needOf(a.Profile, b.Profile, g, dz) }

func needOf(a, b Profile, g, dz float64) float64 {
	if len(a) == 0 || len(b) == 0 || !(g >= 0) ||
		a[len(a)-1].Z+g-level <= b[0].Z+dz || b[len(b)-1].Z+dz+g-level <= a[0].Z {
		return math.Inf(-1)
	}
	best := math.Inf(-1)
	if g <= 2*level {
		p := pair{a: a, b: b, dz: dz}
		return min(p.sumBeside(1), p.sumBeside(-1))
	}
	for _, k := range a {
		best = needKnot(b, k.R, k.Z-dz, g, best)
	}
	for _, k := range b {
		best = needKnot(a, k.R, k.Z+dz, g, best)
	}
	return best
}

// sumBeside is M(s) just above (way 1) or just below (way -1) s = 0. The
// lesser of the two is the need for gap 0: nearer than that, b is stuck both
// ways.
func (p pair) sumBeside(way float64) float64 {
	var store [48]sumLine
	to := p.nextLevel(way, level)
	if math.IsInf(to, 1) {
		return math.Inf(-1)
	}
	lines := p.lines(store[:0], way, 0, to)
	if at, ok := topLine(lines); ok {
		return lines[at].y
	}
	return math.Inf(-1)
}

// needKnot is the greatest of best and the need of a knot with radius r at
// height z of q's frame against the straights of q. On a straight of slope m
// the need is greatest m g / sqrt(1 + m^2) above the knot.
func needKnot(q Profile, r, z, g, best float64) float64 {
	for i := 0; i+1 < len(q); i++ {
		a, b := q[i], q[i+1]
		lo, hi := a.Z-z, b.Z-z
		if lo >= g-level {
			break
		}
		if hi <= level-g || r+max(a.R, b.R)+g <= best {
			continue
		}
		if lo == hi { // a step
			best = max(best, r+max(a.R, b.R)+rise(g, lo))
			continue
		}
		y, w := 0.0, a.R
		if a.R != b.R {
			m := (b.R - a.R) / (hi - lo)
			y = float64(m*g) / math.Sqrt(1+float64(m*m))
		}
		y = min(max(min(max(y, -g), g), lo), hi)
		if a.R != b.R {
			w = between(a, b, y+z)
		}
		best = max(best, r+w+rise(g, y))
	}
	return best
}

// rise is sqrt(g^2 - s^2), 0 beyond g.
func rise(g, s float64) float64 { return math.Sqrt(max(0, float64((g-s)*(g+s)))) }

// NeedLower is the least signed distance of two skeletons at which b can be
// let down from above to its place beside a standing a, with b's base dz mm
// over a's: the greatest of M(s) over s >= 0. It is -Inf when nothing of b
// comes down to the height of a. Hand room is the caller's to add.
//
// Laws: it is never less than Need(a, b, 0, dz), and never grows with dz; a
// pot can be let down onto the shelf that it stands on.
func NeedLower(a, b Part, dz float64) float64 { return needLowerOf(a.Profile, b.Profile, dz) }

// needLowerOf is the greatest rA(zA) + rB(zB) over zA above zB: at two knots,
// or at one knot beside a straight of the other.
func needLowerOf(a, b Profile, dz float64) float64 {
	best := math.Inf(-1)
	for i, k := range a {
		best = max(best, k.R+insideStraight(b, k.Z-dz))
		for j, l := range b {
			switch h := k.Z - l.Z - dz; {
			case h > level:
				best = max(best, k.R+l.R)
			case h < -level:
			case i+1 < len(a) && a[i+1].Z > k.Z, j > 0 && b[j-1].Z < l.Z:
				best = max(best, k.R+l.R) // a goes on above, or b below
			}
		}
	}
	for _, l := range b {
		best = max(best, l.R+insideStraight(a, l.Z+dz))
	}
	return best
}

// insideStraight is the radius at a height well inside a straight of p, -Inf
// at the level of a knot and beyond the ends.
func insideStraight(p Profile, z float64) float64 {
	i, ok := straightAt(p, z)
	if !ok || z-p[i].Z <= level || p[i+1].Z-z <= level {
		return math.Inf(-1)
	}
	return between(p[i], p[i+1], z)
}

// LowerDepth is how much planar distance is missing, mm, for letting body b
// down from above to its pose beside a standing body a with the given hand
// room: 0 or less when it can be done, -Inf when nothing of b passes a.
func LowerDepth(a, b *Placed, hand float64) float64 {
	worst := math.Inf(-1)
	for i := range a.parts {
		p := &a.parts[i]
		for j := range b.parts {
			q := &b.parts[j]
			need := needLowerOf(p.profile, q.profile, b.Pose.Z-a.Pose.Z)
			if math.IsInf(need, -1) {
				continue
			}
			worst = max(worst, need+hand-p.skeleton.Distance(q.skeleton))
		}
	}
	return worst
}

// Lower tells whether b can be let down from above beside a standing a with
// the given hand room, within the tolerance.
//
// Law: at every moment of the way down the gap of the two is at least that
// at the nearest of its moments, which is 0 or more when hand is 0.
func Lower(a, b *Placed, hand float64) bool { return LowerDepth(a, b, hand) <= plane.Tolerance }
