package packing

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// The least gap of n equal discs of radius r on a round shelf of radius R can
// be, by the record ratio q of the smallest circle for n discs of radius 1:
// 2 (R - r q) / (q + 1) when the edge wants as much as a pair, and
// 2 (R / q - r) when it wants half as much: then the discs of r + g/2 fill the
// shelf itself. Spread comes to 99 % of it, the grid of 0.1 mm included.
//
// Source: E. Specht, Packomania, equal circles in a circle; the formulas follow
// from widening every disc by half the gap.
func TestSpreadReachesTheGapOfTheRecords(t *testing.T) {
	const r = 40.0
	worst := 1.0
	defer func() { t.Logf("worst %.2f %% of what the records imply", 100*worst) }()
	for _, rec := range readRecords(t) {
		if rec.family != "equal" || rec.container != "circle" || rec.n > 40 {
			continue
		}
		R := 1.12 * r * rec.best
		p := discs(round(t, 2*R), repeat(r, rec.n), 0, 0)
		start, err := Fill(p, 1, 50000)
		require.NoError(t, err)
		require.True(t, start.Whole(), "%d", rec.n)
		for _, c := range []struct{ edge, most float64 }{
			{1, 2 * (R - r*rec.best) / (rec.best + 1)},
			{0.5, 2 * (R/rec.best - r)},
		} {
			e := Ease{Comfort: 500, Edge: c.edge}
			got := Spread(p, start, e, 1, spreadWork(rec.n))
			require.True(t, Valid(&p, got.Set))
			least := e.Least(p, got)
			t.Logf("n %d edge %g: least ease %.3f of %.3f (%.2f %%), from %.3f, work %d", rec.n, c.edge, least, c.most,
				100*least/c.most, e.Least(p, start), got.Work-start.Work)
			require.LessOrEqual(t, least, c.most+1e-6, "more than the record of %s", rec.source)
			require.GreaterOrEqual(t, least, 0.99*c.most, "n %d edge %g", rec.n, c.edge)
			worst = min(worst, least/c.most)
		}
	}
}

// spreadWork is the units of work of evening out n discs: two thirds of a
// second's for 40, far less for few.
func spreadWork(n int) int64 { return int64(1000*n + 8000*max(0, n-20)) }

// Few things on a wide shelf come to the comfortable slack and are then left.
func TestSpreadStopsAtComfort(t *testing.T) {
	p := discs(round(t, 800), repeat(50, 5), 6, 6)
	start, err := Fill(p, 3, 5000)
	require.NoError(t, err)
	e := Ease{Comfort: 30}
	got := Spread(p, start, e, 1, 5000)
	require.GreaterOrEqual(t, e.Least(p, got), 29.7)
	again := Spread(p, got, Ease{Comfort: 29}, 1, 5000)
	require.Equal(t, got, again, "what is comfortable is not moved")
}

// What stands locked stays to the last bit, and the others make the best of it.
func TestSpreadLeavesTheFixed(t *testing.T) {
	p := discs(round(t, 600), repeat(50, 6), 6, 6)
	p.Fixed = []Standing{{Kind: 0, Want: -1, At: plane.Vec{100.03, -77.77}}}
	start, err := Fill(p, 3, 5000)
	require.NoError(t, err)
	require.Len(t, start.Set, 7)
	e := Ease{Comfort: 40}
	got := Spread(p, start, e, 1, 8000)
	require.Equal(t, start.Set[0], got.Set[0])
	require.True(t, Valid(&p, got.Set))
	require.Greater(t, e.Least(p, got), e.Least(p, start))
}
