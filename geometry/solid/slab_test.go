package solid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// someOutline is an outline with the part that fills it from 0 to thick.
func someShelf(t *testing.T, k int, thick float64, pick func(lo, hi float64) float64) (plane.Outline, Body) {
	w, d := pick(60, 300), pick(60, 300)
	s := plane.Skeleton{{-w, -d}, {w, -d}, {w, d}, {-w, d}}
	r := pick(1, 60)
	switch k % 4 {
	case 0:
		s = plane.Skeleton{{0, 0}}
		r = w
	case 1:
		s = plane.Skeleton{{-w, 0}, {w, 0}}
	case 2:
		r = 0
	}
	o, err := plane.Widened(s, r)
	require.NoError(t, err)
	return o, single(Part{Skeleton: s, Profile: Profile{{0, r}, {thick, r}}})
}

func TestGapToSlabIsTheGapToTheBodyThatFillsIt(t *testing.T) {
	r := chance(50)
	pick := func(lo, hi float64) float64 { return within(r, lo, hi) }
	overlaps := 0
	for k := range 4000 {
		o, body := someShelf(t, k, 19, pick)
		pose := Pose{At: plane.Vec{pick(-50, 50), pick(-50, 50)}, Turn: pick(0, 360), Z: pick(0, 200)}
		shelf := Place(body, pose)
		pot := Place(someBody(r, 3, 5), Pose{At: plane.FromBearing(pick(0, 400), pick(0, 360)), Turn: pick(0, 360), Z: pick(0, 200)})
		want, _ := Gap(&pot, &shelf)
		if want < 0 {
			overlaps++
		}
		require.InDelta(t, want, GapToSlab(&pot, o.At(pose.Plan()), pose.Z, pose.Z+19), 1e-7, "shelf %d", k)
	}
	require.Greater(t, overlaps, 400)
	require.Less(t, overlaps, 3600)
}

func TestLiftAndHeadroomOfKnownPots(t *testing.T) {
	shelf, err := plane.Rectangle(200, 200)
	require.NoError(t, err)
	bottle := single(Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 40}, {100, 40}, {100, 10}, {150, 10}}})
	taper := single(Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 50}, {100, 0}}})
	for name, c := range map[string]struct {
		pot        Placed
		underside  float64
		lift, room float64
	}{
		"wholly under":                        {at(bottle, 0, 0, 20), 180, 10, 10},
		"the shoulder under, the neck beside": {at(bottle, 115, 0, 0), 160, 60, math.Hypot(5, 10)},
		"the shoulder under, a long neck":     {at(bottle, 115, 0, 0), 110, 10, 5},
		"beside":                              {at(bottle, 143, 0, 0), 103, math.Inf(1), math.Hypot(3, 3)},
		"too tall by 5":                       {at(bottle, 0, 0, 0), 145, -5, -5},
		"the edge over a taper's middle":      {at(taper, 125, 0, 0), 60, 10, 10 * 2 / math.Sqrt(5) / 2},
	} {
		lift, ok := Lift(&c.pot, shelf, c.underside)
		require.Equal(t, !math.IsInf(c.lift, 1), ok, name)
		if ok {
			require.InDelta(t, c.lift, lift, 1e-9, name)
		}
		require.InDelta(t, c.room, Headroom(&c.pot, shelf, c.underside), 1e-9, name)
	}
}

// Vertical where the slice lies under the shelf, else the distance to its
// edge: slice by slice.
func TestHeadroomSliceBySlice(t *testing.T) {
	r := chance(51)
	for k := range 400 {
		o, _ := someShelf(t, k, 19, func(lo, hi float64) float64 { return within(r, lo, hi) })
		pot := Place(someBody(r, 2, 5), Pose{At: plane.FromBearing(within(r, 0, 400), within(r, 0, 360)), Turn: within(r, 0, 360)})
		underside := within(r, 60, 220)
		got := Headroom(&pot, o, underside)
		least, vertical := math.Inf(1), math.Inf(1)
		for i, p := range pot.Body.Parts {
			d := o.Distance(pot.Skeleton(i))
			steps := 3000
			for n := range steps + 1 {
				z := p.Profile.Bottom() + (p.Profile.Top()-p.Profile.Bottom())*float64(n)/float64(steps)
				if w := p.Profile.R(z); w >= d {
					least, vertical = math.Min(least, underside-z), math.Min(vertical, underside-z)
				} else {
					least = math.Min(least, math.Hypot(d-w, math.Max(0, underside-z)))
				}
			}
		}
		require.LessOrEqual(t, got, least+1e-9, "shelf %d", k)
		require.InDelta(t, least, got, 0.2, "shelf %d", k)
		lift, ok := Lift(&pot, o, underside)
		if !math.IsInf(vertical, 1) {
			require.True(t, ok)
			require.LessOrEqual(t, lift, vertical+1e-9)
			require.InDelta(t, vertical, lift, 0.2)
		}
	}
}

func TestWallAndFootOfAPot(t *testing.T) {
	wall, err := plane.Round(400)
	require.NoError(t, err)
	bowl := Body{Parts: []Part{
		{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 30}, {60, 80}}},
		{Skeleton: plane.Skeleton{{80, 0}, {110, 0}}, Profile: Profile{{30, 7}, {45, 7}}}, // a lug
	}}
	for name, c := range map[string]struct {
		x, turn    float64
		wall, foot float64
	}{
		"in the middle":        {0, 0, 83, 170},
		"lug to the wall":      {70, 0, 13, 100},
		"lug to the middle":    {70, 180, 50, 100},
		"lug through the wall": {90, 0, -7, 80},
	} {
		w := Place(bowl, Pose{At: plane.Vec{c.x, 0}, Turn: c.turn})
		require.InDelta(t, c.wall, WallClearance(&w, wall), 1e-9, name)
		require.InDelta(t, c.foot, FootInside(&w, wall), 1e-9, name)
	}
}

func BenchmarkGapToSlab(b *testing.B) {
	half, err := plane.HalfRound(660, 327)
	if err != nil {
		b.Fatal(err)
	}
	pot := at(single(sixPoints(45)), 0, 300, 0)
	for b.Loop() {
		GapToSlab(&pot, half, 120, 139)
	}
}
