package order

import "threepost/geometry/plane"

// PostStep is one post that stands on a level.
type PostStep struct {
	Post    int // into Built.Posts
	Letter  string
	Clock   float64 // bearing about the kiln's middle, degrees
	Inset   float64 // mm from its middle outward, along that bearing, to the shelf's edge
	Carries int     // the level (into Built.Levels) whose shelf it carries
}

// Step sets one pot or cone pack.
type Step struct {
	Pot    int // into Built.Pots
	Number int // on its level, from 1; 0 for a cone pack
	Cones  bool
	Zone   Zone
	// Neighbours are the two things already standing that say best where it
	// goes: near, and as far apart in direction as can be had. One or none
	// only when nothing else stands near.
	Neighbours []Neighbour
	Clock      float64 // bearing about the kiln's middle, degrees
	Out        float64 // mm from the pot outward, along that bearing, to the shelf's edge
	EdgeGap    float64 // mm to the nearest edge of its shelf; negative: past it
	EdgeToward float64 // bearing of that edge from the pot, degrees
	HasHandle  bool
	Spout      bool    // ware without a handle: Handle is its spout
	Handle     float64 // bearing of the first handle, degrees
	HandleTo   int     // pot (into Built.Pots) the handle points at, standing or not; -1: none near
	Pattern    int     // into LevelOrder.Patterns; -1: none
	After      []int   // pots that must stand before this one
	Tall       bool    // tall and narrow: set late
}

// Zone is the part of a shelf a pot belongs to in the order.
type Zone int

// The zones. Rows is the whole shelf of a front-loader, back to front.
const (
	Ring Zone = iota
	Middle
	Late
	Rows
	ConeZone
)

// NeighbourKind is what a pot stands beside.
type NeighbourKind int

// The kinds of neighbours.
const (
	NearPot NeighbourKind = iota
	NearPost
	NearEdge
	NearWall
)

// Neighbour is one thing a pot stands beside.
type Neighbour struct {
	Kind   NeighbourKind
	Pot    int     // into Built.Pots, for NearPot
	Number int     // its order number, for NearPot; 0: cones
	Letter string  // for NearPost
	Gap    float64 // mm, real
	Toward float64 // bearing from the pot, degrees
}

// HandleWay is how the handles of a series point.
type HandleWay int

// The ways handles point.
const (
	NoHandles HandleWay = iota
	HandlesInward
	HandlesOutward
	HandlesToBefore
	HandlesToAfter
	HandlesOneWay // all to Pattern.Clock
	HandlesAsDrawn
)

// Pattern is a series of alike pots that is told in one sentence.
type Pattern struct {
	Ware      string // the row's name
	Zone      Zone
	First     int // order numbers on the level, both included
	Last      int
	Steps     []int    // into LevelOrder.Pots
	Clockwise bool     // for Ring
	From      string   // letter of the post it starts at; empty: FromClock
	By        []string // letters of posts it passes
	To        string   // letter of the post it ends at; empty: ToClock
	FromClock float64
	ToClock   float64
	GapMin    float64 // between each and the nearest standing one, mm
	GapMax    float64
	Handles   HandleWay
	Clock     float64 // for HandlesOneWay
}

// Count is how many pots the series has.
func (p Pattern) Count() int { return len(p.Steps) }

// Grip is a place to hold a shelf.
type Grip struct {
	At    plane.Vec // on the shelf's edge
	Clock float64   // bearing about the kiln's middle, degrees
	Room  float64   // least room between the edge and the wall over a hand's width, mm
}

// Grips is where hands hold a shelf: two opposite places 80 wide.
type Grips struct {
	Shelf int
	Hold  []Grip  // two places, or none
	Fit   bool    // both have the rule's room
	Room  float64 // of the tighter one of the best pair, mm
}
