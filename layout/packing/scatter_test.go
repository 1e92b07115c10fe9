package packing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// pocket is the widest disc that lies free on a round shelf, mm across.
func pocket(across float64, r float64, set []Standing) float64 {
	widest := 0.0
	for x := -across / 2; x <= across/2; x += 4 {
		for y := -across / 2; y <= across/2; y += 4 {
			free := across/2 - math.Hypot(x, y)
			for _, s := range set {
				free = min(free, math.Hypot(x-s.At[0], y-s.At[1])-r)
			}
			widest = max(widest, 2*free)
		}
	}
	return widest
}

// TestScatterFillsTheMiddle: fourteen pots along the edge of a wide shelf are
// scattered over all of it, comfortable as before.
func TestScatterFillsTheMiddle(t *testing.T) {
	const across, r = 660.0, 40.0
	p := discs(round(t, across), repeat(r, 14), 6, 6)
	ring := Result{}
	for i := range 14 {
		a := 2 * math.Pi * float64(i) / 14
		ring.Set = append(ring.Set, Standing{At: plane.Vec{265 * math.Cos(a), 265 * math.Sin(a)}})
	}
	ring.Set = rounded(ring.Set)
	ring.count(&p)
	e := Ease{Comfort: 20, Edge: 0.5, Obstacle: 0.7}
	require.GreaterOrEqual(t, e.Least(p, ring), 19.6, "comfortable at the edge")
	out := Scatter(p, ring, e)
	require.True(t, Valid(&p, out.Set))
	require.GreaterOrEqual(t, e.Least(p, out), 19.6)
	before, after := pocket(across, r, ring.Set), pocket(across, r, out.Set)
	t.Logf("largest pocket %.0f across before, %.0f after", before, after)
	require.Less(t, after, before/2)
	require.Equal(t, out, Scatter(p, ring, e), "the same every time")
}

// TestScatterLeavesWhatIsTight: where comfort is not reached nothing moves, and
// what is fixed never does.
func TestScatterLeavesWhatIsTight(t *testing.T) {
	p := discs(round(t, 400), repeat(50, 7), 6, 6)
	full, err := Fill(p, 1, 20000)
	require.NoError(t, err)
	require.Len(t, full.Set, 7)
	e := Ease{Comfort: 60}
	require.Equal(t, full, Scatter(p, full, e))

	q := discs(round(t, 800), repeat(40, 5), 6, 6)
	q.Fixed = []Standing{{Kind: 0, Want: -1, At: plane.Vec{100.1, -77.7}}}
	some, err := Fill(q, 3, 5000)
	require.NoError(t, err)
	some = Spread(q, some, Ease{Comfort: 20}, 1, 5000)
	out := Scatter(q, some, Ease{Comfort: 20})
	require.Equal(t, some.Set[0], out.Set[0])
	require.NotEqual(t, some.Set, out.Set)
}

func rounded(set []Standing) []Standing {
	for i := range set {
		set[i].At = plane.Vec{math.Round(set[i].At[0]*10) / 10, math.Round(set[i].At[1]*10) / 10}
	}
	return set
}
