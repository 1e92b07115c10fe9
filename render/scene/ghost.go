package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// Ghost is one pot by itself, to be moved by a matrix: the dragged one.
type Ghost struct {
	Mesh   Mesh // about the pot's own origin, z = 0 at the shelf, turn 0; its piece is 0
	Matrix mgl64.Mat4
	Box    Box // at turn 0, about its own origin
}

// GhostOf is the ghost of pot i of Built.Pots where it stands, in the colour
// it has in the scene; false when there is none.
func (s *Scene) GhostOf(b *stacks.Built, i int) (Ghost, bool) {
	if i < 0 || i >= len(b.Pots) {
		return Ghost{}, false
	}
	p := &b.Pots[i]
	g := ghostOf(b, p.Body, p.Ware, p.Cones, s.Look.Dark)
	g.Matrix = Pose(p.At, p.Turn, p.Z)
	return g, true
}

// GhostOfWare is the ghost of a pot of a row that waits, its foot on the floor
// in the middle of the kiln.
func (s *Scene) GhostOfWare(b *stacks.Built, body *stacks.Body, w *layout.Ware) Ghost {
	g := ghostOf(b, body, w, nil, s.Look.Dark)
	g.Matrix = Pose(mgl64.Vec2{}, 0, 0)
	return g
}

func ghostOf(b *stacks.Built, body *stacks.Body, w *layout.Ware, cones *layout.ConePack, dark bool) Ghost {
	m := &maker{b: b, o: Options{Dark: dark}}
	m.clays()
	tint := Hex(0xF3ECDF)
	for i := range b.Load.Ware {
		if w != nil && b.Load.Ware[i].Name == w.Name {
			tint = m.clay[i]
		}
	}
	var g Ghost
	g.Box = g.Mesh.add(formOf(body, w, cones), 0, plane.Vec{}, 0, 0, dress{paints: m.paints(tint)})
	return g
}

// Pose is the matrix that puts a ghost at a place, turned clockwise, its foot
// at height z.
func Pose(at mgl64.Vec2, turn, z float64) mgl64.Mat4 {
	s, c := plane.SinCos(turn)
	return mgl64.Mat4{
		c, -s, 0, 0,
		s, c, 0, 0,
		0, 0, 1, 0,
		at[0], at[1], z, 1,
	}
}
