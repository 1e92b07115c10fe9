package scene

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
)

// dress is how a form is coloured where it is placed.
type dress struct {
	paints [4]Colour // by paint
	hatch  Hatch
	shade  func(mgl64.Vec3) float64 // nil: none
}

// add puts a form into the mesh, turned clockwise, moved and lifted, under a
// piece's id.
func (m *Mesh) add(f *form, id int, at plane.Vec, turn, z float64, d dress) Box {
	s, c := plane.SinCos(turn)
	put := func(p mgl64.Vec3) mgl64.Vec3 {
		return mgl64.Vec3{float64(p[0]*c) + float64(p[1]*s), float64(p[1]*c) - float64(p[0]*s), p[2]}
	}
	place := func(p mgl64.Vec3) mgl64.Vec3 {
		q := put(p)
		return mgl64.Vec3{q[0] + at[0], q[1] + at[1], q[2] + z}
	}
	first := uint32(m.Vertices())
	n := len(f.pos)
	m.Positions, m.Normals, m.Outward = slices.Grow(m.Positions, 3*n), slices.Grow(m.Normals, 3*n), slices.Grow(m.Outward, 3*n)
	m.Colours, m.Pieces, m.Indexes = slices.Grow(m.Colours, 4*n), slices.Grow(m.Pieces, n), slices.Grow(m.Indexes, len(f.idx))
	var box Box
	for i, p := range f.pos {
		q := place(p)
		if i == 0 {
			box = Box{q, q}
		}
		box = box.With(Box{q, q})
		m.Positions = append3(m.Positions, q)
		m.Normals = append3(m.Normals, put(f.nor[i]))
		m.Outward = append3(m.Outward, put(f.outward[i]))
		tone := f.tone[i]
		if d.shade != nil {
			tone *= d.shade(q)
		}
		k := d.paints[f.paint[i]].Shaded(tone)
		hatch := float32(d.hatch)
		if f.paint[i] == standPaint {
			hatch = 0
		}
		m.Colours = append(m.Colours, k[0], k[1], k[2], hatch)
		m.Pieces = append(m.Pieces, uint32(id))
	}
	for _, i := range f.idx {
		m.Indexes = append(m.Indexes, first+i)
	}
	for _, l := range f.lines {
		m.Creases = append3(append3(m.Creases, place(l[0])), place(l[1]))
		m.CreasePieces = append(m.CreasePieces, uint32(id))
	}
	return box
}

func append3(list []float32, v mgl64.Vec3) []float32 {
	return append(list, float32(v[0]), float32(v[1]), float32(v[2]))
}

// sum is a checksum of all that the mesh holds: FNV-1a over words of 32 bits.
func (m *Mesh) sum() uint64 {
	h := uint64(14695981039346656037)
	mix := func(x uint32) { h = (h ^ uint64(x)) * 1099511628211 }
	for _, list := range [][]float32{m.Positions, m.Normals, m.Outward, m.Colours, m.Creases} {
		mix(uint32(len(list)))
		for _, x := range list {
			mix(math.Float32bits(x))
		}
	}
	for _, list := range [][]uint32{m.Pieces, m.Indexes, m.CreasePieces} {
		mix(uint32(len(list)))
		for _, x := range list {
			mix(x)
		}
	}
	return h
}
