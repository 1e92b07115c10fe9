package solid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

func TestVolumeOfAFrustum(t *testing.T) {
	p := Part{Skeleton: plane.Skeleton{{7, 9}}, Profile: Profile{{5, 40}, {65, 75}}}
	// V = pi h (R^2 + R r + r^2) / 3, the frustum of a cone; from memory, as
	// in any table of solids
	require.InEpsilon(t, math.Pi*60*(40*40+40*75+75*75)/3, Volume(p), 1e-14)
	require.InEpsilon(t, math.Pi*50*50*100, Volume(cylinder(50, 0, 100)), 1e-14)
	box := Part{Skeleton: plane.Skeleton{{0, 0}, {30, 0}, {30, 20}, {0, 20}}, Profile: Profile{{0, 0}, {10, 0}}}
	require.Equal(t, 6000.0, Volume(box))
	require.InEpsilon(t, 6000+math.Pi*250000, Body{Parts: []Part{box, cylinder(50, 0, 100)}}.Volume(), 1e-14)
}

// The area of a slice is a polynomial of second degree between knots, so
// Simpson's rule over each straight is exact.
func TestVolumeIsTheSumOfSlices(t *testing.T) {
	r := chance(70)
	area := func(s plane.Skeleton, radius float64) float64 {
		if radius == 0 {
			return s.Area()
		}
		o, err := plane.Widened(s, radius)
		require.NoError(t, err)
		require.InDelta(t, o.Area(), Footprint(s, radius), 1e-7)
		return o.Area()
	}
	for range 500 {
		p := somePart(r, 6)
		want := 0.0
		for i := 0; i+1 < len(p.Profile); i++ {
			a, b := p.Profile[i], p.Profile[i+1]
			want += (b.Z - a.Z) / 6 * (area(p.Skeleton, a.R) + 4*area(p.Skeleton, (a.R+b.R)/2) + area(p.Skeleton, b.R))
		}
		require.InDelta(t, want, Volume(p), 1e-9*(1+want))
	}
}
