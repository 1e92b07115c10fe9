package session

import (
	"errors"

	"threepost/geometry/plane"
)

var errPending = errors.New("this is not built yet")

// Select tells all about one thing.
func (s *Session) Select(p Pick) (*Chosen, error) { return nil, errPending }

// Hold takes a pot in hand: one that stands ("mug 3"), one that waits, or the
// next of a row that waits ("mug").
func (s *Session) Hold(pot string) (*Held, error) { return nil, errPending }

// Move moves the held pot to a place on the level it is over, mm.
func (s *Session) Move(at plane.Vec) (*Held, error) { return nil, errPending }

// Nudge moves and turns the held pot by mm and degrees.
func (s *Session) Nudge(dx, dy, turn float64) (*Held, error) { return nil, errPending }

// Over carries the held pot to another level (from 1), where it keeps its place.
func (s *Session) Over(tower string, level int) (*Held, error) { return nil, errPending }

// Holding is the pot in hand, or nil.
func (s *Session) Holding() *Held { return nil }

// Drop sets the held pot down, on the ring when snap and there is one: one edit.
func (s *Session) Drop(snap bool) (*State, error) { return nil, errPending }

// Lift takes the shelf of a level (from 1) in hand.
func (s *Session) Lift(tower string, level int) (*Lifted, error) { return nil, errPending }

// Stop moves the lifted shelf to a stop.
func (s *Session) Stop(index int) (*Lifted, error) { return nil, errPending }

// StopNear moves the lifted shelf to the stop whose posts are nearest to a
// height, mm.
func (s *Session) StopNear(height float64) (*Lifted, error) { return nil, errPending }

// Put leaves the lifted shelf at its stop: one edit.
func (s *Session) Put() (*State, error) { return nil, errPending }

// ShelfChoices are the ways to add or remove a shelf, each checked.
func (s *Session) ShelfChoices() []Choice { return nil }

// SideChoices are the ways to add or remove a side.
func (s *Session) SideChoices() []Choice { return nil }

// Rows reads rows of ware as people type and paste them.
func (s *Session) Rows(text string) Rows { return Rows{} }

// Row changes a row by the cells of the table.
func (s *Session) Row(name string, f Fields) (*State, error) { return nil, errPending }

// Count changes how many pots a row has.
func (s *Session) Count(name string, count int) (*State, error) { return nil, errPending }

// Duplicate adds a row like another under a free name.
func (s *Session) Duplicate(name string) (*State, error) { return nil, errPending }

// Remove takes a row off the list.
func (s *Session) Remove(name string) (*State, error) { return nil, errPending }

// CSV is the ware list as a spreadsheet reads it.
func (s *Session) CSV() string { return "" }

// Profile opens the profile of a row.
func (s *Session) Profile(ware string) (*Form, error) { return nil, errPending }

// Knot moves a point of the open profile, mm.
func (s *Session) Knot(index int, height, diameter float64) (*Form, error) { return nil, errPending }

// Measure sets the open profile's "height", "across" or "foot" by text.
func (s *Session) Measure(what, text string) (*Form, error) { return nil, errPending }

// Keep writes the open profile into its row: one edit.
func (s *Session) Keep() (*State, error) { return nil, errPending }

// Setup is the kiln, furniture, firing, cones, rules and wishes as texts.
func (s *Session) Setup() *Setup { return nil }

// SetUp changes a part of the setup by its fields as JSON: "kiln",
// "furniture", "firing", "cones", "rule", "wishes", "title", "units".
func (s *Session) SetUp(part string, fields []byte) (*State, error) { return nil, errPending }

// Spread is the job of drawing a level's pots (from 1) evenly apart.
func (s *Session) Spread(tower string, level int) (*Job, error) { return nil, errPending }

// RoomForOne is the job of finding a place for one more pot: of a row, or of a
// size in the short form.
func (s *Session) RoomForOne(text string) (*Job, error) { return nil, errPending }

// Fit looks for a way to go on at the kiln when something does not fit.
// standing is how many acts of the order are done: what stands stays.
func (s *Session) Fit(c Change, standing int) (*Fitting, error) { return nil, errPending }

// Fitting looks for answers one after another.
type Fitting struct{}

// Next is the next answer; false when there is none.
func (f *Fitting) Next() (Answer, bool) { return Answer{}, false }

// Setup is all that is asked once, as texts.
type Setup struct{}
