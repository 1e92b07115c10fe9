package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestStrokePiecesTurnOneWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := line{closed: rapid.Bool().Draw(t, "closed")}
		for range rapid.IntRange(1, 8).Draw(t, "n") {
			l.at = append(l.at, Point{rapid.Float64Range(0, 50).Draw(t, "x"), rapid.Float64Range(0, 50).Draw(t, "y")})
		}
		for _, piece := range strokeLines([]line{l}, 3, rapid.Bool().Draw(t, "round"), nil) {
			require.GreaterOrEqual(t, areaOf(piece), -1e-9)
			for _, p := range piece {
				require.False(t, math.IsNaN(p.X) || math.IsNaN(p.Y))
			}
		}
	})
}

func TestStrokeArea(t *testing.T) {
	sum := func(pieces [][]Point) float64 {
		a := 0.0
		for _, p := range pieces {
			a += areaOf(p)
		}
		return a
	}
	straight := []line{{at: []Point{{0, 0}, {30, 40}}}}
	require.InDelta(t, 50*2, sum(strokeLines(straight, 2, false, nil)), 1e-9)
	// On 3, off 2 along 50: ten dashes of 3.
	require.InDelta(t, 30*2, sum(strokeLines(straight, 2, false, []float64{3, 2})), 1e-9)
	// An odd pattern runs on: 5 on, 5 off.
	require.InDelta(t, 25*2, sum(strokeLines(straight, 2, false, []float64{5})), 1e-9)
	// Dots of nothing with round ends, one each 10 beginning at 10.
	require.Len(t, strokeLines(straight, 2, true, []float64{0, 10}), 5)
	// A square's pointed corners: four sides, and four quads of half by half.
	square := []line{{at: []Point{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, closed: true}}
	require.InDelta(t, 4*10*2+4*1, sum(strokeLines(square, 2, false, nil)), 1e-9)
}

func TestRoundEndsAndCorners(t *testing.T) {
	reach := func(at []Point, to Point) float64 {
		far := math.Inf(-1)
		for _, piece := range strokeLines([]line{{at: at}}, 20, true, nil) {
			for _, p := range piece {
				far = max(far, p.X*to.X+p.Y*to.Y)
			}
		}
		return far
	}
	// Ends reach half a width beyond, corners as far as a disc about them.
	straight := []Point{{0, 0}, {50, 0}}
	require.InDelta(t, 60, reach(straight, At(1, 0)), 0.06)
	require.InDelta(t, 10, reach(straight, At(-1, 0)), 0.06)
	require.InDelta(t, 10, reach(straight, At(0, 1)), 1e-9)
	bent := []Point{{0, 0}, {50, 0}, {50, 50}}
	require.InDelta(t, 50*math.Sqrt2/2+10, reach(bent, At(math.Sqrt2/2, -math.Sqrt2/2)), 0.06)
	there := []Point{{0, 0}, {50, 0}, {10, 0}}
	require.InDelta(t, 60, reach(there, At(1, 0)), 0.06)
	area := 0.0
	for _, piece := range strokeLines([]line{{at: bent}}, 20, true, nil) {
		area += areaOf(piece)
	}
	// Two sides, two half discs and a quarter; the sides share a square of half
	// a width.
	require.InEpsilon(t, 2*50*20+math.Pi*100*1.25, area, 0.005)
}

func TestMiterIsCutWhereSharp(t *testing.T) {
	reach := func(angle float64) float64 {
		tip := Point{}
		a, b := tip.Toward(180-angle/2, 50), tip.Toward(180+angle/2, 50)
		top := 0.0
		for _, piece := range strokeLines([]line{{at: []Point{a, tip, b}}}, 2, false, nil) {
			for _, p := range piece {
				top = min(top, p.Y)
			}
		}
		return -top
	}
	// SVG 1.1, 11.4: miter length / width = 1 / sin(angle / 2), cut beyond 4:
	// at 28.96 degrees.
	require.InDelta(t, 1/math.Sin(15*math.Pi/180), reach(30), 1e-9)
	require.Less(t, reach(28), 1.1)
}

func TestDashesKeepTheirCount(t *testing.T) {
	require.Len(t, dashed([]line{{at: []Point{{0, 0}, {1e5, 0}}}}, []float64{1e-6}), 1)
	require.Len(t, dashed([]line{{at: []Point{{0, 0}, {10, 0}}}}, []float64{0, 0}), 1)
	closed := dashed([]line{{at: []Point{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, closed: true}}, []float64{4, 4})
	sum := 0.0
	for _, d := range closed {
		require.False(t, d.closed)
		sum += length(d)
	}
	require.InDelta(t, 20, sum, 1e-9)
}
