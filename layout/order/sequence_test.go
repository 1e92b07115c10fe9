package order

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/stacks"
)

// names are the levels of an order as they are said.
func names(b *stacks.Built, levels []int) []string {
	var out []string
	for _, l := range levels {
		out = append(out, b.Levels[l].Name)
	}
	return out
}

// TestLevelsOfTwoSides holds the sequence against the sample sheet of the
// look: "Left 2, then the shelf of left 3, then right 3: its bottles rise past
// both", and its board list: bottom, right 1, left 1, right 2, left 2.
func TestLevelsOfTwoSides(t *testing.T) {
	b := build(t, fullOctober())
	o, cycles := Of(b)
	require.Empty(t, cycles)
	var levels []int
	for _, l := range o.Levels {
		levels = append(levels, l.Level)
	}
	require.Equal(t, []string{"bottom", "right 1", "left 1", "right 2", "left 2", "right 3", "left 3"}, names(b, levels))
	last := o.Levels[5]
	require.Equal(t, []string{"left 2", "left 3"}, names(b, last.RisesPast))
	require.Equal(t, []string{"left 3"}, names(b, last.ShelvesFirst))
	require.Equal(t, []string{"right 2"}, names(b, o.Levels[2].ShelvesFirst), "the vase rises past right 2")
	require.Empty(t, o.Levels[3].ShelvesFirst)
}

// lawSequence: everything that must lie or stand before an act does.
func lawSequence(t testing.TB, b *stacks.Built, o *Order) {
	laid, set, posts := map[int]bool{}, map[int]bool{}, map[int]bool{}
	pots := map[int]bool{}
	for _, a := range o.Acts {
		switch a.Kind {
		case ActShelf:
			require.False(t, laid[a.Shelf])
			for i := range b.Posts {
				for _, s := range b.Posts[i].Shelves {
					require.True(t, s != a.Shelf || posts[i], "a shelf on a post that is not there")
				}
			}
			laid[a.Shelf] = true
			for x := range b.Levels { // nothing may be set later under this shelf
				for _, over := range b.Levels[x].Above {
					require.True(t, over != a.Level || set[x], "a shelf over a level that is not set")
				}
			}
			top := b.Shelves[a.Shelf].Top + b.Load.Limits(layout.HandRoom).Plan
			for p := range pots {
				if b.Levels[b.Pots[p].Level].Tower != b.Levels[a.Level].Tower {
					require.LessOrEqual(t, b.Pots[p].Solid.Top(), top, "a shelf let down past a standing pot")
				}
			}
		case ActPosts:
			for _, i := range a.Posts {
				require.False(t, posts[i])
				posts[i] = true
			}
		}
		if a.Order < 0 {
			continue
		}
		for _, s := range b.Levels[a.Level].Shelves {
			require.True(t, laid[s], "set on a shelf that does not lie")
		}
		set[a.Level] = true
		for _, i := range actPots(o, a) {
			require.False(t, pots[i])
			pots[i] = true
		}
	}
	require.Len(t, laid, len(b.Shelves))
	require.Len(t, pots, len(b.Pots))
	require.Len(t, posts, len(b.Posts))
	require.Len(t, o.Events, len(b.Shelves)+len(b.Pots)+len(b.Posts))
}

// actPots are the pots that an act sets.
func actPots(o *Order, a Act) []int {
	l := &o.Levels[a.Order]
	switch a.Kind {
	case ActPot, ActCones:
		return []int{l.Pots[a.Step].Pot}
	case ActPattern:
		var out []int
		for _, i := range l.Patterns[a.Pattern].Steps {
			out = append(out, l.Pots[i].Pot)
		}
		return out
	}
	return nil
}

func TestActsOfTwoSides(t *testing.T) {
	b := build(t, fullOctober())
	o, _ := Of(b)
	lawSequence(t, b, o)
	require.Equal(t, ActPosts, o.Acts[0].Kind)
	require.Equal(t, -1, o.Acts[0].Level)
	require.Len(t, o.Acts[0].Posts, 6)
	require.Equal(t, ActShelf, o.Acts[1].Kind)
	require.Equal(t, ActMeasure, o.Acts[2].Kind)
	require.Equal(t, 642.0, o.Acts[2].Down, "642 down, as on the sample sheet")
	for _, a := range o.Acts {
		switch {
		case a.Kind == ActMeasure && b.Levels[a.Level].Name == "left 2":
			require.Equal(t, 224.0, a.Down)
			require.Equal(t, "left 3", b.Levels[a.Next].Name)
		case a.Kind == ActStick && b.Levels[a.Level].Name == "bottom" && b.Levels[a.Carries].Name == "left 1":
			require.InDelta(t, 20, a.Room, 1e-9, "125 of post less the tumbler's 105")
		case a.Kind == ActStick && b.Levels[a.Level].Name == "bottom":
			require.InDelta(t, 20, a.Room, 1e-9, "155 of post less the jar's 135")
		case a.Kind == ActLid && b.Levels[a.Level].Name == "right 3":
			require.InDelta(t, 43, a.Room, 1e-9, "43 to the lid, as on the sample sheet")
		}
	}
}

func TestEmptyKiln(t *testing.T) {
	l := october()
	l.Towers = nil
	o, cycles := Of(build(t, l))
	require.Empty(t, cycles)
	require.Empty(t, o.Acts)
	require.Empty(t, o.Levels)
	bare := build(t, october())
	o, cycles = Of(bare)
	require.Empty(t, cycles)
	require.Len(t, o.Levels, 7)
	lawSequence(t, bare, o)
}

func TestLoneLevelIsFoundAgain(t *testing.T) {
	b := build(t, fullOctober())
	o, _ := Of(b)
	for i := range b.Pots {
		l := o.LevelOf(b.Pots[i].Level)
		require.NotNil(t, l)
		require.Equal(t, i, l.StepOf(i).Pot)
		require.Contains(t, []int{1, 2}, o.Number(i))
	}
	require.Nil(t, o.LevelOf(99))
	require.Zero(t, o.Number(99))
}
