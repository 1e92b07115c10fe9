package session

import (
	"errors"
	"fmt"
	"math"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/stacks"
)

// held is a pot in hand: the load as if it stood on the level it is over.
type held struct {
	pot   layout.Pot
	name  string // "the mug next to post B"
	level int    // into built.Levels; -1 while it is over none
	index int    // into built.Pots
	at    plane.Vec
	turn  float64
	from  *standing // where it stands in the load; nil: on the table
	nth   int       // its order number where it stands
	built *stacks.Built
	check *clearance.Checker
	solid solid.Placed // as it is held
}

// Hold takes a pot in hand: one that stands ("mug 3"), one that waits, or the
// next of a row that waits ("mug"). A pot from the table is over no level until
// Over says which. Whatever was in hand is put back first.
func (s *Session) Hold(pot string) (*Held, error) {
	s.putBack()
	b, refused := s.Built()
	if b == nil {
		return nil, errors.New(refused)
	}
	p, err := s.potToHold(pot)
	if err != nil {
		return nil, err
	}
	h := &held{pot: p, level: -1, index: s.potIndex(p.String()), name: "the " + p.Ware}
	if h.index >= 0 {
		q := &b.Pots[h.index]
		if q.Level < 0 {
			return nil, fmt.Errorf("%s stands on no level", p)
		}
		was := standingOf(b, h.index)
		h.from, h.level, h.at, h.turn = &was, q.Level, q.At, q.Turn
		h.built, h.check, h.name, h.nth = b, s.Checker(), s.Checker().Name(h.index), s.Order().Number(h.index)
		h.solid = q.Solid.Clone()
	}
	s.held = h
	return s.tellHeld(), nil
}

// potToHold is the pot a name means; of a row, the first that waits.
func (s *Session) potToHold(name string) (layout.Pot, error) {
	p, err := s.now.Find(name)
	if err == nil {
		return p, nil
	}
	w := s.now.WareOf(layout.Pot{Ware: name})
	if w == nil {
		return p, err
	}
	for _, q := range w.Pots() {
		if !s.stands(q.String()) {
			return q, nil
		}
	}
	return p, fmt.Errorf("all %d of %q are set; say which one, like \"%s 1\"", w.Count, name, name)
}

// Holding is the pot in hand, or nil.
func (s *Session) Holding() *Held {
	if s.held == nil {
		return nil
	}
	return s.tellHeld()
}

// Over carries the held pot to a level of a tower (from 1), where it keeps its
// place in plan.
func (s *Session) Over(tower string, level int) (*Held, error) {
	h := s.held
	if h == nil {
		return nil, errors.New("no pot is in hand")
	}
	to := s.levelIndex(tower, level)
	if to < 0 {
		return nil, fmt.Errorf("there is no level %d of %q", level, tower)
	}
	if h.level == to {
		return s.tellHeld(), nil
	}
	if h.from != nil && h.from.tower == tower && h.from.number == level {
		b, _ := s.Built()
		h.built, h.check, h.level, h.index = b, s.Checker(), to, s.potIndex(h.pot.String())
		h.solid = b.Pots[h.index].Solid.Clone()
		return s.tellHeld(), nil
	}
	at, turn := h.at, h.turn
	next, err := edit.Apply(s.now, layout.Edit{Act: layout.SetPot, Pot: h.pot.String(), Tower: tower, Level: level, At: &at, Turn: &turn})
	if err != nil {
		return nil, err
	}
	b, err := stacks.Build(next)
	if err != nil {
		return nil, err
	}
	for i := range b.Pots {
		if b.Pots[i].Pot == h.pot {
			h.built, h.check, h.level, h.index = b, clearance.New(b), to, i
			h.solid = b.Pots[i].Solid.Clone()
		}
	}
	return s.tellHeld(), nil
}

// Move moves the held pot to a place on the level it is over, mm, on the grid
// of 0.1 mm.
func (s *Session) Move(at plane.Vec) (*Held, error) {
	h := s.held
	switch {
	case h == nil:
		return nil, errors.New("no pot is in hand")
	case !(math.Abs(at[0]) <= farthest && math.Abs(at[1]) <= farthest):
		return nil, errors.New("that is not a place in the kiln")
	}
	h.at = plane.Vec{clearance.Round(at[0]), clearance.Round(at[1])}
	return s.tellHeld(), nil
}

// farthest is how far from the kiln's middle a place may lie, mm.
const farthest = 1e5

// Nudge moves the held pot by mm and turns it by degrees clockwise.
func (s *Session) Nudge(dx, dy, turn float64) (*Held, error) {
	h := s.held
	if h == nil {
		return nil, errors.New("no pot is in hand")
	}
	if !(math.Abs(turn) <= farthest) {
		return nil, errors.New("that is not an angle; give degrees clockwise")
	}
	was := h.turn
	h.turn = plane.NormalTurn(clearance.Round(plane.NormalTurn(h.turn + turn)))
	out, err := s.Move(plane.Vec{h.at[0] + dx, h.at[1] + dy})
	if err != nil {
		h.turn = was
	}
	return out, err
}

// Drop sets the held pot down where it is, or on the ring when snap and there
// is one: one edit. Set down where it stood it changes nothing.
func (s *Session) Drop(snap bool) (*State, error) {
	h := s.held
	if h == nil {
		return nil, errors.New("no pot is in hand")
	}
	if h.level < 0 {
		return nil, errors.New("carry it over a level first, or put it back")
	}
	at, turn := h.at, h.turn
	if snap {
		if ring := s.ring(h, s.watch(h)); ring != nil {
			at = *ring
		}
	}
	v := &h.built.Levels[h.level]
	tower := h.built.Towers[v.Tower].Name
	if h.from != nil && *h.from == (standing{tower, v.Number, at, turn}) {
		s.putBack()
		return s.State(), nil
	}
	what := "move " + h.name
	if h.from == nil {
		what = "set " + article(h.pot.Ware) + " on " + h.check.LevelName(h.level)
	}
	return s.Apply([]layout.Edit{{Act: layout.SetPot, Pot: h.pot.String(), Tower: tower, Level: v.Number, At: &at, Turn: &turn}}, what)
}

// article is "a mug", "an oval baker".
func article(name string) string {
	if name != "" {
		switch name[0] {
		case 'a', 'e', 'i', 'o', 'u', 'A', 'E', 'I', 'O', 'U':
			return "an " + name
		}
	}
	return "a " + name
}

// watch is what is near the held pot, the closest to its plan figure first.
func (s *Session) watch(h *held) []clearance.Near { return h.check.Watch(h.index, h.at, h.turn) }

// snapReach is how far a ring may lie from the held pot, mm: a hand's breadth.
const snapReach = 100

// ring is the nearest place that clears, when the held pot does not where it
// is.
func (s *Session) ring(h *held, nears []clearance.Near) *plane.Vec {
	for i := range nears {
		if nears[i].Clear {
			continue
		}
		to, ok := h.check.SnapTo(h.index, h.at, h.turn, snapReach, clearance.AskPlan)
		if !ok || to == h.at {
			return nil
		}
		return &to
	}
	return nil
}
