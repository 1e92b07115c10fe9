package solid

import (
	"math"

	"threepost/geometry/plane"
)

// GapToSlab is the signed gap, mm, of a body and an even plate: an outline
// from height zBottom up to zTop over the floor. It is the gap of a pot to a
// shelf without a body made for the shelf, and exact also for outlines that
// no single skeleton has, such as a half round.
func GapToSlab(body *Placed, o plane.Outline, zBottom, zTop float64) float64 {
	slab := [2]Knot{{Z: zBottom}, {Z: zTop}}
	best := math.Inf(1)
	for i := range body.parts {
		p := &body.parts[i]
		if up := max(p.min[2]-zTop, zBottom-p.max[2]); up > 0 && up >= best {
			continue
		}
		q := pair{a: p.profile, b: slab[:], dz: -body.Pose.Z, d: o.SignedDistance(p.skeleton)}
		best = min(best, q.meet().gap)
	}
	return best
}

// Lift is how far, mm, a body can be lifted straight up until it meets the
// underside of an outline at height underside; negative when it reaches past
// it already, +Inf and false when it never meets it.
func Lift(body *Placed, under plane.Outline, underside float64) (room float64, ok bool) {
	room = math.Inf(1)
	for i := range body.parts {
		p := &body.parts[i]
		if z, meets := highestUnder(p.profile, under.Distance(p.skeleton)); meets {
			room, ok = min(room, underside-z-body.Pose.Z), true
		}
	}
	return room, ok
}

// highestUnder is the greatest height at which the profile is at least d.
func highestUnder(p Profile, d float64) (z float64, ok bool) {
	for i := len(p) - 1; i >= 0; i-- {
		if p[i].R >= d {
			return p[i].Z, true
		}
		if i > 0 && p[i-1].R >= d {
			a, b := p[i-1], p[i]
			t := (a.R - d) / (a.R - b.R)
			return a.Z + float64((b.Z-a.Z)*t), true
		}
	}
	return 0, false
}

// Headroom is the room above a body under an outline, mm: vertical where its
// slices lie under the shelf, and for its other slices their distance to the
// shelf's lower edge and to what is straight above that edge. It is negative
// by as much as the shelf has to rise. The thickness of the shelf does not
// count; GapToSlab knows it.
func Headroom(body *Placed, under plane.Outline, underside float64) float64 {
	const endless = 1e7
	slab := [2]Knot{{Z: underside}, {Z: underside + endless}}
	best := math.Inf(1)
	for i := range body.parts {
		p := &body.parts[i]
		d := under.Distance(p.skeleton)
		if z, ok := highestUnder(p.profile, d); ok {
			room := underside - z - body.Pose.Z
			best = min(best, room)
			if room <= 0 {
				continue
			}
		}
		best = min(best, pair{a: p.profile, b: slab[:], dz: -body.Pose.Z, d: d}.apart().gap)
	}
	return best
}

// WallClearance is how far, mm, a body keeps from the wall of an outline that
// it stands in, at any height: for each part the least depth of its corners
// less its largest radius. Negative: how far it reaches beyond.
func WallClearance(body *Placed, o plane.Outline) float64 {
	least := math.Inf(1)
	for i := range body.parts {
		p := &body.parts[i]
		least = min(least, plane.Clearance(o, p.skeleton, p.r))
	}
	return least
}

// FootInside is how far, mm, the foot of a body (its lowest slice) keeps from
// the edge of the outline that it stands on; negative: how far it reaches
// past it.
func FootInside(body *Placed, o plane.Outline) float64 {
	least := math.Inf(1)
	for i := range body.parts {
		p := &body.parts[i]
		if p.min[2] <= body.Min[2]+level {
			least = min(least, plane.Clearance(o, p.skeleton, p.profile[0].R))
		}
	}
	return least
}
