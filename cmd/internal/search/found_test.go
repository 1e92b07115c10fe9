package search

import (
	"context"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/stacks"
)

// TestLawSamePlansOnOneCoreAndTwo: the plans that differ are the same bytes
// whatever the cores, sound, and the one that was told is among them.
func TestLawSamePlansOnOneCoreAndTwo(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	var first []string
	for _, cores := range []int{1, 2} {
		runtime.GOMAXPROCS(cores)
		var last Report
		_, found, err := Run(context.Background(), sample(t, "newcomer"), Wanted{Seed: 7, Work: 21000}, nil, func(r Report) error {
			last = r
			return nil
		})
		require.NoError(t, err)
		plans, err := found.Plans(context.Background(), last.Plan)
		require.NoError(t, err)
		require.Greater(t, len(plans), 1)
		var texts []string
		for _, p := range plans {
			b, err := stacks.Build(p.Load)
			require.NoError(t, err)
			require.Zero(t, clearance.Check(b).Problems)
			texts = append(texts, string(document.Format(p.Load)))
		}
		require.Contains(t, texts, string(document.Format(last.Plan.Load)))
		if first == nil {
			first = texts
		}
		require.Equal(t, first, texts)
	}
}

func TestPlansEndWithTheContext(t *testing.T) {
	p, _ := made(t, sample(t, "newcomer"), Wanted{Seed: 1, Work: 5000}, nil)
	_, found, err := Run(context.Background(), sample(t, "newcomer"), Wanted{Seed: 1, Work: 5000}, nil, func(Report) error { return nil })
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err = found.Plans(ctx, p)
	require.ErrorIs(t, err, context.Canceled)
}
