package planner

import (
	"threepost/layout"
	"threepost/layout/stacks"
)

// Standing is how good the best plan of a search is, to be compared with that
// of another search of the same load. The zero value is no plan at all.
type Standing struct{ candidate *candidate }

// Standing is that of the best plan so far. It costs nothing, unlike Best, and
// stays equal until the search finds a better one.
func (s *Search) Standing() Standing { return Standing{s.best} }

// Beats orders plans as one search does: the pots that must go, then no watch,
// then value, then little furniture. No plan beats none.
func (a Standing) Beats(b Standing) bool {
	switch {
	case a.candidate == nil:
		return false
	case b.candidate == nil:
		return true
	}
	return a.candidate.beats(b.candidate)
}

// AllSet says whether every pot of the load has its place in the best plan.
func (s *Search) AllSet() bool { return s.best != nil && s.allSet() }

// StartWaiting begins a search for places for what waits alone: every shelf,
// post and pot that stands stays where it is, locked or not. It refuses an
// arrangement that cannot stand up. A load without towers is planned as by
// Start.
func StartWaiting(l *layout.Load, seed uint64) (*Search, error) {
	if len(l.Towers) == 0 {
		return Start(l, seed)
	}
	c, err := newContext(l.Clone())
	if err != nil {
		return nil, err
	}
	b, err := stacks.Build(c.load)
	if err != nil {
		return nil, err
	}
	s := newSearch(c, seed)
	all := frameOf(c, b, func(*layout.Level, *layout.Placement) bool { return true })
	s.tasks = append(s.tasks, func() { s.refill(all) })
	return s, nil
}
