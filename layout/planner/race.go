package planner

import "sort"

// Figures of the race.
const (
	tryEvery = 6000 // units of work on walks for which one more design is tried
	mixEvery = 20000
	hope     = 0.05 // share by which a walk is expected to grow from little work
	hopeWork = 6000 // and the units by which half of that is over
)

// enlist lets a candidate's design take part in the race, from that candidate
// on where it is the best of its design.
func (s *Search) enlist(c *candidate) {
	for _, w := range s.walks {
		if w.best.frame.design == c.frame.design {
			if c.beats(w.best) {
				w.at, w.best, w.barren = c, c, 0
			}
			return
		}
	}
	s.walks = append(s.walks, &walk{at: c, best: c})
}

// round works a little on one of the designs, or tries another.
func (s *Search) round() {
	s.idle++
	switch {
	case s.spent >= s.nextTry && s.loosen():
		s.nextTry = s.spent + tryEvery
		return
	case len(s.queue) > 0 && s.spent >= s.nextTry && !s.fulfilled():
		s.tryNext()
		s.nextTry = s.spent + tryEvery
		return
	case s.spent >= s.nextMix && !s.best.frame.kept:
		s.mix()
		s.nextMix = s.spent + mixEvery
		return
	}
	w := s.turn()
	before := s.spent
	if s.idle%freshStart == 0 { // steps bring nothing more: pack it anew from another seed
		f := w.best.frame.clone()
		for _, st := range f.storeys {
			st.set = nil
		}
		s.fillAll(f, closerWork, uint64(100*s.rounds))
		if c := s.verify(f); c != nil {
			w.at = c
			if c.beats(w.best) {
				s.record(w, c)
			}
		}
	} else if s.step(w) {
		s.record(w, w.best)
	}
	w.spent += max(1, s.spent-before)
}

// record takes note of a walk's new best.
func (s *Search) record(w *walk, c *candidate) {
	w.best = c
	s.note(c)
	if c.beats(s.best) {
		s.best = c
		s.idle = 0
	}
}

// turn is the walk whose turn it is: the best by what they hold and may be
// hoped to hold get most, each place half as much as the one before.
func (s *Search) turn() *walk {
	order := append([]*walk(nil), s.walks...)
	lead := s.best
	promise := func(w *walk) float64 {
		v := w.best.weighed() * (1 + float64(hope*hopeWork)/float64(hopeWork+w.spent))
		if w.best.musts < lead.musts-1e-9 || w.best.watch > lead.watch || w.best.deaf > lead.deaf {
			v *= 0.9
		}
		return v
	}
	sort.SliceStable(order, func(i, j int) bool { return promise(order[i]) > promise(order[j]) })
	var next *walk
	least, share := 0.0, 1.0
	for _, w := range order[:min(len(order), racers)] {
		if due := float64(w.spent) / share; next == nil || due < least {
			next, least = w, due
		}
		share *= 0.6
	}
	return next
}

// racers is how many walks are worked on at a time.
const racers = 6

// tryNext packs the next design of the queue.
func (s *Search) tryNext() {
	if len(s.queue) == 0 {
		return
	}
	d := s.queue[0]
	s.queue = s.queue[1:]
	s.try(d, firstWork)
}
