package session

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
)

// reading gathers the first thing that cannot be read.
type reading struct {
	in  measure.Units
	err error
}

// length reads a length; empty is 0.
func (r *reading) length(what, text string) float64 {
	if strings.TrimSpace(text) == "" {
		return 0
	}
	mm, err := measure.ParseNotNegative(text, r.in)
	r.fault(what, err)
	return mm
}

func (r *reading) fault(what string, err error) {
	if err != nil && r.err == nil {
		r.err = fmt.Errorf("%s: %w", what, err)
	}
}

func (r *reading) clock(what, text string) float64 {
	if strings.TrimSpace(text) == "" {
		return 0
	}
	deg, err := measure.ParseClock(text)
	r.fault(what, err)
	return deg
}

func (r *reading) count(what, text string, most int) int {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > most {
		r.fault(what, fmt.Errorf("%q is no count; type a whole number from 0 to %d", text, most))
	}
	return n
}

func (r *reading) shape(what string, f ShapeFields) layout.Shape {
	s := layout.Shape{Kind: layout.ShapeKind(strings.TrimSpace(f.Kind))}
	across := func() float64 { return r.length(what+", across", f.Across) }
	width := func() float64 { return r.length(what+", width", f.Width) }
	depth := func() float64 { return r.length(what+", depth", f.Depth) }
	switch s.Kind {
	case layout.Round:
		s.Across = across()
	case layout.HalfRound:
		s.Across, s.Depth = across(), depth()
	case layout.Sided:
		s.Across, s.Sides, s.FlatAt = across(), r.count(what+", sides", f.Sides, 64), r.clock(what+", a flat", f.FlatAt)
	case layout.HalfSided:
		s.Across, s.Depth, s.Sides = across(), depth(), r.count(what+", sides", f.Sides, 64)
	case layout.Oval, layout.HalfOval:
		s.Width, s.Depth = width(), depth()
	case layout.Rectangle:
		s.Width, s.Depth, s.Corner = width(), depth(), r.length(what+", corner", f.Corner)
	}
	if r.err == nil {
		_, err := s.Outline()
		r.fault(what, err)
	}
	return s
}

func (s *Session) readKiln(f KilnFields) (*layout.Kiln, error) {
	r := &reading{in: s.now.Units}
	k := &layout.Kiln{Name: strings.TrimSpace(f.Name), Chamber: r.shape("the chamber", f.Shape), Height: r.length("height", f.Height),
		Wall: r.length("wall", f.Wall), FloorElement: f.FloorElement, Opens: layout.Opens(f.Opens)}
	switch k.Opens {
	case "":
		k.Opens = layout.Top
	case layout.Top, layout.Front:
	default:
		return nil, fmt.Errorf("a kiln opens at the top or at the front, not at the %q", f.Opens)
	}
	if len(f.Probes) > 20 || len(f.Spyholes) > 20 {
		return nil, errors.New("a kiln takes 20 probes and 20 spyholes at most")
	}
	for i, p := range f.Probes {
		what := "probe " + strconv.Itoa(i+1)
		k.Probes = append(k.Probes, layout.Probe{At: r.clock(what, p.At), Height: r.length(what+", height", p.Height),
			Reach: r.length(what+", reach", p.Reach), Diameter: r.length(what+", diameter", p.Diameter)})
	}
	for i, p := range f.Spyholes {
		what := "spyhole " + strconv.Itoa(i+1)
		k.Spyholes = append(k.Spyholes, layout.Spyhole{At: r.clock(what, p.At), Height: r.length(what+", height", p.Height), Diameter: r.length(what+", diameter", p.Diameter)})
	}
	return k, r.err
}

func (s *Session) readFurniture(f FurnitureFields) (*layout.Furniture, error) {
	if len(f.Shelves)+len(f.Posts)+len(f.Cookies)+len(f.Stilts) > 500 {
		return nil, errors.New("at most 500 rows of furniture can be listed")
	}
	r := &reading{in: s.now.Units}
	out := &layout.Furniture{}
	for _, row := range f.Shelves {
		what := "shelf " + strconv.Quote(row.Name)
		k := layout.ShelfKind{}
		if old := s.now.Furniture.Shelf(strings.TrimSpace(row.Name)); old != nil {
			k = *old
		}
		k.Name, k.Shape, k.Thick = strings.TrimSpace(row.Name), r.shape(what, row.Shape), r.length(what+", thickness", row.Thick)
		k.Count, k.Material, k.Bow = r.count(what, row.Count, 10000), strings.TrimSpace(row.Material), r.length(what+", bow", row.Bow)
		k.Cracked, k.Damp, k.Mass = row.Cracked, row.Damp, 0
		if strings.TrimSpace(row.Mass) != "" {
			kg, err := measure.ParseMass(row.Mass)
			r.fault(what+", mass", err)
			k.Mass = kg
		}
		out.Shelves = append(out.Shelves, k)
	}
	for _, row := range f.Posts {
		out.Posts = append(out.Posts, s.readPost(r, row))
	}
	for _, row := range f.Cookies {
		out.Cookies = append(out.Cookies, layout.CookieKind{Across: r.length("a cookie", row.Across), Thick: r.length("a cookie", row.High), Count: r.count("cookies", row.Count, 10000)})
	}
	for _, row := range f.Stilts {
		out.Stilts = append(out.Stilts, layout.StiltKind{Across: r.length("a stilt", row.Across), Height: r.length("a stilt", row.High),
			Count: r.count("stilts", row.Count, 10000), Metal: row.Metal})
	}
	return out, r.err
}

func (s *Session) readPost(r *reading, row PostFields) layout.PostKind {
	what := "posts of " + row.Height
	height := r.length(what, row.Height)
	k := layout.PostKind{Section: layout.Section{Kind: layout.SquareSection, Width: 38}}
	if old := s.now.Furniture.Post(layout.Piece{Height: height, Name: strings.TrimSpace(row.Name)}); old != nil {
		k = *old
	}
	k.Name, k.Height, k.Real, k.Spacer = strings.TrimSpace(row.Name), height, r.length(what+", real height", row.Real), row.Spacer
	k.Count = r.count(what, row.Count, 10000)
	if kind, width, ok := strings.Cut(strings.TrimSpace(row.Section), " "); ok {
		k.Section = layout.Section{Kind: layout.SectionKind(kind), Width: r.length(what+", section", width)}
	} else if row.Section != "" {
		r.fault(what, fmt.Errorf("the section is %q; write square, round, hexagon or triangle and how wide, like square 38", row.Section))
	}
	return k
}

func readFiring(f FiringFields) (*layout.Firing, error) {
	cone, err := measure.ParseCone(f.Cone)
	if err != nil {
		return nil, err
	}
	out := &layout.Firing{Stage: layout.Stage(strings.TrimSpace(f.Stage)), Cone: cone, Programme: strings.TrimSpace(f.Programme), Date: strings.TrimSpace(f.Date)}
	if strings.TrimSpace(f.Peak) != "" {
		if out.Peak, err = measure.ParseTemperature(f.Peak); err != nil {
			return nil, fmt.Errorf("peak: %w", err)
		}
	}
	return out, nil
}

func (s *Session) readCones(rows []ConeFields) ([]layout.ConePack, error) {
	var out []layout.ConePack
	if len(rows) > 500 {
		return nil, errors.New("at most 500 cone packs can be listed")
	}
	for _, f := range rows {
		c := layout.ConePack{}
		if old := s.now.ConesOf(layout.Pot{Ware: strings.TrimSpace(f.Name)}); old != nil {
			c = *old
		}
		c.Name, c.Watched, c.Cones, c.Spyhole = strings.TrimSpace(f.Name), f.Watched, nil, 0
		for _, name := range strings.FieldsFunc(f.Pack, func(r rune) bool { return r == ' ' || r == ',' }) {
			cone, err := measure.ParseCone(name)
			if err != nil {
				return nil, fmt.Errorf("the cone pack %q: %w", c.Name, err)
			}
			c.Cones = append(c.Cones, cone)
		}
		if text := strings.TrimSpace(f.Spyhole); text != "" {
			n, err := strconv.Atoi(text)
			if err != nil || n < 0 || n > len(s.now.Kiln.Spyholes) {
				return nil, fmt.Errorf("the cone pack %q is watched through spyhole %q; the kiln has %d", c.Name, text, len(s.now.Kiln.Spyholes))
			}
			c.Spyhole = n
		}
		out = append(out, c)
	}
	return out, nil
}

func (s *Session) readRule(f RuleFields) (layout.Edit, error) {
	name := layout.RuleName(f.Name)
	e := layout.Edit{Act: layout.SetRule, Rule: name}
	if f.Problem == "" && f.Watch == "" && f.Plan == "" {
		return e, nil
	}
	l := s.now.Limits(name)
	for _, c := range []struct {
		what, text string
		into       *float64
	}{{"problem", f.Problem, &l.Problem}, {"watch", f.Watch, &l.Watch}, {"plan", f.Plan, &l.Plan}} {
		if strings.TrimSpace(c.text) == "" {
			continue
		}
		var err error
		if counted(name) {
			*c.into, err = strconv.ParseFloat(strings.TrimSpace(c.text), 64)
			if err != nil {
				err = fmt.Errorf("%q is not a number", c.text)
			}
		} else {
			*c.into, err = measure.ParseLength(c.text, s.now.Units)
		}
		if err != nil {
			return e, fmt.Errorf("%s, %s: %w", f.Name, c.what, err)
		}
	}
	e.Limits = &l
	return e, nil
}

func (s *Session) readWishes(f WishFields) (*layout.Wishes, error) {
	r := &reading{in: s.now.Units}
	if len(f.LeaveOut) > document.MostRows {
		return nil, errors.New("more rows are left out than can be listed")
	}
	if max(len(f.Together), len(f.Apart), len(f.Off)) > document.MostRows {
		return nil, errors.New("more wishes are told than can be listed")
	}
	w := &layout.Wishes{Tall: layout.TallWare(f.Tall), Inset: r.length("inset", f.Inset), RoomAbove: r.length("room above", f.RoomAbove),
		LeaveOut: append([]string(nil), f.LeaveOut...), Towers: layout.TowerChoice(f.Towers), Stagger: f.Stagger,
		Together: append([]string(nil), f.Together...), Apart: append([]string(nil), f.Apart...)}
	for _, o := range f.Off {
		w.Off = append(w.Off, layout.OffLevel{Ware: o.Ware, Level: layout.LevelRef(o.Level)})
	}
	return w, r.err
}
