package packing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

// slow judges an arrangement with dense points on every skeleton and every
// ring: another way than the search and Slack, exact to about 0.5 mm of
// 1 mm steps squared over the distance.
func slow(p Problem, set []Standing) float64 {
	points := func(s plane.Skeleton, pose plane.Pose) []plane.Vec {
		var list []plane.Vec
		for i, v := range s {
			w := s[(i+1)%len(s)]
			n := int(math.Ceil(math.Hypot(w[0]-v[0], w[1]-v[1]) / 4))
			for k := 0; k <= n; k++ {
				f := float64(k) / float64(max(n, 1))
				q := plane.Vec{v[0] + f*(w[0]-v[0]), v[1] + f*(w[1]-v[1])}
				a := -pose.Turn * math.Pi / 180 // clockwise
				list = append(list, plane.Vec{
					pose.At[0] + q[0]*math.Cos(a) - q[1]*math.Sin(a),
					pose.At[1] + q[0]*math.Sin(a) + q[1]*math.Cos(a)})
			}
		}
		return list
	}
	least := math.Inf(1)
	apart := func(a, b []plane.Vec, need float64) {
		for _, v := range a {
			for _, w := range b {
				least = math.Min(least, math.Hypot(v[0]-w[0], v[1]-w[1])-need)
			}
		}
	}
	for i, s := range set {
		for a, sa := range p.Kinds[s.Kind].Parts {
			pa := points(sa, plane.Pose{At: s.At, Turn: s.Turn})
			for _, q := range set[:i] {
				if s.Fixed && q.Fixed {
					continue
				}
				for b, sb := range p.Kinds[q.Kind].Parts {
					apart(pa, points(sb, plane.Pose{At: q.At, Turn: q.Turn}), p.Need[s.Kind][a][q.Kind][b])
				}
			}
			if s.Fixed {
				continue
			}
			for _, o := range p.Obstacles {
				apart(pa, points(o.Skeleton, plane.Pose{}), o.Need[s.Kind][a])
			}
			for _, l := range p.Kinds[s.Kind].Limits {
				if l.Part != a {
					continue
				}
				best := math.Inf(-1)
				for _, o := range p.Areas[l.Area].Outlines {
					low := math.Inf(1)
					ring := o.Points(0.01)
					for _, v := range pa {
						if !o.Contains(v) {
							low = math.Inf(-1)
						}
						for k, r := range ring {
							w := ring[(k+1)%len(ring)]
							q, _ := plane.Skeleton{r, w}.Nearest(v)
							low = math.Min(low, math.Hypot(v[0]-q[0], v[1]-q[1])-l.Depth)
						}
					}
					best = math.Max(best, low)
				}
				least = math.Min(least, best)
			}
		}
	}
	return least
}

// Every result is valid, holds at most what is wanted, keeps the grid, and
// counts right; the slow judge agrees.
func TestEveryResultIsValid(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		p := anyScene(r, t)
		got, err := Fill(p, rapid.Uint64().Draw(r, "seed"), 300)
		require.NoError(t, err)
		require.GreaterOrEqual(t, Slack(&p, got.Set), -plane.Tolerance)
		require.GreaterOrEqual(t, slow(p, got.Set), -0.02)
		have := make([]int, len(p.Wants))
		value := 0.0
		for _, s := range got.Set {
			have[s.Want]++
			value += p.Wants[s.Want].Value
			require.Equal(t, p.Wants[s.Want].Kind, s.Kind)
			for _, x := range []float64{s.At[0], s.At[1], s.Turn} {
				require.Equal(t, math.Round(x*10)/10, x, "on the grid")
			}
			require.True(t, s.Turn >= 0 && s.Turn < 360)
		}
		for i, w := range p.Wants {
			require.Equal(t, w.Count, have[i]+got.Left[i])
			require.GreaterOrEqual(t, got.Left[i], 0)
		}
		require.InDelta(t, value, got.Value, 1e-6)
		e := Ease{Comfort: 15}
		wide := Spread(p, got, e, 1, 100)
		require.True(t, Valid(&p, wide.Set))
		require.Len(t, wide.Set, len(got.Set))
		require.GreaterOrEqual(t, e.Least(p, wide), math.Min(e.Least(p, got), 15)-1e-9)
	})
}

// The same problem, seed and work give the same result, and steps of any size
// go through the same moves.
func TestSameSeedSameResult(t *testing.T) {
	p := scene([]plane.Outline{round(t, 520)}, []thing{mug(43, 35, 9), tray(220, 130, 2), pot(70, 2), pot(30, 9)}, 6, 6,
		plane.Vec{0, 200}, plane.Vec{-170, -100}, plane.Vec{170, -100})
	a, err := Fill(p, 7, 4000)
	require.NoError(t, err)
	b, err := Fill(p, 7, 4000)
	require.NoError(t, err)
	require.Equal(t, a, b)
	s, err := NewSearch(p, 7)
	require.NoError(t, err)
	for s.Work() < a.Work {
		s.Step(1)
	}
	require.Equal(t, a, s.Best())
}

// A search never gets worse, and musts come before value.
func TestMustsFirst(t *testing.T) {
	big, small := pot(100, 4), pot(40, 3)
	small.must = true
	p := scene([]plane.Outline{round(t, 300)}, []thing{big, small}, 6, 0)
	s, err := NewSearch(p, 1)
	require.NoError(t, err)
	before := s.Best()
	for i := 0; i < 20; i++ {
		s.Step(100)
		now := s.Best()
		require.False(t, before.Better(now))
		before = now
	}
	require.Equal(t, 0, before.Left[1], "all three small musts stand")
}

// A smaller pot of lesser worth gives way: two of 70 fill a shelf that one of
// 100 and smaller ones would take.
func TestExchange(t *testing.T) {
	a, b := pot(70, 2), pot(60, 4)
	a.value, b.value = 10, 7
	// 290 across holds 2 of 70 (28 wide) or 3 of 60 with room (R = 2.155 r = 129)
	p := scene([]plane.Outline{round(t, 290)}, []thing{a, b}, 0, 0)
	got, err := Fill(p, 1, 5000)
	require.NoError(t, err)
	require.GreaterOrEqual(t, got.Value, 21.0)
}

// Trays stand in rows: four of 260 x 160 on 534 x 334, exact by hand:
// 2 x 260 + 6 = 526, 2 x 160 + 6 = 326, and 3 to each edge make 532 x 332.
func TestTraysStandInRows(t *testing.T) {
	for seed := uint64(1); seed <= 3; seed++ {
		p := scene([]plane.Outline{rectangle(t, 534, 334)}, []thing{tray(260, 160, 5)}, 6, 3)
		got, err := Fill(p, seed, 20000)
		require.NoError(t, err)
		require.Len(t, got.Set, 4, "seed %d", seed)
	}
}

// Handles interleave: more mugs stand than discs that hold mug and handle, or
// than mugs with the handle's reach all round.
func TestHandlesInterleave(t *testing.T) {
	o := []plane.Outline{round(t, 410)}
	mugs, err := Fill(scene(o, []thing{mug(43, 35, 30)}, 6, 6), 1, 30000)
	require.NoError(t, err)
	wide, err := Fill(scene(o, []thing{pot((86+35)/2.0, 30)}, 6, 6), 1, 10000)
	require.NoError(t, err)
	t.Logf("%d mugs, %d discs that hold a mug with its handle", len(mugs.Set), len(wide.Set))
	require.Greater(t, len(mugs.Set), len(wide.Set))
}

// Posts are holes: the 7 of a record round shelf become 6 with a post in the
// middle, and the middle stays free.
func TestPostsAreHoles(t *testing.T) {
	p := scene([]plane.Outline{round(t, 2*3.02*50)}, []thing{pot(50, 7)}, 0, 0, plane.Vec{0, 0})
	got, err := Fill(p, 1, 3000)
	require.NoError(t, err)
	require.Len(t, got.Set, 6)
}

// Seven discs stand on a half round shelf of 1.005 times the record radius.
//
// Source: E. Specht, Packomania, equal circles in a semicircle (csc).
func TestHalfRoundRecord(t *testing.T) {
	for _, rec := range readRecords(t) {
		if rec.container != "halfdisc" {
			continue
		}
		across := 2 * 40 * rec.best * 1.005
		p := scene([]plane.Outline{halfRound(t, across, across/2)}, []thing{pot(40, rec.n)}, 0, 0)
		got, err := Fill(p, 2, 20000)
		require.NoError(t, err)
		require.True(t, got.Whole(), "n %d of %s", rec.n, rec.source)
	}
}

// What stands locked is kept to the last bit, though it is off the grid.
func TestLockedStay(t *testing.T) {
	p := scene([]plane.Outline{round(t, 500)}, []thing{mug(43, 35, 9), pot(60, 3)}, 6, 6)
	p.Fixed = []Standing{{Kind: 0, Want: -1, At: plane.Vec{12.345, 67.89}, Turn: 33.33}, {Kind: 1, Want: -1, At: plane.Vec{-120, -90}}}
	got, err := Fill(p, 1, 3000)
	require.NoError(t, err)
	require.Equal(t, p.Fixed[0].At, got.Set[0].At)
	require.Equal(t, p.Fixed[0].Turn, got.Set[0].Turn)
	require.Equal(t, p.Fixed[1].At, got.Set[1].At)
	require.True(t, Valid(&p, got.Set))
	require.Greater(t, len(got.Set), 5)
}

// A foot lies on one of two shelves, whole, never over the joint.
func TestNoFootOverTheJoint(t *testing.T) {
	left := rectangle(t, 200, 200).At(plane.Pose{At: plane.Vec{-102, 0}})
	right := rectangle(t, 200, 200).At(plane.Pose{At: plane.Vec{102, 0}})
	p := scene([]plane.Outline{left, right}, []thing{pot(60, 5)}, 6, 0)
	got, err := Fill(p, 1, 2000)
	require.NoError(t, err)
	require.Len(t, got.Set, 2)
	for _, s := range got.Set {
		require.GreaterOrEqual(t, math.Abs(s.At[0]), 62.0)
	}
}

// Nonsense is refused with a sentence, and nothing at all is no trouble.
func TestFaults(t *testing.T) {
	good := scene([]plane.Outline{round(t, 500)}, []thing{pot(60, 3)}, 6, 6)
	require.NoError(t, good.Fault())
	for name, spoil := range map[string]func(p *Problem){
		"no part":       func(p *Problem) { p.Kinds[0].Parts = nil },
		"NaN need":      func(p *Problem) { p.Need[0][0][0][0] = math.NaN() },
		"no needs":      func(p *Problem) { p.Need = nil },
		"no outline":    func(p *Problem) { p.Areas[0].Outlines = nil },
		"empty outline": func(p *Problem) { p.Areas[0].Outlines = []plane.Outline{{}} },
		"no area":       func(p *Problem) { p.Areas = nil },
		"a billion":     func(p *Problem) { p.Wants[0].Count = 1e9 },
		"minus one":     func(p *Problem) { p.Wants[0].Count = -1 },
		"no kind":       func(p *Problem) { p.Wants[0].Kind = 4 },
		"NaN value":     func(p *Problem) { p.Wants[0].Value = math.NaN() },
		"NaN fixed":     func(p *Problem) { p.Fixed = []Standing{{At: plane.Vec{math.NaN(), 0}}} },
		"short obstacle": func(p *Problem) {
			p.Obstacles = []Obstacle{{Skeleton: plane.Skeleton{{0, 0}}}}
		},
	} {
		p := scene([]plane.Outline{round(t, 500)}, []thing{pot(60, 3)}, 6, 6)
		spoil(&p)
		_, err := Fill(p, 1, 10)
		require.Error(t, err, name)
		_, _, err = Tight(p, 1, 10)
		require.Error(t, err, name)
		_, ok := Insert(p, Result{}, 0, 1, 10)
		require.False(t, ok, name)
	}
	none, err := Fill(Problem{}, 1, 10)
	require.NoError(t, err)
	require.Empty(t, none.Set)
	// an outline too small for anything ends by itself
	tiny, err := Fill(scene([]plane.Outline{round(t, 20)}, []thing{pot(60, 3), mug(40, 30, 2)}, 6, 6), 1, 1000)
	require.NoError(t, err)
	require.Empty(t, tiny.Set)
}
