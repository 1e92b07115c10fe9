package firings

import (
	"threepost/layout"
	"threepost/layout/stacks"
)

// lessFull is the share of a firing's value that may be given up so that what
// waits longest goes in, or so that fume and what takes its colour part.
const lessFull = 0.05

// filled is the trial of a kiln for a class with all that may go in it: planned
// freely, then, where some has to wait, without what gives off fume beside what
// takes its colour, and with what waits longest before what came later.
func (s *splitter) filled(k, c int, box layout.Furniture) *trial {
	offered := s.offer(k, c)
	if len(offered) == 0 {
		return nil
	}
	t, why := s.try(k, c, offered, box, s.asked.Work)
	if t == nil {
		for _, o := range offered {
			s.fail(o.lot, k, why)
		}
		return nil
	}
	for lot, reason := range t.reasons {
		if t.set[lot] == 0 {
			s.fail(lot, k, reason)
		}
	}
	if !t.waits {
		return t
	}
	if apart := s.apart(k, t.offered); len(apart) < len(t.offered) {
		t = s.unlessPoorer(t, k, c, apart, box, func(u *trial) bool { return true })
	}
	if late := s.late(t); late > 0 && !s.stopped {
		t = s.unlessPoorer(t, k, c, s.oldestFirst(t), box, func(u *trial) bool { return s.late(u) < late-1e-9 })
	}
	return t
}

// unlessPoorer is the trial with another offer where that holds nearly as much
// and no less of the must-go pots, and is better in the way that is asked.
func (s *splitter) unlessPoorer(t *trial, k, c int, offered []part, box layout.Furniture, better func(*trial) bool) *trial {
	if len(offered) == 0 {
		return t
	}
	u, _ := s.try(k, c, offered, box, s.asked.Work)
	if u == nil || u.musts < t.musts-1e-9 || u.value < (1-lessFull)*t.value || !better(u) {
		return t
	}
	u.waits = true // what it was not offered waits
	return u
}

// fail notes why a lot has no place in a kiln.
func (s *splitter) fail(lot, k int, why string) {
	if s.failed[lot] == nil {
		s.failed[lot] = map[int]string{}
	}
	s.failed[lot][k] = why
}

// apart is an offer without the lesser of two groups that are best fired apart:
// ware that gives off metal fume, and ware that takes its colour. Which one goes
// first is told by the lot that goes first.
func (s *splitter) apart(k int, offered []part) []part {
	var lots []int
	for _, o := range offered {
		lots = append(lots, o.lot)
	}
	gives, takes, first := false, false, 0 // 1: what gives fume goes first
	for _, i := range s.inOrder(lots) {
		f := s.lots[i].ware.Flags
		gives, takes = gives || f.Fuming, takes || f.FumeShy
		switch {
		case first == 0 && f.Fuming:
			first = 1
		case first == 0 && f.FumeShy:
			first = 2
		}
	}
	if !gives || !takes {
		return offered
	}
	var out []part
	for _, o := range offered {
		l := &s.lots[o.lot]
		drop := first == 1 && l.ware.Flags.FumeShy || first == 2 && l.ware.Flags.Fuming
		stays := s.keeps(k) && l.from == k && len(l.kept) > 0
		if !drop || l.must() || stays {
			out = append(out, o)
		}
	}
	return out
}

// late is the value of the pots that a trial sets while others that go before
// them wait, though those have a place in an emptier kiln.
func (s *splitter) late(t *trial) float64 {
	var waiting *layout.Ware
	for _, o := range t.offered {
		l := &s.lots[o.lot]
		if t.set[o.lot] >= o.count || !s.hasRoom(t, o.lot) {
			continue
		}
		if waiting == nil || stacks.Before(&l.ware, waiting) < 0 {
			waiting = &l.ware
		}
	}
	// Of lots that were not offered, none goes before those that were.
	if waiting == nil {
		return 0
	}
	late := 0.0
	for _, lot := range t.sortedLots() {
		if stacks.Before(waiting, &s.lots[lot].ware) < 0 {
			late += float64(float64(t.set[lot]) * s.worth(t.kiln, lot))
		}
	}
	return late
}

// hasRoom tells whether a lot of which a trial set nothing would go in an
// emptier kiln, as far as its reason tells.
func (s *splitter) hasRoom(t *trial, lot int) bool {
	return t.set[lot] > 0 || isFull(t.reasons[lot])
}

// oldestFirst is an offer of what goes first, as much as the trial holds and a
// little more.
func (s *splitter) oldestFirst(t *trial) []part {
	var lots []int
	count := map[int]int{}
	for _, o := range t.offered {
		lots = append(lots, o.lot)
		count[o.lot] = o.count
	}
	room := (1 + lessFull) * t.value
	taken := map[int]int{}
	for _, i := range s.inOrder(lots) {
		if t.set[i] == 0 && !s.hasRoom(t, i) {
			continue
		}
		each := s.worth(t.kiln, i)
		for taken[i] < count[i] && (room > 0 || taken[i] < len(s.lots[i].kept)) {
			taken[i]++
			room -= each
		}
	}
	var out []part
	for _, o := range t.offered {
		if taken[o.lot] > 0 {
			out = append(out, part{o.lot, taken[o.lot]})
		}
	}
	return out
}
