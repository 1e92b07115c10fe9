package session

import (
	"errors"
)

var errPending = errors.New("this is not built yet")

// ShelfChoices are the ways to add or remove a shelf, each checked.
func (s *Session) ShelfChoices() []Choice { return nil }

// SideChoices are the ways to add or remove a side.
func (s *Session) SideChoices() []Choice { return nil }

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
