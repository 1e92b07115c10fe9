package session

import (
	"errors"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
)

var errPending = errors.New("this is not built yet")

// State is the load as the page shows it.
func (s *Session) State() *State { return &State{} }

// Apply does edits as one thing that undo takes back. what names it: "move the
// mug next to post A"; empty: the edits are told.
func (s *Session) Apply(edits []layout.Edit, what string) (*State, error) { return nil, errPending }

// Undo takes the last thing back. Without one it refuses.
func (s *Session) Undo() (*State, error) { return nil, errPending }

// Redo does again what undo took back.
func (s *Session) Redo() (*State, error) { return nil, errPending }

// SetWords chooses US or UK trade words.
func (s *Session) SetWords(w measure.Words) *State { return nil }

// SetUnits chooses how lengths are shown and read: an edit.
func (s *Session) SetUnits(u string) (*State, error) { return nil, errPending }

// Try tells what edits would make of the load.
func (s *Session) Try(edits []layout.Edit) (*Ghost, error) { return nil, errPending }

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

// Cancel puts whatever is in hand back where it was.
func (s *Session) Cancel() *State { return nil }

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

// Find looks for a pot, glaze, owner or ticket.
func (s *Session) Find(text string) Found { return Found{} }

// Offer takes a plan's arrangement: adopted as one edit when base is the
// revision, else kept beside the load.
func (s *Session) Offer(base int, e layout.Edit, says string) (*State, error) { return nil, errPending }

// Take adopts the plan that is kept beside the load.
func (s *Session) Take() (*State, error) { return nil, errPending }

// Leave drops it.
func (s *Session) Leave() *State { return nil }

// Waits keeps why ware waits, as a planner told it for this arrangement.
func (s *Session) Waits(waits []Wait) *State { return nil }

// Accept lets a watch stand with a reason.
func (s *Session) Accept(finding, reason string) (*State, error) { return nil, errPending }

// Mends are the ways out of a finding; worked out once a revision.
func (s *Session) Mends(finding string) []layout.Mend { return nil }

// Colours tells the set pots apart: "owner", "glaze", "mass", "finding".
func (s *Session) Colours(by string) []ColourKey { return nil }

// Spread is the job of drawing a level's pots (from 1) evenly apart.
func (s *Session) Spread(tower string, level int) (*Job, error) { return nil, errPending }

// RoomForOne is the job of finding a place for one more pot: of a row, or of a
// size in the short form.
func (s *Session) RoomForOne(text string) (*Job, error) { return nil, errPending }

// MendAll is the job of working out the mends of all findings, gravest first.
func (s *Session) MendAll() *Job { return nil }

// Job is work done in slices.
type Job struct{}

// Step does about that many units of work more; true when the job is done.
func (j *Job) Step(work int64) bool { return true }

// Stop ends a job early.
func (j *Job) Stop() {}

// Done is whether the job is done.
func (j *Job) Done() bool { return true }

// Says tells what came of it.
func (j *Job) Says() string { return "" }

// Progress is how far it is, 0 to 1.
func (j *Job) Progress() float64 { return 0 }

// Edits are what it found to do, checked; none when there is nothing to do.
func (j *Job) Edits() []layout.Edit { return nil }

// Fit looks for a way to go on at the kiln when something does not fit.
// standing is how many acts of the order are done: what stands stays.
func (s *Session) Fit(c Change, standing int) (*Fitting, error) { return nil, errPending }

// Fitting looks for answers one after another.
type Fitting struct{}

// Next is the next answer; false when there is none.
func (f *Fitting) Next() (Answer, bool) { return Answer{}, false }

// Setup is all that is asked once, as texts.
type Setup struct{}
