package planner

import (
	"fmt"

	"threepost/layout"
	"threepost/layout/order"
	"threepost/layout/stacks"
)

// StandsAfter is what stands once so many acts of the order of setting are
// done.
func StandsAfter(b *stacks.Built, o *order.Order, acts int) Stands {
	out := Stands{Towers: make([]TowerStands, len(b.Load.Towers)), Pots: map[layout.Pot]bool{}}
	for i := range o.Acts {
		if i >= acts {
			break
		}
		a := &o.Acts[i]
		switch a.Kind {
		case order.ActPosts:
			if a.Carries >= 0 {
				v := &b.Levels[a.Carries]
				if t := &out.Towers[b.Towers[v.Tower].Index]; t.Levels == v.Number-1 {
					t.Posts = true
				}
			}
		case order.ActShelf:
			v := &b.Levels[b.Shelves[a.Shelf].Level]
			t := &out.Towers[b.Towers[v.Tower].Index]
			t.Levels, t.Posts = max(t.Levels, v.Number), false
		case order.ActPot, order.ActCones:
			out.Pots[b.Pots[o.Levels[a.Order].Pots[a.Step].Pot].Pot] = true
		case order.ActPattern:
			l := &o.Levels[a.Order]
			for _, step := range l.Patterns[a.Pattern].Steps {
				out.Pots[b.Pots[l.Pots[step].Pot].Pot] = true
			}
		}
	}
	return out
}

// StandsTo is what stands when a tower is loaded up to a level, from 1, with
// all that is set on it and what it stands on; more towers add to it. Level 0 is
// nothing. The error names the levels there are.
func (st *Stands) StandsTo(l *layout.Load, tower string, level int) error {
	for len(st.Towers) < len(l.Towers) {
		st.Towers = append(st.Towers, TowerStands{})
	}
	if st.Pots == nil {
		st.Pots = map[layout.Pot]bool{}
	}
	for i := range l.Towers {
		t := &l.Towers[i]
		if t.Name != tower {
			continue
		}
		if level < 0 || level > len(t.Levels) {
			return fmt.Errorf("%s has levels 1 to %d, so it does not stand to level %d", tower, len(t.Levels), level)
		}
		st.Towers[i].Levels = max(st.Towers[i].Levels, level)
		for _, v := range t.Levels[:level] {
			for _, p := range v.Set {
				st.Pots[p.Pot] = true
			}
		}
		for _, on := range t.On {
			if level > 0 && on.Tower != "" && on.Tower != tower {
				if err := st.StandsTo(l, on.Tower, on.Level); err != nil {
					return err
				}
			}
		}
		return nil
	}
	return fmt.Errorf("the load has no tower %q", tower)
}
