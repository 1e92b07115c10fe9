package solid

import (
	"math"

	"threepost/geometry/plane"
)

// Volume is the volume of a part, mm3: its slice has area A + P r + pi r^2
// (Steiner's formula for a convex skeleton of area A and perimeter P, a
// segment counting its length twice), integrated in closed form over each
// straight of the profile. About a point it is the frustum's volume.
func Volume(p Part) float64 {
	area, round := p.Skeleton.Area(), p.Skeleton.Perimeter()
	sum := 0.0
	for i := 0; i+1 < len(p.Profile); i++ {
		a, b := p.Profile[i], p.Profile[i+1]
		mean := (a.R + b.R) / 2
		square := (float64(a.R*a.R) + float64(a.R*b.R) + float64(b.R*b.R)) / 3
		sum += float64((b.Z - a.Z) * (area + float64(round*mean) + float64(math.Pi*square)))
	}
	return sum
}

// Volume is the sum of the volumes of the body's parts, mm3; what two parts
// share counts twice.
func (b Body) Volume() float64 {
	sum := 0.0
	for _, p := range b.Parts {
		sum += Volume(p)
	}
	return sum
}

// Footprint is the area of a part's slice with radius r, mm2.
func Footprint(s plane.Skeleton, r float64) float64 {
	return s.Area() + float64(s.Perimeter()*r) + float64(math.Pi*float64(r*r))
}
