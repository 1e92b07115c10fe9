package clearance

import (
	"strconv"

	"threepost/layout"
	"threepost/layout/stacks"
)

func itoa(n int) string { return strconv.Itoa(n) }

// furniture tells what the load takes more of than is owned.
func (r *run) furniture() {
	s := stacks.NewStock(&r.b.Load.Furniture)
	s.Use(r.b)
	for _, f := range s.Missing() {
		label := string(f.Kind) + " " + f.Name
		if f.Size > 0 {
			label = string(f.Kind) + " " + strconv.FormatFloat(f.Size, 'g', -1, 64) + f.Name
		}
		say := "The load takes " + number(f.Count) + " " + r.piece(f) + "; you own " + number(max(0, f.Owned)) + "."
		if f.Owned <= 0 && f.Listed < 0 {
			say = stacks.SayShort(f, r.b.Load.Units)
		}
		r.add(layout.OwnedCount, layout.Problem, say,
			measured{have: float64(max(0, f.Owned)), need: float64(f.Count), plan: float64(f.Count)},
			[]layout.Thing{{Kind: layout.ThingKiln, Name: label}}, label)
	}
}

// piece says several of a row of furniture: "half shelves", "posts of 75".
func (r *run) piece(f stacks.Fetch) string {
	if f.Kind != stacks.FetchPost && f.Kind != stacks.FetchSpacer {
		return f.What(f.Count, r.b.Load.Units)
	}
	s := pick(f.Count, string(f.Kind), string(f.Kind)+"s") + " of " + r.post(f.Size)
	if f.Name != "" {
		s += " (" + f.Name + ")"
	}
	return s
}
