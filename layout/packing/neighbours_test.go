package packing

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestNeighboursLoseNothing: the energy with a list that is kept while things
// move is that of a list made on the spot, to the bit.
func TestNeighboursLoseNothing(t *testing.T) {
	p := discs(round(t, 400), []float64{40, 40, 40, 30, 30, 25, 25, 25, 20, 15, 15, 10}, 6, 0)
	rnd := rand.New(rand.NewPCG(1, 2))
	kept, fresh := newCrowd(newGround(&p), nil), newCrowd(newGround(&p), nil)
	for w, want := range p.Wants {
		for range want.Count {
			s := kept.anywhere(want.Kind, rnd)
			at := [2]float64{s.x, s.y}
			kept.add(want.Kind, w, at, 0, false)
			fresh.add(want.Kind, w, at, 0, false)
		}
	}
	kept.ask(asked{})
	fresh.ask(asked{})
	g, h := make([]float64, len(kept.x)), make([]float64, len(kept.x))
	made := 0
	for step := range 2000 {
		for i := range kept.x {
			kept.x[i] += float64(3 * spanned(rnd))
			if step%97 == 0 {
				kept.x[i] = float64(200 * spanned(rnd))
			}
		}
		copy(fresh.x, kept.x)
		if !kept.near.hold(kept.x) {
			made++
		}
		fresh.near.forget()
		require.Equal(t, fresh.energy(fresh.x, h), kept.energy(kept.x, g), "step %d", step)
		require.Equal(t, h, g, "step %d", step)
	}
	require.Greater(t, made, 100)
	require.Less(t, made, 1500, "the list is made anew too often for this test to say anything")
}
