package stacks

import (
	"math"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
)

// setPots builds the pots and cone packs of a level.
func (m *mason) setPots(t, j int) {
	l := m.load
	v := m.first[t] + j
	level := &m.b.Levels[v]
	from := &l.Towers[t].Levels[j]
	name := l.Towers[t].Name
	if len(from.Set) > maxSet {
		m.refuse(layout.Thing{Kind: layout.ThingLevel, Tower: name, Level: j + 1}, "Level %d of %q has %d pots; a level takes %d at most.", j+1, name, len(from.Set), maxSet)
		return
	}
	for i := range from.Set {
		p := &from.Set[i]
		at := layout.Thing{Kind: layout.ThingPot, Name: p.Pot.String(), Tower: name, Level: j + 1}
		kind, ok := m.kindOf(at, p)
		if !ok {
			continue
		}
		body := m.bodies[kind]
		pot := Pot{Pot: p.Pot, Kind: kind, Level: v, Body: body, Locked: p.Locked || from.Locked}
		if kind < len(l.Ware) {
			pot.Ware = &l.Ware[kind]
		} else {
			pot.Cones = &l.Cones[kind-len(l.Ware)]
		}
		pot.At, pot.Turn = p.At, p.Turn
		pot.Shelf, pot.Z = m.b.under(level, pot.At, body)
		pot.Solid = solid.Place(body.Solid, solid.Pose{At: pot.At, Turn: pot.Turn, Z: pot.Z})
		level.Pots = append(level.Pots, len(m.b.Pots))
		m.b.Pots = append(m.b.Pots, pot)
	}
}

// kindOf finds the row of a placement and sees to its body.
func (m *mason) kindOf(at layout.Thing, p *layout.Placement) (int, bool) {
	l := m.load
	pot, err := l.Find(p.Pot.String())
	if err != nil {
		m.refuse(at, "On level %d of %q: %v.", at.Level, at.Tower, err)
		return 0, false
	}
	if m.seen[pot] {
		m.refuse(at, "%q is set twice; take one of the two out.", p.Pot.String())
		return 0, false
	}
	m.seen[pot] = true
	if !finite(p.At[0], p.At[1], p.Turn) {
		m.refuse(at, "%q stands at a place that is no number; give x, y in mm and a turn in degrees.", p.Pot.String())
		return 0, false
	}
	for i := range l.Cones {
		if l.Cones[i].Name == pot.Ware && pot.Number == 0 {
			kind := len(l.Ware) + i
			return kind, m.clothe(at, kind, func() (*Body, error) { return ConeBody(l, &l.Cones[i]) })
		}
	}
	for i := range l.Ware {
		if l.Ware[i].Name == pot.Ware {
			return i, m.clothe(at, i, func() (*Body, error) { return m.dress.body(l, &l.Ware[i]) })
		}
	}
	return 0, false
}

// clothe makes the body of a kind when it is first set; a kind that has none
// is refused once.
func (m *mason) clothe(at layout.Thing, kind int, body func() (*Body, error)) bool {
	if m.bodies[kind] == nil {
		b, err := body()
		if err != nil {
			m.refuse(at, "%v.", err)
			b = &Body{}
		}
		m.bodies[kind] = b
	}
	return len(m.bodies[kind].Solid.Parts) > 0
}

// under is the shelf of a level under a pot's foot, or -1, and the height the
// pot stands at. Of several shelves it is the one that holds the foot's middle
// the deepest.
func (b *Built) under(level *Level, at plane.Vec, body *Body) (shelf int, z float64) {
	best, shelf := math.Inf(-1), -1
	for _, s := range level.Shelves {
		if d := b.Shelves[s].Outline.Depth(at); d > best {
			best, shelf = d, s
		}
	}
	if shelf < 0 {
		return -1, level.Top
	}
	reach := body.FootR
	for _, v := range body.Foot {
		reach = math.Max(reach, plane.Length(v)+body.FootR)
	}
	if best < -reach {
		return -1, level.Top
	}
	return shelf, b.Shelves[shelf].Top
}

// MovePot puts pot i, by its index in Pots, elsewhere on its level, in place
// and without an allocation. It is exactly what Build would make of it; the
// load the picture was built from is not changed.
func (b *Built) MovePot(i int, at plane.Vec, turn float64) {
	if i < 0 || i >= len(b.Pots) || !finite(at[0], at[1], turn) {
		return
	}
	p := &b.Pots[i]
	p.At, p.Turn = at, turn
	p.Shelf, p.Z = b.under(&b.Levels[p.Level], at, p.Body)
	p.Solid.Move(solid.Pose{At: at, Turn: turn, Z: p.Z})
}
