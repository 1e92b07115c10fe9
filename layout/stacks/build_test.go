package stacks

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
)

func mustBuild(t testing.TB, l *layout.Load) *Built {
	t.Helper()
	b, err := Build(l)
	require.NoError(t, err)
	return b
}

func levelNamed(t *testing.T, b *Built, name string) *Level {
	t.Helper()
	for i := range b.Levels {
		if b.Levels[i].Name == name {
			return &b.Levels[i]
		}
	}
	t.Fatalf("no level %q", name)
	return nil
}

// The heights are summed by hand: posts and shelves of 19 from the floor up.
func TestHeightsAddUp(t *testing.T) {
	b := mustBuild(t, octoberLoad())
	for _, c := range []struct {
		name        string
		bottom, top float64
		down        float64
		takes       float64
		deep, lid   bool
	}{
		{"bottom", 25, 44, 642, 113, true, false},
		{"left 1", 169, 188, 498, 243, true, false},
		{"left 2", 443, 462, 224, 98, false, false},
		{"left 3", 572, 591, 95, 70, false, true},
		{"right 1", 199, 218, 468, 73, true, false},
		{"right 2", 303, 322, 364, 73, false, false},
		{"right 3", 407, 426, 260, 235, false, true},
	} {
		v := levelNamed(t, b, c.name)
		require.InDelta(t, c.bottom, v.Bottom, 1e-9, c.name)
		require.InDelta(t, c.top, v.Top, 1e-9, c.name)
		require.InDelta(t, c.down, b.Height-v.Top, 1e-9, c.name)
		require.InDelta(t, c.takes, v.Takes, 1e-9, c.name)
		require.Equal(t, c.deep, v.Deep, c.name)
		require.Equal(t, c.lid, v.UnderLid, c.name)
	}
	bottom := levelNamed(t, b, "bottom")
	require.Len(t, bottom.Above, 2, "both first half shelves are seen from the full shelf, no others")
	require.Equal(t, "left 1", b.Levels[bottom.Above[0]].Name)
	require.Equal(t, "right 1", b.Levels[bottom.Above[1]].Name)
	require.InDelta(t, 113, b.TakesUnder(0, bottom.Above[0]), 1e-9)
	require.InDelta(t, 143, b.TakesUnder(0, bottom.Above[1]), 1e-9)
}

func TestLettersRunClockwiseFromWhereYouStand(t *testing.T) {
	b := mustBuild(t, octoberLoad())
	at := map[string]plane.Vec{}
	for _, l := range b.Letters {
		at[l.Name] = l.At
	}
	require.Equal(t, map[string]plane.Vec{
		"A": {-28, -270}, "B": {-290, 0}, "C": {-28, 270},
		"D": {28, 270}, "E": {290, 0}, "F": {28, -270},
	}, at)
	require.Equal(t, []string{"C", "A", "B", "D", "F", "E"}, b.Towers[0].Letters, "the full shelf's posts stand under all six")
	require.Equal(t, []string{"C", "A", "B"}, b.Towers[1].Letters)
	for _, p := range b.Posts {
		require.Equal(t, at[p.Letter], p.At)
	}
}

func TestPostsCarryTheShelvesTheyStandUnder(t *testing.T) {
	b := mustBuild(t, octoberLoad())
	require.Len(t, b.Posts, 6+3*6)
	for i := range b.Posts {
		p := &b.Posts[i]
		require.Len(t, p.Shelves, 1)
		require.Equal(t, b.Shelves[p.Shelves[0]].Level, p.Level)
		require.Equal(t, p.Top, b.Shelves[p.Shelves[0]].Bottom)
		require.InDelta(t, p.Top, p.Solid.Top(), 1e-9)
		require.InDelta(t, p.Bottom, p.Solid.Bottom(), 1e-9)
	}
	left2 := levelNamed(t, b, "left 2")
	post := b.Posts[left2.Posts[0]]
	require.Len(t, post.Pieces, 3)
	require.InDelta(t, 188, post.Pieces[0].Bottom, 1e-9)
	require.InDelta(t, 388, post.Pieces[1].Bottom, 1e-9)
	require.InDelta(t, 438, post.Pieces[2].Bottom, 1e-9)
	require.Len(t, post.Solid.Body.Parts, 1, "pieces of one section are one prism")
}

// Two halves on four posts between them: each post carries both.
func TestHalvesShareTheirPosts(t *testing.T) {
	l := octoberLoad()
	l.Towers = []layout.Tower{{Name: "all", Lines: []layout.Line{
		{At: plane.Vec{0, 270}}, {At: plane.Vec{0, -270}}, {At: plane.Vec{-290, 0}}, {At: plane.Vec{290, 0}},
	}, Levels: []layout.Level{
		{Posts: []layout.MakeUp{{{Height: 25}}}, Shelves: []layout.ShelfAt{
			{Kind: "half", At: plane.Vec{-3, 0}, Turn: 270}, {Kind: "half", At: plane.Vec{3, 0}, Turn: 90},
		}},
		{Posts: []layout.MakeUp{{{Height: 100}}}, Shelves: []layout.ShelfAt{{Kind: "full"}}},
	}}}
	b := mustBuild(t, l)
	require.Equal(t, "level 1", b.Levels[0].Name)
	require.Equal(t, "level 2", b.Levels[1].Name)
	carried := map[string][]int{}
	for _, p := range b.Levels[0].Posts {
		carried[b.Posts[p].Letter] = b.Posts[p].Shelves
	}
	require.Equal(t, map[string][]int{"A": {0, 1}, "B": {0}, "C": {0, 1}, "D": {1}}, carried)
	require.Equal(t, []int{1}, b.Levels[0].Above)
	require.InDelta(t, 144, b.Levels[0].Ceiling, 1e-9)
}

// A shelf lies on its highest posts by their real heights, and hangs by its
// bow over what stands under it.
func TestRealHeightsAndBowCount(t *testing.T) {
	l := octoberLoad()
	l.Furniture.Posts[6].Real = 123.5 // called 125
	l.Furniture.Shelves[1].Bow = 4
	b := mustBuild(t, l)
	left1 := levelNamed(t, b, "left 1")
	require.InDelta(t, 44+123.5, left1.Bottom, 1e-9)
	bottom := levelNamed(t, b, "bottom")
	require.InDelta(t, 44+123.5-4, bottom.Ceiling, 1e-9)
	require.InDelta(t, 123.5-4-12, bottom.Takes, 1e-9)

	l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Height: 125, Name: "new", Count: 1, Section: l.Furniture.Posts[0].Section})
	m := func(name string) layout.MakeUp { return layout.MakeUp{{Height: 125, Name: name}} }
	l.Towers[1].Levels[0].Posts = []layout.MakeUp{m(""), m("new"), m("")}
	b = mustBuild(t, l)
	left1 = levelNamed(t, b, "left 1")
	require.InDelta(t, 44+125, left1.Bottom, 1e-9)
	require.InDelta(t, 44+123.5, b.Posts[left1.Posts[0]].Top, 1e-9)
	require.InDelta(t, 44+125, b.Posts[left1.Posts[1]].Top, 1e-9)
}

func TestPostsOnlyWhereAMakeUpIsGiven(t *testing.T) {
	l := octoberLoad()
	l.Towers[0].Levels[0].Posts = []layout.MakeUp{{{Height: 25}}, {{Height: 25}}, {{Height: 25}}, nil, {}, {{Height: 25}}}
	b := mustBuild(t, l)
	require.Len(t, b.Levels[0].Posts, 4)
	l.Towers[0].Levels[0].Posts = nil
	b = mustBuild(t, l)
	require.Empty(t, b.Levels[0].Posts)
	require.InDelta(t, 19, b.Levels[0].Top, 1e-9, "the shelf lies on the floor")
}

// A full shelf on top of both sides is seen from the sides only, and the room
// under the lid is the full shelf's.
func TestAShelfOverBothSides(t *testing.T) {
	l := octoberLoad()
	l.Towers[1].Levels, l.Towers[2].Levels = l.Towers[1].Levels[:1], l.Towers[2].Levels[:1]
	l.Towers[2].Levels[0].Posts = l.Towers[1].Levels[0].Posts
	l.Furniture.Shelves[0].Count = 2
	l.Towers = append(l.Towers, layout.Tower{
		Name: "top", On: []layout.Support{{Tower: "left side", Level: 1}, {Tower: "right side", Level: 1}},
		Lines: l.Towers[0].Lines, Levels: []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: []layout.MakeUp{{{Height: 200}}}}},
	})
	b := mustBuild(t, l)
	require.Equal(t, []string{"bottom", "left 1", "right 1", "top 1"},
		[]string{b.Levels[0].Name, b.Levels[1].Name, b.Levels[2].Name, b.Levels[3].Name})
	require.Equal(t, []int{1, 2}, b.Levels[0].Above)
	require.Equal(t, []int{3}, b.Levels[1].Above)
	require.Equal(t, []int{3}, b.Levels[2].Above)
	require.InDelta(t, 188+200, b.Levels[3].Bottom, 1e-9)
	require.True(t, b.Levels[3].UnderLid)
	require.True(t, b.Towers[3].Leaf)
	require.False(t, b.Towers[1].Leaf)
	require.Len(t, b.Letters, 6, "all towers share six places")
	require.Equal(t, "A", b.Towers[3].Letters[1], "the line nearest 6 o'clock on its left")
}

func TestLettersGoOnAfterZ(t *testing.T) {
	for n, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		require.Equal(t, want, letterName(n))
	}
}

// Lines of two towers within half a section share a letter, farther ones not.
func TestLinesShareALetterWithinHalfASection(t *testing.T) {
	for _, c := range []struct {
		off    float64
		shared bool
	}{{0, true}, {18.9, true}, {19.1, false}} {
		l := octoberLoad()
		l.Towers[0].Lines[2].At = plane.Vec{-290 + c.off, 0}
		b := mustBuild(t, l)
		require.Equal(t, c.shared, b.Towers[0].Letters[2] == "B", "%v", c.off)
		if !c.shared {
			require.Equal(t, "G", b.Towers[0].Letters[2])
		}
	}
}

// A hexagon kiln's probe by hand: the wall at 12 o'clock is 356 from the
// middle; 45 in is 311.
func TestProbesAndSpyholes(t *testing.T) {
	l := octoberLoad()
	l.Kiln.Probes = []layout.Probe{{At: 0, Height: 343, Reach: 45, Diameter: 12}, {At: 90, Height: 100, Reach: 4, Diameter: 12}}
	b := mustBuild(t, l)
	p := &b.Probes[0]
	require.InDelta(t, 356, p.Inner[1], 1e-6)
	require.InDelta(t, 311, p.Tip[1], 1e-6)
	require.InDelta(t, 311, p.Solid.Min[1], 1e-6, "the round end reaches the tip")
	require.InDelta(t, 337, p.Solid.Bottom(), 1e-9)
	require.InDelta(t, 349, p.Solid.Top(), 1e-9)
	for i := 0; i <= 40; i++ { // the tube's section is inside the solid's
		s, c := plane.SinCos(float64(i) * 9)
		r := p.Solid.Body.Parts[0].Profile.R(6 * c * 0.999999)
		require.GreaterOrEqual(t, r, 6*s-1e-5)
	}
	require.InDelta(t, 356, b.Probes[1].Inner[0], 1e-6)
	s := b.Spies[0]
	require.InDelta(t, -356, s.Mouth[1], 1e-6)
	require.Equal(t, plane.Vec{0, 1}, s.Inward)
}

// A square chamber: the bearing of half past one meets the corner.
func TestWallOnABearing(t *testing.T) {
	o, err := plane.Rectangle(600, 600)
	require.NoError(t, err)
	require.InDelta(t, 0, plane.Distance(plane.Vec{300, 300}, wallAt(o, 45)), 1e-6)
	require.InDelta(t, 0, plane.Distance(plane.Vec{-300, 0}, wallAt(o, 270)), 1e-6)
}

func TestPotsStandOnTheirShelf(t *testing.T) {
	b := mustBuild(t, octoberLoad())
	require.Len(t, b.Pots, 1)
	p := b.Pots[0]
	require.Equal(t, "left 1", b.Levels[p.Level].Name)
	require.Equal(t, p.Level, b.Shelves[p.Shelf].Level)
	require.InDelta(t, 188, p.Z, 1e-9)
	require.InDelta(t, 188+97, p.Solid.Top(), 1e-9)
	require.Equal(t, "mug", p.Ware.Name)
	require.Equal(t, 0, p.Kind)

	l := octoberLoad()
	l.Towers[1].Levels[0].Set[0].At = plane.Vec{600, 0}
	b = mustBuild(t, l)
	require.Equal(t, -1, b.Pots[0].Shelf, "beside every shelf")
	require.InDelta(t, 188, b.Pots[0].Z, 1e-9)
}

func TestWhatCannotBeBuiltIsRefused(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		spoil func(*layout.Load)
		want  string
		where layout.Thing
	}{
		"unknown post": {func(l *layout.Load) { l.Towers[1].Levels[1].Posts = []layout.MakeUp{{{Height: 120}}} },
			`Level 2 of "left side" takes a post 120 mm, and the furniture lists none; it lists 5 mm, 10 mm, 25 mm`,
			layout.Thing{Kind: layout.ThingPost, Name: "line 1", Tower: "left side", Level: 2}},
		"unknown shelf": {func(l *layout.Load) { l.Towers[0].Levels[0].Shelves[0].Kind = "third" },
			`Level 1 of "base" takes a shelf "third", and the furniture lists none of that name.`,
			layout.Thing{Kind: layout.ThingShelf, Name: "third", Tower: "base", Level: 1}},
		"on itself": {func(l *layout.Load) { l.Towers[1].On[0].Tower = "left side" },
			`"left side" stands on itself`, layout.Thing{Kind: layout.ThingLevel, Tower: "left side"}},
		"in a ring": {func(l *layout.Load) { l.Towers[0].On[0] = layout.Support{Tower: "left side", Level: 1} },
			`"base" stands, over other towers, on itself`, layout.Thing{Kind: layout.ThingLevel, Tower: "base"}},
		"on nothing": {func(l *layout.Load) { l.Towers[1].On[0].Tower = "middle" },
			`"left side" stands on "middle", and there is no tower of that name.`, layout.Thing{Kind: layout.ThingLevel, Tower: "left side"}},
		"on a level too high": {func(l *layout.Load) { l.Towers[1].On[0].Level = 2 },
			`"left side" stands on level 2 of "base", which has 1.`, layout.Thing{Kind: layout.ThingLevel, Tower: "left side"}},
		"two of a name": {func(l *layout.Load) { l.Towers[2].Name = "left side" },
			`Towers 2 and 3 are both called "left side"`, layout.Thing{Kind: layout.ThingLevel, Tower: "left side"}},
		"no shelf": {func(l *layout.Load) { l.Towers[0].Levels[0].Shelves = nil },
			`Level 1 of "base" has no shelf`, layout.Thing{Kind: layout.ThingLevel, Tower: "base", Level: 1}},
		"posts for other lines": {func(l *layout.Load) { l.Towers[0].Levels[0].Posts = make([]layout.MakeUp, 4) },
			`gives posts for 4 lines and the tower has 6`, layout.Thing{Kind: layout.ThingLevel, Tower: "base", Level: 1}},
		"unknown pot": {func(l *layout.Load) { l.Towers[1].Levels[0].Set[0].Pot.Ware = "cup" },
			`On level 1 of "left side": "cup 1" is neither a pot of the ware list nor a cone pack.`,
			layout.Thing{Kind: layout.ThingPot, Name: "cup 1", Tower: "left side", Level: 1}},
		"one mug too many": {func(l *layout.Load) { l.Towers[1].Levels[0].Set[0].Pot.Number = 25 },
			`there is no "mug 25": the row "mug" has 24`, layout.Thing{Kind: layout.ThingPot, Name: "mug 25", Tower: "left side", Level: 1}},
		"set twice": {func(l *layout.Load) {
			l.Towers[2].Levels[0].Set = []layout.Placement{{Pot: layout.Pot{Ware: "mug", Number: 1}}}
		}, `"mug 1" is set twice`, layout.Thing{Kind: layout.ThingPot, Name: "mug 1", Tower: "right side", Level: 1}},
		"pot nowhere": {func(l *layout.Load) { l.Towers[1].Levels[0].Set[0].At[0] = nan },
			`"mug 1" stands at a place that is no number`, layout.Thing{Kind: layout.ThingPot, Name: "mug 1", Tower: "left side", Level: 1}},
		"pot that is none": {func(l *layout.Load) { l.Ware[0].Profile[1].Diameter = nan },
			`mug: the diameter of a profile entry is not a number`, layout.Thing{Kind: layout.ThingPot, Name: "mug 1", Tower: "left side", Level: 1}},
		"no chamber": {func(l *layout.Load) { l.Kiln.Chamber = layout.Shape{} },
			`The kiln's chamber: "" is no shape`, layout.Thing{Kind: layout.ThingKiln}},
		"half a chamber": {func(l *layout.Load) { l.Kiln.Chamber = layout.Shape{Kind: layout.HalfRound, Across: 700, Depth: 300} },
			`The middle of the kiln's floor lies on its wall`, layout.Thing{Kind: layout.ThingKiln}},
		"no height": {func(l *layout.Load) { l.Kiln.Height = nan },
			`The kiln's chamber is NaN high`, layout.Thing{Kind: layout.ThingKiln}},
		"shelf of no thickness": {func(l *layout.Load) { l.Furniture.Shelves[0].Thick = 0 },
			`The shelf "full" is 0 thick`, layout.Thing{Kind: layout.ThingShelf, Name: "full", Tower: "base", Level: 1}},
		"post of no section": {func(l *layout.Load) { l.Furniture.Posts[2].Section = layout.Section{} },
			`The post 25 mm has the section  0`, layout.Thing{Kind: layout.ThingPost, Name: "line 1", Tower: "base", Level: 1}},
		"probe of no reach": {func(l *layout.Load) { l.Kiln.Probes[0].Reach = 0 },
			`A probe reaches 0 in`, layout.Thing{Kind: layout.ThingProbe}},
		"line nowhere": {func(l *layout.Load) { l.Towers[0].Lines[3].At[1] = math.Inf(1) },
			`Line 4 of "base" has a place that is no number`, layout.Thing{Kind: layout.ThingPost, Name: "line 4", Tower: "base", Level: 1}},
		"too many levels": {func(l *layout.Load) { l.Towers[0].Levels = make([]layout.Level, 1000) },
			`"base" has 1000 levels and 6 lines`, layout.Thing{Kind: layout.ThingLevel, Tower: "base"}},
	} {
		l := octoberLoad()
		c.spoil(l)
		b, err := Build(l)
		require.Nil(t, b, name)
		var first *Refusal
		require.ErrorAs(t, err, &first, name)
		require.Contains(t, err.Error(), c.want, name)
		require.Equal(t, c.where, first.Where, name)
	}
}

func TestRefusalsAreAllToldInOrder(t *testing.T) {
	l := octoberLoad()
	l.Towers[2].Levels[2].Posts = []layout.MakeUp{{{Height: 7}}}
	l.Towers[1].Levels[0].Set[0].Pot.Ware = "cup"
	l.Towers[0].Levels[0].Shelves[0].Kind = "third"
	l.Kiln.Height = 0
	_, err := Build(l)
	var all Refusals
	require.ErrorAs(t, err, &all)
	var towers []string
	for _, r := range all {
		if n := len(towers); n == 0 || towers[n-1] != r.Where.Tower {
			towers = append(towers, r.Where.Tower)
		}
	}
	require.Equal(t, []string{"", "base", "left side", "right side"}, towers)
}

// Moving a pot is exactly what building the moved load makes of it, and it
// allocates nothing.
func TestMovePotIsBuild(t *testing.T) {
	b := mustBuild(t, octoberLoad())
	rapid.Check(t, func(t *rapid.T) {
		at := plane.Vec{rapid.Float64Range(-400, 400).Draw(t, "x"), rapid.Float64Range(-400, 400).Draw(t, "y")}
		turn := rapid.Float64Range(0, 360).Draw(t, "turn")
		b.MovePot(0, at, turn)
		l := octoberLoad()
		l.Towers[1].Levels[0].Set[0].At, l.Towers[1].Levels[0].Set[0].Turn = at, turn
		want, err := Build(l)
		require.NoError(t, err)
		got := b.Pots[0]
		require.Equal(t, want.Pots[0].Shelf, got.Shelf)
		require.Equal(t, want.Pots[0].Z, got.Z)
		require.Equal(t, want.Pots[0].Solid.Min, got.Solid.Min)
		require.Equal(t, want.Pots[0].Solid.Max, got.Solid.Max)
		for i := range got.Solid.Body.Parts {
			require.Equal(t, want.Pots[0].Solid.Skeleton(i), got.Solid.Skeleton(i))
		}
	})
	require.Zero(t, testing.AllocsPerRun(100, func() { b.MovePot(0, plane.Vec{-200, 20}, 30) }))
	before := b.Pots[0]
	b.MovePot(7, plane.Vec{}, 0)
	b.MovePot(0, plane.Vec{math.NaN(), 0}, 0)
	require.Equal(t, before.At, b.Pots[0].At)
}

// The plan of a shelf's solid contains the shelf and stands out by less than
// 1 mm; whole discs and straight shelves are exact.
func TestShelfSolidsContainTheShelf(t *testing.T) {
	for _, c := range []struct {
		shape layout.Shape
		out   float64
	}{
		{layout.Shape{Kind: layout.Round, Across: 660}, 1e-9},
		{layout.Shape{Kind: layout.HalfRound, Across: 660, Depth: 327}, 1},
		{layout.Shape{Kind: layout.HalfRound, Across: 660, Depth: 200}, 1},
		{layout.Shape{Kind: layout.Sided, Sides: 8, Across: 394}, 1e-9},
		{layout.Shape{Kind: layout.HalfSided, Sides: 12, Across: 600, Depth: 290}, 1e-9},
		{layout.Shape{Kind: layout.Oval, Width: 900, Depth: 600}, 1e-9},
		{layout.Shape{Kind: layout.HalfOval, Width: 900, Depth: 297}, 1},
		{layout.Shape{Kind: layout.Rectangle, Width: 610, Depth: 305}, 1e-9},
		{layout.Shape{Kind: layout.Rectangle, Width: 610, Depth: 305, Corner: 30}, 1},
	} {
		o, err := c.shape.Outline()
		require.NoError(t, err)
		body := shelfBody(&layout.ShelfKind{Shape: c.shape, Thick: 19})
		part := body.Parts[0]
		require.NoError(t, part.Validate(), c.shape.Kind)
		for _, p := range o.Points(0.01) {
			d, _, _ := plane.SignedDistance(part.Skeleton, plane.Skeleton{p})
			require.LessOrEqual(t, d-part.Profile.Max(), 1e-6, c.shape.Kind)
		}
		for _, v := range part.Skeleton {
			require.GreaterOrEqual(t, o.Depth(v)-part.Profile.Max(), -c.out-1e-9, c.shape.Kind)
		}
	}
}

// Masses by hand: a disc 508 x 19 at 2.2 g/cm3 and a post 38 x 38 x 100.
func TestFurnitureMass(t *testing.T) {
	require.InDelta(t, math.Pi/4*508*508*19*2.2e-6, ShelfMass(&layout.ShelfKind{Shape: layout.Shape{Kind: layout.Round, Across: 508}, Thick: 19}), 1e-9)
	require.Equal(t, 13.9, ShelfMass(&layout.ShelfKind{Mass: 13.9}))
	for _, c := range []struct {
		section layout.Section
		area    float64
	}{
		{layout.Section{Kind: layout.SquareSection, Width: 38}, 38 * 38},
		{layout.Section{Kind: layout.RoundSection, Width: 40}, math.Pi * 400},
		{layout.Section{Kind: layout.HexagonSection, Width: 40}, math.Sqrt(3) / 2 * 1600},
		{layout.Section{Kind: layout.TriangleSection, Width: 38}, math.Sqrt(3) / 4 * 38 * 38},
	} {
		require.InDelta(t, c.area*100*2.2e-6, PostMass(&layout.PostKind{Height: 100, Section: c.section}), 1e-9, c.section.Kind)
	}
}

// Whatever the figures are, Build answers and does not break off.
func TestBuildTakesAnything(t *testing.T) {
	wild := rapid.SampledFrom([]float64{0, -1, 1, 5, 25, 100, 330, 1e9, math.NaN(), math.Inf(1), math.Inf(-1), 1e-300})
	rapid.Check(t, func(t *rapid.T) {
		l := octoberLoad()
		for i := rapid.IntRange(1, 4).Draw(t, "spoiled"); i > 0; i-- {
			x := wild.Draw(t, "figure")
			n := rapid.IntRange(0, 3).Draw(t, "which")
			switch rapid.IntRange(0, 17).Draw(t, "where") {
			case 0:
				l.Kiln.Height = x
			case 1:
				l.Kiln.Chamber.Across = x
			case 2:
				l.Kiln.Probes[0].At = x
			case 3:
				l.Kiln.Probes[0].Reach = x
			case 4:
				l.Furniture.Shelves[n%2].Thick = x
			case 5:
				l.Furniture.Shelves[n%2].Shape.Across = x
			case 6:
				l.Furniture.Posts[n].Real = x
			case 7:
				l.Furniture.Posts[n].Section.Width = x
			case 8:
				l.Ware[0].Profile[n%2].Diameter = x
			case 9:
				l.Ware[0].Profile[n%2].Height = x
			case 10:
				l.Ware[0].Handles[0].Reach = x
			case 11:
				l.Ware[0].Handles[0].At = x
			case 12:
				l.Ware[0].Foot = x
			case 13:
				l.Towers[n%3].Lines[n%3].At[n%2] = x
			case 14:
				l.Towers[n%3].Levels[0].Shelves[0].At[n%2] = x
			case 15:
				l.Towers[1].Levels[0].Set[0].Turn = x
			case 16:
				l.Towers[n%3].Levels[0].Shelves[0].Turn = x
			case 17:
				l.Ware[0].Measured, l.Ware[0].Knob, l.Ware[0].Wall = true, x, x
			}
		}
		b, err := Build(l)
		require.True(t, (b == nil) == (err != nil))
		if b != nil {
			Used(b)
		}
	})
}

func TestFurnitureToFetch(t *testing.T) {
	l := octoberLoad()
	l.Ware = append(l.Ware, layout.Ware{Name: "vase", Count: 1, Height: 100, Across: 70, Flags: layout.Flags{Runny: true}})
	l.Cones = []layout.ConePack{{Name: "cones left"}, {Name: "cones right"}}
	l.Towers[2].Levels[0].Set = []layout.Placement{
		{Pot: layout.Pot{Ware: "vase"}, At: plane.Vec{150, 0}}, {Pot: layout.Pot{Ware: "cones left"}, At: plane.Vec{200, 150}},
	}
	l.Towers[2].Levels[2].Set = []layout.Placement{{Pot: layout.Pot{Ware: "cones right"}, At: plane.Vec{200, 150}}}
	b := mustBuild(t, l)
	var said []string
	for _, f := range Used(b) {
		require.Zero(t, f.Short())
		said = append(said, f.Say(l.Units))
	}
	require.Equal(t, []string{
		"1 full shelf", "6 half shelves",
		"3 posts 200", "3 posts 150", "3 posts 125", "3 posts 100", "6 posts 75", "3 posts 50", "6 posts 25",
		"9 spacers 10", "6 spacers 5", "2 cone packs", "1 cookie",
	}, said)

	l.Furniture.Posts[4].Count = 4
	l.Furniture.Shelves[1].Count = 5
	s := NewStock(&l.Furniture)
	s.Use(mustBuild(t, l))
	var missing []string
	for _, f := range s.Missing() {
		missing = append(missing, SayShort(f, l.Units))
	}
	require.Equal(t, []string{"The load takes 6 half shelves; you own 5.", "The load takes 6 posts 75; you own 4."}, missing)
}

// manyPots is the example with n mugs in rows on its levels; they overlap,
// which Build does not mind.
func manyPots(n int) *layout.Load {
	l := octoberLoad()
	l.Ware[0].Count = n
	l.Towers[1].Levels[0].Set = nil
	for i := 0; i < n; i++ {
		v := &l.Towers[1+i%2].Levels[i/2%3]
		x := float64(60 + i%40*6)
		if i%2 == 0 {
			x = -x
		}
		v.Set = append(v.Set, layout.Placement{Pot: layout.Pot{Ware: "mug", Number: i + 1}, At: plane.Vec{x, float64(i%7*60 - 180)}, Turn: float64(i * 37 % 360)})
	}
	return l
}

func BenchmarkBuild200Pots(b *testing.B) {
	l := manyPots(200)
	b.ReportAllocs()
	for b.Loop() {
		mustBuild(b, l)
	}
}

func BenchmarkBuild1000Pots(b *testing.B) {
	l := manyPots(1000)
	for b.Loop() {
		mustBuild(b, l)
	}
}

func BenchmarkMovePot(b *testing.B) {
	built := mustBuild(b, manyPots(200))
	for b.Loop() {
		built.MovePot(40, plane.Vec{-150, 20}, 10)
	}
}
