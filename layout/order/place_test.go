package order

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

func TestRayByHand(t *testing.T) {
	disc, err := plane.Round(400)
	require.NoError(t, err)
	half, err := plane.HalfRound(400, 197)
	require.NoError(t, err)
	box, err := plane.Rectangle(300, 200)
	require.NoError(t, err)
	for _, c := range []struct {
		o       plane.Outline
		p       plane.Vec
		bearing float64
		want    float64
	}{
		{disc, plane.Vec{}, 33, 200},
		{disc, plane.Vec{100, 0}, 90, 100},
		{disc, plane.Vec{100, 0}, 270, 300},
		{box, plane.Vec{}, 90, 150},
		{box, plane.Vec{}, 0, 100},
		{box, plane.Vec{50, 0}, 45, 100 * 1.4142135623730951},
		{half, plane.Vec{0, 50}, 180, 50},
		{half, plane.Vec{0, 50}, 0, 147},
		{box, plane.Vec{200, 0}, 0, 0},
	} {
		require.InDelta(t, c.want, ray(&c.o, c.p, c.bearing), 1e-6)
	}
}

// Law: where a ray ends the depth is nothing, and before that it is something.
func TestLawRayEndsAtTheEdge(t *testing.T) {
	half, err := plane.HalfSided(12, 660, 327)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		p := plane.Vec{rapid.Float64Range(-300, 300).Draw(t, "x"), rapid.Float64Range(1, 300).Draw(t, "y")}
		bearing := rapid.Float64Range(0, 360).Draw(t, "bearing")
		if !(half.Depth(p) > 1e-3) {
			t.Skip("outside")
		}
		far := ray(&half, p, bearing)
		require.InDelta(t, 0, half.Depth(plane.Add(p, plane.FromBearing(far, bearing))), 1e-6)
		require.Positive(t, half.Depth(plane.Add(p, plane.FromBearing(far*0.9, bearing))))
	})
}

func TestBetween(t *testing.T) {
	require.Equal(t, 20.0, between(350, 10))
	require.Equal(t, 180.0, between(90, 270))
	require.Equal(t, 0.0, between(360, 0))
}

// Two neighbours near and apart are worth more than two on one side.
func TestChooseNeighbours(t *testing.T) {
	n := func(gap, toward float64) Neighbour { return Neighbour{Kind: NearPot, Gap: gap, Toward: toward} }
	edge := &Neighbour{Kind: NearEdge, Gap: 9, Toward: 300}
	for name, c := range map[string]struct {
		list []Neighbour
		edge *Neighbour
		want []Neighbour
	}{
		"nothing near":             {nil, nil, nil},
		"the edge alone":           {nil, edge, []Neighbour{*edge}},
		"one and the edge":         {[]Neighbour{n(6, 90)}, edge, []Neighbour{n(6, 90), *edge}},
		"one, the edge behind it":  {[]Neighbour{n(6, 290)}, edge, []Neighbour{n(6, 290)}},
		"two apart":                {[]Neighbour{n(6, 90), n(7, 200)}, edge, []Neighbour{n(6, 90), n(7, 200)}},
		"the second nearest skips": {[]Neighbour{n(6, 90), n(6, 120), n(9, 190)}, nil, []Neighbour{n(6, 90), n(9, 190)}},
		"a pair is near, not wide": {[]Neighbour{n(6, 0), n(6, 65), n(40, 180)}, nil, []Neighbour{n(6, 0), n(6, 65)}},
		"two on one side, no edge": {[]Neighbour{n(6, 90), n(7, 100)}, nil, []Neighbour{n(6, 90), n(7, 100)}},
	} {
		t.Run(name, func(t *testing.T) { require.Equal(t, c.want, choose(c.list, c.edge)) })
	}
}
