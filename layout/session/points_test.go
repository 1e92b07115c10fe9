package session

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestPointsOfAProfileComeAndGo(t *testing.T) {
	s := sample(t, "studio")
	first, err := s.Profile("mug")
	require.NoError(t, err)
	n := len(first.Knots)

	more, err := s.AddPoint(n - 1) // over the rim there is none: it goes under it
	require.NoError(t, err)
	require.Len(t, more.Knots, n+1)
	for i := 1; i < len(more.Knots); i++ {
		require.Greater(t, more.Knots[i].Height, more.Knots[i-1].Height)
	}
	require.Equal(t, first.Height, more.Height)
	require.Equal(t, first.Across, more.Across)

	less, err := s.RemovePoint(n - 1)
	require.NoError(t, err)
	require.Equal(t, first.Knots, less.Knots)

	for _, ends := range []int{0, n - 1} {
		_, err = s.RemovePoint(ends)
		require.ErrorContains(t, err, "the foot and the rim stay")
	}
	_, err = s.AddPoint(99)
	require.Error(t, err)
	for range mostPoints + 10 {
		if _, err = s.AddPoint(0); err != nil {
			break
		}
	}
	require.Error(t, err, "points come to an end")
	state, err := s.Keep()
	require.NoError(t, err)
	require.Equal(t, "draw the profile of mug", state.Undo)
}
