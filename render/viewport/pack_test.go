package viewport

import (
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/render/scene"
)

// triangle is a mesh of one triangle and one crease.
func triangle() *scene.Mesh {
	return &scene.Mesh{
		Positions: []float32{0, 0, 0, 1, 0, 0, 0, 1, 0},
		Normals:   []float32{0, 0, 1, 0, 0, 1, 0, 0, 1},
		Outward:   []float32{-1, 0, 0, 1, 0, 0, 0, 1, 0},
		Colours:   []float32{0.1, 0.2, 0.3, 0, 0.4, 0.5, 0.6, 1, 0.7, 0.8, 0.9, 2},
		Pieces:    []uint32{7, 7, 9},
		Indexes:   []uint32{0, 1, 2},
		Creases:   []float32{0, 0, 0, 5, 6, 7}, CreasePieces: []uint32{9},
	}
}

func TestPackPutsEveryVertexInOneRow(t *testing.T) {
	v := pack(triangle())
	require.Len(t, v, 3*stride)
	require.Equal(t, []float32{0, 1, 0, 0, 0, 1, 0, 1, 0, 0.7, 0.8, 0.9, 2, 9}, v[2*stride:])
	require.Empty(t, pack(&scene.Mesh{}))
}

func TestACreaseIsTwoTriangles(t *testing.T) {
	v, ix := packCreases(triangle(), 1.5)
	require.Len(t, v, 4*lineStride)
	require.Equal(t, []uint32{0, 1, 2, 0, 2, 3}, ix)
	for i, c := range corners() {
		row := v[i*lineStride : (i+1)*lineStride]
		require.Equal(t, []float32{0, 0, 0, 5, 6, 7}, row[:6])
		require.Equal(t, c[:], row[6:8])
		require.Equal(t, float32(1.5), row[11])
		require.Equal(t, float32(9), row[14], "its piece, so that it goes when the piece is held")
	}
}

func TestLinesAreParted(t *testing.T) {
	lines := []Line{
		{B: mgl64.Vec3{1, 0, 0}, Width: 2, Over: true}, {B: mgl64.Vec3{0, 1, 0}, Width: 3, On: 6, Off: 4}, {Width: 6, Over: true},
	}
	v, ix := packLines(lines, true)
	require.Len(t, v, 8*lineStride)
	require.Len(t, ix, 12)
	require.Equal(t, uint32(4), ix[6], "the second line has corners of its own")
	v, _ = packLines(lines, false)
	require.Equal(t, []float32{3, 6, 4, 0}, v[11:15])
}

// TestLawEveryPieceHasItsPlaceInTheTable: what is worn by piece i is found at
// column i mod 256 of row i / 256, as the shader looks it up.
func TestLawEveryPieceHasItsPlaceInTheTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wears := make([]Wear, rapid.IntRange(0, 1200).Draw(t, "pieces"))
		for i := range wears {
			wears[i] = Wear{Chosen: i%3 == 0, Dim: i%5 == 0, Hatch: scene.Hatch(i % int(scene.HatchCount))}
		}
		table, rows := packWears(wears)
		require.Len(t, table, 4*wearWidth*rows)
		require.GreaterOrEqual(t, rows, 1)
		for i, w := range wears {
			at := 4 * ((i>>8)*wearWidth + i&255)
			require.Equal(t, w.Chosen, table[at] == 255)
			require.Equal(t, w.Dim, table[at+1] == 255)
			require.Equal(t, byte(w.Hatch), table[at+2])
		}
	})
}
