package statics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

func TestSolveByHand(t *testing.T) {
	square := []plane.Vec{{-100, -100}, {100, -100}, {100, 100}, {-100, 100}}
	row := []plane.Vec{{0, 0}, {100, 0}, {300, 0}}
	one := func(mass, x, y float64) []Load { return []Load{{mass, plane.Vec{x, y}}} }
	for name, c := range map[string]struct {
		supports  []plane.Vec
		loads     []Load
		reactions []float64
		margin    float64
		tips      bool
	}{
		"three, in the middle":        {[]plane.Vec{{0, 90}, {-90, -45}, {90, -45}}, one(9, 0, 0), []float64{3, 3, 3}, 45, false},
		"three, over one post":        {[]plane.Vec{{0, 90}, {-90, -45}, {90, -45}}, one(9, 0, 90), []float64{9, 0, 0}, 0, false},
		"three, past a side":          {[]plane.Vec{{0, 90}, {-90, -45}, {90, -45}}, one(9, 0, -90), []float64{-3, 6, 6}, -45, true},
		"four, in the middle":         {square, one(8, 0, 0), []float64{2, 2, 2, 2}, 100, false},
		"four, toward a side":         {square, one(8, 50, 0), []float64{1, 3, 3, 1}, 50, false},
		"four, over a post":           {square, one(8, 100, 100), []float64{0, 0, 8, 0}, 0, false},
		"four, on a side":             {square, one(8, 0, 100), []float64{0, 0, 4, 4}, 0, false},
		"two, lever":                  {row[:2], one(10, 30, 0), []float64{7, 3}, 0, false},
		"two, beside the line":        {row[:2], one(10, 30, 5), []float64{7, 3}, -5, true},
		"two, past an end":            {row[:2], one(10, 150, 0), []float64{-5, 15}, -50, true},
		"one, over it":                {row[:1], one(10, 0, 0), []float64{10}, 0, false},
		"one, beside it":              {row[:1], one(10, 3, 4), []float64{10}, -5, true},
		"three in a row, springs":     {row, one(12, 400.0/3, 0), []float64{4, 4, 4}, 0, false},
		"three in a row, an end up":   {row, one(12, 20, 0), []float64{9.6, 2.4, 0}, 0, false},
		"two posts on one spot":       {[]plane.Vec{{5, 5}, {5, 5}}, one(4, 5, 5), []float64{2, 2}, 0, false},
		"no support":                  {nil, one(4, 5, 5), []float64{}, 0, true},
		"no mass":                     {square, one(0, 500, 5), []float64{0, 0, 0, 0}, 100, false},
		"two loads, one balance":      {square, []Load{{3, plane.Vec{100, 0}}, {1, plane.Vec{-100, 0}}}, []float64{0.5, 1.5, 1.5, 0.5}, 50, false},
		"a fifth post in the middle":  {append(square[:4:4], plane.Vec{}), one(10, 0, 0), []float64{2, 2, 2, 2, 2}, 100, false},
		"four, past a side, pulls":    {square, one(8, 150, 0), []float64{-1, 5, 5, -1}, -50, true},
		"posts doubled on one corner": {[]plane.Vec{{0, 90}, {0, 90}, {-90, -45}, {90, -45}}, one(9, 0, 0), []float64{1.5, 1.5, 3, 3}, 45, false},
	} {
		t.Run(name, func(t *testing.T) {
			r := Solve(c.supports, c.loads)
			closeTo(t, c.reactions, r.Reactions, 1e-9)
			require.InDelta(t, c.margin, r.Margin, 1e-9)
			require.Equal(t, c.tips, r.Tips)
		})
	}
}

func TestUnequalPostsRockOnThree(t *testing.T) {
	four := func(tops ...float64) []Support {
		s := make([]Support, 4)
		for i, at := range []plane.Vec{{-100, -100}, {100, -100}, {100, 100}, {-100, 100}} {
			s[i] = Support{at, tops[i]}
		}
		return s
	}
	load := []Load{{8, plane.Vec{20, 0}}}
	r := SolveUneven(four(100, 100, 100, 98), load)
	require.Equal(t, []int{3}, r.Lifts)
	// On the three others: x 20 to the right asks (1+0.2)/2 of the right side.
	closeTo(t, []float64{3.2, 0.8, 4, 0}, r.Reactions, 1e-9)
	even := SolveUneven(four(100, 100, 100, 100.04), load)
	require.Empty(t, even.Lifts)
	require.Equal(t, Solve([]plane.Vec{{-100, -100}, {100, -100}, {100, 100}, {-100, 100}}, load), even)
	// A tall one is always touched; the plate then leans over a diagonal.
	tall := SolveUneven(four(103, 100, 100, 100), load)
	require.Positive(t, tall.Reactions[0])
	require.NotEmpty(t, tall.Lifts)
}

// scene draws supports that make a ring and a load near it.
func scene(t *rapid.T, least, most int) ([]plane.Vec, []Load) {
	mm := rapid.Float64Range(-300, 300)
	n := rapid.IntRange(least, most).Draw(t, "supports")
	s := make([]plane.Vec, n)
	for i := range s {
		s[i] = plane.Vec{math.Round(mm.Draw(t, "x")), math.Round(mm.Draw(t, "y"))}
	}
	loads := make([]Load, rapid.IntRange(1, 5).Draw(t, "loads"))
	for i := range loads {
		loads[i] = Load{rapid.Float64Range(0.1, 20).Draw(t, "mass"), plane.Vec{mm.Draw(t, "lx") / 2, mm.Draw(t, "ly") / 2}}
	}
	return s, loads
}

// Law: reactions add up to the total and their moments balance.
func TestLawReactionsBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, loads := scene(t, 3, 9)
		if len(ring(s)) < 3 || narrow(s) {
			t.Skip("supports in one line or on one spot: see TestSolveByHand")
		}
		r := Solve(s, loads)
		for _, reactions := range [][]float64{r.Reactions, r.Bilateral} {
			var back sum
			for i, v := range reactions {
				back.add(v, s[i])
			}
			require.InDelta(t, r.Total, back.mass, 1e-6)
			require.InDelta(t, float64(r.Total*r.Balance[0]), back.x, 1e-4)
			require.InDelta(t, float64(r.Total*r.Balance[1]), back.y, 1e-4)
		}
		if r.Tips {
			return
		}
		for i, v := range r.Reactions {
			require.GreaterOrEqual(t, v, -1e-9)
			require.LessOrEqual(t, r.Worst[i][0], v+1e-6)
			require.GreaterOrEqual(t, r.Worst[i][1], v-1e-6)
		}
	})
}

// narrow tells whether the supports' ring is under 1 mm deep, where the
// figures of an independent solver are no longer worth comparing.
func narrow(s []plane.Vec) bool {
	hull := ring(s)
	for i, a := range hull {
		deep := 0.0
		b := hull[(i+1)%len(hull)]
		for _, p := range hull {
			deep = math.Max(deep, plane.Cross(plane.Sub(b, a), plane.Sub(p, a))/plane.Distance(a, b))
		}
		if deep < 1 {
			return true
		}
	}
	return false
}

// TestSpringsAgainstSubsets compares with trying every set of supports that
// might touch, solved with gonum: the balanced one with the least sum of
// squares.
func TestSpringsAgainstSubsets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, loads := scene(t, 4, 7)
		if len(ring(s)) < 3 || narrow(s) {
			t.Skip("supports in one line")
		}
		r := Solve(s, loads)
		if r.Margin < 1e-3 {
			t.Skip("tips, or stands on an edge")
		}
		best := math.Inf(1)
		var want []float64
		for set := 1; set < 1<<len(s); set++ {
			if got, ok := leastSquares(s, set, r); ok {
				if sq := squares(got); sq < best {
					best, want = sq, got
				}
			}
		}
		require.NotNil(t, want)
		require.InDelta(t, best, squares(r.Reactions), 1e-6*(1+best))
		closeToRapid(t, want, r.Reactions, 1e-4)
	})
}

func closeToRapid(t *rapid.T, want, got []float64, tol float64) {
	require.Len(t, got, len(want))
	for i := range want {
		require.InDelta(t, want[i], got[i], tol, "support %d", i)
	}
}

func squares(v []float64) (sum float64) {
	for _, x := range v {
		sum += x * x
	}
	return sum
}

// leastSquares is the least-norm balance on a subset of the supports by QR, if
// none of it pulls.
func leastSquares(s []plane.Vec, set int, r Result) ([]float64, bool) {
	var at []int
	for i := range s {
		if set&(1<<i) != 0 {
			at = append(at, i)
		}
	}
	if len(at) < 3 {
		return nil, false
	}
	a := mat.NewDense(3, len(at), nil)
	for c, i := range at {
		a.Set(0, c, 1)
		a.Set(1, c, s[i][0]/100)
		a.Set(2, c, s[i][1]/100)
	}
	b := mat.NewVecDense(3, []float64{r.Total, r.Total * r.Balance[0] / 100, r.Total * r.Balance[1] / 100})
	var lq mat.LQ
	lq.Factorize(a)
	var x mat.VecDense
	if lq.SolveVecTo(&x, false, b) != nil {
		return nil, false
	}
	out := make([]float64, len(s))
	for c, i := range at {
		if x.AtVec(c) < -1e-9 {
			return nil, false
		}
		out[i] = x.AtVec(c)
	}
	return out, true
}

// TestWorstAgainstLinearProgram compares the range of each reaction with
// gonum's simplex: min and max of R_i over all R >= 0 in balance.
func TestWorstAgainstLinearProgram(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, loads := scene(t, 4, 7)
		if len(ring(s)) < 3 || narrow(s) {
			t.Skip("supports in one line")
		}
		r := Solve(s, loads)
		if r.Margin < 1e-3 {
			t.Skip("tips, or stands on an edge")
		}
		a := mat.NewDense(3, len(s), nil)
		for i, p := range s {
			a.Set(0, i, 1)
			a.Set(1, i, p[0]/100)
			a.Set(2, i, p[1]/100)
		}
		b := []float64{1, r.Balance[0] / 100, r.Balance[1] / 100}
		for i := range s {
			for side, sign := range []float64{1, -1} {
				c := make([]float64, len(s))
				c[i] = sign
				v, _, err := lp.Simplex(c, a, b, 1e-12, nil)
				if err != nil {
					t.Skip("simplex gives up: " + err.Error())
				}
				require.InDelta(t, sign*v*r.Total, r.Worst[i][side], 1e-4) // the simplex rounds more than the triples do
			}
		}
	})
}

// Law: turning and shifting everything changes no reaction.
func TestLawShiftAndTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, loads := scene(t, 3, 6)
		if len(ring(s)) < 3 || narrow(s) {
			t.Skip("supports in one line")
		}
		pose := plane.Pose{At: plane.Vec{rapid.Float64Range(-500, 500).Draw(t, "dx"), 40}, Turn: rapid.Float64Range(0, 360).Draw(t, "turn")}
		before := Solve(s, loads)
		if math.Abs(before.Margin) < 1e-3 {
			t.Skip("on the edge rounding decides")
		}
		moved := make([]plane.Vec, len(s))
		for i := range s {
			moved[i] = pose.Apply(s[i])
		}
		for i := range loads {
			loads[i].At = pose.Apply(loads[i].At)
		}
		after := Solve(moved, loads)
		require.InDelta(t, before.Margin, after.Margin, 1e-6)
		require.Equal(t, before.Tips, after.Tips)
		closeToRapid(t, before.Reactions, after.Reactions, 1e-5)
	})
}

func BenchmarkSolveThree(b *testing.B) {
	s := []plane.Vec{{0, 240}, {-208, -120}, {208, -120}}
	loads := []Load{{14, plane.Vec{}}, {3, plane.Vec{100, 40}}}
	for b.Loop() {
		Solve(s, loads)
	}
}

func BenchmarkSolveSix(b *testing.B) {
	s := []plane.Vec{{-28, 270}, {-28, -270}, {-290, 0}, {28, 270}, {28, -270}, {290, 0}}
	loads := []Load{{14, plane.Vec{}}, {30, plane.Vec{100, 40}}}
	for b.Loop() {
		Solve(s, loads)
	}
}
