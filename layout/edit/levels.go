package edit

import (
	"math"

	"threepost/layout"
	"threepost/layout/stacks"
)

// makeRoom gives pots more room under a shelf: it is raised, by what the
// plan or else the watch asks, with what is left of the posts or with what
// another level can spare; or levels change places, or the pots go.
func (m *mender) makeRoom() {
	over := m.level(m.f.Things[len(m.f.Things)-1])
	under := m.level(m.f.Things[0])
	if over < 0 {
		return
	}
	l := m.b.Load.Limits(layout.RoomAbove)
	for _, to := range []float64{l.Plan, l.Watch} {
		if to > m.f.Have+1e-6 && m.raise(over, to-m.f.Have) {
			break
		}
	}
	m.swap(under)
	m.backToTable()
}

// raise raises a level by at least so much, if need be by lowering another of
// its tower.
func (m *mender) raise(v int, by float64) bool {
	ups := m.changes(v, by, 3)
	for _, c := range ups {
		if m.tryChanges(c) {
			return true
		}
	}
	for _, c := range ups[:min(len(ups), 2)] {
		for _, w := range m.b.Towers[m.b.Levels[v].Tower].Levels {
			if w == v {
				continue
			}
			for _, d := range m.changes(w, -1e-3, 3) {
				if m.tryChanges(c, d) {
					return true
				}
			}
		}
	}
	return false
}

// lower brings a level, or what it stands on, down to what the lid asks.
func (m *mender) lower() {
	v := m.level(m.f.Things[0])
	if v < 0 {
		return
	}
	l := m.b.Load.Limits(layout.RoomToLid)
	for _, to := range []float64{l.Plan, l.Watch} {
		done := false
		for _, w := range m.under(v) {
			for _, c := range m.changes(w, math.Min(-1e-3, m.f.Have-to), 2) {
				done = done || m.tryChanges(c)
			}
		}
		if done {
			break
		}
	}
	m.swap(v)
	m.backToTable()
}

// under lists a level and all levels that carry it, from itself down.
func (m *mender) under(v int) []int {
	var out []int
	seen := map[int]bool{}
	var walk func(v int)
	walk = func(v int) {
		if seen[v] {
			return
		}
		seen[v] = true
		out = append(out, v)
		t := &m.b.Towers[m.b.Levels[v].Tower]
		for _, w := range t.Levels {
			if m.b.Levels[w].Number == m.b.Levels[v].Number-1 {
				walk(w)
			}
		}
		if m.b.Levels[v].Number == 1 {
			for _, w := range t.On {
				walk(w)
			}
		}
	}
	walk(v)
	return out
}

// swap lets a level change places with another of its tower.
func (m *mender) swap(v int) {
	if v < 0 || m.b.Load.Towers[m.b.Towers[m.b.Levels[v].Tower].Index].Levels[m.b.Levels[v].Number-1].Locked {
		return
	}
	t := &m.b.Towers[m.b.Levels[v].Tower]
	for _, w := range t.Levels {
		if w != v && m.try("Swap "+m.place(v)+" and "+m.place(w),
			layout.Edit{Act: layout.SwapLevels, Tower: t.Name, Level: m.b.Levels[v].Number, OtherLevel: m.b.Levels[w].Number}) {
			return
		}
	}
}

// otherHeight hangs the shelf of a finding, or what carries it, at another
// height, as near as will do.
func (m *mender) otherHeight() {
	v := m.level(m.f.Things[0])
	if v < 0 {
		return
	}
	for _, w := range m.under(v) {
		for _, c := range append(m.changes(w, 1e-3, 6), m.changes(w, -1e-3, 6)...) {
			if m.tryChanges(c) {
				break
			}
		}
	}
	m.swap(v)
}

// evenPosts gives all posts of a level one height, or fewer pieces.
func (m *mender) evenPosts() {
	v := m.level(m.f.Things[0])
	if v < 0 {
		return
	}
	now := m.tall(v)
	n := len(m.b.Levels[v].Posts)
	for _, h := range m.catalogue().Heights(n, m.stock(v)) {
		if math.Abs(h.Real-now) < same && m.tryChanges(change{v, h.Posts, h.Real - now}) {
			return
		}
	}
	for _, c := range append(m.changes(v, 1e-3, 3), m.changes(v, -1e-3, 3)...) {
		if m.tryChanges(c) {
			return
		}
	}
}

// agree brings the supports of a tower to one height.
func (m *mender) agree() {
	if len(m.f.Things) < 3 || m.f.Things[1].Kind != layout.ThingLevel {
		m.moveLines()
		return
	}
	high, low := m.level(m.f.Things[1]), m.level(m.f.Things[2])
	if high < 0 || low < 0 {
		return
	}
	for _, c := range m.changes(low, m.f.Have-1, 4) {
		m.tryChanges(c)
	}
	for _, c := range m.changes(high, 1-m.f.Have, 4) {
		m.tryChanges(c)
	}
}

// otherPieces builds posts of the same heights without the pieces that are
// short, level by level from the top.
func (m *mender) otherPieces() {
	var done []change
	stock := m.stock()
	for v := len(m.b.Levels) - 1; v >= 0; v-- {
		posts := m.b.Levels[v].Posts
		if !m.usesShort(v, stock) {
			continue
		}
		try := stock.Clone()
		for _, p := range posts {
			try.Return(m.b.Posts[p].MakeUp, 1)
		}
		for _, h := range m.catalogue().Heights(len(posts), try) {
			if math.Abs(h.Real-m.tall(v)) >= same {
				continue
			}
			c := change{v, h.Posts, 0}
			if m.trySaying(func(*stacks.Built) string { return m.say(c) }, m.edit(c)) {
				return
			}
			done, stock = append(done, c), try
			for _, up := range h.Posts {
				stock.Take(up, 1)
			}
			if len(done) > 1 && m.tryChanges(done...) {
				return
			}
		}
	}
}

// usesShort tells whether a level uses a piece of which too many are taken.
func (m *mender) usesShort(v int, s *stacks.Stock) bool {
	for _, p := range m.b.Levels[v].Posts {
		for _, piece := range m.b.Posts[p].MakeUp {
			for i := range m.b.Load.Furniture.Posts {
				k := &m.b.Load.Furniture.Posts[i]
				if k.Height == piece.Height && k.Name == piece.Name && s.Posts[i] < 0 {
					return true
				}
			}
		}
	}
	return false
}
