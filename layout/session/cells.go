package session

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// Row changes a row by the cells of the table; an empty name adds a row. Only
// cells whose text changed are read. Under another name its pots keep their
// places. A profile grows with the height and the width.
func (s *Session) Row(name string, f Fields) (*State, error) {
	var w layout.Ware
	if name != "" {
		old, err := s.row(name)
		if err != nil {
			return nil, err
		}
		w = *old
	} else {
		w = layout.Ware{Name: strings.TrimSpace(f.Name), Count: 1}
		name = w.Name
		if s.now.WareOf(layout.Pot{Ware: name}) != nil {
			return nil, fmt.Errorf("there is a row %q already; give this one another name", name)
		}
	}
	if err := s.readFields(&w, f, s.fields(&w)); err != nil {
		return nil, err
	}
	if _, _, err := silhouette.Fill(w); err != nil {
		return nil, err
	}
	e := layout.Edit{Act: layout.SetWare, Ware: &w}
	if name != w.Name {
		e.Other = name
	}
	return s.Apply([]layout.Edit{e}, "")
}

// readFields reads the cells that differ from what they were.
func (s *Session) readFields(w *layout.Ware, f, was Fields) error {
	in := s.now.Units
	changed := func(now, was string) bool { return strings.TrimSpace(now) != was }
	if name := strings.TrimSpace(f.Name); name != "" {
		w.Name = name
	}
	if w.Name == "" {
		return errors.New("a row of ware takes a name")
	}
	if changed(f.Count, was.Count) {
		n, err := strconv.Atoi(strings.TrimSpace(f.Count))
		if err != nil || n < 1 || n > document.MostPots {
			return fmt.Errorf("the count is %q; type a whole number from 1 to %d", f.Count, document.MostPots)
		}
		w.Count = n
	}
	if changed(f.Height, was.Height) {
		mm, err := measure.ParsePositive(f.Height, in)
		if err != nil {
			return fmt.Errorf("height: %w", err)
		}
		setHeight(w, mm)
	}
	if changed(f.Across, was.Across) {
		if err := setAcross(w, f.Across, in); err != nil {
			return fmt.Errorf("across: %w", err)
		}
	}
	if changed(f.Foot, was.Foot) {
		mm, err := lengthOrNone(f.Foot, in)
		if err != nil {
			return fmt.Errorf("foot: %w", err)
		}
		setFoot(w, mm)
	}
	if changed(f.Mass, was.Mass) {
		w.Mass = 0
		if strings.TrimSpace(f.Mass) != "" {
			kg, err := measure.ParseMass(f.Mass)
			if err != nil {
				return fmt.Errorf("mass: %w", err)
			}
			w.Mass = kg
		}
	}
	return s.readWords(w, f, was)
}

// readWords reads the cells that hold words.
func (s *Session) readWords(w *layout.Ware, f, was Fields) error {
	var err error
	if strings.TrimSpace(f.Glaze) != was.Glaze {
		if w.Glaze, err = readMaterial(f.Glaze); err != nil {
			return fmt.Errorf("glaze: %w", err)
		}
	}
	if strings.TrimSpace(f.Clay) != was.Clay {
		if w.Clay, err = readMaterial(f.Clay); err != nil {
			return fmt.Errorf("clay: %w", err)
		}
	}
	w.Owner, w.Ticket = strings.TrimSpace(f.Owner), strings.TrimSpace(f.Ticket)
	if w.Since = strings.TrimSpace(f.Since); w.Since != "" && !document.IsDate(w.Since) {
		return fmt.Errorf("waiting since %q; write a date like 2026-10-14", w.Since)
	}
	switch must := layout.Must(strings.TrimSpace(f.Must)); must {
	case layout.Normal, layout.MustGo, layout.Filler:
		w.Must = must
	case "must go":
		w.Must = layout.MustGo
	default:
		return fmt.Errorf("%q is no word for how much it wants to go in; write must, filler, or nothing", f.Must)
	}
	if form := layout.Silhouette(strings.TrimSpace(f.Form)); form != w.Silhouette {
		w.Silhouette = form
	}
	switch stand := layout.StandKind(strings.TrimSpace(f.Stand)); stand {
	case w.Stand.Kind:
	case layout.NoStand, layout.Cookie, layout.Stilt, layout.Wads:
		w.Stand = layout.Stand{Kind: stand}
	default:
		return fmt.Errorf("%q is nothing to stand on; write cookie, stilt, wads, or nothing", f.Stand)
	}
	if f.Flags != nil {
		return setFlags(w, f.Flags)
	}
	return nil
}

func setFlags(w *layout.Ware, words []string) error {
	var flags layout.Flags
	for _, word := range words {
		known := false
		for _, n := range flagNames(&flags) {
			if n.word == strings.TrimSpace(word) {
				*n.on, known = true, true
			}
		}
		if !known {
			return fmt.Errorf("%q says nothing about a pot that is known here", word)
		}
	}
	w.Flags = flags
	return nil
}

// readMaterial reads "buff stoneware, cone 6".
func readMaterial(text string) (layout.Material, error) {
	text = strings.TrimSpace(text)
	name, cone, found := strings.Cut(text, "cone ")
	if !found {
		return layout.Material{Name: text}, nil
	}
	c, err := measure.ParseCone(cone)
	if err != nil {
		return layout.Material{}, err
	}
	return layout.Material{Name: strings.TrimRight(strings.TrimSpace(name), ", "), Cone: c}, nil
}

// lengthOrNone reads a length; nothing is 0.
func lengthOrNone(text string, in measure.Units) (float64, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	return measure.ParsePositive(text, in)
}
