package solid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

func slid(w *Placed, dir plane.Vec, t float64) Placed {
	return Place(w.Body, Pose{At: plane.Add(w.Pose.At, plane.Scale(plane.Unit(dir), t)), Turn: w.Pose.Turn, Z: w.Pose.Z})
}

// Worked by hand.
func TestSlideOfKnownPairs(t *testing.T) {
	mug := single(cylinder(40, 0, 100))
	box := single(Part{Skeleton: plane.Skeleton{{-50, -50}, {50, -50}, {50, 50}, {-50, 50}}, Profile: Profile{{0, 0}, {100, 0}}})
	for name, c := range map[string]struct {
		moving, fixed Placed
		dir           plane.Vec
		want          float64
	}{
		"keeps it already":               {at(mug, 100, 0, 0), at(mug, 0, 0, 0), plane.Vec{1, 0}, 0},
		"straight away":                  {at(mug, 84, 0, 0), at(mug, 0, 0, 0), plane.Vec{2, 0}, 2},
		"across the other":               {at(mug, 84, 0, 0), at(mug, 0, 0, 0), plane.Vec{-1, 0}, 170},
		"aside, by Pythagoras":           {at(mug, 0, 0, 0), at(mug, 86*0.6, 0, 0), plane.Vec{0, 1}, 86 * 0.8},
		"far enough above":               {at(mug, 0, 0, 106), at(mug, 0, 0, 0), plane.Vec{1, 0}, 0},
		"off a box's side":               {at(mug, 90, 10, 0), at(box, 0, 0, 0), plane.Vec{1, 0}, 6},
		"off a box's side, slanting":     {at(mug, 90, 10, 0), at(box, 0, 0, 0), plane.Vec{1, -1}, 6 * math.Sqrt2},
		"a box off a mug":                {at(box, 0, 0, 0), at(mug, 90, 10, 0), plane.Vec{-1, 0}, 6},
		"along the side, round a corner": {at(mug, 93, 0, 0), at(box, 0, 0, 0), plane.Vec{0, 1}, 50 + math.Sqrt(46*46-43*43)},
		"toward, not there yet":          {at(mug, 200, 0, 0), at(mug, 0, 0, 0), plane.Vec{-1, 0}, 0},
		"standing at just the gap":       {at(mug, 86, 0, 0), at(mug, 0, 0, 0), plane.Vec{0, 1}, 0},
	} {
		require.InDelta(t, c.want, Slide(&c.moving, &c.fixed, c.dir, 6), 1e-9, name)
	}
}

func TestAfterSlidingTheGapIsKept(t *testing.T) {
	r := chance(40)
	moved := 0
	for k := range 3000 {
		a := Place(someBody(r, 3, 5), Pose{Turn: within(r, 0, 360)})
		b := Place(someBody(r, 3, 5), Pose{At: plane.FromBearing(within(r, 0, 200), within(r, 0, 360)), Turn: within(r, 0, 360), Z: within(r, -100, 100)})
		g, dir := []float64{0, 3, 6, 25}[k%4], plane.FromBearing(1, within(r, 0, 360))
		way := Slide(&a, &b, dir, g)
		end := slid(&a, dir, way)
		gap, _ := Gap(&end, &b)
		require.GreaterOrEqual(t, gap, g-plane.Tolerance, "pair %d after %g", k, way)
		if way == 0 {
			continue
		}
		moved++
		for range 8 { // nowhere on the way there is it kept
			before := slid(&a, dir, way*within(r, 0, 0.9999))
			require.False(t, GapAtLeast(&before, &b, g+1e-5), "pair %d stops too late", k)
		}
	}
	require.Greater(t, moved, 800)
}
