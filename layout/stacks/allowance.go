package stacks

import (
	"math"
	"sort"

	"threepost/geometry/solid"
)

// maxEnvelope is the most entries of a measured profile that are kept exact;
// one with more is planned as a cylinder.
const maxEnvelope = 64

// envelope is the least profile that contains the pot of profile p (z from 0)
// at any height from its own to high mm more: r(z) is the greatest radius of p
// between z - high and z. A pot of a series that is a little taller has its
// belly and its rim anywhere up to that much higher.
//
// Each piece of the result is the highest of a few straight lines: the walls
// of p, the walls of p lifted by high, and for each entry of p a level line
// over the heights that it may have.
func envelope(p solid.Profile, high float64) solid.Profile {
	if high < 1e-6 || len(p) < 2 {
		return p
	}
	type wall struct{ z0, r0, z1, r1 float64 }
	var walls []wall
	cuts := make([]float64, 0, 2*len(p))
	for i, k := range p {
		cuts = append(cuts, k.Z, k.Z+high)
		walls = append(walls, wall{k.Z, k.R, k.Z + high, k.R})
		if i > 0 && k.Z > p[i-1].Z {
			a := p[i-1]
			walls = append(walls, wall{a.Z, a.R, k.Z, k.R}, wall{a.Z + high, a.R, k.Z + high, k.R})
		}
	}
	sort.Float64s(cuts)
	var out solid.Profile
	var lines []line
	for i := 1; i < len(cuts); i++ {
		a, b := cuts[i-1], cuts[i]
		if b-a < 1e-9 {
			continue
		}
		lines = lines[:0]
		for _, w := range walls {
			if w.z0 <= a+1e-9 && w.z1 >= b-1e-9 {
				lines = append(lines, line{along(w.z0, w.r0, w.z1, w.r1, a), along(w.z0, w.r0, w.z1, w.r1, b)})
			}
		}
		out = appendUpper(out, a, b, lines)
	}
	return straighten(out)
}

// line is a straight radius over an interval, by its values at both ends.
type line struct{ a, b float64 }

// appendUpper appends the highest of the lines over [a, b].
func appendUpper(out solid.Profile, a, b float64, lines []line) solid.Profile {
	ts := []float64{0, 1}
	for i, p := range lines {
		for _, q := range lines[:i] {
			da, db := p.a-q.a, p.b-q.b
			if (da > 0 && db < 0) || (da < 0 && db > 0) {
				ts = append(ts, da/(da-db))
			}
		}
	}
	sort.Float64s(ts)
	for i, t := range ts {
		if i > 0 && t-ts[i-1] < 1e-9 && t < 1 {
			continue
		}
		r := 0.0
		for _, p := range lines {
			r = math.Max(r, along(0, p.a, 1, p.b, t))
		}
		z := along(0, a, 1, b, t)
		if n := len(out); n > 0 && z-out[n-1].Z < 1e-9 {
			if math.Abs(out[n-1].R-r) < 1e-9 {
				continue
			}
			z = out[n-1].Z // a step
		}
		out = append(out, solid.Knot{Z: z, R: r})
	}
	return out
}

// along is the value at z on the straight from (z0, r0) to (z1, r1).
func along(z0, r0, z1, r1, z float64) float64 {
	t := (z - z0) / (z1 - z0)
	return float64(r0*(1-t)) + float64(r1*t)
}

// straighten leaves out the knots that lie on the straight between their
// neighbours.
func straighten(p solid.Profile) solid.Profile {
	out := p[:0:0]
	for i, k := range p {
		if n := len(out); n > 0 && i+1 < len(p) {
			a, c := out[n-1], p[i+1]
			if a.Z < k.Z && k.Z < c.Z && math.Abs(along(a.Z, a.R, c.Z, c.R, k.Z)-k.R) < 1e-9 {
				continue
			}
		}
		out = append(out, k)
	}
	return out
}

// widen is a profile lifted by up with wide mm added to every radius.
func widen(p solid.Profile, up, wide float64) solid.Profile {
	out := make(solid.Profile, len(p))
	for i, k := range p {
		out[i] = solid.Knot{Z: k.Z + up, R: math.Max(0, k.R+wide)}
	}
	return out
}
