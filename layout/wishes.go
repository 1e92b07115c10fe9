package layout

import (
	"slices"
	"strconv"
)

// TallWare says where tall pots go when there is a choice.
type TallWare string

// Good practice differs on tall ware, so it stays a choice.
const (
	TallAnywhere  TallWare = ""
	TallLow       TallWare = "low"
	TallHigh      TallWare = "high"
	TallAlternate TallWare = "alternate" // tall and short levels take turns
)

// Wishes is what the person asks of a plan.
type Wishes struct {
	Tall      TallWare    `json:"tall,omitempty"`
	Inset     float64     `json:"inset,omitempty"`      // shelf's edge to the middle of a post, mm; 0 means the rule's plan figure
	RoomAbove float64     `json:"room_above,omitempty"` // least room under each shelf, mm; 0 means the rule's plan figure
	LeaveOut  []string    `json:"leave_out,omitempty"`  // ware rows that stay on the table
	Towers    TowerChoice `json:"towers,omitempty"`
	Stagger   bool        `json:"stagger,omitempty"`  // shelves of towers side by side lie at different heights
	Together  []string    `json:"together,omitempty"` // owners whose pots stand on one level, or on as few as hold them
	Apart     []string    `json:"apart,omitempty"`    // owners whose pots share no level with anyone else's
	Off       []OffLevel  `json:"off,omitempty"`
}

// OffLevel keeps a row of ware off a level.
type OffLevel struct {
	Ware  string   `json:"ware"`
	Level LevelRef `json:"level"`
}

// LevelRef is a level by its place: "bottom", the lowest of every tower on the
// floor; "top", those under the lid; or "2", the second up from the floor.
type LevelRef string

// The levels that have names.
const (
	BottomLevel LevelRef = "bottom"
	TopLevel    LevelRef = "top"
)

// Number is a level counted from 1 at the floor, or 0 for one that has a name
// and for what is no level.
func (r LevelRef) Number() int {
	n, err := strconv.Atoi(string(r))
	if err != nil || n < 1 || n > maxLevelRef || strconv.Itoa(n) != string(r) {
		return 0
	}
	return n
}

// maxLevelRef is more levels than a kiln has.
const maxLevelRef = 64

// Known says whether it is a level at all.
func (r LevelRef) Known() bool {
	return r == BottomLevel || r == TopLevel || r.Number() > 0
}

// Is says whether the n-th level up from the floor, from 1, is meant; top tells
// that it lies under the lid.
func (r LevelRef) Is(n int, top bool) bool {
	switch r {
	case BottomLevel:
		return n == 1
	case TopLevel:
		return top
	}
	return n == r.Number()
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
	w.Together = append([]string(nil), w.Together...)
	w.Apart = append([]string(nil), w.Apart...)
	w.Off = append([]OffLevel(nil), w.Off...)
	return w
}

// Of is the wishes without what they say of rows and owners that a list of ware
// does not have.
func (w Wishes) Of(list []Ware) Wishes {
	rows, owners := map[string]bool{}, map[string]bool{}
	for i := range list {
		rows[list[i].Name] = true
		owners[list[i].Owner] = true
	}
	noRow := func(name string) bool { return !rows[name] }
	noOwner := func(name string) bool { return !owners[name] }
	w = w.Clone()
	w.LeaveOut = slices.DeleteFunc(w.LeaveOut, noRow)
	w.Together = slices.DeleteFunc(w.Together, noOwner)
	w.Apart = slices.DeleteFunc(w.Apart, noOwner)
	w.Off = slices.DeleteFunc(w.Off, func(o OffLevel) bool { return noRow(o.Ware) })
	return w
}
