package packing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// A patch has the points asked for, inside, no two nearer than one spacing, and
// as near as that they are close together: each has a neighbour there.
func TestPatchIsALatticeInside(t *testing.T) {
	outlines := map[string]plane.Outline{"round": round(t, 600), "rectangle": rectangle(t, 600, 300), "half": halfRound(t, 600, 300)}
	for name, o := range outlines {
		for _, off := range patchMiddles() {
			for _, turn := range []float64{0, 17} {
				for n := 2; n <= 61; n++ {
					p := discs(o, repeat(10, n), 0, 0)
					at := newCrowd(newGround(&p), nil).patch(n, off, turn)
					require.Len(t, at, n, "%s %v %g", name, off, turn)
					least := 0.45
					if n < 20 {
						least = 0.2 // two about one in the middle: 2/9 in a circle
					}
					require.GreaterOrEqual(t, packedShare(o, at), least, "%s %v %g, %d", name, off, turn, n)
				}
			}
		}
	}
}

// packedShare is how much of an outline discs about these points cover, as
// large as the points let them be.
func packedShare(o plane.Outline, at []plane.Vec) float64 {
	r := math.Inf(1)
	for i, a := range at {
		r = min(r, o.Depth(a))
		for _, b := range at[:i] {
			r = min(r, plane.Distance(a, b)/2)
		}
	}
	return float64(len(at)) * math.Pi * r * r / o.Area()
}

// Around a point of the triangular lattice lie 7, 13, 19, 31, 37, 55 points
// within 1, sqrt 3, 2, sqrt 7, 3, sqrt 13 of its spacing; the discs about them
// fill a circle of 1 + 2 times that. For 7, 31 and 55 none does better that is
// known, and 31 is the number that hopping from chance does not come to.
//
// Source: the Loeschian numbers (norms of the triangular lattice); E. Specht,
// Packomania, equal circles in a circle, for the records of 31 and 55 (from
// memory: 6.291502622 and 8.211102551).
func TestTightMeetsThePatches(t *testing.T) {
	for n, norm := range map[int]float64{7: 1, 31: 7, 55: 13} {
		p := discs(round(t, 2000), repeat(1, n), 0, 0)
		p.Grid = 1e-6
		for seed := uint64(1); seed <= 3; seed++ {
			_, f, err := Tight(p, seed, second(n)/10)
			require.NoError(t, err)
			require.InEpsilon(t, 1+2*math.Sqrt(norm), 1000/f, 1e-7, "%d, seed %d", n, seed)
		}
	}
}

// One thing, or a ground too narrow for so many, is no trouble.
func TestPatchOfLittle(t *testing.T) {
	p := discs(round(t, 2), repeat(1, 3000), 0, 0)
	at := newCrowd(newGround(&p), nil).patch(3000, plane.Vec{}, 0)
	require.Empty(t, at, "narrower than the grid")
	p = discs(round(t, 400), repeat(30, 1), 0, 0)
	_, f, err := Tight(p, 1, 50)
	require.NoError(t, err)
	require.InDelta(t, 200.0/30, f, 1e-6)
}
