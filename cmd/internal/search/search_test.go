package search

import (
	"context"
	"errors"
	"os"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/planner"
	"threepost/layout/stacks"
)

// sample reads a load of testdata.
func sample(t *testing.T, name string) *layout.Load {
	t.Helper()
	text, err := os.ReadFile("../../../testdata/loads/" + name + ".toml")
	require.NoError(t, err)
	l, err := document.Parse(name, text)
	require.NoError(t, err)
	return l
}

// made runs a plan to its end and gives all that was told on the way.
func made(t *testing.T, l *layout.Load, want Wanted, enough func() bool) (last *planner.Plan, told []Report) {
	t.Helper()
	refused, found, err := Run(context.Background(), l, want, enough, func(r Report) error {
		told = append(told, r)
		return nil
	})
	require.NoError(t, err)
	require.Empty(t, refused)
	require.NotNil(t, found)
	require.True(t, told[len(told)-1].Done)
	return told[len(told)-1].Plan, told
}

// TestLawSamePlanOnOneCoreAndTwo: the same load, seed and work give the same
// bytes and the same reports, whatever the cores.
func TestLawSamePlanOnOneCoreAndTwo(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	names, work := []string{"newcomer"}, int64(31000)
	if os.Getenv("THREEPOST_LONG") != "" {
		names, work = []string{"newcomer", "small-round", "studio"}, 201000
	} else {
		t.Log("one load and a little work; THREEPOST_LONG=1 takes three")
	}
	for _, name := range names {
		var first []byte
		var steps []Report
		for _, cores := range []int{1, 2} {
			runtime.GOMAXPROCS(cores)
			p, told := made(t, sample(t, name), Wanted{Seed: 7, Work: work}, nil)
			text := document.Format(p.Load)
			for i := range told {
				told[i].Plan = nil
			}
			if first == nil {
				first, steps = text, told
				require.Positive(t, p.Set)
				continue
			}
			require.Equal(t, string(first), string(text), "%s on %d", name, cores)
			require.Equal(t, steps, told)
		}
	}
}

// TestATimedRunCanBeRepeatedByItsWork: what time has ended, its work gives
// again.
func TestATimedRunCanBeRepeatedByItsWork(t *testing.T) {
	looks := 0
	p, told := made(t, sample(t, "newcomer"), Wanted{Seed: 3}, func() bool { looks++; return looks >= 5 })
	work := told[len(told)-1].Work
	require.EqualValues(t, 5*Searches*slice, work)
	require.Equal(t, work, p.Work)
	again, _ := made(t, sample(t, "newcomer"), Wanted{Seed: 3, Work: work}, nil)
	require.Equal(t, string(document.Format(p.Load)), string(document.Format(again.Load)))
}

// TestReportsGrow: a plan that is told as better is, and every plan told
// passes the check.
func TestReportsGrow(t *testing.T) {
	_, told := made(t, sample(t, "newcomer"), Wanted{Seed: 1, Work: 60000}, nil)
	value, work, plans := 0.0, int64(0), 0
	for _, r := range told {
		require.Greater(t, r.Work, work)
		work = r.Work
		if r.Plan == nil {
			require.False(t, r.Better)
			continue
		}
		plans++
		require.Equal(t, r.Set, r.Plan.Set)
		require.GreaterOrEqual(t, r.Plan.Value, value)
		value = r.Plan.Value
		b, err := stacks.Build(r.Plan.Load)
		require.NoError(t, err)
		require.Zero(t, clearance.Check(b).Problems)
	}
	require.Greater(t, plans, 1)
}

// TestWhatWaitsIsSetAndAllElseStays takes pots off a planned load and plans
// what waits: shelves, posts and the other pots stand as they stood.
func TestWhatWaitsIsSetAndAllElseStays(t *testing.T) {
	l := sample(t, "reference/newcomer")
	top := &l.Towers[len(l.Towers)-1]
	level := &top.Levels[len(top.Levels)-1]
	require.NotEmpty(t, level.Set)
	taken := level.Set[0].Pot
	level.Set = level.Set[1:]
	if len(level.Set) > 0 {
		level.Set[0].Locked = true
	}
	p, told := made(t, l, Wanted{Seed: 1, Work: 40000, Waiting: true}, nil)
	require.Equal(t, p.Of, p.Set, "%v waits", taken)
	require.Positive(t, told[len(told)-1].Set)
	require.Len(t, p.Load.Towers, len(l.Towers))
	added := 0
	for i, tower := range l.Towers {
		now := p.Load.Towers[i]
		require.Equal(t, tower.Lines, now.Lines)
		require.Equal(t, tower.On, now.On)
		require.Len(t, now.Levels, len(tower.Levels))
		for j, was := range tower.Levels {
			is := now.Levels[j]
			require.Equal(t, was.Shelves, is.Shelves)
			require.Equal(t, was.Posts, is.Posts)
			require.Equal(t, was.Locked, is.Locked)
			require.Equal(t, was.Standing, is.Standing)
			require.Subset(t, is.Set, was.Set, "pots stand where they stood, locked only where they were")
			added += len(is.Set) - len(was.Set)
		}
	}
	require.Equal(t, 1, added)
}

func TestRefusalsAndEnds(t *testing.T) {
	l := sample(t, "newcomer")
	l.Furniture.Posts = nil
	why, found, err := Run(context.Background(), l, Wanted{}, nil, func(Report) error { return nil })
	require.NoError(t, err)
	require.Nil(t, found)
	require.NotEmpty(t, why)

	ctx, stop := context.WithCancel(context.Background())
	n := 0
	_, _, err = Run(ctx, sample(t, "studio"), Wanted{Seed: 1}, nil, func(Report) error {
		if n++; n == 3 {
			stop()
		}
		return nil
	})
	require.ErrorIs(t, err, context.Canceled)
	require.Equal(t, 3, n)

	gone := errors.New("who asked has gone")
	_, _, err = Run(context.Background(), sample(t, "newcomer"), Wanted{Seed: 1}, nil, func(Report) error { return gone })
	require.ErrorIs(t, err, gone)
}
