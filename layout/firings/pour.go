package firings

import (
	"sort"

	"threepost/layout"
)

// pour lets what suits several firings fill the less full of them. What a
// firing holds already stays in it. It is done once, when all firings of what
// suits one class alone are made; what finds no place gets firings of its own.
// True when there is more to do after it.
func (s *splitter) pour() bool {
	if s.poured {
		return false
	}
	s.poured = true
	var part []*made
	for _, m := range s.firings {
		if !m.waits && !m.kept {
			m.fill = s.fillOf(m)
			part = append(part, m)
		}
	}
	sort.SliceStable(part, func(i, j int) bool { return part[i].fill < part[j].fill })
	for _, m := range part {
		if s.stopped {
			return false
		}
		s.pourInto(m)
	}
	s.cache = map[[2]int]*trial{}
	for i := range s.lots {
		if l := &s.lots[i]; l.left > 0 && len(l.wants) > 1 {
			return true
		}
	}
	return false
}

// pourInto plans a firing anew with what else suits it, and keeps that where
// all that it held before has its place.
func (s *splitter) pourInto(m *made) {
	var offered []part
	more := false
	hold := map[int]int{}
	for i := range s.lots {
		l := &s.lots[i]
		n := m.set[i]
		if n > 0 {
			hold[i] = n
		}
		for _, c := range l.wants {
			if c == m.class && len(l.wants) > 1 && l.left > 0 && n == 0 {
				n = l.left
				more = true
			}
		}
		if n > 0 {
			offered = append(offered, part{i, n})
		}
	}
	if !more {
		return
	}
	s.hold, s.bare = hold, m.bare
	t, _ := s.try(m.kiln, m.class, offered, m.box, s.asked.Work)
	s.hold, s.bare = nil, false
	if t == nil || t.pots <= m.pots {
		return
	}
	for lot, n := range hold {
		if t.set[lot] < n {
			return
		}
	}
	for lot, n := range t.set {
		s.lots[lot].left -= n - m.set[lot]
		s.setPots += n - m.set[lot]
	}
	t.load.Firing = m.load.Firing
	m.trial = t
	m.fill = 0
	m.why = append(m.why, "Ware that suits several firings fills this one, the less full.")
}

// holding makes what a firing holds already go before all that is poured in,
// and what was passed over before what came later.
func (s *splitter) holding(lot int, w *layout.Ware) {
	if s.raised[lot] {
		w.Must = layout.MustGo
	}
	if s.hold == nil {
		return
	}
	w.Must = layout.Normal
	if s.hold[lot] > 0 {
		w.Must = layout.MustGo
	}
}
