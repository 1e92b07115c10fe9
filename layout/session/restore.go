package session

import (
	"errors"
	"reflect"

	"threepost/layout/document"
)

// Restore takes the load of another text, such as an earlier version, in place
// of the one that is open: one thing that undo takes back. What is said of it
// is what. It refuses, with document.Complaints, a text that cannot be read.
func (s *Session) Restore(text, what string) (*State, error) {
	next, err := document.Parse(s.name, []byte(text))
	if err != nil {
		return nil, err
	}
	s.putBack()
	if reflect.DeepEqual(s.now, next) {
		return nil, errors.New("the load is like that already")
	}
	if what == "" {
		what = "bring back an earlier version"
	}
	s.step(next, what)
	return s.State(), nil
}
