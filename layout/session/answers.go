package session

import (
	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout"
)

// Ghost is what edits would make of the load, for the hover over a mend. The
// load is not changed.
type Ghost struct {
	Problems int          `json:"problems"`
	Watches  int          `json:"watches"`
	Says     string       `json:"says"` // "No problem, 2 watches"
	Pots     []GhostPot   `json:"pots"` // those that move, go or come
	Levels   []GhostLevel `json:"levels"`
}

// GhostPot is a pot that edits move.
type GhostPot struct {
	ID    string    `json:"id"`
	Level int       `json:"level"` // into State.Levels as it is now, of where it goes; -1: the table
	From  plane.Vec `json:"from"`  // mm; where it comes from the table, the place it goes to
	To    plane.Vec `json:"to"`
	Turn  float64   `json:"turn"`
	In    bool      `json:"in"`  // from the table
	Out   bool      `json:"out"` // back to the table
}

// GhostLevel is a level whose shelf edits raise or lower.
type GhostLevel struct {
	Tower string  `json:"tower"`
	Level int     `json:"level"`
	Rise  float64 `json:"rise"` // mm, negative down
}

// Pick names a thing to choose; what is empty is not meant.
type Pick struct {
	Pot     string  `json:"pot"`
	Tower   string  `json:"tower"`
	Level   int     `json:"level"`
	Post    *PostAt `json:"post"`
	Finding string  `json:"finding"`
	Ware    string  `json:"ware"`
}

// PostAt names a built post: the letter of its line, and the level whose shelf
// it carries.
type PostAt struct {
	Letter string `json:"letter"`
	Tower  string `json:"tower"`
	Level  int    `json:"level"`
}

// Chosen is all there is to say about the chosen thing.
type Chosen struct {
	Kind  string    `json:"kind"` // "pot", "cones", "level", "post", "finding", "ware", ""
	ID    string    `json:"id"`
	Title string    `json:"title"` // "Mug next to post B"
	Line  string    `json:"line"`  // "95 × 86, Ida 31, oat"
	Place string    `json:"place"` // "Left 2, half past 8."
	Why   []string  `json:"why"`   // of a level: why it has its height, a sentence each
	Nears []Near    `json:"nears"`
	Acts  []Act     `json:"acts"`
	Pots  []string  `json:"pots"`  // ids to mark
	Level int       `json:"level"` // into State.Levels; -1: none
	At    plane.Vec `json:"at"`
}

// Near is a neighbour of a pot.
type Near struct {
	Name     string       `json:"name"` // "mug 11" by its order number, "post B", "the wall"
	ID       string       `json:"id"`   // of a pot
	Gap      float64      `json:"gap"`  // mm
	GapSaid  string       `json:"gap_said"`
	PlanSaid string       `json:"plan_said"`
	Grade    string       `json:"grade"` // "clears", "watch", "problem"
	Word     string       `json:"word"`  // "7 mm, plan 6", "2 mm, too close"
	Thing    layout.Thing `json:"thing"`
}

// Act is something to do about the chosen thing: edits, or the name of a call.
type Act struct {
	Say   string        `json:"say"`
	Edits []layout.Edit `json:"edits,omitempty"`
	Call  string        `json:"call,omitempty"`
}

// Held is a pot in hand.
type Held struct {
	Pot      string     `json:"pot"`
	Ware     string     `json:"ware"`
	Level    int        `json:"level"` // into Built.Levels; -1 while it is over no level
	Tower    string     `json:"tower"`
	Number   int        `json:"number"` // of the level in its tower
	At       plane.Vec  `json:"at"`     // mm
	From     *plane.Vec `json:"from"`   // where it stood on this level, mm; nil when it comes from elsewhere
	Turn     float64    `json:"turn"`
	Place    string     `json:"place"` // "Held. Left 2, half past 8."
	Nears    []Near     `json:"nears"` // four at most, the closest to its plan figure first
	Grade    string     `json:"grade"` // the gravest of all neighbours: "clears", "watch", "problem"
	Word     string     `json:"word"`  // of the closest: "2 mm, too close"
	Gap      *GapLine   `json:"gap"`   // to the closest; nil when nothing is near
	Ring     *plane.Vec `json:"ring"`  // where it clears, when it does not here; nil when there is no such place near
	Pair     string     `json:"pair"`  // id of the pot that is too near, or empty
	Sentence string     `json:"sentence"`
	Mend     *HeldMend  `json:"mend"`
	Order    string     `json:"order"`  // "4 goes in before 5. ..."
	Nth      int        `json:"nth"`    // its order number on the level, 0 when it comes from elsewhere
	Title    string     `json:"title"`  // "Mug next to post B"
	Before   string     `json:"before"` // id of the pot that must wait for it, or empty
}

// HeldMend says where a held pot goes when it is let go.
type HeldMend struct {
	Say string `json:"say"` // "Let go: 12 mm toward half past 9"
}

// GapLine is the shortest way between a held pot and a neighbour, mm.
type GapLine struct {
	From mgl64.Vec3 `json:"from"` // on the held pot
	To   mgl64.Vec3 `json:"to"`
}

// Lifted is a shelf in hand.
type Lifted struct {
	Tower string    `json:"tower"`
	Level int       `json:"level"` // whose shelf it is
	Index int       `json:"index"` // into State.Levels
	Title string    `json:"title"` // "Shelf of left 3"
	Line  string    `json:"line"`  // "rests on the posts of left 2, lines A B C"
	Stops []Stop    `json:"stops"` // the highest first
	At    int       `json:"at"`    // into Stops
	Was   int       `json:"was"`   // into Stops: where it hangs
	Rise  float64   `json:"rise"`  // mm over where it hangs
	Says  string    `json:"says"`  // "Now 3 × (100 + 10 + 5): left 2 takes 103, was 98. ..."
	Next  string    `json:"next"`  // "Next stop 120 keeps 28 to the lid."
	Above string    `json:"above"` // "18 above", the least room under the shelf
	Lid   string    `json:"lid"`   // "33 to the lid"
	Box   []BoxPost `json:"box"`   // what is left with the shelf at this stop, tallest first
	Takes string    `json:"takes"` // "This drag takes three 5s. ..."
	Mend  *Act      `json:"mend"`
}

// Stop is a height at which a lifted shelf can stop.
type Stop struct {
	Height float64 `json:"height"` // mm of its posts
	Posts  string  `json:"posts"`  // "115"
	Made   string  `json:"made"`   // "3 × (100 + 10 + 5)"
	Takes  string  `json:"takes"`  // "takes 103"
	Room   string  `json:"room"`   // "33 to the lid", "8 above"
	Grade  string  `json:"grade"`  // "clears", "watch", "problem"
	Word   string  `json:"word"`   // what to say of a stop that does not clear
	Fit    bool    `json:"fit"`    // no problem that is not there now
}

// BoxPost is a kind of post in the box.
type BoxPost struct {
	Height float64 `json:"height"`
	Said   string  `json:"said"`
	Name   string  `json:"name"`
	Owned  int     `json:"owned"`
	Left   int     `json:"left"`
	Spacer bool    `json:"spacer"`
}

// Choice is one of several things to do.
type Choice struct {
	Say   string        `json:"say"`
	Edits []layout.Edit `json:"edits"`
}

// Rows is what was read of pasted rows.
type Rows struct {
	Rows     []RowRead     `json:"rows"`
	Refusals []RowRefused  `json:"refusals"`
	Edits    []layout.Edit `json:"edits"`
	Says     string        `json:"says"` // "2 rows, 14 pots."
}

// RowRead is a row that was read.
type RowRead struct {
	Said string `json:"said"` // "12 mugs 100 × 85, added to 4"
	Name string `json:"name"`
	Line int    `json:"line"` // from 1
}

// RowRefused is a row that was not.
type RowRefused struct {
	Line int    `json:"line"`
	Say  string `json:"say"`
}

// Form is the profile of a row of ware while it is drawn.
type Form struct {
	Name    string      `json:"name"`
	Knots   []FormKnot  `json:"knots"`
	Height  string      `json:"height"`
	Across  string      `json:"across"`
	Foot    string      `json:"foot"`
	Said    string      `json:"said"`    // "Walls 5 thick: 880 g, holds 690 ml. Estimated."
	Needs   string      `json:"needs"`   // "Needs a level of 243: 230 and 13 above it. The tallest now has 200."
	Fits    bool        `json:"fits"`    // a level takes it now
	Assumed string      `json:"assumed"` // "foot and profile assumed"
	Ware    layout.Ware `json:"-"`       // for the picture
}

// FormKnot is one point of a profile, mm.
type FormKnot struct {
	Height   float64 `json:"height"`
	Diameter float64 `json:"diameter"`
	Said     string  `json:"said"` // "95 wide at 76"
	HighSaid string  `json:"height_said"`
	WideSaid string  `json:"diameter_said"`
}

// Found is what a search of the load found.
type Found struct {
	Ware []string `json:"ware"`
	Pots []string `json:"pots"` // ids of set pots
	Says string   `json:"says"` // "16 pots of 2 rows"
}

// ColourKey is one entry of the key of a colouring.
type ColourKey struct {
	Key  string   `json:"key"`  // "Ida"; empty: none named
	Said string   `json:"said"` // "Ida, 34 pots"
	Mark string   `json:"mark"` // a letter beside the colour, never colour alone
	Pots []string `json:"pots"`
}

// Wait is why pots of a row wait, as a planner told it.
type Wait struct {
	Ware  string `json:"ware"`
	Count int    `json:"count"`
	Why   string `json:"why"`
	Cure  string `json:"cure"`
}

// Change is what does not fit at the kiln.
type Change struct {
	Kind   string  `json:"kind"`   // "taller", "wider", "post missing", "leave out", "one more"
	Pot    string  `json:"pot"`    // of the kiln: "mug 3"
	Ware   string  `json:"ware"`   // a whole row
	By     string  `json:"by"`     // "6", "1/4 in"; for taller and wider
	Height float64 `json:"height"` // of the missing post, mm
	Name   string  `json:"name"`   // of the missing post's matched set
	Count  int     `json:"count"`  // how many are missing; 0 means 1
}

// Answer is a way to go on at the kiln.
type Answer struct {
	Says   string        `json:"says"`   // "Put one 5 on each of A, B and C"
	Detail string        `json:"detail"` // "3 × (100 + 10 + 5). Left 2 takes 103, 12 above the tall mug. ..."
	Was    string        `json:"was"`    // room to the lid before: "38"
	Now    string        `json:"now"`    // "33"
	Edits  []layout.Edit `json:"edits"`
	Set    int           `json:"set"` // pots that stand after it
}
