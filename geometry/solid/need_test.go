package solid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

const micron = 1e-3

func gapAt(a, b Part, dz, d float64) float64 {
	return pair{a: a.Profile, b: b.Profile, dz: dz, d: d}.meet().gap
}

func someHeights(k int, a, b Part, g float64, pick func(lo, hi float64) float64) float64 {
	switch k % 4 {
	case 0:
		return 0
	case 1: // rim over foot, just within reach
		return a.Profile.Top() + pick(-2, g+2)
	case 2:
		return -b.Profile.Top() - pick(-2, g+2)
	}
	return pick(-b.Profile.Top()-g, a.Profile.Top()+g)
}

func TestGapAtNeedIsTheGapAndAMicronNearerIsLess(t *testing.T) {
	r := chance(20)
	checked, free := 0, 0
	for k := range 14000 {
		a, b := somePart(r, 6), somePart(r, 6)
		g := []float64{3, 6, 25, within(r, 0.01, 12)}[k%4]
		dz := someHeights(k/4, a, b, g, func(lo, hi float64) float64 { return within(r, lo, hi) })
		need := Need(a, b, g, dz)
		if math.IsInf(need, -1) {
			require.GreaterOrEqual(t, gapAt(a, b, dz, 0), g-1e-8, "no planar distance is needed")
			free++
			continue
		}
		checked++
		require.InDelta(t, g, gapAt(a, b, dz, need), 1e-8, "pair %d: at the need", k)
		require.Less(t, gapAt(a, b, dz, need-micron), g-1e-12, "pair %d: a micron nearer", k)
		for range 3 {
			require.GreaterOrEqual(t, gapAt(a, b, dz, need+within(r, 0, 50)), g-1e-8, "pair %d: farther", k)
		}
	}
	t.Logf("%d pairs checked, %d needed no distance", checked, free)
	require.Greater(t, checked, 10000)
	require.Greater(t, free, 10)
}

func TestNeedForNoGapIsWhereOverlapEnds(t *testing.T) {
	r := chance(21)
	checked := 0
	for k := range 6000 {
		a, b := somePart(r, 6), somePart(r, 6)
		dz := someHeights(k, a, b, 0, func(lo, hi float64) float64 { return within(r, lo, hi) })
		if k%8 == 0 { // a rim level with a knot of the other
			dz = a.Profile[r.IntN(len(a.Profile))].Z - b.Profile[r.IntN(len(b.Profile))].Z
		}
		need := Need(a, b, 0, dz)
		if math.IsInf(need, -1) {
			require.GreaterOrEqual(t, gapAt(a, b, dz, 0), -1e-8)
			continue
		}
		checked++
		require.GreaterOrEqual(t, gapAt(a, b, dz, need), -1e-8)
		require.Less(t, gapAt(a, b, dz, need-micron), 0.0)
	}
	require.Greater(t, checked, 4000)
}

// Worked by hand.
func TestNeedOfKnownPairs(t *testing.T) {
	mug := cylinder(43, 0, 100)
	cone := Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 100}, {100, 0}}}
	edge := Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{50, 10}, {50.001, 10}}}
	for name, c := range map[string]struct {
		a, b        Part
		g, dz, want float64
	}{
		"two mugs side by side":            {mug, mug, 6, 0, 92},
		"one stands 40 higher":             {mug, mug, 6, 40, 92},
		"rim 3 under a foot, 3-4-5":        {mug, mug, 5, 103, 90},
		"rim just the gap under a foot":    {mug, mug, 5, 105, math.Inf(-1)},
		"a mug on top of another, gap 0":   {mug, mug, 0, 100, math.Inf(-1)},
		"two mugs touch":                   {mug, mug, 0, 0, 86},
		"a rim over a slope of 45 degrees": {cone, edge, 10, 0, 60 + 10*math.Sqrt2},
	} {
		got := Need(c.a, c.b, c.g, c.dz)
		if math.IsInf(c.want, -1) {
			require.Equal(t, c.want, got, name)
			continue
		}
		require.InDelta(t, c.want, got, 2e-3, name)
		require.Equal(t, got, Need(c.b, c.a, c.g, -c.dz), name+", flipped")
	}
}

func TestNeedIsSymmetricAndGrows(t *testing.T) {
	r := chance(22)
	for k := range 4000 {
		a, b := somePart(r, 6), somePart(r, 6)
		g := within(r, 0.5, 20)
		dz := someHeights(k, a, b, g, func(lo, hi float64) float64 { return within(r, lo, hi) })
		need := Need(a, b, g, dz)
		back := Need(b, a, g, -dz)
		if math.IsInf(need, -1) {
			require.Equal(t, need, back)
			continue
		}
		require.InDelta(t, need, back, 1e-9)
		require.LessOrEqual(t, need, Need(a, b, g+within(r, 0, 5), dz)+1e-9, "a greater gap")
		more := within(r, 0, 4)
		grown := Part{Skeleton: a.Skeleton}
		for _, k := range a.Profile {
			grown.Profile = append(grown.Profile, Knot{k.Z, k.R + more})
		}
		require.InDelta(t, need+more, Need(grown, b, g, dz), 1e-9, "a wider part")
	}
}

func TestNeedDoesNotAllocate(t *testing.T) {
	a, b := sixPoints(45), sixPoints(40)
	require.Zero(t, testing.AllocsPerRun(50, func() { Need(a, b, 6, 0); Need(a, b, 0, 0); NeedLower(a, b, 0) }))
}

func BenchmarkNeed(b *testing.B) {
	p, q := sixPoints(45), sixPoints(40)
	for _, c := range []struct {
		name  string
		g, dz float64
	}{{"level", 6, 0}, {"off level", 6, 31}, {"wide gap", 25, 31}, {"gap 0", 0, 5}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Need(p, q, c.g, c.dz)
			}
		})
	}
	b.Run("lower", func(b *testing.B) {
		for b.Loop() {
			NeedLower(p, q, 0)
		}
	})
}
