package drawing

// Rules say what Check asks of a page. The zero value asks only that texts
// stay on the page, do not overlap and can be read.
type Rules struct {
	Margin   float64 // no text nearer to the page's edges, mm
	Smallest float64 // no text smaller, pt
	Apart    float64 // inked boxes of two texts at least so far apart, mm; 0 is "do not overlap"
	// Covered asks that nothing painted later covers a text.
	Covered bool
	// Struck asks that no line crosses a text, but for lines under a halo.
	Struck bool
}

// Kind is what is wrong with a text.
type Kind string

// What Check finds.
const (
	Overlap  Kind = "overlaps"  // two texts overlap
	Outside  Kind = "outside"   // a text crosses the page's margin
	CutOff   Kind = "cut"       // a clip cuts a text
	TooSmall Kind = "too small" // below the smallest size
	NoGlyph  Kind = "no glyph"  // a letter that the font does not have
	Covered  Kind = "covered"   // something painted later hides it
	Struck   Kind = "struck"    // a line runs through it
)

// Complaint is one thing wrong on a page.
type Complaint struct {
	Kind  Kind
	Text  Text
	Other string  // the other text, the letter or the shape; may be empty
	Have  float64 // mm or pt, as the kind has it
	Need  float64
}
