package planner

import "sort"

// slim looks for a plan that sets as much with one shelf less: fewer pieces of
// furniture, fewer joints, less to lift. It tries to do without each storey in
// turn, the emptiest first, and reports whether it found one; when it did not,
// the search is done.
func (s *Search) slim() bool {
	if s.slimmed || s.best == nil || s.best.frame.design.division.sites == nil || s.best.frame.kept {
		s.slimmed = true
		return false
	}
	f := s.best.frame
	for _, less := range s.thinner(f) {
		s.spent++
		g, err := s.erect(less)
		if err != nil {
			continue
		}
		s.placeCones(g)
		s.fillAll(g, firstWork, 3)
		if c := s.verify(g); c != nil && c.beats(s.best) {
			s.tried = append([]*candidate{c}, s.tried...)
			s.best = c
			s.idle = 0
			return true
		}
	}
	s.slimmed = true
	return false
}

// thinner are the designs that a frame's design becomes without one of its
// storeys, the one with the least on it first.
func (s *Search) thinner(f *frame) []*design {
	type cut struct {
		site, storey int
		holds        float64
	}
	var cuts []cut
	for i, st := range f.storeys {
		site := -1
		for j, x := range f.design.division.sites {
			if x == st.site {
				site = j
			}
		}
		if site < 0 || len(f.design.lists[site].heights) == 0 {
			continue
		}
		_, value := s.worth(st.set)
		cuts = append(cuts, cut{site, i, value})
	}
	sort.SliceStable(cuts, func(a, b int) bool { return cuts[a].holds < cuts[b].holds })
	var out []*design
	for _, c := range cuts {
		d := *f.design
		d.lists = append([]list(nil), d.lists...)
		l := d.lists[c.site]
		// The storey's own post height goes; the top storey has none, so the
		// lowest height under it goes instead.
		takes := f.storeys[c.storey].tallest()
		drop, least := 0, 1e300
		for i, h := range l.heights {
			if d := abs(h - s.context.room - takes); d < least {
				drop, least = i, d
			}
		}
		short := append([]float64(nil), l.heights[:drop]...)
		short = append(short, l.heights[drop+1:]...)
		thick := f.design.division.sites[c.site].kind.Thick
		d.lists[c.site] = list{heights: short, rest: l.rest + l.heights[drop] + thick}
		out = append(out, &d)
	}
	return out
}
