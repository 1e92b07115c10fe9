package planner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
)

// bought is what a Buyer finds that works to its end.
func bought(l *layout.Load, p *Plan, work int64) (Buying, error) {
	y, err := StartBuying(l, p, work)
	if err != nil {
		return Buying{Work: work}, err
	}
	for done := false; !done; {
		if done, err = y.Step(max(work, 1)); err != nil {
			return y.Now(), err
		}
	}
	return y.Now(), nil
}

// TestOneMoreShelfIsWorthBuying: small-round with two of its four shelves, and
// posts in plenty. Only another shelf makes another level, so a shelf comes
// first, what is told with it is what its own plan sets, and that plan passes
// the check with the shelf owned.
func TestOneMoreShelfIsWorthBuying(t *testing.T) {
	t.Parallel()
	l := sample(t, "small-round")
	l.Furniture.Shelves[0].Count = 2
	before := document.Format(l)
	p := planned(t, l, 1, 6000)
	b, err := bought(l, p, 6000)
	require.NoError(t, err)
	require.Equal(t, before, document.Format(l), "the load is left as it is")
	require.NotEmpty(t, b.Worth)
	require.LessOrEqual(t, len(b.Worth), toldPurchases)
	require.LessOrEqual(t, b.Tried, mostPurchases)
	first := b.Worth[0]
	require.Contains(t, first.What, "one full shelf")
	require.Equal(t, 3, first.Plan.Load.Furniture.Shelves[0].Count)
	requireSound(t, first.Plan)
	for i, w := range b.Worth {
		require.Positive(t, w.More)
		require.Positive(t, w.Worth)
		more := 0
		for _, g := range w.Ware {
			more += g.Count
			require.NotZero(t, g.Count)
			require.LessOrEqual(t, g.Count, setOf(w.Plan, g.Ware))
		}
		require.Equal(t, w.More, more)
		require.Regexp(t, `^Worth buying next: (one full shelf|three posts of \d+).*: \d+ more .*\.$`, b.Say()[i])
	}
	require.Regexp(t, `^So say plans with \d+ purchases, by 6000 units of work each\.$`, b.Say()[len(b.Worth)])
}

// TestBuyingInSlicesIsTheSame: work in small steps finds what it finds in one
// go, and can be stopped after any of them.
func TestBuyingInSlicesIsTheSame(t *testing.T) {
	l := sample(t, "small-round")
	l.Furniture.Shelves[0].Count = 2
	p := planned(t, l, 1, 3000)
	whole, err := bought(l, p, 400)
	require.NoError(t, err)
	y, err := StartBuying(l, p, 400)
	require.NoError(t, err)
	require.Equal(t, []string{"Stopped before the first of 12 purchases was planned with."}, y.Now().Say())
	last := 0
	for done := false; !done; {
		done, err = y.Step(150)
		require.NoError(t, err)
		now := y.Now()
		require.GreaterOrEqual(t, now.Tried, last)
		last = now.Tried
		if now.Tried > 0 && !done {
			require.Regexp(t, `\d+ of 12 purchases|^None of 12 purchases|^Stopped after \d+ of 12 purchases: none so far sets more|with 12 purchases`, now.Say()[len(now.Say())-1])
		}
	}
	require.Equal(t, whole.Say(), y.Now().Say())
	require.Equal(t, 12, last)
}

// TestBuyingForAnArrangementMadeByHand: what is given as it stands is bettered
// by more than what it leaves out, so only what more work does not find counts.
func TestBuyingForAnArrangementMadeByHand(t *testing.T) {
	l := sample(t, "small-round")
	l.Furniture.Shelves[0].Count = 2
	l.Ware[0].Must = layout.MustGo
	p := planned(t, l, 1, 3000)
	b := requireSound(t, p)
	given, err := Given(b.Load, p.Report)
	require.NoError(t, err)
	x, err := bought(b.Load, given, 400)
	require.NoError(t, err)
	y, err := bought(l, p, 400)
	require.NoError(t, err)
	require.Equal(t, y.Say(), x.Say())
}

// TestNothingToBuyWhereAllIsSet: no work is spent and nothing is told.
func TestNothingToBuyWhereAllIsSet(t *testing.T) {
	l := sample(t, "small-round")
	b, err := bought(l, &Plan{Set: 30, Of: 30}, 6000)
	require.NoError(t, err)
	require.Zero(t, b.Tried)
	require.Empty(t, b.Say())
}

// TestNothingHelpsAPotHigherThanTheKiln, whatever is bought.
func TestNothingHelpsAPotHigherThanTheKiln(t *testing.T) {
	t.Parallel()
	l := sample(t, "newcomer")
	l.Ware = l.Ware[:1]
	l.Ware[0].Count, l.Ware[0].Height = 1, 1.5*l.Kiln.Height
	short := sample(t, "newcomer").Ware[0]
	short.Name, short.Count = "tumbler", 1
	l.Ware = append(l.Ware, short)
	p := planned(t, l, 1, 1000)
	require.Equal(t, 1, p.Set)
	b, err := bought(l, p, 300)
	require.NoError(t, err)
	require.Positive(t, b.Tried)
	require.Empty(t, b.Worth)
	require.Len(t, b.Say(), 1)
	require.Regexp(t, `^None of \d+ purchases sets more, by 300 units of work each\.$`, b.Say()[0])
}

// TestWhatIsLockedIsNotBuiltAnew, so nothing is tried.
func TestWhatIsLockedIsNotBuiltAnew(t *testing.T) {
	l := sample(t, "newcomer")
	l.Ware[0].Count = 40
	p := planned(t, l, 1, 1000)
	require.Less(t, p.Set, p.Of)
	stands := p.Load.Clone()
	stands.Towers[0].Levels[0].Locked = true
	b, err := bought(stands, p, 1000)
	require.NoError(t, err)
	require.True(t, b.Kept)
	require.Zero(t, b.Tried)
	require.Len(t, b.Say(), 1)
}

// TestPurchasesAreFewAndWhole: posts in threes, of a section that is owned, no
// height twice, no cracked shelf, and each leaves the load it is not bought for.
func TestPurchasesAreFewAndWhole(t *testing.T) {
	for _, units := range []measure.Units{measure.MM, measure.Inches} {
		l := sample(t, "small-round")
		l.Units = units
		cracked := l.Furniture.Shelves[0]
		cracked.Name, cracked.Cracked = "cracked", true
		l.Furniture.Shelves = append(l.Furniture.Shelves, cracked)
		before := document.Format(l)
		count := func(l *layout.Load) (posts, shelves int) {
			for _, p := range l.Furniture.Posts {
				posts += p.Count
				require.NotEmpty(t, p.Section.Kind)
			}
			for _, s := range l.Furniture.Shelves {
				shelves += s.Count
			}
			return posts, shelves
		}
		posts, shelves := count(l)
		seen := map[string]bool{}
		all := purchases(l)
		require.LessOrEqual(t, len(all), mostPurchases)
		for _, a := range all {
			require.False(t, seen[a.say], a.say)
			seen[a.say] = true
			require.NotContains(t, a.say, "cracked")
			with := l.Clone()
			a.apply(with)
			p, s := count(with)
			require.Contains(t, [][2]int{{3, 0}, {0, 1}, {3, 1}}, [2]int{p - posts, s - shelves}, a.say)
		}
		require.Equal(t, before, document.Format(l))
	}
}
