package stacks

import (
	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
)

// Built is a load with every piece as a solid in the kiln's frame.
// Its slices are in a fixed order: towers as in the load, levels from the
// bottom, pots as they are listed on their level.
type Built struct {
	Load    *layout.Load
	Chamber plane.Outline
	Height  float64 // floor to lid, mm
	Towers  []Tower
	Levels  []Level
	Shelves []Shelf
	Posts   []Post
	Pots    []Pot // pots and cone packs
	Probes  []Probe
	Spies   []Spy
	Letters []Letter // every line once, lettered
}

// Tower is a built tower.
type Tower struct {
	Index   int      // in Load.Towers
	Name    string   // "left side"
	Base    float64  // z its lowest posts stand on
	Levels  []int    // into Built.Levels, from the bottom
	On      []int    // into Built.Levels; empty on the floor
	Leaf    bool     // nothing stands on its top level
	Letters []string // of its lines, in their order
}

// Level is a built storey.
type Level struct {
	Tower, Number int    // index of the tower; number from 1
	Name          string // as it is said: "left 2", "bottom", "level 3"
	Shelves       []int
	Posts         []int // those under its shelves
	Pots          []int
	Bottom        float64 // underside of its shelf
	Top           float64 // where its pots stand
	// Ceiling is the lowest underside over the level's shelves: the next
	// shelf's less its bow, or the lid.
	Ceiling  float64
	UnderLid bool    // nothing but the lid over all of it
	Takes    float64 // the tallest pot it takes at the plan room, mm
	Above    []int   // the levels whose shelves lie directly over it
	Deep     bool    // more than the rule's depth below the rim
}

// Shelf is a built shelf.
type Shelf struct {
	Level, Index int // Index: in the level's list
	Kind         *layout.ShelfKind
	At           plane.Vec
	Turn         float64
	Outline      plane.Outline // in the kiln's frame
	Bottom, Top  float64
	Mass         float64
	Solid        solid.Placed // for pictures and gaps where a prism will do; contains the shelf
}

// Post is one built post under a level's shelves.
type Post struct {
	Level       int
	Line        int    // in the tower's lines
	Letter      string // "A"
	At          plane.Vec
	Turn        float64
	MakeUp      layout.MakeUp
	Pieces      []Piece
	Bottom, Top float64 // Top by real heights
	Mass        float64
	Shelves     []int // into Built.Shelves: those it carries
	Solid       solid.Placed
}

// Piece is one piece of a built post.
type Piece struct {
	Kind        *layout.PostKind
	Bottom, Top float64
}

// Pot is a built pot or cone pack with what it stands on (cookie, stilt).
type Pot struct {
	Pot    layout.Pot
	Ware   *layout.Ware     // nil for a cone pack
	Cones  *layout.ConePack // nil for a pot
	Kind   int              // index of the ware row; len(rows)+index for cone packs
	Level  int
	Shelf  int // into Built.Shelves: the one under its foot, or -1
	At     plane.Vec
	Turn   float64
	Z      float64 // the shelf's top
	Body   *Body
	Solid  solid.Placed
	Locked bool
}

// Probe is a built probe: a round-ended tube as a solid that contains it.
type Probe struct {
	Kiln  *layout.Probe
	Inner plane.Vec // where it leaves the wall
	Tip   plane.Vec
	Solid solid.Placed
}

// Spy is a built spyhole.
type Spy struct {
	Kiln   *layout.Spyhole
	Mouth  plane.Vec // inner mouth, on the wall
	Height float64
	Inward plane.Vec // unit vector of its axis
}

// Letter is a place where posts stand over each other, over all towers.
type Letter struct {
	Name string
	At   plane.Vec
}
