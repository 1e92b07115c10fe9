package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"threepost/layout/stacks"
)

// Hit is what a ray meets first.
type Hit struct {
	Piece int // id
	At    mgl64.Vec3
	Far   float64 // along the ray, mm
}

// Pick is the first shown piece that a ray meets in the solids that are
// checked: exact, and the same as what the eye sees but for rims and handles,
// which are drawn finer. The zero hit and false when it meets none.
//
// cut, when not nil, takes away what lies in front of the plane.
func (s *Scene) Pick(b *stacks.Built, r Ray, cut *Plane) (Hit, bool) { return Hit{}, false }

// Plane cuts the picture open: what lies on the side of its normal is not
// drawn. A point p is cut away when Normal . p > Offset.
type Plane struct {
	Normal mgl64.Vec3
	Offset float64 // mm
}

// Cuts tells whether a point is cut away.
func (p *Plane) Cuts(v mgl64.Vec3) bool { return p != nil && dot(p.Normal, v) > p.Offset }

// Ghost is one pot by itself, to be moved by a matrix: the dragged one.
type Ghost struct {
	Mesh   Mesh // about the pot's own origin, z = 0 at the shelf, turn 0
	Matrix mgl64.Mat4
	Box    Box // at turn 0, about its own origin
}

// GhostOf is the ghost of pot i of Built.Pots where it stands; false when there is
// none.
func (s *Scene) GhostOf(b *stacks.Built, i int) (Ghost, bool) { return Ghost{}, false }

// Pose is the matrix that puts a ghost at a place, turned clockwise.
func Pose(at mgl64.Vec2, turn, z float64) mgl64.Mat4 {
	return mgl64.Translate3D(at[0], at[1], z).Mul4(mgl64.HomogRotate3DZ(-mgl64.DegToRad(turn)))
}
