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
		s.placePacks(g, less.loose)
		s.fillAll(g, firstWork, 3)
		if c := s.verify(g); c != nil && c.beats(s.best) {
			s.note(c)
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
		d.way = way{}
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

// withoutEmpty is a candidate without its storeys on which nothing stands, the
// pots of the others moved along with their shelves, where that passes the
// check.
func (s *Search) withoutEmpty(c *candidate) *candidate {
	for !c.frame.kept {
		less := s.dropOne(c)
		if less == nil {
			break
		}
		c = less
	}
	return c
}

// dropOne does without one storey while another stands empty: with the pots
// where they stood, else packed anew. It is nil when neither holds as much.
func (s *Search) dropOne(c *candidate) *candidate {
	empty := false
	for _, st := range c.frame.storeys {
		empty = empty || len(st.set)+len(st.fixed) == 0
	}
	if !empty {
		return nil
	}
	asGood := func(now *candidate) bool {
		return now != nil && now.musts >= c.musts-1e-9 && now.value >= c.value-1e-9 && now.watch <= c.watch && now.deaf <= c.deaf && now.roams <= c.roams && now.unseen <= c.unseen
	}
	for _, d := range s.thinner(c.frame) {
		g, err := s.erect(d)
		if err != nil {
			continue
		}
		s.hear(g)
		if moveAlong(s, c.frame, g) {
			if now := s.verify(g); asGood(now) {
				return now
			}
		}
		if g, err = s.erect(d); err != nil {
			continue
		}
		s.placePacks(g, d.loose)
		s.fillAll(g, firstWork, 5)
		now := s.verify(g)
		if now == nil {
			continue
		}
		w := &walk{at: now, best: now}
		for again := 0; !asGood(w.best) && again < restackRounds; again++ {
			s.step(w)
		}
		if asGood(w.best) {
			return w.best
		}
	}
	return nil
}

// moveAlong sets what stands on the storeys of one frame on those of another of
// the same sites: each on the lowest free storey of its site that takes it. It
// reports whether all found a place.
func moveAlong(s *Search, from, to *frame) bool {
	used := make([]bool, len(to.storeys))
	for _, old := range from.storeys {
		if len(old.set)+len(old.fixed) == 0 {
			continue
		}
		need := 0.0
		for _, p := range append(append([]placed(nil), old.set...), old.fixed...) {
			need = max(need, s.context.kinds[p.kind].body.Height)
		}
		best := -1
		for j, st := range to.storeys {
			if st.site == old.site && !used[j] && st.fits(need) && s.context.takesAll(st, old.set) && (best < 0 || st.tallest() < to.storeys[best].tallest()) {
				best = j
			}
		}
		if best < 0 {
			return false
		}
		used[best] = true
		to.storeys[best].set = append([]placed(nil), old.set...)
		to.storeys[best].fixed = append([]placed(nil), old.fixed...)
		to.storeys[best].tubes = append([]tube(nil), old.tubes...)
	}
	return true
}
