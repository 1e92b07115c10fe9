package planner

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/edit"
	"threepost/layout/stacks"
)

// TestSpreadBringsNothingWorse: each level of the studio load drawn apart
// passes the check as before, with the same pots on it; locked pots stay.
func TestSpreadBringsNothingWorse(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("../../testdata/loads/reference/studio.toml")
	require.NoError(t, err)
	l, err := document.Parse("studio.toml", text)
	require.NoError(t, err)
	locked := l.Tower("base").Levels[0].Set[0].Pot.String()
	l.Tower("base").Levels[0].Set[0].Locked = true
	moves, pauses := 0, 0
	for i := range l.Towers {
		for k := range l.Towers[i].Levels {
			edits, err := Spread(l, l.Towers[i].Name, k+1, 1, func() bool { pauses++; return true })
			require.NoError(t, err)
			moves += len(edits)
			for _, e := range edits {
				require.NotEqual(t, locked, e.Pot)
			}
			next, err := edit.Apply(l, edits...)
			require.NoError(t, err)
			require.Len(t, next.Towers[i].Levels[k].Set, len(l.Towers[i].Levels[k].Set))
			b, err := stacks.Build(next)
			require.NoError(t, err)
			r := clearance.Check(b)
			require.Zero(t, r.Problems+r.Watches)
		}
	}
	require.Positive(t, moves)
	require.Positive(t, pauses)
	_, err = Spread(l, "nowhere", 1, 1, nil)
	require.EqualError(t, err, `there is no level 1 of "nowhere"`)
	l.Tower("base").Levels[0].Locked = true
	_, err = Spread(l, "base", 1, 1, nil)
	require.EqualError(t, err, "bottom is locked")
}
