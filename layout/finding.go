package layout

import (
	"fmt"

	"github.com/go-gl/mathgl/mgl64"
)

// Grade tells how much a finding matters.
type Grade int

// The three grades. A problem welds, melts, falls, hits the probe, or keeps
// the lid open; a watch is worth a second look; a note is good to know.
const (
	Note Grade = iota
	Watch
	Problem
)

// String is the grade's word.
func (g Grade) String() string {
	switch g {
	case Problem:
		return "problem"
	case Watch:
		return "watch"
	}
	return "note"
}

// MarshalText writes the grade's word, so that JSON says "watch", not 1.
func (g Grade) MarshalText() ([]byte, error) { return []byte(g.String()), nil }

// UnmarshalText reads a grade's word.
func (g *Grade) UnmarshalText(text []byte) error {
	for _, known := range []Grade{Note, Watch, Problem} {
		if string(text) == known.String() {
			*g = known
			return nil
		}
	}
	return fmt.Errorf("%q is no grade; use note, watch or problem", text)
}

// ThingKind is what a finding can be about.
type ThingKind string

// The kinds of things.
const (
	ThingPot   ThingKind = "pot"
	ThingCones ThingKind = "cones"
	ThingShelf ThingKind = "shelf"
	ThingPost  ThingKind = "post"
	ThingLevel ThingKind = "level"
	ThingWall  ThingKind = "wall"
	ThingLid   ThingKind = "lid"
	ThingFloor ThingKind = "floor"
	ThingProbe ThingKind = "probe"
	ThingSpy   ThingKind = "spyhole"
	ThingWare  ThingKind = "ware"
	ThingKiln  ThingKind = "kiln"
)

// Thing points at a piece of the load. Name is the pot, the line's letter or
// the ware row; Tower and Level say where it stands, Level counted from 1.
type Thing struct {
	Kind  ThingKind `json:"kind"`
	Name  string    `json:"name,omitempty"`
	Tower string    `json:"tower,omitempty"`
	Level int       `json:"level,omitempty"`
}

// Finding is a sentence about the load with its measure, its place and its
// ways out.
type Finding struct {
	Key      string     `json:"key"` // stable name: rule and things; Accepted refers to it
	Rule     RuleName   `json:"rule"`
	Grade    Grade      `json:"grade"`
	Sentence string     `json:"sentence"`
	Things   []Thing    `json:"things,omitempty"`
	Have     float64    `json:"have"`
	Need     float64    `json:"need"` // the figure that was missed
	Plan     float64    `json:"plan"`
	At       mgl64.Vec3 `json:"at"` // where to point, mm
	Mends    []Mend     `json:"mends,omitempty"`
	Accepted string     `json:"accepted,omitempty"` // the reason, when a watch was accepted
}

// Mend is an edit that has been applied and found to work.
type Mend struct {
	Say   string `json:"say"` // the button: the exact act
	Edits []Edit `json:"edits"`
}
