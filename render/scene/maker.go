package scene

import (
	"strconv"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
	"threepost/layout/statics"
)

// maker makes one scene.
type maker struct {
	b       *stacks.Built
	o       Options
	s       *Scene
	weights *statics.Weights
	forms   map[*stacks.Body]*kept // of this load
	prev    *Scene                 // groups that did not change are taken from it; nil: none
	clay    []Colour               // by kind of ware
	marks   []Mark                 // by pot
	tints   []Colour               // by pot
	ceiling float64                // heights over it are lifted away
}

func newMaker(b *stacks.Built, o Options) *maker {
	if o.Colour == ByFindings && o.Report == nil {
		r := clearance.Check(b)
		o.Report = &r
	}
	m := &maker{
		b: b, o: o, s: &Scene{Pieces: []Piece{{Level: -1}}, Look: LookOf(o.Dark)},
		weights: statics.Weigh(b), forms: map[*stacks.Body]*kept{}, ceiling: b.Height + 1e6,
	}
	if o.Up > 0 && o.Up <= len(b.Levels) {
		m.ceiling = b.Levels[o.Up-1].Top
	}
	return m
}

// scene makes everything.
func (m *maker) scene() *Scene {
	m.dressWare()
	for v := range m.b.Levels {
		m.level(v)
		m.posts(v)
	}
	m.probes()
	m.kiln()
	for i := range m.s.Groups {
		g := &m.s.Groups[i]
		if g.Sum == 0 {
			g.Sum = g.Mesh.sum()
		}
		if g.Shown && !g.Kiln && g.Level >= 0 {
			m.s.Box = m.s.Box.With(g.Box)
		}
	}
	m.balances()
	m.labels()
	return m.s
}

// piece lists a piece and gives its id.
func (m *maker) piece(p Piece) int {
	p.Group = len(m.s.Groups)
	m.s.Pieces = append(m.s.Pieces, p)
	return len(m.s.Pieces) - 1
}

// place adds a form to a group as a new piece.
func (m *maker) place(g *Group, p Piece, f *form, at plane.Vec, turn, z float64, d dress) {
	d.hatch = p.Mark.Hatch
	id := m.piece(p)
	box := g.Mesh.add(f, id, at, turn, z, d)
	m.s.Pieces[id].Box = box
	g.Box = g.Box.With(box)
}

// level makes the mesh of shelves and what stands on them.
func (m *maker) level(v int) {
	level := &m.b.Levels[v]
	g := Group{Name: level.Name, Level: v, Shown: level.Top <= m.ceiling+1}
	sh := m.shadeOf(v)
	tower := m.b.Towers[level.Tower].Name
	g.key = m.levelKey(v, sh)
	old := m.old(&g)
	if old == nil {
		g.Mesh.grow(m.vertices(v))
	}
	for _, i := range level.Shelves {
		s := &m.b.Shelves[i]
		name := "shelf of " + level.Name
		if len(level.Shelves) > 1 {
			name += ", number " + strconv.Itoa(s.Index+1)
		}
		p := Piece{
			Thing: layout.Thing{Kind: layout.ThingShelf, Name: strconv.Itoa(s.Index + 1), Tower: tower, Level: level.Number},
			Kind:  ShelfKind, Index: i, Level: v, Name: name,
		}
		if m.keep(old, p) {
			continue
		}
		f := slab(s.Outline.Points(0.6), s.Top-s.Bottom, sh.onShelf)
		m.place(&g, p, f, plane.Vec{}, 0, s.Bottom, dress{paints: m.furniture(0xE3DBCE, 0x7A7064)})
	}
	for _, i := range level.Pots {
		p := &m.b.Pots[i]
		kind, thing := PotPiece, layout.ThingPot
		if p.Cones != nil {
			kind, thing = ConePiece, layout.ThingCones
		}
		piece := Piece{
			Thing: layout.Thing{Kind: thing, Name: p.Pot.String(), Tower: tower, Level: level.Number},
			Kind:  kind, Index: i, Level: v, Name: p.Pot.String(), Mark: m.marks[i],
		}
		if m.keep(old, piece) {
			continue
		}
		m.place(&g, piece, m.form(p).form, p.At, p.Turn, p.Z, dress{paints: m.paints(m.tints[i]), shade: sh.onWare})
	}
	g.take(old)
	m.s.Groups = append(m.s.Groups, g)
}

// posts makes the mesh of the posts under a level's shelves.
func (m *maker) posts(v int) {
	level := &m.b.Levels[v]
	g := Group{Name: level.Name + " posts", Level: v, Posts: true, Shown: true}
	under := v // the shade is that of the level the posts stand on
	for i := range m.b.Levels {
		if i != v && len(level.Posts) > 0 && near(m.b.Levels[i].Top, m.b.Posts[level.Posts[0]].Bottom) {
			under = i
			break
		}
	}
	sh := m.shadeOf(under)
	for _, i := range level.Posts {
		p := &m.b.Posts[i]
		g.Shown = g.Shown && p.Bottom <= m.ceiling+1
		m.place(&g, Piece{
			Thing: layout.Thing{Kind: layout.ThingPost, Name: p.Letter, Tower: m.b.Towers[level.Tower].Name, Level: level.Number},
			Kind:  PostKind, Index: i, Level: v, Name: "post " + p.Letter,
		}, postForm(p), p.At, p.Turn, p.Bottom, dress{paints: m.furniture(0xCFC5B5, 0x6E655A), shade: sh.onWare})
	}
	m.s.Groups = append(m.s.Groups, g)
}

// near tells whether two heights are one for the eye.
func near(a, b float64) bool { return a-b < 1 && b-a < 1 }

// furniture is one colour for all paints.
func (m *maker) furniture(light, dark uint32) [4]Colour {
	c := Hex(light)
	if m.o.Dark {
		c = Hex(dark)
	}
	return [4]Colour{c, c, c, c}
}

// paints are those of a pot of a colour.
func (m *maker) paints(ware Colour) [4]Colour {
	p := [4]Colour{ware, Hex(0xD9CFBF), Hex(0xF3ECDF), Hex(0xD2C7B6)}
	if m.o.Dark {
		for i := range 3 {
			p[i+1] = p[i+1].Times(0.72)
		}
	}
	return p
}

// at3 is a point at a height.
func at3(p plane.Vec, z float64) mgl64.Vec3 { return mgl64.Vec3{p[0], p[1], z} }
