package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func hatchPieces(p Path) [][2]Point {
	var out [][2]Point
	for i := 0; i+1 < len(p); i += 2 {
		out = append(out, [2]Point{p[i].P[0], p[i+1].P[0]})
	}
	return out
}

func TestHatchFillsItsPath(t *testing.T) {
	ring := append(Circle(50, 50, 20), ArcPath(50, 50, 12, 360, 0)...)
	ring = append(ring, Segment{Op: Close})
	for name, row := range map[string]struct {
		path Path
		area float64
	}{
		"rectangle": {Rect(10, 10, 40, 30), 1200},
		"circle":    {Circle(50, 50, 20), math.Pi * 400},
		"ring":      {ring, math.Pi * (400 - 144)},
		"two parts": {append(Rect(0, 0, 10, 10), Rect(20, 0, 10, 10)...), 200},
		// By the nonzero rule a part drawn twice is not a hole.
		"twice": {append(Rect(0, 0, 10, 10), Rect(0, 0, 10, 10)...), 100},
	} {
		const spacing = 0.05
		sum := 0.0
		for _, p := range hatchPieces(hatch(row.path, spacing)) {
			require.InDelta(t, p[0].X+p[0].Y, p[1].X+p[1].Y, 1e-9, name)
			sum += math.Hypot(p[0].X-p[1].X, p[0].Y-p[1].Y)
		}
		// Lines a spacing apart sweep the area: the trapezoid rule.
		require.InEpsilon(t, row.area, sum*spacing, 0.005, name)
	}
}

func TestHatchStaysInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var at []Point
		for range rapid.IntRange(3, 9).Draw(t, "n") {
			at = append(at, Point{rapid.Float64Range(0, 100).Draw(t, "x"), rapid.Float64Range(0, 100).Draw(t, "y")})
		}
		path := Polygon(at...)
		lines := flatten(path, 0.01)
		for _, p := range hatchPieces(hatch(path, 2.5)) {
			if math.Hypot(p[0].X-p[1].X, p[0].Y-p[1].Y) < 1e-3 {
				continue
			}
			for _, share := range []float64{0.01, 0.5, 0.99} {
				require.True(t, inside(lines, between(p[0], p[1], share)), "%v", p)
			}
		}
	})
}

func TestHatchSpacing(t *testing.T) {
	sums := map[float64]bool{}
	for _, p := range hatchPieces(hatch(Rect(3, 4, 20, 10), 1.5)) {
		k := (p[0].X + p[0].Y) / math.Sqrt2 / 1.5
		require.InDelta(t, math.Round(k), k, 1e-9)
		sums[math.Round(k)] = true
	}
	require.Len(t, sums, 14) // 7 / (1.5 sqrt 2) = 3.3, 37 / (1.5 sqrt 2) = 17.4: lines 4 to 17
}

func TestHatchOfNonsenseIsNone(t *testing.T) {
	for _, spacing := range []float64{0, -1, math.NaN(), 1e-9} {
		require.Empty(t, hatch(Rect(0, 0, 100, 100), spacing))
	}
	require.Empty(t, hatch(nil, 1))
	p := NewPen(loadFonts(t), A4())
	p.Hatch(nil, 1, Outline(1))
	require.Empty(t, p.Page().Items)
}
