package edit

import (
	"fmt"
	"math"
	"slices"

	"threepost/layout"
	"threepost/layout/measure"
)

// Caps of a kiln's and its furniture's lists, as in package document.
const (
	maxOpenings = 20
	maxRows     = 500
	maxPieces   = 10000
)

// setUp changes what is asked once: kiln, furniture, firing, cones, wishes,
// title, units. It refuses figures that are none; whether they are wise, and
// whether a document can say them, others judge.
func setUp(l *layout.Load, e *layout.Edit) error {
	switch e.Act {
	case layout.SetKiln:
		return setKiln(l, e.Kiln)
	case layout.SetFurniture:
		return setFurniture(l, e.Furniture)
	case layout.SetFiring:
		return setFiring(l, e.Firing)
	case layout.SetCones:
		return setCones(l, e.Cones)
	case layout.SetWishes:
		return setWishes(l, e.Wishes)
	case layout.SetTitle:
		l.Title = e.Title
	case layout.SetUnits:
		in, err := measure.ParseUnits(string(e.Units))
		if err != nil {
			return err
		}
		l.Units = in
	}
	return nil
}

func setKiln(l *layout.Load, k *layout.Kiln) error {
	if k == nil {
		return fmt.Errorf("a kiln takes its size inside: across and height")
	}
	if len(k.Probes) > maxOpenings || len(k.Spyholes) > maxOpenings {
		return fmt.Errorf("a kiln takes %d probes and %d spyholes at most", maxOpenings, maxOpenings)
	}
	if _, err := k.Chamber.Outline(); err != nil {
		return fmt.Errorf("the chamber: %w", err)
	}
	figures := []float64{k.Height, k.Wall}
	for _, p := range k.Probes {
		figures = append(figures, p.At, p.Height, p.Reach, p.Diameter)
	}
	for _, p := range k.Spyholes {
		figures = append(figures, p.At, p.Height, p.Diameter)
	}
	if err := checkFigures("the kiln", figures...); err != nil {
		return err
	}
	if !(k.Height > 0) {
		return fmt.Errorf("the kiln is %g high inside; give its height from floor to lid", k.Height)
	}
	c := *k
	c.Probes = append([]layout.Probe(nil), k.Probes...)
	c.Spyholes = append([]layout.Spyhole(nil), k.Spyholes...)
	l.Kiln = c
	return nil
}

// setFurniture replaces all that is owned. What stands in the kiln keeps
// standing, so a kind that is used cannot leave the list; its count may fall
// under what is used, which the check tells.
func setFurniture(l *layout.Load, f *layout.Furniture) error {
	if f == nil {
		return fmt.Errorf("furniture takes shelves and posts")
	}
	if n := len(f.Shelves) + len(f.Posts) + len(f.Cookies) + len(f.Stilts); n > maxRows {
		return fmt.Errorf("%d rows of furniture; at most %d can be listed", n, maxRows)
	}
	for i := range f.Shelves {
		s := &f.Shelves[i]
		if _, err := s.Shape.Outline(); err != nil {
			return fmt.Errorf("shelf %q: %w", s.Name, err)
		}
		if err := checkRow(fmt.Sprintf("shelf %q", s.Name), s.Count, s.Thick, s.Mass, s.Limit, s.Bow); err != nil {
			return err
		}
	}
	for i := range f.Posts {
		p := &f.Posts[i]
		if err := checkRow(fmt.Sprintf("posts of %g", p.Height), p.Count, p.Height, p.Real, p.Section.Width, p.Mass); err != nil {
			return err
		}
	}
	c := layout.Furniture{
		Shelves: append([]layout.ShelfKind(nil), f.Shelves...), Posts: append([]layout.PostKind(nil), f.Posts...),
		Cookies: append([]layout.CookieKind(nil), f.Cookies...), Stilts: append([]layout.StiltKind(nil), f.Stilts...),
	}
	if err := checkUsed(l, &c); err != nil {
		return err
	}
	l.Furniture = c
	return nil
}

// checkUsed refuses furniture that lacks a kind that stands in the kiln.
func checkUsed(l *layout.Load, f *layout.Furniture) error {
	for t := range l.Towers {
		for v := range l.Towers[t].Levels {
			level := &l.Towers[t].Levels[v]
			where := fmt.Sprintf("level %d of %q", v+1, l.Towers[t].Name)
			for _, s := range level.Shelves {
				if f.Shelf(s.Kind) == nil {
					return fmt.Errorf("the shelf %q lies on %s; take it out there first", s.Kind, where)
				}
			}
			for _, m := range level.Posts {
				for _, p := range m {
					if f.Post(p) == nil {
						return fmt.Errorf("a post of %g stands under %s; take it out there first", p.Height, where)
					}
				}
			}
		}
	}
	return nil
}

func setFiring(l *layout.Load, f *layout.Firing) error {
	if f == nil {
		return fmt.Errorf("a firing takes its stage and its cone")
	}
	switch f.Stage {
	case layout.Bisque, layout.Glaze, layout.Refire, layout.Lustre:
	default:
		return fmt.Errorf("%q is no stage; it is bisque, glaze, refire or lustre", f.Stage)
	}
	if !f.Cone.Known() {
		if _, err := measure.ParseCone(string(f.Cone)); err != nil {
			return err
		}
	}
	if err := checkFigures("the firing", f.Peak); err != nil {
		return err
	}
	l.Firing = *f
	return nil
}

// setCones replaces all cone packs; the places of those that are gone go.
func setCones(l *layout.Load, cones []layout.ConePack) error {
	if len(cones) > maxRows {
		return fmt.Errorf("%d cone packs; at most %d can be listed", len(cones), maxRows)
	}
	names := map[string]bool{}
	for i := range cones {
		c := &cones[i]
		switch {
		case c.Name == "":
			return fmt.Errorf("a cone pack takes a name")
		case names[c.Name]:
			return fmt.Errorf("two cone packs are called %q; give each its own name", c.Name)
		case l.WareOf(layout.Pot{Ware: c.Name}) != nil:
			return fmt.Errorf("%q is the name of a row of ware; give the cone pack another", c.Name)
		}
		names[c.Name] = true
		if err := checkFigures("the cone pack "+c.Name, c.Length, c.Width, c.Height); err != nil {
			return err
		}
	}
	old := map[string]bool{}
	for i := range l.Cones {
		old[l.Cones[i].Name] = true
	}
	l.Cones = append([]layout.ConePack(nil), cones...)
	for i := range l.Cones {
		l.Cones[i].Cones = append([]measure.Cone(nil), cones[i].Cones...)
	}
	eachPot(l, func(p layout.Placement) (layout.Placement, bool) {
		return p, !(p.Pot.Number == 0 && old[p.Pot.Ware] && !names[p.Pot.Ware])
	})
	return nil
}

func setWishes(l *layout.Load, w *layout.Wishes) error {
	if w == nil {
		return fmt.Errorf("there is no wish")
	}
	if err := checkFigures("a wish", w.Inset, w.RoomAbove); err != nil {
		return err
	}
	for _, name := range w.LeaveOut {
		if l.WareOf(layout.Pot{Ware: name}) == nil {
			return fmt.Errorf("there is no ware %q on the list to leave out", name)
		}
	}
	for _, o := range w.Off {
		if l.WareOf(layout.Pot{Ware: o.Ware}) == nil {
			return fmt.Errorf("there is no ware %q on the list to keep off a level", o.Ware)
		}
		if !o.Level.Known() {
			return fmt.Errorf("%q is no level; give bottom, top, or a number counted up from the floor", o.Level)
		}
	}
	for _, list := range [][]string{w.Together, w.Apart} {
		for _, owner := range list {
			if !slices.ContainsFunc(l.Ware, func(r layout.Ware) bool { return r.Owner == owner }) {
				return fmt.Errorf("no row of the list has the owner %q", owner)
			}
		}
	}
	l.Wishes = w.Clone()
	return nil
}

// checkRow refuses counts and figures of furniture that are none.
func checkRow(what string, count int, figures ...float64) error {
	if count < 0 || count > maxPieces {
		return fmt.Errorf("%s: a count of %d; give 0 to %d", what, count, maxPieces)
	}
	if err := checkFigures(what, figures...); err != nil {
		return err
	}
	if !(figures[0] > 0) {
		return fmt.Errorf("%s: a height of %g; give more than 0", what, figures[0])
	}
	return nil
}

func checkFigures(what string, figures ...float64) error {
	for _, x := range figures {
		if !(math.Abs(x) <= farthest) {
			return fmt.Errorf("a figure of %s is not a number", what)
		}
	}
	return nil
}
