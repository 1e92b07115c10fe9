package session

import (
	"errors"

	"threepost/layout"
)

// offered is a plan that waits beside the load.
type offered struct {
	edit layout.Edit
	says string
	set  int
}

// Offer takes a plan's arrangement: adopted as one edit when base is the
// revision it was made for, else kept beside the load until Take or Leave.
func (s *Session) Offer(base int, e layout.Edit, says string) (*State, error) {
	if e.Act != layout.Arrange {
		return nil, errors.New("a plan is an arrangement of the whole kiln")
	}
	next, err := s.after([]layout.Edit{e})
	if err != nil {
		return nil, err
	}
	if base == s.revision && s.held == nil && s.lift == nil {
		s.offer = nil
		s.step(next, "plan the load")
		return s.State(), nil
	}
	set, _ := countPots(next)
	s.offer = &offered{edit: e, says: says, set: set}
	s.seen.state = nil
	return s.State(), nil
}

// Take adopts the plan that is kept beside the load.
func (s *Session) Take() (*State, error) {
	if s.offer == nil {
		return nil, errors.New("no plan waits beside the load")
	}
	s.putBack()
	next, err := s.after([]layout.Edit{s.offer.edit})
	if err != nil {
		return nil, err
	}
	s.offer = nil
	s.step(next, "take the plan")
	return s.State(), nil
}

// Leave drops the plan that is kept beside the load.
func (s *Session) Leave() *State {
	s.offer, s.seen.state = nil, nil
	return s.State()
}
