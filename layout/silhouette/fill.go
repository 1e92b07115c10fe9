package silhouette

import (
	"fmt"
	"math"

	"threepost/layout"
)

// Longest is the greatest measure a pot can have, mm: no kiln that people
// load by hand is wider or higher.
const Longest = 10000

// Fill gives w what the person left empty: silhouette, height and width from
// the profile, plan, foot, profile, handles, spout and knob. It returns the
// names of what was assumed, in that order ("foot", "profile", "handle",
// "spout", "knob", "plan"); what merely follows from what was given, such as
// a height from a profile, is not assumed. It refuses measures that make no
// pot, with a sentence that names the row.
//
// Ware that has a Length or a Width is oblong, else it is round with Across.
// A box, a tile or an oval baker of which only Across is known is given a
// square plan of that side or, for the baker, stays round: what contains it.
func Fill(w layout.Ware) (layout.Ware, []string, error) {
	f := &filler{w: w}
	f.w.Profile = append([]layout.Knot(nil), w.Profile...)
	f.w.Handles = append([]layout.Handle(nil), w.Handles...)
	if f.w.Silhouette == "" {
		f.w.Silhouette = Guess(w.Name)
	}
	if err := f.measures(); err != nil {
		return w, nil, err
	}
	f.plan()
	if err := f.footAndProfile(); err != nil {
		return w, nil, err
	}
	if err := f.limbs(); err != nil {
		return w, nil, err
	}
	return f.w, f.assumed, nil
}

// Oblong tells whether a row of ware is measured by length and width.
func Oblong(w *layout.Ware) bool { return w.Length > 0 || w.Width > 0 }

type filler struct {
	w       layout.Ware
	assumed []string
}

func (f *filler) assume(what string) { f.assumed = append(f.assumed, what) }

// measures checks every length and takes height and width from a profile.
func (f *filler) measures() error {
	w := &f.w
	for _, m := range []struct {
		name string
		mm   float64
	}{
		{"height", w.Height}, {"width across", w.Across}, {"length", w.Length}, {"width", w.Width},
		{"foot", w.Foot}, {"knob", w.Knob}, {"wall", w.Wall}, {"rise of each piece of the bundle", w.Adds},
	} {
		if err := f.length(m.name, m.mm); err != nil {
			return err
		}
	}
	widest := 0.0
	for i, k := range w.Profile {
		if err := f.length("height of a profile entry", k.Height); err != nil {
			return err
		}
		if err := f.length("diameter of a profile entry", k.Diameter); err != nil {
			return err
		}
		if i > 0 && k.Height < w.Profile[i-1].Height {
			return fmt.Errorf("%s: profile entry %d lies at %s, under the entry before it; list them from the foot up", w.Name, i+1, figure(k.Height))
		}
		widest = math.Max(widest, k.Diameter)
	}
	if n := len(w.Profile); n > 0 {
		w.Height = math.Max(w.Height, w.Profile[n-1].Height)
		if Oblong(w) {
			w.Length = math.Max(w.Length, widest)
		} else {
			w.Across = math.Max(w.Across, widest)
		}
	}
	if w.Height == 0 {
		return fmt.Errorf("%s: the height is missing; measure from the table to the highest point", w.Name)
	}
	if w.Across == 0 && !Oblong(w) {
		return fmt.Errorf("%s: the width is missing; measure across the widest place", w.Name)
	}
	return nil
}

// length refuses a length that no pot has. 0 means not said.
func (f *filler) length(name string, mm float64) error {
	switch {
	case math.IsNaN(mm) || math.IsInf(mm, 0):
		return fmt.Errorf("%s: the %s is not a number; give it in mm", f.w.Name, name)
	case mm < 0:
		return fmt.Errorf("%s: the %s is %s, less than 0; give it in mm", f.w.Name, name, figure(mm))
	case mm > Longest:
		return fmt.Errorf("%s: the %s is %s mm, over 10 m; check the figure and its unit", f.w.Name, name, figure(mm))
	}
	return nil
}

// plan decides between oval and rectangle and completes length and width.
func (f *filler) plan() {
	w := &f.w
	square := w.Silhouette == layout.Box || w.Silhouette == layout.Tile || w.Plan == layout.Rectangle
	if !Oblong(w) {
		if !square {
			return
		}
		w.Length, w.Width = w.Across, w.Across
		f.assume("plan")
	}
	if w.Length == 0 {
		w.Length = w.Width
	}
	if w.Width == 0 {
		w.Width = w.Length
	}
	if w.Plan == "" {
		w.Plan = layout.Rectangle
		if w.Silhouette == layout.OvalBaker {
			w.Plan = layout.Oval
		}
	}
	w.Across = 0
}

// footAndProfile fills the foot and the profile.
func (f *filler) footAndProfile() error {
	w := &f.w
	full := w.Across
	if Oblong(w) {
		full = w.Length
	}
	if w.Foot == 0 && len(w.Profile) > 0 {
		w.Foot = w.Profile[0].Diameter
	}
	if w.Foot > full {
		return fmt.Errorf("%s: the foot is %s and the pot only %s across; check the two figures", w.Name, figure(w.Foot), figure(full))
	}
	form := formKnots(w.Silhouette)
	if w.Foot == 0 {
		w.Foot = math.Min(full, math.Round(form[0].wide*full))
		f.assume("foot")
	}
	if len(w.Profile) > 0 {
		w.Measured = w.Measured && len(w.Profile) > 1
		return nil
	}
	w.Measured = false
	base := form[0].wide
	for i, k := range form {
		d := k.wide
		switch {
		case i == 0:
			d = w.Foot
		case d == 1:
			d = full
		case d >= base && base < 1:
			// between the foot that is and the width that is, as far as in the form
			d = w.Foot + float64((full-w.Foot)*(d-base)/(1-base))
		default:
			d = d * full
		}
		w.Profile = append(w.Profile, layout.Knot{Height: k.up * w.Height, Diameter: math.Min(d, full)})
	}
	f.assume("profile")
	return nil
}

// limbs fills handle, spout and knob, and checks those that were given.
func (f *filler) limbs() error {
	w := &f.w
	size := w.Across
	if Oblong(w) {
		size = w.Width
	}
	if len(w.Handles) == 0 {
		if h, ok := handleOf(w.Silhouette, w.Height, size); ok {
			w.Handles = []layout.Handle{h}
			f.assume("handle")
		}
	}
	if w.Spout == nil {
		if s, ok := spoutOf(w.Silhouette, w.Height, size); ok {
			w.Spout = &s
			f.assume("spout")
		}
	} else {
		s := *w.Spout
		if s.At == 0 && len(w.Handles) > 0 {
			s.At = 180 // nobody pours over the handle
		}
		w.Spout = &s
	}
	if w.Knob == 0 && (w.Silhouette == layout.LiddedJar || w.Silhouette == layout.Teapot) && (w.LidOn == nil || *w.LidOn) {
		w.Knob = math.Max(10, math.Round(0.16*size))
		f.assume("knob")
	}
	for i := range w.Handles {
		if err := f.limb("handle", &w.Handles[i]); err != nil {
			return err
		}
	}
	if w.Spout != nil {
		return f.limb("spout", w.Spout)
	}
	return nil
}

// limb completes one handle or spout: no height said means the whole pot's.
func (f *filler) limb(name string, h *layout.Handle) error {
	for _, m := range []struct {
		name string
		mm   float64
	}{{"reach of a " + name, h.Reach}, {"foot of a " + name, h.From}, {"top of a " + name, h.To}, {"thickness of a " + name, h.Thick}} {
		if err := f.length(m.name, m.mm); err != nil {
			return err
		}
	}
	if math.IsNaN(h.At) || math.IsInf(h.At, 0) {
		return fmt.Errorf("%s: the bearing of a %s is not a number; give degrees clockwise after the first handle", f.w.Name, name)
	}
	if h.Thick == 0 {
		h.Thick = 14
	}
	if h.To == 0 {
		h.To = f.w.Height
	}
	if h.To <= h.From {
		return fmt.Errorf("%s: a %s runs from %s up to %s; its top lies over its foot", f.w.Name, name, figure(h.From), figure(h.To))
	}
	return nil
}
