package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"threepost/layout"
)

// Gap is a line between two pieces with its figure, drawn over everything.
type Gap struct {
	A, B  mgl64.Vec3 // the nearest points, mm
	Grade layout.Grade
	Clear bool   // it keeps the plan figure
	Text  string // "4 mm"
}
