package views

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// Stop is a height at which a dragged shelf can lie.
type Stop struct {
	Z     float64      // of the shelf's underside, mm
	Made  string       // "100+10+5"
	Grade layout.Grade // of what would be found there; Note: all clear
	Now   bool
}

// LiftedOptions say what an elevation shows while a shelf is dragged. The
// subject is the load with the shelf at the stop where it is.
type LiftedOptions struct {
	W, H  float64 // px
	Level int     // into Built.Levels: the level whose shelf is dragged
	Hung  float64 // mm: where its underside was before
	Stops []Stop
	Above string // tag over the pots beneath: "18 above"; "": worked out
	Lid   string // tag under the lid: "33 to the lid"; "": worked out
}

// Lifted draws the elevation while a shelf is dragged.
func (e *Easel) Lifted(s Subject, o LiftedOptions) Picture { return Picture{W: o.W, H: o.H} }

// HeldOptions say what lies over a top view while a pot is held.
type HeldOptions struct {
	Pot    int           // into Built.Pots
	At     plane.Vec     // where it is now, mm
	Turn   float64       // degrees
	Ring   *plane.Vec    // the nearest clear place; nil: none, or it stands on it
	Bar    *[2]plane.Vec // between which places the least gap lies
	Flag   string        // "2 mm, too close"
	Grade  layout.Grade
	Clear  bool // the flag tells a gap that clears
	Pair   int  // the other pot of that gap, into Built.Pots; -1: none
	Leader *Leader
}

// Leader is a sentence that stands outside the wall with a dotted line to a pot.
type Leader struct {
	To    int    // into Built.Pots
	Says  string // "4 goes in before 5"
	After string // inside that pot: "after 4"
}

// Held draws what lies over a top view while a pot is held: the held pot
// itself, the ring where it clears, bar and flag of the least gap, the hatch
// on the other pot, the leader.
func (e *Easel) Held(s Subject, top TopOptions, o HeldOptions) []Mark { return nil }

// PlankItem is a row of ware on the table's plank.
type PlankItem struct {
	Ware   *layout.Ware
	Body   *stacks.Body // of the row; nil: the row makes no pot and is told without a picture
	Count  int          // how many wait; of a set row, how many are set
	Set    bool         // all of it stands in the kiln: dashed, at the right
	Title  string       // "2 mugs"
	Note   string       // "Ida 31 · left 2 is full"
	Chosen bool
}

// PlankOptions say what stands on the plank.
type PlankOptions struct {
	W, H  float64 // px; the picture is wider when the rows need it: the page scrolls
	Items []PlankItem
}

// Plank draws the ware on the table, to one scale.
func (e *Easel) Plank(o PlankOptions) Picture { return Picture{W: o.W, H: o.H} }

// BoxPost is a kind of post or spacer in the box.
type BoxPost struct {
	Height float64 // mm
	Said   string  // "150"
	Left   int     // how many are in the box
	Spacer bool
}

// BoxOptions say what is in the box of posts.
type BoxOptions struct {
	W, H  float64 // px
	Posts []BoxPost
	Bare  bool // without figures: the page puts fields under them
}

// Box draws the posts that are left, to one scale; sizes of which none is
// left are dashed.
func (e *Easel) Box(o BoxOptions) Picture { return Picture{W: o.W, H: o.H} }

// AsideOptions say how one pot is drawn from the side.
type AsideOptions struct {
	W, H   float64 // px
	Ware   *layout.Ware
	Body   *stacks.Body
	Chosen bool
	Dashed bool    // none left
	Per    float64 // px per mm; 0: as large as fits
}

// Aside draws one pot from the side, standing on the lower edge.
func (e *Easel) Aside(o AsideOptions) Picture { return Picture{W: o.W, H: o.H} }

// ProfileOptions say what the profile editor shows.
type ProfileOptions struct {
	W, H float64      // px
	Ware *layout.Ware // with its profile filled in
	Body *stacks.Body // nil: only the profile is drawn
	Knot int          // the knot that is held, from 0; -1: none
	Flag string       // at that knot: "95 wide at 76"
}

// Profile draws the grid of the profile editor.
func (e *Easel) Profile(o ProfileOptions) Picture { return Picture{W: o.W, H: o.H} }

// BalancePost is a post under a shelf with the weight on it.
type BalancePost struct {
	Letter string
	At     plane.Vec
	Said   string // "3.1 kg"
}

// BalanceOptions say how the load of a level lies on its posts.
type BalanceOptions struct {
	W, H  float64 // px
	Posts []BalancePost
	Point plane.Vec // the balance point, mm
	Large bool      // with letters and weights
}

// Balance draws the ring of posts with the balance point in it.
func (e *Easel) Balance(o BalanceOptions) Picture { return Picture{W: o.W, H: o.H} }

// FirstOptions are the measures of the first run.
type FirstOptions struct {
	W, H    float64 // px
	Chamber layout.Shape
	Height  float64 // of the chamber, mm
	Front   bool    // opens at the front
	Across  float64 // of the shelf, mm
	Thick   float64
	Under   float64 // height of the first posts, mm
	Post    float64 // width of a post, mm; 0: 38
}

// First draws half a section of the kiln with its dimensions.
func (e *Easel) First(o FirstOptions) Picture { return Picture{W: o.W, H: o.H} }

// SmallOptions say which levels are done on the phone's small elevation.
type SmallOptions struct {
	W, H   float64 // px
	Done   []int   // into Built.Levels
	Active int     // into Built.Levels; -1: none
}

// Small draws the kiln small: done levels black, the active one cobalt.
func (e *Easel) Small(s Subject, o SmallOptions) Picture { return Picture{W: o.W, H: o.H} }

// ActOptions say which pots of a level an act at the kiln sets.
type ActOptions struct {
	W, H  float64 // px
	Level int     // into Built.Levels; -1: the kiln's floor
	Now   []int   // pots of this act, into Built.Pots: solid, with white numbers
	Stand []int   // pots that stand already: outlined, with numbers
	Posts []int   // posts of this act, into Built.Posts: solid cobalt
	Size  float64 // of the numbers, px; 0: 20
}

// Act draws a level large for the phone: the pots of the act solid, those that
// stand outlined, all others dashed.
func (e *Easel) Act(s Subject, o ActOptions) Picture { return Picture{W: o.W, H: o.H} }
