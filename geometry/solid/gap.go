package solid

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
)

// Witness is where a gap is found. Apart, A and B are the nearest points of
// the two bodies. Overlapping, moving the second body by A - B is the
// shortest way out for the two parts named.
type Witness struct {
	A, B         mgl64.Vec3
	PartA, PartB int
}

// Gap is the signed gap of two bodies, mm, and where it is found.
//
// With d the signed planar distance of two skeletons,
//
//	gap = min over zA, zB of hypot(max(0, d - rA(zA) - rB(zB)), zA - zB)
//
// and -p, p the length of the shortest way out, where they overlap. Over
// several parts the least counts; where parts overlap it is the deepest part
// overlap.
//
// Laws: it is symmetric; it does not change when both are moved or turned
// together; it falls as parts grow; it is exact but for rounding. Two bodies
// of which one has no part are infinitely far apart.
func Gap(a, b *Placed) (float64, Witness) {
	if len(a.parts) == 1 && len(b.parts) == 1 && a.parts[0].round && b.parts[0].round {
		return gapOfCylinders(&a.parts[0], &b.parts[0])
	}
	best, w := math.Inf(1), Witness{}
	for i := range a.parts {
		p := &a.parts[i]
		for j := range b.parts {
			q := &b.parts[j]
			if len(a.parts)+len(b.parts) > 2 {
				if l := boxesApart(p.min, p.max, q.min, q.max); l > 0 && l >= best {
					continue
				}
			}
			if g, x := gapOf(p, q, a.Pose.Z, b.Pose.Z); g < best {
				best, w = g, x
				w.PartA, w.PartB = i, j
			}
		}
	}
	return best, w
}

// GapParts is the signed gap of part i of a and part j of b, mm.
func GapParts(a *Placed, i int, b *Placed, j int) (float64, Witness) {
	g, w := gapOf(&a.parts[i], &b.parts[j], a.Pose.Z, b.Pose.Z)
	w.PartA, w.PartB = i, j
	return g, w
}

func gapOf(a, b *placedPart, za, zb float64) (float64, Witness) {
	if a.round && b.round {
		return gapOfCylinders(a, b)
	}
	d, pa, _, n := plane.Separation(a.skeleton, b.skeleton)
	m := pair{a: a.profile, b: b.profile, dz: zb - za, d: d}.meet()
	var w Witness
	if m.run == 0 {
		// straight up or down: a point of the plan that both share
		at := plane.Add(pa, plane.Scale(n, min(max(m.u, 0), d)))
		if d <= 0 {
			at = plane.Common(a.skeleton, b.skeleton)
		}
		w.A = mgl64.Vec3{at[0], at[1], m.za + za}
		w.B = mgl64.Vec3{at[0], at[1], m.za + za - m.rise}
		return m.gap, w
	}
	w.A = mgl64.Vec3{pa[0] + float64(n[0]*m.u), pa[1] + float64(n[1]*m.u), m.za + za}
	w.B = mgl64.Vec3{w.A[0] - float64(n[0]*m.run), w.A[1] - float64(n[1]*m.run), w.A[2] - m.rise}
	return m.gap, w
}

// gapOfCylinders is the short way for two cylinders:
// hypot(max(0, d - RA - RB), vertical gap), and the nearest of the ways out
// sideways, up and down when they overlap.
func gapOfCylinders(a, b *placedPart) (float64, Witness) {
	pa, pb := a.skeleton[0], b.skeleton[0]
	dx, dy := pb[0]-pa[0], pb[1]-pa[1]
	d := plane.Hypot(dx, dy)
	nx, ny := 1.0, 0.0
	if d > 0 {
		nx, ny = dx/d, dy/d
	}
	out := d - a.r - b.r
	above, below := b.min[2]-a.max[2], a.min[2]-b.max[2]
	up, gap := max(above, below), 0.0
	aside, upright := true, true // what the gap is made of
	switch {
	case out > 0 && up > 0:
		gap = plane.Hypot(out, up)
	case out >= up:
		gap, upright = out, false
	default:
		gap, aside = up, false
	}
	// sideways from rim to rim, else over a point that both have in plan;
	// up or down from top to bottom, else at a height that both have
	ua, ub := a.r, d-b.r
	if !aside {
		ua = min(a.r, d)
		ub = ua
	}
	za := max(a.min[2], b.min[2])
	zb := za
	if upright && above >= below {
		za, zb = a.max[2], b.min[2]
	} else if upright {
		za, zb = a.min[2], b.max[2]
	}
	return gap, Witness{
		A: mgl64.Vec3{pa[0] + float64(nx*ua), pa[1] + float64(ny*ua), za},
		B: mgl64.Vec3{pa[0] + float64(nx*ub), pa[1] + float64(ny*ub), zb},
	}
}

// GapAtLeast tells whether two bodies keep gap g (mm, 0 or more) within the
// tolerance, without finding the gap: boxes first, then planar distances
// against needs.
func GapAtLeast(a, b *Placed, g float64) bool {
	for i := range a.parts {
		p := &a.parts[i]
		if boxesApart(p.min, p.max, b.Min, b.Max) >= g && g > 0 {
			continue
		}
		for j := range b.parts {
			q := &b.parts[j]
			if g > 0 && boxesApart(p.min, p.max, q.min, q.max) >= g {
				continue
			}
			need := needOf(p.profile, q.profile, max(0, g-plane.Tolerance), b.Pose.Z-a.Pose.Z)
			if !math.IsInf(need, -1) && p.skeleton.Distance(q.skeleton) < need-plane.Tolerance {
				return false
			}
		}
	}
	return true
}
