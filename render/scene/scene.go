package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"threepost/layout"
)

// Scene is a load to be drawn.
type Scene struct {
	Pieces   []Piece // by id; Pieces[0] is nothing
	Groups   []Group // levels in the order of Built.Levels, each followed by its posts; then probes, kiln
	Labels   []Label
	Balances []Balance // one a shelf, in the order of Built.Shelves
	Legend   []Key     // what the colours and hatches of the ware mean; empty for clay
	Box      Box       // round all that is shown but the kiln
	Kiln     Box       // the chamber from floor to lid
	Look     Look

	forms map[uint64]*form // by what they are made of, for the next scene
}

// Group is a merged mesh with what it is about.
type Group struct {
	Name  string // "left 2", "left 2 posts", "probes", "kiln"
	Level int    // into Built.Levels; -1 for kiln and probes
	Posts bool   // the posts under the level's shelves
	Kiln  bool   // floor, walls and spyholes: inner sides only, no outline
	Shown bool   // not lifted away
	Mesh  Mesh
	Box   Box
	Sum   uint64 // of the mesh's bytes: the same sum needs no new upload
	key   uint64 // of all that a level's mesh is made of
}

// Mesh is triangles and lines of many pieces.
type Mesh struct {
	Positions []float32 // 3 a vertex, mm
	Normals   []float32 // 3 a vertex, length 1, for light
	Outward   []float32 // 3 a vertex, length 1, one at each corner: along it a hull grows
	Colours   []float32 // 4 a vertex: red, green, blue, and the number of the hatch
	Pieces    []uint32  // 1 a vertex: id, into Scene.Pieces
	Indexes   []uint32  // 3 a triangle

	Creases      []float32 // 6 a line: two points, mm
	CreasePieces []uint32  // 1 a line
}

// Vertices is how many vertices the mesh has.
func (m *Mesh) Vertices() int { return len(m.Pieces) }

// Triangles is how many triangles the mesh has.
func (m *Mesh) Triangles() int { return len(m.Indexes) / 3 }

// Piece is one thing that can be pointed at.
type Piece struct {
	Thing layout.Thing // as findings name it
	Kind  Kind
	Index int    // into Built.Pots, Shelves, Posts, Probes or Spies
	Level int    // into Built.Levels; -1 for what belongs to the kiln
	Group int    // into Scene.Groups
	Name  string // as it is said: "mug 3", "post A", "shelf of left 2"
	Box   Box
	Mark  Mark
}

// Kind is what a piece is.
type Kind string

// The kinds of pieces.
const (
	Nothing   Kind = ""
	PotPiece  Kind = "pot"
	ConePiece Kind = "cones"
	ShelfKind Kind = "shelf"
	PostKind  Kind = "post"
	ProbeKind Kind = "probe"
	SpyKind   Kind = "spyhole"
	KilnKind  Kind = "kiln"
)

// Mark tells a piece apart without colour: a hatch and a word.
type Mark struct {
	Hatch Hatch
	Label string // "Ida", "oat", "31 %", "watch"
}

// Hatch is the number of a pattern that a renderer draws over a piece. The
// patterns lie on the screen, so that they have one size at any distance.
type Hatch int

// The patterns.
const (
	Plain        Hatch = iota
	WatchLines         // ochre, 45 degrees, 8 px apart
	FaultLines         // oxblood, 45 degrees, 5 px apart
	Rising             // ink, 45 degrees up to the right, 9 px apart
	Falling            // ink, 45 degrees down to the right, 9 px apart
	LevelLines         // ink, level lines 8 px apart
	UprightLines       // ink, upright lines 8 px apart
	Crossed            // ink, rising and falling, 11 px apart
	Dots               // ink, 8 px apart
	Dashes             // ink, short level strokes, 9 px apart
	HatchCount
)

// Words is how a pattern is called in a legend.
func (h Hatch) Words() string {
	switch h {
	case WatchLines:
		return "ochre lines"
	case FaultLines:
		return "oxblood lines"
	case Rising:
		return "rising lines"
	case Falling:
		return "falling lines"
	case LevelLines:
		return "level lines"
	case UprightLines:
		return "upright lines"
	case Crossed:
		return "crossed lines"
	case Dots:
		return "dots"
	case Dashes:
		return "dashes"
	}
	return "plain"
}

// Key is an entry of the legend.
type Key struct {
	Mark   Mark
	Colour Colour
	Count  int // pieces that wear it
}

// Label is a text at a point, to be placed by projecting it.
type Label struct {
	Kind  LabelKind
	At    mgl64.Vec3 // mm
	Text  string     // "left 2", "4.8", "A"
	Name  string     // for a screen reader: "left 2: 4.8 kg of ware"
	Level int        // into Built.Levels, or -1
	Index int        // into Built.Shelves, Probes, Spies or Letters, as the kind says
	Side  int        // -1 hangs to the left of the load, 1 to the right, 0 sits on its point
	Shown bool       // its level is not lifted away
	// Ring is what a label that hangs beside the load hangs on: points round a
	// shelf's edge. Hang finds the one that is farthest out for a camera.
	Ring []mgl64.Vec3
}

// LabelKind is what a label tells.
type LabelKind string

// The kinds of labels.
const (
	LevelLabel  LabelKind = "level"
	MassLabel   LabelKind = "mass"
	LetterLabel LabelKind = "letter"
	ProbeLabel  LabelKind = "probe"
	SpyLabel    LabelKind = "spyhole"
)

// Balance is the mass balance of one shelf, to be drawn as a small triangle
// beside it or on it.
type Balance struct {
	Level, Shelf int // into Built.Levels, Built.Shelves
	Z            float64
	Mass         float64 // kg of ware on the shelf
	Carried      float64 // kg on its posts: shelf, ware and what stands above
	Share        float64 // of all ware, 0 to 1
	At           mgl64.Vec2
	Margin       float64 // mm inside the posts' ring
	Tips         bool
	Posts        []PostShare
}

// PostShare is the weight on one post of a shelf.
type PostShare struct {
	Letter string
	At     mgl64.Vec2
	Mass   float64 // kg
	Index  int     // into Built.Posts
}

// Box is upright, mm. The zero box is empty.
type Box struct{ Min, Max mgl64.Vec3 }

// Empty tells whether nothing was put into the box.
func (b Box) Empty() bool { return b == Box{} }

// Middle is the centre of the box.
func (b Box) Middle() mgl64.Vec3 {
	return mgl64.Vec3{(b.Min[0] + b.Max[0]) / 2, (b.Min[1] + b.Max[1]) / 2, (b.Min[2] + b.Max[2]) / 2}
}

// With is the least box round both.
func (b Box) With(c Box) Box {
	switch {
	case b.Empty():
		return c
	case c.Empty():
		return b
	}
	for i := range b.Min {
		b.Min[i], b.Max[i] = min(b.Min[i], c.Min[i]), max(b.Max[i], c.Max[i])
	}
	return b
}
