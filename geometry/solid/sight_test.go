package solid

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// speck is a body of no size at a point, so that Gap measures a point.
func speck(p mgl64.Vec3) Placed {
	return at(single(Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{-1e-12, 0}, {1e-12, 0}}}), p[0], p[1], p[2])
}

func along(a, b mgl64.Vec3, t float64) mgl64.Vec3 { return a.Add(b.Sub(a).Mul(t)) }

func TestSightPastKnownPots(t *testing.T) {
	mug := at(single(cylinder(40, 0, 100)), 0, 0, 0)
	bowl := at(single(Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 30}, {60, 90}}}), 300, 0, 0)
	both := []*Placed{&mug, &bowl}
	for name, c := range map[string]struct {
		from, to mgl64.Vec3
		margin   float64
		blocker  int
	}{
		"level, beside the mug":       {mgl64.Vec3{-500, 50, 50}, mgl64.Vec3{100, 50, 50}, 5, -1},
		"level, too near the mug":     {mgl64.Vec3{-500, 43, 50}, mgl64.Vec3{100, 43, 50}, -2, 0},
		"through the mug":             {mgl64.Vec3{-500, 10, 50}, mgl64.Vec3{100, 10, 50}, -35, 0},
		"over the mug":                {mgl64.Vec3{-500, 0, 108}, mgl64.Vec3{100, 0, 108}, 3, -1},
		"over the mug's rim, slanted": {mgl64.Vec3{-100, 0, 240 + 10*math.Sqrt2}, mgl64.Vec3{100, 0, 40 + 10*math.Sqrt2}, 5, -1},
		"ends short of the bowl":      {mgl64.Vec3{400, 0, 60}, mgl64.Vec3{398, 0, 60}, 3, -1},
		"under the bowl's flare":      {mgl64.Vec3{300 + 60 + 10*math.Sqrt2, -500, 30}, mgl64.Vec3{300 + 60 + 10*math.Sqrt2, 500, 30}, 5, -1},
		"ends in the bowl":            {mgl64.Vec3{500, 0, 30}, mgl64.Vec3{350, 0, 30}, -15, 1},
	} {
		blocker, clear, margin := Sight(c.from, c.to, 5, both)
		require.InDelta(t, c.margin, margin, 1e-7, name)
		require.Equal(t, c.margin >= 0, clear, name)
		require.Equal(t, c.blocker, blocker, name)
		_, _, back := Sight(c.to, c.from, 5, both)
		require.InDelta(t, margin, back, 1e-7, name+", looking back")
	}
	blocker, clear, margin := Sight(mgl64.Vec3{}, mgl64.Vec3{1, 1, 1}, 5, nil)
	require.True(t, clear && blocker == -1 && math.IsInf(margin, 1))
}

// Along the line no point is nearer than the margin says, and one is as near.
func TestSightAgreesWithPointsAlongTheLine(t *testing.T) {
	r := chance(60)
	for k := range 500 {
		w := Place(someBody(r, 3, 5), Pose{Turn: within(r, 0, 360)})
		end := func() mgl64.Vec3 {
			p := plane.FromBearing(within(r, 0, 300), within(r, 0, 360))
			return mgl64.Vec3{p[0], p[1], within(r, -20, 180)}
		}
		a, b := end(), end()
		_, clear, margin := Sight(a, b, 5, []*Placed{&w})
		least, where := math.Inf(1), 0.0
		look := func(t float64) {
			s := speck(along(a, b, t))
			if g, _ := Gap(&s, &w); g < least {
				least, where = g, t
			}
		}
		for n := range 501 {
			look(float64(n) / 500)
		}
		for width := 1.0 / 500; width > 1e-9; width /= 4 {
			mid := where
			for n := -8; n <= 8; n++ {
				look(math.Min(1, math.Max(0, mid+width*float64(n)/8)))
			}
		}
		if least > 1e-9 {
			require.InDelta(t, least-5, margin, 1e-5, "line %d", k)
		} else {
			require.LessOrEqual(t, margin, -5+1e-9, "line %d", k)
		}
		require.Equal(t, margin >= -plane.Tolerance, clear)
	}
}

func TestRayHitsWhereItEnters(t *testing.T) {
	mug := at(single(cylinder(40, 0, 100)), 0, 0, 10)
	for name, c := range map[string]struct {
		origin, dir mgl64.Vec3
		t           float64
		ok          bool
	}{
		"the side":            {mgl64.Vec3{-100, 0, 50}, mgl64.Vec3{1, 0, 0}, 60, true},
		"twice as fast":       {mgl64.Vec3{-100, 0, 50}, mgl64.Vec3{2, 0, 0}, 30, true},
		"the top":             {mgl64.Vec3{10, 0, 200}, mgl64.Vec3{0, 0, -1}, 90, true},
		"away from it":        {mgl64.Vec3{-100, 0, 50}, mgl64.Vec3{-1, 0, 0}, 0, false},
		"past it":             {mgl64.Vec3{-100, 41, 50}, mgl64.Vec3{1, 0, 0}, 0, false},
		"over it":             {mgl64.Vec3{-100, 0, 111}, mgl64.Vec3{1, 0, 0}, 0, false},
		"from inside":         {mgl64.Vec3{0, 0, 50}, mgl64.Vec3{1, 0, 0}, 0, true},
		"a glance at the rim": {mgl64.Vec3{-140, 0, 210}, mgl64.Vec3{1, 0, -1}, 100, true},
	} {
		got, ok := RayHit(c.origin, c.dir, &mug)
		require.Equal(t, c.ok, ok, name)
		if ok {
			require.InDelta(t, c.t, got, 1e-9, name)
		}
	}
}

func TestRayHitIsTheFirstTouch(t *testing.T) {
	r := chance(61)
	hits := 0
	for range 600 {
		w := Place(someBody(r, 3, 5), Pose{Turn: within(r, 0, 360)})
		p := plane.FromBearing(500, within(r, 0, 360))
		q := plane.FromBearing(within(r, 0, 90), within(r, 0, 360))
		a, b := mgl64.Vec3{p[0], p[1], within(r, -200, 400)}, mgl64.Vec3{q[0], q[1], within(r, 0, 150)}
		first, ok := RayHit(a, b.Sub(a), &w)
		if !ok {
			first = 1.5
		} else {
			hits++
			s := speck(along(a, b, first))
			g, _ := Gap(&s, &w)
			require.InDelta(t, 0, g, 1e-6)
		}
		for n := range 300 {
			u := first * float64(n) / 300
			if first-u < 1e-6 {
				continue
			}
			s := speck(along(a, b, u))
			g, _ := Gap(&s, &w)
			require.Greater(t, g, -1e-9, "at %g, before the hit at %g", u, first)
		}
	}
	require.Greater(t, hits, 200)
}

func BenchmarkSight(b *testing.B) {
	var bodies []*Placed
	for i := range 200 {
		w := at(single(sixPoints(40)), float64(i%10)*92, float64(i/10%4)*92, float64(i/40)*140)
		bodies = append(bodies, &w)
	}
	for b.Loop() {
		Sight(mgl64.Vec3{-100, 46, 60}, mgl64.Vec3{900, 60, 100}, 5, bodies)
	}
}
