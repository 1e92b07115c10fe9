package layout

// Furniture is what the potter owns to build with.
type Furniture struct {
	Shelves []ShelfKind
	Posts   []PostKind
	Cookies []CookieKind
	Stilts  []StiltKind
}

// ShelfKind is a row of alike shelves.
type ShelfKind struct {
	Name     string
	Shape    Shape
	Thick    float64 // mm
	Mass     float64 // kg; 0 means taken from area, thickness and 2.2 g/cm3
	Count    int
	Material string  // "cordierite" (default), "mullite", "high alumina", "silicon carbide"
	Limit    float64 // highest temperature, C; 0 means the material's
	Bow      float64 // how far the middle hangs or stands proud, mm
	Cracked  bool
	Damp     bool
}

// PostKind is a row of alike posts, or of spacers. Posts whose real heights
// differ are rows of their own: a matched set.
type PostKind struct {
	Name    string  // tells matched sets of one nominal height apart; usually empty
	Height  float64 // the height it is called by, mm
	Real    float64 // as measured, mm; 0 means Height
	Section Section
	Count   int
	Spacer  bool // a thin piece that goes on top of a post
	Mass    float64
}

// RealHeight is the measured height, or the nominal one.
func (p PostKind) RealHeight() float64 {
	if p.Real > 0 {
		return p.Real
	}
	return p.Height
}

// SectionKind is the plan shape of a post.
type SectionKind string

// Sections of posts. Width is the side of a square or triangle, the diameter
// of a tube, the width across flats of a hexagon.
const (
	SquareSection   SectionKind = "square"
	RoundSection    SectionKind = "round"
	HexagonSection  SectionKind = "hexagon"
	TriangleSection SectionKind = "triangle"
)

// Section is a post's plan: "square 38".
type Section struct {
	Kind  SectionKind
	Width float64
}

// CookieKind is a tile that catches the drips of a runny pot.
type CookieKind struct {
	Across float64
	Thick  float64
	Count  int
}

// StiltKind lifts a pot with a glazed foot.
type StiltKind struct {
	Across float64 // between points
	Height float64 // adds to the pot
	Count  int
	Limit  float64 // highest temperature, C; 0 means 1300 for clay, see Metal
	Metal  bool    // metal points stand to about 1100 C
}
