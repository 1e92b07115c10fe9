package layout

import (
	"fmt"
	"sort"
	"strings"

	"threepost/geometry/plane"
)

// ShapeKind names a plan shape in the words the file uses.
type ShapeKind string

// The plan shapes of chambers, shelves and feet.
const (
	Round     ShapeKind = "round"      // Across
	HalfRound ShapeKind = "half round" // Across, Depth: a sawn disc
	Sided     ShapeKind = "sided"      // Sides, Across (flats), FlatAt
	HalfSided ShapeKind = "half sided" // Sides, Across (flats), Depth
	Oval      ShapeKind = "oval"       // Width, Depth: two half circles and straights
	HalfOval  ShapeKind = "half oval"  // Width, Depth of the whole oval's half
	Rectangle ShapeKind = "rectangle"  // Width, Depth, Corner radius
)

// Shape is a plan shape by its measures in mm. Half shapes have their origin
// in the middle of the sawn edge, which lies along x with the body toward +y;
// all others at their centre.
type Shape struct {
	Kind   ShapeKind `json:"kind,omitempty"`
	Across float64   `json:"across,omitempty"` // diameter, or width across flats
	Width  float64   `json:"width,omitempty"`
	Depth  float64   `json:"depth,omitempty"`
	Sides  int       `json:"sides,omitempty"`
	FlatAt float64   `json:"flat_at,omitempty"` // bearing of a flat, degrees clockwise from 12
	Corner float64   `json:"corner,omitempty"`  // corner radius of a rectangle
}

// Outline is the exact ring of the shape about its own origin. It refuses
// measures that make no shape.
func (s Shape) Outline() (plane.Outline, error) {
	switch s.Kind {
	case Round:
		return plane.Round(s.Across)
	case HalfRound:
		return plane.HalfRound(s.Across, s.Depth)
	case Sided:
		return plane.Sided(s.Sides, s.Across, s.FlatAt)
	case HalfSided:
		return plane.HalfSided(s.Sides, s.Across, s.Depth)
	case Oval:
		return plane.Oval(s.Width, s.Depth)
	case HalfOval:
		return plane.HalfOval(s.Width, s.Depth)
	case Rectangle:
		if s.Corner > 0 {
			return plane.RoundedRectangle(s.Width, s.Depth, s.Corner)
		}
		return plane.Rectangle(s.Width, s.Depth)
	}
	return plane.Outline{}, fmt.Errorf("%q is no shape; use one of %s", s.Kind, strings.Join(ShapeKinds(), ", "))
}

// ShapeKinds lists the shape words, sorted.
func ShapeKinds() []string {
	kinds := []string{string(Round), string(HalfRound), string(Sided), string(HalfSided), string(Oval), string(HalfOval), string(Rectangle)}
	sort.Strings(kinds)
	return kinds
}
