package views

import (
	"threepost/geometry/plane"
)

// The kinds of marks.
const (
	PathKind  = "path"
	TextKind  = "text"
	GroupKind = "group"
)

// Mark is one thing of a picture, in CSS px from the picture's upper left
// corner.
type Mark struct {
	Kind   string  `json:"kind"`
	D      string  `json:"d,omitempty"` // SVG path data
	X      float64 `json:"x,omitempty"` // of a text: where its anchor lies
	Y      float64 `json:"y,omitempty"` // of a text: its baseline
	Text   string  `json:"text,omitempty"`
	Anchor string  `json:"anchor,omitempty"` // "start", "middle", "end"
	Size   float64 `json:"size,omitempty"`   // of the type, px
	Turn   float64 `json:"turn,omitempty"`   // of a text about its place, degrees clockwise
	Class  string  `json:"class,omitempty"`  // words, see the package's Class constants
	ID     string  `json:"id,omitempty"`     // "pot:mug 3", "level:left side:2", ...
	Label  string  `json:"label,omitempty"`  // accessible name
	Fill   string  `json:"fill,omitempty"`   // hex, only where a class cannot say it
	Marks  []Mark  `json:"marks,omitempty"`  // of a group
}

// Picture is a drawing for the page.
type Picture struct {
	W     float64 `json:"w"` // px
	H     float64 `json:"h"`
	Label string  `json:"label,omitempty"` // accessible name of the whole
	Marks []Mark  `json:"marks"`
	Frame Frame   `json:"frame"`
}

// Frame maps the kiln's mm to the px of a picture. In a top view the second
// coordinate is y, to the back; in an elevation it is z, up from the floor.
type Frame struct {
	Per  float64 `json:"per"`            // px per mm
	X0   float64 `json:"x0"`             // px of the origin
	Y0   float64 `json:"y0"`             // px of the origin
	Turn float64 `json:"turn,omitempty"` // the drawing is turned by so many degrees clockwise
}

// Px is where a place lies in the picture.
func (f Frame) Px(v plane.Vec) (x, y float64) {
	if f.Turn != 0 {
		v = plane.Rotate(v, f.Turn)
	}
	return f.X0 + float64(v[0]*f.Per), f.Y0 - float64(v[1]*f.Per)
}

// MM is the place that lies at a point of the picture.
func (f Frame) MM(x, y float64) plane.Vec {
	if f.Per == 0 {
		return plane.Vec{}
	}
	v := plane.Vec{(x - f.X0) / f.Per, (f.Y0 - y) / f.Per}
	if f.Turn != 0 {
		v = plane.Rotate(v, -f.Turn)
	}
	return v
}

// Move is how far, px, a move of so many mm is in the picture.
func (f Frame) Move(v plane.Vec) (dx, dy float64) {
	x, y := f.Px(v)
	return x - f.X0, y - f.Y0
}
