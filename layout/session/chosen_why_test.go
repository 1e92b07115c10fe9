package session

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/measure"
)

// TestAChosenLevelTellsWhyItHasItsHeight, in the person's units and words; what
// is no level tells nothing of it.
func TestAChosenLevelTellsWhyItHasItsHeight(t *testing.T) {
	s := sample(t, "newcomer")
	c, err := s.Select(Pick{Tower: "base", Level: 1})
	require.NoError(t, err)
	require.Equal(t, []string{
		"The bottom stands on 6×25: plans keep 25 over the floor.",
		"The bottom carries 3×(100+13+6) under left 1: one mug is 102 high and wants 12 above it; the posts make nothing between 113 and 119.",
		"The bottom carries 3×(100+13+6) under right 1: one mug is 102 high and wants 12 above it; the posts make nothing between 113 and 119.",
	}, c.Why)
	_, err = s.SetUnits("in")
	require.NoError(t, err)
	c, err = s.Select(Pick{Tower: "base", Level: 1})
	require.NoError(t, err)
	require.Contains(t, c.Why[0], `stands on 6×1: plans keep 1 over the floor.`)
	s.SetWords(measure.UK)
	c, err = s.Select(Pick{Tower: "base", Level: 1})
	require.NoError(t, err)
	require.Contains(t, c.Why[1], "the props make nothing between")

	c, err = s.Select(Pick{Pot: "vase"})
	require.NoError(t, err)
	require.Empty(t, c.Why)
}

// TestEveryLevelOfTheSamplesTellsWhy: one sentence at least, and what a probe or
// a spyhole decided only once.
func TestEveryLevelOfTheSamplesTellsWhy(t *testing.T) {
	for _, name := range samples() {
		s := sample(t, name)
		for _, l := range s.State().Levels {
			c, err := s.Select(Pick{Tower: l.Tower, Level: l.Number})
			require.NoError(t, err)
			require.NotEmpty(t, c.Why, "%s %s", name, l.Name)
			seen := map[string]bool{}
			for _, w := range c.Why {
				require.False(t, seen[w], w)
				seen[w] = true
			}
		}
	}
}
