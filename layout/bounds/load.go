package bounds

import "threepost/geometry/plane"

// Kind is a row of ware as a bound sees it.
type Kind struct {
	Name   string
	Count  int
	Height float64 // over its shelf, allowance included, mm
	Value  float64 // of one pot
	Room   float64 // least depth of its middle inside the shelf's edge, mm
	Size   float64 // least radius of its body, mm
}

// Place is somewhere a level can be: its shelves, the columns of the kiln that
// it fills, and the owned shelves it draws on.
type Place struct {
	Name     string
	Outlines []plane.Outline // side by side; the room for middles adds up
	Sides    []Side          // of lines on which all middles lie
	Thick    float64         // of the shelf, mm
	Columns  []int           // into Load.Columns
	Stock    int             // into Load.Stocks
	Shelves  float64         // of that stock that one level takes; part of one where a shelf has several rooms over it
	// Beside is where in Load.Places the other rooms over the same shelf are:
	// one shelf makes one level of each, at most.
	Beside []int
	Deep   bool // its levels are deeper below the rim than Load.DeepFrom
}

// Side is a half plane: the points p with Dot(p, Out) at most At mm.
type Side struct {
	Out plane.Vec // of length 1
	At  float64
}

// Load is what there is. All lengths are mm.
type Load struct {
	Kinds   []Kind
	Places  []Place
	Columns []float64 // height from the lowest shelf's underside to the lid
	Stocks  []int     // owned shelves, as many as there are sorts
	Posts   float64   // heights of all owned posts and spacers together
	// Apart is the least distance of the middles of two kinds on one level.
	Apart func(i, j int) float64
	// DeepApart is that on deep levels, and DeepFrom how far below the rim those
	// begin; levels that are not marked deep lie higher. 0: there are none.
	DeepApart func(i, j int) float64
	DeepFrom  float64
	// Storey is the least post height of a level that takes a pot of the height.
	Storey func(height float64) float64
	Lid    float64 // room to the lid over the highest level
	Post   Post
	Slices []Slice
}

// Post is what stands on every level that carries another, three times at
// least. The zero value takes no room.
type Post struct {
	Radius float64   // of a disc about its middle that lies in its section, mm
	Apart  []float64 // least distance of its middle from each kind's, mm
}

// Slice is what each kind covers at one height over its shelf, grown by half
// the gap: no two pots share any of it.
type Slice struct {
	Over  float64   // what it stands out over the shelf at most, mm
	Areas []float64 // of each kind, mm2; at most what it covers
	Post  float64   // of a post's section, grown by what is left of its distance from the pots, mm2; at most
	Deep  bool      // it tells of deep levels, else of all others
}

// Bound is what nobody can exceed.
type Bound struct {
	Count int     // pots
	Value float64 // of the pots
	Tall  Tall    // the height class that binds; its Count is 0 where the kiln as a whole does
	Short Scarce  // then: what, had there been more of it, would let in most
}

// Scarce names what there is too little of.
type Scarce string

// What a kiln can be short of.
const (
	Nothing Scarce = ""
	Height  Scarce = "height"
	Shelves Scarce = "shelves"
	Posts   Scarce = "posts"
)

// Tall is a height class of which more pots are asked than levels hold.
type Tall struct {
	From   float64 // height of its lowest pot, mm
	Count  int     // pots so high or higher
	Levels int     // that take them, at most
	Hold   int     // such pots on those levels, at most
}

// apart is the least distance of the middles of two kinds on a place.
func (l *Load) apart(p *Place) func(i, j int) float64 {
	if p.Deep {
		return l.DeepApart
	}
	return l.Apart
}
