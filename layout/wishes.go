package layout

// TallWare says where tall pots go when there is a choice.
type TallWare string

// Good practice differs on tall ware, so it stays a choice.
const (
	TallAnywhere TallWare = ""
	TallLow      TallWare = "low"
	TallHigh     TallWare = "high"
)

// Wishes is what the person asks of a plan.
type Wishes struct {
	Tall      TallWare    `json:"tall,omitempty"`
	Inset     float64     `json:"inset,omitempty"`      // shelf's edge to the middle of a post, mm; 0 means the rule's plan figure
	RoomAbove float64     `json:"room_above,omitempty"` // least room under each shelf, mm; 0 means the rule's plan figure
	LeaveOut  []string    `json:"leave_out,omitempty"`  // ware rows that stay on the table
	Towers    TowerChoice `json:"towers,omitempty"`
}

// TowerChoice limits how the planner may divide the kiln.
type TowerChoice string

// How a kiln may be divided; AnyTowers lets the planner choose.
const (
	AnyTowers  TowerChoice = ""
	OneTower   TowerChoice = "one"
	HalfTowers TowerChoice = "halves"
)

// Clone copies the wishes.
func (w Wishes) Clone() Wishes {
	w.LeaveOut = append([]string(nil), w.LeaveOut...)
	return w
}
