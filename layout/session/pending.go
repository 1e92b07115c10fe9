package session

import (
	"errors"
)

var errPending = errors.New("this is not built yet")

// ShelfChoices are the ways to add or remove a shelf, each checked.
func (s *Session) ShelfChoices() []Choice { return nil }

// SideChoices are the ways to add or remove a side.
func (s *Session) SideChoices() []Choice { return nil }

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
