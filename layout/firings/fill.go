package firings

// What a kiln holds of some ware is found by offering more and more of it.
const (
	mostTimes = 3   // times that the offer is made larger
	timesMore = 4   // by how much
	mostAsked = 600 // pots
)

// fillRates says of every firing how full it is.
func (s *splitter) fillRates() {
	for _, m := range s.firings {
		if m.fill == 0 {
			m.fill = s.fillOf(m)
		}
	}
}

// fillOf is which share of such ware the kiln holds: 1 when some waited, else
// by a firing of that class and kiln that was full, else by planning the same
// ware several times over. An estimate.
func (s *splitter) fillOf(m *made) float64 {
	if m.waits {
		return 1
	}
	for _, o := range s.firings {
		if o.kiln == m.kiln && o.class == m.class && o.waits && o.value > 0 {
			return min(1, m.value/o.value)
		}
	}
	if m.kept || m.pots == 0 || s.stopped {
		return 1
	}
	most := m.value
	times := 1
	for range mostTimes {
		times *= timesMore
		if m.pots*times > mostAsked {
			times = max(1, mostAsked/m.pots)
		}
		t, _ := s.try(m.kiln, m.class, s.manyOf(m, times), m.box, s.asked.Work/2)
		if t == nil {
			break
		}
		most = max(most, t.value)
		if t.waits || m.pots*times >= mostAsked/timesMore {
			break
		}
	}
	return m.value / most
}

// manyOf is what a firing holds so many times.
func (s *splitter) manyOf(m *made, times int) []part {
	var out []part
	for _, lot := range m.sortedLots() {
		out = append(out, part{lot, m.set[lot] * times})
	}
	return out
}
