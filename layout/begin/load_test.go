package begin

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/planner"
)

// TestEverySizeCanBePlanned: each usual size with nothing but a cone makes a
// load that the document reads back and the planner finds a shelf for.
func TestEverySizeCanBePlanned(t *testing.T) {
	for _, size := range Sizes() {
		l, told, err := Load(Answers{Kiln: size.Kiln, Cone: "6", Front: size.Front, Units: measure.MM, Title: "New load"})
		require.NoError(t, err, size.Say)
		require.NotEmpty(t, told)
		again, err := document.Parse("new.toml", document.Format(l))
		require.NoError(t, err, size.Say)
		require.Equal(t, l.Kiln.Chamber, again.Kiln.Chamber)
		l.Ware = []layout.Ware{{Name: "mug", Count: 2, Height: 90, Across: 80}}
		s, err := planner.Start(l, 1)
		require.NoError(t, err)
		for range 40 {
			if s.Step(2000) {
				break
			}
		}
		p, ok := s.Best()
		require.True(t, ok, "%s: %s", size.Say, s.Refused())
		require.Equal(t, 2, p.Set, size.Say)
	}
}

func TestWhatIsRefused(t *testing.T) {
	for _, c := range []struct {
		a    Answers
		want string
	}{
		{Answers{Kiln: "457", Cone: "6"}, `"457" gives 1 size, and 2 are wanted`},
		{Answers{Kiln: "457 x 457", Cone: "66"}, `66`},
		{Answers{Kiln: "sided x 3", Cone: "6"}, "after sided comes the number of sides"},
		{Answers{Kiln: "457 x 457", Cone: "6", Shelves: "many"}, `"many" is no row of shelves`},
		{Answers{Kiln: "457 x 457", Cone: "6", Posts: "many"}, `"many" is no list of posts`},
		{Answers{Kiln: "oval 838 x 584 x -2", Cone: "6"}, "-2"},
	} {
		_, _, err := Load(c.a)
		require.ErrorContains(t, err, c.want)
	}
}

func TestWhatIsAssumed(t *testing.T) {
	l, told, err := Load(Answers{Kiln: "sided 12 28 x 27", Cone: "6", Units: measure.Inches})
	require.NoError(t, err)
	require.InDelta(t, 711.2, l.Kiln.Chamber.Across, 1e-9)
	require.Equal(t, layout.Glaze, l.Firing.Stage)
	require.Contains(t, told[len(told)-2], "six each of posts 1/4, 1/2, 1, 2, 4, 6, 8")
	l, _, err = Load(Answers{Kiln: "457 × 457", Cone: "04", Stage: "bisque", Shelves: "2 round 410 x 16", Posts: "6 of 100; 3 spacers of 6"})
	require.NoError(t, err)
	require.Equal(t, 410.0, l.Furniture.Shelves[0].Shape.Across)
	require.True(t, l.Furniture.Posts[1].Spacer)
}

// TestPostListsAsTheyAreTyped: a count holds for the heights after it until
// another count comes, after a comma as after a semicolon.
func TestPostListsAsTheyAreTyped(t *testing.T) {
	type owned struct {
		height float64
		count  int
		spacer bool
	}
	for text, want := range map[string][]owned{
		"6 of 13, 25; 6 spacers of 6":        {{13, 6, false}, {25, 6, false}, {6, 6, true}},
		"9 of 25, 12 of 50, 12 spacers of 6": {{25, 9, false}, {50, 12, false}, {6, 12, true}},
		"3 posts 11.5 cm, 9; 4 spacers 5":    {{115, 3, false}, {9, 3, false}, {5, 4, true}},
	} {
		posts, err := Posts(text, measure.MM)
		require.NoError(t, err, text)
		got := []owned{}
		for _, p := range posts {
			got = append(got, owned{p.Height, p.Count, p.Spacer})
		}
		require.Equal(t, want, got, text)
	}
	_, err := Posts("25, 50; 6 of 13", measure.MM)
	require.ErrorContains(t, err, `"25, 50" is no list of posts`)
	shelves, err := Shelves("1 full round 520 x 16, 8 half round 520 x 16", measure.MM)
	require.NoError(t, err)
	require.Equal(t, []int{1, 8}, []int{shelves[0].Count, shelves[1].Count})
}
