package layout

// Furniture is what the potter owns to build with.
type Furniture struct {
	Shelves []ShelfKind  `json:"shelves,omitempty"`
	Posts   []PostKind   `json:"posts,omitempty"`
	Cookies []CookieKind `json:"cookies,omitempty"`
	Stilts  []StiltKind  `json:"stilts,omitempty"`
}

// ShelfKind is a row of alike shelves.
type ShelfKind struct {
	Name     string  `json:"name,omitempty"`
	Shape    Shape   `json:"shape"`
	Thick    float64 `json:"thick,omitempty"` // mm
	Mass     float64 `json:"mass,omitempty"`  // kg; 0 means taken from area, thickness and 2.2 g/cm3
	Count    int     `json:"count"`
	Material string  `json:"material,omitempty"` // "cordierite" (default), "mullite", "high alumina", "silicon carbide"
	Limit    float64 `json:"limit,omitempty"`    // highest temperature, C; 0 means the material's
	Bow      float64 `json:"bow,omitempty"`      // how far the middle hangs or stands proud, mm
	Cracked  bool    `json:"cracked,omitempty"`
	Damp     bool    `json:"damp,omitempty"`
}

// PostKind is a row of alike posts, or of spacers. Posts whose real heights
// differ are rows of their own: a matched set.
type PostKind struct {
	Name    string  `json:"name,omitempty"`   // tells matched sets of one nominal height apart; usually empty
	Height  float64 `json:"height,omitempty"` // the height it is called by, mm
	Real    float64 `json:"real,omitempty"`   // as measured, mm; 0 means Height
	Section Section `json:"section,omitzero"`
	Count   int     `json:"count"`
	Spacer  bool    `json:"spacer,omitempty"` // a thin piece that goes on top of a post
	Mass    float64 `json:"mass,omitempty"`
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
	Kind  SectionKind `json:"kind,omitempty"`
	Width float64     `json:"width,omitempty"`
}

// CookieKind is a tile that catches the drips of a runny pot.
type CookieKind struct {
	Across float64 `json:"across,omitempty"`
	Thick  float64 `json:"thick,omitempty"`
	Count  int     `json:"count"`
}

// StiltKind lifts a pot with a glazed foot.
type StiltKind struct {
	Across float64 `json:"across,omitempty"` // between points
	Height float64 `json:"height,omitempty"` // adds to the pot
	Count  int     `json:"count"`
	Limit  float64 `json:"limit,omitempty"` // highest temperature, C; 0 means 1300 for clay, see Metal
	Metal  bool    `json:"metal,omitempty"` // metal points stand to about 1100 C
}
