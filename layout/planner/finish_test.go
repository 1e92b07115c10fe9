package planner

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// glance is what an experienced eye sees of a level on paper.
type glance struct {
	free   float64 // share of the shelf that nothing stands on
	pocket float64 // across the largest disc that would still stand there, mm
	lone   float64 // from the loneliest pot to its nearest neighbour, mm; 0 with fewer than two
	strays int     // kinds of which one or two stand there while another level has enough
}

// glanceAt measures a level on a grid of 6 mm.
func glanceAt(b *stacks.Built, level int) glance {
	const step = 6
	v := &b.Levels[level]
	var out glance
	covered, all := 0, 0
	for _, at := range v.Shelves {
		o := b.Shelves[at].Outline
		lo, hi := o.Bounds()
		for x := lo[0]; x <= hi[0]; x += step {
			for y := lo[1]; y <= hi[1]; y += step {
				p := plane.Vec{x, y}
				r := o.Depth(p)
				if r < 0 {
					continue
				}
				all++
				for _, i := range v.Pots {
					r = min(r, awayFrom(&b.Pots[i].Solid, p))
				}
				for i := range b.Posts {
					if b.Posts[i].Bottom == v.Top {
						r = min(r, awayFrom(&b.Posts[i].Solid, p))
					}
				}
				if r < 0 {
					covered++
				}
				out.pocket = max(out.pocket, 2*r)
			}
		}
	}
	out.free = 1 - float64(covered)/float64(max(all, 1))
	for _, i := range v.Pots {
		near := math.Inf(1)
		for _, j := range v.Pots {
			if i != j {
				gap, _ := solid.Gap(&b.Pots[i].Solid, &b.Pots[j].Solid)
				near = min(near, gap)
			}
		}
		if !math.IsInf(near, 1) {
			out.lone = max(out.lone, near)
		}
	}
	for k := range b.Load.Ware {
		here, most := 0, 0
		for j := range b.Levels {
			n := 0
			for _, i := range b.Levels[j].Pots {
				if b.Pots[i].Kind == k {
					n++
				}
			}
			if j == level {
				here = n
			} else {
				most = max(most, n)
			}
		}
		if here > 0 && here <= fewPots && most >= 4 {
			out.strays++
		}
	}
	return out
}

// awayFrom is how far a place is from a solid in plan, mm.
func awayFrom(s *solid.Placed, p plane.Vec) float64 {
	least := math.Inf(1)
	for j, part := range s.Body.Parts {
		d, _, _ := plane.SignedDistance(plane.Skeleton{p}, s.Skeleton(j))
		least = min(least, d-part.Profile.Max())
	}
	return least
}

// sidesOf are the heights of the highest shelves, mm, and the masses of ware,
// kg, left and right of the middle.
func sidesOf(b *stacks.Built) (tops, mass [2]float64) {
	for i := range b.Levels {
		for _, at := range b.Levels[i].Shelves {
			if x := b.Shelves[at].At[0]; x < -1 {
				tops[0] = max(tops[0], b.Levels[i].Top)
			} else if x > 1 {
				tops[1] = max(tops[1], b.Levels[i].Top)
			}
		}
	}
	for i := range b.Pots {
		side := 0
		if b.Pots[i].At[0] > 0 {
			side = 1
		}
		mass[side] += b.Pots[i].Body.Mass
	}
	return tops, mass
}

// requireEye prints what an experienced potter looks for on a plan, level by
// level, and holds it to what was found good on paper.
func requireEye(t *testing.T, name string, p *Plan, b *stacks.Built) {
	t.Helper()
	tops, mass := sidesOf(b)
	t.Logf("%s: %d of %d set; ware left %.1f kg, right %.1f kg; highest shelves left %.0f, right %.0f", name, p.Set, p.Of, mass[0], mass[1], tops[0], tops[1])
	strays := 0
	for i := range b.Levels {
		g := glanceAt(b, i)
		t.Logf("  %-9s %2d pots, %2.0f %% free, largest pocket %3.0f across, loneliest pot %3.0f from the next, %d stray kinds",
			b.Levels[i].Name, len(b.Levels[i].Pots), 100*g.free, g.pocket, g.lone, g.strays)
		strays += g.strays
		if g.free < 0.6 {
			require.LessOrEqual(t, g.pocket, 140.0, "%s, %s", name, b.Levels[i].Name)
		} else {
			require.LessOrEqual(t, g.pocket, 180.0, "%s, %s", name, b.Levels[i].Name)
		}
		lone := 45.0
		switch {
		case g.free >= 0.6: // few pots scattered over a wide shelf
			lone = 100
		case len(b.Levels[i].Pots) <= 3: // drawn apart, with nobody between them
			lone = 65
		}
		require.LessOrEqual(t, g.lone, lone, "%s, %s", name, b.Levels[i].Name)
	}
	require.LessOrEqual(t, strays, 1, name) // a hole among large ones that takes a small one
	if p.Set == p.Of {                      // else what goes in decides
		require.LessOrEqual(t, math.Abs(mass[0]-mass[1]), 0.15*(mass[0]+mass[1]), name)
	}
}

// requireFinished: what is done to a plan before it is shown costs no pot, no
// watch and no piece of furniture, and repeats itself.
func requireFinished(t *testing.T, s *Search) {
	t.Helper()
	c := s.withoutEmpty(s.best)
	require.True(t, asGood(c, c))
	require.False(t, asGood(nil, c))
	for _, spoil := range []func(*candidate){
		func(c *candidate) { c.value -= 0.1 },
		func(c *candidate) { c.watch++ },
		func(c *candidate) { c.musts -= 0.1 },
		func(c *candidate) { c.pieces++ },
	} {
		worse := *c
		spoil(&worse)
		require.False(t, asGood(&worse, c))
	}
	before := *c
	tidy := s.tidied(c)
	require.Equal(t, before.value, c.value, "the search's own plan is left as it is")
	for _, now := range []*candidate{tidy, s.straight(tidy), s.evened(s.best)} {
		require.False(t, c.beats(now))
		require.InDelta(t, c.value, now.value, 1e-9)
		l := s.context.load.Clone()
		l.Towers = layout.CloneTowers(now.towers)
		b, err := stacks.Build(l)
		require.NoError(t, err)
		require.Zero(t, clearance.Check(b).Problems)
	}
	require.Equal(t, tidy.towers, s.tidied(c).towers, "the same again")
}

// requireSidesAlike: 252 pots that fill two thirds of the front-loader stand on
// two towers of about one height; before, the left one reached the ceiling and
// the right one stopped half way. Dishes with room round them lie straight.
func requireSidesAlike(t *testing.T, p *Plan, b *stacks.Built) {
	t.Helper()
	require.Equal(t, p.Of, p.Set)
	tops, _ := sidesOf(b)
	require.InDelta(t, tops[0], tops[1], 0.1*b.Height)
	for i := range b.Levels {
		require.Zero(t, glanceAt(b, i).strays, "%s: a pot or two stand there whose like have room elsewhere", b.Levels[i].Name)
	}
	dishes := 0
	for i := range b.Pots {
		if b.Pots[i].Cones != nil { // the holes are at 7 and at 5
			require.Equal(t, b.Pots[i].Pot.Ware == "low cones", b.Pots[i].At[0] < 0, "%s stand on the side of their hole", b.Pots[i].Pot)
		}
		if b.Pots[i].Pot.Ware == "slab dish" {
			dishes++
			require.Zero(t, math.Mod(b.Pots[i].Turn, 90))
		}
	}
	require.Equal(t, 12, dishes)
}

// TestWideWareStandsWithinReach: twelve plates of 255 take three levels, twenty
// pots of the same height another; the pots get the level that one must dive
// for, though they are lighter (common practice).
func TestWideWareStandsWithinReach(t *testing.T) {
	t.Parallel()
	plate, pot := cylinder("plate", 12, 100, 255), cylinder("pot", 20, 100, 120)
	plate.Mass, pot.Mass = 1, 0.1
	l := single(700, 620, 4, map[float64]int{25: 3, 125: 9}, plate, pot)
	p := planned(t, l, 1, 30000)
	b := requireSound(t, p)
	require.Equal(t, p.Of, p.Set)
	for i := range b.Pots {
		if b.Pots[i].Pot.Ware == "plate" {
			require.LessOrEqual(t, b.Height-b.Pots[i].Z, float64(reachDeep), "%s on %s", b.Pots[i].Pot, b.Levels[b.Pots[i].Level].Name)
		}
	}
}

// TestHeavyWareStandsLow: of levels of one height within reach the heavier is
// the lower (common practice).
func TestHeavyWareStandsLow(t *testing.T) {
	light, heavy := cylinder("light", 7, 100, 100), cylinder("heavy", 7, 100, 100)
	light.Mass, heavy.Mass = 0.2, 1.5
	l := single(400, 400, 2, map[float64]int{25: 3, 125: 3}, light, heavy)
	p := planned(t, l, 1, 8000)
	b := requireSound(t, p)
	require.Equal(t, p.Of, p.Set)
	masses := make([]float64, len(b.Levels))
	for i := range b.Pots {
		masses[b.Pots[i].Level] += b.Pots[i].Body.Mass
	}
	require.Len(t, masses, 2)
	require.GreaterOrEqual(t, masses[0], masses[1])
}

// TestLopsidedMindsHeightAndMass on the sides of the front-loader.
func TestLopsidedMindsHeightAndMass(t *testing.T) {
	c, err := newContext(sample(t, "front-loader"))
	require.NoError(t, err)
	s := newSearch(c, 1)
	var d *design
	for _, dv := range c.maker().divisions() {
		if dv.base == nil && len(dv.sites) == 2 {
			d = &design{division: dv, floor: 25, lists: []list{{heights: []float64{100, 100}}, {heights: []float64{100, 100}}}}
		}
	}
	require.NotNil(t, d)
	f, err := s.erect(d)
	require.NoError(t, err)
	stacks := stacksOf(f)
	require.Len(t, stacks, 2)
	require.InDelta(t, 0, s.lopsided(f, stacks), 1e-9)
	mug := placed{}
	for i := range 4 {
		f.storeys[stacks[i%2].storeys[0]].set = append(f.storeys[stacks[i%2].storeys[0]].set, mug)
	}
	require.InDelta(t, 0, s.lopsided(f, stacks), 1e-9)
	left, right := f.storeys[stacks[0].storeys[0]], f.storeys[stacks[1].storeys[0]]
	left.set, right.set = append(left.set, right.set[1:]...), right.set[:1]
	require.InDelta(t, 0.5, s.lopsided(f, stacks), 1e-9, "three of four mugs left, one right")
	moved := []stackOf{{append(append([]int(nil), stacks[0].storeys...), stacks[1].storeys[1]), stacks[0].top}, {stacks[1].storeys[:1], stacks[1].top}}
	require.InDelta(t, 0.5+2*(100+18)/1150.0, s.lopsided(f, moved), 1e-9, "and a storey of 118 more left than right")
}

// TestMotionCarriesOneSideToTheOther: half shelves by turning, boards beside
// each other by shifting or in the mirror; unlike sites not at all.
func TestMotionCarriesOneSideToTheOther(t *testing.T) {
	for _, name := range []string{"studio", "front-loader", "newcomer"} {
		c, err := newContext(sample(t, name))
		require.NoError(t, err)
		pairs := 0
		for _, dv := range c.maker().divisions() {
			if len(dv.sites) != 2 {
				continue
			}
			a, b := dv.sites[0], dv.sites[1]
			move, ok := motion(a, b)
			require.True(t, ok, "%s, %s", name, dv.name)
			back, ok := motion(b, a)
			require.True(t, ok)
			pairs++
			p := placed{at: plane.Add(a.outline.Centroid(), plane.Vec{20, 30}), turn: 40}
			q := move(p)
			require.InDelta(t, a.outline.Depth(p.at), b.outline.Depth(q.at), 2)
			r := back(q)
			require.InDelta(t, 0, plane.Distance(p.at, r.at), 0.3)
			require.InDelta(t, p.turn, r.turn, 0.11)
			if dv.base != nil {
				_, ok = motion(a, dv.base)
				require.False(t, ok)
			}
		}
		require.Positive(t, pairs, name)
	}
}
