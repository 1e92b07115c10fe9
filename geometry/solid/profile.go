package solid

import (
	"errors"
	"fmt"
	"math"
	"sort"
)

// MaxKnots is the most knots that a profile may have.
const MaxKnots = 1024

// Knot is one point of a profile: at height Z (mm over the body's base) the
// skeleton is widened by R (mm).
type Knot struct{ Z, R float64 }

// Profile is a radius over height, straight between its knots. Two knots at
// one height are a step; the solid is closed, so at a step the larger radius
// counts.
//
//	z
//	|    |       step: two knots at one height
//	| ___|
//	||
//	||
//	+---- R
type Profile []Knot

// NewProfile checks knots and returns them as a profile. It refuses, with a
// sentence: fewer than two knots or too many, figures that are no numbers,
// negative radii, heights that fall, no height at all, and a step at the
// first or last knot, which would make a disc of no thickness.
func NewProfile(knots ...Knot) (Profile, error) {
	p := Profile(knots)
	if err := p.Validate(); err != nil {
		return nil, err
	}
	return append(Profile(nil), p...), nil
}

// Validate tells with a sentence what keeps p from being a profile.
func (p Profile) Validate() error {
	n := len(p)
	if n < 2 {
		return fmt.Errorf("a profile has %d entries; give two at least, at the bottom and at the top", n)
	}
	if n > MaxKnots {
		return fmt.Errorf("a profile has %d entries; it takes %d at most", n, MaxKnots)
	}
	for i, k := range p {
		switch {
		case !isFinite(k.Z) || !isFinite(k.R):
			return fmt.Errorf("entry %d of a profile is not a number; give height and radius in mm", i+1)
		case k.R < 0:
			return fmt.Errorf("entry %d of a profile has radius %g; give 0 mm or more", i+1, k.R)
		case i > 0 && k.Z < p[i-1].Z:
			return fmt.Errorf("entry %d of a profile lies at %g, under the entry before it at %g; list them from the bottom up", i+1, k.Z, p[i-1].Z)
		}
	}
	for i := 2; i < n; i++ {
		if p[i-2].Z == p[i].Z {
			return fmt.Errorf("a profile has three entries at %g; a step takes two", p[i].Z)
		}
	}
	switch {
	case p[0].Z == p[n-1].Z:
		return errors.New("a profile has no height; give the height of its top")
	case p[0].Z == p[1].Z:
		return fmt.Errorf("a profile steps at its first entry, at %g, which makes a disc of no thickness; keep one of the two", p[0].Z)
	case p[n-1].Z == p[n-2].Z:
		return fmt.Errorf("a profile steps at its last entry, at %g, which makes a disc of no thickness; keep one of the two", p[n-1].Z)
	}
	return nil
}

func isFinite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// Cylinder is the profile of one radius from bottom to top, mm.
func Cylinder(bottom, top, r float64) (Profile, error) {
	return NewProfile(Knot{bottom, r}, Knot{top, r})
}

// R is the radius at height z, the larger one at a step, and -Inf above the
// top and under the bottom, where there is nothing.
func (p Profile) R(z float64) float64 {
	if len(p) == 0 || !(z >= p[0].Z) || z > p[len(p)-1].Z {
		return math.Inf(-1)
	}
	i := sort.Search(len(p), func(i int) bool { return p[i].Z >= z })
	if p[i].Z > z {
		return between(p[i-1], p[i], z)
	}
	r := p[i].R
	for ; i < len(p) && p[i].Z == z; i++ {
		r = max(r, p[i].R)
	}
	return r
}

// between is the radius at z on the straight from a to b; exact at both.
func between(a, b Knot, z float64) float64 {
	t := (z - a.Z) / (b.Z - a.Z)
	return float64(a.R*(1-t)) + float64(b.R*t)
}

// Max is the largest radius.
func (p Profile) Max() float64 {
	r := math.Inf(-1)
	for _, k := range p {
		r = max(r, k.R)
	}
	return r
}

// Bottom is the height of the first knot.
func (p Profile) Bottom() float64 {
	if len(p) == 0 {
		return 0
	}
	return p[0].Z
}

// Top is the height of the last knot.
func (p Profile) Top() float64 {
	if len(p) == 0 {
		return 0
	}
	return p[len(p)-1].Z
}
