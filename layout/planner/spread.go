package planner

import (
	"fmt"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/packing"
	"threepost/layout/stacks"
)

// Spread draws the pots of one level (from 1) evenly apart, as far as what is
// locked, the posts and the wall allow, and answers with the moves, checked:
// nothing is worse after them. No moves: it cannot be bettered. pause, when
// there is one, is asked now and then; false ends early with what was found.
// The error is a sentence.
func Spread(l *layout.Load, tower string, level int, seed uint64, pause func() bool) ([]layout.Edit, error) {
	c, err := newContext(l.Clone())
	if err != nil {
		return nil, err
	}
	b, err := stacks.Build(l)
	if err != nil {
		return nil, err
	}
	s := newSearch(c, seed)
	f := frameOf(c, b, func(*layout.Level, *layout.Placement) bool { return true })
	for i, st := range f.storeys {
		if at := f.at[i]; l.Towers[at.tower].Name != tower || at.level+1 != level {
			continue
		}
		if st.sealed {
			return nil, fmt.Errorf("%s is locked", b.Levels[i].Name)
		}
		edits := s.drawApart(tower, level, st, pause)
		if len(edits) == 0 || !noWorse(l, b, edits) {
			return nil, nil
		}
		return edits, nil
	}
	return nil, fmt.Errorf("there is no level %d of %q", level, tower)
}

// drawApart are the moves of the pots of a storey that are not locked.
func (s *Search) drawApart(tower string, level int, st *storey, pause func() bool) []layout.Edit {
	var fixed, loose []placed
	wants := map[int]int{}
	for _, p := range st.fixed {
		if p.lock || s.context.kinds[p.kind].cones != nil {
			fixed = append(fixed, p)
		} else {
			loose = append(loose, p)
			wants[p.kind]++
		}
	}
	if len(loose) == 0 {
		return nil
	}
	sp := s.context.problemOf(st, wants, fixed)
	sp.problem.Pause = pause
	r := packing.Result{Set: append([]packing.Standing(nil), sp.problem.Fixed...)}
	want := map[int]int{}
	for i, w := range sp.problem.Wants {
		want[w.Kind] = i
	}
	for _, p := range loose {
		k := sp.index[p.kind]
		r.Set = append(r.Set, packing.Standing{Kind: k, Want: want[k], At: p.at, Turn: p.turn})
	}
	r = packing.Spread(sp.problem, r, drawnApart(), s.seed, spreadWork/4)
	var out []layout.Edit
	for i, q := range s.placedOf(sp, r) {
		if p := loose[i]; q.at != p.at || q.turn != p.turn {
			at, turn := q.at, q.turn
			out = append(out, layout.Edit{Act: layout.SetPot, Pot: p.pot.String(), Tower: tower, Level: level, At: &at, Turn: &turn})
		}
	}
	return out
}

// noWorse tells whether edits bring no new problem and no new watch.
func noWorse(l *layout.Load, b *stacks.Built, edits []layout.Edit) bool {
	next, err := edit.Apply(l, edits...)
	if err != nil {
		return false
	}
	after, err := stacks.Build(next)
	if err != nil {
		return false
	}
	r, before := clearance.Check(after), clearance.Check(b)
	return r.Problems <= before.Problems && r.Watches <= before.Watches
}
