package planner

import (
	"sort"

	"threepost/layout"
	"threepost/layout/stacks"
)

// kind is a row of ware, or a cone pack, as the planner weighs it.
type kind struct {
	name  string
	ware  *layout.Ware     // nil for a cone pack
	cones *layout.ConePack // nil for ware
	body  *stacks.Body
	free  []layout.Pot // pots that have no place yet, in order
	value float64      // of one pot in the plan's eyes
	worth float64      // of one pot, as it is reported: kiln space or the person's value
	must  bool
	apart float64 // factor on the pot to pot gap: 2 for ware that bloats, spits or is refired
	fume  fume
}

// fume tells ware that gives off colour from ware that takes it.
type fume int

const (
	fumeNeutral fume = iota
	fumeGives
	fumeTakes
)

// Ranks of waiting: a row that has waited longer is worth a little more, a
// filler a fraction.
const (
	fillerShare = 0.2
	waitingGain = 0.02 // per place in the order of waiting, at most five
)

// kindsOf gathers the ware rows and cone packs of a load, in its order.
func kindsOf(l *layout.Load) ([]*kind, error) {
	left := map[string]bool{}
	for _, name := range l.Wishes.LeaveOut {
		left[name] = true
	}
	ranks := waitingRanks(l)
	var out []*kind
	for i := range l.Ware {
		w := &l.Ware[i]
		body, err := stacks.BodyOf(l, w)
		if err != nil {
			return nil, err
		}
		k := &kind{name: w.Name, ware: w, body: body, must: w.Must == layout.MustGo, apart: 1, worth: body.Value}
		k.value = k.worth * (1 + float64(waitingGain*float64(ranks[w.Since])))
		if w.Must == layout.Filler {
			k.value *= fillerShare
		}
		if w.Flags.Refire || w.Flags.Bloats || w.Flags.Spits {
			k.apart = 2
		}
		switch {
		case w.Flags.Fuming:
			k.fume = fumeGives
		case w.Flags.FumeShy:
			k.fume = fumeTakes
		}
		if !left[w.Name] {
			k.free = w.Pots()
		}
		out = append(out, k)
	}
	for i := range l.Cones {
		c := &l.Cones[i]
		body, err := stacks.ConeBody(l, c)
		if err != nil {
			return nil, err
		}
		out = append(out, &kind{name: c.Name, cones: c, body: body, must: true, apart: 1, value: conesValue,
			free: []layout.Pot{{Ware: c.Name}}})
	}
	return out, nil
}

// waitingRanks orders the dates that rows have waited since: 0 for the newest
// or none, up to 5 for the oldest.
func waitingRanks(l *layout.Load) map[string]int {
	var dates []string
	seen := map[string]bool{}
	for _, w := range l.Ware {
		if w.Since != "" && !seen[w.Since] {
			seen[w.Since] = true
			dates = append(dates, w.Since)
		}
	}
	sort.Sort(sort.Reverse(sort.StringSlice(dates)))
	ranks := map[string]int{}
	for i, d := range dates {
		ranks[d] = min(i+1, 5)
	}
	return ranks
}

// conesValue is what a cone pack counts as, in litres, among the musts.
const conesValue = 2
