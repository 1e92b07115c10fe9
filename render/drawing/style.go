package drawing

import "slices"

// Style says how a shape is painted: filled first, then stroked.
type Style struct {
	Fill   Colour    // None leaves the inside open
	Stroke Colour    // None draws no line
	Width  float64   // of the stroke, pt
	Dash   []float64 // on and off lengths, pt; empty is a whole line
	Round  bool      // round ends (a dash "0.1 3" becomes a row of dots) and corners
}

// Outline is a black line of the given width in pt, open inside.
func Outline(width float64) Style { return Style{Stroke: Black, Width: width} }

// Solid is a fill without a line.
func Solid(c Colour) Style { return Style{Fill: c} }

// Filled is the style with the inside filled.
func (s Style) Filled(c Colour) Style { s.Fill = c; return s }

// Coloured is the style with the line in another colour.
func (s Style) Coloured(c Colour) Style { s.Stroke = c; return s }

// Dashed is the style with the line broken into on and off lengths in pt.
func (s Style) Dashed(lengths ...float64) Style { s.Dash = slices.Clone(lengths); return s }

// Rounded is the style with round line ends and corners.
func (s Style) Rounded() Style { s.Round = true; return s }

// Weight is the weight of the type: 400, 500, 600 or 700.
type Weight int

// The weights that are embedded.
const (
	Regular  Weight = 400
	Medium   Weight = 500
	SemiBold Weight = 600
	Bold     Weight = 700
)

// Anchor says which point of a text stands at its place.
type Anchor int

// Where a text is held.
const (
	Left Anchor = iota
	Middle
	Right
)

// TextStyle says how a text is set. Its zero value is nothing to read: give
// at least a size.
type TextStyle struct {
	Size   float64 // pt
	Weight Weight  // 0 is Regular; other values go to the nearest weight
	Anchor Anchor
	Turn   float64 // degrees clockwise about the place
	Colour Colour  // None is Black
	Halo   float64 // width of a white rim round the letters, pt; 0 is none
}

// Type is black text of a size in pt and a weight, held at its left end.
func Type(size float64, w Weight) TextStyle { return TextStyle{Size: size, Weight: w} }

// Held is the style with another anchor.
func (s TextStyle) Held(a Anchor) TextStyle { s.Anchor = a; return s }

// Turned is the style turned clockwise about its place, degrees.
func (s TextStyle) Turned(degrees float64) TextStyle { s.Turn = degrees; return s }

// In is the style in another colour.
func (s TextStyle) In(c Colour) TextStyle { s.Colour = c; return s }

// Haloed is the style with a white rim of the given width in pt.
func (s TextStyle) Haloed(width float64) TextStyle { s.Halo = width; return s }

// ink is the colour to print a text in.
func (s TextStyle) ink() Colour {
	if s.Colour == None {
		return Black
	}
	return s.Colour
}
