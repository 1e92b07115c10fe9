package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// cubicAt is a point of a Bezier curve by Bernstein's polynomials, an
// independent way from the halving that flatten uses.
func cubicAt(a, b, c, d Point, t float64) Point {
	u := 1 - t
	w := [4]float64{u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t}
	return Point{
		w[0]*a.X + w[1]*b.X + w[2]*c.X + w[3]*d.X,
		w[0]*a.Y + w[1]*b.Y + w[2]*c.Y + w[3]*d.Y,
	}
}

func toSegment(p, a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if d2 := dx*dx + dy*dy; d2 > 0 {
		t = max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/d2))
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}

// areaOf is the shoelace formula, positive clockwise on the page.
func areaOf(at []Point) float64 {
	sum := 0.0
	for i, p := range at {
		q := at[(i+1)%len(at)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return sum / 2
}

func TestCircleIsRound(t *testing.T) {
	worst := 0.0
	for _, l := range flatten(Circle(50, 60, 20), 0.001) {
		for _, p := range l.at {
			worst = max(worst, math.Abs(math.Hypot(p.X-50, p.Y-60)-20))
		}
	}
	// Four cubics stray from the circle by 2.73e-4 of its radius, a known
	// figure of this construction (from memory).
	require.Less(t, worst, 2.74e-4*20)
	require.Greater(t, worst, 2.5e-4*20)
}

func TestArcEnds(t *testing.T) {
	for _, row := range []struct {
		from, to float64
		ax, ay   float64
		bx, by   float64
		midX     float64
	}{
		{0, 90, 0, -1, 1, 0, math.Sqrt2 / 2},
		{90, 0, 1, 0, 0, -1, math.Sqrt2 / 2},
		{270, 450, -1, 0, 1, 0, 0},
		{0, -180, 0, -1, 0, 1, -1},
		{180, 360, 0, 1, 0, -1, -1},
	} {
		lines := flatten(ArcPath(0, 0, 1, row.from, row.to), 1e-5)
		require.Len(t, lines, 1)
		at := lines[0].at
		require.InDelta(t, row.ax, at[0].X, 1e-9)
		require.InDelta(t, row.ay, at[0].Y, 1e-9)
		require.InDelta(t, row.bx, at[len(at)-1].X, 1e-9)
		require.InDelta(t, row.by, at[len(at)-1].Y, 1e-9)
		mid := Point{}.Toward((row.from+row.to)/2, 1)
		require.InDelta(t, row.midX, mid.X, 1e-9)
		nearest := math.Inf(1)
		for i := 1; i < len(at); i++ {
			nearest = min(nearest, toSegment(mid, at[i-1], at[i]))
		}
		require.Less(t, nearest, 3e-4, "%v", row)
	}
}

func TestArcStaysOnItsCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(0.1, 300).Draw(t, "r")
		from, turn := rapid.Float64Range(-720, 720).Draw(t, "from"), rapid.Float64Range(-360, 360).Draw(t, "turn")
		for _, l := range flatten(ArcPath(7, -3, r, from, from+turn), r*1e-4) {
			for _, p := range l.at {
				require.InDelta(t, r, math.Hypot(p.X-7, p.Y+3), 5e-4*r)
			}
		}
	})
}

func TestFlattenKeepsToTheCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pt := func(name string) Point {
			return Point{rapid.Float64Range(-50, 50).Draw(t, name+"x"), rapid.Float64Range(-50, 50).Draw(t, name+"y")}
		}
		a, b, c, d := pt("a"), pt("b"), pt("c"), pt("d")
		var p Path
		p.Move(a).Cubic(b, c, d)
		at := flatten(p, 0.02)[0].at
		for i := range 101 {
			q := cubicAt(a, b, c, d, float64(i)/100)
			nearest := math.Inf(1)
			for j := 1; j < len(at); j++ {
				nearest = min(nearest, toSegment(q, at[j-1], at[j]))
			}
			require.LessOrEqual(t, nearest, 0.0201)
		}
	})
}

func TestFlattenParts(t *testing.T) {
	var p Path
	p.Move(At(0, 0)).Line(At(1, 0)).Line(At(1, 1)).Close()
	p.Move(At(5, 5)).Line(At(6, 5))
	lines := flatten(p, 0.1)
	require.Len(t, lines, 2)
	require.True(t, lines[0].closed)
	require.Len(t, lines[0].at, 3)
	require.False(t, lines[1].closed)
	// After a Close a line goes on from where the part began.
	p = Polygon(At(0, 0), At(1, 0), At(1, 1))
	p.Line(At(-1, -1))
	lines = flatten(p, 0.1)
	require.Len(t, lines, 2)
	require.Equal(t, []Point{{0, 0}, {-1, -1}}, lines[1].at)
	require.Empty(t, flatten(nil, 0.1))
}

func TestRoundedRectArea(t *testing.T) {
	for _, r := range []float64{0, 2, 5, 99} {
		at := flatten(RoundedRect(10, 10, 30, 10, r), 0.0005)[0].at
		k := min(r, 5)
		require.InDelta(t, 300-(4-math.Pi)*k*k, areaOf(at), 0.05, "%g", r)
	}
}

func TestTransforms(t *testing.T) {
	near := func(want, have Point) {
		t.Helper()
		require.InDelta(t, want.X, have.X, 1e-9)
		require.InDelta(t, want.Y, have.Y, 1e-9)
	}
	near(Point{3, 4}, Same().Apply(At(3, 4)))
	near(Point{8, 6}, Move(5, 2).Apply(At(3, 4)))
	near(Point{0, 1}, Turn(90).Apply(At(1, 0))) // clockwise, y down
	near(Point{6, -8}, Stretch(2, -2).Apply(At(3, 4)))
	near(Point{16, 24}, Move(5, 8).Then(Scale(2)).Apply(At(3, 4)))
	near(Point{11, 16}, Scale(2).Then(Move(5, 8)).Apply(At(3, 4)))
	near(At(0, -2), Point{}.Toward(0, 2))
	near(At(2, 0), Point{}.Toward(90, 2))
	near(At(-2, 0), Point{}.Toward(-90, 2))
}

func TestThenIsOneAfterTheOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string) float64 { return rapid.Float64Range(-10, 10).Draw(t, name) }
		a := Transform{f("a"), f("b"), f("c"), f("d"), f("e"), f("f")}
		b := Transform{f("g"), f("h"), f("i"), f("j"), f("k"), f("l")}
		p := At(f("x"), f("y"))
		want, have := b.Apply(a.Apply(p)), a.Then(b).Apply(p)
		require.InDelta(t, want.X, have.X, 1e-8)
		require.InDelta(t, want.Y, have.Y, 1e-8)
	})
}
