package planner

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/bounds"
	"threepost/layout/document"
)

// The references are arrangements somebody found; no bound may lie below one.
func TestLawBoundIsNeverBelowAReference(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("../../testdata/loads/reference/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		l, err := document.Parse(file, text)
		require.NoError(t, err)
		set, of := 0, 0
		for _, w := range l.Ware {
			of += w.Count
		}
		for _, tw := range l.Towers {
			for _, v := range tw.Levels {
				for _, p := range v.Set {
					if l.WareOf(p.Pot) != nil {
						set++
					}
				}
			}
		}
		value, err := Value(l)
		require.NoError(t, err)
		b, err := Bound(l)
		require.NoError(t, err)
		t.Logf("%s: %d of %d set, bound %d; value %.1f, bound %.1f; %v", filepath.Base(file), set, of, b.Count, value, b.Value, b.Tall)
		require.GreaterOrEqual(t, b.Count, set, file)
		require.GreaterOrEqual(t, b.Value, value-1e-9, file)
	}
}

// No plan sets more than the bound of its load, by count or by value: samples,
// and loads of random kilns, furniture and ware.
func TestLawBoundIsNeverBelowAPlan(t *testing.T) {
	t.Parallel()
	var under []float64
	var bounded []bounds.Bound
	check := func(name string, l *layout.Load, work int64) {
		s, err := Start(l, 1)
		require.NoError(t, err)
		s.Step(work)
		p, ok := s.Best()
		for again := 0; !ok && again < 10; again++ { // a large load's first plan may take longer
			s.Step(work)
			p, ok = s.Best()
		}
		require.True(t, ok, name)
		b, err := Bound(l)
		require.NoError(t, err)
		require.LessOrEqual(t, p.Set, b.Count, name)
		require.LessOrEqual(t, p.Value, b.Value+1e-9, name)
		bounded = append(bounded, b)
		under = append(under, (b.Value-p.Value)/b.Value)
		t.Logf("%s: %s", name, SayBound(b, p))
	}
	for _, name := range []string{"newcomer", "small-round"} {
		l := sample(t, name)
		for i := range l.Ware { // far more than goes in
			l.Ware[i].Count *= 3
		}
		check(name, l, 6000)
	}
	loads := 3
	if os.Getenv("THREEPOST_LONG") != "" {
		loads = 60
	} else {
		t.Logf("%d random loads; THREEPOST_LONG=1 takes 60", loads)
	}
	for seed := range uint64(loads) {
		p := plant(t, seed)
		for i := range p.load.Ware {
			p.load.Ware[i].Count *= 2
		}
		check(fmt.Sprintf("planted %d", seed), p.load, 4000)
		b := bounded[len(bounded)-1]
		require.LessOrEqual(t, p.set, b.Count)
		require.LessOrEqual(t, p.value, b.Value+1e-9)
	}
	sort.Float64s(under)
	t.Logf("value under the bound over %d loads of twice what goes in: median %.3f, most %.3f", len(under), under[len(under)/2], under[len(under)-1])
}

// What stands or is locked may keep other distances: no bound but the count.
func TestBoundOfALoadThatStands(t *testing.T) {
	l := sample(t, "reference/newcomer")
	l.Towers[0].Levels[0].Locked = true
	for i := range l.Ware {
		if l.Ware[i].Count > 1 { // one alone has no number
			l.Ware[i].Count += 100
		}
	}
	b, err := Bound(l)
	require.NoError(t, err)
	require.Equal(t, 219, b.Count)
	require.Zero(t, b.Tall)
}

// TestSayBound holds the sentences.
func TestSayBound(t *testing.T) {
	p := &Plan{Load: &layout.Load{}, Set: 86, Of: 100, Value: 80, Whole: 100}
	tall := bounds.Tall{From: 182, Count: 20, Levels: 2, Hold: 18}
	for _, tt := range []struct {
		b    bounds.Bound
		want string
	}{
		{bounds.Bound{Count: 90, Tall: tall}, "86 set. Nobody can set more than 90 here, because 20 pots stand 182 or higher and the 2 levels that go in so tall hold 18 at most."},
		{bounds.Bound{Count: 86, Short: bounds.Posts}, "86 set. Nobody can set more here, because the posts make no more levels of these heights."},
		{bounds.Bound{Count: 90, Tall: bounds.Tall{From: 300, Count: 1}}, "86 set. Nobody can set more than 90 here, because 1 pot stands 300 or higher and no level goes in that takes as much."},
		{bounds.Bound{Count: 90, Tall: bounds.Tall{From: 300, Count: 9, Levels: 1, Hold: 4}}, "86 set. Nobody can set more than 90 here, because 9 pots stand 300 or higher and the one level that goes in so tall holds 4 at most."},
		{bounds.Bound{Count: 90, Short: bounds.Height}, "86 set. Nobody can set more than 90 here, because the height of the kiln takes no more levels of these heights."},
		{bounds.Bound{Count: 90, Short: bounds.Shelves}, "86 set. Nobody can set more than 90 here, because the shelves hold no more at these distances."},
		{bounds.Bound{Count: 90}, "86 set. Nobody can set more than 90 here, because the levels hold no more at these distances."},
		{bounds.Bound{Count: 100, Value: 90}, "86 set, 80 % of the value. Nobody can set more than 90 % here, because the levels hold no more at these distances."},
		{bounds.Bound{Count: 100, Value: 100}, "86 set. Nothing shows that the other 14 cannot go in at these distances."},
	} {
		require.Equal(t, tt.want, SayBound(tt.b, p))
	}
	p.Set = 100
	require.Empty(t, SayBound(bounds.Bound{Count: 100}, p))
}

// Where what goes in is known to the pot, the bound is that. Pots of 100, with
// their allowance 103, keep 6 apart: 109 from middle to middle; their feet,
// 51.5 and 6 inside the edge, are on a line on a board 115 deep. So five go on
// one of 4 x 109 + 115 = 551, and where two levels fit to the mm, ten.
func TestBoundOfRowsOnBoards(t *testing.T) {
	for _, tt := range []struct {
		long, height float64
		want         int
	}{
		{551, 25 + 15 + 100 + 25, 5},
		{550.9, 25 + 15 + 100 + 25, 4},
		{551, 25 + 15 + 112 + 15 + 100 + 25, 10},
	} {
		l := &layout.Load{Firing: layout.Firing{Stage: layout.Glaze, Cone: "6"}}
		l.Kiln = layout.Kiln{Chamber: layout.Shape{Kind: layout.Rectangle, Width: tt.long + 50, Depth: 115 + 50}, Height: tt.height}
		l.Furniture.Shelves = []layout.ShelfKind{{Name: "board", Thick: 15, Count: 4,
			Shape: layout.Shape{Kind: layout.Rectangle, Width: tt.long, Depth: 115}}}
		section := layout.Section{Kind: layout.SquareSection, Width: 30}
		for _, h := range []float64{12, 25, 100} {
			l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Height: h, Section: section, Count: 6})
		}
		l.Ware = []layout.Ware{cylinder("pot", 30, 98, 100)}
		b, err := Bound(l)
		require.NoError(t, err)
		require.Equal(t, tt.want, b.Count, "%g long, %g high", tt.long, tt.height)
	}
}

// TestPostsAndPotsShareNothingInASlice: on levels deep below the rim pots keep a
// wider gap from each other, and the same distance from posts; what a slice
// counts of the two together is no more than that distance.
func TestPostsAndPotsShareNothingInASlice(t *testing.T) {
	c, err := newContext(sample(t, "studio"))
	require.NoError(t, err)
	beside, shallow, deep := c.limits[layout.PotToPost].Plan, c.limits[layout.PotToPot].Plan, c.limits[layout.PotToPotDeep].Plan
	require.Greater(t, deep, shallow)
	for _, gap := range []float64{0, shallow, deep, 4 * beside} {
		for _, s := range c.boundSlices(gap) {
			require.Equal(t, c.postArea(gap/2), s.Post)
		}
		// A square of 38 grown by g covers 38^2 + 4*38*g + pi*g^2.
		want := 0.0
		if g := beside - gap/2; g >= 0 {
			want = 38*38 + 4*38*g + math.Pi*g*g
		}
		require.InDelta(t, want, c.postArea(gap/2), 1e-9, "gap %g", gap)
	}
}
