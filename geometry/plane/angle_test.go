package plane

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSinCosIsExactAtQuarterTurns(t *testing.T) {
	for quarter := -8; quarter <= 8; quarter++ {
		s, c := SinCos(float64(quarter) * 90)
		want := [][2]float64{{0, 1}, {1, 0}, {0, -1}, {-1, 0}}[((quarter%4)+4)%4]
		require.True(t, s == want[0] && c == want[1], "%d quarters: %g %g", quarter, s, c)
	}
}

// The library's sine and cosine as the second opinion; figures for whole
// degrees also by Abramowitz & Stegun, table 4.10, from memory.
func TestSinCosIsTheLibrarysSineAndCosine(t *testing.T) {
	r := chance(1)
	for k := range 20000 {
		deg := within(r, -720, 720)
		if k%2 == 0 {
			deg = math.Round(deg*10) / 10 // the grid of turns
		}
		s, c := SinCos(deg)
		// bring the angle near 0 first, so that the radians are not rounded
		// more than the function itself
		near := math.Mod(deg, 360)
		require.InDelta(t, math.Sin(near*math.Pi/180), s, 2e-15)
		require.InDelta(t, math.Cos(near*math.Pi/180), c, 2e-15)
		require.InDelta(t, 1, s*s+c*c, 5e-16)
		s2, c2 := SinCos(-deg)
		require.True(t, s2 == -s && c2 == c)
	}
	for deg, want := range map[float64]float64{
		30: 0.5, 1: 0.01745240643728351, 45: math.Sqrt2 / 2, 60: 0.8660254037844386, 150: 0.5, 36: 0.5877852522924731,
	} {
		s, _ := SinCos(deg)
		require.InDelta(t, want, s, 1.2e-16, "%g", deg)
	}
	s, c := SinCos(math.Inf(1))
	require.True(t, math.IsNaN(s) && math.IsNaN(c))
}

func TestBearingsOfTheClock(t *testing.T) {
	for want, v := range map[float64]Vec{
		0: {0, 5}, 45: {5, 5}, 90: {5, 0}, 135: {5, -5}, 180: {0, -5}, 225: {-5, -5}, 270: {-5, 0}, 315: {-5, 5},
	} {
		require.Equal(t, want, Bearing(v))
	}
	require.Equal(t, 0.0, Bearing(Vec{}))
	require.Equal(t, 0.0, Bearing(Vec{math.Copysign(0, -1), 3}))
	require.Less(t, Bearing(Vec{-1e-300, 1}), 360.0)
	require.InDelta(t, 30, Bearing(Vec{1, math.Sqrt(3)}), 1e-13, "1 o'clock")
}

func TestBearingIsTheLibrarysAngle(t *testing.T) {
	r := chance(2)
	for range 20000 {
		v := Vec{within(r, -500, 500), within(r, -500, 500)}
		want := math.Atan2(v[0], v[1]) * 180 / math.Pi
		if want < 0 {
			want += 360
		}
		require.InDelta(t, want, Bearing(v), 2e-13)
		back := FromBearing(Length(v), Bearing(v))
		require.InDelta(t, 0, Distance(v, back), 1e-12)
	}
}

func TestTurnsAreClockwise(t *testing.T) {
	require.Equal(t, Vec{1, 0}, Rotate(Vec{0, 1}, 90), "12 o'clock goes to 3 o'clock")
	require.Equal(t, Vec{0, -1}, Rotate(Vec{1, 0}, 90))
	require.Equal(t, Vec{3, 4}, Rotate(Vec{3, 4}, 0))
	r := chance(3)
	for range 1000 {
		v, turn := Vec{within(r, -9, 9), within(r, -9, 9)}, within(r, -400, 400)
		want := NormalTurn(Bearing(v) + turn)
		got := Bearing(Rotate(v, turn))
		require.InDelta(t, 0, math.Remainder(got-want, 360), 1e-9)
	}
}

func TestNormalTurn(t *testing.T) {
	for in, want := range map[float64]float64{0: 0, 360: 0, -90: 270, 725: 5, -720: 0, -1e-20: 0, 359.9: 359.9} {
		got := NormalTurn(in)
		require.Equal(t, want, got, "%g", in)
		require.False(t, math.Signbit(got), "%g", in)
	}
}

func TestUndoTakesBackWhatApplyDid(t *testing.T) {
	r := chance(4)
	for range 1000 {
		p := Pose{At: Vec{within(r, -300, 300), within(r, -300, 300)}, Turn: within(r, -360, 360)}
		q := Pose{At: Vec{within(r, -300, 300), within(r, -300, 300)}, Turn: within(r, -360, 360)}
		v := Vec{within(r, -300, 300), within(r, -300, 300)}
		require.InDelta(t, 0, Distance(v, p.Undo(p.Apply(v))), 1e-11)
		require.InDelta(t, 0, Distance(v, p.Inverse().Apply(p.Apply(v))), 1e-11)
		require.InDelta(t, 0, Distance(q.Apply(p.Apply(v)), p.Then(q).Apply(v)), 1e-11)
		require.InDelta(t, 0, Distance(v, p.UndoDir(p.ApplyDir(v))), 1e-11)
		require.InDelta(t, 0, Distance(p.Apply(v), Skeleton{v}.At(p)[0]), 1e-11)
	}
}
