package statics

import (
	"fmt"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// maker puts a built load together by hand, so that these tests need no
// document and judge no other package.
type maker struct{ b *stacks.Built }

func newMaker() *maker { return &maker{&stacks.Built{Load: &layout.Load{}, Height: 700}} }

// tower begins a tower on the floor, or on built levels.
func (m *maker) tower(on ...int) int {
	i := len(m.b.Towers)
	m.b.Towers = append(m.b.Towers, stacks.Tower{Index: i, Name: fmt.Sprint("tower ", i), On: on, Leaf: true})
	return i
}

// level adds a storey: one shelf of a shape on posts at the places.
func (m *maker) level(tower int, shape layout.Shape, at plane.Vec, turn, mass, post, postMass float64, posts ...plane.Vec) int {
	t := &m.b.Towers[tower]
	l := len(m.b.Levels)
	base := 0.0
	if len(t.Levels) > 0 {
		base = m.b.Levels[t.Levels[len(t.Levels)-1]].Top
	} else if len(t.On) > 0 {
		base = m.b.Levels[t.On[0]].Top
	}
	v := stacks.Level{Tower: tower, Number: len(t.Levels) + 1, Bottom: base + post, Top: base + post + 16}
	s := len(m.b.Shelves)
	kind := &layout.ShelfKind{Name: "shelf", Shape: shape, Thick: 16, Mass: mass}
	ring, err := shape.Outline()
	if err != nil {
		panic(err)
	}
	m.b.Shelves = append(m.b.Shelves, stacks.Shelf{Level: l, Kind: kind, At: at, Turn: turn, Mass: mass,
		Outline: ring.At(plane.Pose{At: at, Turn: turn}), Bottom: v.Bottom, Top: v.Top})
	v.Shelves = []int{s}
	for k, p := range posts {
		v.Posts = append(v.Posts, len(m.b.Posts))
		m.b.Posts = append(m.b.Posts, stacks.Post{Level: l, Line: k, Letter: letterAt(m.b, p), At: p,
			Bottom: base, Top: base + post, Mass: postMass, Shelves: []int{s}})
	}
	m.b.Levels = append(m.b.Levels, v)
	t.Levels = append(t.Levels, l)
	return l
}

func letterAt(b *stacks.Built, p plane.Vec) string {
	for _, l := range b.Letters {
		if l.At == p {
			return l.Name
		}
	}
	name := string(rune('A' + len(b.Letters)))
	b.Letters = append(b.Letters, stacks.Letter{Name: name, At: p})
	return name
}

// pot sets a pot of a mass on a level.
func (m *maker) pot(level int, mass, x, y float64) int {
	i := len(m.b.Pots)
	m.b.Pots = append(m.b.Pots, stacks.Pot{Pot: layout.Pot{Ware: "mug", Number: i + 1}, Level: level,
		Shelf: m.b.Levels[level].Shelves[0], At: plane.Vec{x, y}, Body: &stacks.Body{Mass: mass}})
	m.b.Levels[level].Pots = append(m.b.Levels[level].Pots, i)
	return i
}

func round(across float64) layout.Shape { return layout.Shape{Kind: layout.Round, Across: across} }

func half(across float64) layout.Shape {
	return layout.Shape{Kind: layout.HalfRound, Across: across, Depth: across/2 - 3}
}

// thirds is three places on a circle.
func thirds(r float64) []plane.Vec {
	return []plane.Vec{plane.FromBearing(r, 0), plane.FromBearing(r, 120), plane.FromBearing(r, 240)}
}
