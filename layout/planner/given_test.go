package planner

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A plan told anew from its load alone has the same figures, and what can be
// told beside it is the same.
func TestLawAPlanIsGivenByItsLoad(t *testing.T) {
	t.Parallel()
	s := searched(t, sample(t, "newcomer"), 1, 6000)
	p, ok := s.Best()
	require.True(t, ok)
	g, err := Given(p.Load, p.Report)
	require.NoError(t, err)
	require.Equal(t, [3]int{p.Set, p.Of, p.Levels}, [3]int{g.Set, g.Of, g.Levels})
	require.InDelta(t, p.Value, g.Value, 1e-9)
	require.InDelta(t, p.Whole, g.Whole, 1e-9)
	require.Len(t, g.Waits, len(p.Waits))
	for i := range p.Waits {
		require.Equal(t, p.Waits[i].Ware, g.Waits[i].Ware)
		require.Equal(t, p.Waits[i].Count, g.Waits[i].Count)
	}
	b, err := Bound(p.Load)
	require.NoError(t, err)
	require.Equal(t, SayBound(b, p), SayBound(b, g))
	x, err := Closer(p)
	require.NoError(t, err)
	y, err := Closer(g)
	require.NoError(t, err)
	require.Equal(t, x.Say(p.Load.Units), y.Say(p.Load.Units))

	bare, err := Given(sample(t, "newcomer"), p.Report)
	require.NoError(t, err)
	require.Equal(t, [2]int{0, 19}, [2]int{bare.Set, bare.Of})
}
