package clearance

import (
	"math"

	"threepost/layout"
)

// waits tells, row by row, what is not set, with the figure that decides
// where there is one.
func (r *run) waits() {
	l := r.b.Load
	set := make([]int, len(l.Ware)+len(l.Cones))
	for i := range r.b.Pots {
		if k := r.b.Pots[i].Kind; k >= 0 && k < len(set) {
			set[k]++
		}
	}
	left := map[string]bool{}
	for _, name := range l.Wishes.LeaveOut {
		left[name] = true
	}
	for k := range l.Ware {
		w := &l.Ware[k]
		if n := w.Count - set[k]; n > 0 {
			r.wait(k, n, left[w.Name])
		}
	}
	for k := range l.Cones {
		if set[len(l.Ware)+k] == 0 {
			name := l.Cones[k].Name
			r.add(layout.Waits, layout.Note, "The cone pack "+quote(name)+" is on the table.", measured{have: 1}, []layout.Thing{{Kind: layout.ThingCones, Name: name}}, name)
		}
	}
}

func (r *run) wait(kind, n int, leftOut bool) {
	w := &r.b.Load.Ware[kind]
	s := sentence(r.names.count(kind, n)) + pick(n, " waits", " wait")
	tallest, level := 0.0, -1
	for i := range r.b.Levels {
		if t := r.b.TakesMost(i); t > tallest {
			tallest, level = t, i
		}
	}
	high := r.heightOf(kind)
	m := measured{have: float64(n)}
	switch {
	case leftOut:
		s += ", as you wished."
	case level < 0:
		s += ": no level stands yet."
	case high > tallest+tol:
		s += ": " + r.up(high) + " high, and " + r.names.level(level) + ", the tallest level, takes " + r.down(tallest) + "."
		m.have, m.need, m.plan = tallest, high, high
	default:
		take := 0
		for i := range r.b.Levels {
			if r.b.TakesMost(i) >= high-tol {
				take++
			}
		}
		s += ", " + r.up(high) + " high. " + ofLevels(take, len(r.b.Levels)) + " that height."
	}
	r.add(layout.Waits, layout.Note, s, m, []layout.Thing{{Kind: layout.ThingWare, Name: w.Name}}, w.Name)
}

// ofLevels says how many levels take something.
func ofLevels(n, of int) string {
	switch {
	case of == 1:
		return "The level takes"
	case n == of && of == 2:
		return "Both levels take"
	case n == of:
		return "All " + number(of) + " levels take"
	case n == 1:
		return "One of the " + number(of) + " levels takes"
	}
	return sentence(number(n)) + " of the " + number(of) + " levels take"
}

// heightOf is how high a row stands, with allowance and stand, as far as a set
// pot tells, else from its measures.
func (r *run) heightOf(kind int) float64 {
	for i := range r.b.Pots {
		if r.b.Pots[i].Kind == kind {
			return r.b.Pots[i].Body.Height
		}
	}
	w := &r.b.Load.Ware[kind]
	allow := r.b.Load.Limits(layout.AllowHigh).Plan
	if w.HighAllowance != nil {
		allow = *w.HighAllowance
	}
	high := w.Height
	if len(w.Profile) > 0 {
		high = math.Max(high, w.Profile[len(w.Profile)-1].Height)
	}
	if w.LidOn == nil || *w.LidOn {
		high += w.Knob
	}
	return high + allow + w.Stand.Height
}

func quote(s string) string { return "\"" + s + "\"" }
