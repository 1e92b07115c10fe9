package planner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/stacks"
)

// longKiln is an oval kiln with half shelves for its ends and boards for between
// them, and more ware than goes in.
func longKiln() *layout.Load {
	l := &layout.Load{Firing: layout.Firing{Stage: layout.Glaze, Cone: "6"}}
	l.Kiln = layout.Kiln{Chamber: layout.Shape{Kind: layout.Oval, Width: 1041, Depth: 737}, Height: 500, Opens: layout.Top}
	l.Furniture.Shelves = []layout.ShelfKind{
		{Name: "half", Shape: layout.Shape{Kind: layout.HalfRound, Across: 660, Depth: 327}, Thick: 19, Count: 4},
		{Name: "board", Shape: layout.Shape{Kind: layout.Rectangle, Width: 290, Depth: 640}, Thick: 16, Count: 2},
	}
	for _, p := range []struct {
		height float64
		count  int
	}{{25, 9}, {100, 9}, {125, 6}, {150, 6}} {
		l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Height: p.height, Count: p.count, Section: layout.Section{Kind: layout.SquareSection, Width: 38}})
	}
	l.Ware = []layout.Ware{cylinder("mug", 90, 85, 90), cylinder("bowl", 40, 110, 150), cylinder("bottle", 12, 260, 100)}
	return l
}

// A long kiln is shelved in three: halves at the ends, boards between them, each
// a tower of its own.
func TestHalvesWithABoardBetween(t *testing.T) {
	l := longKiln()
	p := planned(t, l, 1, 12000)
	b := requireSound(t, p)
	require.Equal(t, "sides and middle", p.Split)
	require.Len(t, b.Towers, 3)
	names := []string{}
	for i := range b.Towers {
		names = append(names, b.Towers[i].Name)
	}
	require.ElementsMatch(t, []string{"left side", "right side", "middle"}, names)
	for i := range b.Shelves {
		want := "half"
		if b.Towers[b.Levels[b.Shelves[i].Level].Tower].Name == "middle" {
			want = "board"
		}
		require.Equal(t, want, b.Shelves[i].Kind.Name)
	}

	// Without the boards the halves stand together in the middle and hold less.
	less := longKiln()
	less.Furniture.Shelves = less.Furniture.Shelves[:1]
	q := planned(t, less, 1, 12000)
	require.Equal(t, "two sides", q.Split)
	require.Greater(t, p.Value, 1.2*q.Value)
}

// A board too wide or too long for the room between the halves is left out.
func TestNoTrioWhereTheBoardIsTooLong(t *testing.T) {
	l := longKiln()
	l.Furniture.Shelves[1].Shape.Width = 420
	p := planned(t, l, 1, 3000)
	require.NotEqual(t, "sides and middle", p.Split)
	l = longKiln()
	l.Furniture.Shelves[1].Shape.Depth = 735
	p = planned(t, l, 1, 3000)
	require.NotEqual(t, "sides and middle", p.Split)
	_, err := stacks.Build(p.Load)
	require.NoError(t, err)
}
