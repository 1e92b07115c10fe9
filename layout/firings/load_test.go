package firings

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/planner"
	"threepost/layout/stacks"
)

// quick is work enough for the few pots of these tests.
const quick = 3000

// kiln is a small top-loader of 400 mm that is fired to a cone, with ware.
func kiln(cone measure.Cone, ware ...layout.Ware) *layout.Load {
	square := func(height float64, count int) layout.PostKind {
		return layout.PostKind{Height: height, Section: layout.Section{Kind: layout.SquareSection, Width: 30}, Count: count}
	}
	return &layout.Load{
		Title: "Week", Units: measure.MM,
		Firing: layout.Firing{Stage: layout.Glaze, Cone: cone},
		Kiln:   layout.Kiln{Chamber: layout.Shape{Kind: layout.Round, Across: 400}, Height: 300, Opens: layout.Top},
		Furniture: layout.Furniture{
			Shelves: []layout.ShelfKind{{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: 340}, Thick: 14, Count: 2}},
			Posts:   []layout.PostKind{square(25, 3), square(100, 3), square(125, 3)},
		},
		Ware: ware,
	}
}

// mugs is a row for a cone, glazed and of clay for it.
func mugs(name string, count int, cone measure.Cone, change ...func(*layout.Ware)) layout.Ware {
	w := layout.Ware{Name: name, Count: count, Silhouette: layout.Tumbler, Height: 90, Across: 80,
		Clay: layout.Material{Cone: cone}, Glaze: layout.Material{Name: "oat", Cone: cone}}
	for _, c := range change {
		c(&w)
	}
	return w
}

func must(w *layout.Ware) { w.Must = layout.MustGo }

func since(date string) func(*layout.Ware) { return func(w *layout.Ware) { w.Since = date } }

func raw(w *layout.Ware) { w.Dry, w.Glaze = layout.BoneDry, layout.Material{} }

// one is a studio of one kiln.
func one(l *layout.Load) Studio { return Studio{Kilns: []Kiln{{"Heron", l}}} }

// split splits and holds the answer to what is always true of one.
func split(t *testing.T, s Studio, change ...func(*Asked)) *Answer {
	t.Helper()
	asked := Asked{Seed: 1, Work: quick}
	for _, c := range change {
		c(&asked)
	}
	a, err := Split(s, asked)
	require.NoError(t, err)
	sound(t, s, a)
	return a
}

// sound checks that every pot is in one firing or waits, and that every firing
// stands, passes the check and holds nothing but what is set in it.
func sound(t *testing.T, s Studio, a *Answer) {
	t.Helper()
	whole, have := 0, 0
	for _, k := range s.Kilns {
		for _, w := range k.Load.Ware {
			whole += w.Count
		}
	}
	for i, f := range a.Firings {
		text := document.Format(f.Load)
		l, err := document.Parse("firing.toml", text)
		require.NoError(t, err, "firing %d", i+1)
		b, err := stacks.Build(l)
		require.NoError(t, err)
		report := clearance.Check(b)
		require.Zero(t, report.Problems, "firing %d: %v", i+1, report.Findings)
		pots, set := 0, 0
		for _, w := range l.Ware {
			pots += w.Count
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
		require.Equal(t, pots, set, "firing %d holds what is set in it, all of it", i+1)
		require.Equal(t, f.Set, set)
		require.Positive(t, set)
		value, err := planner.Value(l)
		require.NoError(t, err)
		require.InDelta(t, value, f.Value, 1e-6)
		require.Greater(t, f.Fill, 0.0)
		require.LessOrEqual(t, f.Fill, 1.0)
		have += set
	}
	require.Equal(t, have, a.Set)
	for _, r := range a.Rest {
		require.NotEmpty(t, r.Reason, r.Ware.Name)
		have += r.Ware.Count
	}
	require.Equal(t, whole, have, "no pot is lost")
	require.Equal(t, whole, a.Of)
	require.LessOrEqual(t, a.AtLeast, len(a.Firings), "a bound is never above what was found")
}

// holds is how many pots of a row each firing has.
func holds(a *Answer, ware string) []int {
	var out []int
	for _, f := range a.Firings {
		n := 0
		if w := f.Load.WareOf(layout.Pot{Ware: ware}); w != nil {
			n = w.Count
		}
		out = append(out, n)
	}
	return out
}
