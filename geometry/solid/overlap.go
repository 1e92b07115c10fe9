package solid

import (
	"math"

	"threepost/geometry/plane"
)

// sumLine is one straight of M(s) = max over z of rA(z) + rB(z - s), less d,
// on one interval of s: from a knot of a against a straight of b, or the
// other way about.
type sumLine struct {
	y, slope float64 // at the interval's start, and per mm of travel
	r        float64 // the knot's own radius
	za       float64 // a's height there: fixed for a knot of a
	ofA      bool
}

// overlap is the pair when it overlaps: the shortest way out,
//
//	p = min over s of hypot(max(0, M(s) - d), s),   gap = -p
//
// with b moved up by s and out by M(s) - d. Between heights s at which two
// knots come level every straight of the sum stays, so M is the greatest of a
// few lines there, bulging down, and the least is found along it in closed
// form. The walk goes up and down from s = 0 until the rise alone is longer
// than what was found.
func (p pair) overlap(sum float64) meeting {
	best := meeting{gap: sum - p.d, run: sum - p.d}
	best.za, best.u = p.widest(sum)
	p.walkOut(1, &best)
	p.walkOut(-1, &best)
	best.gap = 0 - best.gap
	return best
}

// widest is where the sum of the radii is greatest: a's height and radius.
func (p pair) widest(sum float64) (za, ra float64) {
	for _, k := range p.a {
		if k.R+widthAt(p.b, k.Z-p.dz) == sum {
			return k.Z, k.R
		}
	}
	for _, k := range p.b {
		if r := widthAt(p.a, k.Z+p.dz); k.R+r == sum {
			return k.Z + p.dz, r
		}
	}
	return 0, 0
}

// walkOut looks for a shorter way out with b moved up (way 1) or down (-1).
func (p pair) walkOut(way float64, best *meeting) {
	var store [48]sumLine
	for from := 0.0; from < best.gap; {
		to := p.nextLevel(way, from)
		if math.IsInf(to, 1) { // b has left a's heights
			best.gap, best.run, best.rise = from, 0, float64(way*from)
			best.za, best.u = p.a.Top(), p.a[len(p.a)-1].R
			if way < 0 {
				best.za, best.u = p.a.Bottom(), p.a[0].R
			}
			return
		}
		lines := p.lines(store[:0], way, from, to)
		if p.alongEnvelope(lines, way, from, to, best) {
			return
		}
		from = to
	}
}

// nextLevel is the least travel beyond from at which two knots come level;
// +Inf when none do.
func (p pair) nextLevel(way, from float64) float64 {
	next := math.Inf(1)
	for _, k := range p.a {
		for _, l := range p.b {
			if s := float64(way * (k.Z - l.Z - p.dz)); s > from && s < next {
				next = s
			}
		}
	}
	return next
}

// lines gathers the straights of the sum for travels from-to.
func (p pair) lines(dst []sumLine, way, from, to float64) []sumLine {
	mid, start := float64(float64(way*(from+to))/2), float64(way*from)
	for _, k := range p.a {
		z := k.Z - p.dz
		if i, ok := straightAt(p.b, z-mid); ok {
			m := slope(p.b[i], p.b[i+1])
			y := k.R + p.b[i].R + float64(m*(z-start-p.b[i].Z)) - p.d
			dst = append(dst, sumLine{y: y, slope: -float64(way * m), r: k.R, za: k.Z, ofA: true})
		}
	}
	for _, k := range p.b {
		z := k.Z + p.dz
		if i, ok := straightAt(p.a, z+mid); ok {
			m := slope(p.a[i], p.a[i+1])
			y := k.R + p.a[i].R + float64(m*(z+start-p.a[i].Z)) - p.d
			dst = append(dst, sumLine{y: y, slope: float64(way * m), r: k.R, za: z})
		}
	}
	return dst
}

// straightAt is the index of the straight of p that holds height z inside it.
func straightAt(p Profile, z float64) (int, bool) {
	for i := 0; i+1 < len(p); i++ {
		if p[i].Z < z && z < p[i+1].Z {
			return i, true
		}
	}
	return 0, false
}

func slope(a, b Knot) float64 { return (b.R - a.R) / (b.Z - a.Z) }

// alongEnvelope walks the greatest of the lines from one travel to the next
// and takes the shortest way out met on it. It tells whether nothing shorter
// can follow.
func (p pair) alongEnvelope(lines []sumLine, way, from, to float64, best *meeting) bool {
	t := from
	at, ok := topLine(lines)
	for ok && t < to && t < best.gap {
		l := lines[at]
		y := l.y + float64(l.slope*(t-from))
		end, next := to, -1
		for i, o := range lines { // the first line to rise over this one
			if o.slope <= l.slope {
				continue
			}
			if c := from + (l.y-o.y)/(o.slope-l.slope); c < end || (c == end && next >= 0 && o.slope > lines[next].slope) {
				end, next = max(c, t), i
			}
		}
		s := t
		if y > 0 && l.slope < 0 {
			// the foot of the perpendicular from no travel and no run
			k2 := float64(l.slope * l.slope)
			foot := (float64(k2*t) - float64(l.slope*y)) / (1 + k2)
			s = min(max(foot, t), end)
		}
		run := max(0, y+float64(l.slope*(s-t)))
		if f := plane.Hypot(run, s); f < best.gap {
			best.gap, best.run, best.rise = f, run, float64(way*s)
			best.za, best.u = l.za, l.r
			if !l.ofA {
				best.za += best.rise
				best.u = l.y + float64(l.slope*(s-from)) + p.d - l.r
			}
		}
		if y <= 0 {
			return true
		}
		if l.slope >= 0 || next < 0 {
			return false
		}
		t, at = end, next
	}
	return false
}

// topLine is the line that is greatest at the start, the steepest of those
// where several are.
func topLine(lines []sumLine) (int, bool) {
	best := -1
	for i, l := range lines {
		if best < 0 || l.y > lines[best].y || (l.y == lines[best].y && l.slope > lines[best].slope) {
			best = i
		}
	}
	return best, best >= 0
}
