package session

import (
	"errors"
	"reflect"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/edit"
)

// mostSteps is how many steps undo keeps. Each shares with its neighbours all
// that did not change.
const mostSteps = 2000

// moment is a load that undo or redo goes to, and what lies between it and the
// load as it is now.
type moment struct {
	load *layout.Load
	what string
}

// Apply does edits as one thing that undo takes back. what names it: "move the
// mug next to post A"; empty: the edits are told. Whatever is in hand is put
// back first. It refuses with a sentence edits that have no meaning and those
// after which no document can say the load; it never refuses a tight gap.
func (s *Session) Apply(edits []layout.Edit, what string) (*State, error) {
	s.putBack()
	if len(edits) == 0 {
		return nil, errors.New("there is nothing to do")
	}
	next, err := s.after(edits)
	if err != nil {
		return nil, err
	}
	if what == "" {
		what = s.label(edits)
	}
	s.step(next, what)
	return s.State(), nil
}

// after is the load after edits, in the canonical form that its document has.
func (s *Session) after(edits []layout.Edit) (*layout.Load, error) {
	next, err := edit.Apply(s.now, edits...)
	if err != nil {
		return nil, err
	}
	plain := true
	for i := range edits {
		switch edits[i].Act {
		case layout.SetPot, layout.Withdraw, layout.SwapPots, layout.LockPot, layout.LockLevel:
		default:
			plain = false
		}
	}
	if plain {
		return next, nil
	}
	text, err := document.Update(s.text, next)
	if err != nil {
		return nil, bare(err)
	}
	next, err = document.Parse(s.name, text)
	return next, bare(err)
}

// bare is what complaints say, without their places in a text that nobody has
// seen.
func bare(err error) error {
	var all document.Complaints
	if !errors.As(err, &all) {
		return err
	}
	text := ""
	for i, c := range all {
		if i > 0 {
			text += "\n"
		}
		text += c.Sentence
	}
	return errors.New(text)
}

// step goes on to a load and remembers the way back.
func (s *Session) step(next *layout.Load, what string) {
	s.past = append(s.past, moment{s.now, what})
	if len(s.past) > mostSteps {
		s.past = append([]moment(nil), s.past[len(s.past)-mostSteps:]...)
	}
	s.future = nil
	s.become(next)
}

// become takes a load as the one that is open.
func (s *Session) become(next *layout.Load) {
	share(s.now, next)
	if s.waits != nil && !(sameSlice(s.now.Ware, next.Ware) && sameSlice(s.now.Towers, next.Towers)) {
		s.waits = nil
	}
	s.dropMends()
	s.now, s.seen = next, seen{}
	s.revision++
	s.held, s.lift, s.form = nil, nil, nil
}

// Undo takes the last thing back. Without one it refuses.
func (s *Session) Undo() (*State, error) {
	if s.putBack() {
		return s.State(), nil
	}
	n := len(s.past)
	if n == 0 {
		return nil, errors.New("there is nothing to take back")
	}
	m := s.past[n-1]
	s.past = s.past[:n-1]
	s.future = append(s.future, moment{s.now, m.what})
	s.become(m.load)
	return s.State(), nil
}

// Redo does again what undo took back.
func (s *Session) Redo() (*State, error) {
	s.putBack()
	n := len(s.future)
	if n == 0 {
		return nil, errors.New("there is nothing to do again")
	}
	m := s.future[n-1]
	s.future = s.future[:n-1]
	s.past = append(s.past, moment{s.now, m.what})
	s.become(m.load)
	return s.State(), nil
}

// share lets a new load use the parts of an old one that are equal, so that a
// long history costs only what changed. Neither is changed in meaning: loads
// are never written to once they stand in a session.
func share(old, next *layout.Load) {
	if old == next {
		return
	}
	shareSlice(&old.Ware, &next.Ware)
	shareSlice(&old.Cones, &next.Cones)
	shareSlice(&old.Accepted, &next.Accepted)
	shareSlice(&old.Kiln.Probes, &next.Kiln.Probes)
	shareSlice(&old.Kiln.Spyholes, &next.Kiln.Spyholes)
	shareSlice(&old.Furniture.Shelves, &next.Furniture.Shelves)
	shareSlice(&old.Furniture.Posts, &next.Furniture.Posts)
	shareSlice(&old.Furniture.Cookies, &next.Furniture.Cookies)
	shareSlice(&old.Furniture.Stilts, &next.Furniture.Stilts)
	shareSlice(&old.Wishes.LeaveOut, &next.Wishes.LeaveOut)
	shareSlice(&old.Wishes.Together, &next.Wishes.Together)
	shareSlice(&old.Wishes.Apart, &next.Wishes.Apart)
	shareSlice(&old.Wishes.Off, &next.Wishes.Off)
	if reflect.DeepEqual(old.Rules, next.Rules) {
		next.Rules = old.Rules
	}
	shareSlice(&old.Towers, &next.Towers)
	if sameSlice(old.Towers, next.Towers) {
		return
	}
	for i := range next.Towers {
		t := &next.Towers[i]
		was := old.Tower(t.Name)
		if was == nil {
			continue
		}
		shareSlice(&was.On, &t.On)
		shareSlice(&was.Lines, &t.Lines)
		shareSlice(&was.Levels, &t.Levels)
		if sameSlice(was.Levels, t.Levels) {
			continue
		}
		for k := 0; k < len(t.Levels) && k < len(was.Levels); k++ {
			shareSlice(&was.Levels[k].Shelves, &t.Levels[k].Shelves)
			shareSlice(&was.Levels[k].Posts, &t.Levels[k].Posts)
			shareSlice(&was.Levels[k].Set, &t.Levels[k].Set)
		}
	}
}

// shareSlice makes *next the slice *old when they are equal.
func shareSlice[T any](old, next *[]T) {
	if len(*old) == len(*next) && reflect.DeepEqual(*old, *next) {
		*next = *old
	}
}

// sameSlice tells whether two slices are one.
func sameSlice[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// putBack puts what is in hand back where it was; it tells whether there was
// anything.
func (s *Session) putBack() bool {
	had := s.held != nil || s.lift != nil
	s.held, s.lift = nil, nil
	return had
}

// Cancel puts whatever is in hand back where it was.
func (s *Session) Cancel() *State {
	s.putBack()
	return s.State()
}
