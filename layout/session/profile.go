package session

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// form is a profile that is being drawn.
type form struct {
	name string
	ware layout.Ware // with its profile
	told []string    // what was assumed and has not been touched
}

// Profile opens the profile of a row to be drawn. What is not known is
// assumed from the silhouette.
func (s *Session) Profile(ware string) (*Form, error) {
	w, err := s.row(ware)
	if err != nil {
		return nil, err
	}
	filled, told, err := silhouette.Fill(*w)
	if err != nil {
		return nil, err
	}
	c := *w
	c.Profile = append([]layout.Knot(nil), filled.Profile...)
	c.Height, c.Across, c.Foot = filled.Height, filled.Across, filled.Foot
	s.form = &form{name: ware, ware: c, told: told}
	return s.tellForm(), nil
}

// Knot moves a point of the open profile, mm: between its neighbours, the
// first on the shelf. Points lie on whole mm.
func (s *Session) Knot(index int, height, diameter float64) (*Form, error) {
	f := s.form
	switch {
	case f == nil:
		return nil, errors.New("no profile is open")
	case index < 0 || index >= len(f.ware.Profile):
		return nil, fmt.Errorf("the profile has %d points", len(f.ware.Profile))
	case !(math.Abs(height) <= farthest && math.Abs(diameter) <= farthest):
		return nil, errors.New("that is not a measure of a pot")
	}
	p := append([]layout.Knot(nil), f.ware.Profile...)
	h, d := math.Round(height), math.Max(1, math.Round(diameter))
	if index == 0 {
		h = 0
	} else {
		h = math.Max(h, p[index-1].Height+1)
	}
	if index > 0 && index < len(p)-1 {
		h = math.Min(h, p[index+1].Height-1)
		if h <= p[index-1].Height {
			h = p[index].Height
		}
	}
	p[index] = layout.Knot{Height: math.Min(h, silhouette.Longest), Diameter: math.Min(d, silhouette.Longest)}
	f.ware.Profile = p
	f.ware.Height, f.ware.Across = p[len(p)-1].Height, widest(&f.ware)
	if index == 0 {
		f.ware.Foot = p[0].Diameter
	}
	f.told = nil
	return s.tellForm(), nil
}

// mostPoints is how many points a profile is drawn with, more than any form
// needs.
const mostPoints = 40

// AddPoint puts a point in the middle between one and the next above it; over
// the last, between it and the one before.
func (s *Session) AddPoint(index int) (*Form, error) {
	f := s.form
	switch {
	case f == nil:
		return nil, errors.New("no profile is open")
	case index < 0 || index >= len(f.ware.Profile) || len(f.ware.Profile) < 2:
		return nil, fmt.Errorf("the profile has %d points", len(f.ware.Profile))
	case len(f.ware.Profile) >= mostPoints:
		return nil, fmt.Errorf("a profile has %d points at most", mostPoints)
	}
	index = min(index, len(f.ware.Profile)-2)
	low, high := f.ware.Profile[index], f.ware.Profile[index+1]
	if high.Height-low.Height < 2 {
		return nil, errors.New("there is no mm between these points; take another")
	}
	between := layout.Knot{Height: math.Round((low.Height + high.Height) / 2), Diameter: math.Round((low.Diameter + high.Diameter) / 2)}
	f.ware.Profile = slices.Insert(slices.Clone(f.ware.Profile), index+1, between)
	f.told = nil
	return s.tellForm(), nil
}

// RemovePoint takes a point out; the foot and the rim stay.
func (s *Session) RemovePoint(index int) (*Form, error) {
	f := s.form
	switch {
	case f == nil:
		return nil, errors.New("no profile is open")
	case index < 0 || index >= len(f.ware.Profile):
		return nil, fmt.Errorf("the profile has %d points", len(f.ware.Profile))
	case index == 0 || index == len(f.ware.Profile)-1:
		return nil, errors.New("the foot and the rim stay; take out a point between them")
	}
	f.ware.Profile = slices.Delete(slices.Clone(f.ware.Profile), index, index+1)
	f.ware.Across = widest(&f.ware)
	f.told = nil
	return s.tellForm(), nil
}

// Measure sets the open profile's "height", "across" or "foot" by text; its
// points go with it. "point 3 across" and "point 3 height" set one point.
func (s *Session) Measure(what, text string) (*Form, error) {
	f := s.form
	if f == nil {
		return nil, errors.New("no profile is open")
	}
	mm, err := measure.ParsePositive(text, s.now.Units)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", what, err)
	}
	w := f.ware
	switch what {
	case "height":
		setHeight(&w, mm)
	case "across":
		widen(&w, mm)
	case "foot":
		setFoot(&w, mm)
	default:
		return s.measurePoint(what, mm)
	}
	if _, _, err := silhouette.Fill(w); err != nil {
		return nil, err
	}
	f.ware = w
	return s.tellForm(), nil
}

// measurePoint sets the "height" or "across" of one point of the open profile:
// "point 3 height".
func (s *Session) measurePoint(what string, mm float64) (*Form, error) {
	var n int
	var which string
	if _, err := fmt.Sscanf(what, "point %d %s", &n, &which); err != nil || which != "height" && which != "across" {
		return nil, fmt.Errorf("%q is no measure of a profile; it has height, across and foot, and each point has height and across", what)
	}
	p := s.form.ware.Profile
	if n < 1 || n > len(p) {
		return nil, fmt.Errorf("the profile has %d points", len(p))
	}
	k := p[n-1]
	if which == "height" {
		k.Height = mm
	} else {
		k.Diameter = mm
	}
	return s.Knot(n-1, k.Height, k.Diameter)
}

// Keep writes the open profile into its row: one edit.
func (s *Session) Keep() (*State, error) {
	f := s.form
	if f == nil {
		return nil, errors.New("no profile is open")
	}
	w := f.ware
	return s.Apply([]layout.Edit{{Act: layout.SetWare, Ware: &w}}, "draw the profile of "+f.name)
}

// tellForm is the open profile as the page shows it.
func (s *Session) tellForm() *Form {
	f := s.form
	out := &Form{Name: f.name, Height: s.exact(f.ware.Height), Across: s.exact(f.ware.Across), Foot: s.exact(f.ware.Foot), Ware: f.ware, Knots: []FormKnot{}}
	for _, k := range f.ware.Profile {
		out.Knots = append(out.Knots, FormKnot{Height: k.Height, Diameter: k.Diameter, Said: s.near(k.Diameter) + " wide at " + s.near(k.Height),
			HighSaid: s.exact(k.Height), WideSaid: s.exact(k.Diameter)})
	}
	if len(f.told) > 0 {
		out.Assumed = list(f.told) + " assumed"
	}
	kg, litres := estimate(&f.ware)
	if kg > 0 {
		out.Said = "Walls " + s.near(wallOf(&f.ware)) + " thick: " + measure.FormatMass(kg, s.now.Units) + ", holds " + sayVolume(litres, s.now.Units) + ". Estimated."
	}
	body, err := stacks.BodyOf(s.now, &f.ware)
	if err != nil {
		out.Needs = capital(err.Error())
		return out
	}
	room := s.now.Limits(layout.RoomAbove).Plan
	out.Needs = "Needs a level of " + s.up(body.Height+room) + ": " + s.up(body.Height) + " and " + s.up(room) + " above it."
	if b, _ := s.Built(); b != nil && len(b.Levels) > 0 {
		tallest, at := 0.0, 0
		for i := range b.Levels {
			if most := b.TakesMost(i); most > tallest {
				tallest, at = most, i
			}
		}
		out.Fits = tallest+1e-6 >= body.Height
		if out.Fits {
			out.Needs += " " + capital(s.Checker().LevelName(at)) + " has " + s.down(tallest+room) + "."
		} else {
			out.Needs += " The tallest now has " + s.down(tallest+room) + "."
		}
	}
	out.Needs = s.say(out.Needs)
	return out
}

// wallOf is the wall of a row, or 6 mm, as package stacks takes it.
func wallOf(w *layout.Ware) float64 {
	if w.Wall > 0 {
		return w.Wall
	}
	return 6
}

// estimate is the mass of a round pot, kg, and what it holds to the rim,
// litres, from its profile and wall: solids of revolution, straight between
// points, of fired clay at 2.2 g/cm3 (common practice).
func estimate(w *layout.Ware) (kg, litres float64) {
	if len(w.Profile) < 2 || silhouette.Oblong(w) {
		return 0, 0
	}
	wall := wallOf(w)
	outer := revolved(w.Profile, 0, 0)
	inner := revolved(w.Profile, wall, w.Profile[0].Height+wall)
	return (outer - inner) * 2.2e-6, inner * 1e-6
}

// revolved is the volume inside a profile, mm3, above a height, with the wall
// taken off its radius.
func revolved(p []layout.Knot, wall, from float64) float64 {
	sum := 0.0
	for i := 1; i < len(p); i++ {
		a, b := p[i-1], p[i]
		if b.Height <= from || b.Height <= a.Height {
			continue
		}
		if a.Height < from {
			share := (from - a.Height) / (b.Height - a.Height)
			a = layout.Knot{Height: from, Diameter: a.Diameter + float64(share*(b.Diameter-a.Diameter))}
		}
		r, q := math.Max(0, float64(a.Diameter/2)-wall), math.Max(0, float64(b.Diameter/2)-wall)
		sum += float64(math.Pi / 3 * (b.Height - a.Height) * (float64(r*r) + float64(r*q) + float64(q*q)))
	}
	return sum
}

// sayVolume is "690 ml", "1.2 l"; in inches "23 fl oz" (US, 29.57 ml).
func sayVolume(litres float64, in measure.Units) string {
	if in == measure.Inches {
		return fmt.Sprintf("%.0f fl oz", litres*1000/29.5735)
	}
	if litres < 1 {
		return fmt.Sprintf("%.0f ml", math.Round(litres*100)*10)
	}
	return fmt.Sprintf("%.1f l", litres)
}
