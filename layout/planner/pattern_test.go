package planner

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What stood on one side stands on the other, and no more pots of a kind are
// set than are left.
func TestPatternIsAdoptedOnTheOtherSide(t *testing.T) {
	s := searched(t, sample(t, "studio"), 1, 12000)
	carried := 0
	for _, d := range s.field[:min(len(s.field), 12)] {
		bare, err := s.bare(d)
		require.NoError(t, err)
		for _, st := range bare.clone().storeys {
			for _, p := range s.offers(st)[:min(len(s.offers(st)), 3)] {
				require.True(t, st.fits(p.need))
				rest := s.availFor(bare)
				had := append([]int(nil), rest...)
				st.set = nil
				s.adopt(st, p, rest)
				if p.site != st.site {
					carried += len(st.set)
				}
				for _, q := range st.set {
					had[q.kind]--
				}
				require.Equal(t, had, rest)
				for _, n := range rest {
					require.GreaterOrEqual(t, n, 0)
				}
			}
		}
	}
	require.Positive(t, carried)
}

// The patterns chosen for a frame are worth what they set of the pots there
// are: none is counted twice.
func TestLawChoiceCountsEveryPotOnce(t *testing.T) {
	s := searched(t, sample(t, "studio"), 1, 12000)
	for _, d := range s.field[:min(len(s.field), 12)] {
		bare, err := s.bare(d)
		require.NoError(t, err)
		rest := s.availFor(bare)
		c := s.choose(bare.storeys, rest)
		worth := 0.0
		left := append([]int(nil), rest...)
		for _, i := range tallestFirst(bare.storeys) {
			if c.picks[i] == nil {
				continue
			}
			for k, n := range c.picks[i].counts {
				n = min(n, left[k])
				left[k] -= n
				worth += float64(n) * s.context.weight(k)
			}
		}
		require.InDelta(t, worth, c.worth, 1e-6)
		for k, price := range s.prices {
			require.GreaterOrEqual(t, price, 0.0)
			require.LessOrEqual(t, price, s.context.weight(k)+1e-9)
		}
	}
}

// Every kept pattern of a class is worth keeping: none holds no more than
// another that is no taller.
func TestLawPoolHoldsNoPatternThatAnotherCovers(t *testing.T) {
	s := searched(t, sample(t, "newcomer"), 1, 12000)
	require.NotEmpty(t, s.pool.of)
	for _, list := range s.pool.of {
		require.LessOrEqual(t, len(list), mostPatterns)
		for i, p := range list {
			for j, q := range list {
				require.False(t, i != j && q.need <= p.need && covers(q.counts, p.counts))
			}
		}
	}
}

// A walk never loses its record, and what it holds passes the check.
func TestLawWalkKeepsItsRecord(t *testing.T) {
	t.Parallel()
	s := searched(t, sample(t, "studio"), 2, 12000)
	w := &walk{at: s.best, best: s.best}
	for range 12 {
		before := w.best
		record := s.step(w)
		require.Equal(t, record, w.best.beats(before))
		require.False(t, before.beats(w.best))
		require.GreaterOrEqual(t, w.at.value, (1-walkLoss)*w.best.value-1e-9)
		require.Zero(t, w.best.report.Problems)
	}
}
