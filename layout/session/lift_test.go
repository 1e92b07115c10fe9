package session

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/stacks"
)

// TestLawStops: no stop uses more posts than are owned, each is as high as it
// says, and put there the load is what it said: fit means no problem that was
// not there.
func TestLawStops(t *testing.T) {
	for _, name := range samples() {
		s := sample(t, name)
		before := textOf(t, s)
		for _, v := range s.State().Levels {
			l, err := s.Lift(v.Tower, v.Number)
			require.NoError(t, err)
			require.Equal(t, l.Was, l.At)
			for i := range l.Stops {
				l, err = s.Stop(i)
				require.NoError(t, err)
				for _, p := range l.Box {
					require.GreaterOrEqual(t, p.Left, 0, "%s, %s at %s: %s", name, v.Name, l.Stops[i].Posts, p.Said)
				}
				built := s.LiftedBuilt()
				if built == nil {
					require.False(t, l.Stops[i].Fit)
					continue
				}
				now := s.seen.built.Levels[v.Index].Top
				require.InDelta(t, now+l.Rise, built.Levels[v.Index].Top, 1e-9)
				r := clearance.Check(built)
				if l.Stops[i].Fit {
					require.LessOrEqual(t, r.Problems, s.Report().Problems)
				}
				if i > 0 {
					require.Less(t, l.Stops[i].Height, l.Stops[i-1].Height)
				}
			}
			s.Cancel()
		}
		require.Equal(t, before, textOf(t, s))
	}
}

// TestPutAStop: the shelf stays where it was put, as one edit, and its mend
// works as it was offered.
func TestPutAStop(t *testing.T) {
	s := sample(t, "studio")
	l, err := s.Lift("left side", 3)
	require.NoError(t, err)
	require.Equal(t, "Shelf of left 3", l.Title)
	require.Equal(t, "rests on the posts of left 2, lines A B C", l.Line)
	require.Equal(t, "Hangs on 3 × (75 + 10): left 2 takes 73. 26 to the lid.", l.Says)
	l, err = s.StopNear(91)
	require.NoError(t, err)
	require.Equal(t, "3 × (75 + 10 + 5)", l.Stops[l.At].Made)
	require.Equal(t, "Now 3 × (75 + 10 + 5): left 2 takes 78, was 73. Everything above rises 5: 21 to the lid.", l.Says)
	require.Equal(t, "At 100: lid stays open.", l.Next)
	require.True(t, strings.HasPrefix(l.Takes, "This drag takes three 5s. All the "), l.Takes)
	require.NotNil(t, l.Mend)
	require.Equal(t, "Take the 5s out of left 2: 26 again", l.Mend.Say)
	st, err := s.Put()
	require.NoError(t, err)
	require.Equal(t, "raise the shelf of left 3 by 5 mm", st.Undo)
	require.Equal(t, "21 to the lid", st.Lid.Said)
	_, err = s.Undo()
	require.NoError(t, err)
	st, err = s.Apply(l.Mend.Edits, "")
	require.NoError(t, err)
	require.Equal(t, "26 to the lid", st.Lid.Said)
	require.Zero(t, st.Problems+st.Watches)
}

func TestLiftRefuses(t *testing.T) {
	s := sample(t, "newcomer")
	_, err := s.Stop(0)
	require.EqualError(t, err, "no shelf is in hand")
	_, err = s.Put()
	require.EqualError(t, err, "no shelf is in hand")
	_, err = s.Lift("nowhere", 1)
	require.EqualError(t, err, `there is no level 1 of "nowhere"`)
	v := s.State().Levels[0]
	_, err = s.Lift(v.Tower, v.Number)
	require.NoError(t, err)
	_, err = s.Stop(99)
	require.ErrorContains(t, err, "the shelf has ")
	before := s.Revision()
	_, err = s.Put() // where it hung
	require.NoError(t, err)
	require.Equal(t, before, s.Revision())
}

// TestLawOffersWork: every mend and every choice that is offered applies, and
// what it is offered for is gone with nothing worse.
func TestLawOffersWork(t *testing.T) {
	for _, name := range samples() {
		s := sample(t, name)
		before := s.Report()
		for _, list := range [][]Choice{s.ShelfChoices(), s.SideChoices()} {
			for _, c := range list {
				g, err := s.Try(c.Edits)
				require.NoError(t, err, c.Say)
				require.LessOrEqual(t, g.Problems, before.Problems, "%s: %s", name, c.Say)
			}
		}
		// push a pot into its neighbour
		state := s.State()
		_, err := s.Hold(state.Pots[1].ID)
		require.NoError(t, err)
		_, err = s.Nudge(8, 8, 0)
		require.NoError(t, err)
		_, err = s.Drop(false)
		require.NoError(t, err)
		j := s.MendAll()
		for !j.Step(1) {
		}
		for _, f := range s.State().Findings {
			for _, m := range f.Mends {
				next, err := edit.Apply(s.Load(), m.Edits...)
				require.NoError(t, err)
				b, err := stacks.Build(next)
				require.NoError(t, err)
				r := clearance.Check(b)
				require.Nil(t, r.Find(f.Key), m.Say)
			}
			require.Equal(t, s.Mends(f.Key), s.knownMends(f.Key))
		}
	}
}

// TestFirstShelves: an empty kiln is offered its first shelf, which stands.
func TestFirstShelves(t *testing.T) {
	for _, name := range samples() {
		s := bareSample(t, name)
		if !s.State().Empty {
			continue
		}
		list := s.ShelfChoices()
		require.NotEmpty(t, list, name)
		for _, c := range list {
			g, err := s.Try(c.Edits)
			require.NoError(t, err)
			require.Zero(t, g.Problems, "%s: %s", name, c.Say)
		}
		st, err := s.Apply(list[0].Edits, list[0].Say)
		require.NoError(t, err)
		require.NotEmpty(t, st.Levels)
		if kind := s.Load().Towers[0].Levels[0].Shelves[0].Kind; s.Load().Furniture.Shelf(kind).Count > 2 {
			require.NotEmpty(t, s.ShelfChoices(), "%s after %s", name, list[0].Say)
		}
	}
}
