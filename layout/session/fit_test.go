package session

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/stacks"
)

// answersTo are all answers to a change, at most six.
func answersTo(t *testing.T, s *Session, c Change, standing int) []Answer {
	t.Helper()
	f, err := s.Fit(c, standing)
	require.NoError(t, err)
	var out []Answer
	for len(out) < 6 {
		a, ok := f.Next()
		if !ok {
			break
		}
		out = append(out, a)
	}
	return out
}

// TestLawAnswersKeepWhatStands: every answer applies, brings no problem, and
// leaves what stands where it stands and its shelves as high as they hang.
func TestLawAnswersKeepWhatStands(t *testing.T) {
	names := []string{"newcomer", "small-round"}
	if os.Getenv("THREEPOST_LONG") != "" {
		names = samples()
	} else {
		t.Log("two samples of six; all with THREEPOST_LONG=1")
	}
	for _, name := range names {
		s := sample(t, name)
		b, _ := s.Built()
		acts := len(s.Order().Acts)
		id := firstPot(s)
		for _, standing := range []int{0, acts / 2, acts - 3} {
			k := keptBy(b, s.Order(), standing)
			post := s.State().Posts[len(s.State().Posts)/2]
			for _, c := range []Change{{Kind: TooTall, Pot: id, By: "6"}, {Kind: TooWide, Pot: id, By: "4"}, {Kind: TooTall, Ware: s.State().Ware[0].Name, By: "3"},
				{Kind: PostMissing, Height: post.Height, Count: 1}, {Kind: LeaveOut, Pot: id}, {Kind: OneMore, Ware: s.State().Ware[0].Name}} {
				says := map[string]bool{}
				for _, a := range answersTo(t, s, c, standing) {
					require.False(t, says[a.Says], "another way is another: %s", a.Says)
					says[a.Says] = true
					next, err := s.after(a.Edits)
					require.NoError(t, err, a.Says)
					after, err := stacks.Build(next)
					require.NoError(t, err)
					require.LessOrEqual(t, clearance.Check(after).Problems, s.Report().Problems, a.Says)
					is := map[plane3]string{}
					for i := range after.Pots {
						p := &after.Pots[i]
						is[plane3{p.Level, p.At[0], p.At[1]}] = p.Pot.Ware
					}
					for i := range b.Pots {
						p := &b.Pots[i]
						if k.pots[place{p.Level, p.At}] && p.Pot.String() != id {
							require.Contains(t, is, plane3{p.Level, p.At[0], p.At[1]}, "%s: %s: %s at %d", name, a.Says, p.Pot, standing)
						}
					}
					for i := range b.Levels {
						if k.shelves[i] {
							require.Equal(t, b.Levels[i].Top, after.Levels[i].Top, "%s: %s", name, a.Says)
						}
					}
					set, _ := countPots(next)
					require.Equal(t, set, a.Set)
					require.NotEmpty(t, a.Was)
					require.NotEmpty(t, a.Now)
				}
			}
		}
	}
}

type plane3 struct {
	level int
	x, y  float64
}

// TestTooTall: the pot gets a row of its own as tall as it is, and the first
// answer names piece and lines.
func TestTooTall(t *testing.T) {
	s := sample(t, "studio")
	list := answersTo(t, s, Change{Kind: TooTall, Pot: "soup bowl 4", By: "6"}, len(s.Order().Acts)/3)
	require.Equal(t, "Put one 5 on each of A, B and C, and take the 5s out of left 2", list[0].Says)
	require.Equal(t, "3 × (75 + 10 + 5). Left 2 takes 78, 14 above the tall soup bowl. The box holds three 5s. 3 × (200 + 50). Left 1 takes 238.", list[0].Detail)
	require.Equal(t, "Leave it out", list[1].Says)
	st, err := s.Apply(list[0].Edits, list[0].Says)
	require.NoError(t, err)
	require.Equal(t, 91, st.Set)
	row := s.Load().WareOf(layout.Pot{Ware: "tall soup bowl"})
	require.Equal(t, 74.0, row.Height)
	require.Equal(t, 10, s.Load().WareOf(layout.Pot{Ware: "soup bowl"}).Count)
	require.Contains(t, string(document.Format(s.Load())), `name = "tall soup bowl"`)
}

func TestMissingPost(t *testing.T) {
	s := sample(t, "studio")
	list := answersTo(t, s, Change{Kind: PostMissing, Height: 150, Count: 1}, 0)
	require.NotEmpty(t, list)
	k := s.Load().Furniture.Post(layout.Piece{Height: 150})
	st, err := s.Apply(list[0].Edits, "")
	require.NoError(t, err)
	require.Equal(t, k.Count-1, s.Load().Furniture.Post(layout.Piece{Height: 150}).Count)
	require.Zero(t, st.Problems)
	list = answersTo(t, sample(t, "studio"), Change{Kind: PostMissing, Height: 75, Count: 1}, 0)
	require.NotEmpty(t, list, "all the 75s are in use")
}

func TestFitRefuses(t *testing.T) {
	s := sample(t, "studio")
	for _, c := range []struct {
		change Change
		want   string
	}{
		{Change{Kind: "louder"}, `"louder" is nothing that can be answered at the kiln`},
		{Change{Kind: TooTall, Pot: "mug 3", By: "a bit"}, "a bit"},
		{Change{Kind: TooTall, Pot: "mug 99", By: "6"}, `there is no "mug 99"`},
		{Change{Kind: PostMissing, Height: 77}, "the furniture lists no post of 77"},
		{Change{Kind: PostMissing, Height: 75, Count: 99}, "so 99 cannot be missing"},
		{Change{Kind: LeaveOut, Pot: "water bottle 10"}, "is on the table"},
		{Change{Kind: TooTall, Ware: "nothing", By: "6"}, `there is no ware "nothing"`},
	} {
		_, err := s.Fit(c.change, 0)
		require.ErrorContains(t, err, c.want)
	}
}
