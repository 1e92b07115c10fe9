package planner

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// everyOrder visits all orders of a list.
func everyOrder(h []float64, visit func([]float64)) {
	var walk func(p, left []float64)
	walk = func(p, left []float64) {
		if len(left) == 0 {
			visit(p)
		}
		for i := range left {
			rest := append(append([]float64(nil), left[:i]...), left[i+1:]...)
			walk(append(p, left[i]), rest)
		}
	}
	walk(nil, h)
}

// costOfOrder is what an order costs, summed up shelf by shelf over the whole
// tower, as against the table of the search.
func costOfOrder(c *context, p []float64, o ordering) float64 {
	z, cost := o.start, 0.0
	takes := []float64{}
	tops := []float64{z}
	for i, h := range p {
		z += h
		cost += float64(1e6*c.probeCost(o.site, z, z+o.site.kind.Thick)) + float64(1e3*o.levelWith(z))
		z += o.site.kind.Thick
		tops = append(tops, z)
		takes = append(takes, h-c.room)
		switch c.load.Wishes.Tall {
		case layout.TallHigh:
			cost += float64(h * float64(len(p)-i))
		case layout.TallAlternate:
			cost += float64(1e-3 * float64(h*float64(i)))
		default:
			cost += float64(h * float64(i))
		}
	}
	takes = append(takes, c.load.Kiln.Height-z-c.limits[layout.RoomToLid].Plan)
	if c.load.Wishes.Tall == layout.TallAlternate {
		for i := range takes[1:] {
			cost -= abs(takes[i] - takes[i+1])
		}
	}
	return cost + float64(1e4*c.sightCost(p, tops))
}

// TestLawTheOrderOfLevelsIsTheBest: no order of a tower's heights costs less
// than the one that is found, by trying all.
func TestLawTheOrderOfLevelsIsTheBest(t *testing.T) {
	t.Parallel()
	l := sample(t, "studio")
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		l := l.Clone()
		l.Wishes.Tall = rapid.SampledFrom([]layout.TallWare{"", layout.TallLow, layout.TallHigh, layout.TallAlternate}).Draw(t, "tall")
		for i := range l.Kiln.Spyholes {
			l.Kiln.Spyholes[i].Height = float64(rapid.IntRange(60, 600).Draw(t, "spyhole"))
		}
		for i := range l.Kiln.Probes {
			l.Kiln.Probes[i].Height = float64(rapid.IntRange(60, 600).Draw(t, "probe"))
		}
		c, err := newContext(l)
		if err != nil {
			t.Fatal(err)
		}
		o := ordering{site: c.maker().divisions()[0].sites[0], start: 44, wish: true}
		for range rapid.IntRange(0, 3).Draw(t, "beside") {
			o.beside = append(o.beside, float64(rapid.IntRange(80, 600).Draw(t, "z")))
		}
		var h []float64
		for range rapid.IntRange(2, 6).Draw(t, "levels") {
			h = append(h, float64(rapid.SampledFrom([]int{60, 85, 110, 150, 205}).Draw(t, "height")))
		}
		if rapid.Bool().Draw(t, "bound") {
			least := slices.Max(h)
			o.first = func(x float64) bool { return x >= least }
		}
		best := 1e300
		everyOrder(h, func(p []float64) {
			if o.first == nil || o.first(p[0]) {
				best = min(best, costOfOrder(c, p, o))
			}
		})
		got := c.arranged(h, o)
		if o.first != nil && !o.first(got[0]) {
			t.Fatalf("%v begins with what may not come first", got)
		}
		if cost := costOfOrder(c, got, o); cost > best+1e-6 {
			t.Fatalf("%v of %v costs %g, the best %g", got, h, cost, best)
		}
		a, b := slices.Clone(h), slices.Clone(got)
		slices.Sort(a)
		slices.Sort(b)
		if !slices.Equal(a, b) {
			t.Fatalf("%v is no order of %v", got, h)
		}
		tried++
	})
	t.Logf("%d towers, every order of each", tried)
}

// ownersOn are the owners whose pots stand on each level that has pots.
func ownersOn(b *stacks.Built) []map[string]int {
	out := make([]map[string]int, len(b.Levels))
	for i := range b.Levels {
		out[i] = map[string]int{}
		for _, pi := range b.Levels[i].Pots {
			if w := b.Pots[pi].Ware; w != nil {
				out[i][w.Owner]++
			}
		}
	}
	return out
}

// requireWishesKept plans a load and asks that all its wishes are told as kept,
// and that the search thought the same.
func requireWishesKept(t *testing.T, l *layout.Load, work int64) (*Plan, *stacks.Built) {
	t.Helper()
	s := searched(t, l, 1, work)
	p, ok := s.Best()
	require.True(t, ok)
	b := requireSound(t, p)
	require.NotEmpty(t, p.Wishes)
	for _, w := range p.Wishes {
		require.True(t, w.Kept || w.Wish == "cones in sight", w.Say()) // that one is weighed against the ware
	}
	require.Zero(t, s.evenedTo.deaf)
	return p, b
}

// threeOwners own five mugs and two bowls each, in a kiln of several levels.
func threeOwners() *layout.Load {
	posts := map[float64]int{25: 3, 75: 9, 100: 9, 125: 6}
	var ware []layout.Ware
	for _, o := range []string{"Ida", "Bram", "Ode"} {
		mug, bowl := cylinder(o+" mug", 5, 95, 80), cylinder(o+" bowl", 2, 70, 120)
		mug.Owner, bowl.Owner = o, o
		ware = append(ware, mug, bowl)
	}
	return single(400, 470, 5, posts, ware...)
}

// An owner's pots stand on one level where a level holds them.
func TestWishTogether(t *testing.T) {
	l := threeOwners()
	l.Wishes.Together = []string{"Ida"}
	p, b := requireWishesKept(t, l, 15000)
	on := 0
	for _, owners := range ownersOn(b) {
		if owners["Ida"] > 0 {
			on++
		}
	}
	require.Equal(t, 1, on)
	require.Equal(t, 5, setOf(p, "Ida mug"))
	require.Equal(t, 2, setOf(p, "Ida bowl"))
}

// Where no level holds them they stand on as few as do, and the plan says so.
func TestWishTogetherWhereNoLevelHoldsAll(t *testing.T) {
	l := threeOwners()
	l.WareOf(layout.Pot{Ware: "Ida mug"}).Count = 14
	l.Wishes.Together = []string{"Ida"}
	p := planned(t, l, 1, 15000)
	b := requireSound(t, p)
	on := 0
	for _, owners := range ownersOn(b) {
		if owners["Ida"] > 0 {
			on++
		}
	}
	require.Equal(t, 2, on)
	require.False(t, p.Wishes[0].Kept)
	require.Contains(t, p.Wishes[0].Says, "The 16 stand on ")
}

// An owner whose pots are kept apart has a level alone; what that costs is told
// from a plan without the wish.
func TestWishApartAndWhatItCosts(t *testing.T) {
	t.Parallel()
	l := threeOwners()
	l.Furniture.Shelves[0].Count = 2 // two levels: one of them for three pots alone
	l.WareOf(layout.Pot{Ware: "Bram mug"}).Count = 14
	l.WareOf(layout.Pot{Ware: "Ida mug"}).Count = 2
	l.WareOf(layout.Pot{Ware: "Ida bowl"}).Count = 1
	l.Wishes.Apart = []string{"Ida"}
	p, b := requireWishesKept(t, l, 15000)
	for i, owners := range ownersOn(b) {
		require.False(t, owners["Ida"] > 0 && len(owners) > 1, "%s is shared", b.Levels[i].Name)
	}
	require.Positive(t, setOf(p, "Ida mug"))
	require.NoError(t, CostWishes(p, always))
	free := l.Clone()
	free.Wishes.Apart = nil
	q := planned(t, free, 1, 15000)
	require.Greater(t, q.Value, p.Value)
	require.Regexp(t, `^A plan without it (sets \d+ .* more|holds \d+ % more: .* more, .* less)\.$`, p.Wishes[0].Cost)
	require.Equal(t, "Ida's pots apart from others: kept. "+p.Wishes[0].Cost, p.Wishes[0].Say())
}

func always() bool { return true }

// A wish that keeps nothing out is told without a cost.
func TestWishThatCostsNothing(t *testing.T) {
	l := single(410, 325, 3, map[float64]int{25: 3, 100: 6}, cylinder("bowl", 6, 82, 100))
	l.Wishes.Tall = layout.TallHigh
	p := planned(t, l, 1, 4000)
	require.NoError(t, CostWishes(p, always))
	require.Equal(t, "Tall ware high: kept.", p.Wishes[0].Say())
}

// Ware keeps off the levels that are named, by place and by number.
func TestWishOffALevel(t *testing.T) {
	t.Parallel()
	for _, off := range []layout.OffLevel{{Ware: "mug", Level: layout.BottomLevel}, {Ware: "mug", Level: layout.TopLevel}, {Ware: "mug", Level: "2"}} {
		l := single(410, 470, 4, map[float64]int{25: 3, 100: 9, 110: 3}, cylinder("mug", 30, 85, 90), cylinder("bowl", 12, 80, 120))
		l.Wishes.Off = []layout.OffLevel{off}
		p, b := requireWishesKept(t, l, 8000)
		require.Positive(t, setOf(p, "mug"))
		for i := range b.Levels {
			lv := &b.Levels[i]
			if off.Level.Is(i+1, lv.UnderLid) {
				for _, pi := range lv.Pots {
					require.NotEqual(t, "mug", b.Pots[pi].Pot.Ware, "%s %s", off.Level, lv.Name)
				}
			}
		}
	}
}

// One more pot of a row that keeps off the only level with room goes nowhere, and
// the answer says why.
func TestRoomKeepsTheWishes(t *testing.T) {
	l := single(410, 220, 1, map[float64]int{25: 3}, cylinder("mug", 2, 85, 90))
	l = planned(t, l, 1, 3000).Load
	r, err := RoomForOne(l, layout.Ware{Name: "mug"}, 1)
	require.NoError(t, err)
	require.True(t, r.OK)
	l.Wishes.Off = []layout.OffLevel{{Ware: "mug", Level: layout.BottomLevel}}
	r, err = RoomForOne(l, layout.Ware{Name: "mug"}, 1)
	require.NoError(t, err)
	require.False(t, r.OK)
	require.Equal(t, "The wishes keep it off every level that takes its height.", r.Why)
}

// On towers side by side no shelf lies level with its neighbour's but the
// lowest on the floor.
func TestWishStagger(t *testing.T) {
	t.Parallel()
	l := sample(t, "studio")
	l.Wishes.Stagger = true
	l.Wishes.Towers = layout.HalfTowers
	_, b := requireWishesKept(t, l, 9000)
	towers := map[int]bool{}
	for i := range b.Levels {
		towers[b.Levels[i].Tower] = true
		for j := range i {
			x, y := &b.Levels[i], &b.Levels[j]
			side := x.Tower != y.Tower && !standsOver(b, x.Tower, y.Tower) && !standsOver(b, y.Tower, x.Tower)
			if side && !lowestOnFloor(b, x) && !lowestOnFloor(b, y) {
				require.GreaterOrEqual(t, abs(x.Bottom-y.Bottom), staggerRoom-1e-6, "%s and %s", x.Name, y.Name)
			}
		}
	}
	require.Greater(t, len(towers), 1)
}

// Tall and short levels take turns where the wish is so, and come tall first
// where it is not.
func TestWishAlternate(t *testing.T) {
	t.Parallel()
	l := single(410, 640, 5, map[float64]int{25: 3, 75: 6, 150: 6}, cylinder("vase", 18, 135, 90), cylinder("bowl", 30, 60, 110))
	l.Wishes.Tall = layout.TallAlternate
	_, b := requireWishesKept(t, l, 8000)
	require.Len(t, b.Levels, 5)
	rises := 0.0
	for i := range b.Levels[1:] {
		rises += abs(b.Levels[i].Takes - b.Levels[i+1].Takes)
	}
	l.Wishes.Tall = layout.TallAnywhere
	p := planned(t, l, 1, 8000)
	plain, err := stacks.Build(p.Load)
	require.NoError(t, err)
	steps := 0.0
	for i := range plain.Levels[1:] {
		steps += abs(plain.Levels[i].Takes - plain.Levels[i+1].Takes)
	}
	require.Greater(t, rises, steps+60, "more turns than with tall ware low")
}

// Wishes that a load made by hand goes against are told.
func TestWishesOfALoadMadeByHand(t *testing.T) {
	l := threeOwners()
	p := planned(t, l, 1, 8000)
	l = p.Load
	l.Wishes.Off = []layout.OffLevel{{Ware: "Bram mug", Level: layout.BottomLevel}, {Ware: "Bram mug", Level: layout.TopLevel}, {Ware: "Bram mug", Level: "2"}, {Ware: "Bram mug", Level: "3"}}
	l.Wishes.Apart = []string{"Ida", "Bram", "Ode"}
	b, err := stacks.Build(l)
	require.NoError(t, err)
	broken := 0
	for _, w := range Wishes(b, clearance.New(b)) {
		if !w.Kept {
			broken++
			require.NotEmpty(t, w.Says, w.Wish)
		}
	}
	require.Positive(t, broken)
}

// What a plan sets more against a wish is no gain.
func TestWishesBoundWhatIsWorthMore(t *testing.T) {
	p := &Plan{Value: 10, watch: 1, deaf: 0}
	require.True(t, (&Plan{Value: 11, watch: 1}).asWished(p))
	require.True(t, (&Plan{Value: 11}).asWished(p))
	require.False(t, (&Plan{Value: 11, deaf: 1}).asWished(p))
	require.False(t, (&Plan{Value: 11, watch: 2}).asWished(p))

	// Off the only two levels there are, a mug is let in by nothing.
	l := single(410, 325, 3, map[float64]int{25: 3, 100: 3}, cylinder("bowl", 30, 82, 100), cylinder("mug", 2, 60, 60))
	l.Wishes.Off = []layout.OffLevel{{Ware: "mug", Level: layout.BottomLevel}, {Ware: "mug", Level: layout.TopLevel}}
	s := searched(t, l, 1, 6000)
	q, ok := s.Best()
	require.True(t, ok)
	s.Explain(q)
	for _, w := range q.Waits {
		if w.Ware == "mug" {
			require.Equal(t, "The wishes keep them off every level that takes 62.", w.Reason)
			require.NotContains(t, w.LetIn, "goes in if", w.LetIn)
			require.NotContains(t, w.LetIn, "Planning longer", w.LetIn)
		}
	}
}

// How a load is stacked is read off it, whatever was asked.
func TestWishesForTheStackAreReadOffIt(t *testing.T) {
	l := single(410, 640, 4, map[float64]int{25: 3, 75: 3, 100: 3, 150: 3}, cylinder("vase", 8, 135, 90), cylinder("jug", 8, 85, 90), cylinder("bowl", 20, 60, 110))
	p := planned(t, l, 1, 6000)
	stack := p.Load.Towers[0]
	require.Len(t, stack.Levels, 4, "three rooms under shelves")
	say := func(change func(*layout.Load)) Wished {
		l := p.Load.Clone()
		change(l)
		b, err := stacks.Build(l)
		require.NoError(t, err)
		w := Wishes(b, clearance.New(b))
		require.NotEmpty(t, w)
		require.Equal(t, w[0].Kept, w[0].Says == "")
		return w[0]
	}
	tall := func(w layout.TallWare) func(*layout.Load) { return func(l *layout.Load) { l.Wishes.Tall = w } }
	require.True(t, say(tall(layout.TallLow)).Kept, "as it was planned")
	require.False(t, say(tall(layout.TallHigh)).Kept)
	turned := say(tall(layout.TallAlternate))
	require.False(t, turned.Kept, "three that fall do not take turns")
	require.Regexp(t, `^From .* up the order is another\.$`, turned.Says)
	require.True(t, say(func(l *layout.Load) {
		v := l.Towers[0].Levels
		v[1].Posts, v[2].Posts = v[2].Posts, v[1].Posts
		l.Wishes.Tall = layout.TallAlternate
	}).Kept)
	require.False(t, say(func(l *layout.Load) { l.Wishes.Inset = 60 }).Kept)
	require.False(t, say(func(l *layout.Load) { l.Wishes.RoomAbove = 40 }).Kept)
	require.True(t, say(func(l *layout.Load) { l.Wishes.Towers = layout.OneTower }).Kept)
	require.Equal(t, "It stands in one.", say(func(l *layout.Load) { l.Wishes.Towers = layout.HalfTowers }).Says)
}

// Where others' pots stay on every level, an owner who would be apart waits.
func TestWishApartWhereNoLevelIsFree(t *testing.T) {
	bowls := cylinder("bowl", 4, 82, 100)
	bowls.Owner = "Bram"
	l := planned(t, single(410, 170, 1, map[float64]int{25: 3}, bowls), 1, 3000).Load
	for i := range l.Towers {
		for j := range l.Towers[i].Levels {
			for k := range l.Towers[i].Levels[j].Set {
				l.Towers[i].Levels[j].Set[k].Locked = true
			}
		}
	}
	cup := cylinder("cup", 2, 60, 60)
	cup.Owner = "Ida"
	l.Ware = append(l.Ware, cup)
	require.Equal(t, 2, setOf(planned(t, l, 1, 3000), "cup"), "there is room beside them")
	l.Wishes.Apart = []string{"Ida"}
	p, _ := requireWishesKept(t, l, 3000)
	require.Zero(t, setOf(p, "cup"))
	require.Equal(t, 4, setOf(p, "bowl"))
}
