package session

import (
	"encoding/json"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/planner"
)

// run is what a short run of the planner finds for the bare newcomer load.
var run = sync.OnceValues(func() (Laid, error) {
	s := bareSample(failing{}, "newcomer")
	search, err := planner.Start(s.Load(), 1)
	if err != nil {
		return Laid{}, err
	}
	search.Step(24000)
	plans := search.Plans()
	told := plans[0]
	b, err := planner.Bound(told.Load)
	if err != nil {
		return Laid{}, err
	}
	price, err := planner.Closer(told)
	if err != nil {
		return Laid{}, err
	}
	return Laid{Text: string(document.Format(s.Load())), Bound: LayBound(b, planner.SayBound(b, told)),
		Plans: LayPlans(told, planner.Merge(told, plans...)), Price: LayPrice(price, told.Load)}, nil
})

// failing makes a failure of a shared fixture a failure of the test program.
type failing struct{}

func (failing) Errorf(format string, args ...any) { panic(format) }
func (failing) FailNow()                          { panic("the fixture cannot be made") }

// laidBeside is the newcomer load with the first plan standing and all beside.
func laidBeside(t *testing.T) (*Session, Laid) {
	t.Helper()
	l, err := run()
	require.NoError(t, err)
	// As it comes from another machine.
	data, err := json.Marshal(l)
	require.NoError(t, err)
	var laid Laid
	require.NoError(t, json.Unmarshal(data, &laid))
	s := bareSample(t, "newcomer")
	_, err = s.Offer(s.Revision(), laid.Plans[0].Edit, "")
	require.NoError(t, err)
	_, err = s.Lay(laid)
	require.NoError(t, err)
	return s, laid
}

func TestPlansLieBesideTheLoad(t *testing.T) {
	s, laid := laidBeside(t)
	n, before := s.Revision(), textOf(t, s)
	w := s.State().Ways
	require.NotNil(t, w)
	require.Equal(t, 0, w.Mine, "the plan that was told stands")
	require.Len(t, laid.Plans, w.Plans)
	require.Regexp(t, `^\d plans: \d+(, \d+)+ set$`, w.Says)
	require.NotEmpty(t, w.Bound)
	require.Equal(t, laid.Bound.Says, w.Bound, "in the load's own units it is the planner's sentence")
	c, err := s.Compare()
	require.NoError(t, err)
	require.Len(t, c.Columns, len(laid.Plans))
	for i, p := range c.Columns {
		require.Equal(t, i == 0, p.Mine)
		require.Equal(t, laid.Plans[i].Set, p.Set)
		require.NotEmpty(t, p.Title)
		require.InDelta(t, laid.Plans[i].Value/laid.Plans[0].Value, p.Share, 1e-9)
		require.Equal(t, "ok", p.Grade)
		require.Regexp(t, `^\d+ mm$`, p.Room)
		require.Regexp(t, `^(1 full, )?\d+ (half|full) shelv?f?e?s?, \d+ posts$`, p.Furniture)
		require.Empty(t, p.Refused)
	}
	require.Equal(t, "Keep this one", c.Columns[0].Act)
	require.Equal(t, "Take this one", c.Columns[1].Act)
	require.Empty(t, c.Note)
	require.Empty(t, c.Binds)
	require.Equal(t, "Room to the lid", c.Room)
	require.Equal(t, n, s.Revision())
	require.Equal(t, before, textOf(t, s), "looking changes nothing")
}

// TestLawTakingAPlanIsOneEdit: a plan that is taken is the load, passes the
// check, and one undo brings back what stood, to the byte.
func TestLawTakingAPlanIsOneEdit(t *testing.T) {
	s, laid := laidBeside(t)
	before := textOf(t, s)
	for i := 1; i < len(laid.Plans); i++ {
		st, err := s.TakeWay(i)
		require.NoError(t, err)
		require.Equal(t, laid.Plans[i].Set, st.Set)
		require.Zero(t, st.Problems)
		require.Equal(t, i, st.Ways.Mine)
		n := s.Revision()
		_, err = s.TakeWay(i)
		require.NoError(t, err)
		require.Equal(t, n, s.Revision(), "it stands already")
		_, err = s.Undo()
		require.NoError(t, err)
		require.Equal(t, before, textOf(t, s))
		require.Equal(t, 0, s.State().Ways.Mine)
	}
	_, err := s.TakeWay(len(laid.Plans))
	require.ErrorContains(t, err, "no such plan")
	_, err = s.TakeWay(-1)
	require.ErrorContains(t, err, "no such plan")
}

// TestCloserGapsAreWatches: the closer arrangement sets as many more as the
// price says, its gaps are found as watches, never as problems.
func TestCloserGapsAreWatches(t *testing.T) {
	s, laid := laidBeside(t)
	before, was := textOf(t, s), s.State()
	require.NotNil(t, was.Ways.Price)
	require.Contains(t, was.Ways.Price.Says, "4 mm")
	require.False(t, was.Ways.Price.Shown)
	st, err := s.ShowCloser()
	require.NoError(t, err)
	require.Equal(t, was.Set+laid.Price.More, st.Set)
	require.Equal(t, was.Watches+laid.Price.Watches, st.Watches)
	require.Equal(t, was.Problems, st.Problems)
	require.True(t, st.Ways.Price.Shown)
	require.Equal(t, -1, st.Ways.Mine)
	c, err := s.Compare()
	require.NoError(t, err)
	require.Contains(t, c.Note, "The closer arrangement stands")
	_, err = s.Undo()
	require.NoError(t, err)
	require.Equal(t, before, textOf(t, s))
}

func TestPlansGrowOldWithTheLoad(t *testing.T) {
	s, _ := laidBeside(t)
	// Moved by hand: they stay, and none of them stands.
	_, err := s.Apply([]layout.Edit{{Act: layout.Withdraw, Pot: s.State().Pots[len(s.State().Pots)-1].ID}}, "")
	require.NoError(t, err)
	require.Equal(t, -1, s.State().Ways.Mine)
	c, err := s.Compare()
	require.NoError(t, err)
	require.Contains(t, c.Note, "is none of these")
	// Other units and names ask for nothing else.
	_, err = s.SetUnits("in")
	require.NoError(t, err)
	require.False(t, s.State().Ways.Stale)
	c, err = s.Compare()
	require.NoError(t, err)
	require.Regexp(t, ` in$`, c.Columns[0].Room)
	s.SetWords(measure.UK)
	c, err = s.Compare()
	require.NoError(t, err)
	require.Contains(t, c.Columns[0].Furniture, "bats")
	// Other ware does.
	w := s.Load().Ware[0]
	w.Height += 5
	_, err = s.Apply([]layout.Edit{{Act: layout.SetWare, Ware: &w}}, "")
	require.NoError(t, err)
	require.True(t, s.State().Ways.Stale)
	c, err = s.Compare()
	require.NoError(t, err)
	require.Empty(t, c.Columns)
	n := s.Revision()
	_, err = s.TakeWay(1)
	require.ErrorContains(t, err, "as it was")
	_, err = s.ShowCloser()
	require.ErrorContains(t, err, "as it was")
	require.Equal(t, n, s.Revision())
	_, err = s.Undo()
	require.NoError(t, err)
	require.False(t, s.State().Ways.Stale)
}

// TestLocksBindThePlans: what is locked is not moved by another plan, and the
// column tells why; a lock that the plan keeps is kept.
func TestLocksBindThePlans(t *testing.T) {
	s, laid := laidBeside(t)
	for i := range s.Load().Towers {
		tower := s.Load().Towers[i].Name
		for v := range s.Load().Towers[i].Levels {
			_, err := s.Apply([]layout.Edit{{Act: layout.LockLevel, Tower: tower, Level: v + 1, On: true}}, "")
			require.NoError(t, err)
		}
	}
	require.Equal(t, 0, s.State().Ways.Mine, "a lock moves nothing")
	c, err := s.Compare()
	require.NoError(t, err)
	n := s.Revision()
	for i := 1; i < len(laid.Plans); i++ {
		require.Contains(t, c.Columns[i].Refused, "is locked, and this plan changes it")
		_, err = s.TakeWay(i)
		require.ErrorContains(t, err, "unlock it first")
	}
	require.Empty(t, c.Columns[0].Refused)
	require.Equal(t, n, s.Revision())

	s, _ = laidBeside(t)
	pot := s.State().Pots[0].ID
	_, err = s.Apply([]layout.Edit{{Act: layout.LockPot, Pot: pot, On: true}}, "")
	require.NoError(t, err)
	last := s.State().Pots[len(s.State().Pots)-1].ID
	_, err = s.Apply([]layout.Edit{{Act: layout.Withdraw, Pot: last}}, "")
	require.NoError(t, err)
	st, err := s.TakeWay(0)
	require.NoError(t, err)
	require.Equal(t, 0, st.Ways.Mine)
	locked := false
	for i := range st.Pots {
		locked = locked || st.Pots[i].ID == pot && st.Pots[i].Locked
	}
	require.True(t, locked, "what was locked is locked")
}

func TestLayRefusesWhatHasNoMeaning(t *testing.T) {
	s := bareSample(t, "newcomer")
	n := s.Revision()
	text := string(document.Format(s.Load()))
	for _, l := range []Laid{
		{Bound: &LaidBound{Set: 3}},
		{Text: "threepost = 1"},
		{Text: text, Plans: []LaidPlan{{Edit: layout.Edit{Act: layout.Withdraw}}}},
		{Text: text, Plans: []LaidPlan{{Edit: layout.Edit{Act: layout.Arrange, Towers: []layout.Tower{{Name: "a"}, {Name: "a"}}}}}},
		{Text: text, Price: &LaidPrice{Gap: 4, More: 1, Edit: &layout.Edit{Act: layout.SetPot}}},
	} {
		_, err := s.Lay(l)
		require.Error(t, err)
	}
	require.Equal(t, n, s.Revision())
	require.Nil(t, s.State().Ways)
	_, err := s.Compare()
	require.ErrorContains(t, err, "plan it first")
	_, _, _, err = s.WayBuilt(0)
	require.Error(t, err)
	_, err = s.ShowCloser()
	require.Error(t, err)
	// Piece by piece, in any order.
	_, err = s.Lay(Laid{Text: text})
	require.NoError(t, err)
	require.Nil(t, s.State().Ways)
	st, err := s.Lay(Laid{Price: &LaidPrice{Gap: 4}})
	require.NoError(t, err)
	require.Nil(t, st.Ways.Price, "a price that gains nothing is not told")
	st, err = s.Lay(Laid{Bound: &LaidBound{Set: 19, Value: 100}})
	require.NoError(t, err)
	require.Contains(t, st.Ways.Bound, "0 set.")
	require.Empty(t, st.Ways.Says)
}

// TestAPlanTellsWhatBoundIt: what was locked or stood when the load was planned.
func TestAPlanTellsWhatBoundIt(t *testing.T) {
	for _, c := range []struct {
		change func(*layout.Load)
		says   string
	}{
		{func(l *layout.Load) {}, ""},
		{func(l *layout.Load) { l.Towers[0].Levels[0].Set[0].Locked = true }, "1 lock held the plan"},
		{func(l *layout.Load) { l.Towers[0].Levels[0].Locked, l.Towers[0].Levels[1].Locked = true, true }, "2 locks held the plan"},
		{func(l *layout.Load) { l.Towers[0].Levels[0].Standing = true }, "The kiln is partly loaded"},
	} {
		s := sample(t, "small-round")
		l := s.Load().Clone()
		c.change(l)
		st, err := s.Lay(Laid{Text: string(document.Format(l)), Bound: &LaidBound{Set: 40}})
		require.NoError(t, err)
		require.NotNil(t, st.Ways)
		if c.says == "" {
			require.Empty(t, st.Ways.Binds)
			continue
		}
		require.Contains(t, st.Ways.Binds, c.says)
		require.Contains(t, st.Ways.Binds, "the levels over it were planned anew")
	}
}

// TestWishesLieBesideThePlans: a wish that the plan told pays for is told with
// its price while that plan stands, and one that is gone against by hand then.
func TestWishesLieBesideThePlans(t *testing.T) {
	s := bareSample(t, "newcomer")
	l := s.Load()
	row := l.Ware[0].Name
	_, err := s.SetUp("wishes", []byte(`{"off":[{"ware":"`+row+`","level":"top"}]}`))
	require.NoError(t, err)
	search, err := planner.Start(s.Load(), 1)
	require.NoError(t, err)
	search.Step(6000)
	p, ok := search.Best()
	require.True(t, ok)
	require.Len(t, p.Wishes, 1)
	p.Wishes[0].Cost = "A plan without it sets 2 mugs more."
	laid := Laid{Text: string(document.Format(s.Load())), Plans: LayPlans(p, []*planner.Plan{p}), Wishes: LayWishes(p.Wishes)}
	_, err = s.Offer(s.Revision(), laid.Plans[0].Edit, "")
	require.NoError(t, err)
	_, err = s.Lay(laid)
	require.NoError(t, err)
	w := s.State().Ways
	require.NotNil(t, w)
	require.Equal(t, []string{p.Wishes[0].Say()}, w.Wishes)
	require.Contains(t, w.Wishes[0], ": kept. A plan without it sets 2 mugs more.")

	// By hand onto the top level: the price was another plan's.
	b, _ := s.Built()
	var top, pot string
	for i := range b.Levels {
		if v := &b.Levels[i]; v.UnderLid {
			top = b.Towers[v.Tower].Name
		}
	}
	for i := range b.Pots {
		if b.Pots[i].Pot.Ware == row {
			pot = b.Pots[i].Pot.String()
		}
	}
	at := s.Load().Tower(top)
	_, err = s.Apply([]layout.Edit{{Act: layout.SetPot, Pot: pot, Tower: top, Level: len(at.Levels), At: &at.Lines[0].At}}, "")
	require.NoError(t, err)
	says := s.State().Ways.Wishes
	require.Len(t, says, 1)
	require.Contains(t, says[0], "off the top level: not kept. Some stand on ")
	require.NotContains(t, says[0], "without it")
}
