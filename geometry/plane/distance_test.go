package plane

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestDistanceOfKnownSkeletons(t *testing.T) {
	square := Skeleton{{0, 0}, {10, 0}, {10, 10}, {0, 10}}
	for name, c := range map[string]struct {
		a, b Skeleton
		want float64
	}{
		"one point twice":                   {Skeleton{{3, 4}}, Skeleton{{3, 4}}, 0},
		"two points, 3-4-5":                 {Skeleton{{0, 0}}, Skeleton{{3, 4}}, 5},
		"a point beside a segment":          {Skeleton{{5, 3}}, Skeleton{{0, 0}, {10, 0}}, 3},
		"a point past a segment's end":      {Skeleton{{13, 4}}, Skeleton{{0, 0}, {10, 0}}, 5},
		"a point on a segment":              {Skeleton{{5, 0}}, Skeleton{{0, 0}, {10, 0}}, 0},
		"segments in one line, apart":       {Skeleton{{0, 0}, {10, 0}}, Skeleton{{12, 0}, {20, 0}}, 2},
		"segments in one line, overlapping": {Skeleton{{0, 0}, {10, 0}}, Skeleton{{8, 0}, {20, 0}}, 0},
		"parallel segments":                 {Skeleton{{0, 0}, {10, 0}}, Skeleton{{5, 7}, {25, 7}}, 7},
		"segments end to end":               {Skeleton{{0, 0}, {10, 0}}, Skeleton{{10, 0}, {10, 9}}, 0},
		"a segment ends on another":         {Skeleton{{0, 0}, {10, 0}}, Skeleton{{5, 0}, {5, 9}}, 0},
		"segments cross in the middle":      {Skeleton{{-5, 0}, {5, 0}}, Skeleton{{0, -3}, {0, 8}}, -3},
		"a point in a square":               {Skeleton{{2, 5}}, square, -2},
		"a point on a square's side":        {Skeleton{{0, 5}}, square, 0},
		"a point on a square's corner":      {Skeleton{{10, 10}}, square, 0},
		"a point off a square's corner":     {Skeleton{{13, 14}}, square, 5},
		"a segment in a square":             {Skeleton{{2, 5}, {4, 5}}, square, -4},
		"a segment through a square":        {Skeleton{{-50, 2}, {60, 2}}, square, -2},
		"the same square":                   {square, square, -10},
		"squares side by side":              {square, square.At(Pose{At: Vec{10, 3}}), 0},
		"squares, 2 deep":                   {square, square.At(Pose{At: Vec{8, 3}}), -2},
		"a square on its corner":            {square, Skeleton{{12, 5}, {22, -5}, {32, 5}, {22, 15}}, 2},
		"nothing":                           {square, nil, math.Inf(1)},
	} {
		for _, pair := range [2][2]Skeleton{{c.a, c.b}, {c.b, c.a}} {
			d, pa, pb := SignedDistance(pair[0], pair[1])
			if math.IsInf(c.want, 1) {
				require.Equal(t, c.want, d, name)
				continue
			}
			require.InDelta(t, c.want, d, 1e-12, name)
			require.InDelta(t, c.want, pair[0].Distance(pair[1]), 1e-12, name)
			require.InDelta(t, math.Abs(c.want), Distance(pa, pb), 1e-12, name+": witnesses")
		}
	}
}

// Against simplefeatures, as an independent library.
func TestDistanceAgreesWithSimplefeatures(t *testing.T) {
	r := chance(10)
	apart := 0
	for k := range 10000 {
		a, b := someSkeleton(r, 4), someSkeleton(r, 4)
		if k%2 == 0 { // bring them near contact
			d, pa, pb, n := Separation(a, b)
			if d > 0 {
				b = b.At(Pose{At: Scale(n, within(r, -1e-3, 0.5)-d)})
			} else {
				b = b.At(Pose{At: Add(Sub(pa, pb), Scale(n, within(r, -1e-3, 0.5)))})
			}
		}
		want := featureDistance(t, feature(a), feature(b))
		d, pa, pb := SignedDistance(a, b)
		require.InDelta(t, want, math.Max(0, d), 1e-9, "pair %d: %v %v", k, a, b)
		if d > 0 {
			apart++
			require.InDelta(t, 0, featureDistance(t, feature(Skeleton{pa}), feature(a)), 1e-9)
			require.InDelta(t, 0, featureDistance(t, feature(Skeleton{pb}), feature(b)), 1e-9)
		}
		require.Equal(t, d, a.Distance(b))
	}
	require.Greater(t, apart, 5000)
	require.Less(t, apart, 9500)
}

func TestSignedDistanceIsSymmetricAndMovesWithTheShapes(t *testing.T) {
	r := chance(11)
	for range 5000 {
		a, b := someSkeleton(r, 4), someSkeleton(r, 4)
		d := a.Distance(b)
		require.InDelta(t, d, b.Distance(a), 1e-10)
		p := Pose{At: Vec{within(r, -300, 300), within(r, -300, 300)}, Turn: within(r, 0, 360)}
		require.InDelta(t, d, a.At(p).Distance(b.At(p)), 1e-9)
	}
}

// Moving b by pa - pb parts two overlapping skeletons, and no shorter move
// does.
func TestNegativeDistanceIsTheShortestMoveThatParts(t *testing.T) {
	r := chance(12)
	seen := 0
	for seen < 2000 {
		a, b := someSkeleton(r, 4), someSkeleton(r, 4)
		d, pa, pb, n := Separation(a, b)
		if d >= -1e-6 {
			continue
		}
		seen++
		require.InDelta(t, 1, Length(n), 1e-12)
		parted := b.At(Pose{At: Scale(Sub(pa, pb), 1+1e-9/-d)})
		require.GreaterOrEqual(t, a.Distance(parted), -1e-9)
		for range 12 {
			less := b.At(Pose{At: FromBearing(-d*within(r, 0, 0.999), within(r, 0, 360))})
			require.Less(t, a.Distance(less), 0.0)
		}
		common := Common(a, b)
		require.InDelta(t, 0, featureDistance(t, feature(Skeleton{common}), feature(a)), 1e-9)
		require.InDelta(t, 0, featureDistance(t, feature(Skeleton{common}), feature(b)), 1e-9)
	}
}

func TestNearestPointOfASkeleton(t *testing.T) {
	r := chance(13)
	for range 3000 {
		s, p := someSkeleton(r, 4), Vec{within(r, -200, 200), within(r, -200, 200)}
		q, d := s.Nearest(p)
		require.InDelta(t, featureDistance(t, feature(s), feature(Skeleton{p})), d, 1e-9)
		require.InDelta(t, d, Distance(p, q), 1e-12)
	}
}

func TestSkeletonsThatAreRefused(t *testing.T) {
	for says, s := range map[string]Skeleton{
		"has no point":              nil,
		"takes 1024 at most":        make(Skeleton, MaxCorners+1),
		"corner 2 of a skeleton is": {{0, 0}, {math.NaN(), 0}},
		"corner 1 of a skeleton is": {{math.Inf(-1), 0}},
		"corners 1 and 2":           {{1, 1}, {1, 1}},
		"corners 3 and 1":           {{0, 0}, {1, 1}, {0, 0}},
		"run clockwise":             {{0, 0}, {0, 1}, {1, 0}},
		"lie on one line":           {{0, 0}, {1, 0}, {2, 0}},
		"is not convex":             {{0, 0}, {10, 0}, {2, 2}, {0, 10}},
		"is not convex: corner":     {{0, 0}, {5, 9}, {-6, 3}, {6, 3}, {-5, 9}}, // a star
	} {
		_, err := NewSkeleton(s...)
		require.ErrorContains(t, err, says)
		_, err = Polygon(s)
		require.Error(t, err)
	}
	_, err := NewSkeleton(Vec{0, 0}, Vec{5, 0}, Vec{10, 0}, Vec{10, 10})
	require.NoError(t, err, "a corner on a straight side")
}

// The two parts of a cut add up, and what two squares share is known.
func TestClipsAddUp(t *testing.T) {
	r := chance(14)
	for range 2000 {
		s := someSkeleton(r, 4)
		for len(s) < 3 {
			s = someSkeleton(r, 4)
		}
		at, n := Vec{within(r, -100, 100), within(r, -100, 100)}, FromBearing(1, within(r, 0, 360))
		a, b := s.Clip(at, n), s.Clip(at, Scale(n, -1))
		require.InDelta(t, s.Area(), a.Area()+b.Area(), 1e-8)
		for _, v := range a {
			require.GreaterOrEqual(t, Dot(Sub(v, at), n), -1e-9)
		}
		if a != nil && b != nil {
			require.InDelta(t, a.Area(), Intersection(s, a).Area(), 1e-8)
			require.InDelta(t, 0, Intersection(a, b).Area(), 1e-8)
		}
	}
	square := Skeleton{{0, 0}, {38, 0}, {38, 38}, {0, 38}}
	require.InDelta(t, 19*38, Intersection(square, square.At(Pose{At: Vec{19, 0}})).Area(), 1e-9)
	require.Nil(t, Intersection(square, square.At(Pose{At: Vec{39, 0}})))
	require.Nil(t, Intersection(square, Skeleton{{1, 1}}))
	require.Equal(t, Skeleton{{5, 0}, {10, 0}}, Skeleton{{0, 0}, {10, 0}}.Clip(Vec{5, 0}, Vec{1, 0}))
}

func BenchmarkDistance(b *testing.B) {
	box := Skeleton{{-60, -30}, {60, -30}, {60, 30}, {-60, 30}}
	for _, c := range []struct {
		name string
		s, t Skeleton
	}{
		{"points", Skeleton{{0, 0}}, Skeleton{{90, 3}}},
		{"point and segment", Skeleton{{0, 0}}, Skeleton{{90, 3}, {70, 40}}},
		{"segments", Skeleton{{0, 0}, {10, 30}}, Skeleton{{90, 3}, {70, 40}}},
		{"point and rectangle", Skeleton{{90, 3}}, box},
		{"rectangles", box, box.At(Pose{At: Vec{150, 20}, Turn: 20})},
		{"overlapping rectangles", box, box.At(Pose{At: Vec{50, 20}, Turn: 20})},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				c.s.Distance(c.t)
			}
		})
	}
}
