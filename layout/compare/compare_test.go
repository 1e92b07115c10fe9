package compare

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/edit"
	"threepost/layout/stacks"
)

// sample reads a planned load of testdata.
func sample(t *testing.T, name string) *layout.Load {
	t.Helper()
	text, err := os.ReadFile("../../testdata/loads/reference/" + name + ".toml")
	require.NoError(t, err)
	l, err := document.Parse(name, text)
	require.NoError(t, err)
	return l
}

func built(t *testing.T, l *layout.Load) *stacks.Built {
	t.Helper()
	b, err := stacks.Build(l)
	require.NoError(t, err)
	return b
}

// changed is a load after edits.
func changed(t *testing.T, l *layout.Load, edits ...layout.Edit) *layout.Load {
	t.Helper()
	out, err := edit.Apply(l, edits...)
	require.NoError(t, err)
	return out
}

var names = []string{"studio", "newcomer", "small-round", "oval", "front-loader", "bisque"}

// TestLawNothingDiffersFromItself, whatever the load.
func TestLawNothingDiffersFromItself(t *testing.T) {
	for _, name := range names {
		b := built(t, sample(t, name))
		require.Empty(t, Differing(b, b), name)
		told := Tell([]Plan{{b, "two sides"}, {b, "two sides"}})
		require.Equal(t, "Other places", told[1].Title)
		require.Empty(t, told[1].Says)
	}
}

func TestLevelsThatDiffer(t *testing.T) {
	l := sample(t, "small-round")
	b := built(t, l)
	tower := l.Towers[0].Name
	top := len(l.Towers[0].Levels)

	// One pot away is the same level; most of them away is another.
	set := l.Towers[0].Levels[0].Set
	pot := ""
	var all []layout.Edit
	for _, p := range set {
		if p.Pot.Number > 0 {
			pot = p.Pot.String()
			all = append(all, layout.Edit{Act: layout.Withdraw, Pot: pot})
		}
	}
	require.Empty(t, Differing(built(t, changed(t, l, layout.Edit{Act: layout.Withdraw, Pot: pot})), b))
	require.Equal(t, []int{0}, Differing(built(t, changed(t, l, all...)), b))

	// A level less changes the one under it, which has another ceiling now.
	less := built(t, changed(t, l, layout.Edit{Act: layout.RemoveLevel, Tower: tower, Level: top}))
	require.Equal(t, []int{top - 2}, Differing(less, b))
	require.Len(t, Differing(b, less), 2, "that level, and the one that is gone")
}

// TestTitlesTellWhatDiffers, one line each.
func TestTitlesTellWhatDiffers(t *testing.T) {
	l := sample(t, "small-round")
	b := built(t, l)
	tower, top := l.Towers[0].Name, len(l.Towers[0].Levels)
	fewer := built(t, changed(t, l, layout.Edit{Act: layout.RemoveLevel, Tower: tower, Level: top}))
	first := Tell([]Plan{{b, "full shelves"}})[0]
	require.Equal(t, "Full shelves, 4 levels", first.Title)
	require.Regexp(t, `^The \d+ .* stand on .*\.$`, first.Says)
	require.Equal(t, "Full below, sides above", Tell([]Plan{{b, "full below, sides above"}})[0].Title)
	require.Regexp(t, `^4 levels\. `, Tell([]Plan{{b, "full below, sides above"}})[0].Says)

	told := Tell([]Plan{{b, "full shelves"}, {fewer, "full shelves"}, {fewer, "two sides"}})
	require.Equal(t, "One level fewer", told[1].Title)
	require.Contains(t, told[1].Says, "wait", "what stood on it waits")
	require.Equal(t, "Two sides", told[2].Title)
	require.Contains(t, told[2].Says, "3 levels instead of 4.")
	require.Equal(t, "One level more", Tell([]Plan{{fewer, ""}, {b, ""}})[1].Title)
	require.Contains(t, Tell([]Plan{{fewer, ""}, {b, ""}})[1].Says, "in", "what waited goes in")

	// The same posts in another order.
	swapped := built(t, changed(t, l, layout.Edit{Act: layout.SwapLevels, Tower: tower, Level: 1, OtherLevel: 2}))
	told = Tell([]Plan{{b, "full shelves"}, {swapped, "full shelves"}})
	require.NotEqual(t, "Other places", told[1].Title)
}

// TestLawTitlesAreSentencesOfTheTrade: no two titles are alike, each begins with
// a capital, each sentence ends with a full stop.
func TestLawTitlesAreSentencesOfTheTrade(t *testing.T) {
	for _, name := range names {
		l := sample(t, name)
		plans := []Plan{{built(t, l), "full shelves"}}
		for i := range l.Towers {
			v := len(l.Towers[i].Levels)
			if v < 2 {
				continue
			}
			b, err := stacks.Build(changed(t, l, layout.Edit{Act: layout.RemoveLevel, Tower: l.Towers[i].Name, Level: v}))
			if err == nil {
				plans = append(plans, Plan{b, "full shelves"})
			}
		}
		seen := map[string]bool{}
		for _, w := range Tell(plans) {
			require.False(t, seen[w.Title], "%s: %s", name, w.Title)
			seen[w.Title] = true
			require.Equal(t, strings.ToUpper(w.Title[:1]), w.Title[:1])
			if w.Says != "" {
				require.True(t, strings.HasSuffix(w.Says, "."), w.Says)
				require.Equal(t, capital(w.Says), w.Says)
			}
		}
	}
}

func TestFurnitureAndWhatWaits(t *testing.T) {
	l := sample(t, "newcomer")
	b := built(t, l)
	posts, shelves := 0, 0
	for _, f := range stacks.Used(b) {
		switch f.Kind {
		case stacks.FetchPost, stacks.FetchSpacer:
			posts += f.Count
		case stacks.FetchShelf:
			shelves += f.Count
		}
	}
	says := Furniture(b)
	require.Contains(t, says, " half shelves")
	require.Regexp(t, `, \d+ posts$`, says)
	require.Positive(t, posts)
	require.Positive(t, shelves)
	empty := l.Clone()
	empty.Towers = nil
	require.Equal(t, "none", Furniture(built(t, empty)))
	require.Equal(t, "12 mugs, 6 bowls, 1 vase", Waits(built(t, empty)))

	name := l.Furniture.Shelves[0].Name
	for i := range l.Towers {
		for v := range l.Towers[i].Levels {
			for k := range l.Towers[i].Levels[v].Shelves {
				if s := &l.Towers[i].Levels[v].Shelves[k]; s.Kind == name {
					s.Kind = "full shelf"
				}
			}
		}
	}
	l.Furniture.Shelves[0].Name = "full shelf"
	require.Equal(t, says, Furniture(built(t, l)), "the word is not said twice")
}
