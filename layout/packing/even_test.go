package packing

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

// eases lists, smallest first, what every thing that may move bears: its least
// slack over a need, over a limit by the share of the edge, over an obstacle by
// its share; no more than comfort counts. It shares no code with the search.
func eases(p *Problem, set []Standing, e Ease) []float64 {
	parts := make([][]plane.Skeleton, len(set))
	for i, s := range set {
		for _, k := range p.Kinds[s.Kind].Parts {
			parts[i] = append(parts[i], k.At(plane.Pose{At: s.At, Turn: s.Turn}))
		}
	}
	var list []float64
	for i, s := range set {
		if s.Fixed {
			continue
		}
		least := e.Comfort
		for a, sk := range parts[i] {
			for j := range set {
				for b, other := range parts[j] {
					if need := p.Need[s.Kind][a][set[j].Kind][b]; j != i && !math.IsInf(need, -1) {
						least = min(least, sk.Distance(other)-need)
					}
				}
			}
			for _, o := range p.Obstacles {
				if need := o.Need[s.Kind][a]; !math.IsInf(need, -1) {
					least = min(least, (sk.Distance(o.Skeleton)-need)/e.Obstacle)
				}
			}
		}
		for _, l := range p.Kinds[s.Kind].Limits {
			deep := math.Inf(-1)
			for _, o := range p.Areas[l.Area].Outlines {
				deep = max(deep, plane.Clearance(o, parts[i][l.Part], 0))
			}
			least = min(least, (deep-l.Depth)/e.Edge)
		}
		list = append(list, least)
	}
	slices.Sort(list)
	return list
}

// notTighter says that the sorted list b is not less than a: at the first place
// where they differ by more than the grid may cost, b is the greater.
func notTighter(a, b []float64, crumb float64) bool {
	for i := range a {
		if d := b[i] - a[i]; math.Abs(d) > crumb {
			return d > 0
		}
	}
	return true
}

// gridCost is what rounding two things may take of the slack between them: half
// a step each way, of both; with turns, half a step of turn at their ends too.
const gridCost = 0.15

// Spread never ends tighter than what it was given: the least slack never
// shrinks at all, and of the sorted list of slacks the first that differs is
// larger. Any outline, half round shelves and two beside each other too, mixed
// sizes and shapes, posts, things that stay.
func TestSpreadNeverEndsTighter(t *testing.T) {
	moved, cases := 0, 0
	rapid.Check(t, func(r *rapid.T) {
		p := anyScene(r, t)
		start, err := Fill(p, rapid.Uint64Range(1, 1000).Draw(r, "seed"), 120)
		require.NoError(r, err)
		if k := rapid.IntRange(0, 3).Draw(r, "fixed"); k < len(start.Set) && k > 0 {
			p.Fixed = nil
			for i := range start.Set[:k] {
				start.Set[i].Fixed, start.Set[i].Want = true, -1
				p.Fixed = append(p.Fixed, start.Set[i])
			}
			start.count(&p)
		}
		e := Ease{Comfort: rapid.Float64Range(0.05, 60).Draw(r, "comfort"),
			Edge:     rapid.SampledFrom([]float64{0.3, 0.5, 1}).Draw(r, "edge"),
			Obstacle: rapid.SampledFrom([]float64{0.4, 0.7, 1}).Draw(r, "obstacle")}
		work := rapid.SampledFrom([]int64{1, 30, 200}).Draw(r, "work")
		got := Spread(p, start, e, 1, work)
		require.True(r, Valid(&p, got.Set))
		require.Len(r, got.Set, len(start.Set))
		for i, s := range got.Set {
			require.Equal(r, start.Set[i].Kind, s.Kind)
			require.Equal(r, start.Set[i].Want, s.Want)
			if s.Fixed {
				require.Equal(r, start.Set[i], s)
			}
		}
		before, after := eases(&p, start.Set, e), eases(&p, got.Set, e)
		if len(before) > 0 {
			require.GreaterOrEqual(r, after[0], before[0]-1e-6, "the least slack, %v after %v", after, before)
		}
		require.True(r, notTighter(before, after, gridCost), "%v after %v", after, before)
		cases++
		if len(before) > 0 && after[0] > before[0]+gridCost {
			moved++
		}
	})
	t.Logf("drawn apart in %d of %d", moved, cases)
	require.Greater(t, 3*moved, cases, "too few are drawn apart for this test to say anything")
}

// A wide pot stands wedged between four that stay, and there is no other room
// for it: nothing can ease it. The small ones, in a heap, are drawn apart all
// the same.
func TestSpreadEasesTheOthersOfAWedge(t *testing.T) {
	p := scene([]plane.Outline{rectangle(t, 400, 430)}, []thing{pot(40, 0), pot(90, 1), pot(20, 3)}, 6, 6)
	start := Result{Set: []Standing{
		{At: plane.Vec{-136, 35}, Want: -1, Fixed: true}, {At: plane.Vec{136, 35}, Want: -1, Fixed: true},
		{At: plane.Vec{0, 171}, Want: -1, Fixed: true}, {At: plane.Vec{0, -101}, Want: -1, Fixed: true},
		{Kind: 1, Want: 1, At: plane.Vec{0, 35}},
		{Kind: 2, Want: 2, At: plane.Vec{-174, -189}}, {Kind: 2, Want: 2, At: plane.Vec{-128, -189}}, {Kind: 2, Want: 2, At: plane.Vec{-174, -143}}}}
	p.Fixed = start.Set[:4]
	start.count(&p)
	require.True(t, Valid(&p, start.Set))
	e := Ease{Comfort: 20, Edge: 0.5, Obstacle: 0.7}
	before := eases(&p, start.Set, e)
	require.InDeltaSlice(t, []float64{0, 0, 0, 0}, before, 1e-6)
	for seed := uint64(1); seed <= 3; seed++ {
		got := Spread(p, start, e, seed, 1000)
		require.True(t, Valid(&p, got.Set))
		require.Equal(t, start.Set[4], got.Set[4])
		after := eases(&p, got.Set, e)
		require.InDelta(t, 0, after[0], 1e-6)
		require.Greater(t, after[1], 15.0)
	}
}

// notTighter tells a list that is tighter by three millimetres, or by little, at
// any place.
func TestNotTighterTells(t *testing.T) {
	a := []float64{1, 2, 5, 9}
	require.True(t, notTighter(a, a, gridCost))
	require.True(t, notTighter(a, []float64{1.3, 1.3, 1.3, 1.3}, gridCost))
	require.True(t, notTighter(a, []float64{0.9, 2, 5, 9}, gridCost))
	require.False(t, notTighter(a, []float64{0.8, 2, 5, 9}, gridCost))
	require.False(t, notTighter(a, []float64{1, 2, 4.8, 99}, gridCost))
	require.False(t, notTighter(a, []float64{1, 2, 5, 6}, gridCost))
}
