package stacks

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
)

func mustBuild(t testing.TB, l *layout.Load) *Built {
	t.Helper()
	b, err := Build(l)
	require.NoError(t, err)
	return b
}

func levelNamed(t *testing.T, b *Built, name string) *Level {
	t.Helper()
	for i := range b.Levels {
		if b.Levels[i].Name == name {
			return &b.Levels[i]
		}
	}
	t.Fatalf("no level %q", name)
	return nil
}

// The heights are summed by hand: posts and shelves of 19 from the floor up.
func TestHeightsAddUp(t *testing.T) {
	b := mustBuild(t, octoberLoad())
	for _, c := range []struct {
		name        string
		bottom, top float64
		down        float64
		takes       float64
		deep, lid   bool
	}{
		{"bottom", 25, 44, 642, 113, true, false},
		{"left 1", 169, 188, 498, 243, true, false},
		{"left 2", 443, 462, 224, 98, false, false},
		{"left 3", 572, 591, 95, 70, false, true},
		{"right 1", 199, 218, 468, 73, true, false},
		{"right 2", 303, 322, 364, 73, false, false},
		{"right 3", 407, 426, 260, 235, false, true},
	} {
		v := levelNamed(t, b, c.name)
		require.InDelta(t, c.bottom, v.Bottom, 1e-9, c.name)
		require.InDelta(t, c.top, v.Top, 1e-9, c.name)
		require.InDelta(t, c.down, b.Height-v.Top, 1e-9, c.name)
		require.InDelta(t, c.takes, v.Takes, 1e-9, c.name)
		require.Equal(t, c.deep, v.Deep, c.name)
		require.Equal(t, c.lid, v.UnderLid, c.name)
	}
	bottom := levelNamed(t, b, "bottom")
	require.Len(t, bottom.Above, 2, "both first half shelves are seen from the full shelf, no others")
	require.Equal(t, "left 1", b.Levels[bottom.Above[0]].Name)
	require.Equal(t, "right 1", b.Levels[bottom.Above[1]].Name)
	require.InDelta(t, 113, b.TakesUnder(0, bottom.Above[0]), 1e-9)
	require.InDelta(t, 143, b.TakesUnder(0, bottom.Above[1]), 1e-9)
}

func TestLettersRunClockwiseFromWhereYouStand(t *testing.T) {
	b := mustBuild(t, octoberLoad())
	at := map[string]plane.Vec{}
	for _, l := range b.Letters {
		at[l.Name] = l.At
	}
	require.Equal(t, map[string]plane.Vec{
		"A": {-28, -270}, "B": {-290, 0}, "C": {-28, 270},
		"D": {28, 270}, "E": {290, 0}, "F": {28, -270},
	}, at)
	require.Equal(t, []string{"C", "A", "B", "D", "F", "E"}, b.Towers[0].Letters, "the full shelf's posts stand under all six")
	require.Equal(t, []string{"C", "A", "B"}, b.Towers[1].Letters)
	for _, p := range b.Posts {
		require.Equal(t, at[p.Letter], p.At)
	}
}

func TestPostsCarryTheShelvesTheyStandUnder(t *testing.T) {
	b := mustBuild(t, octoberLoad())
	require.Len(t, b.Posts, 6+3*6)
	for i := range b.Posts {
		p := &b.Posts[i]
		require.Len(t, p.Shelves, 1)
		require.Equal(t, b.Shelves[p.Shelves[0]].Level, p.Level)
		require.Equal(t, p.Top, b.Shelves[p.Shelves[0]].Bottom)
		require.InDelta(t, p.Top, p.Solid.Top(), 1e-9)
		require.InDelta(t, p.Bottom, p.Solid.Bottom(), 1e-9)
	}
	left2 := levelNamed(t, b, "left 2")
	post := b.Posts[left2.Posts[0]]
	require.Len(t, post.Pieces, 3)
	require.InDelta(t, 188, post.Pieces[0].Bottom, 1e-9)
	require.InDelta(t, 388, post.Pieces[1].Bottom, 1e-9)
	require.InDelta(t, 438, post.Pieces[2].Bottom, 1e-9)
	require.Len(t, post.Solid.Body.Parts, 1, "pieces of one section are one prism")
}
