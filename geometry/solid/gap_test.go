package solid

import (
	"fmt"
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// Worked by hand from the formula of two cylinders,
// hypot(max(0, d - RA - RB), vertical gap), and the way out.
func TestGapOfTwoCylinders(t *testing.T) {
	for name, c := range map[string]struct {
		x, z, want float64
	}{
		"beside":                   {110, 0, 10},
		"touching":                 {100, 0, 0},
		"beside, one lower":        {110, 50, 10},
		"rim to foot, 3-4-5":       {103, 104, 5},
		"above":                    {20, 107, 7},
		"standing on it":           {20, 100, 0},
		"below":                    {20, -104, 4},
		"below and beside, 5-12":   {105, -112, 13},
		"overlapping beside":       {97, 0, -3},
		"sunk in from above":       {20, 98, -2},
		"on one spot":              {0, 0, -100},
		"on one spot, nearly over": {0, 60, -40},
	} {
		a, b := at(single(cylinder(50, 0, 100)), 7, -3, 40), at(single(cylinder(50, 0, 100)), 7+c.x, -3, 40+c.z)
		g, w := Gap(&a, &b)
		require.InDelta(t, c.want, g, 1e-9, name)
		require.InDelta(t, math.Abs(c.want), w.A.Sub(w.B).Len(), 1e-9, name+": witnesses")
		flipped, _ := Gap(&b, &a)
		require.Equal(t, g, flipped, name+", flipped")
		general := pair{a: a.parts[0].profile, b: b.parts[0].profile, dz: c.z, d: math.Abs(c.x)}.meet()
		require.InDelta(t, c.want, general.gap, 1e-9, name+": the long way")
	}
}

// "Evaluating only at breakpoints, or only at equal heights, is wrong": a rim
// faces the middle of a sloping side, off its own height.
func TestGapSeesARimFaceTheMiddleOfASlope(t *testing.T) {
	cone := Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 100}, {100, 0}}}
	rim := Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{45, 1}, {50, 10}, {55, 1}}}
	a, b := at(single(cone), 0, 0, 0), at(single(rim), 80, 0, 0)
	g, w := Gap(&a, &b)
	// the point (70, 50) off the line x + z = 100: 20 / sqrt 2
	require.InDelta(t, 20/math.Sqrt2, g, 1e-12)
	require.InDelta(t, 60, w.A[0], 1e-9)
	require.InDelta(t, 40, w.A[2], 1e-9)
	require.InDelta(t, 70, w.B[0], 1e-9)
	require.InDelta(t, 50, w.B[2], 1e-9)
	knots, level := math.Inf(1), math.Inf(1)
	for _, k := range cone.Profile {
		for _, l := range rim.Profile {
			knots = math.Min(knots, math.Hypot(math.Max(0, 80-k.R-l.R), k.Z-l.Z))
		}
	}
	for z := 45.0; z <= 55; z++ {
		level = math.Min(level, 80-cone.Profile.R(z)-rim.Profile.R(z))
	}
	require.Greater(t, knots, g+5)
	require.Greater(t, level, g+5)
}

func TestGapIsSymmetric(t *testing.T) {
	r := chance(3)
	for range 4000 {
		a, b := nearContact(r, somePart(r, 6), somePart(r, 6))
		ab, _ := Gap(&a, &b)
		ba, _ := Gap(&b, &a)
		require.InDelta(t, ab, ba, 1e-9)
	}
}

func TestGapIsInvariantUnderShiftAndTurn(t *testing.T) {
	r := chance(4)
	for range 3000 {
		a, b := nearContact(r, somePart(r, 6), somePart(r, 6))
		before, _ := Gap(&a, &b)
		turn, shift, up := within(r, -400, 400), plane.Vec{within(r, -300, 300), within(r, -300, 300)}, within(r, -50, 500)
		put := func(w Placed) Placed {
			p := w.Pose
			return Place(w.Body, Pose{At: plane.Add(plane.Rotate(p.At, turn), shift), Turn: p.Turn + turn, Z: p.Z + up})
		}
		a, b = put(a), put(b)
		after, _ := Gap(&a, &b)
		require.InDelta(t, before, after, 1e-9)
	}
}

func TestGapFallsAsPartsGrow(t *testing.T) {
	r := chance(5)
	for range 3000 {
		a, b := nearContact(r, somePart(r, 6), somePart(r, 6))
		before, _ := Gap(&a, &b)
		grown := Part{Skeleton: a.Body.Parts[0].Skeleton}
		more := within(r, 0, 3)
		for _, k := range a.Body.Parts[0].Profile {
			grown.Profile = append(grown.Profile, Knot{k.Z, k.R + more})
		}
		g := Place(single(grown), a.Pose)
		after, _ := Gap(&g, &b)
		require.LessOrEqual(t, after, before+1e-9)
		require.GreaterOrEqual(t, after, before-more-1e-9)
	}
}

// Moving the second part by A - B ends the overlap, and no shorter move does.
func TestOverlapIsTheShortestWayOut(t *testing.T) {
	r := chance(6)
	seen := 0
	for seen < 2500 {
		a, b := nearContact(r, somePart(r, 6), somePart(r, 6))
		gap, w := Gap(&a, &b)
		if gap >= -1e-6 {
			continue
		}
		seen++
		way := w.A.Sub(w.B)
		out := shifted(&b, way.Mul(1+1e-9/-gap))
		after, _ := Gap(&a, &out)
		require.GreaterOrEqual(t, after, -1e-8, "the way out leads out")
		for k := range 24 {
			v := mgl64.Vec3{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Normalize()
			switch k % 3 {
			case 1:
				v = way.Normalize()
			case 2:
				v = way.Mul(1 / way.Len()).Add(v.Mul(0.3)).Normalize()
			}
			moved := shifted(&b, v.Mul(-gap*within(r, 0, 0.999)))
			still, _ := Gap(&a, &moved)
			require.Less(t, still, 0.0, "a shorter move leads out")
		}
	}
}

func TestGapWitnessesLieOnTheBodies(t *testing.T) {
	r := chance(7)
	inside := func(w *Placed, part int, p mgl64.Vec3) bool {
		_, d := w.Skeleton(part).Nearest(plane.Vec{p[0], p[1]})
		z := p[2] - w.Base()
		q := w.Body.Parts[part].Profile
		for _, dz := range []float64{0, -1e-9, 1e-9} { // z + base - base is not always z
			if d <= q.R(z+dz)+1e-6 {
				return true
			}
		}
		return false
	}
	for range 4000 {
		a, b := nearContact(r, somePart(r, 6), somePart(r, 6))
		gap, w := Gap(&a, &b)
		if gap <= 0 {
			continue
		}
		require.True(t, inside(&a, w.PartA, w.A), "A: %v of %v", w, gap)
		require.True(t, inside(&b, w.PartB, w.B), "B: %v of %v", w, gap)
	}
}

func TestGapOfSeveralPartsIsTheLeastOfThem(t *testing.T) {
	r := chance(8)
	for range 2000 {
		a := Place(someBody(r, 4, 5), Pose{Turn: within(r, 0, 360)})
		b := Place(someBody(r, 4, 5), Pose{At: plane.FromBearing(within(r, 0, 320), within(r, 0, 360)), Turn: within(r, 0, 360), Z: within(r, -160, 160)})
		gap, w := Gap(&a, &b)
		least := math.Inf(1)
		for i := range a.Body.Parts {
			for j := range b.Body.Parts {
				g, _ := GapParts(&a, i, &b, j)
				least = math.Min(least, g)
			}
		}
		require.Equal(t, least, gap)
		at, _ := GapParts(&a, w.PartA, &b, w.PartB)
		require.Equal(t, gap, at)
	}
}

func TestGapOfNothingIsEndless(t *testing.T) {
	a, b := Place(Body{}, Pose{}), at(single(cylinder(5, 0, 5)), 0, 0, 0)
	g, _ := Gap(&a, &b)
	require.True(t, math.IsInf(g, 1))
	require.True(t, GapAtLeast(&a, &b, 1e9))
}

func TestGapAtLeastAgreesWithGap(t *testing.T) {
	r := chance(9)
	yes := 0
	for range 6000 {
		a := Place(someBody(r, 3, 5), Pose{Turn: within(r, 0, 360)})
		b := Place(someBody(r, 3, 5), Pose{At: plane.FromBearing(within(r, 0, 250), within(r, 0, 360)), Turn: within(r, 0, 360), Z: within(r, -160, 160)})
		gap, _ := Gap(&a, &b)
		for _, g := range []float64{0, 3, 25, gap - 1e-5, gap + 1e-5, gap} {
			if g < 0 || math.Abs(g-gap) > 0 && math.Abs(g-gap) < 5e-6 {
				continue
			}
			require.Equal(t, gap >= g-plane.Tolerance, GapAtLeast(&a, &b, g), "gap %v at least %v", gap, g)
			if gap >= g {
				yes++
			}
		}
	}
	require.Greater(t, yes, 3000)
}

func TestMoveKeepsNoTraceOfTheOldPose(t *testing.T) {
	r := chance(10)
	for range 200 {
		b := someBody(r, 3, 5)
		pose := Pose{At: plane.Vec{within(r, -300, 300), 7}, Turn: within(r, 0, 360), Z: within(r, 0, 300)}
		w := Place(b, Pose{At: plane.Vec{1, 2}, Turn: 3, Z: 4})
		w.Move(pose)
		require.Equal(t, Place(b, pose), w)
		require.Equal(t, w, w.Clone())
	}
	w := Place(someBody(r, 3, 5), Pose{})
	require.Zero(t, testing.AllocsPerRun(50, func() { w.Move(Pose{Turn: 30}) }))
}

func sixPoints(r float64) Part {
	return Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, r * 0.6}, {15, r * 0.8}, {40, r}, {70, r * 0.85}, {95, r * 0.9}, {110, r * 0.95}}}
}

func TestGapDoesNotAllocate(t *testing.T) {
	a, b := at(single(sixPoints(45)), 0, 0, 0), at(single(sixPoints(40)), 92, 0, 0)
	c := at(single(sixPoints(40)), 60, 0, 0)
	require.Zero(t, testing.AllocsPerRun(50, func() { Gap(&a, &b); Gap(&a, &c); GapAtLeast(&a, &b, 6) }))
}

func BenchmarkGap(b *testing.B) {
	cyl := at(single(cylinder(45, 0, 100)), 0, 0, 0)
	pot := at(single(sixPoints(45)), 0, 0, 0)
	poly := Part{Skeleton: plane.Skeleton{{-60, -30}, {60, -30}, {60, 30}, {-60, 30}}, Profile: sixPoints(20).Profile}
	box := at(single(poly), 0, 0, 0)
	for _, c := range []struct {
		name string
		a, b Placed
	}{
		{"cylinders", cyl, at(single(cylinder(40, 0, 80)), 92, 0, 0)},
		{"six points", pot, at(single(sixPoints(40)), 92, 0, 0)},
		{"six points, off level", pot, at(single(sixPoints(40)), 70, 0, 95)},
		{"six points on polygons", box, at(single(poly), 170, 13, 5)},
		{"overlap", pot, at(single(sixPoints(40)), 70, 0, 7)},
		{"overlap, deep", pot, at(single(sixPoints(40)), 5, 0, 60)},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Gap(&c.a, &c.b)
			}
		})
	}
}

func ExampleGap() {
	mug := Body{Parts: []Part{{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{0, 38}, {95, 43}}}}}
	a, b := Place(mug, Pose{}), Place(mug, Pose{At: plane.Vec{92, 0}})
	gap, at := Gap(&a, &b)
	fmt.Printf("gap %.1f mm, %.0f mm up", gap, at.A[2])
	// Output: gap 6.0 mm, 95 mm up
}
