package bounds

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// Where what goes in is known to the pot, the bound is that: a term too little
// anywhere would lie below it.

// A pot as wide as its shelf stands in the middle of it: its share of the area
// reaches past the edge by half a gap.
func TestMostOfAPotAsWideAsItsShelf(t *testing.T) {
	l := kiln(t, 132, 3)
	l.Places[0].Outlines = []plane.Outline{outline(t)(plane.Round(94))}
	l.Kinds[0].Room = 47
	require.Equal(t, 1, Most(l).Count)
	l.Kinds[0].Room = 47.1
	require.Zero(t, Most(l).Count)
}

// Pots in a row on a board as deep as they are: four go on 394, and five on
// 400 + 94 = 494, where nothing is to spare. Oler's inequality is tight there.
func TestMostOfARowOnABoard(t *testing.T) {
	for _, tt := range []struct {
		long float64
		want int
	}{{94, 1}, {193.9, 1}, {194, 2}, {394, 4}, {493.9, 4}, {494, 5}} {
		l := kiln(t, 150, 9)
		l.Places[0].Outlines = []plane.Outline{outline(t)(plane.Rectangle(tt.long, 94))}
		l.Kinds[0].Room = 47
		require.Equal(t, tt.want, Most(l).Count, "%g long", tt.long)
	}
}

// A level under the lid takes its shelf, its pots and the room to the lid, and
// no shelf over it.
func TestMostUnderTheLid(t *testing.T) {
	for _, tt := range []struct {
		height float64
		want   int
	}{{114.9, 0}, {115, 7}, {236.9, 7}, {237, 14}} {
		l := kiln(t, tt.height, 100)
		l.Lid = 5
		got := Most(l).Count
		require.Equal(t, tt.want, got, "height %g", tt.height)
	}
}

// Three posts stand under a shelf, no more are asked for.
func TestMostOfThePosts(t *testing.T) {
	l := kiln(t, 1e6, 100)
	l.Posts = 3*112*2 - 0.1
	require.Equal(t, 14, Most(l).Count)
	l.Posts = 3 * 112 * 2
	require.Equal(t, 21, Most(l).Count, "two levels on posts and the one on top")
}
