package session

import (
	"slices"

	"threepost/layout"
	"threepost/layout/measure"
)

// SetWords chooses US or UK trade words. It is a choice of the person, not of
// the load, and no edit.
func (s *Session) SetWords(w measure.Words) *State {
	s.words, s.seen.state = w, nil
	return s.State()
}

// SetUnits chooses how lengths are shown and read, "mm" or "in": an edit.
func (s *Session) SetUnits(u string) (*State, error) {
	in, err := measure.ParseUnits(u)
	if err != nil {
		return nil, err
	}
	return s.Apply([]layout.Edit{{Act: layout.SetUnits, Units: in}}, "")
}

// sortWords sorts letters and names in place.
func sortWords(words []string) { slices.Sort(words) }
