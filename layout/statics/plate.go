package statics

import (
	"math"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// Estimate is a rough figure for how far a round shelf sags between three
// posts and how hard it is bent: cold, elastic, its whole load taken as spread
// evenly over it. It is an estimate and is to be called one. No published load
// limit per shelf exists, and shelves warp by creep in the heat, which no such
// figure foretells.
type Estimate struct {
	Sag    float64 // mm the middle hangs below the plane of the posts' heads
	Moment float64 // N: the greatest bending moment per mm of width
	Stress float64 // MPa at the face: 6 M / t^2
	Ratio  float64 // r/a: the circle of the posts over the shelf's radius
}

// plateRow is a line of the table of round plates on three posts under a
// uniform load q: sag w q a^4 / D in the middle, greatest moment m q a^2.
type plateRow struct{ ratio, sag, moment float64 }

// plateRows is the table, by the circle of the posts over the radius.
//
// On the edge: Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells,
// circular plates supported at points (0.0362 P a^2/D, from memory), its
// moment between the posts recomputed. Further in: own computation (Ritz) for
// posts of side 0.14 a; the moment is the hogging one over the posts.
func plateRows() [8]plateRow {
	return [8]plateRow{
		{0.60, 0.0017, 0.226},
		{0.65, 0.0076, 0.225},
		{0.70, 0.0150, 0.226},
		{0.75, 0.0244, 0.232},
		{0.80, 0.0361, 0.246},
		{0.85, 0.0502, 0.269},
		{0.90, 0.0674, 0.326},
		{1.00, 0.1137, 0.326}, // under a point the hogging moment has no bound; held at the last post's
	}
}

// gravity is standard gravity, N/kg (CGPM 1901).
const gravity = 9.80665

// Plate estimates a round shelf of radius a and thickness t (mm) that carries
// mass (kg, itself included) on three posts on a circle of radius r. modulus
// is Young's, MPa; Poisson's ratio is taken as 0.25. It answers false for r
// under 0.6 a or over a, where the table ends, and for measures that are not
// positive.
func Plate(a, t, r, mass, modulus float64) (Estimate, bool) {
	if !(a > 0) || !(t > 0) || !(mass >= 0) || !(modulus > 0) {
		return Estimate{}, false
	}
	ratio := r / a
	rows := plateRows()
	if !(ratio >= rows[0].ratio) || ratio > 1 {
		return Estimate{}, false
	}
	k := 1
	for k < len(rows)-1 && ratio > rows[k].ratio {
		k++
	}
	f := (ratio - rows[k-1].ratio) / (rows[k].ratio - rows[k-1].ratio)
	sag := rows[k-1].sag + float64(f*(rows[k].sag-rows[k-1].sag))
	moment := rows[k-1].moment + float64(f*(rows[k].moment-rows[k-1].moment))
	area := float64(math.Pi * float64(a*a))
	q := float64(mass*gravity) / area // MPa
	stiff := float64(modulus*float64(t*float64(t*t))) / (12 * (1 - 0.0625))
	a2 := float64(a * a)
	m := float64(float64(moment*q) * a2)
	return Estimate{
		Sag:    float64(float64(sag*q)*float64(a2*a2)) / stiff,
		Moment: m,
		Stress: float64(6*m) / float64(t*t),
		Ratio:  ratio,
	}, true
}

// modulus is the least cold Young's modulus of a shelf material, MPa, or 0
// where none is known (cordierite: 20 to 60 GPa, from memory; nitride-bonded
// silicon carbide: 200 GPa, trade data).
func modulus(material string) float64 {
	switch material {
	case "", "cordierite":
		return 20000
	case "silicon carbide":
		return 200000
	}
	return 0
}

// plate estimates a built shelf, or gives nil where the table does not apply.
func plate(s *stacks.Shelf, posts []int, all []stacks.Post, mass float64) *Estimate {
	if s.Kind == nil || s.Kind.Shape.Kind != layout.Round || len(posts) != 3 {
		return nil
	}
	r := 0.0
	var bearings [3]float64
	for k, i := range posts {
		out := plane.Sub(all[i].At, s.At)
		r += plane.Length(out) / 3
		bearings[k] = plane.Bearing(out)
	}
	for k := range bearings {
		apart := math.Abs(bearings[k] - bearings[(k+1)%3])
		apart = math.Min(apart, 360-apart)
		if apart < 100 || apart > 140 { // the table is for thirds of the circle
			return nil
		}
	}
	e, ok := Plate(s.Kind.Shape.Across/2, s.Kind.Thick, r, mass, modulus(s.Kind.Material))
	if !ok {
		return nil
	}
	return &e
}
