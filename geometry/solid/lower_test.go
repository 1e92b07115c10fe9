package solid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// At the planar distance of NeedLower nothing is touched on the whole way
// down; a hundredth of a mm nearer, something is.
func TestLoweredPathIsClear(t *testing.T) {
	r := chance(30)
	checked := 0
	for k := range 3000 {
		a, b := somePart(r, 6), somePart(r, 6)
		dz := 0.0
		if k%3 > 0 {
			dz = within(r, -60, 60)
		}
		need := NeedLower(a, b, dz)
		if math.IsInf(need, -1) {
			require.GreaterOrEqual(t, dz, a.Profile.Top()-level)
			continue
		}
		checked++
		stops := []float64{0, 1e-7}
		for _, p := range a.Profile { // the levels at which knots pass, and round about
			for _, q := range b.Profile {
				s := p.Z - q.Z - dz
				stops = append(stops, s, s-1e-4, s+1e-4)
			}
		}
		for range 10 {
			stops = append(stops, within(r, 0, 200))
		}
		met := false
		for _, s := range stops {
			if s < 0 {
				continue
			}
			require.GreaterOrEqual(t, gapAt(a, b, dz+s, need), -1e-8, "lifted by %g", s)
			met = met || gapAt(a, b, dz+s, need-0.01) < 0
		}
		require.True(t, met, "pair %d could stand nearer than %g", k, need)
	}
	require.Greater(t, checked, 2000)
}

func TestLowerOfKnownPairs(t *testing.T) {
	belly := Body{Parts: []Part{{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 30}, {50, 60}, {100, 30}}}}}
	flare := Body{Parts: []Part{{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 20}, {100, 60}}}}}
	tile := Body{Parts: []Part{{Skeleton: plane.Skeleton{{-100, -100}, {100, -100}, {100, 100}, {-100, 100}}, Profile: Profile{{0, 0}, {19, 0}}}}}
	stand := at(belly, 0, 0, 0)
	for name, c := range map[string]struct {
		a, b    Placed
		missing float64
	}{
		"side by side, clear":    {stand, at(belly, 123, 0, 0), -3},
		"side by side, too near": {stand, at(belly, 118, 0, 0), 2},
		// the flare's rim of 60 stands over the belly's 60 on its way down
		"belly let down beside the flare": {at(flare, 0, 0, 0), at(belly, 110, 0, 0), 10},
		// level at 50 they take 60 + 40, and nothing higher of the belly and
		// lower of the flare takes more
		"flare let down beside the belly":    {stand, at(flare, 100, 0, 0), 0},
		"a pot under the shelf, let down":    {at(tile, 0, 0, 100), at(belly, 0, 0, 0), 60 + 100},
		"a pot on the shelf that it is on":   {at(tile, 0, 0, 100), at(belly, 0, 0, 119), math.Inf(-1)},
		"a pot on a shelf at an odd height":  {at(tile, 0, 0, 0.1+0.2), at(belly, 0, 0, 0.3+19), math.Inf(-1)},
		"a shelf let down over a pot's head": {stand, at(tile, 0, 0, 130), math.Inf(-1)},
	} {
		got := LowerDepth(&c.a, &c.b, 0)
		if math.IsInf(c.missing, -1) {
			require.Equal(t, c.missing, got, name)
			require.True(t, Lower(&c.a, &c.b, 3), name)
			continue
		}
		require.InDelta(t, c.missing, got, 1e-9, name)
		require.InDelta(t, c.missing+3, LowerDepth(&c.a, &c.b, 3), 1e-9, name)
		require.Equal(t, c.missing <= -3+1e-6, Lower(&c.a, &c.b, 3), name)
	}
}

// Interlocking ware allows one order only: the flare goes in after the belly.
func TestInterlockingPairsAllowOneOrder(t *testing.T) {
	foot := Body{Parts: []Part{{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 60}, {40, 60}, {40, 30}, {100, 30}}}}}
	rim := Body{Parts: []Part{{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 30}, {60, 30}, {60, 60}, {100, 60}}}}}
	a, b := at(foot, 0, 0, 0), at(rim, 95, 0, 0)
	require.True(t, GapAtLeast(&a, &b, 5))
	require.True(t, Lower(&a, &b, 3), "the wide rim comes down over the wide foot")
	require.False(t, Lower(&b, &a, 3), "the wide foot does not pass the wide rim")
}

func TestNeedLowerIsNeverUnderNeedAndNeverGrowsWithHeight(t *testing.T) {
	r := chance(31)
	for range 4000 {
		a, b := somePart(r, 6), somePart(r, 6)
		dz := within(r, -160, 160)
		lower := NeedLower(a, b, dz)
		require.GreaterOrEqual(t, lower, Need(a, b, 0, dz)-1e-9)
		require.GreaterOrEqual(t, lower, NeedLower(a, b, dz+within(r, 0, 50))-1e-9)
	}
}
