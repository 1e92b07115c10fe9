package firings

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
	"threepost/layout/document"
)

// two is a studio of two kilns, of which the second is a little smaller.
func two(a, b *layout.Load) Studio {
	b.Kiln.Chamber.Across = 380
	return Studio{Kilns: []Kiln{{"Heron", a}, {"Wren", b}}}
}

// TestLawKilnsThatBurnTogetherShare: in every round the files of all kilns list
// no more pieces than the box has, and each load stands on its own pieces.
func TestLawKilnsThatBurnTogetherShare(t *testing.T) {
	runs := 0
	rapid.Check(t, func(r *rapid.T) {
		if runs++; runs > 3 { // each draws whole plans: a few are enough
			return
		}
		a := kiln("6", mugs("mug", rapid.IntRange(1, 16).Draw(r, "mugs"), "6"), mugs("dish", rapid.IntRange(1, 6).Draw(r, "dishes"), "04"))
		b := kiln("6", mugs("cup", rapid.IntRange(1, 8).Draw(r, "cups"), "6"))
		for _, l := range []*layout.Load{a, b} {
			for i := range l.Furniture.Posts {
				l.Furniture.Posts[i].Count = rapid.IntRange(3, 7).Draw(r, "posts")
			}
			l.Furniture.Shelves[0].Count = rapid.IntRange(1, 3).Draw(r, "shelves")
		}
		s := two(a, b)
		s.Share, s.Together = true, true
		answer := split(t, s)
		box := pieces((&splitter{studio: s}).oneBox())
		rounds := map[int][]layout.Furniture{}
		for _, f := range answer.Firings {
			rounds[f.Round] = append(rounds[f.Round], f.Load.Furniture)
			require.Zero(t, f.Report.Problems, "nothing is used that is not owned: %v", f.Report.Findings)
		}
		for round, all := range rounds {
			for key, n := range pieces(all...) {
				require.LessOrEqual(t, n, box[key], "round %d, %v", round, key)
			}
		}
	})
}

// TestOneAfterAnotherUsesAllAgain: without a round in common both kilns have the
// whole box.
func TestOneAfterAnotherUsesAllAgain(t *testing.T) {
	s := two(kiln("6", mugs("mug", 20, "6")), kiln("6"))
	s.Share = true
	a := split(t, s)
	for i, f := range a.Firings {
		require.Equal(t, i+1, f.Round)
		require.Equal(t, pieces(s.Kilns[0].Load.Furniture), pieces(f.Load.Furniture))
	}
}

// TestTogetherWithTheirOwn: two kilns with furniture of their own are both full
// in the first round.
func TestTogetherWithTheirOwn(t *testing.T) {
	s := two(kiln("6", mugs("mug", 60, "6")), kiln("6"))
	s.Together = true
	a := split(t, s, func(a *Asked) { a.Most = 2 })
	require.Len(t, a.Firings, 2)
	require.Equal(t, []int{1, 1}, []int{a.Firings[0].Round, a.Firings[1].Round})
	require.NotEqual(t, a.Firings[0].Kiln, a.Firings[1].Kiln)
	for _, f := range a.Firings {
		require.Equal(t, 1.0, f.Fill)
	}
}

// TestRowsOfOneNameAreTwoRows keeps mugs of two loads apart.
func TestRowsOfOneNameAreTwoRows(t *testing.T) {
	s := two(kiln("6", mugs("mug", 3, "6")), kiln("6", mugs("mug", 2, "6", func(w *layout.Ware) { w.Silhouette = "" }), mugs("wren mug 2", 1, "6")))
	s.Kilns[1].Load.Wishes.LeaveOut = []string{"mug"}
	a := split(t, s)
	require.Equal(t, []map[string]string{{}, {"mug": "other wren mug"}}, a.Renamed)
	require.Equal(t, layout.Mug, a.Rest[0].Ware.Silhouette, "what the name said is kept")
	require.Equal(t, "Left out as wished.", a.Rest[0].Reason)
	require.Equal(t, []string{"other wren mug"}, a.RestLoad(s).Wishes.LeaveOut)
	require.Contains(t, a.Notes[0], `"mug" of Wren is called "other wren mug"`)
}

// TestWishesGoWithTheRows: what a load wishes of a row holds for the row under its
// new name, in the firings that have it and in no other.
func TestWishesGoWithTheRows(t *testing.T) {
	s := two(kiln("6", mugs("mug", 3, "6")), kiln("6", mugs("mug", 2, "6"), mugs("cup", 40, "6")))
	s.Kilns[1].Load.Wishes.Off = []layout.OffLevel{{Ware: "mug", Level: layout.TopLevel}, {Ware: "cup", Level: layout.TopLevel}}
	a := split(t, s)
	name := a.Renamed[1]["mug"]
	require.NotEmpty(t, name)
	kept := 0
	for _, f := range a.Firings {
		for _, o := range f.Load.Wishes.Off {
			require.Equal(t, 1, f.Kiln, "the other kiln's load wished nothing")
			require.NotNil(t, f.Load.WareOf(layout.Pot{Ware: o.Ware}), o.Ware)
			require.NotEqual(t, "mug", o.Ware)
			kept++
		}
		_, err := document.Parse("firing", document.Format(f.Load))
		require.NoError(t, err)
	}
	require.Positive(t, kept)
}

// TestWhatStaysInAKilnStays: a locked pot is in the first firing of its kiln,
// where it stood, and in no other.
func TestWhatStaysInAKilnStays(t *testing.T) {
	l := kiln("6", mugs("mug", 14, "6"))
	l.Towers = []layout.Tower{{Name: "base", On: []layout.Support{{}},
		Lines: []layout.Line{{At: [2]float64{-120, 0}}, {At: [2]float64{60, 104}}, {At: [2]float64{60, -104}}},
		Levels: []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: []layout.MakeUp{{{Height: 25}}},
			Set: []layout.Placement{{Pot: layout.Pot{Ware: "mug", Number: 9}, At: [2]float64{10, 20}, Locked: true}}}}}}
	a := split(t, one(l))
	require.Greater(t, len(a.Firings), 1)
	found := false
	for _, p := range a.Firings[0].Load.Towers[0].Levels[0].Set {
		found = found || p.Locked && p.At == [2]float64{10, 20} && p.Pot.Ware == "mug"
	}
	require.True(t, found, "%+v", a.Firings[0].Load.Towers[0].Levels[0].Set)
	require.Zero(t, a.AtLeast, "what is locked may keep other distances")
	for _, f := range a.Firings[1:] {
		for _, tw := range f.Load.Towers {
			for _, v := range tw.Levels {
				for _, p := range v.Set {
					require.False(t, p.Locked)
				}
			}
		}
	}
}

// TestAKilnThatCannotBeFiredSaysWhy: a locked pot of clay for a cooler cone keeps
// its kiln from being fired at all, and what waits for it says so.
func TestAKilnThatCannotBeFiredSaysWhy(t *testing.T) {
	l := kiln("6", mugs("mug", 4, "6"), mugs("dish", 2, "04"))
	l.Towers = []layout.Tower{{Name: "base", On: []layout.Support{{}},
		Lines: []layout.Line{{At: [2]float64{-120, 0}}, {At: [2]float64{60, 104}}, {At: [2]float64{60, -104}}},
		Levels: []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: []layout.MakeUp{{{Height: 25}}},
			Set: []layout.Placement{{Pot: layout.Pot{Ware: "dish", Number: 1}, At: [2]float64{10, 20}, Locked: true}}}}}}
	a := split(t, one(l))
	require.Empty(t, a.Firings)
	for _, r := range a.Rest {
		require.Contains(t, r.Reason, "has a problem of its own. Check the load first", r.Ware.Name)
	}
}
