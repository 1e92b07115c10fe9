package session

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

// TestLawRestoreIsOneEdit: an earlier text comes back as it was, and one undo
// takes it away again.
func TestLawRestoreIsOneEdit(t *testing.T) {
	for _, name := range samples() {
		s := sample(t, name)
		first := textOf(t, s)
		_, err := s.Apply([]layout.Edit{{Act: layout.SetPot, Pot: s.State().Pots[0].ID, At: at(3, 4)}}, "")
		require.NoError(t, err)
		second, n := textOf(t, s), s.Revision()
		st, err := s.Restore(first, "bring back the first")
		require.NoError(t, err)
		require.Equal(t, n+1, st.Revision)
		require.Equal(t, "bring back the first", st.Undo)
		require.Equal(t, first, textOf(t, s), name)
		_, err = s.Undo()
		require.NoError(t, err)
		require.Equal(t, second, textOf(t, s), name)
	}
}

func TestRestoreRefuses(t *testing.T) {
	s := sample(t, "newcomer")
	before, n := textOf(t, s), s.Revision()
	_, err := s.Restore("threepost = 1\nfiring = { stage = \"glaze\", cone = 6 }\n", "")
	require.ErrorContains(t, err, "a cone is a name")
	_, err = s.Restore(before, "")
	require.ErrorContains(t, err, "like that already")
	require.Equal(t, n, s.Revision())
	require.Equal(t, before, textOf(t, s))
}

// TestProfilePointsAreTyped: a point's height and width are typed, and other
// words are refused with what there is.
func TestProfilePointsAreTyped(t *testing.T) {
	s := sample(t, "studio")
	f, err := s.Profile("mug")
	require.NoError(t, err)
	last := len(f.Knots)
	require.NotEmpty(t, f.Knots[last-1].WideSaid)
	f, err = s.Measure("point 1 across", "7 cm")
	require.NoError(t, err)
	require.Equal(t, 70.0, f.Knots[0].Diameter)
	require.Equal(t, "70", f.Knots[0].WideSaid)
	f, err = s.Measure("point 2 height", "101")
	require.NoError(t, err)
	require.Equal(t, 101.0, f.Knots[1].Height)
	for _, what := range []string{"point 99 height", "point 0 across", "point 1 colour", "girth"} {
		_, err = s.Measure(what, "70")
		require.Error(t, err, what)
	}
}

// TestFirstIsToldInOtherUnits: an inch is 25.4 mm (international agreement of
// 1959), so 711 mm is 28 in to the nearest 1/8.
func TestFirstIsToldInOtherUnits(t *testing.T) {
	f := Begin(nil)
	a := f.Answers
	require.Equal(t, "711", a.Across)
	require.Equal(t, "cone 6 (1222 C)", f.Cone)
	require.Positive(t, a.Posts[0].MM)
	a.From, a.Units = "mm", "in"
	g := Begin(&a)
	require.False(t, g.Refused, g.Says)
	require.Equal(t, "28", g.Answers.Across)
	require.Equal(t, "in", g.Answers.Units)
	require.Empty(t, g.Answers.From)
	text, _, err := NewText(g.Answers)
	require.NoError(t, err)
	require.Contains(t, text, `units = "in"`)
}

// TestRulesTellTheirColumns: a rule without a problem column in the table of
// rules (layout/rules.go) shows none.
func TestRulesTellTheirColumns(t *testing.T) {
	for _, r := range sample(t, "studio").State().Rules {
		switch layout.RuleName(r.Name) {
		case layout.HandRoom, layout.DeepFrom, layout.AllowHigh:
			require.Equal(t, []string{"plan"}, r.Columns, r.Name)
		case layout.PotToWall, layout.RoomAbove:
			require.Equal(t, []string{"problem", "watch", "plan"}, r.Columns, r.Name)
		}
	}
}
