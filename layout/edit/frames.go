package edit

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
)

// postOf is the built post of a thing, or -1.
func (m *mender) postOf(t layout.Thing) int {
	v := m.level(t)
	if t.Kind != layout.ThingPost || v < 0 {
		return -1
	}
	for _, p := range m.b.Levels[v].Posts {
		if m.b.Posts[p].Letter == t.Name {
			return p
		}
	}
	return -1
}

// backReach is how far away a post below is still taken for the one that a
// line has lost, mm.
const backReach = 120

// moveLines puts a line back over the post below it, or moves it in under its
// shelf.
func (m *mender) moveLines() {
	for _, t := range m.f.Things {
		i := m.postOf(t)
		if i < 0 {
			continue
		}
		p := &m.b.Posts[i]
		if to, ok := m.below(i); ok && to != p.At {
			if m.moveLine(i, to, "Put "+p.Letter+" back on its line") {
				return
			}
		}
		if len(p.Shelves) == 0 {
			continue
		}
		o := m.b.Shelves[p.Shelves[0]].Outline
		depth, in := o.DepthNormal(p.At)
		l := m.b.Load.Limits(layout.Inset)
		by := math.Max(l.Plan, m.half(i)) - depth
		if by <= 0 {
			continue
		}
		to := plane.Add(p.At, plane.Scale(in, by+0.1))
		if m.moveLine(i, to, "Move post "+p.Letter+" "+m.way(p.At, to)+", on every level") {
			return
		}
	}
}

// half is how far a post's section reaches from its middle, mm.
func (m *mender) half(post int) float64 { return m.b.Posts[post].Solid.Body.Reach() }

// below is where the nearest post of the levels under a post stands.
func (m *mender) below(i int) (plane.Vec, bool) {
	p := &m.b.Posts[i]
	best, at := backReach+0.0, plane.Vec{}
	for k := range m.b.Posts {
		q := &m.b.Posts[k]
		if q.Top > p.Bottom || p.Bottom-q.Top > 60 {
			continue
		}
		if d := plane.Distance(p.At, q.At); d < best {
			best, at = d, q.At
		}
	}
	return at, best < backReach
}

// moveLine moves the line of a post in its own tower, or in every tower that
// has a line at that place.
func (m *mender) moveLine(i int, to plane.Vec, say string) bool {
	p := &m.b.Posts[i]
	own := m.b.Levels[p.Level].Tower
	var all, one []layout.Edit
	for t := range m.b.Towers {
		w := &m.b.Load.Towers[m.b.Towers[t].Index]
		for k := range w.Lines {
			if plane.Distance(w.Lines[k].At, p.At) > 1 {
				continue
			}
			v := gridPlace(to)
			e := layout.Edit{Act: layout.MoveLine, Tower: w.Name, Line: k + 1, At: &v}
			all = append(all, e)
			if t == own && k == p.Line {
				one = append(one, e)
			}
		}
	}
	return m.try(say, one...) || len(all) > 1 && m.try(say, all...)
}

// shelfOf is the built shelf of a thing, or -1.
func (m *mender) shelfOf(t layout.Thing) int {
	v := m.level(t)
	if t.Kind != layout.ThingShelf || v < 0 {
		return -1
	}
	for _, s := range m.b.Levels[v].Shelves {
		if strconv.Itoa(m.b.Shelves[s].Index+1) == t.Name {
			return s
		}
	}
	return -1
}

// moveShelves pushes a shelf away from the wall or from the shelf beside it.
func (m *mender) moveShelves() {
	var shelves []int
	for _, t := range m.f.Things {
		if s := m.shelfOf(t); s >= 0 {
			shelves = append(shelves, s)
		}
	}
	for k, s := range shelves {
		sh := &m.b.Shelves[s]
		middle := sh.Outline.Centroid()
		away := plane.Sub(middle, plane.Vec{m.f.At[0], m.f.At[1]})
		if m.about(layout.ThingWall) {
			_, away = m.b.Chamber.DepthNormal(plane.Vec{m.f.At[0], m.f.At[1]})
		} else if len(shelves) == 2 {
			away = plane.Sub(middle, m.b.Shelves[shelves[1-k]].Outline.Centroid())
		}
		for _, goal := range []float64{m.f.Plan, m.f.Need} {
			by := goal - m.f.Have
			if by <= 0 {
				continue
			}
			to := gridPlace(plane.Add(sh.At, plane.Scale(plane.Unit(away), math.Ceil(float64(by*10)-1e-6)/10)))
			v := &m.b.Levels[sh.Level]
			it := "the shelf of " + m.place(sh.Level)
			if m.try("Move "+it+" by "+m.way(sh.At, to), layout.Edit{Act: layout.MoveShelf, Tower: m.b.Towers[v.Tower].Name, Level: v.Number, Shelf: sh.Index + 1, At: &to}) {
				break
			}
		}
	}
}

// otherShelf takes another shelf of the same shape in place of a bad one.
func (m *mender) otherShelf() {
	s := m.shelfOf(m.f.Things[0])
	if s < 0 {
		return
	}
	sh := &m.b.Shelves[s]
	left := m.stock()
	for i := range m.b.Load.Furniture.Shelves {
		k := &m.b.Load.Furniture.Shelves[i]
		if k.Name == sh.Kind.Name || k.Shape != sh.Kind.Shape || k.Cracked || k.Damp || left.Shelves[i] < 1 {
			continue
		}
		towers := layout.CloneTowers(m.b.Load.Towers)
		v := &m.b.Levels[sh.Level]
		towers[m.b.Towers[v.Tower].Index].Levels[v.Number-1].Shelves[sh.Index].Kind = k.Name
		if m.try("Take a "+k.Name+" shelf instead", layout.Edit{Act: layout.Arrange, Towers: towers}) {
			return
		}
	}
}
