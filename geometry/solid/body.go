package solid

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
)

// MaxParts is the most parts that a body may have.
const MaxParts = 4096

// Part is a convex plan skeleton widened by a radius that varies with height:
// its slice at height z is Skeleton (+) disc(Profile.R(z)). The frame is the
// body's: origin where the body is turned about, z = 0 where it stands.
type Part struct {
	Skeleton plane.Skeleton
	Profile  Profile
}

// Validate tells with a sentence what keeps p from being a part.
func (p Part) Validate() error {
	if err := p.Skeleton.Validate(); err != nil {
		return err
	}
	return p.Profile.Validate()
}

// Body is one or more parts that move together: a pot with its handle, its
// lid and its cookie, a shelf, a post. The zero body is empty: nothing meets
// it.
type Body struct{ Parts []Part }

// NewBody checks parts and returns them as a body. It refuses, with a
// sentence that counts the parts from 1: no part, too many, and a part whose
// skeleton or profile is refused.
func NewBody(parts ...Part) (Body, error) {
	if len(parts) == 0 {
		return Body{}, fmt.Errorf("a body has no part; give one at least")
	}
	if len(parts) > MaxParts {
		return Body{}, fmt.Errorf("a body has %d parts; it takes %d at most", len(parts), MaxParts)
	}
	for i, p := range parts {
		if err := p.Validate(); err != nil {
			return Body{}, fmt.Errorf("part %d: %w", i+1, err)
		}
	}
	return Body{Parts: append([]Part(nil), parts...)}, nil
}

// Bottom is the lowest height of the body in its own frame, mm.
func (b Body) Bottom() float64 {
	z := math.Inf(1)
	for _, p := range b.Parts {
		z = min(z, p.Profile.Bottom())
	}
	return orZero(z)
}

// Top is the greatest height of the body in its own frame, mm.
func (b Body) Top() float64 {
	z := math.Inf(-1)
	for _, p := range b.Parts {
		z = max(z, p.Profile.Top())
	}
	return orZero(z)
}

// Height is Top less Bottom, mm.
func (b Body) Height() float64 { return b.Top() - b.Bottom() }

func orZero(x float64) float64 {
	if math.IsInf(x, 0) {
		return 0
	}
	return x
}

// Reach is the greatest plan distance of the body from its origin, mm: within
// it the body stays however it is turned.
func (b Body) Reach() float64 {
	far := 0.0
	for _, p := range b.Parts {
		r := p.Profile.Max()
		for _, v := range p.Skeleton {
			far = max(far, plane.Length(v)+r)
		}
	}
	return far
}

// Bounds is the smallest upright box round the body in its own frame.
func (b Body) Bounds() (lo, hi mgl64.Vec3) {
	if len(b.Parts) == 0 {
		return
	}
	lo, hi = emptyBox()
	for _, p := range b.Parts {
		plo, phi := partBox(p.Skeleton, p.Profile, p.Profile.Max(), 0)
		lo, hi = growBox(lo, hi, plo, phi)
	}
	return lo, hi
}

func emptyBox() (lo, hi mgl64.Vec3) {
	i := math.Inf(1)
	return mgl64.Vec3{i, i, i}, mgl64.Vec3{-i, -i, -i}
}

func partBox(s plane.Skeleton, p Profile, r, z float64) (lo, hi mgl64.Vec3) {
	a, b := s.Bounds()
	return mgl64.Vec3{a[0] - r, a[1] - r, p.Bottom() + z}, mgl64.Vec3{b[0] + r, b[1] + r, p.Top() + z}
}

func growBox(lo, hi, withLo, withHi mgl64.Vec3) (mgl64.Vec3, mgl64.Vec3) {
	for i := range lo {
		lo[i] = min(lo[i], withLo[i])
		hi[i] = max(hi[i], withHi[i])
	}
	return lo, hi
}

// boxesApart is a lower bound of the distance of what two boxes hold.
func boxesApart(amin, amax, bmin, bmax mgl64.Vec3) float64 {
	sum := 0.0
	for i := range amin {
		if d := max(amin[i]-bmax[i], bmin[i]-amax[i]); d > 0 {
			sum += float64(d * d)
		}
	}
	return math.Sqrt(sum)
}
