package kilnside

// Steps is the whole way through a load.
type Steps struct {
	Title     string    `json:"title"`
	Kiln      string    `json:"kiln"`
	Units     string    `json:"units"` // "mm" or "in": what typed figures are read as
	Lid       string    `json:"lid"`   // "lid", or "ceiling" of a front-loader
	Set       int       `json:"set"`   // pots that stand in the end, cone packs not counted
	Levels    []Level   `json:"levels"`
	Steps     []Step    `json:"steps"`
	Elevation Picture   `json:"elevation"`
	Pictures  []Picture `json:"pictures"`
	Words     Words     `json:"words"`
}

// Level is a place of the kiln that steps happen on.
type Level struct {
	ID    string `json:"id"`    // "left side:2", as in the ids of marks
	Title string `json:"title"` // "Left 2"
	Steps int    `json:"steps"`
}

// Words are what the page itself says, in the person's trade words.
type Words struct {
	Post  string `json:"post"`  // "post"
	Posts string `json:"posts"` // "posts"
	Shelf string `json:"shelf"` // "shelf"
}

// Kind is what a step is about.
type Kind string

// The kinds of steps.
const (
	Ready Kind = "ready" // before anything is carried
	Fetch Kind = "fetch" // bring furniture to the kiln
	Posts Kind = "posts" // set posts
	Shelf Kind = "shelf" // lay a shelf, and where it has to lie
	Pots  Kind = "pots"  // set pots
	Cones Kind = "cones" // set a cone pack
	Stick Kind = "stick" // prove the height with a rod over the posts
	Photo Kind = "photo" // remember how it stands
	Lid   Kind = "lid"   // prove the room to the lid
	Leave Kind = "leave" // take the paper off
)

// Step is one act.
type Step struct {
	N     int    `json:"n"` // from 1
	Kind  Kind   `json:"kind"`
	Level int    `json:"level"` // into Steps.Levels; -1: none
	K     int    `json:"k"`     // step K of M at this place
	M     int    `json:"m"`
	Title string `json:"title"`
	Says  []Part `json:"says"`
	Rows  []Row  `json:"rows,omitempty"` // of a fetch list
	Each  []Each `json:"each,omitempty"` // pot by pot, for who wants to know or hears the page
	// Picture is into Steps.Pictures; -1: none. View is the part of it that
	// matters: x, y, width, height.
	Picture int        `json:"picture"`
	View    [4]float64 `json:"view"`
	Now     []string   `json:"now,omitempty"` // ids of the marks this step is about
	Name    string     `json:"name"`          // "8 mugs in the middle", inside a sentence
	Next    string     `json:"next"`          // "then 8 mugs in the middle"
	Room    Room       `json:"room"`
	// Ticks are the names of what is done when the step is: one for each
	// thing, alike for the same thing in the same place, so that a changed
	// load keeps the ticks of what it did not change.
	Ticks []string `json:"ticks"`
	Pots  []string `json:"pots,omitempty"`  // "mug 3", in order of setting
	Acts  []int    `json:"acts,omitempty"`  // into Order.Acts
	Ask   []Asked  `json:"ask,omitempty"`   // pots that may not fit
	Posts []Piece  `json:"posts,omitempty"` // pieces that may be missing
	Ahead []Ahead  `json:"ahead,omitempty"` // answers worked out ahead, in a saved file

	things []thing
}

// thing is something that stands once a step is done: what it is and where,
// whatever it is called, and its tick.
type thing struct{ where, tick string }

// Part is a piece of a sentence; bold where the eye should land.
type Part struct {
	Text string `json:"text"`
	Bold bool   `json:"bold,omitempty"`
}

// Row is a row of a fetch list.
type Row struct {
	Count string `json:"count"` // "9"
	What  string `json:"what"`  // "posts 100"
}

// Each is where one pot of a step goes.
type Each struct {
	ID   string `json:"id"`   // of its mark
	N    string `json:"n"`    // its order number on the level
	Says string `json:"says"` // "between 2 and post B, a pencil from each"
}

// Room is what is left to the lid over a place.
type Room struct {
	MM   float64 `json:"mm"`
	Said string  `json:"said"` // "38"
}

// Asked is a pot that a step can ask about.
type Asked struct {
	Pot   string `json:"pot"`   // "mug 3"
	N     string `json:"n"`     // its order number
	Name  string `json:"name"`  // "Mug 3", by order number
	Which string `json:"which"` // "A mug", when it needs no number
}

// Piece is a kind of post that may be missing.
type Piece struct {
	Height float64 `json:"height"` // mm
	Name   string  `json:"name,omitempty"`
	Said   string  `json:"said"` // "100"
}
