package planner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
)

// lowOverTall is a load planned when there were but tall posts: of its bowls some
// wait. Now there are lower posts too.
func lowOverTall(t *testing.T) *layout.Load {
	t.Helper()
	l := single(410, 480, 5, map[float64]int{25: 3, 150: 6}, cylinder("cup", 7, 80, 80), cylinder("bowl", 36, 60, 120))
	for i := range l.Ware {
		l.Ware[i].Clay.Cone = "6"
	}
	l = planned(t, l, 1, 4000).Load
	require.Len(t, l.Towers, 1)
	require.Len(t, l.Towers[0].Levels, 3)
	lower := l.Furniture.Posts[1]
	lower.Height, lower.Count = 75, 12
	l.Furniture.Posts = append(l.Furniture.Posts, lower)
	return l
}

// refilled is the plan that keeps every shelf and post of a load.
func refilled(t *testing.T, l *layout.Load, work int64) *Plan {
	t.Helper()
	c, err := newContext(l.Clone())
	require.NoError(t, err)
	s := newSearch(c, 1)
	kept := keptFrame(c)
	require.NotNil(t, kept)
	s.tasks = append(s.tasks, func() { s.refill(kept) })
	s.Step(work)
	p, ok := s.Best()
	require.True(t, ok)
	return p
}

// levelText is a level as the document writes it.
func levelText(l *layout.Load, tower, level int) string {
	bare := *l
	bare.Towers = layout.CloneTowers(l.Towers[tower : tower+1])
	bare.Towers[0].Levels = bare.Towers[0].Levels[level : level+1]
	bare.Accepted = nil
	return string(document.Format(&bare))
}

// Over a locked level the others get posts of their own height, and more goes in
// than with the posts as they stand; the locked level is the same to the byte.
func TestLevelsOverALockedOneArePlannedAnew(t *testing.T) {
	t.Parallel()
	for _, stay := range []struct {
		name string
		mark func(*layout.Level)
	}{
		{"locked", func(v *layout.Level) { v.Locked = true }},
		{"standing", func(v *layout.Level) { v.Standing = true }},
		{"a locked pot", func(v *layout.Level) { v.Set[0].Locked = true }},
	} {
		t.Run(stay.name, func(t *testing.T) {
			l := lowOverTall(t)
			bottom := &l.Towers[0].Levels[0]
			require.NotEmpty(t, bottom.Set)
			stay.mark(bottom)
			was := levelText(l, 0, 0)
			p := planned(t, l, 1, 12000)
			requireSound(t, p)
			if stay.name != "a locked pot" {
				require.Equal(t, was, levelText(p.Load, 0, 0))
			} else {
				require.Contains(t, p.Load.Towers[0].Levels[0].Set, bottom.Set[0])
				require.Equal(t, bottom.Posts, p.Load.Towers[0].Levels[0].Posts)
			}
			less := refilled(t, l, 12000)
			t.Logf("%d set on %d levels, refilled %d on %d", p.Set, p.Levels, less.Set, less.Levels)
			require.Greater(t, p.Set, less.Set)
			require.Greater(t, p.Value, less.Value)
		})
	}
}

// TestLawWhatStaysIsNeverPlannedWorse: keeping what is locked, a plan is never
// worse than the one that only refills.
func TestLawWhatStaysIsNeverPlannedWorse(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"newcomer", "small-round"} {
		p := planned(t, sample(t, name), 1, 4000)
		for level := range p.Load.Towers[0].Levels {
			l := p.Load.Clone()
			l.Towers[0].Levels[level].Locked = true
			q := planned(t, l, 1, 6000)
			requireSound(t, q)
			less := refilled(t, l, 1)
			require.GreaterOrEqual(t, q.musts, less.musts-1e-9, "%s level %d", name, level+1)
			require.GreaterOrEqual(t, q.Value, less.Value-1e-9, "%s level %d", name, level+1)
			require.Equal(t, levelText(l, 0, level), levelText(q.Load, 0, level), "%s level %d", name, level+1)
		}
	}
}

// What a locked pack of a side tower stands on stays too, shelf and posts.
func TestWhatStaysIsCarriedDown(t *testing.T) {
	l := sample(t, "reference/newcomer")
	side := -1
	for i := range l.Towers {
		if !onFloor(&l.Towers[i]) && len(l.Towers[i].Levels[0].Set) > 0 {
			side = i
		}
	}
	require.GreaterOrEqual(t, side, 0, "a side stands on the base")
	l.Towers[side].Levels[0].Set[0].Locked = true
	c, err := newContext(l.Clone())
	require.NoError(t, err)
	keptFrame(c)
	r := restOfKept(c)
	require.NotNil(t, r)
	on := l.Towers[side].On[0]
	for i := range l.Towers {
		switch {
		case l.Towers[i].Name == on.Tower:
			require.Equal(t, on.Level, r.stands.Towers[i].Levels)
		case i == side:
			require.Equal(t, 1, r.stands.Towers[i].Levels)
		}
	}
	require.Len(t, r.stands.Pots, 1)
	require.False(t, r.locks)
}

// A problem in what is locked is not planned round: the search says so.
func TestWhatStaysWithAProblemIsRefused(t *testing.T) {
	l := lowOverTall(t)
	v := &l.Towers[0].Levels[0]
	v.Locked = true
	require.Greater(t, len(v.Set), 1)
	v.Set[1].At = v.Set[0].At
	s, err := Start(l, 1)
	require.NoError(t, err)
	s.Step(4000)
	_, ok := s.Best()
	require.False(t, ok)
	require.Contains(t, s.Refused(), "What is locked or already stands has a problem of its own.")
}
