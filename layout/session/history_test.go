package session

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
)

// sample opens one of the samples of testdata/loads/reference: full
// arrangements.
func sample(t require.TestingT, name string) *Session {
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "loads", "reference", name+".toml"))
	require.NoError(t, err)
	s, err := Open(string(text), name+".toml")
	require.NoError(t, err)
	return s
}

// bareSample opens a sample that has no arrangement.
func bareSample(t require.TestingT, name string) *Session {
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "loads", name+".toml"))
	require.NoError(t, err)
	s, err := Open(string(text), name+".toml")
	require.NoError(t, err)
	return s
}

func textOf(t require.TestingT, s *Session) string {
	text, err := s.Text()
	require.NoError(t, err)
	return text
}

func at(x, y float64) *plane.Vec { return &plane.Vec{x, y} }

// samples are the names of all samples.
func samples() []string {
	return []string{"bisque", "front-loader", "newcomer", "oval", "small-round", "studio"}
}

func TestOpenTellsWhereATextIsWrong(t *testing.T) {
	_, err := Open("threepost = 1\nfiring = { stage = \"glaze\", cone = 6 }\n", "x.toml")
	require.ErrorContains(t, err, "x.toml:2:")
	require.ErrorContains(t, err, "a cone is a name")
}

// TestLawUndoAfterApply: undo after apply gives the same text and the same
// state back but for its revision, and redo the text after it.
func TestLawUndoAfterApply(t *testing.T) {
	for _, name := range samples() {
		t.Run(name, func(t *testing.T) {
			s := sample(t, name)
			before, state := textOf(t, s), *s.State()
			id := state.Pots[0].ID
			_, err := s.Apply([]layout.Edit{{Act: layout.SetPot, Pot: id, At: at(3, 4)}}, "")
			require.NoError(t, err)
			after := textOf(t, s)
			require.NotEqual(t, before, after)
			require.Contains(t, s.State().Undo, "move ")
			back, err := s.Undo()
			require.NoError(t, err)
			require.Equal(t, before, textOf(t, s))
			got := *back
			require.NotEmpty(t, got.Redo)
			got.Revision, got.Redo = state.Revision, state.Redo
			require.Equal(t, state, got)
			_, err = s.Redo()
			require.NoError(t, err)
			require.Equal(t, after, textOf(t, s))
		})
	}
}

func TestUndoWithoutAnything(t *testing.T) {
	s := sample(t, "newcomer")
	_, err := s.Undo()
	require.EqualError(t, err, "there is nothing to take back")
	_, err = s.Redo()
	require.EqualError(t, err, "there is nothing to do again")
	_, err = s.Apply(nil, "")
	require.EqualError(t, err, "there is nothing to do")
}

func TestRefusedEditChangesNothing(t *testing.T) {
	s := sample(t, "newcomer")
	before := textOf(t, s)
	_, err := s.Apply([]layout.Edit{{Act: layout.SetPot, Pot: "nothing 3", At: at(0, 0)}}, "")
	require.ErrorContains(t, err, "neither a pot of the ware list nor a cone pack")
	require.Equal(t, before, textOf(t, s))
	require.Equal(t, 0, s.Revision())
}

// TestLawStateOfOpenedText: a load that is written and opened again shows the
// same.
func TestLawStateOfOpenedText(t *testing.T) {
	for _, name := range samples() {
		s := sample(t, name)
		again, err := Open(textOf(t, s), s.Name())
		require.NoError(t, err)
		require.Equal(t, s.State(), again.State(), name)
	}
}
