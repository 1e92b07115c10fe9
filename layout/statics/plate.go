package statics

// Estimate is a rough figure for how much a round shelf sags and how hard it
// is bent, cold and elastic. It is an estimate and is to be called one.
type Estimate struct {
	Sag    float64 // mm the middle hangs below the plane of the posts' heads
	Moment float64 // N: greatest bending moment for each mm of width (N mm / mm)
	Stress float64 // MPa at the face: 6 M / t^2
	Ratio  float64 // r/a: circle of the posts over the radius of the shelf
}
