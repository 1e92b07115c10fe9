package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout/stacks"
)

// Plane cuts the picture open: what lies on the side of its normal is not
// drawn. A point p is cut away when Normal . p > Offset.
type Plane struct {
	Normal mgl64.Vec3
	Offset float64 // mm
}

// Cuts tells whether a point is cut away.
func (p *Plane) Cuts(v mgl64.Vec3) bool { return p != nil && dot(p.Normal, v) > p.Offset }

// CutBefore is an upright plane through the middle of the kiln that takes away
// what stands on the side of a bearing: 180 takes the front.
func CutBefore(bearing float64) Plane {
	d := plane.FromBearing(1, bearing)
	return Plane{Normal: mgl64.Vec3{d[0], d[1], 0}}
}

// Keeps is the part of a box that an upright plane along x or y leaves, and
// the whole box for any other plane.
func (p *Plane) Keeps(b Box) Box {
	for k := range 2 {
		switch {
		case p.Normal[k] > 0.999:
			b.Max[k] = math.Min(b.Max[k], p.Offset)
		case p.Normal[k] < -0.999:
			b.Min[k] = math.Max(b.Min[k], -p.Offset)
		}
	}
	return b
}

// Hit is what a ray meets first.
type Hit struct {
	Piece int        // id
	At    mgl64.Vec3 // mm
	Far   float64    // along the ray, mm
}

// Pick is the first shown piece that a ray meets in the solids that are
// checked: exact, and the same as what the eye sees but for bellies and
// handles, which are drawn finer. It is false when the ray meets none.
//
// cut, when not nil, takes away what lies before the plane: the ray begins on
// it.
func (s *Scene) Pick(b *stacks.Built, r Ray, cut *Plane) (Hit, bool) {
	start, end := r.through(cut)
	if start >= end {
		return Hit{}, false
	}
	origin := r.At(start)
	best := Hit{Far: math.Inf(1)}
	for id := 1; id < len(s.Pieces); id++ {
		p := &s.Pieces[id]
		if !s.Groups[p.Group].Shown {
			continue
		}
		body := solidOf(b, p)
		if body == nil {
			continue
		}
		if t, ok := solid.RayHit(origin, r.Dir, body); ok && start+t < best.Far && start+t <= end {
			best = Hit{Piece: id, At: origin.Add(r.Dir.Mul(t)), Far: start + t}
		}
	}
	return best, best.Piece > 0
}

// through is the stretch of the ray that is not cut away.
func (r Ray) through(cut *Plane) (from, to float64) {
	to = math.Inf(1)
	if cut == nil {
		return 0, to
	}
	out, along := dot(cut.Normal, r.Origin)-cut.Offset, dot(cut.Normal, r.Dir)
	switch {
	case along == 0 && out > 0:
		return 0, 0
	case along < 0 && out > 0:
		return out / -along, to
	case along > 0:
		return 0, math.Max(0, -out/along)
	}
	return 0, to
}

// solidOf is what stands for a piece when it is pointed at.
func solidOf(b *stacks.Built, p *Piece) *solid.Placed {
	switch p.Kind {
	case PotPiece, ConePiece:
		if p.Index < len(b.Pots) {
			return &b.Pots[p.Index].Solid
		}
	case ShelfKind:
		if p.Index < len(b.Shelves) {
			return &b.Shelves[p.Index].Solid
		}
	case PostKind:
		if p.Index < len(b.Posts) {
			return &b.Posts[p.Index].Solid
		}
	case ProbeKind:
		if p.Index < len(b.Probes) {
			return &b.Probes[p.Index].Solid
		}
	}
	return nil
}

// PieceOf is the id of a pot of Built.Pots, or 0.
func (s *Scene) PieceOf(kind Kind, index int) int {
	for id := 1; id < len(s.Pieces); id++ {
		p := &s.Pieces[id]
		same := p.Kind == kind || kind == PotPiece && p.Kind == ConePiece
		if same && p.Index == index {
			return id
		}
	}
	return 0
}
