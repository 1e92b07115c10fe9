package drawing

import "time"

// Document is what is put into one PDF.
type Document struct {
	Title   string    // for the file's metadata
	Created time.Time // for the file's metadata; zero stands for 1 January 2000
	Pages   []Page
}

// Page is one side of paper, mm, and what is on it in order of painting.
type Page struct {
	Width, Height float64
	Title         string // of the SVG; may be empty
	Items         []Item
}

// Item is a thing on a page: a Shape, a Text or a Clip. All are plain values
// in page millimetres; groups leave no trace.
type Item interface{ item() }

// Shape is a path and how it is painted.
type Shape struct {
	Path  Path
	Style Style
}

// Text is one line of text. At is the point of the baseline that Style.Anchor
// names; Width is its measured length along the baseline in mm.
type Text struct {
	At    Point
	Words string
	Style TextStyle
	Width float64
}

// Clip shows its items only inside a path (nonzero winding).
type Clip struct {
	Path  Path
	Items []Item
}

func (Shape) item() {}
func (Text) item()  {}
func (Clip) item()  {}
