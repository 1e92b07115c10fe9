package order

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/stacks"
	"threepost/layout/statics"
)

// lawSetting: every pot can be let down beside those that stand, in balance,
// on its way clear of them; its neighbours stand; numbers run on.
func lawSetting(t require.TestingT, b *stacks.Built, o *Order) {
	hand := handRoom(b.Load)
	for _, l := range o.Levels {
		stands := map[int]bool{}
		count := 0
		letters := map[string]bool{}
		for _, p := range l.PostsOn {
			letters[p.Letter] = true
		}
		for _, s := range l.Pots {
			pot := &b.Pots[s.Pot]
			for i := range stands {
				require.True(t, solid.Lower(&b.Pots[i].Solid, &pot.Solid, hand), "%v beside %v", pot.Pot, b.Pots[i].Pot)
			}
			for _, i := range s.After {
				require.True(t, stands[i], "%v waits for %v", pot.Pot, b.Pots[i].Pot)
			}
			require.LessOrEqual(t, len(s.Neighbours), 2)
			for _, n := range s.Neighbours {
				switch n.Kind {
				case NearPot:
					require.True(t, stands[n.Pot], "%v is told by %v, which does not stand", pot.Pot, b.Pots[n.Pot].Pot)
					require.Equal(t, o.Number(n.Pot), n.Number)
					gap, _ := solid.Gap(&pot.Solid, &b.Pots[n.Pot].Solid)
					require.InDelta(t, gap, n.Gap, 1e-9)
				case NearPost:
					require.True(t, letters[n.Letter])
				}
				require.True(t, n.Toward >= 0 && n.Toward < 360)
			}
			if s.Cones {
				require.Zero(t, s.Number)
			} else {
				count++
				require.Equal(t, count, s.Number)
			}
			stands[s.Pot] = true
		}
		require.Len(t, stands, len(b.Levels[l.Level].Pots))
		for k, p := range l.Patterns {
			require.GreaterOrEqual(t, p.Count(), fewest)
			require.Equal(t, p.Count(), p.Last-p.First+1)
			for _, i := range p.Steps {
				require.Equal(t, k, l.Pots[i].Pattern)
				require.Equal(t, p.Ware, b.Pots[l.Pots[i].Pot].Pot.Ware)
			}
		}
	}
}

// Law: cylinders at the plan distance have no cycle and no before-relation.
func TestLawCylindersAtPlanDistance(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := oneShelf()
		across := rapid.Float64Range(50, 120).Draw(rt, "across")
		across = math.Round(across)
		l.Ware = []layout.Ware{cylinder("low", 90, 60, across), cylinder("high", 90, 160, across)}
		for i, at := range hexes(across+6, 320-across/2, 60) {
			name := "low"
			if rapid.Bool().Draw(rt, "high") || i == 0 {
				name = "high"
			}
			set(l, 0, 1, name, at[0], at[1], 0)
		}
		b, err := stacks.Build(l)
		require.NoError(rt, err)
		o, cycles := Of(b)
		require.Empty(rt, cycles)
		lawSetting(rt, b, o)
		for _, s := range o.Levels[0].Pots {
			require.Empty(rt, s.After)
		}
		again, _ := Of(b)
		require.Equal(rt, o, again, "the same every time")
	})
}

func TestTooCloseForHands(t *testing.T) {
	l := oneShelf()
	l.Ware = []layout.Ware{cylinder("cup", 2, 80, 80)}
	set(l, 0, 1, "cup", -40, 0, 0)
	set(l, 0, 1, "cup", 42, 0, 0) // 2 mm; hands need 3
	_, cycles := Of(build(t, l))
	require.Len(t, cycles, 1)
	require.Equal(t, []string{"cup 1", "cup 2"}, cycles[0].Names)
	require.InDelta(t, 1, cycles[0].Short, 1e-9)
	l.Firing.Stage = layout.Bisque // may touch, so hands do without
	_, cycles = Of(build(t, l))
	require.Empty(t, cycles)
	l.Firing.Stage = layout.Glaze
	l.Towers[0].Levels[0].Set[1].At[0] = 43
	_, cycles = Of(build(t, l))
	require.Empty(t, cycles, "at 3 mm hands fit")
}

// measured is a row of measured ware without allowances.
func measured(name string, count int, profile ...layout.Knot) layout.Ware {
	w := cylinder(name, count, 0, 0)
	w.Silhouette, w.Measured, w.Profile = "", true, profile
	for _, k := range profile {
		w.Height, w.Across = max(w.Height, k.Height), max(w.Across, k.Diameter)
	}
	w.Foot = profile[0].Diameter
	return w
}

// TestBowlReachesOverCup: the cup stands partly under the bowl's rim, so it
// goes in first, though hands would like the bowl first.
func TestBowlReachesOverCup(t *testing.T) {
	l := oneShelf()
	l.Ware = []layout.Ware{
		measured("bowl", 1, layout.Knot{Height: 0, Diameter: 60}, layout.Knot{Height: 100, Diameter: 200}),
		measured("cup", 1, layout.Knot{Height: 0, Diameter: 50}, layout.Knot{Height: 30, Diameter: 50}),
	}
	set(l, 0, 1, "bowl", 0, 60, 0) // the far one
	set(l, 0, 1, "cup", 0, -40, 0) // rims 100 + 25 = 125 would be clear; this is 100
	b := build(t, l)
	o, cycles := Of(b)
	require.Empty(t, cycles)
	lawSetting(t, b, o)
	require.Equal(t, "cup", b.Pots[o.Levels[0].Pots[0].Pot].Pot.Ware)
	require.Equal(t, []int{o.Levels[0].Pots[0].Pot}, o.Levels[0].Pots[1].After)
}

// lug is ware with a wide foot and a high lug that reaches past it.
func lug(count int) layout.Ware {
	w := measured("lug", count, layout.Knot{Height: 0, Diameter: 120}, layout.Knot{Height: 20, Diameter: 120},
		layout.Knot{Height: 20, Diameter: 60}, layout.Knot{Height: 100, Diameter: 60})
	w.Handles = []layout.Handle{{Reach: 16, From: 60, To: 80, Thick: 10}}
	return w
}

// TestLugsOverFeet: each lug reaches up to 10 mm over the foot of the next. Two that
// face each other can go in neither way; three in a wheel have no order; three
// in a row have one.
func TestLugsOverFeet(t *testing.T) {
	two := oneShelf()
	two.Ware = []layout.Ware{lug(2)}
	set(two, 0, 1, "lug", -63, 0, 105)
	set(two, 0, 1, "lug", 63, 0, 285)
	b := build(t, two)
	gap, _ := solid.Gap(&b.Pots[0].Solid, &b.Pots[1].Solid)
	require.Greater(t, gap, 5.0, "standing, they are clear")
	_, cycles := Of(b)
	require.Len(t, cycles, 1)
	require.Equal(t, []string{"lug 1", "lug 2"}, cycles[0].Names)
	// The lug ends in a round of 5 at (5.6, 18.4) from the middle: 4.7 over the
	// foot of 60 about (63, 0), and 3 for hands.
	require.InDelta(t, 7.7, cycles[0].Short, 0.1)

	wheel := oneShelf()
	wheel.Ware = []layout.Ware{lug(3)}
	r := 126 / math.Sqrt(3)
	for k := 0; k < 3; k++ {
		at, next := plane.FromBearing(r, float64(120*k)), plane.FromBearing(r, float64(120*k+120))
		set(wheel, 0, 1, "lug", at[0], at[1], plane.Bearing(plane.Sub(next, at)))
	}
	b = build(t, wheel)
	o, cycles := Of(b)
	require.Len(t, cycles, 1)
	require.Len(t, cycles[0].Pots, 3)
	for k, i := range cycles[0].Pots { // each must stand before the next
		j := cycles[0].Pots[(k+1)%3]
		require.False(t, solid.Lower(&b.Pots[j].Solid, &b.Pots[i].Solid, 3))
		require.True(t, solid.Lower(&b.Pots[i].Solid, &b.Pots[j].Solid, 3))
	}
	require.Len(t, o.Levels[0].Pots, 3, "an order is given all the same")

	row := oneShelf()
	row.Ware = []layout.Ware{lug(3)}
	for k := 0; k < 3; k++ {
		set(row, 0, 1, "lug", 0, float64(126-126*k), 180)
	}
	b = build(t, row)
	o, cycles = Of(b)
	require.Empty(t, cycles)
	lawSetting(t, b, o)
	require.Equal(t, []int{2, 1, 0}, setOf(o.Levels[0]), "near before far, against the liking")
}

func setOf(l LevelOrder) []int {
	var out []int
	for _, s := range l.Pots {
		out = append(out, s.Pot)
	}
	return out
}

// randomLevel draws measured ware of any silhouette that stands clear.
func randomLevel(t *rapid.T) *stacks.Built {
	l := oneShelf()
	mm := func(name string, from, to int) float64 { return float64(rapid.IntRange(from, to).Draw(t, name)) }
	for k := 0; k < 3; k++ {
		knots := []layout.Knot{{Height: 0, Diameter: mm("foot", 40, 120)}}
		for n := rapid.IntRange(1, 4).Draw(t, "knots"); n > 0; n-- {
			knots = append(knots, layout.Knot{Height: knots[len(knots)-1].Height + mm("up", 5, 60), Diameter: mm("wide", 40, 160)})
		}
		w := measured(fmt.Sprint("ware ", k), 40, knots...)
		if rapid.Bool().Draw(t, "handled") {
			w.Handles = []layout.Handle{{Reach: mm("reach", 10, 40), From: w.Height / 3, To: w.Height * 0.8}}
		}
		l.Ware = append(l.Ware, w)
	}
	for n := rapid.IntRange(2, 14).Draw(t, "pots"); n > 0; n-- {
		kind := rapid.IntRange(0, 2).Draw(t, "kind")
		set(l, 0, 1, l.Ware[kind].Name, mm("x", -240, 240), mm("y", -240, 240), mm("turn", 0, 359))
	}
	b, err := stacks.Build(l)
	require.NoError(t, err)
	var keep []layout.Placement
	var kept []*solid.Placed
	for i := range b.Pots {
		clear := true
		for _, k := range kept {
			clear = clear && solid.GapAtLeast(k, &b.Pots[i].Solid, 4)
		}
		if clear {
			kept = append(kept, &b.Pots[i].Solid)
			keep = append(keep, l.Towers[0].Levels[0].Set[i])
		}
	}
	l.Towers[0].Levels[0].Set = keep
	b, err = stacks.Build(l)
	require.NoError(t, err)
	return b
}

// Law: where there is no cycle the order can be followed by hand: a pot let
// down in steps keeps clear of all that stand. Where there is one, none of its
// pots can come after the next.
func TestLawOrderCanBeFollowed(t *testing.T) {
	free, stuck, held := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		b := randomLevel(t)
		o, cycles := Of(b)
		require.Len(t, o.Levels[0].Pots, len(b.Pots))
		if len(cycles) > 0 {
			stuck++
			for _, c := range cycles {
				for k, i := range c.Pots {
					j := c.Pots[(k+1)%len(c.Pots)]
					require.False(t, solid.Lower(&b.Pots[j].Solid, &b.Pots[i].Solid, handRoom(b.Load)))
				}
				require.Positive(t, c.Short)
			}
			return
		}
		free++
		lawSetting(t, b, o)
		var standing []*solid.Placed
		for _, s := range o.Levels[0].Pots {
			held += len(s.After)
			pot := b.Pots[s.Pot].Solid.Clone()
			for up := 200.0; up >= 0; up -= 10 {
				to := b.Pots[s.Pot].Solid.Pose
				to.Z += up
				pot.Move(to)
				for _, w := range standing {
					gap, _ := solid.Gap(w, &pot)
					require.GreaterOrEqual(t, gap, 0.0)
				}
			}
			standing = append(standing, &b.Pots[s.Pot].Solid)
		}
	})
	t.Logf("%d levels with an order (%d pots had to wait), %d without", free, held, stuck)
	require.Positive(t, held)
}

func TestHandsLikeFarSideRingThenMiddle(t *testing.T) {
	l := oneShelf()
	l.Ware = []layout.Ware{cylinder("cup", 60, 80, 80), cylinder("bottle", 1, 260, 60), cylinder("tile", 2, 20, 90)}
	l.Cones = []layout.ConePack{{Name: "cones", Cones: nil}}
	set(l, 0, 1, "cones", 0, -120, 0)
	set(l, 0, 1, "bottle", 0, 100, 0)
	set(l, 0, 1, "tile", 0, -20, 0)
	for k := 9; k >= 0; k-- {
		at := plane.FromBearing(280, float64(36*k+5))
		set(l, 0, 1, "cup", at[0], at[1], 0)
	}
	set(l, 0, 1, "tile", 120, 20, 0)

	b := build(t, l)
	o, cycles := Of(b)
	require.Empty(t, cycles)
	lawSetting(t, b, o)
	pots := o.Levels[0].Pots
	last := -1.0
	for k := 0; k < 10; k++ {
		require.Equal(t, Ring, pots[k].Zone)
		require.InDelta(t, 5+36*float64(k), pots[k].Clock, 0.1)
		require.Greater(t, pots[k].Clock, last)
		last = pots[k].Clock
	}
	require.Equal(t, []Zone{Middle, Middle, Late, ConeZone}, []Zone{pots[10].Zone, pots[11].Zone, pots[12].Zone, pots[13].Zone})
	require.Greater(t, b.Pots[pots[10].Pot].At[1], b.Pots[pots[11].Pot].At[1], "far side first")
	require.True(t, pots[12].Tall)
	require.Len(t, o.Levels[0].Patterns, 1)
	p := o.Levels[0].Patterns[0]
	require.True(t, p.Clockwise)
	require.Equal(t, [2]int{1, 10}, [2]int{p.First, p.Last})
	require.Equal(t, NoHandles, p.Handles)
}

func TestFrontLoaderBackToFront(t *testing.T) {
	l := oneShelf()
	l.Kiln.Opens = layout.Front
	l.Ware = []layout.Ware{cylinder("cup", 60, 80, 80)}
	for _, at := range hexes(90, 260, 60) {
		set(l, 0, 1, "cup", at[0], at[1], 0)
	}
	b := build(t, l)
	o, _ := Of(b)
	lawSetting(t, b, o)
	for k, s := range o.Levels[0].Pots[1:] {
		require.LessOrEqual(t, b.Pots[s.Pot].At[1], b.Pots[o.Levels[0].Pots[k].Pot].At[1])
	}
}

// TestBalanceDecidesTheFirst: on a light shelf heavy pots at the edge between
// the posts tip it when they come first; the one over the middle goes first.
func TestBalanceDecidesTheFirst(t *testing.T) {
	l := oneShelf()
	l.Furniture.Shelves[0].Mass = 1
	l.Towers[0].Lines = []layout.Line{{At: plane.FromBearing(180, 60)}, {At: plane.FromBearing(180, 180)}, {At: plane.FromBearing(180, 300)}}
	l.Ware = []layout.Ware{cylinder("crock", 3, 80, 100), cylinder("heart", 1, 80, 100)}
	for i := range l.Ware {
		l.Ware[i].Mass = 5
	}
	for _, bearing := range []float64{0, 120, 240} {
		at := plane.FromBearing(260, bearing)
		set(l, 0, 1, "crock", at[0], at[1], 0)
	}
	set(l, 0, 1, "heart", 0, 0, 0)
	b := build(t, l)
	liked := likingOf(b, 0).order
	require.Equal(t, "crock", b.Pots[liked[0]].Pot.Ware)
	require.True(t, statics.LevelLoading(b, 0, []int{0, 1, 2, 3}).Tips)
	o, _ := Of(b)
	require.Equal(t, "heart", b.Pots[o.Levels[0].Pots[0].Pot].Pot.Ware)
	require.Greater(t, o.Levels[0].Margin, statics.LevelLoading(b, 0, []int{0, 1, 2, 3}).Margin)
	require.InDelta(t, statics.LevelLoading(b, 0, setOf(o.Levels[0])).Margin, o.Levels[0].Margin, 1e-12)
}

func BenchmarkOf200Pots(b *testing.B) {
	l := october()
	l.Ware = []layout.Ware{{Name: "mug", Count: 300, Profile: []layout.Knot{{Height: 0, Diameter: 60}, {Height: 60, Diameter: 66}},
		Handles: []layout.Handle{{Reach: 20, From: 20, To: 50, Thick: 10}}}}
	for tower := 1; tower <= 2; tower++ {
		for level := 1; level <= 3; level++ {
			n := 0
			for _, at := range hexes(75, 285, 400) {
				if side := float64(2*tower-3) * at[0]; side > 45 && n < 34 {
					set(l, tower, level, "mug", at[0], at[1], float64(n*40))
					n++
				}
			}
		}
	}
	built := build(b, l)
	b.ReportMetric(float64(len(built.Pots)), "pots")
	for b.Loop() {
		Of(built)
	}
}
