package clearance

import (
	"encoding/json"
	"math"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/layout/statics"
)

// crowd is a random load on two levels: jars, measured bowls, handled mugs.
func crowd(t *rapid.T) *layout.Load {
	l := calm()
	mug, bowl := jar(), jar()
	mug.Name, mug.Handles = "mug", []layout.Handle{{Reach: 38, From: 20, To: 80, Thick: 14}}
	bowl.Name, bowl.Measured, bowl.Height, bowl.Across = "bowl", true, 60, 120
	bowl.Profile = []layout.Knot{{Height: 0, Diameter: 50}, {Height: 20, Diameter: 60}, {Height: 60, Diameter: 120}}
	bowl.Flags.Spits = rapid.Bool().Draw(t, "spits")
	l.Ware = append(l.Ware, mug, bowl)
	n := rapid.IntRange(2, 12).Draw(t, "pots")
	for i := 0; i < n; i++ {
		row := l.Ware[rapid.IntRange(0, 2).Draw(t, "row")].Name
		x := rapid.Float64Range(-220, 220).Draw(t, "x")
		y := rapid.Float64Range(-220, 220).Draw(t, "y")
		level := rapid.IntRange(1, 2).Draw(t, "level")
		put(l, row, i+1, 0, level, x, y)
		set := l.Towers[0].Levels[level-1].Set
		set[len(set)-1].Turn = rapid.Float64Range(0, 360).Draw(t, "turn")
	}
	return l
}

func mustBuild(t *rapid.T, l *layout.Load) *stacks.Built {
	b, err := stacks.Build(l)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestTabledNeedsFindWhatTheExactGapFinds: the broad phase and the tables of
// needs file exactly the pairs of one level that the exact gap of every pair
// would, with the same grade.
func TestTabledNeedsFindWhatTheExactGapFinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := mustBuild(t, crowd(t))
		want := map[string]layout.Grade{}
		for i := range b.Pots {
			for j := i + 1; j < len(b.Pots); j++ {
				p, q := &b.Pots[i], &b.Pots[j]
				if p.Level != q.Level {
					continue // a shelf parts them
				}
				problem, watch := 3.0, 6.0
				if p.Ware.Flags.Spits || q.Ware.Flags.Spits {
					problem, watch = 6, 12
				}
				gap, _ := solid.Gap(&p.Solid, &q.Solid)
				key := keyOf(layout.PotToPot, sorted(p.Pot.String(), q.Pot.String())...)
				if gap < problem-tol {
					want[key] = layout.Problem
				} else if gap < watch-tol {
					want[key] = layout.Watch
				}
			}
		}
		got := map[string]layout.Grade{}
		for _, f := range of(Check(b), layout.PotToPot) {
			got[f.Key] = f.Grade
		}
		if len(got) != len(want) {
			t.Fatalf("got %v, want %v", got, want)
		}
		for k, g := range want {
			if got[k] != g {
				t.Fatalf("%s: got %v, want %v", k, got[k], g)
			}
		}
	})
}

// TestWatchTellsWhatCheckFinds: every limit that Check finds missed for a pot
// among its neighbours, Watch tells with the same gap and grade for the pot
// where it stands.
func TestWatchTellsWhatCheckFinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := mustBuild(t, crowd(t))
		c := New(b)
		r := c.Check()
		for i := range b.Pots {
			near := c.Watch(i, b.Pots[i].At, b.Pots[i].Turn)
			for _, f := range r.Findings {
				switch f.Rule {
				case layout.PotToPot, layout.PotToPost, layout.PotToWall, layout.FootToEdge:
				default:
					continue
				}
				about := false
				for _, thing := range f.Things {
					about = about || thing.Name == b.Pots[i].Pot.String()
				}
				if !about {
					continue
				}
				told := false
				for _, n := range near {
					told = told || n.Rule == f.Rule && n.Grade == f.Grade && math.Abs(n.Gap-f.Have) < 1e-9
				}
				if !told {
					t.Fatalf("%q is not told by %+v", f.Sentence, near)
				}
			}
		}
	})
}

// TestSnapClears: where a snap puts a pot, on the grid, Check finds nothing of
// what the snap keeps, and no place of a coarse raster nearer to the wish
// clears.
func TestSnapClears(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := crowd(t)
		b := mustBuild(t, l)
		c := New(b)
		i := rapid.IntRange(0, len(b.Pots)-1).Draw(t, "pot")
		want := plane.Vec{rapid.Float64Range(-150, 150).Draw(t, "to x"), rapid.Float64Range(-150, 150).Draw(t, "to y")}
		to, ok := c.Snap(i, want, b.Pots[i].Turn, 80)
		if !ok {
			return
		}
		if to[0] != Round(to[0]) || to[1] != Round(to[1]) {
			t.Fatalf("%v is off the grid", to)
		}
		for _, n := range c.Watch(i, to, b.Pots[i].Turn) {
			if !n.Clear && n.Rule != layout.RoomAbove && n.Rule != layout.RoomToLid {
				t.Fatalf("at %v: %+v", to, n)
			}
		}
		s := c.newSnapper(i, want, b.Pots[i].Turn, 80, AskPlan)
		for x := -80.0; x <= 80; x += 4 {
			for y := -80.0; y <= 80; y += 4 {
				v := plane.Vec{want[0] + x, want[1] + y}
				if plane.Distance(v, want) < plane.Distance(to, want)-0.3 && s.clears(v, 0) {
					t.Fatalf("wished %v, snapped to %v, but %v clears too", want, to, v)
				}
			}
		}
	})
}

// TestTheTippingBoundNeverPassesATip: a shelf of which the bound says that it
// cannot sway has no moment of loading under the watch figure, in any order
// that is tried.
func TestTheTippingBoundNeverPassesATip(t *testing.T) {
	calmed := 0
	rapid.Check(t, func(t *rapid.T) {
		l := crowd(t)
		out := rapid.Float64Range(60, 200).Draw(t, "lines out")
		l.Towers[0].Lines = threeLines(out)
		l.Furniture.Shelves[0].Mass = rapid.Float64Range(0.5, 10).Draw(t, "mass of shelves")
		l.Ware[0].Mass = rapid.Float64Range(0.1, 3).Draw(t, "mass of jars")
		b := mustBuild(t, l)
		r := &run{Checker: New(b), sways: map[int]bool{}, weigh: statics.Weigh(b)}
		limit := layout.Limits{Problem: 0, Watch: 20}
		o, _ := order.Of(b)
		events := append([]statics.Event(nil), o.Events...)
		perm := rapid.Permutation(events).Draw(t, "order")
		sort.SliceStable(perm, func(i, j int) bool { return stage(b, perm[i]) < stage(b, perm[j]) })
		for i := range b.Shelves {
			if r.maySway(i, limit) {
				continue
			}
			calmed++
			for _, try := range [][]statics.Event{events, perm} {
				m := statics.WhileLoading(b, try)[i]
				if m.Step >= 0 && m.Margin < 20-1e-6 {
					t.Fatalf("shelf %d comes to %v", i, m)
				}
			}
		}
	})
	require.Positive(t, calmed, "the bound is of use")
}

// stage is when a piece can go in at the earliest: posts, shelf, then all pots
// of the level and the posts over it in any order.
func stage(b *stacks.Built, e statics.Event) int {
	switch e.Kind {
	case statics.SetPost:
		return 3 * b.Levels[b.Posts[e.Index].Level].Number
	case statics.SetShelf:
		return 3*b.Levels[b.Shelves[e.Index].Level].Number + 1
	}
	return 3*b.Levels[b.Pots[e.Index].Level].Number + 3
}

// outlines for the next two laws.
func anOutline(t *rapid.T, label string) plane.Outline {
	size := rapid.Float64Range(100, 400).Draw(t, label+" size")
	var o plane.Outline
	var err error
	switch rapid.IntRange(0, 4).Draw(t, label+" shape") {
	case 0:
		o, err = plane.Round(size)
	case 1:
		o, err = plane.HalfRound(size, size*rapid.Float64Range(0.3, 0.7).Draw(t, label+" depth"))
	case 2:
		o, err = plane.Sided(rapid.IntRange(3, 12).Draw(t, label+" sides"), size, 20)
	case 3:
		o, err = plane.Oval(size, size*rapid.Float64Range(0.4, 0.9).Draw(t, label+" depth"))
	default:
		o, err = plane.RoundedRectangle(size, size*0.7, 20)
	}
	if err != nil {
		t.Fatal(err)
	}
	return o.At(plane.Pose{At: plane.Vec{rapid.Float64Range(-300, 300).Draw(t, label+" x"), rapid.Float64Range(-300, 300).Draw(t, label+" y")},
		Turn: rapid.Float64Range(0, 360).Draw(t, label+" turn")})
}

// TestOutlinesApartAgainstDensePolygons: the signed distance of two outlines
// is that of polygons drawn in them, but for the polygons' sag.
func TestOutlinesApartAgainstDensePolygons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anOutline(t, "a"), anOutline(t, "b")
		got, _ := outlinesApart(a, b)
		back, _ := outlinesApart(b, a)
		const sag = 0.005
		want := plane.Skeleton(a.Points(sag)).Distance(plane.Skeleton(b.Points(sag)))
		if math.Abs(got-want) > 2*sag+1e-6 || math.Abs(got-back) > 1e-9 {
			t.Fatalf("got %v and %v, want %v", got, back, want)
		}
	})
}

// TestInsideByAgainstDensePolygons: how far an outline keeps inside another is
// the least depth of a dense polygon drawn in it, but for the polygon's sag.
func TestInsideByAgainstDensePolygons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inner := anOutline(t, "inner")
		center := inner.Centroid()
		holder, err := plane.Sided(rapid.IntRange(4, 12).Draw(t, "n"), rapid.Float64Range(500, 900).Draw(t, "across"), 0)
		if rapid.Bool().Draw(t, "oval") {
			holder, err = plane.Oval(900, 700)
		}
		if err != nil {
			t.Fatal(err)
		}
		holder = holder.At(plane.Pose{At: plane.Add(center, plane.Vec{rapid.Float64Range(-80, 80).Draw(t, "off"), 0})})
		got, _ := insideBy(inner, holder)
		const sag = 0.005
		want := math.Inf(1)
		for _, p := range inner.Points(sag) {
			want = math.Min(want, holder.Depth(p))
		}
		if got > want+1e-6 || want >= 0 && got < want-sag-1e-6 {
			t.Fatalf("got %v, want %v", got, want)
		}
	})
}

// TestReportsComeOutAlike: the same load gives the same report, byte for byte,
// from one checker or two.
func TestReportsComeOutAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := crowd(t)
		c := New(mustBuild(t, l))
		a, _ := json.Marshal(c.Check())
		b, _ := json.Marshal(c.Check())
		d, _ := json.Marshal(Check(mustBuild(t, l)))
		if string(a) != string(b) || string(a) != string(d) {
			t.Fatal("reports differ")
		}
	})
}

// TestAcceptedWatchesStayAccepted: an accepted watch is marked and not
// counted; a problem cannot be accepted.
func TestAcceptedWatchesStayAccepted(t *testing.T) {
	l := jars(4)
	key := of(check(t, l), layout.PotToPot)[0].Key
	require.Equal(t, "pot to pot: jar 1, jar 2", key)
	l.Accepted = []layout.Accepted{{Finding: key, Reason: "both matt"}}
	r := check(t, l)
	require.Equal(t, 0, r.Watches)
	require.Equal(t, 1, r.Accepted)
	require.Equal(t, "both matt", r.Find(key).Accepted)

	l.Towers[0].Levels[0].Set[1].At[0] = 80 + 5 // it stays accepted when it is moved
	require.Equal(t, 1, check(t, l).Accepted)

	l.Towers[0].Levels[0].Set[1].At[0] = 80 + 2
	r = check(t, l)
	require.Equal(t, 1, r.Problems)
	require.Equal(t, 0, r.Accepted)
	require.Empty(t, r.Find(key).Accepted)
}

// TestFindingsAreSorted: by grade, then as the table goes, then by key with
// numbers as numbers.
func TestFindingsAreSorted(t *testing.T) {
	require.True(t, natural("mug 2", "mug 10"))
	require.False(t, natural("mug 10", "mug 2"))
	require.True(t, natural("mug", "mug 1"))
	rank := map[layout.RuleName]int{}
	for i, rule := range ruleOrder() {
		_, twice := rank[rule]
		require.False(t, twice, rule)
		rank[rule] = i
	}
	rapid.Check(t, func(t *rapid.T) {
		r := Check(mustBuild(t, crowd(t)))
		for i := 1; i < len(r.Findings); i++ {
			if before(&r.Findings[i], &r.Findings[i-1], rank) {
				t.Fatalf("%s comes after %s", r.Findings[i].Key, r.Findings[i-1].Key)
			}
		}
		seen := map[string]bool{}
		for _, f := range r.Findings {
			if seen[f.Key] {
				t.Fatalf("%s twice", f.Key)
			}
			seen[f.Key] = true
		}
	})
}
