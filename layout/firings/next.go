package firings

import (
	"threepost/layout"
)

// Next is a load of what waits in another: the same kiln, furniture, rules,
// wishes and firing, nothing set, and of every row the pots that have no place;
// rows that were left out as wished are in it. It is nil when nothing waits.
func Next(l *layout.Load) (next *layout.Load, pots int) {
	set := map[string]int{}
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			for _, p := range v.Set {
				set[p.Pot.Ware]++
			}
		}
	}
	n := l.Clone()
	n.Towers, n.Ware, n.Wishes.LeaveOut = nil, nil, nil
	n.Firing.Date = ""
	for _, w := range l.Ware {
		if w.Count -= set[w.Name]; w.Count > 0 {
			n.Ware = append(n.Ware, w)
			pots += w.Count
		}
	}
	if pots == 0 {
		return nil, 0
	}
	n.Wishes = n.Wishes.Of(n.Ware)
	n.Accepted = acceptedFor(n, false)
	n.Title = "Next load"
	if l.Title != "" {
		n.Title = l.Title + ", next load"
	}
	return n, pots
}
