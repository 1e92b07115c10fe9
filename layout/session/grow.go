package session

import (
	"fmt"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
)

// grid puts a measure of a pot on the grid of 0.1 mm.
func grid(mm float64) float64 { return float64(int(float64(mm*10)+0.5)) / 10 }

// setHeight makes a row so high. A profile is drawn out with it.
func setHeight(w *layout.Ware, mm float64) {
	old := w.Height
	if n := len(w.Profile); n > 0 {
		old = w.Profile[n-1].Height
		w.Profile = append([]layout.Knot(nil), w.Profile...)
		for i := range w.Profile {
			w.Profile[i].Height = grid(w.Profile[i].Height * mm / old)
		}
		w.Profile[n-1].Height = mm
	}
	if old > 0 && mm < old { // handles stay within the pot
		w.Handles = append([]layout.Handle(nil), w.Handles...)
		for i := range w.Handles {
			h := &w.Handles[i]
			h.From, h.To = grid(h.From*mm/old), grid(h.To*mm/old)
		}
	}
	if w.Height > 0 || len(w.Profile) == 0 {
		w.Height = mm
	}
}

// widest is the greatest diameter of a profile, mm.
func widest(w *layout.Ware) float64 {
	most := 0.0
	for _, k := range w.Profile {
		most = max(most, k.Diameter)
	}
	return most
}

// setAcross makes a row so wide: one figure, or length × width.
func setAcross(w *layout.Ware, text string, in measure.Units) error {
	parts := strings.Split(strings.NewReplacer("×", "x", "by", "x").Replace(text), "x")
	if len(parts) > 2 {
		return fmt.Errorf("%q has %d sizes; type one, or length × width", text, len(parts))
	}
	a, err := measure.ParsePositive(parts[0], in)
	if err != nil {
		return err
	}
	if len(parts) == 2 {
		b, err := measure.ParsePositive(parts[1], in)
		if err != nil {
			return err
		}
		w.Length, w.Width, w.Across = max(a, b), min(a, b), 0
		w.Profile = nil
		return nil
	}
	w.Length, w.Width, w.Plan = 0, 0, ""
	widen(w, a)
	return nil
}

// widen makes round ware so wide at its widest; the profile and the foot grow
// with it.
func widen(w *layout.Ware, mm float64) {
	old := max(w.Across, widest(w))
	if old > 0 {
		w.Profile = append([]layout.Knot(nil), w.Profile...)
		for i := range w.Profile {
			at := &w.Profile[i]
			if at.Diameter == old {
				at.Diameter = mm
			} else {
				at.Diameter = grid(at.Diameter * mm / old)
			}
		}
		if w.Foot > 0 {
			w.Foot = grid(w.Foot * mm / old)
		}
		if len(w.Profile) == 0 {
			w.Profile = nil
		}
	}
	if w.Across > 0 || len(w.Profile) == 0 {
		w.Across = mm
	}
}

// setFoot gives a row a foot; a profile begins at it.
func setFoot(w *layout.Ware, mm float64) {
	w.Foot = mm
	if n := len(w.Profile); n > 0 && mm > 0 {
		w.Profile = append([]layout.Knot(nil), w.Profile...)
		w.Profile[0].Diameter = mm
	}
}
