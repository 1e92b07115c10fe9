package plane

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Tolerance is the one named tolerance of Threepost, in mm: a gap within it
// of the need passes.
const Tolerance = 1e-6

// Vec is a point or a direction in plan, in mm: x right, y to the back.
// Only the type is borrowed from mgl64; its methods are not called in
// deciding code, because a compiler may fuse their products with their sums
// and then two machines disagree about one gap.
type Vec = mgl64.Vec2

// Add is a + b.
func Add(a, b Vec) Vec { return Vec{a[0] + b[0], a[1] + b[1]} }

// Sub is a - b, the way from b to a.
func Sub(a, b Vec) Vec { return Vec{a[0] - b[0], a[1] - b[1]} }

// Scale is v drawn out k times.
func Scale(v Vec, k float64) Vec { return Vec{float64(v[0] * k), float64(v[1] * k)} }

// Dot is the scalar product of a and b, both products rounded before the sum.
func Dot(a, b Vec) float64 { return float64(a[0]*b[0]) + float64(a[1]*b[1]) }

// Cross is the z of the vector product: positive when b lies
// counter-clockwise of a.
func Cross(a, b Vec) float64 { return float64(a[0]*b[1]) - float64(a[1]*b[0]) }

// Hypot is the square root of x*x + y*y. It takes no care of figures beyond
// 1e150, which no kiln has.
func Hypot(x, y float64) float64 { return math.Sqrt(float64(x*x) + float64(y*y)) }

// Length is the length of v, mm.
func Length(v Vec) float64 { return Hypot(v[0], v[1]) }

// Distance is the distance of two points, mm.
func Distance(a, b Vec) float64 { return Hypot(a[0]-b[0], a[1]-b[1]) }

// Lerp is the point t of the way from a (t = 0) to b (t = 1).
func Lerp(a, b Vec, t float64) Vec {
	return Vec{a[0] + float64((b[0]-a[0])*t), a[1] + float64((b[1]-a[1])*t)}
}

// Left is v turned a quarter turn counter-clockwise.
func Left(v Vec) Vec { return Vec{-v[1], v[0]} }

// Right is v turned a quarter turn clockwise.
func Right(v Vec) Vec { return Vec{v[1], -v[0]} }

// Unit is v at length 1, and (1, 0) when v has no length to speak of.
func Unit(v Vec) Vec {
	l := Length(v)
	if !(l > 0) {
		return Vec{1, 0}
	}
	return Vec{v[0] / l, v[1] / l}
}

// finite tells whether both figures of v are ordinary numbers.
func finite(v Vec) bool { return isFinite(v[0]) && isFinite(v[1]) }

func isFinite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
