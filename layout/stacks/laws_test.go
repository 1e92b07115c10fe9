package stacks

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
)

// towersGen draws posts for every level of the example, of one height under
// each shelf.
func towersGen(t *rapid.T) *layout.Load {
	l := octoberLoad()
	l.Kiln.Height = 1500
	for i := range l.Towers {
		for j := range l.Towers[i].Levels {
			var m layout.MakeUp
			for n := rapid.IntRange(1, 3).Draw(t, "pieces"); n > 0; n-- {
				k := rapid.SampledFrom(l.Furniture.Posts).Draw(t, "post")
				m = append(m, layout.Piece{Height: k.Height})
			}
			l.Towers[i].Levels[j].Posts = []layout.MakeUp{m}
		}
	}
	for i := range l.Furniture.Posts {
		if rapid.Bool().Draw(t, "measured") {
			k := &l.Furniture.Posts[i]
			k.Real = k.Height - rapid.Float64Range(0, 2).Draw(t, "worn")
		}
	}
	for i := range l.Furniture.Shelves {
		l.Furniture.Shelves[i].Bow = rapid.Float64Range(0, 5).Draw(t, "bow")
	}
	return l
}

// The top of a tower is the sum of its posts' real heights and its shelves'
// thicknesses, and of what it stands on.
func TestEveryTowerAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := towersGen(t)
		b, err := Build(l)
		require.NoError(t, err)
		for i := range b.Towers {
			z := b.Towers[i].Base
			for j, v := range b.Towers[i].Levels {
				for _, piece := range l.Towers[i].Levels[j].Posts[0] {
					z += l.Furniture.Post(piece).RealHeight()
				}
				require.InDelta(t, z, b.Levels[v].Bottom, 1e-9)
				z += 19
				require.InDelta(t, z, b.Levels[v].Top, 1e-9)
			}
		}
		require.Zero(t, b.Towers[0].Base)
		require.Equal(t, b.Levels[0].Top, b.Towers[1].Base)
		require.Equal(t, b.Levels[0].Top, b.Towers[2].Base)
	})
}

// A pot exactly as tall as a level takes keeps exactly the plan's room to the
// shelf over it, its bow counted, or to the lid.
func TestTakesKeepsThePlansRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, err := Build(towersGen(t))
		require.NoError(t, err)
		for v := range b.Levels {
			level := &b.Levels[v]
			room := 12.0
			if level.UnderLid {
				room = 25
				require.Empty(t, level.Above)
				require.Equal(t, b.Height, level.Ceiling)
			}
			if level.Takes > 0 {
				require.InDelta(t, room, level.Ceiling-level.Top-level.Takes, 1e-9)
			}
			low := b.Height
			for _, a := range level.Above {
				low = math.Min(low, b.Levels[a].Bottom-b.Shelves[b.Levels[a].Shelves[0]].Kind.Bow)
				require.GreaterOrEqual(t, b.TakesUnder(v, a), level.Takes)
			}
			require.InDelta(t, low, level.Ceiling, 1e-9)
		}
	})
}

func TestWishedRoomAboveCounts(t *testing.T) {
	l := octoberLoad()
	l.Wishes.RoomAbove = 20
	require.InDelta(t, 113-8, levelNamed(t, mustBuild(t, l), "bottom").Takes, 1e-9)
	l.Wishes.RoomAbove = 0
	l.Rules = layout.Rules{layout.RoomAbove: {Problem: 6, Watch: 10, Plan: 15}, layout.RoomToLid: {Problem: 12, Watch: 25, Plan: 30}}
	b := mustBuild(t, l)
	require.InDelta(t, 113-3, levelNamed(t, b, "bottom").Takes, 1e-9)
	require.InDelta(t, 70-5, levelNamed(t, b, "left 3").Takes, 1e-9)
	require.InDelta(t, b.Height-b.Levels[0].Top-30, b.TakesUnder(0, -1), 1e-9)
	l.Kiln.Height = 600
	require.Zero(t, levelNamed(t, mustBuild(t, l), "left 3").Takes, "no room is 0, not less")
}

// Building twice gives the same, and the load is not written on.
func TestBuildIsRepeatable(t *testing.T) {
	l := manyPots(60)
	before := l.Clone()
	a, b := mustBuild(t, l), mustBuild(t, l)
	require.Equal(t, before, l.Clone())
	require.Equal(t, a.Letters, b.Letters)
	require.Equal(t, len(a.Pots), len(b.Pots))
	for i := range a.Pots {
		require.Equal(t, a.Pots[i].Solid, b.Pots[i].Solid)
	}
	for i := range a.Levels {
		require.Equal(t, a.Levels[i], b.Levels[i])
	}
}

// A row's body in Build is that of BodyOf, also of a copy of the row.
func TestBodyOfIsWhatBuildUses(t *testing.T) {
	l := octoberLoad()
	b := mustBuild(t, l)
	want, err := BodyOf(l, &l.Ware[0])
	require.NoError(t, err)
	require.Equal(t, want, b.Pots[0].Body)
	again := l.Ware[0]
	got, err := BodyOf(l, &again)
	require.NoError(t, err)
	require.Equal(t, want, got)
	again.Profile = []layout.Knot{{Height: 0, Diameter: 76}, {Height: 110, Diameter: 95}}
	other, err := BodyOf(l, &again)
	require.NoError(t, err)
	require.InDelta(t, 112, other.Height, 1e-9, "what if it were 110 x 95")
}

func TestLevelNames(t *testing.T) {
	for _, c := range []struct {
		change func(*layout.Load)
		want   []string
	}{
		{func(*layout.Load) {}, []string{"bottom", "left 1", "left 2", "left 3", "right 1", "right 2", "right 3"}},
		{func(l *layout.Load) { l.Towers = l.Towers[:1] }, []string{"level 1"}},
		{func(l *layout.Load) { l.Towers[1].Name, l.Towers[2].Name = "back corner", "" },
			[]string{"bottom", "back corner 1", "back corner 2", "back corner 3", "level 1", "level 2", "level 3"}},
		{func(l *layout.Load) { l.Towers[2].Name = "left" }, // what "left side" would be called for short
			[]string{"bottom", "left side 1", "left side 2", "left side 3", "left 1", "left 2", "left 3"}},
	} {
		l := octoberLoad()
		c.change(l)
		var names []string
		b := mustBuild(t, l)
		for _, v := range b.Levels {
			names = append(names, v.Name)
		}
		require.Equal(t, c.want, names)
	}
}

// A lower level of mixed shelves: a pot stands on the shelf under its foot.
func TestPotsOnSeveralShelves(t *testing.T) {
	l := octoberLoad()
	l.Towers = l.Towers[:1]
	l.Furniture.Shelves = append(l.Furniture.Shelves, layout.ShelfKind{
		Name: "thick", Shape: layout.Shape{Kind: layout.HalfRound, Across: 660, Depth: 327}, Thick: 25, Count: 1,
	})
	v := &l.Towers[0].Levels[0]
	v.Shelves = []layout.ShelfAt{{Kind: "half", At: plane.Vec{-3, 0}, Turn: 270}, {Kind: "thick", At: plane.Vec{3, 0}, Turn: 90}}
	v.Set = []layout.Placement{
		{Pot: layout.Pot{Ware: "mug", Number: 1}, At: plane.Vec{-150, 0}}, {Pot: layout.Pot{Ware: "mug", Number: 2}, At: plane.Vec{150, 0}},
	}
	b := mustBuild(t, l)
	require.Equal(t, []int{0, 1}, []int{b.Pots[0].Shelf, b.Pots[1].Shelf})
	require.InDelta(t, 44, b.Pots[0].Z, 1e-9)
	require.InDelta(t, 50, b.Pots[1].Z, 1e-9)
	require.InDelta(t, 50, b.Levels[0].Top, 1e-9)
	b.MovePot(0, plane.Vec{160, 50}, 0)
	require.Equal(t, 1, b.Pots[0].Shelf)
	require.InDelta(t, 50, b.Pots[0].Z, 1e-9)
}

func TestLockedLevelsLockTheirPots(t *testing.T) {
	l := octoberLoad()
	require.False(t, mustBuild(t, l).Pots[0].Locked)
	l.Towers[1].Levels[0].Set[0].Locked = true
	require.True(t, mustBuild(t, l).Pots[0].Locked)
	l.Towers[1].Levels[0].Set[0].Locked, l.Towers[1].Levels[0].Locked = false, true
	require.True(t, mustBuild(t, l).Pots[0].Locked)
}
