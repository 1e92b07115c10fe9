package plane

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestOutlinesThatAreRefused(t *testing.T) {
	for says, f := range map[string]func() (Outline, error){
		"width of a round shape is 0":     func() (Outline, error) { return Round(0) },
		"width of a round shape is NaN":   func() (Outline, error) { return Round(math.NaN()) },
		"width of a round shape is 1e+09": func() (Outline, error) { return Round(1e9) },
		"depth of a rectangle is -3":      func() (Outline, error) { return Rectangle(5, -3) },
		"has 2 sides":                     func() (Outline, error) { return Sided(2, 100, 0) },
		"has 1000000000 sides":            func() (Outline, error) { return Sided(1e9, 100, 0) },
		"width across flats":              func() (Outline, error) { return Sided(8, math.Inf(1), 0) },
		"bearing of a flat":               func() (Outline, error) { return Sided(8, 100, math.NaN()) },
		"saw it to less depth than its":   func() (Outline, error) { return HalfRound(660, 660) },
		"depth of a half round":           func() (Outline, error) { return HalfRound(660, 0) },
		"a sawn half is 501 deep":         func() (Outline, error) { return HalfSided(12, 500, 501) },
		"at least twice its depth":        func() (Outline, error) { return HalfOval(100, 51) },
		"width of an oval":                func() (Outline, error) { return Oval(0, 5) },
		"corners are rounded by 51":       func() (Outline, error) { return RoundedRectangle(200, 100, 51) },
		"a shape is widened by 0":         func() (Outline, error) { return Widened(Skeleton{{0, 0}}, 0) },
		"a shape is widened by -1":        func() (Outline, error) { return Widened(Skeleton{{0, 0}, {1, 0}, {0, 1}}, -1) },
		"a skeleton has no point":         func() (Outline, error) { return Polygon(nil) },
	} {
		o, err := f()
		require.Error(t, err, says)
		require.ErrorContains(t, err, says)
		require.True(t, o.Empty())
	}
}

// Measures worked by hand.
func TestMeasuresOfKnownOutlines(t *testing.T) {
	size := func(o Outline) Vec {
		lo, hi := o.Bounds()
		return Sub(hi, lo)
	}
	want := map[string]struct{ w, d, area float64 }{
		"round":             {660, 660, math.Pi * 330 * 330},
		"rectangle":         {400, 250, 100000},
		"just half round":   {660, 330, math.Pi * 330 * 330 / 2},
		"oval":              {700, 450, 250*450 + math.Pi*225*225},
		"oval, upright":     {300, 460, 160*300 + math.Pi*150*150},
		"half oval":         {700, 222, 256*222 + math.Pi*222*222/2},
		"rounded rectangle": {400, 300, 120000 - (4-math.Pi)*1600},
		// a regular polygon of n sides and inner radius a: n a^2 tan(180/n)
		"12-sided": {712, 712, 12 * 356 * 356 * math.Tan(math.Pi/12)},
	}
	for _, c := range outlines(t) {
		w, ok := want[c.name]
		if !ok {
			continue
		}
		require.InDelta(t, w.w, size(c.o)[0], 1e-9, c.name)
		require.InDelta(t, w.d, size(c.o)[1], 1e-9, c.name)
		require.InEpsilon(t, w.area, c.o.Area(), 1e-12, c.name)
		delete(want, c.name)
	}
	require.Empty(t, want)
	half, err := HalfRound(660, 327)
	require.NoError(t, err)
	lo, hi := half.Bounds()
	require.InDelta(t, 0, lo[1], 1e-12, "the sawn edge lies on y = 0")
	require.InDelta(t, 327, hi[1], 1e-9)
	require.InDelta(t, 2*math.Sqrt(330*330-9), hi[0]-lo[0], 1e-9, "chord 3 off the middle")
	full, err := HalfRound(660, 330)
	require.NoError(t, err)
	require.InDelta(t, 4*330/(3*math.Pi), full.Centroid()[1], 1e-9, "4 r / 3 pi over the edge")
	require.InDelta(t, 660+330*math.Pi, full.Perimeter(), 1e-9)
	sawn, err := HalfSided(12, 712, 350)
	require.NoError(t, err)
	lo, hi = sawn.Bounds()
	require.InDelta(t, 0, lo[1], 1e-12)
	require.InDelta(t, 350, hi[1], 1e-9)
	flat, err := Sided(8, 400, 22.5)
	require.NoError(t, err)
	require.InDelta(t, 200, flat.Support(FromBearing(1, 22.5))[0]*math.Sin(math.Pi/8)+flat.Support(FromBearing(1, 22.5))[1]*math.Cos(math.Pi/8), 1e-9)
}

func TestEdgesFormARing(t *testing.T) {
	for _, c := range outlines(t) {
		edges := c.o.Edges()
		for i, e := range edges {
			next := edges[(i+1)%len(edges)]
			require.InDelta(t, 0, Distance(e.To, next.From), 1e-9, c.name)
			if e.Kind == Arc {
				require.InDelta(t, e.Radius, Distance(e.Center, e.From), 1e-9, c.name)
				require.InDelta(t, e.Radius, Distance(e.Center, e.To), 1e-9, c.name)
				require.Greater(t, e.Sweep(), 0.0, c.name)
			} else {
				require.Zero(t, e.Sweep())
			}
		}
		require.NoError(t, Skeleton(c.o.Points(1)).Validate(), "%s: convex and counter-clockwise", c.name)
	}
}

// dense is a polygon drawn in the outline and how far its sides sag.
func dense(t testing.TB, o Outline) (Skeleton, float64) {
	const sag = 0.01
	s := Skeleton(o.Points(sag))
	require.NoError(t, s.Validate())
	return s, sag * 1.1
}

// Depth, distances, areas and balance points against a dense polygon, whose
// distances are simplefeatures'.
func TestOutlinesAgreeWithDensePolygons(t *testing.T) {
	r := chance(20)
	for _, c := range outlines(t) {
		s, sag := dense(t, c.o)
		shape := feature(s)
		edge := shape.Boundary()
		require.InDelta(t, shape.Area(), c.o.Area(), sag*c.o.Perimeter(), c.name)
		middle, _ := shape.Centroid().XY()
		require.InDelta(t, 0, Distance(c.o.Centroid(), Vec{middle.X, middle.Y}), sag, c.name)
		for range 400 {
			p := somewhere(r, c.o)
			want := -featureDistance(t, shape, feature(Skeleton{p}))
			if want == 0 {
				want = featureDistance(t, edge, feature(Skeleton{p}))
			}
			depth := c.o.Depth(p)
			require.InDelta(t, want, depth, sag, "%s at %v", c.name, p)
			require.InDelta(t, math.Abs(depth), Distance(p, c.o.NearestEdge(p)), 1e-9, "%s at %v: nearest edge", c.name, p)
			if math.Abs(depth) > 1e-9 {
				require.Equal(t, depth > 0, c.o.Contains(p), "%s at %v", c.name, p)
			}
		}
		in, out := 0, 0
		for k := range 400 {
			q := someSkeleton(r, 4)
			at := somewhere(r, c.o)
			q = q.At(Pose{At: Sub(at, q[0])})
			if k%7 == 0 { // through and round the whole
				q = Skeleton{{-2000, within(r, -99, 99)}, {2000, within(r, -99, 99)}}
			}
			if k%29 == 0 {
				q = Skeleton{{-2000, -2000}, {2000, -2000}, {2000, 2000}, {-2000, 2000}}
			}
			want := featureDistance(t, shape, feature(q))
			got := c.o.Distance(q)
			require.InDelta(t, want, got, sag, "%s and %v", c.name, q)
			require.GreaterOrEqual(t, want+1e-9, got, "%s and %v: the polygon is drawn inside", c.name, q)
			signed := c.o.SignedDistance(q)
			require.InDelta(t, s.Distance(q), signed, sag, "%s and %v: signed", c.name, q)
			if signed > 0 {
				out++
			} else {
				in++
			}
		}
		require.Greater(t, in, 40, c.name)
		require.Greater(t, out, 40, c.name)
	}
}

func TestDepthIsConcaveInsideAndNeverFasterThanThePoint(t *testing.T) {
	r := chance(21)
	for _, c := range outlines(t) {
		for range 1000 {
			p, q := somewhere(r, c.o), somewhere(r, c.o)
			dp, dq := c.o.Depth(p), c.o.Depth(q)
			require.LessOrEqual(t, math.Abs(dp-dq), Distance(p, q)+1e-9, c.name)
			if dp >= 0 && dq >= 0 {
				require.GreaterOrEqual(t, c.o.Depth(Lerp(p, q, 0.5)), (dp+dq)/2-1e-9, c.name)
			}
			d, n := c.o.DepthNormal(p)
			require.Equal(t, dp, d, c.name)
			require.InDelta(t, 1, Length(n), 1e-9, c.name)
			if math.Abs(d) > 1e-3 { // a step inward gains as much outside, and at most as much inside
				step := 1e-4
				ahead := c.o.Depth(Add(p, Scale(n, step)))
				require.LessOrEqual(t, ahead, d+step+1e-9, c.name)
				back := c.o.Depth(Sub(p, Scale(n, step)))
				require.InDelta(t, d-step, back, 1e-8, "%s at %v", c.name, p)
			}
		}
	}
}

func TestOutlinesMoveAsAWhole(t *testing.T) {
	r := chance(22)
	for _, c := range outlines(t) {
		for range 200 {
			pose := Pose{At: Vec{within(r, -300, 300), within(r, -300, 300)}, Turn: within(r, -360, 360)}
			moved := c.o.At(pose)
			p := somewhere(r, c.o)
			require.InDelta(t, c.o.Depth(p), moved.Depth(pose.Apply(p)), 1e-9, c.name)
			s := someSkeleton(r, 4)
			require.InDelta(t, c.o.SignedDistance(s), moved.SignedDistance(s.At(pose)), 1e-9, c.name)
			dir := FromBearing(1, within(r, 0, 360))
			turned := pose.ApplyDir(dir)
			require.InDelta(t, Dot(pose.Apply(c.o.Support(dir)), turned), Dot(moved.Support(turned), turned), 1e-9, c.name)
		}
		require.InDelta(t, c.o.Area(), c.o.At(Pose{Turn: 33}).Area(), 1e-6, c.name)
	}
}

// A point beyond the joint of an arc and a line, on the line's level, is
// outside however the outline is turned.
func TestBeyondAJointIsOutside(t *testing.T) {
	for _, c := range outlines(t) {
		for turn := 0.0; turn < 360; turn += 7.3 {
			o := c.o.At(Pose{At: Vec{11, -7}, Turn: turn})
			for _, e := range o.Edges() {
				u := Unit(Sub(e.To, e.From))
				if e.Kind == Arc {
					continue
				}
				for _, p := range []Vec{Add(e.To, Scale(u, 10)), Add(e.To, Scale(u, 1e-3)), Sub(e.From, Scale(u, 10))} {
					require.Less(t, o.Depth(p), 0.0, "%s turned %g", c.name, turn)
					require.False(t, o.Contains(p), "%s turned %g", c.name, turn)
				}
			}
		}
	}
}

func TestReachIsTheFarthestPoint(t *testing.T) {
	r := chance(23)
	for _, c := range outlines(t) {
		s, sag := dense(t, c.o)
		for range 100 {
			p, far := somewhere(r, c.o), 0.0
			for _, v := range s {
				far = math.Max(far, Distance(p, v))
			}
			require.InDelta(t, far, c.o.Reach(p), sag+0.01, c.name)
		}
	}
}

func TestClearanceIsTheLeastDepthLessTheRadius(t *testing.T) {
	o, err := Round(400)
	require.NoError(t, err)
	require.InDelta(t, 200-100-30, Clearance(o, Skeleton{{0, 0}, {100, 0}}, 30), 1e-12)
	require.InDelta(t, -30-50, Clearance(o, Skeleton{{250, 0}}, 30), 1e-12)
	require.True(t, math.IsInf(Clearance(Outline{}, Skeleton{{0, 0}}, 1), -1), "nothing lies in no shape")
	require.True(t, math.IsInf(Outline{}.Distance(Skeleton{{0, 0}}), 1))
}

func TestAskingAnOutlineDoesNotAllocate(t *testing.T) {
	for _, c := range outlines(t) {
		s := Skeleton{{500, 3}, {480, 90}, {440, 40}}
		require.Zero(t, testing.AllocsPerRun(20, func() {
			c.o.Depth(Vec{3, 4})
			c.o.Depth(Vec{999, 4})
			c.o.DepthNormal(Vec{3, 4})
			c.o.Distance(s)
			c.o.SignedDistance(s)
		}), c.name)
	}
}

func BenchmarkOutline(b *testing.B) {
	for _, c := range outlines(b) {
		switch c.name {
		case "round", "12-sided", "half round", "half oval":
		default:
			continue
		}
		b.Run("depth/"+c.name, func(b *testing.B) {
			for b.Loop() {
				c.o.Depth(Vec{30, 40})
			}
		})
		box := Skeleton{{400, 300}, {500, 300}, {500, 350}, {400, 350}}
		b.Run("distance/"+c.name, func(b *testing.B) {
			for b.Loop() {
				c.o.Distance(box)
			}
		})
	}
}

func ExampleHalfRound() {
	shelf, err := HalfRound(660, 327)
	if err != nil {
		panic(err)
	}
	for _, e := range shelf.At(Pose{At: Vec{-3, 0}, Turn: 270}).Edges() {
		fmt.Printf("from (%.1f, %.1f) to (%.1f, %.1f), %.1f degrees\n", e.From[0], e.From[1], e.To[0], e.To[1], e.Sweep())
	}
	// Output:
	// from (-3.0, -330.0) to (-3.0, 330.0), 0.0 degrees
	// from (-3.0, 330.0) to (-3.0, -330.0), 179.0 degrees
}
