package packing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

// Slack against distances worked out by hand: discs of radius 40, 6 apart and 6
// from the edge of a shelf 400 across, a post of radius 19 in the middle.
func TestSlackByHand(t *testing.T) {
	p := scene([]plane.Outline{round(t, 400)}, []thing{pot(40, 3)}, 6, 6, plane.Vec{})
	at := func(x, y float64) Standing { return Standing{At: plane.Vec{x, y}} }
	fixed := func(x, y float64) Standing { return Standing{At: plane.Vec{x, y}, Want: -1, Fixed: true} }
	const post = 40 + 19 + 6
	for _, tt := range []struct {
		name string
		set  []Standing
		want float64
	}{
		{"one between post and edge", []Standing{at(110, 0)}, min(110-post, 200-110-46)},
		{"one too near the post", []Standing{at(50, 0)}, 50 - post},
		{"one over the edge", []Standing{at(170, 0)}, 200 - 170 - 46},
		{"two too near each other", []Standing{at(110, -30), at(110, 30)}, 60 - 86},
		{"one too near a fixed one", []Standing{at(110, -30), fixed(110, 30)}, 60 - 86},
		{"two fixed ones too near are left", []Standing{fixed(110, -30), fixed(110, 30)}, math.Inf(1)},
		{"a fixed one over the edge is left", []Standing{fixed(190, 0)}, math.Inf(1)},
	} {
		require.InDelta(t, tt.want, Slack(&p, tt.set), 1e-6, tt.name)
	}
}

// A need is missed as soon as it is missed by more than the tolerance.
func TestValidToTheTolerance(t *testing.T) {
	p := scene([]plane.Outline{round(t, 400)}, []thing{pot(40, 2)}, 6, 6)
	for _, tt := range []struct {
		apart float64
		want  bool
	}{{86, true}, {86 - 0.9*plane.Tolerance, true}, {86 - 3*plane.Tolerance, false}, {85.9, false}, {85.6, false}} {
		set := []Standing{{At: plane.Vec{-tt.apart / 2, 0}}, {At: plane.Vec{tt.apart / 2, 0}}}
		require.Equal(t, tt.want, Valid(&p, set), "%g", tt.apart)
	}
}

// Drawing apart never leaves the tightest place tighter, whatever stood where.
func TestLawSpreadNeverTightens(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.IntRange(2, 14).Draw(r, "pots")
		p := scene([]plane.Outline{round(t, 460)}, []thing{pot(40, n), mug(36, 30, rapid.IntRange(0, 3).Draw(r, "mugs"))}, 6, 6, plane.Vec{150, 0})
		start, err := Fill(p, rapid.Uint64Range(1, 50).Draw(r, "seed"), 400)
		if err != nil {
			r.Fatal(err)
		}
		e := Ease{Comfort: 20, Edge: 0.5, Obstacle: 0.7}
		got := Spread(p, start, e, 1, rapid.Int64Range(1, 300).Draw(r, "work"))
		if !Valid(&p, got.Set) || len(got.Set) != len(start.Set) || e.Least(p, got) < e.Least(p, start) {
			r.Fatalf("from %g to %g", e.Least(p, start), e.Least(p, got))
		}
	})
}
