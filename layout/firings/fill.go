package firings

import "threepost/layout"

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

// names of the furniture of a shared box, as the load of a kiln calls them, are
// those of the box.
func renamedFurniture(l *layout.Load, box *layout.Furniture) {
	shelf, post := map[string]string{}, map[layout.Piece]string{}
	for _, r := range l.Furniture.Shelves {
		for _, b := range box.Shelves {
			bare := b
			bare.Name, bare.Count = r.Name, r.Count
			if bare == r && shelf[r.Name] == "" {
				shelf[r.Name] = b.Name
			}
		}
	}
	for _, r := range l.Furniture.Posts {
		for _, b := range box.Posts {
			bare := b
			bare.Name, bare.Count = r.Name, r.Count
			key := layout.Piece{Height: r.Height, Name: r.Name}
			if _, there := post[key]; bare == r && !there {
				post[key] = b.Name
			}
		}
	}
	for i := range l.Towers {
		for j := range l.Towers[i].Levels {
			v := &l.Towers[i].Levels[j]
			for n := range v.Shelves {
				if now, ok := shelf[v.Shelves[n].Kind]; ok {
					v.Shelves[n].Kind = now
				}
			}
			for _, m := range v.Posts {
				for n := range m {
					if now, ok := post[m[n]]; ok {
						m[n].Name = now
					}
				}
			}
		}
	}
}
