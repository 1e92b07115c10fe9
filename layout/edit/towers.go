package edit

import (
	"fmt"
	"strings"

	"threepost/layout"
)

// setPosts gives a level other posts: one make-up for all lines, or one each.
func setPosts(l *layout.Load, e *layout.Edit) error {
	v, err := levelOf(l, e.Tower, e.Level)
	if err != nil {
		return err
	}
	if lines := len(l.Tower(e.Tower).Lines); len(e.Posts) != 1 && len(e.Posts) != lines {
		return fmt.Errorf("%q has %d lines; give one make-up for all, or %d", e.Tower, lines, lines)
	}
	posts := make([]layout.MakeUp, len(e.Posts))
	for i, m := range e.Posts {
		if len(m) == 0 {
			return fmt.Errorf("a post of level %d of %q has no piece", e.Level, e.Tower)
		}
		for _, p := range m {
			if l.Furniture.Post(p) == nil {
				return fmt.Errorf("the furniture has no post of %s", strings.TrimSpace(fmt.Sprintf("%g %s", p.Height, p.Name)))
			}
		}
		posts[i] = append(layout.MakeUp(nil), m...)
	}
	v.Posts = posts
	return nil
}

// moveLine moves the place where a tower's posts stand over each other.
func moveLine(l *layout.Load, e *layout.Edit) error {
	t, err := towerOf(l, e.Tower)
	if err != nil {
		return err
	}
	if e.Line < 1 || e.Line > len(t.Lines) {
		return fmt.Errorf("%q has %d lines, so there is no line %d", e.Tower, len(t.Lines), e.Line)
	}
	if err := checkPlace("the line", e.At, e.Turn); err != nil {
		return err
	}
	line := &t.Lines[e.Line-1]
	if e.At != nil {
		line.At = gridPlace(*e.At)
	}
	if e.Turn != nil {
		line.Turn = gridTurn(*e.Turn)
	}
	return nil
}

// addLevel puts a level in; towers on the levels above it rise with them.
func addLevel(l *layout.Load, e *layout.Edit) error {
	t, err := towerOf(l, e.Tower)
	if err != nil {
		return err
	}
	switch {
	case e.NewLevel == nil:
		return fmt.Errorf("a new level takes shelves and posts")
	case e.Level < 1 || e.Level > len(t.Levels)+1:
		return fmt.Errorf("%q has %s; a new one goes in as 1 to %d", e.Tower, levels(len(t.Levels)), len(t.Levels)+1)
	case len(t.Levels) >= maxLevels:
		return fmt.Errorf("%q has %s already", e.Tower, levels(len(t.Levels)))
	}
	one := layout.CloneTowers([]layout.Tower{{Levels: []layout.Level{*e.NewLevel}}})
	gridTower(&one[0])
	at := e.Level - 1
	rest := append([]layout.Level(nil), t.Levels[at:]...)
	t.Levels = append(append(t.Levels[:at:at], one[0].Levels[0]), rest...)
	eachSupport(l, func(s *layout.Support) {
		if s.Tower == e.Tower && s.Level >= e.Level {
			s.Level++
		}
	})
	return checkPots(l)
}

// removeLevel takes a level out. Its pots go back to the table, and what
// stood on it comes down to the level below.
func removeLevel(l *layout.Load, e *layout.Edit) error {
	if _, err := levelOf(l, e.Tower, e.Level); err != nil {
		return err
	}
	t := l.Tower(e.Tower)
	at := e.Level - 1
	t.Levels = append(t.Levels[:at:at], t.Levels[at+1:]...)
	for i := range l.Towers {
		u := &l.Towers[i]
		var on []layout.Support
		for _, s := range u.On {
			switch {
			case s.Tower != e.Tower || s.Level < e.Level:
				on = append(on, s)
			case s.Level == 1:
				on = append(on, t.On...)
			default:
				on = append(on, layout.Support{Tower: s.Tower, Level: s.Level - 1})
			}
		}
		u.On = on
	}
	return nil
}

// swapLevels lets the pots of two levels and the posts over them change
// places. Other names the other level's tower; empty means the same. Where
// one of them has no shelf of its tower over it, only the pots change.
func swapLevels(l *layout.Load, e *layout.Edit) error {
	other := e.Other
	if other == "" {
		other = e.Tower
	}
	a, err := levelOf(l, e.Tower, e.Level)
	if err != nil {
		return err
	}
	b, err := levelOf(l, other, e.OtherLevel)
	if err != nil {
		return err
	}
	if a == b {
		return fmt.Errorf("level %d of %q cannot change places with itself", e.Level, e.Tower)
	}
	a.Set, b.Set = b.Set, a.Set
	s, t := l.Tower(e.Tower), l.Tower(other)
	if e.Level == len(s.Levels) || e.OtherLevel == len(t.Levels) {
		return nil
	}
	over, under := &s.Levels[e.Level], &t.Levels[e.OtherLevel]
	if s != t && (len(over.Posts) > 1 || len(under.Posts) > 1) && len(s.Lines) != len(t.Lines) {
		return fmt.Errorf("%q and %q have different lines, so the posts of single lines cannot change places", e.Tower, other)
	}
	over.Posts, under.Posts = under.Posts, over.Posts
	return nil
}

func moveShelf(l *layout.Load, e *layout.Edit) error {
	v, err := levelOf(l, e.Tower, e.Level)
	if err != nil {
		return err
	}
	if e.Shelf < 1 || e.Shelf > len(v.Shelves) {
		return fmt.Errorf("level %d of %q has no shelf %d", e.Level, e.Tower, e.Shelf)
	}
	if err := checkPlace("the shelf", e.At, e.Turn); err != nil {
		return err
	}
	s := &v.Shelves[e.Shelf-1]
	if e.At != nil {
		s.At = gridPlace(*e.At)
	}
	if e.Turn != nil {
		s.Turn = gridTurn(*e.Turn)
	}
	return nil
}

// arrange takes a whole arrangement at once.
func arrange(l *layout.Load, e *layout.Edit) error {
	if len(e.Towers) > maxTowers {
		return fmt.Errorf("an arrangement of %d towers; a kiln takes %d at most", len(e.Towers), maxTowers)
	}
	l.Towers = layout.CloneTowers(e.Towers)
	names := map[string]bool{}
	for i := range l.Towers {
		t := &l.Towers[i]
		if names[t.Name] {
			return fmt.Errorf("two towers are called %q; give each its own name", t.Name)
		}
		names[t.Name] = true
		gridTower(t)
	}
	return checkPots(l)
}

// gridTower puts all places of a tower on the grid.
func gridTower(t *layout.Tower) {
	for i := range t.Lines {
		t.Lines[i].At, t.Lines[i].Turn = gridPlace(t.Lines[i].At), gridTurn(t.Lines[i].Turn)
	}
	for v := range t.Levels {
		for i := range t.Levels[v].Shelves {
			s := &t.Levels[v].Shelves[i]
			s.At, s.Turn = gridPlace(s.At), gridTurn(s.Turn)
		}
		for i := range t.Levels[v].Set {
			p := &t.Levels[v].Set[i]
			p.At, p.Turn = gridPlace(p.At), gridTurn(p.Turn)
		}
	}
}

// checkPots refuses pots that the list does not have, that stand twice, or
// that stand at no place.
func checkPots(l *layout.Load) error {
	seen := map[layout.Pot]string{}
	var err error
	for t := range l.Towers {
		for v := range l.Towers[t].Levels {
			where := fmt.Sprintf("level %d of %q", v+1, l.Towers[t].Name)
			for i := range l.Towers[t].Levels[v].Set {
				p := &l.Towers[t].Levels[v].Set[i]
				if p.Pot, err = l.Find(p.Pot.String()); err != nil {
					return err
				}
				if err := checkPlace(p.Pot.String(), &p.At, &p.Turn); err != nil {
					return err
				}
				if first, twice := seen[p.Pot]; twice {
					return fmt.Errorf("%s is set twice: on %s and on %s", p.Pot, first, where)
				}
				seen[p.Pot] = where
			}
		}
	}
	return nil
}

func eachSupport(l *layout.Load, f func(*layout.Support)) {
	for i := range l.Towers {
		for j := range l.Towers[i].On {
			f(&l.Towers[i].On[j])
		}
	}
}
