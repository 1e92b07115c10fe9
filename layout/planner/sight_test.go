package planner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// platters is a load of low wide ware, one to a level, whose posts of 50 carry
// so many levels. Only the top level takes the cone pack, under the lid; the
// spyhole lies low, and a level for the pack before it takes two rows of posts.
func platters(levels int, height float64) *layout.Load {
	l := single(410, height, 12, map[float64]int{25: 3, 50: 3 * (levels - 1)}, cylinder("platter", 11, 36, 270))
	for i := range l.Ware {
		l.Ware[i].Clay.Cone = "6"
	}
	l.Kiln.Spyholes = []layout.Spyhole{{At: 180, Height: 230}}
	l.Cones = []layout.ConePack{{Name: "cones", Watched: true}}
	return l
}

// toldSight is what a plan tells of the cones in sight, with what it costs.
func toldSight(t *testing.T, p *Plan) string {
	t.Helper()
	require.NoError(t, CostWishes(p, always))
	for _, w := range p.Wishes {
		if w.Wish == "cones in sight" {
			return w.Say()
		}
	}
	return ""
}

// unseenPacks are the findings of a plan that tell of packs out of sight.
func unseenPacks(p *Plan) (says []string) {
	for _, f := range p.Report.Findings {
		if _, ok := isUnseen(f); ok {
			says = append(says, f.Sentence)
		}
	}
	return says
}

// One platter in seven is more than sight is worth: the pack stands unseen on
// the top level, a watch says so, and the plan says what seeing it would cost.
func TestConesStandUnseenWhereSightCostsMuch(t *testing.T) {
	t.Parallel()
	p := planned(t, platters(7, 530), 1, 6000)
	require.Equal(t, 7, setOf(p, "platter"))
	require.Equal(t, 1, setOf(p, "cones"), "the pack itself always goes in")
	require.Equal(t, []string{"The cones on level 7 cannot be seen from the hole at 6: they stand too far off its line."}, unseenPacks(p))
	require.Equal(t, 1, p.Report.Watches)
	require.Equal(t, "Cones in sight: not kept. They stand on level 7. A plan that keeps it sets 1 platter less.", toldSight(t, p))
}

// Where the posts make no level for the pack before the spyhole, the plan says
// that instead.
func TestConesStandUnseenWhereNothingShowsThem(t *testing.T) {
	t.Parallel()
	l := platters(7, 530)
	l.Kiln.Spyholes[0].Height = 30 // lower than any tip can be
	p := planned(t, l, 1, 4000)
	require.Equal(t, 7, setOf(p, "platter"))
	require.Equal(t, 1, setOf(p, "cones"))
	require.Len(t, unseenPacks(p), 1)
	require.Equal(t, "Cones in sight: not kept. They stand on level 7. No way to stack that was tried brings them before a spyhole.", toldSight(t, p))
}

// A cup in eighty is less than sight is worth: the pack is seen, and where that
// keeps some out, the plan says so.
func TestConesAreSeenWhereSightCostsLittle(t *testing.T) {
	t.Parallel()
	l := single(410, 400, 4, map[float64]int{25: 3, 100: 9}, cylinder("cup", 90, 86, 70))
	l.Kiln.Spyholes = []layout.Spyhole{{At: 180, Height: 230}}
	l.Cones = []layout.ConePack{{Name: "cones", Watched: true}}
	p := planned(t, l, 1, 20000)
	require.Empty(t, unseenPacks(p))
	require.Equal(t, 1, setOf(p, "cones"))
	require.Less(t, setOf(p, "cup"), 90, "the kiln is full")
	require.Regexp(t, `^Cones in sight: kept\.( A plan without it sets \d cups? more\.)?$`, toldSight(t, p))
}

// TestLawSightIsWeighed: of two candidates the one that shows the cones goes
// before, down to sightShare of the value, and never before a must or a plan
// with fewer watches.
func TestLawSightIsWeighed(t *testing.T) {
	seen := func(value float64) *candidate { return &candidate{value: value} }
	unseen := func(value float64) *candidate { return &candidate{value: value, unseen: 1} }
	require.True(t, seen(100*(1-sightShare)+0.1).beats(unseen(100)))
	require.True(t, unseen(100).beats(seen(100*(1-sightShare)-0.1)))
	require.True(t, seen(100*(1-sightShare)).beats(unseen(100)), "of equals the one that shows them")
	require.True(t, (&candidate{musts: 2, value: 50, unseen: 1}).beats(seen(100)))
	require.True(t, (&candidate{value: 50, unseen: 1}).beats(&candidate{value: 100, watch: 1}))
}

// A locked pack that is seen stays seen: no pot is set before it. One that
// stands out of sight hinders nothing.
func TestALockedPackKeepsItsSight(t *testing.T) {
	t.Parallel()
	l := single(410, 400, 4, map[float64]int{25: 3, 100: 9}, cylinder("cup", 90, 86, 70))
	l.Kiln.Spyholes = []layout.Spyhole{{At: 180, Height: 230}}
	l.Cones = []layout.ConePack{{Name: "cones", Watched: true}}
	p := planned(t, l, 1, 4000)
	require.Empty(t, unseenPacks(p))
	again := p.Load.Clone()
	lock := func(l *layout.Load) {
		for i := range l.Towers {
			for j := range l.Towers[i].Levels {
				for k := range l.Towers[i].Levels[j].Set {
					set := &l.Towers[i].Levels[j].Set[k]
					set.Locked = set.Pot.Ware == "cones"
				}
			}
		}
	}
	lock(again)
	q := planned(t, again, 1, 4000)
	require.Empty(t, unseenPacks(q))
	require.GreaterOrEqual(t, setOf(q, "cup"), setOf(p, "cup")*9/10)

	again.Kiln.Spyholes[0].Height = 30
	r := planned(t, again, 1, 4000)
	require.Len(t, unseenPacks(r), 1)
	require.Positive(t, setOf(r, "cup"))
	b, err := stacks.Build(r.Load)
	require.NoError(t, err)
	require.NotEmpty(t, b.Pots)
}

// TestLawAPackSetBeforeASpyholeIsSeen: while nothing but the packs stands, those
// that were given a line of sight are seen, whatever the design: no shelf and no
// post is in the line. The judge is the check.
func TestLawAPackSetBeforeASpyholeIsSeen(t *testing.T) {
	const designs = 25
	seen := 0
	for _, name := range []string{"small-round", "studio", "oval"} {
		s := searched(t, sample(t, name), 1, 3000)
		for _, d := range s.field[:min(len(s.field), designs)] {
			f, err := s.bare(d)
			if err != nil {
				continue
			}
			b := s.bareOf(f)
			require.NotNil(t, b)
			hidden := clearance.New(b).Unseen()
			for _, st := range f.storeys {
				for _, p := range st.fixed {
					if k := s.context.kinds[p.kind]; k.cones.Watched && st.keepsLineTo(p.at) {
						require.NotContains(t, hidden, k.name, name)
						seen++
					}
				}
			}
		}
	}
	t.Logf("%d packs before a spyhole", seen)
	require.Greater(t, seen, 15)
}
