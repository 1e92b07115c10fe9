package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
)

// shade is how dark it is on one level: darker toward the middle where a shelf
// or the next side covers it, and round the feet of what stands there. It
// stands in for light that the sky does not bring; nothing is decided by it.
type shade struct {
	b       *stacks.Built
	covered bool
	bottom  float64 // of the space, mm
	high    float64 // from shelf to ceiling, mm
	feet    []foot
}

// foot is what touches a shelf, and what hangs over that place.
type foot struct {
	at       plane.Skeleton
	r        float64
	over     plane.Skeleton
	overR    float64
	lo, hi   plane.Vec // where its shadow reaches
	overDark float64
}

// contact is how far the shadow of a foot reaches, mm.
const contact = 20

// shadeOf is the shade of level v, open to the sky where what lies over it is
// lifted away.
func (m *maker) shadeOf(v int) *shade {
	b := m.b
	level := &b.Levels[v]
	covered := false
	for _, a := range level.Above {
		covered = covered || b.Levels[a].Top <= m.ceiling+1
	}
	s := &shade{b: b, covered: covered, bottom: level.Top, high: math.Max(40, level.Ceiling-level.Top)}
	for _, i := range level.Pots {
		p := &b.Pots[i]
		pose := plane.Pose{At: p.At, Turn: p.Turn}
		f := foot{at: p.Body.Foot.At(pose), r: p.Body.FootR, overDark: 0.14}
		f.over, f.overR = p.Body.Drawn.Body.Skeleton.At(pose), p.Body.Drawn.Body.Radius
		s.add(f)
	}
	for i := range b.Posts {
		p := &b.Posts[i]
		if math.Abs(p.Bottom-level.Top) > 1 || p.Level == v {
			continue
		}
		at := p.Solid.Skeleton(0)
		r := 0.0
		if len(p.Solid.Body.Parts) > 0 {
			r = p.Solid.Body.Parts[0].Profile.Max()
		}
		s.add(foot{at: at, r: r, over: at, overR: r, overDark: 0.1})
	}
	return s
}

func (s *shade) add(f foot) {
	if len(f.at) == 0 || len(f.over) == 0 {
		return
	}
	const far = 2.2 * contact
	lo, hi := f.at.Bounds()
	olo, ohi := f.over.Bounds()
	for k := range 2 {
		f.lo[k] = math.Min(lo[k]-f.r, olo[k]-f.overR) - far
		f.hi[k] = math.Max(hi[k]+f.r, ohi[k]+f.overR) + far
	}
	s.feet = append(s.feet, f)
}

// depth is how covered a place is, 0 in the open to 1.
func (s *shade) depth(p plane.Vec, z float64) float64 {
	if !s.covered {
		return 0
	}
	d := math.Max(0, s.b.Chamber.Depth(p)-30)
	in := 1 - math.Exp(-d/(0.9*s.high))
	up := math.Min(1, math.Max(0, (z-s.bottom)/s.high))
	return in * (0.8 + 0.2*up)
}

// onShelf is the factor of a shelf's top at a point.
func (s *shade) onShelf(p plane.Vec) float64 {
	k := 1 - 0.34*s.depth(p, s.bottom)
	for i := range s.feet {
		f := &s.feet[i]
		if p[0] < f.lo[0] || p[1] < f.lo[1] || p[0] > f.hi[0] || p[1] > f.hi[1] {
			continue
		}
		_, d := f.at.Nearest(p)
		if d -= f.r; d < contact {
			t := 1 - math.Max(0, d)/contact
			k *= 1 - 0.36*t*t
		}
		_, d = f.over.Nearest(p)
		if d -= f.overR; d < 2*contact {
			t := 1 - math.Max(0, d)/(2*contact)
			k *= 1 - f.overDark*t*t
		}
	}
	return math.Max(k, 0.38)
}

// onWare is the factor of what stands on the level at a point.
func (s *shade) onWare(p mgl64.Vec3) float64 {
	return 1 - 0.36*s.depth(plane.Vec{p[0], p[1]}, p[2])
}
