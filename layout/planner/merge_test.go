package planner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
)

// Plans of two searches: the one that was told stays, no two are stacked alike,
// and the order of the others is of no account.
func TestMergePicksWhatDiffers(t *testing.T) {
	t.Parallel()
	l := sample(t, "newcomer")
	one, two := searched(t, l, 1, 9000), searched(t, l, 8, 9000)
	told, ok := one.Best()
	require.True(t, ok)
	a, b := one.Plans(), two.Plans()
	all := append(append([]*Plan(nil), a...), b...)
	got := Merge(told, all...)
	require.NotEmpty(t, got)
	require.LessOrEqual(t, len(got), mostPlans)
	require.GreaterOrEqual(t, len(got), min(len(a), len(b)))
	text := string(document.Format(told.Load))
	stands, seen := 0, map[string]bool{}
	for i, p := range got {
		requireSound(t, p)
		require.Equal(t, i > 0, p.Differs != "", p.Differs)
		require.False(t, i > 0 && p.beats(got[i-1]), "the best first")
		require.GreaterOrEqual(t, p.Value, worthWhile*told.Value-1e-9)
		key := p.way.split + p.way.heights
		require.False(t, seen[key], key)
		seen[key] = true
		if string(document.Format(p.Load)) == text {
			stands++
		}
	}
	require.Equal(t, 1, stands, "the plan that was told is among them once")

	turned := append(append([]*Plan(nil), b...), a...)
	again := Merge(told, turned...)
	require.Len(t, again, len(got))
	require.Equal(t, got[0].Set, again[0].Set)
	require.Equal(t, text, string(document.Format(told.Load)), "nothing is changed")
}

// Divisions come before numbers of levels, those before heights; a plan that
// holds clearly less, or leaves a must, is not shown.
func TestMergeOrdersWhatDiffers(t *testing.T) {
	plan := func(split string, levels int, heights string, value float64) *Plan {
		return &Plan{Value: value, weight: value, musts: 1, way: way{split: split, levels: levels, heights: heights}}
	}
	told := plan("two sides", 7, "a", 100)
	heights, levels, split := plan("two sides", 7, "b", 99), plan("two sides", 6, "c", 90), plan("full shelves", 4, "d", 85)
	ways := func(plans []*Plan) (out []string) {
		for _, p := range plans {
			out = append(out, p.way.heights)
		}
		return out
	}
	require.Equal(t, []string{"a", "c", "d"}, ways(Merge(told, heights, levels, split)))
	require.Equal(t, []string{"a", "b", "c"}, ways(Merge(told, heights, levels)))
	require.Equal(t, []string{"a"}, ways(Merge(told, plan("two sides", 7, "a", 101), plan("full shelves", 4, "d", 70))))
	better := plan("full shelves", 4, "d", 104)
	require.Equal(t, []string{"d", "a"}, ways(Merge(told, better)))
	left := plan("full shelves", 4, "d", 104)
	left.musts = 0
	require.Equal(t, []string{"a"}, ways(Merge(told, left)))
	require.Empty(t, Merge(told, better)[0].Differs)
	require.Equal(t, "Two sides instead of full shelves.", Merge(told, better)[1].Differs)
}

// TestMergeKeepsTheWishes: a plan that goes against a wish comes after one that
// keeps it, whatever it holds.
func TestMergeKeepsTheWishes(t *testing.T) {
	kept := &Plan{Value: 10, weight: 10, musts: 1, way: way{split: "a", levels: 2, heights: "1"}}
	deaf := &Plan{Value: 12, weight: 12, musts: 1, deaf: 1, way: way{split: "b", levels: 2, heights: "1"}}
	require.Equal(t, 10.0, Merge(deaf, kept)[0].Value)
	roams := &Plan{Value: 10.1, weight: 10.1, musts: 1, roams: 1, way: way{split: "b", levels: 2, heights: "1"}}
	require.Equal(t, 10.0, Merge(roams, kept)[0].Value)
}
