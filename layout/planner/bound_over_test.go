package planner

import (
	"math"
	"os"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
)

// TestOverfullAgainstTheBound tells how far under the bound plans of far too
// much ware stay, in value and in pots, and what is scarce. The samples with
// more of everything, and planted loads twice.
func TestOverfullAgainstTheBound(t *testing.T) {
	times, loads, work := []float64{2}, uint64(2), int64(5000)
	names := []string{"small-round"}
	if os.Getenv("THREEPOST_LONG") != "" {
		times, loads, work, names = []float64{1.5, 2, 3}, 16, 60000, samples()
	} else {
		t.Log("one sample and two planted loads, 5000 units; THREEPOST_LONG=1 takes all samples at 1.5, 2 and 3 times, 16 planted loads, 60000 units")
	}
	var rows []race
	for _, name := range names {
		for _, n := range times {
			rows = append(rows, race{name: name, load: crowded(sample(t, name), n)})
		}
	}
	for seed := range loads {
		p := plant(t, seed)
		rows = append(rows, race{name: p.name, load: crowded(p.load, 2)})
	}
	var value, pots []float64
	for _, r := range rows {
		p := planned(t, r.load, 1, work)
		b, err := Bound(r.load)
		require.NoError(t, err)
		require.LessOrEqual(t, p.Set, b.Count, r.name)
		require.LessOrEqual(t, p.Value, b.Value+1e-9, r.name)
		v, n := (b.Value-p.Value)/b.Value, float64(b.Count-p.Set)/float64(b.Count)
		value, pots = append(value, v), append(pots, n)
		t.Logf("%-32s %3d of %3d set, bound %3d (%.3f under); value %.1f of %.1f, bound %.1f (%.3f under) %s",
			r.name, p.Set, p.Of, b.Count, n, p.Value, p.Whole, b.Value, v, b.Short)
	}
	sort.Float64s(value)
	sort.Float64s(pots)
	t.Logf("under the bound over %d loads, median: value %.3f, pots %.3f", len(value), value[len(value)/2], pots[len(pots)/2])
}

// What a pot covers at a height is never more than a fine grid counts, and not
// much less: a disc, and a handle that stands out from it.
func TestSliceAreaOfAHandledPot(t *testing.T) {
	body := solid.Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: solid.Profile{{Z: 0, R: 38}, {Z: 95, R: 43}}}
	handle := solid.Part{Skeleton: plane.Skeleton{{38, 0}, {72, 0}}, Profile: solid.Profile{{Z: 20, R: 7}, {Z: 80, R: 7}}}
	parts := []solid.Part{body, handle}
	require.InDelta(t, math.Pi*46*46, sliceArea(parts, 95, 3), 1e-6, "over the handle")
	require.Zero(t, sliceArea(parts, 96, 3), "over the pot")
	got := sliceArea(parts, 50, 3)
	count := 0
	r := body.Profile.R(50) + 3
	for x := -90.0; x < 90; x += 0.25 {
		for y := -60.0; y < 60; y += 0.25 {
			q := plane.Vec{x, y}
			if _, d := handle.Skeleton.Nearest(q); d <= 10 || plane.Length(q) <= r {
				count++
			}
		}
	}
	fine := float64(count) / 16
	require.LessOrEqual(t, got, fine+3)
	require.GreaterOrEqual(t, got, fine*0.97)
	require.Greater(t, got, math.Pi*r*r+300, "the handle counts")
}

// BenchmarkBound is the bound of 184 pots in two kinds of shelves (budget: well
// under 0.3 s, since it stands beside every plan).
func BenchmarkBound(b *testing.B) {
	l := crowded(sample(b, "studio"), 2)
	for b.Loop() {
		if _, err := Bound(l); err != nil {
			b.Fatal(err)
		}
	}
}
