package solid

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

func TestProfilesThatAreRefused(t *testing.T) {
	for name, c := range map[string]struct {
		knots Profile
		says  string
	}{
		"none":               {nil, "has 0 entries"},
		"one":                {Profile{{0, 5}}, "has 1 entries"},
		"no height":          {Profile{{0, 5}, {0, 5}}, "no height"},
		"step at the first":  {Profile{{0, 5}, {0, 9}, {10, 5}}, "steps at its first entry"},
		"step at the last":   {Profile{{0, 5}, {10, 5}, {10, 9}}, "steps at its last entry"},
		"three at one":       {Profile{{0, 5}, {5, 5}, {5, 90}, {5, 5}, {10, 5}}, "three entries at 5"},
		"heights fall":       {Profile{{0, 5}, {10, 5}, {9, 5}}, "entry 3 of a profile lies at 9"},
		"negative radius":    {Profile{{0, 5}, {10, -5}}, "entry 2 of a profile has radius -5"},
		"not a number":       {Profile{{0, math.NaN()}, {10, 5}}, "entry 1 of a profile is not a number"},
		"endless":            {Profile{{0, 5}, {math.Inf(1), 5}}, "entry 2 of a profile is not a number"},
		"more than it takes": {make(Profile, MaxKnots+1), "takes 1024 at most"},
	} {
		_, err := NewProfile(c.knots...)
		require.ErrorContains(t, err, c.says, name)
		_, err = NewBody(cylinder(4, 0, 4), Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: c.knots})
		require.ErrorContains(t, err, "part 2: ", name)
	}
	_, err := NewBody()
	require.ErrorContains(t, err, "no part")
	_, err = NewBody(make([]Part, MaxParts+1)...)
	require.ErrorContains(t, err, "takes 4096 at most")
	_, err = NewBody(Part{Profile: Profile{{0, 1}, {1, 1}}})
	require.ErrorContains(t, err, "part 1: a skeleton has no point")
	_, err = Cylinder(0, 0, 5)
	require.Error(t, err)
}

func TestAtAStepTheLargerRadiusCounts(t *testing.T) {
	p, err := NewProfile(Knot{0, 10}, Knot{20, 30}, Knot{20, 5}, Knot{40, 15}, Knot{40, 16}, Knot{60, 0})
	require.NoError(t, err)
	for z, want := range map[float64]float64{
		-1: math.Inf(-1), 0: 10, 10: 20, 20: 30, 30: 10, 40: 16, 50: 8, 60: 0, 60.1: math.Inf(-1),
	} {
		require.Equal(t, want, p.R(z), "at %g", z)
		require.Equal(t, want, widthAt(p, z), "at %g", z)
	}
	require.True(t, math.IsInf(p.R(math.NaN()), -1))
	require.Equal(t, 30.0, p.Max())
	require.Equal(t, 0.0, p.Bottom())
	require.Equal(t, 60.0, p.Top())
}

func TestLongAndShortWalksOfAProfileAgree(t *testing.T) {
	r := chance(80)
	for range 500 {
		p := someProfile(r, 8)
		for range 10 {
			z := within(r, -5, 155)
			if r.IntN(2) == 0 {
				z = p[r.IntN(len(p))].Z
			}
			require.Equal(t, p.R(z), widthAt(p, z))
		}
	}
}

func TestMeasuresOfABody(t *testing.T) {
	b, err := NewBody(cylinder(40, 10, 100), Part{Skeleton: plane.Skeleton{{40, 0}, {0, 70}}, Profile: Profile{{-5, 6}, {80, 8}}})
	require.NoError(t, err)
	require.Equal(t, -5.0, b.Bottom())
	require.Equal(t, 100.0, b.Top())
	require.Equal(t, 105.0, b.Height())
	require.Equal(t, 78.0, b.Reach())
	lo, hi := b.Bounds()
	require.Equal(t, mgl64.Vec3{-40, -40, -5}, lo)
	require.Equal(t, mgl64.Vec3{48, 78, 100}, hi)
	require.Zero(t, Body{}.Height())
	require.Zero(t, Body{}.Reach())
	w := Place(b, Pose{At: plane.Vec{100, 200}, Turn: 90, Z: 300})
	require.InDelta(t, 100-40, w.Min[0], 1e-12)
	require.InDelta(t, 100+78, w.Max[0], 1e-12, "what was at 12 o'clock is now at 3 o'clock")
	require.InDelta(t, 200-48, w.Min[1], 1e-12)
	require.Equal(t, 295.0, w.Bottom())
	require.Equal(t, 400.0, w.Top())
	require.Equal(t, 300.0, w.Base())
	e := Place(Body{}, Pose{At: plane.Vec{1, 2}, Z: 3})
	require.Equal(t, mgl64.Vec3{1, 2, 3}, e.Min)
}
