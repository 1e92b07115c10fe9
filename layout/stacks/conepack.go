package stacks

import (
	"fmt"

	"threepost/geometry/solid"
	"threepost/layout"
)

// conePad is the height of the clay that a cone pack's cones stand in, mm
// (common practice).
const conePad = 15

// ConeBody is the body of a cone pack: an upright box, 75 x 28 x 70 where the
// load says nothing, without allowances. It refuses measures that make no
// box.
func ConeBody(l *layout.Load, c *layout.ConePack) (*Body, error) {
	length, width, height := or(c.Length, 75), or(c.Width, 28), or(c.Height, 70)
	for _, mm := range [...]float64{length, width, height} {
		if !(mm > 0 && mm <= 1000) {
			return nil, fmt.Errorf("%s: a cone pack of %v mm; give length, width and height up to 1000", c.Name, mm)
		}
	}
	on := footprint{layout.Rectangle, length, width}.at(1, 0)
	s, err := solid.NewBody(upright(on, 0, height))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", c.Name, err)
	}
	return &Body{
		Solid: s, Foot: on.Skeleton, FootR: on.Radius, Height: height,
		Mass:  float64(float64(length*width)*conePad) * stoneware / 1e9,
		Turns: true,
		owned: -1,
		Drawn: Drawn{
			Body: on, Foot: on, Oblong: true,
			Profile: []layout.Knot{{Height: 0, Diameter: length}, {Height: height, Diameter: length}},
		},
	}, nil
}

func or(mm, usual float64) float64 {
	if mm == 0 {
		return usual
	}
	return mm
}
