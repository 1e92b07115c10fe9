package order

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
)

// TestGripsOfHalves: the half shelves of the look are held at about 7 and 11
// on the left ("hold at 8 and at 11" on its sheet), the line between the hands
// through the balance point, and mirrored on the right.
func TestGripsOfHalves(t *testing.T) {
	b := build(t, october())
	o, _ := Of(b)
	require.Len(t, o.Grips, len(b.Shelves))
	for i, g := range o.Grips {
		require.Equal(t, i, g.Shelf)
		require.Len(t, g.Hold, 2)
		require.True(t, g.Fit)
		mid := b.Shelves[i].Outline.Centroid()
		one, two := g.Hold[0].At, g.Hold[1].At
		off := plane.Cross(plane.Sub(mid, one), plane.Unit(plane.Sub(two, one)))
		require.InDelta(t, 0, off, 0.5, "the hands hold it in balance")
		for _, h := range g.Hold {
			require.GreaterOrEqual(t, h.Room, 20.0)
			require.InDelta(t, 0, b.Shelves[i].Outline.Depth(h.At), 1e-6)
			switch b.Levels[b.Shelves[i].Level].Tower {
			case 0:
				require.InDelta(t, 90, between(h.Clock, 0), 1, "the full one left and right")
			case 1:
				require.Greater(t, h.Clock, 180.0)
			case 2:
				require.Less(t, h.Clock, 180.0)
			}
		}
	}
	require.Equal(t, GripsOn(b, 1), o.Grips[1])
	require.Empty(t, GripsOn(b, -1).Hold)
}

// A shelf 10 mm from the wall all round has no room for fingers; a square one
// in a round kiln is held where the wall is far, at the middles of its sides.
func TestGripsNeedRoom(t *testing.T) {
	tight := oneShelf()
	tight.Furniture.Shelves[0].Shape.Across = 692
	o, _ := Of(build(t, tight))
	require.False(t, o.Grips[0].Fit)
	// Best at the corners: 40 along the edge is 6.6 degrees, 8.4 from the flat's
	// middle, and 356 - 346 cos 8.4 = 13.7.
	require.InDelta(t, 13.7, o.Grips[0].Room, 0.1)

	square := oneShelf()
	square.Furniture.Shelves[0].Shape = layout.Shape{Kind: layout.Rectangle, Width: 470, Depth: 470}
	square.Towers[0].Lines = []layout.Line{{At: plane.Vec{0, 200}}, {At: plane.Vec{200, -200}}, {At: plane.Vec{-200, -200}}}
	o, _ = Of(build(t, square))
	require.True(t, o.Grips[0].Fit)
	require.Greater(t, o.Grips[0].Room, 60.0)

	// Two rectangles side by side in a front-loader are held at their outer
	// ends, not between each other.
	pair := oneShelf()
	pair.Kiln.Chamber = layout.Shape{Kind: layout.Rectangle, Width: 1000, Depth: 600}
	pair.Furniture.Shelves[0].Shape = layout.Shape{Kind: layout.Rectangle, Width: 440, Depth: 520}
	pair.Furniture.Shelves[0].Count = 2
	pair.Towers[0].Lines = []layout.Line{{At: plane.Vec{-200, 200}}, {At: plane.Vec{-200, -200}}, {At: plane.Vec{-40, 0}},
		{At: plane.Vec{200, 200}}, {At: plane.Vec{200, -200}}, {At: plane.Vec{40, 0}}}
	pair.Towers[0].Levels[0].Shelves = []layout.ShelfAt{{Kind: "full", At: plane.Vec{-223, 0}}, {Kind: "full", At: plane.Vec{223, 0}}}
	b := build(t, pair)
	o, _ = Of(b)
	for i, g := range o.Grips {
		require.True(t, g.Fit, "shelf %d", i)
		for _, h := range g.Hold {
			require.InDelta(t, 260, max(h.At[1], -h.At[1]), 1e-6, "front and back")
		}
	}
}
