package planner

import (
	"fmt"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/measure"
	"threepost/layout/packing"
	"threepost/layout/stacks"
)

// Room is the answer to "is there room for one more?".
type Room struct {
	OK    bool
	Level string        // where: "left 2"
	Moves int           // pots that move to make the room
	Edits []layout.Edit // what sets it there; checked
	Why   string        // where there is no room: why
}

// Work of one question, per level.
const (
	insertWork  = 400
	squeezeWork = 4000
)

// RoomForOne looks for a place for one more pot of a ware row as the load
// stands, at the plan distances. It first moves nothing, then moves pots of one
// level that are not locked. The row is added to the load by the edits when it
// is new. The error says what about the pot or the load has no meaning.
func RoomForOne(l *layout.Load, w layout.Ware, seed uint64) (Room, error) {
	return RoomInSlices(l, w, seed, nil)
}

// RoomInSlices is RoomForOne that asks pause now and then and ends early,
// without room, when that answers false.
func RoomInSlices(l *layout.Load, w layout.Ware, seed uint64, pause func() bool) (Room, error) {
	l = l.Clone()
	edits := []layout.Edit{}
	row := l.WareOf(layout.Pot{Ware: w.Name})
	if row == nil {
		w.Count = 1
		l.Ware = append(l.Ware, w)
		row = &l.Ware[len(l.Ware)-1]
	} else {
		if row.Count == 1 {
			l.NumberLone(row.Name)
		}
		row.Count++
	}
	added := *row
	pot := row.PotNumber(row.Count)
	edits = append(edits, layout.Edit{Act: layout.SetWare, Ware: &added})
	c, err := newContext(l)
	if err != nil {
		return Room{}, err
	}
	b, err := stacks.Build(l)
	if err != nil {
		return Room{}, err
	}
	kindAt := -1
	for i, k := range c.kinds {
		if k.name == row.Name {
			kindAt = i
		}
	}
	before := clearance.Check(b)
	s := newSearch(c, seed)
	s.pause = pause
	f := frameOf(c, b, func(*layout.Level, *layout.Placement) bool { return true })
	s.hear(f)
	tallest, taking, kept := 0.0, 0, 0
	for _, moving := range []bool{false, true} {
		for i, st := range f.storeys {
			tallest = max(tallest, st.tallest())
			if st.sealed || !st.fits(c.kinds[kindAt].body.Height) {
				continue
			}
			if !c.takes(st, kindAt) {
				kept++
				continue
			}
			taking++
			set, moves, ok := s.oneMore(st, kindAt, moving)
			if !ok {
				continue
			}
			place := f.at[i]
			more := levelEdits(l.Towers[place.tower].Name, place.level+1, st, set, pot)
			after, err := edit.Apply(l, more...)
			if err != nil {
				continue
			}
			built, err := stacks.Build(after)
			if err != nil {
				continue
			}
			if r := clearance.Check(built); r.Problems > before.Problems || r.Watches > before.Watches+ownWatches(r, pot) {
				continue
			}
			return Room{OK: true, Level: b.Levels[i].Name, Moves: moves, Edits: append(edits, more...)}, nil
		}
	}
	say := func(mm float64, r measure.Round) string { return measure.FormatLength(mm, l.Units, r) }
	height := c.kinds[kindAt].body.Height
	if taking == 0 && kept > 0 {
		return Room{Why: "The wishes keep it off every level that takes its height."}, nil
	}
	if taking == 0 {
		return Room{Why: fmt.Sprintf("It stands %s high, and the tallest level takes %s.", say(height, measure.Up), say(tallest, measure.Down))}, nil
	}
	return Room{Why: fmt.Sprintf("As the levels stand, no place is left for it at a gap of %s.", say(c.limits[layout.PotToPot].Plan, measure.Up))}, nil
}

// ownWatches counts the watches that lie in the pot itself, wherever it stands.
func ownWatches(r clearance.Report, pot layout.Pot) int {
	n := 0
	for _, f := range r.Findings {
		if f.Grade == layout.Watch && ofTheWare(f.Rule) {
			for _, t := range f.Things {
				if t.Name == pot.String() || t.Name == pot.Ware {
					n++
					break
				}
			}
		}
	}
	return n
}

// oneMore looks for a place for one more pot of a kind on a storey. When pots
// may move, those that are not locked do.
func (s *Search) oneMore(st *storey, k int, moving bool) (set []placed, moves int, ok bool) {
	fixed := st.fixed
	var loose []placed
	if moving {
		fixed = nil
		for _, p := range st.fixed {
			if p.lock || s.context.kinds[p.kind].cones != nil {
				fixed = append(fixed, p)
			} else {
				loose = append(loose, p)
			}
		}
		if len(loose) == 0 {
			return nil, 0, false
		}
	}
	wants := map[int]int{k: 1}
	for _, p := range loose {
		wants[p.kind]++
	}
	sp := s.context.problemOf(st, wants, fixed)
	sp.problem.Pause = s.pause
	start := packing.Result{Set: append([]packing.Standing(nil), sp.problem.Fixed...)}
	wantOf := map[int]int{}
	for i, w := range sp.problem.Wants {
		wantOf[sp.kinds[w.Kind]] = i
	}
	for _, p := range loose {
		start.Set = append(start.Set, packing.Standing{Kind: sp.index[p.kind], Want: wantOf[p.kind], At: p.at, Turn: p.turn})
	}
	var r packing.Result
	if moving {
		r, ok = packing.Squeeze(sp.problem, start, wantOf[k], s.seed, squeezeWork)
	} else {
		r, ok = packing.Insert(sp.problem, start, wantOf[k], s.seed, insertWork)
	}
	if !ok {
		return nil, 0, false
	}
	set = s.placedOf(sp, r)
	return set, len(loose), true
}

// levelEdits are the edits that bring a storey to a new set: every pot that
// moved, and the new one. Loose pots of a kind are given to the places nearest
// to where they stood.
func levelEdits(tower string, level int, st *storey, set []placed, pot layout.Pot) []layout.Edit {
	var out []layout.Edit
	free := append([]placed(nil), set...)
	put := func(name layout.Pot, p placed) {
		at, turn := p.at, p.turn
		out = append(out, layout.Edit{Act: layout.SetPot, Pot: name.String(), Tower: tower, Level: level, At: &at, Turn: &turn})
	}
	moved := len(set) > 1
	if moved {
		for _, was := range st.fixed {
			if was.lock {
				continue
			}
			best, least := -1, 0.0
			for i, p := range free {
				if p.kind != was.kind {
					continue
				}
				if d := plane.Distance(p.at, was.at); best < 0 || d < least {
					best, least = i, d
				}
			}
			if best < 0 {
				continue
			}
			p := free[best]
			free = append(free[:best], free[best+1:]...)
			if p.at != was.at || p.turn != was.turn {
				put(was.pot, p)
			}
		}
	}
	if len(free) > 0 {
		put(pot, free[len(free)-1])
	}
	return out
}
