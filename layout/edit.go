package layout

import (
	"threepost/geometry/plane"
	"threepost/layout/measure"
)

// Act names what an edit does.
type Act string

// The acts of an edit, with the fields of Edit that each reads.
const (
	SetPot      Act = "set pot"      // Pot, Tower, Level, At, Turn: set it there, or move it there
	Withdraw    Act = "withdraw"     // Pot: back to the table
	SwapPots    Act = "swap pots"    // Pot, Other: each where the other stood
	LockPot     Act = "lock pot"     // Pot, On
	LockLevel   Act = "lock level"   // Tower, Level, On
	SetPosts    Act = "set posts"    // Tower, Level, Posts
	MoveLine    Act = "move line"    // Tower, Line (from 1), At
	AddLevel    Act = "add level"    // Tower, Level (where it goes), NewLevel
	RemoveLevel Act = "remove level" // Tower, Level; its pots go back to the table
	SwapLevels  Act = "swap levels"  // Tower, Level, OtherLevel: pots and the posts over them change places
	MoveShelf   Act = "move shelf"   // Tower, Level, Shelf (from 1), At, Turn
	Arrange     Act = "arrange"      // Towers: the whole arrangement at once
	Accept      Act = "accept"       // Finding, Reason
	SetWare     Act = "set ware"     // Ware: add the row, or replace the row of that name; Other: the name it had, when it gets another
	RemoveWare  Act = "remove ware"  // Other: the row's name
	SetRule     Act = "set rule"     // Rule, Limits

	SetKiln      Act = "set kiln"      // Kiln
	SetFurniture Act = "set furniture" // Furniture; posts and shelves that no longer exist are refused while they are used
	SetFiring    Act = "set firing"    // Firing
	SetCones     Act = "set cones"     // Cones: all packs; those that are gone leave their places
	SetWishes    Act = "set wishes"    // Wishes
	SetTitle     Act = "set title"     // Title
	SetUnits     Act = "set units"     // Units
)

// Edit is a change to a load as data: it can be stored, sent, undone.
type Edit struct {
	Act        Act        `json:"act"`
	Pot        string     `json:"pot,omitempty"`
	Other      string     `json:"other,omitempty"`
	Tower      string     `json:"tower,omitempty"`
	Level      int        `json:"level,omitempty"`
	OtherLevel int        `json:"other_level,omitempty"`
	Line       int        `json:"line,omitempty"`
	Shelf      int        `json:"shelf,omitempty"`
	At         *plane.Vec `json:"at,omitempty"`
	Turn       *float64   `json:"turn,omitempty"`
	Posts      []MakeUp   `json:"posts,omitempty"`
	NewLevel   *Level     `json:"new_level,omitempty"`
	Towers     []Tower    `json:"towers,omitempty"`
	Ware       *Ware      `json:"ware,omitempty"`
	Finding    string     `json:"finding,omitempty"`
	Reason     string     `json:"reason,omitempty"`
	Rule       RuleName   `json:"rule,omitempty"`
	Limits     *Limits    `json:"limits,omitempty"`
	On         bool       `json:"on,omitempty"`

	Kiln      *Kiln         `json:"kiln,omitempty"`
	Furniture *Furniture    `json:"furniture,omitempty"`
	Firing    *Firing       `json:"firing,omitempty"`
	Cones     []ConePack    `json:"cones,omitempty"`
	Wishes    *Wishes       `json:"wishes,omitempty"`
	Title     string        `json:"title,omitempty"`
	Units     measure.Units `json:"units,omitempty"`
}
