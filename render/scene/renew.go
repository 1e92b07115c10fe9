package scene

import (
	"encoding/json"
	"math"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// Renew makes the scene of a load that was changed a little: levels on which
// nothing changed take mesh, box and sum from the scene before, whose meshes
// may have been emptied since. It equals Build but for emptied meshes (law).
func Renew(prev *Scene, b *stacks.Built, o Options) *Scene {
	m := newMaker(b, o)
	m.prev = prev
	return m.scene()
}

// kept is a form with the key of what it is made of.
type kept struct {
	*form
	key uint64
}

// form is that of a pot's kind, made when it is first met.
func (m *maker) form(p *stacks.Pot) *kept {
	if f := m.forms[p.Body]; f != nil {
		return f
	}
	f := &kept{key: bodyKey(p.Body, p.Ware, p.Cones)}
	if m.prev != nil {
		f.form = m.prev.forms[f.key]
	}
	if f.form == nil {
		f.form = formOf(p.Body, p.Ware, p.Cones)
	}
	if m.s.forms == nil {
		m.s.forms = map[uint64]*form{}
	}
	m.s.forms[f.key] = f.form
	m.forms[p.Body] = f
	return f
}

// bodyKey is a checksum of what a form is made of: the body and the row,
// without what does not show.
func bodyKey(b *stacks.Body, w *layout.Ware, c *layout.ConePack) uint64 {
	bare := layout.Ware{}
	if w != nil {
		bare = *w
		bare.Count, bare.Owner, bare.Ticket, bare.Since, bare.Mass, bare.Value = 0, "", "", "", 0, 0
	}
	text, err := json.Marshal(struct {
		Solid any
		Drawn stacks.Drawn
		Stand layout.Stand
		Up    float64
		Ware  *layout.Ware
		Cones *layout.ConePack
	}{b.Solid.Parts, b.Drawn, b.Stand, b.StandH, &bare, c})
	k := newKey()
	if err != nil { // a measure that is no number: never taken for another
		k.word(uint64(len(text)) + 1)
		return k.sum + math.Float64bits(b.Height)
	}
	for _, c := range text {
		k.word(uint64(c))
	}
	return k.sum
}

// key gathers a checksum (FNV-1a over words, rotated so that no bit is lost).
type key struct{ sum uint64 }

func newKey() *key { return &key{14695981039346656037} }

func (k *key) word(w uint64) {
	k.sum = (k.sum ^ w) * 1099511628211
	k.sum = k.sum<<29 | k.sum>>35
}

func (k *key) numbers(list ...float64) {
	for _, x := range list {
		k.word(math.Float64bits(x))
	}
}

func (k *key) places(list []plane.Vec) {
	k.word(uint64(len(list)))
	for _, v := range list {
		k.numbers(v[0], v[1])
	}
}

func (k *key) yes(b bool) {
	if b {
		k.word(1)
		return
	}
	k.word(2)
}

func (k *key) colour(c Colour) { k.numbers(float64(c[0]), float64(c[1]), float64(c[2])) }

// levelKey is a checksum of all that the mesh of a level is made of.
func (m *maker) levelKey(v int, sh *shade) uint64 {
	level := &m.b.Levels[v]
	k := newKey()
	k.yes(m.o.Dark)
	k.word(uint64(len(m.s.Pieces))) // the ids in the mesh begin here
	k.places(m.b.Chamber.Points(5))
	k.shade(sh)
	for _, i := range level.Shelves {
		s := &m.b.Shelves[i]
		k.places(s.Outline.Points(5))
		k.numbers(s.Bottom, s.Top)
	}
	for _, i := range level.Pots {
		p := &m.b.Pots[i]
		k.word(m.form(p).key)
		k.numbers(p.At[0], p.At[1], p.Turn, p.Z)
		k.word(uint64(m.marks[i].Hatch))
		k.colour(m.tints[i])
	}
	return k.sum
}

// kilnKey is a checksum of all that the mesh of the kiln is made of.
func (m *maker) kilnKey(ring []plane.Vec, sh *shade) uint64 {
	k := newKey()
	k.yes(m.o.Dark)
	k.word(uint64(len(m.s.Pieces)))
	k.places(ring)
	k.numbers(m.b.Height)
	k.shade(sh)
	for i := range m.b.Spies {
		s := &m.b.Spies[i]
		k.numbers(s.Mouth[0], s.Mouth[1], s.Height, s.Inward[0], s.Inward[1], s.Kiln.Diameter)
	}
	return k.sum
}

func (k *key) shade(sh *shade) {
	k.yes(sh.covered)
	k.numbers(sh.bottom, sh.high)
	for i := range sh.feet {
		f := &sh.feet[i]
		k.places(f.at)
		k.places(f.over)
		k.numbers(f.r, f.overR, f.overDark)
	}
}

// take makes a group's mesh that of the scene before; nil takes nothing.
func (g *Group) take(old *Group) {
	if old != nil {
		g.Mesh, g.Box, g.Sum = old.Mesh, old.Box, old.Sum
	}
}

// old is the group of the scene before that is made of the same, or nil.
func (m *maker) old(g *Group) *Group {
	if m.prev == nil {
		return nil
	}
	for i := range m.prev.Groups {
		if o := &m.prev.Groups[i]; o.Name == g.Name && o.Level == g.Level && o.Posts == g.Posts && o.Kiln == g.Kiln && o.key == g.key {
			return o
		}
	}
	return nil
}

// keep lists a piece of a group that is taken over; false when it is not.
func (m *maker) keep(old *Group, p Piece) bool {
	if old == nil {
		return false
	}
	id := m.piece(p)
	m.s.Pieces[id].Box = m.prev.Pieces[id].Box
	return true
}

// vertices is about how many vertices a level's pots have.
func (m *maker) vertices(v int) (vertices, indexes, lines int) {
	for _, i := range m.b.Levels[v].Pots {
		f := m.form(&m.b.Pots[i])
		vertices += len(f.pos)
		indexes += len(f.idx)
		lines += len(f.lines)
	}
	return vertices + mostCells, indexes + 6*mostCells, lines + 256
}

// grow makes room for so many vertices, indexes and lines at once.
func (m *Mesh) grow(vertices, indexes, lines int) {
	m.Positions = make([]float32, 0, 3*vertices)
	m.Normals = make([]float32, 0, 3*vertices)
	m.Outward = make([]float32, 0, 3*vertices)
	m.Colours = make([]float32, 0, 4*vertices)
	m.Pieces = make([]uint32, 0, vertices)
	m.Indexes = make([]uint32, 0, indexes)
	m.Creases = make([]float32, 0, 6*lines)
	m.CreasePieces = make([]uint32, 0, lines)
}
