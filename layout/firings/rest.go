package firings

import "threepost/layout"

// RestLoad is what no firing of the split holds, as a load of the studio's first
// kiln with nothing set: it can be split or planned another day. It is nil when
// nothing waits.
func (a *Answer) RestLoad(s Studio) *layout.Load {
	if len(a.Rest) == 0 {
		return nil
	}
	l := s.Kilns[0].Load.Clone()
	l.Towers, l.Ware, l.Wishes.LeaveOut = nil, nil, nil
	l.Firing.Date = ""
	l.Title = "What waits"
	if t := s.Kilns[0].Load.Title; t != "" {
		l.Title = t + ", what waits"
	}
	left := map[string]bool{}
	for k := range s.Kilns {
		for _, name := range s.Kilns[k].Load.Wishes.LeaveOut {
			if now := a.Renamed[k][name]; now != "" {
				name = now
			}
			left[name] = true
		}
	}
	for _, r := range a.Rest {
		w := r.Ware
		// What a bisque load need not say is said in a load of another stage.
		if w.Dry == layout.DryUnknown && stage(s.Kilns[r.Kiln].Load.Firing) == layout.Bisque && stage(l.Firing) != layout.Bisque {
			w.Dry = layout.BoneDry
		}
		l.Ware = append(l.Ware, w)
		if left[w.Name] {
			l.Wishes.LeaveOut = append(l.Wishes.LeaveOut, w.Name)
		}
	}
	l.Wishes = wishesFor(l, a.Renamed[0])
	l.Accepted = acceptedFor(l, false)
	return l
}

// wishesFor is a load's wishes for the rows it has, which may go by new names.
func wishesFor(l *layout.Load, renamed map[string]string) layout.Wishes {
	w := l.Wishes.Clone()
	for i := range w.Off {
		if name := renamed[w.Off[i].Ware]; name != "" {
			w.Off[i].Ware = name
		}
	}
	return w.Of(l.Ware)
}
