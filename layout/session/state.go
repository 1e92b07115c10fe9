package session

import (
	"threepost/geometry/plane"
	"threepost/layout"
)

// State is all that the page shows of the open load. It is made anew after
// every edit and never changed.
type State struct {
	Revision int    `json:"revision"` // counts edits, undos and redos
	Title    string `json:"title"`
	Name     string `json:"name"`   // what it was opened as
	Units    string `json:"units"`  // "mm" or "in"
	Words    string `json:"words"`  // "US" or "UK"
	Firing   string `json:"firing"` // "cone 6 (1222 C)"
	Stage    string `json:"stage"`
	Kiln     string `json:"kiln"`      // "Heron", or its size when it has no name
	KilnLine string `json:"kiln_line"` // "twelve-sided, 712 across, 686 high"
	Empty    bool   `json:"empty"`     // no tower stands yet

	Undo string `json:"undo"` // what undo takes back, empty when nothing
	Redo string `json:"redo"`

	Set  int     `json:"set"`
	Of   int     `json:"of"`
	Mass float64 `json:"mass"`      // kg of ware set
	Said string  `json:"mass_said"` // "41.1 kg of ware"
	Lid  *Room   `json:"lid"`       // the least room to the lid; nil when nothing stands

	Problems int       `json:"problems"`
	Watches  int       `json:"watches"`
	Accepted int       `json:"accepted"`
	Findings []Finding `json:"findings"`
	Head     string    `json:"head"` // "No problem", "2 problems"

	Sides   []Side  `json:"sides"`  // towers as the elevation has them
	Levels  []Level `json:"levels"` // of all towers, as in stacks.Built.Levels
	Pots    []Pot   `json:"pots"`   // as in stacks.Built.Pots, cone packs too
	Ware    []Row   `json:"ware"`
	Posts   []Post  `json:"posts"` // the box of posts, tallest first
	Shelf   []Shelf `json:"shelves"`
	Cones   []Cone  `json:"cones"`
	Rules   []Rule  `json:"rules"`
	Offer   *Offer  `json:"offer"`   // a plan that waits beside the load
	Ways    *Ways   `json:"ways"`    // what the last plan left to choose from
	Buying  *Bought `json:"buying"`  // what is worth buying next, once it was asked
	Refused string  `json:"refused"` // why the load cannot be built; then Levels and Pots are empty
}

// Room is a length that is left free, with its text.
type Room struct {
	MM   float64 `json:"mm"`
	Said string  `json:"said"` // "38 to lid"
}

// Finding is a finding with what the page adds: which rows and marks it touches.
type Finding struct {
	layout.Finding
	Word string   `json:"word"` // "4 mm, plan 6"
	Pots []string `json:"pots"` // ids of the pots it is about
	Bold string   `json:"bold"` // the part of the sentence that names the thing, at its start
}

// Side is a tower: a place of the kiln that is loaded by itself.
type Side struct {
	Tower  string `json:"tower"`
	Title  string `json:"title"`  // "Left side"
	Levels []int  `json:"levels"` // into State.Levels, from the bottom
	Lines  []Line `json:"lines"`
}

// Line is a line of posts with its letter.
type Line struct {
	Letter string    `json:"letter"`
	Number int       `json:"number"` // from 1 within the tower
	At     plane.Vec `json:"at"`
}

// Level is one storey.
type Level struct {
	Index    int      `json:"index"`
	Tower    string   `json:"tower"`
	Number   int      `json:"number"`
	Name     string   `json:"name"`      // "left 2", "the bottom"
	Title    string   `json:"title"`     // "Left 2"
	Takes    string   `json:"takes"`     // "takes 98"
	Room     *Room    `json:"room"`      // least room above what stands on it
	MakeUp   string   `json:"make_up"`   // of the posts that stand on it: "100+10"; empty on top
	Under    string   `json:"under"`     // of the posts under its shelf
	Mass     float64  `json:"mass"`      // kg of ware
	Share    float64  `json:"share"`     // of the ware's mass, 0..1
	MassSaid string   `json:"mass_said"` // "4.8 kg"
	Balance  *Balance `json:"balance"`
	Locked   bool     `json:"locked"`
	Standing bool     `json:"standing"`
	Pots     []int    `json:"pots"`  // into State.Pots
	Kinds    string   `json:"kinds"` // "14 mugs"
}

// Balance is how a level's load lies on its posts.
type Balance struct {
	Point plane.Vec `json:"point"` // mm, kiln's frame
	Posts []Load    `json:"posts"`
	Edge  float64   `json:"edge"` // how far the point lies inside the posts, mm; negative outside
	Said  string    `json:"said"` // "balance point 96 inside the posts"
}

// Load is the weight on one post.
type Load struct {
	Letter string    `json:"letter"`
	At     plane.Vec `json:"at"`
	Mass   float64   `json:"mass"` // kg
	Said   string    `json:"said"`
}

// Pot is a pot or cone pack that stands in the kiln.
type Pot struct {
	ID     string    `json:"id"`    // "mug 3": the name in file and edits
	Title  string    `json:"title"` // "Mug next to post A"
	Name   string    `json:"name"`  // "the mug next to post A"
	Ware   string    `json:"ware"`
	Size   string    `json:"size"` // "95 × 86"
	Owner  string    `json:"owner"`
	Ticket string    `json:"ticket"`
	Glaze  string    `json:"glaze"`
	Level  int       `json:"level"`
	At     plane.Vec `json:"at"`
	Turn   float64   `json:"turn"`
	Turns  bool      `json:"turns"` // turning changes something
	Locked bool      `json:"locked"`
	Cones  bool      `json:"cones"`
	Order  int       `json:"order"`  // its number in the order of setting on its level, from 1; 0: cannot be set
	Letter string    `json:"letter"` // of its kind
	Grade  string    `json:"grade"`  // the gravest finding about it: "", "note", "watch", "problem"
}

// Row is a row of the ware list.
type Row struct {
	Name    string   `json:"name"`
	Count   int      `json:"count"`
	Set     int      `json:"set"`
	Waits   int      `json:"waits"`
	WaitIDs []string `json:"wait_ids"` // pots that wait
	Size    string   `json:"size"`     // "95 × 86", height first
	Plain   string   `json:"plain"`    // the row in the short form, to be edited as text
	Fields  Fields   `json:"fields"`   // the cells of the table as a person types them
	Where   string   `json:"where"`    // "all on level 1", "24 set, 4 wait"
	Why     string   `json:"why"`      // why the rest waits, empty when none does
	Form    string   `json:"form"`     // silhouette
	Assumed string   `json:"assumed"`  // "foot and profile assumed", empty when all is given
	Marks   []string `json:"marks"`    // "must go", "runny", "filler"
}

// Fields are the cells of a row, as text in the person's units.
type Fields struct {
	Name   string   `json:"name"`
	Count  string   `json:"count"`
	Height string   `json:"height"`
	Across string   `json:"across"` // "86", or "260 × 160"
	Mass   string   `json:"mass"`
	Glaze  string   `json:"glaze"`
	Clay   string   `json:"clay"`
	Owner  string   `json:"owner"`
	Ticket string   `json:"ticket"`
	Since  string   `json:"since"`
	Must   string   `json:"must"`
	Form   string   `json:"form"`
	Foot   string   `json:"foot"`
	Flags  []string `json:"flags"`
	Stand  string   `json:"stand"`
}

// Post is a kind of post or spacer in the box.
type Post struct {
	Height float64 `json:"height"` // mm
	Said   string  `json:"said"`
	Name   string  `json:"name"`
	Owned  int     `json:"owned"`
	Used   int     `json:"used"`
	Spacer bool    `json:"spacer"`
}

// Shelf is a kind of shelf.
type Shelf struct {
	Name  string `json:"name"`
	Said  string `json:"said"` // "half round 660 × 327, 19 thick"
	Owned int    `json:"owned"`
	Used  int    `json:"used"`
}

// Cone is a cone pack of the load.
type Cone struct {
	Name    string `json:"name"`
	Said    string `json:"said"`
	Watched bool   `json:"watched"`
	Set     bool   `json:"set"`
}

// Rule is a rule with its figures and the reason for it.
type Rule struct {
	Name    string   `json:"name"`
	Problem string   `json:"problem"`
	Watch   string   `json:"watch"`
	Plan    string   `json:"plan"`
	Why     string   `json:"why"`
	Changed bool     `json:"changed"`
	Columns []string `json:"columns"` // those that mean something: "problem", "watch", "plan"
}

// Offer is a plan that came while the load was changed.
type Offer struct {
	Says string `json:"says"` // "The plan sets 88; 86 stand now."
	Set  int    `json:"set"`
}
