package planner

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/order"
	"threepost/layout/stacks"
)

// TestLawEveryPlanPassesTheCheck plans every sample and checks the plan anew
// from its text: no problem, no avoidable watch, no cycle in the order. Of the
// same search it is held that the eye likes it, that watched packs are seen,
// that no pot stands under a probe, that finishing loses nothing, and that it
// goes on to reach its reference.
func TestLawEveryPlanPassesTheCheck(t *testing.T) {
	t.Parallel()
	long := os.Getenv("THREEPOST_LONG") != ""
	if !long {
		t.Log("finishing is held against two of the six; THREEPOST_LONG=1 takes all")
	}
	for _, name := range samples() {
		t.Run(name, func(t *testing.T) {
			s := searched(t, sample(t, name), 1, seenWork)
			early := s.planOf(s.best)
			for _, c := range early.Load.Cones {
				require.Equal(t, 1, setOf(early, c.Name), "%s: %s", name, c.Name)
			}
			requireSound(t, early)
			s.Step(20000 - seenWork)
			p, ok := s.Best()
			require.True(t, ok)
			b := requireSound(t, p)
			_, cycles := order.Of(b)
			require.Empty(t, cycles)
			require.Positive(t, p.Set)
			for i := range b.Levels {
				require.NotEmpty(t, b.Levels[i].Pots, "%s stands for nothing", b.Levels[i].Name)
			}
			waits := 0
			for _, w := range p.Waits {
				require.NotEmpty(t, w.Reason)
				if p.Load.WareOf(layout.Pot{Ware: w.Ware}) != nil {
					waits += w.Count
				}
			}
			require.Equal(t, p.Of, p.Set+waits, "a pot neither stands nor waits")
			requireEye(t, name, p, b)
			if name == "front-loader" {
				requireSidesAlike(t, p, b)
			}
			for _, c := range p.Load.Cones {
				require.Equal(t, 1, setOf(p, c.Name), "%s: %s", name, c.Name)
			}
			requireOffProbes(t, b)
			requireReference(t, s, name)
			if long || name == "newcomer" || name == "front-loader" {
				requireFinished(t, s)
			}
		})
	}
}

// seenWork is the work after which every watched pack of the samples stands in
// sight: until then the front-loader's first designs are still being weighed.
const seenWork = 10000

// requireReference goes on with a search until it holds 95 % of the value of
// the sample's committed full arrangement, which was searched with several seeds
// and much more work; 40000 units have to do, for the two samples that are full
// 100000.
func requireReference(t *testing.T, s *Search, name string) {
	t.Helper()
	want, err := Value(sample(t, "reference/"+name))
	require.NoError(t, err)
	require.Positive(t, want)
	most := int64(40000)
	if name == "studio" || name == "newcomer" {
		most = 100000
	}
	for s.worthSet() < 0.95*want && s.spent < most {
		s.Step(10000)
	}
	got := s.worthSet()
	t.Logf("%.1f %% of the reference's value after %d units", 100*got/want, s.spent)
	require.GreaterOrEqual(t, got, 0.95*want)
}

// TestNewcomersVaseStandsBesideTwoStoreys: three whole levels need 521 mm and
// do not go in; the plan finds a full shelf below and, on half shelves above
// it, the vase beside two lower storeys.
func TestNewcomersVaseStandsBesideTwoStoreys(t *testing.T) {
	t.Parallel()
	p := planned(t, sample(t, "newcomer"), 1, 60000)
	b := requireSound(t, p)
	require.Equal(t, 1, setOf(p, "vase"))
	var vase *stacks.Level
	for i := range b.Pots {
		if b.Pots[i].Pot.Ware == "vase" {
			vase = &b.Levels[b.Pots[i].Level]
		}
	}
	require.NotEqual(t, "base", b.Towers[vase.Tower].Name, "the vase stands on a side, not on the full shelf")
	beside := 0
	for i := range b.Towers {
		tw := &b.Towers[i]
		if i != vase.Tower && tw.Name != "base" {
			beside = len(tw.Levels)
		}
	}
	require.GreaterOrEqual(t, beside, 2, "two storeys beside the vase")
	require.GreaterOrEqual(t, p.Set, 16)
	tallest := 0.0
	for i := range b.Pots {
		tallest = max(tallest, b.Pots[i].Z+b.Pots[i].Body.Height)
	}
	require.LessOrEqual(t, tallest, 457-25.0)
}

// TestLawSameSeedAndWorkGiveTheSameBytes, in one step or in many.
func TestLawSameSeedAndWorkGiveTheSameBytes(t *testing.T) {
	t.Parallel()
	for _, name := range shortOr(t, "samples", []string{"small-round"}, []string{"newcomer", "studio", "small-round"}) {
		a := planned(t, sample(t, name), 3, 8000)
		s, err := Start(sample(t, name), 3)
		require.NoError(t, err)
		for range 8 {
			s.Step(1000)
		}
		b, ok := s.Best()
		require.True(t, ok)
		require.Equal(t, string(document.Format(a.Load)), string(document.Format(b.Load)), name)
	}
}

// TestLawMoreWorkIsNeverWorse: the search holds its best plan.
func TestLawMoreWorkIsNeverWorse(t *testing.T) {
	t.Parallel()
	s, err := Start(sample(t, "studio"), 1)
	require.NoError(t, err)
	last := 0.0
	for range shortOr(t, "steps of 4000", 4, 12) {
		s.Step(4000)
		if p, ok := s.Best(); ok {
			require.GreaterOrEqual(t, p.Value, last-1e-9)
			last = p.Value
		}
	}
	require.Positive(t, last)
}

// TestLockedAndStandingStay: what is locked or already in the kiln keeps its
// place, and the rest is planned round it.
func TestLockedAndStandingStay(t *testing.T) {
	t.Parallel()
	l := planned(t, sample(t, "newcomer"), 1, 10000).Load
	l.Towers[0].Levels[0].Standing = true
	lockedAt := plane.Vec{}
	lockedPot := ""
	for i := range l.Towers {
		if l.Towers[i].Name != "base" && lockedPot == "" {
			set := l.Towers[i].Levels[0].Set
			set[0].Locked = true
			lockedPot, lockedAt = set[0].Pot.String(), set[0].At
		}
	}
	bottom := append([]layout.Placement(nil), l.Towers[0].Levels[0].Set...)
	p := planned(t, l, 9, 20000)
	requireSound(t, p)
	for _, was := range bottom {
		require.Contains(t, p.Load.Towers[0].Levels[0].Set, was)
	}
	found := false
	for _, tw := range p.Load.Towers {
		for _, v := range tw.Levels {
			for _, pl := range v.Set {
				if pl.Pot.String() == lockedPot {
					found = true
					require.Equal(t, lockedAt, pl.At)
				}
			}
		}
	}
	require.True(t, found, "%s has gone", lockedPot)
}

// TestMustGoesFirst: a must-go row is set whole where a richer one would
// otherwise take its place.
func TestMustGoesFirst(t *testing.T) {
	t.Parallel()
	l := sample(t, "newcomer")
	l.Ware[0].Must = layout.MustGo
	p := planned(t, l, 1, 40000)
	requireSound(t, p)
	require.Equal(t, 12, setOf(p, "mug"))
}

// TestUnfitWareIsLeftOutWithItsReason: cone 04 clay melts through the shelves
// of a cone 6 firing (common practice), so it waits and the plan says why.
func TestUnfitWareIsLeftOutWithItsReason(t *testing.T) {
	l := sample(t, "newcomer")
	l.Ware[1].Clay.Cone = "04"
	p := planned(t, l, 1, 20000)
	requireSound(t, p)
	require.Zero(t, setOf(p, "bowl"))
	for _, w := range p.Waits {
		if w.Ware == "bowl" {
			require.Equal(t, 6, w.Count)
			require.Contains(t, w.Reason, "04")
		}
	}
}

// TestTooTallWaits: a pot that no kiln height takes waits with its figures.
func TestTooTallWaits(t *testing.T) {
	t.Parallel()
	l := sample(t, "newcomer")
	l.Ware[2].Height = 440
	p := planned(t, l, 1, 20000)
	requireSound(t, p)
	require.Len(t, p.Waits, p.countWaits())
	for _, w := range p.Waits {
		if w.Ware == "vase" {
			require.Equal(t, "It stands 442 high, and the kiln takes 432.", w.Reason)
		}
	}
	require.Zero(t, setOf(p, "vase"))
}

// countWaits is how many rows are not set whole.
func (p *Plan) countWaits() int {
	n := 0
	for _, w := range p.Load.Ware {
		set := 0
		for _, t := range p.Load.Towers {
			for _, v := range t.Levels {
				for _, pl := range v.Set {
					if pl.Pot.Ware == w.Name {
						set++
					}
				}
			}
		}
		if set < w.Count {
			n++
		}
	}
	return n
}

// TestLeftOutAsWished: rows that are wished away stay on the table.
func TestLeftOutAsWished(t *testing.T) {
	l := sample(t, "newcomer")
	l.Wishes.LeaveOut = []string{"bowl"}
	p := planned(t, l, 1, 20000)
	requireSound(t, p)
	require.Zero(t, setOf(p, "bowl"))
}

// TestScarceSpacersAreAssigned: only one assignment of the 5 mm spacers lets
// all three levels stand, and the plan finds it.
func TestScarceSpacersAreAssigned(t *testing.T) {
	l := sample(t, "newcomer")
	l.Kiln.Height = 400
	square := layout.Section{Kind: layout.SquareSection, Width: 30}
	l.Furniture.Shelves = []layout.ShelfKind{{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: 410}, Thick: 16, Count: 3}}
	l.Furniture.Posts = []layout.PostKind{
		{Height: 25, Section: square, Count: 3},
		{Height: 80, Section: square, Count: 3},
		{Height: 115, Section: square, Count: 3},
		{Height: 5, Section: square, Count: 3, Spacer: true},
	}
	// The bowls need 71 + 12 = 83, so 80 + 5; the mugs 102 + 12 = 114, so 115.
	l.Ware[0].Count, l.Ware[1].Height, l.Ware[1].Count = 4, 69, 4
	l.Ware = l.Ware[:2]
	p := planned(t, l, 1, 20000)
	b := requireSound(t, p)
	require.Equal(t, 8, p.Set)
	for i := range b.Posts {
		if m := b.Posts[i].MakeUp; len(m) == 2 {
			require.Equal(t, 85.0, m.Nominal())
		}
	}
}

// TestRoomForOneMore answers with a checked place, and with a reason where
// there is none.
func TestRoomForOneMore(t *testing.T) {
	t.Parallel()
	l := planned(t, sample(t, "small-round"), 1, 20000).Load
	small := layout.Ware{Name: "thimble", Count: 1, Height: 30, Across: 30}
	r, err := RoomForOne(l, small, 1)
	require.NoError(t, err)
	require.True(t, r.OK, r.Why)
	require.NotEmpty(t, r.Level)
	tall := layout.Ware{Name: "pillar", Count: 1, Height: 300, Across: 60}
	r, err = RoomForOne(l, tall, 1)
	require.NoError(t, err)
	require.False(t, r.OK)
	require.Contains(t, r.Why, "It stands 302 high")
	wide := layout.Ware{Name: "charger", Count: 1, Height: 20, Across: 360}
	r, err = RoomForOne(l, wide, 1)
	require.NoError(t, err)
	require.False(t, r.OK)
	require.NotEmpty(t, r.Why)
}

// TestStartRefusesWhatCannotBePlanned with what to add.
func TestStartRefusesWhatCannotBePlanned(t *testing.T) {
	l := sample(t, "newcomer")
	l.Furniture.Posts = nil
	_, err := Start(l, 1)
	require.ErrorContains(t, err, "there are no posts; add a row")
	l = sample(t, "newcomer")
	l.Furniture.Shelves = nil
	_, err = Start(l, 1)
	require.ErrorContains(t, err, "there are no shelves; add a row")
	l = sample(t, "newcomer")
	l.Furniture.Shelves = l.Furniture.Shelves[:1]
	l.Furniture.Shelves[0].Shape.Across = 450
	s, err := Start(l, 1)
	require.NoError(t, err)
	s.Step(1000)
	_, ok := s.Best()
	require.False(t, ok)
	require.Contains(t, s.Refused(), "Add a smaller shelf")
}

// requireOffProbes: what is let down from above must pass the probe with the
// room for a hand, so no pot stands straight under one.
func requireOffProbes(t *testing.T, b *stacks.Built) {
	t.Helper()
	for i := range b.Pots {
		for j := range b.Probes {
			probe, pot := &b.Probes[j].Solid, b.Pots[i].Solid.Clone()
			if pot.Top() > probe.Bottom() {
				continue // beside or over it: the check keeps those apart
			}
			for z := pot.Pose.Z; z < b.Height; z += 4 {
				pot.Move(solid.Pose{At: b.Pots[i].At, Turn: b.Pots[i].Turn, Z: z})
				require.True(t, solid.GapAtLeast(&pot, probe, b.Load.Limits(layout.HandRoom).Plan-plane.Tolerance), "%s", b.Pots[i].Pot)
			}
		}
	}
}

// TestTooFewCookiesLeaveOnlyTheSurplusWaiting: four cookies are owned for eight
// runny cups, so four go in.
func TestTooFewCookiesLeaveOnlyTheSurplusWaiting(t *testing.T) {
	l := sample(t, "newcomer")
	l.Furniture.Cookies = []layout.CookieKind{{Across: 110, Thick: 10, Count: 4}}
	l.Ware = l.Ware[:2]
	l.Ware[0].Flags.Runny, l.Ware[0].Count = true, 8
	p := planned(t, l, 1, 20000)
	requireSound(t, p)
	require.Equal(t, 4, setOf(p, "mug"))
	require.Equal(t, 6, setOf(p, "bowl"))
	require.Len(t, p.Waits, 1)
	require.Contains(t, p.Waits[0].Reason, "You own 4 cookies")
}

// TestOtherPostsAreTakenWhenTheFittestAreUsedUp: forty mugs; 100 + 13 + 6 holds
// two sides of the newcomer's kiln, and the six posts of 150 hold more.
func TestOtherPostsAreTakenWhenTheFittestAreUsedUp(t *testing.T) {
	t.Parallel()
	l := sample(t, "newcomer")
	l.Ware = l.Ware[:1]
	l.Ware[0].Count = 40
	// 27 after 60000 units, 29 on two sides of 5 levels after 91000; nothing shows
	// that more do not go in. How many levels it takes is not held: four whole
	// ones and five halves hold 27 each.
	p := planned(t, l, 1, shortOr[int64](t, "work", 60000, 120000))
	requireSound(t, p)
	require.GreaterOrEqual(t, p.Set, shortOr(t, "set", 27, 29))
	makes := map[string]bool{} // of posts between levels
	for _, tw := range p.Load.Towers {
		for i, v := range tw.Levels {
			if i > 0 || tw.On[0].Tower != "" {
				makes[fmt.Sprint(v.Posts[0])] = true
			}
		}
	}
	t.Logf("%d set on %d levels, %s: %v", p.Set, p.Levels, p.Split, makes)
	require.Greater(t, len(makes), 1, "other posts where the fittest are used up")
}

// TestExplainWhereAConePackWaits: a quick first plan leaves a pack without
// sight; it is told, and no furniture is counted out for it.
func TestExplainWhereAConePackWaits(t *testing.T) {
	s, err := Start(sample(t, "small-round"), 1)
	require.NoError(t, err)
	for s.best == nil {
		s.Step(1)
	}
	p, ok := s.Best()
	require.True(t, ok)
	waiting := &Plan{Load: p.Load, Value: p.Value, Waits: append(p.Waits, Wait{Ware: p.Load.Cones[0].Name, Count: 1})}
	s.Explain(waiting)
	require.Empty(t, waiting.Waits[len(waiting.Waits)-1].LetIn)
}
