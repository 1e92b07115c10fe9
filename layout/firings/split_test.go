package firings

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/planner"
)

// TestConesAndStagesPart splits a mixed table: each firing is of one cone and
// one stage, and the last pots go in the last firing.
func TestConesAndStagesPart(t *testing.T) {
	a := split(t, one(kiln("6", mugs("mug", 20, "6"), mugs("dish", 4, "04"), mugs("pinch pot", 5, "6", raw), mugs("tower", 1, "6", func(w *layout.Ware) { w.Height = 400 }))))
	classes := map[string]int{}
	for _, f := range a.Firings {
		classes[SayFiring(f.Load.Firing, measure.MM)]++
		for _, w := range f.Load.Ware {
			require.Equal(t, map[string]string{"mug": glaze6, "dish": glaze04, "pinch pot": bisque04}[w.Name], SayFiring(f.Load.Firing, measure.MM), w.Name)
		}
	}
	require.Equal(t, map[string]int{glaze6: 2, glaze04: 1, bisque04: 1}, classes)
	require.Len(t, a.Rest, 1)
	require.Contains(t, a.Rest[0].Reason, "the kiln takes", "too tall for it, whatever the levels")
	require.Equal(t, "Week, firing 1 of 4", a.Firings[0].Load.Title)
}

func TestMustGoIsFiredFirst(t *testing.T) {
	a := split(t, one(kiln("6", mugs("mug", 30, "6", since("2026-01-01")), mugs("dish", 3, "04", must))))
	require.Equal(t, glaze04, SayFiring(a.Firings[0].Load.Firing, measure.MM), "a few that must go before a full kiln")
	require.Equal(t, "All of them must go.", a.Firings[0].Why[0])
	require.Less(t, a.Firings[0].Fill, 0.6)

	// Within one class: the must-go row is in the first firing whatever it is worth.
	a = split(t, one(kiln("6", mugs("mug", 30, "6"), mugs("bottle", 2, "6", must, func(w *layout.Ware) { w.Height, w.Value = 180, 0.01 }))))
	require.Equal(t, 2, holds(a, "bottle")[0])
}

// TestTheLongestWaitGoesFirst has alike pots of two dates, the younger listed
// first: all of the older are in before the younger.
func TestTheLongestWaitGoesFirst(t *testing.T) {
	a := split(t, one(kiln("6", mugs("new", 14, "6", since("2026-10-20")), mugs("old", 14, "6", since("2026-09-01")), mugs("undated", 9, "6"))))
	require.Greater(t, len(a.Firings), 1)
	old, young := holds(a, "old"), holds(a, "new")
	require.Equal(t, 14, old[0])
	require.Zero(t, holds(a, "undated")[0])
	require.Positive(t, young[0]+young[1])

	// Two classes that each fill more than the kiln: the older one is first.
	a = split(t, one(kiln("6", mugs("mug", 40, "6", since("2026-10-20")), mugs("dish", 40, "04", since("2026-10-19")))), func(a *Asked) { a.Most = 2 })
	require.Equal(t, glaze04, SayFiring(a.Firings[0].Load.Firing, measure.MM))
}

// TestOldOnesOfAnotherHeightGoFirst: bottles that waited longest need a level of
// their own; the firing is a little less full with them.
func TestOldOnesOfAnotherHeightGoFirst(t *testing.T) {
	bottle := mugs("bottle", 2, "6", since("2026-08-01"), func(w *layout.Ware) { w.Height = 118 })
	low := func(w *layout.Ware) { w.Height = 84 }
	a := split(t, one(kiln("6", mugs("mug", 40, "6", since("2026-10-20"), low), bottle)))
	require.Equal(t, 2, holds(a, "bottle")[0])
}

// TestTheOldestOfManySizesGoFirst has rows of many sizes and dates, and more
// than two kilns full of them: the oldest rows are in the first firing.
func TestTheOldestOfManySizesGoFirst(t *testing.T) {
	var rows []layout.Ware
	for i, size := range [][2]float64{{60, 70}, {90, 110}, {84, 80}, {70, 140}, {50, 60}, {95, 85}, {100, 70}, {60, 120}} {
		date := "2026-0" + string(rune('8'-i)) + "-10" // the later in the list, the longer it waits
		rows = append(rows, mugs("row "+string(rune('a'+i)), 6, "6", since(date), func(w *layout.Ware) { w.Height, w.Across = size[0], size[1] }))
	}
	a := split(t, one(kiln("6", rows...)))
	require.Greater(t, len(a.Firings), 2)
	require.Equal(t, 6, holds(a, "row h")[0])
	next := holds(a, "row g")
	require.Equal(t, 6, next[0]+next[1])
	require.Positive(t, holds(a, "row a")[len(a.Firings)-1], "the youngest of all go last")
}

// TestFullBeforePartFull: two pots for cone 04 that waited a day longer do not
// go before a full kiln, and their firing says how full it is.
func TestFullBeforePartFull(t *testing.T) {
	a := split(t, one(kiln("6", mugs("dish", 2, "04", since("2026-10-01")), mugs("mug", 40, "6", since("2026-10-02")))))
	require.Equal(t, glaze6, SayFiring(a.Firings[0].Load.Firing, measure.MM))
	require.Equal(t, 1.0, a.Firings[0].Fill)
	for _, f := range a.Firings {
		if f.Load.Firing.Cone == "04" {
			require.Less(t, f.Fill, 0.3)
			require.Contains(t, f.Why[len(f.Why)-1], "(an estimate): wait for more ware for cone 04, or fire it as it is.")
		}
	}
}

// TestUnglazedGoesWhereItIsEmptier: unglazed ware that suits both firings fills
// the less full.
func TestUnglazedGoesWhereItIsEmptier(t *testing.T) {
	planter := mugs("planter", 4, "10", func(w *layout.Ware) { w.Glaze, w.Flags.Unglazed = layout.Material{}, true })
	a := split(t, one(kiln("6", mugs("mug", 12, "6"), mugs("dish", 3, "04"), planter)))
	require.Len(t, a.Firings, 2)
	for _, f := range a.Firings {
		if f.Load.Firing.Cone == "04" {
			require.NotNil(t, f.Load.WareOf(layout.Pot{Ware: "planter"}))
		} else {
			require.Nil(t, f.Load.WareOf(layout.Pot{Ware: "planter"}))
		}
	}
	require.Empty(t, a.Rest)
}

// TestFumePartsFromWhatTakesIt: a list larger than the kiln keeps copper reds
// and tin whites in two firings.
func TestFumePartsFromWhatTakesIt(t *testing.T) {
	red := mugs("red", 16, "6", func(w *layout.Ware) { w.Flags.Fuming = true })
	white := mugs("white", 16, "6", func(w *layout.Ware) { w.Flags.FumeShy = true })
	a := split(t, one(kiln("6", red, white)))
	reds, whites := holds(a, "red"), holds(a, "white")
	require.Positive(t, reds[0])
	require.Zero(t, whites[0])
}

// TestSameBytes: the same studio, seed and work give the same firings.
func TestSameBytes(t *testing.T) {
	text := func() string {
		out := ""
		s := Studio{Kilns: []Kiln{{"Heron", kiln("6", mugs("mug", 20, "6"), mugs("dish", 5, "04"))}, {"Wren", kiln("04", mugs("mug", 6, "04"))}}, Share: true, Together: true}
		for _, f := range split(t, s).Firings {
			out += string(document.Format(f.Load))
			for _, w := range f.Why {
				out += w + "\n"
			}
		}
		return out
	}
	require.Equal(t, text(), text())
}

// TestNoWorseThanBruteForce plans every choice of 7 pots for the first
// of two firings: none that goes in whole is worth more than the split's first.
func TestNoWorseThanBruteForce(t *testing.T) {
	small := kiln("6", mugs("mug", 4, "6"), mugs("bowl", 2, "6", func(w *layout.Ware) { w.Height, w.Across = 60, 140 }), mugs("bottle", 1, "6", func(w *layout.Ware) { w.Height = 150 }))
	small.Furniture.Shelves[0].Count = 1
	small.Kiln.Chamber.Across = 330
	small.Furniture.Shelves[0].Shape.Across = 270
	a := split(t, one(small))
	best := 0.0
	for mug := range 5 {
		for bowl := range 3 {
			for bottle := range 2 {
				l := small.Clone()
				l.Ware = nil
				for i, n := range []int{mug, bowl, bottle} {
					if w := small.Ware[i]; n > 0 {
						w.Count = n
						l.Ware = append(l.Ware, w)
					}
				}
				if len(l.Ware) == 0 {
					continue
				}
				s, err := planner.Start(l, 1)
				require.NoError(t, err)
				s.Step(quick)
				if p, ok := s.Best(); ok && p.Set == p.Of {
					best = max(best, p.Value)
				}
			}
		}
	}
	require.GreaterOrEqual(t, a.Firings[0].Value, best-1e-9)
}

func TestStopsWhenTold(t *testing.T) {
	_, err := Split(one(kiln("6", mugs("mug", 40, "6"))), Asked{Seed: 1, Work: quick, Tell: func(p Progress) bool { return p.Firings < 1 }})
	require.ErrorIs(t, err, Stopped{})
}

func TestMostFirings(t *testing.T) {
	a := split(t, one(kiln("6", mugs("mug", 60, "6"))), func(a *Asked) { a.Most = 1 })
	require.Len(t, a.Firings, 1)
	require.Equal(t, "They wait after 1 firing.", a.Rest[0].Reason)
	require.Equal(t, 1, a.AtLeast, "of the pots that are fired")
}

func TestAStudioOfNothing(t *testing.T) {
	_, err := Split(Studio{}, Asked{})
	require.EqualError(t, err, "there is no kiln; name a load")
	_, err = Split(Studio{Kilns: []Kiln{{"A", kiln("6")}}, UpTo: "66"}, Asked{})
	require.EqualError(t, err, "cone 66 is not on the chart")
	a := split(t, one(kiln("6")))
	require.Empty(t, a.Firings)
	require.Nil(t, a.RestLoad(one(kiln("6"))))
	bare := kiln("6", mugs("mug", 3, "6"))
	bare.Furniture = layout.Furniture{}
	a = split(t, one(bare))
	require.Contains(t, a.Rest[0].Reason, "there are no posts; add a row")
}
