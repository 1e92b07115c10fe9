package statics

import "threepost/layout/stacks"

// EventKind is what a hand puts in.
type EventKind int

// The kinds of events while loading.
const (
	SetPost EventKind = iota
	SetShelf
	SetPot
)

// Event is one piece put in: Index is into Built.Posts, Shelves or Pots.
type Event struct {
	Kind  EventKind
	Index int
}

// Moment is a state of a shelf while the kiln is loaded.
type Moment struct {
	Shelf  int     // into Built.Shelves
	After  Event   // the piece that had just been put in
	Step   int     // its place in the events, from 0; -1: there was no such moment
	Margin float64 // of the balance point inside the shelf's posts, mm
	Tips   bool
}

// worse tells whether m is a worse moment than old.
func (m Moment) worse(old Moment) bool {
	if old.Step < 0 || m.Tips != old.Tips {
		return old.Step < 0 || m.Tips
	}
	return m.Margin < old.Margin-1e-9
}

// WhileLoading puts the events in, one by one, and gives for every shelf (as
// Built.Shelves) its worst moment: the one with the least margin, the earliest
// of equals. A piece high up may unbalance any shelf below it. A shelf that
// never goes in has Step -1. Events that name no piece are passed over.
func WhileLoading(b *stacks.Built, events []Event) []Moment {
	p := newPile(footings(b))
	out := make([]Moment, len(b.Shelves))
	for i := range out {
		out[i] = Moment{Shelf: i, Step: -1}
	}
	for step, e := range events {
		p.settleFrom(p.put(e), func(s int) {
			m := Moment{Shelf: s, After: e, Step: step, Margin: p.rests[s].Margin, Tips: p.rests[s].Tips}
			if m.worse(out[s]) {
				out[s] = m
			}
		})
	}
	return out
}

// Trial loads one level by itself, pot by pot, and can be asked before a pot
// is set what it would do.
type Trial struct {
	p     *pile
	level int
}

// NewTrial has a level's shelves lying on their posts, and the posts that
// stand on them in place.
func NewTrial(b *stacks.Built, level int) *Trial {
	t := &Trial{p: newPile(footings(b)), level: level}
	if level < 0 || level >= len(b.Levels) {
		return t
	}
	for _, s := range b.Levels[level].Shelves {
		for _, i := range t.p.posts[s] {
			t.p.put(Event{SetPost, i})
		}
	}
	for _, s := range b.Levels[level].Shelves {
		t.p.put(Event{SetShelf, s})
		for _, i := range t.p.standing[s] {
			t.p.put(Event{SetPost, i})
		}
		t.p.settle(s)
	}
	return t
}

// Bare is the worst of the level's shelves as they are now: least margin, mm.
func (t *Trial) Bare() Moment {
	out := Moment{Shelf: -1, Step: -1}
	if t.level < 0 || t.level >= len(t.p.b.Levels) {
		return out
	}
	for _, s := range t.p.b.Levels[t.level].Shelves {
		m := Moment{Shelf: s, After: Event{SetShelf, s}, Step: 0, Margin: t.p.rests[s].Margin, Tips: t.p.rests[s].Tips}
		if m.worse(out) {
			out = m
		}
	}
	return out
}

// With is the margin, mm, of the shelf under a pot if that pot were set next.
func (t *Trial) With(pot int) (margin float64, tips bool) {
	s := t.Shelf(pot)
	if s < 0 {
		return 0, false
	}
	total := t.p.load(s)
	total.add(t.p.b.Pots[pot].Body.Mass, t.p.b.Pots[pot].At)
	points := make([]Support, 0, len(t.p.posts[s]))
	for _, i := range t.p.posts[s] {
		points = append(points, Support{At: t.p.b.Posts[i].At})
	}
	return stability(points, total.mass, total.balance())
}

// Set sets a pot and gives the state of its shelf.
func (t *Trial) Set(pot int) Moment {
	e := Event{SetPot, pot}
	s := t.Shelf(pot)
	if s < 0 {
		return Moment{Shelf: -1, Step: -1, After: e}
	}
	t.p.put(e)
	t.p.settle(s)
	r := &t.p.rests[s]
	return Moment{Shelf: s, After: e, Margin: r.Margin, Tips: r.Tips}
}

// Margin is the margin of a shelf of the level as it is now, mm.
func (t *Trial) Margin(shelf int) float64 {
	if shelf < 0 || shelf >= len(t.p.rests) {
		return 0
	}
	return t.p.rests[shelf].Margin
}

// Shelf is the shelf under a pot (into Built.Shelves), or -1.
func (t *Trial) Shelf(pot int) int {
	if pot < 0 || pot >= len(t.p.pots) {
		return -1
	}
	return t.p.pots[pot]
}

// LevelLoading loads one level alone: its posts and shelves stand, then the
// posts above it, then the pots in the given order. It gives the worst moment
// over the level's shelves; Step is the pot's place in the order, -1 with
// SetShelf for the bare shelf.
func LevelLoading(b *stacks.Built, level int, pots []int) Moment {
	t := NewTrial(b, level)
	worst := t.Bare()
	for i, pot := range pots {
		m := t.Set(pot)
		if m.Shelf < 0 {
			continue
		}
		m.Step = i
		if m.worse(worst) {
			worst = m
		}
	}
	if worst.After.Kind == SetShelf {
		worst.Step = -1
	}
	return worst
}
