package solid

import (
	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
)

type Knot struct{ Z, R float64 }
type Profile []Knot

func NewProfile(knots ...Knot) (Profile, error) { return Profile(knots), nil }
func (p Profile) Validate() error               { return nil }
func (p Profile) R(z float64) float64           { return 0 }
func (p Profile) Max() float64                  { return 0 }
func (p Profile) Top() float64                  { return 0 }
func (p Profile) Bottom() float64               { return 0 }

type Part struct {
	Skeleton plane.Skeleton
	Profile  Profile
}
type Body struct{ Parts []Part }

func NewBody(parts ...Part) (Body, error)    { return Body{parts}, nil }
func (b Body) Height() float64               { return 0 }
func (b Body) Bottom() float64               { return 0 }
func (b Body) Top() float64                  { return 0 }
func (b Body) Reach() float64                { return 0 }
func (b Body) Bounds() (min, max mgl64.Vec3) { return }

type Pose struct {
	At      plane.Vec
	Turn, Z float64
}
type Placed struct {
	Body     Body
	Pose     Pose
	Min, Max mgl64.Vec3
}
type Witness struct {
	A, B         mgl64.Vec3
	PartA, PartB int
}

func Place(b Body, p Pose) Placed                                               { return Placed{Body: b, Pose: p} }
func (p *Placed) Move(to Pose)                                                  {}
func (p *Placed) Skeleton(part int) plane.Skeleton                              { return nil }
func Gap(a, b *Placed) (float64, Witness)                                       { return 0, Witness{} }
func GapParts(a *Placed, i int, b *Placed, j int) (float64, Witness)            { return 0, Witness{} }
func GapAtLeast(a, b *Placed, g float64) bool                                   { return false }
func Need(a, b Part, g, dz float64) float64                                     { return 0 }
func NeedLower(a, b Part, dz float64) float64                                   { return 0 }
func Lower(a, b *Placed, hand float64) bool                                     { return false }
func LowerDepth(a, b *Placed, hand float64) float64                             { return 0 }
func Slide(moving, fixed *Placed, dir plane.Vec, g float64) float64             { return 0 }
func Lift(body *Placed, under plane.Outline, underside float64) (float64, bool) { return 0, false }
func Headroom(body *Placed, under plane.Outline, underside float64) float64     { return 0 }
func GapToSlab(body *Placed, o plane.Outline, zBottom, zTop float64) float64    { return 0 }
func WallClearance(body *Placed, o plane.Outline) float64                       { return 0 }
func FootInside(body *Placed, o plane.Outline) float64                          { return 0 }
func Sight(from, to mgl64.Vec3, tube float64, bodies []*Placed) (blocker int, clear bool, margin float64) {
	return -1, false, 0
}
func RayHit(origin, dir mgl64.Vec3, p *Placed) (t float64, ok bool) { return 0, false }
func Volume(p Part) float64                                         { return 0 }
func (b Body) Volume() float64                                      { return 0 }
