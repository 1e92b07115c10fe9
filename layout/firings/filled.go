package firings

import (
	"math"

	"threepost/layout"
	"threepost/layout/stacks"
)

// lessFull is the share of a firing's value that may be given up so that nothing
// goes before what waits longer, or so that fume and what takes its colour part.
// For the oldest of the list, as much as oldShare of a firing, it may be
// lessForOld: low wide pots take a shelf and few litres, and have to go some day.
const (
	lessFull   = 0.05
	lessForOld = 0.3
	oldShare   = 0.5
)

// filled is the trial of a kiln for a class with all that may go in it: planned
// freely, then, where some has to wait, without what gives off fume beside what
// takes its colour, and with what waits longest before what came later.
func (s *splitter) filled(k, c int, box layout.Furniture) *trial {
	offered := s.offer(k, c)
	if len(offered) == 0 {
		return nil
	}
	t, why := s.try(k, c, offered, box, s.asked.Work)
	if t == nil && s.keeps(k) && !s.stopped {
		s.blocked[k] = why
	}
	if t == nil || !t.waits {
		return t
	}
	t = s.withoutPacks(t, k, c, box)
	if apart := s.apart(k, t.offered); len(apart) < len(t.offered) {
		t = s.parted(t, k, c, apart, box)
	}
	return s.inTime(t, k, c, box)
}

// inTime is the trial with what waits longest in it: first the oldest of the
// list, with whatever fills the kiln beside them, then with nothing that came
// after something that waits, as far as either costs little.
func (s *splitter) inTime(t *trial, k, c int, box layout.Furniture) *trial {
	old := s.oldestOf(t)
	if missing := s.missing(t, old); missing > 0 && !s.stopped {
		s.raised = old
		t = s.unlessPoorer(t, k, c, t.offered, box, lessForOld, func(u *trial) bool { return s.missing(u, old) < missing-1e-9 })
		s.raised = nil
	}
	if late := s.late(t); late > 0 && !s.stopped {
		missing := s.missing(t, old)
		offer := s.oldestFirst(t)
		s.raised = s.passedOver(t)
		t = s.unlessPoorer(t, k, c, offer, box, lessFull, func(u *trial) bool { return s.late(u) < late-1e-9 && s.missing(u, old) <= missing+1e-9 })
		s.raised = nil
	}
	return t
}

// oldestOf are the lots that go before all others, as much as a share of what
// the trial holds.
func (s *splitter) oldestOf(t *trial) map[int]bool {
	var lots []int
	count := map[int]int{}
	for _, o := range t.offered {
		if w := &s.lots[o.lot].ware; stacks.Class(w) > 0 && w.Since != "" && s.hasRoom(t, o.lot) {
			lots = append(lots, o.lot)
			count[o.lot] = o.count
		}
	}
	out := map[int]bool{}
	room := oldShare * t.value
	for _, i := range s.inOrder(lots) {
		if room -= float64(float64(count[i]) * s.worth(t.kiln, i)); room < 0 {
			break
		}
		out[i] = true
	}
	return out
}

// missing is the value of the pots of some lots that a trial leaves out.
func (s *splitter) missing(t *trial, lots map[int]bool) float64 {
	out := 0.0
	for _, o := range t.offered {
		if lots[o.lot] {
			out += float64(float64(o.count-t.set[o.lot]) * s.worth(t.kiln, o.lot))
		}
	}
	return out
}

// muchMore is by how much a firing has to hold more for its cone packs to stay
// on the table, and poor the share of what the kiln is known to hold below which
// that is tried.
const (
	muchMore = 1.25
	poor     = 0.6
)

// withoutPacks is the trial without cone packs, where those cost most of the
// kiln: packs go before all ware, and a kiln of low pots may have no level as
// tall as they are.
func (s *splitter) withoutPacks(t *trial, k, c int, box layout.Furniture) *trial {
	known := s.most[k]
	s.most[k] = max(known, t.value)
	if len(t.load.Cones) == 0 || t.value > poor*known && known > 0 || s.keeps(k) {
		return t
	}
	s.bare = true
	u, _ := s.try(k, c, t.offered, box, s.asked.Work)
	s.bare = false
	if u == nil || u.value < muchMore*t.value || u.musts < t.musts-1e-9 {
		return t
	}
	s.most[k] = max(s.most[k], u.value)
	return u
}

// parted is the trial without the lesser group of ware that is best fired apart
// from the other, where no firing more comes of it, as far as the values tell.
func (s *splitter) parted(t *trial, k, c int, apart []part, box layout.Furniture) *trial {
	s.bare = t.bare
	u, _ := s.try(k, c, apart, box, s.asked.Work)
	s.bare = false
	if u == nil || u.musts < t.musts-1e-9 {
		return t
	}
	whole := 0.0
	for _, o := range t.offered {
		if s.hasRoom(t, o.lot) {
			whole += float64(float64(o.count) * s.worth(k, o.lot))
		}
	}
	more := func(now *trial) float64 { return math.Ceil((whole-now.value)/((1-lessFull)*t.value) - 1e-6) }
	if u.value < (1-lessFull)*t.value && more(u) > more(t) {
		return t
	}
	u.waits = true
	return u
}

// unlessPoorer is the trial with another offer where that holds nearly as much
// and no less of the must-go pots, and is better in the way that is asked.
func (s *splitter) unlessPoorer(t *trial, k, c int, offered []part, box layout.Furniture, less float64, better func(*trial) bool) *trial {
	if len(offered) == 0 {
		return t
	}
	s.bare = t.bare
	u, _ := s.try(k, c, offered, box, s.asked.Work)
	s.bare = false
	if u == nil || u.musts < t.musts-1e-9 || u.value < (1-less)*t.value || !better(u) {
		return t
	}
	u.waits = true // what it was not offered waits
	return u
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
	waiting := s.firstWaiting(t)
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

// firstWaiting is the row that goes before all others of which a trial leaves
// pots out though they have a place in an emptier kiln, or nil.
func (s *splitter) firstWaiting(t *trial) *layout.Ware {
	var first *layout.Ware
	for _, o := range t.offered {
		l := &s.lots[o.lot]
		if t.set[o.lot] < o.count && s.hasRoom(t, o.lot) && (first == nil || stacks.Before(&l.ware, first) < 0) {
			first = &l.ware
		}
	}
	return first
}

// passedOver are the lots of which a trial leaves pots out though something
// that comes after them is in.
func (s *splitter) passedOver(t *trial) map[int]bool {
	var last *layout.Ware
	for _, lot := range t.sortedLots() {
		if w := &s.lots[lot].ware; last == nil || stacks.Before(last, w) < 0 {
			last = w
		}
	}
	out := map[int]bool{}
	for _, o := range t.offered {
		if last != nil && t.set[o.lot] < o.count && s.hasRoom(t, o.lot) && stacks.Before(&s.lots[o.lot].ware, last) < 0 {
			out[o.lot] = true
		}
	}
	return out
}

// hasRoom tells whether a lot of which a trial leaves pots out goes in an
// emptier kiln.
func (s *splitter) hasRoom(t *trial, lot int) bool {
	return t.set[lot] > 0 || s.alone(t.kiln, t.class, lot) == ""
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
