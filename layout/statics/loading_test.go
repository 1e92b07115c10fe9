package statics

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

// thin is a light shelf on three posts with three heavy pots at its edge,
// between the posts, and one over post A.
func thin() (*maker, []int) {
	m := newMaker()
	l := m.level(m.tower(), round(400), plane.Vec{}, 0, 2, 25, 0.1, thirds(130)...)
	var pots []int
	for _, bearing := range []float64{60, 180, 300, 0} {
		at := plane.FromBearing(160, bearing)
		pots = append(pots, m.pot(l, 2, at[0], at[1]))
	}
	return m, pots
}

func TestThinShelfTipsWhileLoading(t *testing.T) {
	m, pots := thin()
	require.False(t, Weigh(m.b).Levels[0].Tips, "loaded, it stands")
	// The first pot brings the balance point 80 out where the side is 65 out.
	worst := LevelLoading(m.b, 0, pots)
	require.True(t, worst.Tips)
	require.InDelta(t, 65-80, worst.Margin, 1e-9)
	require.Equal(t, 0, worst.Step)
	require.Equal(t, Event{SetPot, pots[0]}, worst.After)
	// Over the post first it never tips.
	better := LevelLoading(m.b, 0, []int{pots[3], pots[1], pots[0], pots[2]})
	require.False(t, better.Tips)
	require.Positive(t, better.Margin)
}

func TestBareShelfIsAMoment(t *testing.T) {
	m := newMaker()
	// A half shelf on three posts of a line near its edge: the bare shelf tips.
	l := m.level(m.tower(), half(400), plane.Vec{}, 0, 5, 25, 0.1, plane.Vec{-150, 20}, plane.Vec{150, 20}, plane.Vec{0, 60})
	pot := m.pot(l, 10, 0, 30)
	worst := LevelLoading(m.b, l, []int{pot})
	require.True(t, worst.Tips)
	require.Equal(t, SetShelf, worst.After.Kind)
	require.Equal(t, -1, worst.Step)
}

func TestTrialForetells(t *testing.T) {
	m, pots := thin()
	trial := NewTrial(m.b, 0)
	for _, pot := range pots {
		margin, tips := trial.With(pot)
		got := trial.Set(pot)
		require.InDelta(t, got.Margin, margin, 1e-9)
		require.Equal(t, got.Tips, tips)
	}
}

// TestUpperSideUnbalancesTheBase: one loaded side on a base whose three posts
// do not stand under it tips the base, long before the other side goes in.
func TestUpperSideUnbalancesTheBase(t *testing.T) {
	m := newMaker()
	base := m.level(m.tower(), round(660), plane.Vec{}, 0, 6, 25, 0.1, thirds(150)...)
	l := m.level(m.tower(base), half(660), plane.Vec{-3, 0}, 270, 6.9, 100, 0.3, plane.Vec{-28, 270}, plane.Vec{-28, -270}, plane.Vec{-290, 0})
	pot := m.pot(l, 12, -150, 0)
	var events []Event
	for _, level := range m.b.Levels {
		for _, i := range level.Posts {
			events = append(events, Event{SetPost, i})
		}
		for _, i := range level.Shelves {
			events = append(events, Event{SetShelf, i})
		}
	}
	events = append(events, Event{SetPot, pot})
	worst := WhileLoading(m.b, events)
	require.True(t, worst[0].Tips)
	require.False(t, worst[1].Tips)
	require.Equal(t, Event{SetPot, pot}, worst[0].After)
	require.Equal(t, len(events)-1, worst[0].Step)
}

func TestWhileLoadingPassesOverNonsense(t *testing.T) {
	m, _ := thin()
	worst := WhileLoading(m.b, []Event{{SetPost, -1}, {SetShelf, 99}, {SetPot, 1000}, {EventKind(9), 0}})
	require.Equal(t, -1, worst[0].Step)
	require.Equal(t, -1, LevelLoading(m.b, 7, []int{-4}).Step)
}

// Law: the last moment of loading is the state Weigh finds, and no moment is
// better than the worst.
func TestLawLoadingEndsAsWeighed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := randomLoad(t)
		var events []Event
		for _, level := range m.b.Levels {
			for _, i := range level.Posts {
				events = append(events, Event{SetPost, i})
			}
			for _, i := range level.Shelves {
				events = append(events, Event{SetShelf, i})
			}
			for _, i := range level.Pots {
				events = append(events, Event{SetPot, i})
			}
		}
		p := newPile(footings(m.b))
		for _, e := range events {
			p.settleFrom(p.put(e), func(int) {})
		}
		w := Weigh(m.b)
		worst := WhileLoading(m.b, events)
		for s := range m.b.Shelves {
			require.InDelta(t, w.Shelves[s].Result.Margin, p.rests[s].Margin, 1e-6)
			require.LessOrEqual(t, worst[s].Margin, w.Shelves[s].Result.Margin+1e-6)
		}
	})
}

func BenchmarkWhileLoading200Pots(b *testing.B) {
	m := newMaker()
	tower := m.tower()
	var events []Event
	for k := 0; k < 8; k++ {
		l := m.level(tower, round(660), plane.Vec{}, 0, 13.9, 100, 0.3, thirds(280)...)
		for _, i := range m.b.Levels[l].Posts {
			events = append(events, Event{SetPost, i})
		}
		events = append(events, Event{SetShelf, m.b.Levels[l].Shelves[0]})
		for i := 0; i < 25; i++ {
			at := plane.FromBearing(float64(i%10*28), float64(i*37))
			events = append(events, Event{SetPot, m.pot(l, 0.4, at[0], at[1])})
		}
	}
	for b.Loop() {
		WhileLoading(m.b, events)
	}
}
