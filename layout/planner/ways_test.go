package planner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// searched is a search after so much work.
func searched(t testing.TB, l *layout.Load, seed uint64, work int64) *Search {
	t.Helper()
	s, err := Start(l, seed)
	require.NoError(t, err)
	s.Step(work)
	return s
}

// Three plans, each sound, no two stacked alike, the best first, and each tells
// how it differs.
func TestPlansDiffer(t *testing.T) {
	t.Parallel()
	works := map[string]int64{"newcomer": 16000, "studio": 22000, "small-round": 8000}
	for _, name := range shortOr(t, "samples", []string{"newcomer"}, []string{"newcomer", "studio", "small-round"}) {
		work := works[name]
		s := searched(t, sample(t, name), 1, work)
		plans := s.Plans()
		require.Len(t, plans, 3, name)
		seen := map[string]bool{}
		for i, p := range plans {
			b := requireSound(t, p)
			require.Equal(t, len(b.Levels), p.Levels)
			require.NotEmpty(t, p.Split)
			require.Positive(t, p.Pieces)
			require.GreaterOrEqual(t, p.Value, worthWhile*plans[0].Value-1e-9)
			require.LessOrEqual(t, p.Value, plans[0].Value+1e-9)
			stack := ""
			for _, tw := range p.Load.Towers {
				for _, v := range tw.Levels {
					stack += tw.Name + " " + v.Shelves[0].Kind + " " + stacks.SayPosts(v.Posts, measure.MM) + "; "
				}
			}
			require.False(t, seen[stack], "%s: plan %d is stacked as another", name, i)
			seen[stack] = true
			require.Equal(t, i > 0, p.Differs != "", p.Differs)
			t.Logf("%s %d: %d set, %.1f of %.1f, %s, %d levels, %d pieces. %s", name, i+1, p.Set, p.Value, p.Whole, p.Split, p.Levels, p.Pieces, p.Differs)
		}
	}
}

// The same load, seed and work give the same plans, and showing them does not
// move the search on.
func TestLawPlansDoNotChangeTheSearch(t *testing.T) {
	t.Parallel()
	work := shortOr[int64](t, "work", 5000, 9000)
	a, b := searched(t, sample(t, "newcomer"), 2, work), searched(t, sample(t, "newcomer"), 2, work)
	first := a.Plans()
	again := a.Plans()
	other := b.Plans()
	require.Len(t, again, len(first))
	for i := range first {
		text := string(document.Format(first[i].Load))
		require.Equal(t, text, string(document.Format(again[i].Load)))
		require.Equal(t, text, string(document.Format(other[i].Load)))
	}
	c := searched(t, sample(t, "newcomer"), 2, work)
	a.Step(3000)
	c.Step(3000)
	x, _ := a.Best()
	y, _ := c.Best()
	require.Equal(t, string(document.Format(y.Load)), string(document.Format(x.Load)))
	require.Equal(t, y.Work, x.Work)
}

// Looking at the best plan, or at all of them, on the way changes none of them.
func TestLawPlansAreAlikeHoweverOftenOneLooks(t *testing.T) {
	t.Parallel()
	quiet := searched(t, sample(t, "small-round"), 4, 9000).Plans()
	s, err := Start(sample(t, "small-round"), 4)
	require.NoError(t, err)
	for i := range 3 {
		s.Step(3000)
		s.Best()
		if i == 1 {
			s.Plans()
		}
	}
	best, ok := s.Best()
	require.True(t, ok)
	looked := s.Plans()
	require.Len(t, looked, len(quiet))
	require.Greater(t, len(quiet), 1)
	seen := false
	for i := range quiet {
		require.Equal(t, string(document.Format(quiet[i].Load)), string(document.Format(looked[i].Load)), "plan %d", i+1)
		require.Equal(t, quiet[i].Differs, looked[i].Differs)
		require.Equal(t, quiet[i].Work, looked[i].Work)
		seen = seen || string(document.Format(best.Load)) == string(document.Format(looked[i].Load))
	}
	require.True(t, seen, "the best plan is among them")
}

// A load of which some stands has one plan.
func TestPlansOfALoadThatStands(t *testing.T) {
	l := sample(t, "reference/newcomer")
	l.Towers[0].Levels[0].Standing = true
	require.Len(t, searched(t, l, 1, 4000).Plans(), 1)
}

// Forty mugs more than go in at 6 mm: some go in at 4, no row loses a pot, the
// watches are told to the one, and there is no problem.
func TestCloserTellsGainAndPrice(t *testing.T) {
	t.Parallel()
	l := sample(t, "small-round")
	for i := range l.Ware {
		l.Ware[i].Count *= 2
	}
	p := planned(t, l, 1, shortOr[int64](t, "work", 9000, 30000))
	price, err := Closer(p)
	require.NoError(t, err)
	t.Logf("%d of %d set. %s", p.Set, p.Of, price.Say(measure.MM))
	require.Equal(t, 4.0, price.Gap)
	require.Positive(t, price.More)
	require.Positive(t, price.Gaps)
	b, err := stacks.Build(price.Load)
	require.NoError(t, err)
	r := clearance.Check(b)
	require.Zero(t, r.Problems)
	require.Equal(t, price.Watches, r.Watches-p.Report.Watches)
	require.Equal(t, p.Load.Rules, price.Load.Rules)
	now := &Plan{Load: price.Load}
	more := 0
	for _, g := range price.Ware {
		require.Positive(t, g.Count)
		require.Equal(t, setOf(p, g.Ware)+g.Count, setOf(now, g.Ware))
		more += g.Count
	}
	require.Equal(t, price.More, more)
	for _, w := range l.Ware {
		require.GreaterOrEqual(t, setOf(now, w.Name), setOf(p, w.Name))
	}
	again, err := Closer(p)
	require.NoError(t, err)
	require.Equal(t, string(document.Format(price.Load)), string(document.Format(again.Load)))
}

// Where all is set, or the rules leave no gap to shrink, there is nothing to
// tell; where nothing more goes in, that is told.
func TestCloserWhereNothingIsAdded(t *testing.T) {
	t.Parallel()
	l := sample(t, "newcomer")
	l.Ware = l.Ware[:1]
	price, err := Closer(planned(t, l, 1, 6000))
	require.NoError(t, err)
	require.Empty(t, price.Say(measure.MM))

	l = sample(t, "bisque")
	l.Ware[0].Count *= 40
	price, err = Closer(planned(t, l, 1, 8000))
	require.NoError(t, err)
	require.Zero(t, price)

	l = single(300, 200, 1, map[float64]int{25: 3}, cylinder("plate", 2, 30, 220))
	price, err = Closer(planned(t, l, 1, 2000))
	require.NoError(t, err)
	require.Equal(t, Price{Gap: 4}, price)
	require.Equal(t, "Gaps of 4 mm let no pot more in on these levels.", price.Say(measure.MM))
}

// The words.
func TestPriceSay(t *testing.T) {
	for _, tt := range []struct {
		p    Price
		want string
	}{
		{Price{Gap: 4, More: 2, Ware: []Gain{{"mug", 2}}, Gaps: 11, Watches: 11}, "2 more mugs if 11 gaps shrink to 4 mm. Price: 11 watches."},
		{Price{Gap: 4, More: 1, Ware: []Gain{{"mug", 1}}, Gaps: 1, Watches: 1}, "1 more mug if 1 gap shrinks to 4 mm. Price: 1 watch."},
		{Price{Gap: 4, More: 5, Ware: []Gain{{"mug", 3}, {"bowl", 2}}, Gaps: 31, Watches: 31}, "5 more if 31 gaps shrink to 4 mm. Price: 31 watches."},
	} {
		require.Equal(t, tt.want, tt.p.Say(measure.MM))
	}
}
