package drawing

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"
)

func TestInsideAgainstSimplefeatures(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	within, outside := 0, 0
	for range 3000 {
		// A star-shaped ring is simple, and may be hollow.
		n := 3 + random.IntN(10)
		var at []Point
		var flat []float64
		for i := range n {
			at = append(at, At(50, 50).Toward(float64(i)*360/float64(n), 5+45*random.Float64()))
			flat = append(flat, at[i].X, at[i].Y)
		}
		flat = append(flat, at[0].X, at[0].Y)
		ring := geom.NewLineString(geom.NewSequence(flat, geom.DimXY))
		area := geom.NewPolygon([]geom.LineString{ring}).AsGeometry()
		p := At(100*random.Float64(), 100*random.Float64())
		want := geom.Intersects(area, geom.XY{X: p.X, Y: p.Y}.AsPoint().AsGeometry())
		require.Equal(t, want, inside([]line{{at: at, closed: true}}, p), "%v in %v", p, at)
		if want {
			within++
		} else {
			outside++
		}
	}
	require.Greater(t, within, 500)
	require.Greater(t, outside, 500)
}

func TestInsideCountsWindings(t *testing.T) {
	outer := []Point{{0, 0}, {10, 0}, {10, 10}, {0, 10}}
	same := []Point{{3, 3}, {7, 3}, {7, 7}, {3, 7}}
	other := []Point{{3, 3}, {3, 7}, {7, 7}, {7, 3}}
	centre := At(5, 5)
	require.True(t, inside([]line{{at: outer}, {at: same}}, centre))
	require.False(t, inside([]line{{at: outer}, {at: other}}, centre))
	require.True(t, inside([]line{{at: outer}, {at: other}}, At(1, 5)))
	require.False(t, inside(nil, centre))
}

func TestBoxes(t *testing.T) {
	var b, c box
	require.True(t, b.empty())
	require.False(t, b.meets(c))
	require.False(t, b.holds(At(0, 0)))
	b.add(At(3, 4))
	b.add(At(1, 9))
	c.add(At(3, 9))
	require.Equal(t, [4]Point{{1, 4}, {3, 4}, {3, 9}, {1, 9}}, b.corners())
	require.True(t, b.meets(c))
	require.True(t, b.holds(At(2, 5)))
	require.False(t, b.holds(At(3.1, 5)))
	c = box{}
	c.add(At(math.Nextafter(3, 4), 9))
	require.False(t, b.meets(c))
}
