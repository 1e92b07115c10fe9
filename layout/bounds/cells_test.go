package bounds

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

// Far from walls a disc's weight at the right price is a hexagon's: the density
// of equal discs is pi / sqrt 12 (A. Thue 1910; L. Fejes Toth 1953).
func TestWeightOfADiscIsAHexagon(t *testing.T) {
	w := wall{area: 1e9, around: 1e5, corners: 4, round: math.Inf(1)}
	require.InDelta(t, 2*math.Sqrt(3), w.weight(1, 1e3, price{side: 0.12}), 1e-4)
	// Without a price of sides only the disc itself is sure.
	require.InDelta(t, math.Pi, w.weight(1, 1e3, price{}), 1e-4)
}

// The area under a wall: a straight one has a triangle, a circle all of itself
// round its centre.
func TestUnderAWall(t *testing.T) {
	straight := wall{round: math.Inf(1)}
	require.InDelta(t, 25.0, straight.under(90, 5), 1e-9)
	circle := wall{round: 5}
	require.InDelta(t, math.Pi*25, circle.under(360, 5), 1e-9)
	require.InDelta(t, math.Pi*25/4, circle.under(90, 5), 1e-9)
	flat := wall{round: 1e5}
	require.InDelta(t, 25.0, flat.under(90, 5), 1e-3)
	for deg := 1.0; deg < 360; deg += 7 { // never less than the disc's sector
		require.GreaterOrEqual(t, wall{round: 20}.under(deg, 5), math.Pi*25*deg/360-1e-9)
	}
}

// A packing that somebody found never weighs more than its shelf holds, at any
// prices: unit discs in the record's container (E. Specht, Packomania).
func TestLawRecordsWeighNoMoreThanTheirContainerHolds(t *testing.T) {
	for _, side := range []float64{0, 0.05, 0.1, 0.14, 0.2} {
		for _, mm := range []float64{0, 0.03, 0.07, 0.12} {
			p := price{side, mm}
			for n, r := range equalRecords(t, "circle") {
				w := wallOf(outline(t)(plane.Round(2*r)), nil)
				require.LessOrEqual(t, float64(n)*w.weight(1, 1, p), w.holds(p)+1e-6, "circle of %d at %v", n, p)
			}
			for n, r := range equalRecords(t, "halfdisc") {
				w := wallOf(outline(t)(plane.HalfRound(2*r, r)), nil)
				require.LessOrEqual(t, float64(n)*w.weight(1, 1, p), w.holds(p)+1e-6, "half disc of %d at %v", n, p)
			}
		}
	}
}

// Discs of random sizes, each set where it touches or is free, never weigh more
// than their shelf holds, whatever the prices and whether walls are straight.
func TestLawRandomDiscsWeighNoMoreThanTheirShelfHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		across := rapid.Float64Range(60, 500).Draw(t, "across")
		deep := across * rapid.Float64Range(0.4, 1).Draw(t, "deep")
		o := []plane.Outline{
			outline(t)(plane.Round(across)), outline(t)(plane.HalfRound(across, across/2)),
			outline(t)(plane.Oval(across, deep)), outline(t)(plane.HalfOval(across, deep/2)),
			outline(t)(plane.Sided(8, across, 0)), outline(t)(plane.Rectangle(across, deep)),
		}[rapid.IntRange(0, 5).Draw(t, "shape")]
		lo, hi := o.Bounds()
		type disc struct {
			at plane.Vec
			r  float64
		}
		var set []disc
		for range rapid.IntRange(0, 60).Draw(t, "tries") {
			at := plane.Vec{rapid.Float64Range(lo[0], hi[0]).Draw(t, "x"), rapid.Float64Range(lo[1], hi[1]).Draw(t, "y")}
			r := math.Min(o.Depth(at), 0.4*across)
			for _, d := range set {
				r = math.Min(r, plane.Distance(at, d.at)-d.r)
			}
			if r > 4 { // as large as it goes
				set = append(set, disc{at, r})
			}
		}
		if len(set) == 0 {
			return
		}
		p := price{side: rapid.Float64Range(0, 400).Draw(t, "side"), mm: rapid.Float64Range(0, 6).Draw(t, "mm")}
		w := wallOf(o, nil)
		sum := 0.0
		for _, d := range set {
			sum += w.weight(d.r, d.r, p)
		}
		require.LessOrEqual(t, sum, math.Max(w.holds(p), 0)+1e-6)
	})
}
