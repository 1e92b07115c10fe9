package statics

import "threepost/layout/stacks"

// EventKind is what a hand puts in.
type EventKind int

// The kinds of events while loading.
const (
	SetPost EventKind = iota
	SetShelf
	SetPot
)

// Event is one piece put in: Index is into Built.Posts, Shelves or Pots.
type Event struct {
	Kind  EventKind
	Index int
}

// Moment is a state of a shelf while the kiln is loaded.
type Moment struct {
	Shelf  int     // into Built.Shelves
	After  Event   // the piece that had just been put in
	Step   int     // its place in the events, from 0
	Margin float64 // of the balance point inside the shelf's posts, mm
	Tips   bool
}

// WhileLoading puts the events in, one by one, and gives for every shelf (as
// Built.Shelves) its worst moment: the one with the least margin, the earliest
// of equals. A shelf that never goes in has Step -1.
func WhileLoading(b *stacks.Built, events []Event) []Moment {
	return make([]Moment, len(b.Shelves))
}

// LevelLoading loads one level alone: its posts and shelves stand, then the
// posts above it, then the pots in the given order. It gives the worst moment
// over the level's shelves.
func LevelLoading(b *stacks.Built, level int, pots []int) Moment { return Moment{Step: -1} }
