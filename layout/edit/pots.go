package edit

import (
	"fmt"
	"slices"

	"threepost/layout"
)

// standing is where a pot is set: tower, level and place in its list.
type standing struct{ tower, level, place int }

// find is where a pot is set, if it is.
func find(l *layout.Load, p layout.Pot) (standing, bool) {
	for t := range l.Towers {
		for v := range l.Towers[t].Levels {
			for i := range l.Towers[t].Levels[v].Set {
				if l.Towers[t].Levels[v].Set[i].Pot == p {
					return standing{t, v, i}, true
				}
			}
		}
	}
	return standing{}, false
}

func (s standing) in(l *layout.Load) *layout.Placement {
	return &l.Towers[s.tower].Levels[s.level].Set[s.place]
}

// lift takes a pot off its level.
func (s standing) lift(l *layout.Load) {
	v := &l.Towers[s.tower].Levels[s.level]
	v.Set = append(v.Set[:s.place:s.place], v.Set[s.place+1:]...)
}

// setPot sets a pot from the table, or moves one that stands. Without a tower
// it stays on its level; what is not given stays as it is.
func setPot(l *layout.Load, e *layout.Edit) error {
	p, err := l.Find(e.Pot)
	if err != nil {
		return err
	}
	if err := checkPlace(p.String(), e.At, e.Turn); err != nil {
		return err
	}
	s, stands := find(l, p)
	next := layout.Placement{Pot: p}
	if stands {
		next = *s.in(l)
	}
	if e.At != nil {
		next.At = gridPlace(*e.At)
	}
	if e.Turn != nil {
		next.Turn = gridTurn(*e.Turn)
	}
	if e.Tower == "" {
		if !stands {
			return fmt.Errorf("%s is on the table; say on which tower and level it goes", p)
		}
		*s.in(l) = next
		return nil
	}
	v, err := levelOf(l, e.Tower, e.Level)
	if err != nil {
		return err
	}
	if e.At == nil && !stands {
		return fmt.Errorf("say where %s goes on the level", p)
	}
	if stands && &l.Towers[s.tower].Levels[s.level] == v {
		*s.in(l) = next
		return nil
	}
	if stands {
		s.lift(l)
	}
	v.Set = append(v.Set, next)
	return nil
}

// withdraw puts a pot back on the table.
func withdraw(l *layout.Load, e *layout.Edit) error {
	s, err := standingOf(l, e.Pot)
	if err == nil {
		s.lift(l)
	}
	return err
}

// standingOf is where a pot that must be set stands.
func standingOf(l *layout.Load, name string) (standing, error) {
	p, err := l.Find(name)
	if err != nil {
		return standing{}, err
	}
	s, stands := find(l, p)
	if !stands {
		return standing{}, fmt.Errorf("%s is on the table", p)
	}
	return s, nil
}

// swapPots sets each of two pots where the other stood, turned as it was.
func swapPots(l *layout.Load, e *layout.Edit) error {
	a, err := standingOf(l, e.Pot)
	if err != nil {
		return err
	}
	b, err := standingOf(l, e.Other)
	if err != nil {
		return err
	}
	p, q := a.in(l), b.in(l)
	p.Pot, q.Pot = q.Pot, p.Pot
	return nil
}

func lockPot(l *layout.Load, e *layout.Edit) error {
	s, err := standingOf(l, e.Pot)
	if err == nil {
		s.in(l).Locked = e.On
	}
	return err
}

// setWare adds a row of ware, or replaces the row of that name or the one that
// Other names, whose pots keep their places under the new name. Pots that the
// row no longer has go.
func setWare(l *layout.Load, e *layout.Edit) error {
	switch {
	case e.Ware == nil || e.Ware.Name == "":
		return fmt.Errorf("a row of ware takes a name")
	case e.Ware.Count < 1 || e.Ware.Count > maxCount:
		return fmt.Errorf("%s: a count of %d; give 1 to %d", e.Ware.Name, e.Ware.Count, maxCount)
	case l.ConesOf(layout.Pot{Ware: e.Ware.Name}) != nil:
		return fmt.Errorf("%q is the name of a cone pack; give the ware another", e.Ware.Name)
	}
	w := *e.Ware
	w.Profile = append([]layout.Knot(nil), w.Profile...)
	w.Handles = append([]layout.Handle(nil), w.Handles...)
	was := w.Name
	old := l.WareOf(layout.Pot{Ware: w.Name})
	if e.Other != "" && e.Other != w.Name {
		if old != nil {
			return fmt.Errorf("there is a row %q already; give this one another name", w.Name)
		}
		was = e.Other
		if old = l.WareOf(layout.Pot{Ware: was}); old == nil {
			return fmt.Errorf("there is no ware %q on the list", was)
		}
	}
	if old == nil {
		l.Ware = append(l.Ware, w)
		return nil
	}
	rename(l, old, &w)
	*old = w
	l.Wishes = l.Wishes.Of(l.Ware)
	eachPot(l, func(p layout.Placement) (layout.Placement, bool) {
		if p.Pot.Ware != was {
			return p, true
		}
		n := max(p.Pot.Number, 1)
		p.Pot = w.PotNumber(n)
		return p, n <= w.Count
	})
	return nil
}

// rename lets wishes follow a row to its new name, and to a new owner where no
// other row is the old one's.
func rename(l *layout.Load, old, now *layout.Ware) {
	each := func(list []string, old, now string) {
		for i := range list {
			if list[i] == old {
				list[i] = now
			}
		}
	}
	w := &l.Wishes
	each(w.LeaveOut, old.Name, now.Name)
	for i := range w.Off {
		if w.Off[i].Ware == old.Name {
			w.Off[i].Ware = now.Name
		}
	}
	for i := range l.Ware {
		if r := &l.Ware[i]; r != old && r.Owner == old.Owner {
			return
		}
	}
	if old.Owner != "" && now.Owner != "" {
		for _, list := range []*[]string{&w.Together, &w.Apart} {
			if !slices.Contains(*list, now.Owner) { // else the old owner's goes with the last of his rows
				each(*list, old.Owner, now.Owner)
			}
		}
	}
}

// removeWare takes a row off the list; its pots go with it.
func removeWare(l *layout.Load, e *layout.Edit) error {
	for i := range l.Ware {
		if l.Ware[i].Name != e.Other {
			continue
		}
		l.Ware = append(l.Ware[:i:i], l.Ware[i+1:]...)
		l.Wishes = l.Wishes.Of(l.Ware)
		eachPot(l, func(p layout.Placement) (layout.Placement, bool) { return p, p.Pot.Ware != e.Other })
		return nil
	}
	return fmt.Errorf("there is no ware %q on the list", e.Other)
}

// eachPot puts every placement through f, which tells whether it stays.
func eachPot(l *layout.Load, f func(layout.Placement) (layout.Placement, bool)) {
	for t := range l.Towers {
		for v := range l.Towers[t].Levels {
			level := &l.Towers[t].Levels[v]
			var kept []layout.Placement
			for _, p := range level.Set {
				if q, stays := f(p); stays {
					kept = append(kept, q)
				}
			}
			level.Set = kept
		}
	}
}
