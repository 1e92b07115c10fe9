package elevation

import (
	"math"

	"threepost/layout/stacks"
	"threepost/render/drawing"
)

// How much of wall, lid and floor is drawn, mm of paper.
const (
	wallShown  = 2.8
	lidShown   = 4.6
	floorShown = 2.8
)

// View is where an elevation lies on the page.
type View struct {
	Per    float64 // mm of kiln for one mm of paper
	Middle float64 // x of the kiln's middle on the page, mm
	Floor  float64 // y of the chamber's floor on the page, mm

	left, right float64 // x of the walls in the kiln
	height      float64 // of the chamber
}

// Size is the width and height on paper, mm, of an elevation at 1 : per.
func Size(b *stacks.Built, per float64) (width, height float64) {
	lo, hi := b.Chamber.Bounds()
	return (hi[0]-lo[0])/per + 2*wallShown, b.Height/per + lidShown + floorShown
}

// Fit is the largest scale, in halves, at which an elevation is no larger
// than width by height mm of paper.
func Fit(b *stacks.Built, width, height float64) float64 {
	lo, hi := b.Chamber.Bounds()
	per := math.Max((hi[0]-lo[0])/math.Max(width-2*wallShown, 1), b.Height/math.Max(height-lidShown-floorShown, 1))
	return math.Max(1, math.Ceil(per*2-1e-9)/2)
}

// NewView puts an elevation at 1 : per on the page with its middle at x and
// its top, the lid's upper side, at y.
func NewView(b *stacks.Built, per, x, y float64) View {
	lo, hi := b.Chamber.Bounds()
	return View{
		Per: per, Middle: x - (lo[0]+hi[0])/2/per, Floor: y + lidShown + b.Height/per,
		left: lo[0], right: hi[0], height: b.Height,
	}
}

// X is where a place x mm right of the kiln's middle lies on the page.
func (v View) X(x float64) float64 { return v.Middle + x/v.Per }

// Y is where a height z mm over the floor lies on the page.
func (v View) Y(z float64) float64 { return v.Floor - z/v.Per }

// Left is the outer side of the left wall on the page.
func (v View) Left() float64 { return v.X(v.left) - wallShown }

// Right is the outer side of the right wall on the page.
func (v View) Right() float64 { return v.X(v.right) + wallShown }

// Top is the upper side of the lid on the page.
func (v View) Top() float64 { return v.Y(v.height) - lidShown }

// Bottom is the lower side of the floor on the page.
func (v View) Bottom() float64 { return v.Floor + floorShown }

// group maps the kiln's x and z to the page, z up.
func (v View) group() drawing.Transform {
	return drawing.Stretch(1/v.Per, -1/v.Per).Then(drawing.Move(v.Middle, v.Floor))
}
