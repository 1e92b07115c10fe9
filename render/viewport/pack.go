package viewport

import (
	"threepost/render/scene"
)

// stride is the floats of a vertex: position 3, normal 3, outward 3, colour
// and hatch 4, piece 1.
const stride = 14

// pack puts a mesh's vertices one after the other as the graphics card reads
// them.
func pack(m *scene.Mesh) []float32 {
	n := m.Vertices()
	out := make([]float32, 0, n*stride)
	for i := range n {
		out = append(out, m.Positions[3*i:3*i+3]...)
		out = append(out, m.Normals[3*i:3*i+3]...)
		out = append(out, m.Outward[3*i:3*i+3]...)
		out = append(out, m.Colours[4*i:4*i+4]...)
		out = append(out, float32(m.Pieces[i]))
	}
	return out
}

// lineStride is the floats of a line's corner: both ends 6, which end and side
// 2, colour 3, width, dash on, dash off 3, piece 1.
const lineStride = 15

// corners of a line: end, side.
func corners() [4][2]float32 { return [4][2]float32{{0, -1}, {0, 1}, {1, 1}, {1, -1}} }

// packCreases are the creases of a mesh as thin quadrilaterals, without a
// colour: that is the look's.
func packCreases(m *scene.Mesh, width float32) (vertices []float32, indexes []uint32) {
	n := len(m.CreasePieces)
	vertices = make([]float32, 0, 4*n*lineStride)
	indexes = make([]uint32, 0, 6*n)
	for i := range n {
		vertices, indexes = packLine(vertices, indexes, m.Creases[6*i:6*i+6], scene.Colour{}, width, 0, 0, m.CreasePieces[i])
	}
	return vertices, indexes
}

// packLines are loose lines; they belong to no piece.
func packLines(lines []Line, over bool) (vertices []float32, indexes []uint32) {
	for _, l := range lines {
		if l.Over != over {
			continue
		}
		ends := []float32{
			float32(l.A[0]), float32(l.A[1]), float32(l.A[2]),
			float32(l.B[0]), float32(l.B[1]), float32(l.B[2]),
		}
		vertices, indexes = packLine(vertices, indexes, ends, l.Colour, float32(l.Width), float32(l.On), float32(l.Off), 0)
	}
	return vertices, indexes
}

func packLine(v []float32, ix []uint32, ends []float32, c scene.Colour, width, on, off float32, piece uint32) ([]float32, []uint32) {
	first := uint32(len(v) / lineStride)
	for _, k := range corners() {
		v = append(v, ends...)
		v = append(v, k[0], k[1], c[0], c[1], c[2], width, on, off, float32(piece))
	}
	return v, append(ix, first, first+1, first+2, first, first+2, first+3)
}

// wearWidth is the pieces in one row of the table of wears.
const wearWidth = 256

// packWears is the table of what pieces wear, 4 bytes a piece, rows of
// wearWidth: chosen, dim, hatch, nothing. There is at least one row.
func packWears(wears []Wear) (table []byte, rows int) {
	rows = max(1, (len(wears)+wearWidth-1)/wearWidth)
	table = make([]byte, 4*wearWidth*rows)
	for i, w := range wears {
		if w.Chosen {
			table[4*i] = 255
		}
		if w.Dim {
			table[4*i+1] = 255
		}
		table[4*i+2] = byte(w.Hatch)
	}
	return table, rows
}
