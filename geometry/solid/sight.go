package solid

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
)

// Sight tells whether a straight tube of radius tube mm from one point to
// another is clear of every body, which body (its index) leaves the least
// room when it is not, and the least margin: distance of the line to the
// nearest body less the tube's radius, mm. The margin is +Inf and blocker -1
// when nothing stands near; blocker is -1 whenever the tube is clear.
//
// Along the line the planar distance of a skeleton bulges down, and so does
// the distance to each frustum of a part, which is convex: its least value is
// found by narrowing, to rounding. Where the line runs through a body the
// distance is the least of d - r(z) on the way, negative.
func Sight(from, to mgl64.Vec3, tube float64, bodies []*Placed) (blocker int, clear bool, margin float64) {
	line := ray{origin: from, dir: mgl64.Vec3{to[0] - from[0], to[1] - from[1], to[2] - from[2]}}
	margin, blocker = math.Inf(1), -1
	var lo, hi mgl64.Vec3
	for i := range lo {
		lo[i], hi[i] = min(from[i], to[i]), max(from[i], to[i])
	}
	for i, b := range bodies {
		for j := range b.parts {
			p := &b.parts[j]
			if l := boxesApart(lo, hi, p.min, p.max) - tube; l > -tube && l >= margin {
				continue
			}
			if m := line.nearest(p, b.Pose.Z, margin+tube) - tube; m < margin {
				margin, blocker = m, i
			}
		}
	}
	if margin >= -plane.Tolerance {
		return -1, true, margin
	}
	return blocker, false, margin
}

// RayHit is the least t >= 0 at which origin + t dir lies in the body, and
// whether there is one: what a pointer picks. It walks the same frusta as
// Sight.
func RayHit(origin, dir mgl64.Vec3, p *Placed) (t float64, ok bool) {
	line := ray{origin: origin, dir: dir}
	best := math.Inf(1)
	if _, _, in := line.through(p.Min, p.Max); !in {
		return 0, false
	}
	for i := range p.parts {
		q := &p.parts[i]
		from, to, in := line.through(q.min, q.max)
		if !in || from >= best {
			continue
		}
		if t, hit := line.enter(q, p.Pose.Z, from, min(to, best)); hit && t < best {
			best = t
		}
	}
	return best, !math.IsInf(best, 1)
}

// ray is origin + t dir.
type ray struct{ origin, dir mgl64.Vec3 }

// at is the plan and the height of the ray at t.
func (r ray) at(t float64) (plane.Vec, float64) {
	return plane.Vec{r.origin[0] + float64(r.dir[0]*t), r.origin[1] + float64(r.dir[1]*t)},
		r.origin[2] + float64(r.dir[2]*t)
}

// through is the stretch t >= 0 of the ray in a box, if any.
func (r ray) through(least, most mgl64.Vec3) (from, to float64, ok bool) {
	from, to = 0, math.Inf(1)
	for i := range least {
		if r.dir[i] == 0 {
			if r.origin[i] < least[i] || r.origin[i] > most[i] {
				return 0, 0, false
			}
			continue
		}
		a, b := (least[i]-r.origin[i])/r.dir[i], (most[i]-r.origin[i])/r.dir[i]
		from, to = max(from, min(a, b)), min(to, max(a, b))
	}
	if math.IsInf(to, 1) { // a ray without direction, in the box
		to = from
	}
	return from, to, from <= to
}

// nearest is the least distance of the ray's stretch 0 <= t <= 1 to a part,
// negative when it runs through it; it may give any larger figure when that
// is over limit.
func (r ray) nearest(p *placedPart, base, limit float64) float64 {
	best := math.Inf(1)
	for i := 0; i+1 < len(p.profile); i++ {
		a, b := p.profile[i], p.profile[i+1]
		if a.Z == b.Z {
			continue // the straights beside a step hold its flat
		}
		lo, hi := r.origin[2]-base, r.origin[2]+r.dir[2]-base
		if l := max(min(lo, hi)-b.Z, a.Z-max(lo, hi)); l > 0 && l >= min(limit, best) {
			continue
		}
		frustum := [2]Knot{a, b}
		_, d := narrow(0, 1, func(t float64) float64 {
			at, z := r.at(t)
			_, d := p.skeleton.Nearest(at)
			z -= base
			if w := widthAt(frustum[:], z); d <= w {
				return 0
			}
			e := math.Inf(1)
			nearestOf(frustum[:], -d, z, &e)
			return e
		})
		if d <= 0 {
			if from, to, ok := r.level(a.Z+base, b.Z+base, 0, 1); ok {
				_, d = narrow(from, to, r.beyond(p, a, b, base))
			}
		}
		best = min(best, d)
	}
	return best
}

// level is the part of the stretch from-to whose heights lie in lo-hi.
func (r ray) level(lo, hi, from, to float64) (float64, float64, bool) {
	if r.dir[2] == 0 {
		return from, to, lo <= r.origin[2] && r.origin[2] <= hi
	}
	a, b := (lo-r.origin[2])/r.dir[2], (hi-r.origin[2])/r.dir[2]
	from, to = max(from, min(a, b)), min(to, max(a, b))
	return from, to, from <= to
}

// beyond is d(t) - r(z(t)) on one straight of a part's profile: how far the
// ray lies outside of it, level.
func (r ray) beyond(p *placedPart, a, b Knot, base float64) func(t float64) float64 {
	return func(t float64) float64 {
		at, z := r.at(t)
		_, d := p.skeleton.Nearest(at)
		return d - between(a, b, min(max(z-base, a.Z), b.Z))
	}
}

// enter is the first t of the stretch from-to in the part.
func (r ray) enter(p *placedPart, base, from, to float64) (t float64, ok bool) {
	best := math.Inf(1)
	for i := 0; i+1 < len(p.profile); i++ {
		a, b := p.profile[i], p.profile[i+1]
		if a.Z == b.Z {
			continue
		}
		lo, hi, in := r.level(a.Z+base, b.Z+base, from, to)
		if !in || lo >= best {
			continue
		}
		f := r.beyond(p, a, b, base)
		if f(lo) <= 0 {
			best = lo
			continue
		}
		low, least := narrow(lo, hi, f)
		if least > 0 {
			continue
		}
		for k := 0; k < 200 && low > lo; k++ { // f falls from over 0 at lo to 0 or less at low
			mid := lo + float64((low-lo)/2)
			if mid <= lo || mid >= low {
				break
			}
			if f(mid) > 0 {
				lo = mid
			} else {
				low = mid
			}
		}
		best = min(best, low)
	}
	return best, !math.IsInf(best, 1)
}

// narrow is where a function that bulges down is least between from and to,
// and its value there, by golden section.
func narrow(from, to float64, f func(float64) float64) (at, least float64) {
	const ratio = 0.6180339887498949
	at, least = from, f(from)
	try := func(t float64) float64 {
		v := f(t)
		if v < least {
			at, least = t, v
		}
		return v
	}
	try(to)
	a, b := from, to
	c, d := b-float64(ratio*(b-a)), a+float64(ratio*(b-a))
	fc, fd := try(c), try(d)
	for k := 0; k < 75 && b > a; k++ {
		if fc <= fd {
			b, d, fd = d, c, fc
			c = b - float64(ratio*(b-a))
			fc = try(c)
		} else {
			a, c, fc = c, d, fd
			d = a + float64(ratio*(b-a))
			fd = try(d)
		}
	}
	return at, least
}
