package planner

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// stacked is a load of package's single with one tower of full shelves on three
// lines: the posts of each level from the bottom, and which pots stand on it.
func stacked(t *testing.T, l *layout.Load, posts []string, set ...[]layout.Placement) *stacks.Built {
	t.Helper()
	tower := layout.Tower{Name: "stack", On: []layout.Support{{}}, Lines: []layout.Line{
		{At: plane.Vec{0, 160}}, {At: plane.Vec{138, -80}}, {At: plane.Vec{-138, -80}}}}
	for i, p := range posts {
		v := layout.Level{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: []layout.MakeUp{piecesOf(t, p)}}
		if i < len(set) {
			v.Set = set[i]
		}
		tower.Levels = append(tower.Levels, v)
	}
	l.Towers = []layout.Tower{tower}
	b, err := stacks.Build(l)
	require.NoError(t, err)
	return b
}

// piecesOf reads a make-up such as "150 + 5".
func piecesOf(t *testing.T, text string) layout.MakeUp {
	t.Helper()
	var m layout.MakeUp
	for _, p := range strings.Split(text, "+") {
		var mm float64
		_, err := fmt.Sscan(p, &mm)
		require.NoError(t, err)
		m = append(m, layout.Piece{Height: mm})
	}
	return m
}

// stand puts a pot of a row into the middle of a level.
func stand(ware string, number int) []layout.Placement {
	return []layout.Placement{{Pot: layout.Pot{Ware: ware, Number: number}}}
}

// said are all reasons of a load as sentences.
func said(b *stacks.Built) []string {
	var out []string
	for _, r := range Why(b) {
		out = append(out, r.Say(b, b.Load.Units))
	}
	return out
}

// vase is a load with a vase that is planned 143 high, room for it and for a
// cup above it.
func vase(posts map[float64]int) *layout.Load {
	return single(410, 400, 3, posts, cylinder("vase", 1, 141, 90), cylinder("cup", 1, 60, 80))
}

// TestThePostsMakeNothingLower: a vase of 143 wants 12 above it; the posts make
// 125, 150 and 155, so it stands under 155.
func TestThePostsMakeNothingLower(t *testing.T) {
	b := stacked(t, vase(map[float64]int{5: 3, 25: 3, 125: 3, 150: 3}), []string{"25", "150+5"}, stand("vase", 0), stand("cup", 0))
	require.Equal(t, []string{
		"Level 1 stands on 3×25: plans keep 25 over the floor; the posts make nothing lower.",
		"Level 1 carries 3×(150+5): the vase is 143 high and wants 12 above it.",
		"Level 2 has 190 to the lid: the cup is 62 high, plans keep 25, and 103 are left; nothing waits for another level.",
	}, said(b))
	b = stacked(t, vase(map[float64]int{10: 3, 25: 3, 125: 3, 150: 3}), []string{"25", "150+10"}, stand("vase", 0), stand("cup", 0))
	r := Why(b)[1]
	require.Equal(t, "Level 1 carries 3×(150+10): the vase is 143 high and wants 12 above it; the posts make nothing between 150 and 160.", r.Say(b, measure.MM))
	require.Equal(t, ForPosts, r.Cause)
	require.Equal(t, 150.0, r.Lower)
	require.Equal(t, 155.0, r.Need)
	require.Equal(t, 5.0, r.Spare())
}

// TestTheShelfAboveBows: the bow is room that the vase wants too.
func TestTheShelfAboveBows(t *testing.T) {
	l := vase(map[float64]int{5: 3, 25: 3, 150: 3, 10: 3})
	l.Furniture.Shelves[0].Bow = 3
	b := stacked(t, l, []string{"25", "150+10"}, stand("vase", 0))
	require.Equal(t, "Level 1 carries 3×(150+10): the vase is 143 high and wants 12 above it, and the shelf above bows 3; the posts make nothing between 155 and 160.", said(b)[1])
}

// TestThePostsOfALowerHeightStandElsewhere, and only there.
func TestThePostsOfALowerHeightStandElsewhere(t *testing.T) {
	l := single(410, 500, 4, map[float64]int{25: 3, 100: 3, 125: 3}, cylinder("cup", 3, 80, 80))
	b := stacked(t, l, []string{"25", "125", "100"}, stand("cup", 1), stand("cup", 2), stand("cup", 3))
	all := Why(b)
	require.Equal(t, "Level 1 carries 3×125: one cup is 82 high and wants 12 above it; 100 would do, but its posts hold up level 3.", all[1].Say(b, measure.MM))
	require.Equal(t, 2, all[1].By)
	require.Equal(t, ForPosts, all[2].Cause)

	// With three more of 100 nothing asks for the 125.
	l.Furniture.Posts[1].Count = 6
	b = stacked(t, l, []string{"25", "125", "100"}, stand("cup", 1), stand("cup", 2), stand("cup", 3))
	require.Equal(t, "Level 1 carries 3×125: one cup is 82 high and wants 12 above it; 100 would do as well.", said(b)[1])
}

// TestALowerHeightTakesMorePieces, and says how many.
func TestALowerHeightTakesMorePieces(t *testing.T) {
	l := single(410, 500, 4, map[float64]int{25: 3, 50: 6, 125: 3}, cylinder("cup", 1, 80, 80))
	b := stacked(t, l, []string{"25", "125"}, stand("cup", 0))
	require.Equal(t, "Level 1 carries 3×125: the cup is 82 high and wants 12 above it; 100 would do, but of 6 pieces instead of 3.", said(b)[1])
}

// TestALowerShelfIsAtTheProbe: the reason is the checker's own sentence.
func TestALowerShelfIsAtTheProbe(t *testing.T) {
	l := single(410, 500, 4, map[float64]int{50: 3, 100: 3, 150: 3}, cylinder("cup", 1, 80, 80))
	l.Kiln.Probes = []layout.Probe{{At: 270, Height: 172, Reach: 60, Diameter: 12}}
	b := stacked(t, l, []string{"50", "150"}, stand("cup", 0))
	r := Why(b)[1]
	require.Equal(t, ForRule, r.Cause)
	require.Equal(t, 100.0, r.Lower)
	require.NotNil(t, r.Breaks)
	require.Contains(t, []layout.RuleName{layout.ToProbe, layout.ProbeLevel}, r.Breaks.Rule)
	require.Regexp(t, `^Level 1 carries 3×150: the cup is 82 high and wants 12 above it; at 100 the .*probe`, r.Say(b, measure.MM))
}

// TestTheProbeDecidesTheOrder: the tall storey would stand low, and its shelf
// would be level with the probe.
func TestTheProbeDecidesTheOrder(t *testing.T) {
	l := single(410, 600, 4, map[float64]int{25: 3, 100: 3, 200: 3}, cylinder("cup", 1, 80, 80), cylinder("vase", 1, 180, 80))
	l.Kiln.Probes = []layout.Probe{{At: 270, Height: 248, Reach: 60, Diameter: 12}}
	b := stacked(t, l, []string{"25", "100", "200"}, stand("cup", 0), stand("vase", 0))
	r := Why(b)[1]
	require.NotNil(t, r.Order)
	require.Equal(t, "The probe at 9 decided the order: with tall levels low the shelf of level 2 would be level with it.", r.SayOrder(b, measure.MM))
	require.Empty(t, Why(b)[0].SayOrder(b, measure.MM), "the lowest posts stand lowest in any order")

	l.Wishes.Tall = layout.TallHigh // as wished: nothing else decided it
	b, err := stacks.Build(l)
	require.NoError(t, err)
	require.Nil(t, Why(b)[1].Order)
}

// TestASpyholeDecidesTheOrder: cones are watched at a height where only the low
// storey at the bottom brings them.
func TestASpyholeDecidesTheOrder(t *testing.T) {
	l := single(410, 600, 4, map[float64]int{25: 3, 100: 3, 250: 3}, cylinder("cup", 1, 80, 80), cylinder("vase", 1, 230, 80))
	l.Kiln.Spyholes = []layout.Spyhole{{At: 180, Height: 220}}
	l.Cones = []layout.ConePack{{Name: "cones", Cones: []measure.Cone{"6"}, Watched: true}}
	b := stacked(t, l, []string{"25", "100", "250"}, stand("cup", 0), stand("vase", 0))
	require.Equal(t, "The spyhole at 6 decided the order: with tall levels low no level of the tower would bring the cones before it.", Why(b)[1].SayOrder(b, measure.MM))
}

// TestWhatStaysLacksOrIsEmptyIsSaidSo.
func TestWhatStaysLacksOrIsEmptyIsSaidSo(t *testing.T) {
	l := vase(map[float64]int{25: 3, 150: 6})
	b := stacked(t, l, []string{"25", "150", "150"}, stand("vase", 0))
	require.Equal(t, []string{
		"Level 1 stands on 3×25: plans keep 25 over the floor; the posts make nothing lower.",
		"Level 1 carries 3×150: the vase is 143 high, which leaves 7 above, plan 12.",
		"Level 2 carries 3×150, and nothing stands under the shelf of level 3.",
		"Level 3 has 30 to the lid, and nothing stands there.",
	}, said(b))
	l.Towers[0].Levels[1].Standing, l.Towers[0].Levels[2].Locked = true, true
	b, err := stacks.Build(l)
	require.NoError(t, err)
	require.Equal(t, "Level 1 carries 3×150, which stand in the kiln already.", said(b)[1])
	require.Equal(t, "Level 2 carries 3×150, which are locked.", said(b)[2])
}

// TestATowerThatStandsOnTwo: a full shelf over two sides whose tops agree. The
// taller pot of the two sides is told with its side, and one side alone cannot
// be lower.
func TestATowerThatStandsOnTwo(t *testing.T) {
	b, err := stacks.Build(sample(t, "reference/newcomer"))
	require.NoError(t, err)
	l := b.Load.Clone()
	sides := 0
	for i := range l.Towers {
		if len(l.Towers[i].On) > 0 && l.Towers[i].On[0].Tower != "" {
			sides++
			l.Towers[i].Levels = l.Towers[i].Levels[:1]
			l.Towers[i].Levels[0].Set = nil
		}
	}
	require.Equal(t, 2, sides)
	full := l.Towers[0].Levels[0].Shelves[0]
	top := layout.Tower{Name: "top", On: []layout.Support{{Tower: "left side", Level: 1}, {Tower: "right side", Level: 1}},
		Lines: l.Towers[0].Lines, Levels: []layout.Level{{Shelves: []layout.ShelfAt{full}, Posts: []layout.MakeUp{piecesOf(t, "50+50")}}}}
	l.Towers = append(l.Towers, top)
	l.Towers[0].Levels[0].Set = nil
	l.Towers[2].Levels[0].Set = []layout.Placement{{Pot: layout.Pot{Ware: "bowl", Number: 1}, At: plane.Vec{100, 0}}}
	b, err = stacks.Build(l)
	require.NoError(t, err)
	for _, r := range Why(b) {
		if r.Over == 3 {
			require.Equal(t, []int{1, 2}, r.Under)
			require.Equal(t, "Left 1 and right 1 carry 6×(50+50): one bowl on right 1 is 77 high and wants 12 above it; the posts make nothing between 88 and 100.", r.Say(b, measure.MM))
		}
		if r.Over == 1 {
			require.NotEqual(t, ForSpare, r.Cause, "one side alone cannot be lower")
		}
	}
}

// TestLawEveryLevelHasItsReasons, on the samples' reference plans: every
// storey is told once, the heights add up, what the posts do not make is not
// made by any choice of at most three pieces (a count of its own, without the
// catalogue), what would do as well passes the check, and the words keep the
// house's rules.
func TestLawEveryLevelHasItsReasons(t *testing.T) {
	causes := map[Cause]int{}
	for _, name := range samples() {
		l := sample(t, "reference/"+name)
		b, err := stacks.Build(l)
		require.NoError(t, err)
		tops := 0
		seen := map[int]bool{}
		for _, r := range Why(b) {
			causes[r.Cause]++
			text := r.Say(b, l.Units)
			require.Regexp(t, `^[A-Z][^!]*\.$`, text)
			require.Less(t, len(text), 230, text)
			if r.Over < 0 {
				tops++
				require.Equal(t, b.Height-b.Levels[r.Under[0]].Top, r.Height)
				continue
			}
			require.False(t, seen[r.Over], "%s: %d twice", name, r.Over)
			seen[r.Over] = true
			base := 0.0
			for _, u := range r.Under {
				base = b.Levels[u].Top
			}
			require.InDelta(t, b.Levels[r.Over].Bottom, base+r.Height, 1e-6)
			require.GreaterOrEqual(t, r.Height, r.Need-1e-6, "%s: %s", name, text)
			if r.Cause == ForPosts {
				for _, h := range heightsByHand(l, len(r.Posts)) {
					require.False(t, h >= r.Need-1e-6 && h < r.Height-0.1 || h > r.Lower+0.1 && h < r.Height-0.1, "%s: %g: %s", name, h, text)
				}
			}
		}
		require.Len(t, seen, len(b.Levels), name)
		require.Positive(t, tops)
		judge := clearance.New(b)
		for v := range b.Levels {
			require.NotEmpty(t, WhyLevel(b, v, judge, judge.Check()))
		}
	}
	require.Greater(t, causes[ForPosts], 10)
	t.Log(causes)
}

// heightsByHand are heights that n posts of one make-up of at most three pieces
// have, by counting out the rows.
func heightsByHand(l *layout.Load, n int) []float64 {
	rows := l.Furniture.Posts
	var out []float64
	var walk func(used []int)
	walk = func(used []int) {
		sum, solid, thin := 0.0, false, math.Inf(1)
		count := map[int]int{}
		for _, r := range used {
			sum += rows[r].RealHeight()
			solid = solid || !rows[r].Spacer
			thin = min(thin, rows[r].Section.Width)
			count[r] += n
		}
		owned := true
		for r, c := range count {
			owned = owned && c <= rows[r].Count
		}
		if !owned {
			return
		}
		if solid && sum <= thin*l.Limits(layout.Slender).Watch {
			out = append(out, sum)
		}
		if len(used) < 3 {
			for r := range rows {
				walk(append(used[:len(used):len(used)], r))
			}
		}
	}
	walk(nil)
	return out
}

// TestLawWhatWouldDoAsWellDoes: the lower height of every reason that says so is
// built, and brings no finding.
func TestLawWhatWouldDoAsWellDoes(t *testing.T) {
	tried := 0
	for _, name := range samples() {
		l := sample(t, "reference/"+name)
		b, err := stacks.Build(l)
		require.NoError(t, err)
		before := clearance.Check(b)
		w := newWhy(b)
		for _, r := range Why(b) {
			if r.Cause != ForSpare && r.Cause != ForAlike && r.Cause != ForPieces {
				continue
			}
			posts, ok := w.with(r.Over, r.Lower)
			require.True(t, ok)
			next := l.Clone()
			for i, m := range posts {
				if len(m) > 0 {
					v := &b.Levels[i]
					next.Towers[b.Towers[v.Tower].Index].Levels[v.Number-1].Posts = m
				}
			}
			now, err := stacks.Build(next)
			require.NoError(t, err)
			report := clearance.Check(now)
			require.LessOrEqual(t, report.Problems, before.Problems, r.Say(b, l.Units))
			require.LessOrEqual(t, report.Watches, before.Watches, r.Say(b, l.Units))
			tried++
		}
	}
	require.Positive(t, tried)
}

// TestBoxesStandUnderTheirShelf: ware without a round part is seen to stand under
// the shelf over it.
func TestBoxesStandUnderTheirShelf(t *testing.T) {
	l := single(410, 300, 2, map[float64]int{25: 3, 100: 3}, layout.Ware{Name: "dish", Count: 12, Silhouette: layout.Box, Height: 70, Length: 110, Width: 80})
	p := planned(t, l, 1, 3000)
	b, err := stacks.Build(p.Load)
	require.NoError(t, err)
	require.Len(t, b.Levels, 2)
	require.NotEmpty(t, b.Levels[0].Pots)
	for _, r := range Why(b) {
		if r.Over == 1 {
			require.GreaterOrEqual(t, r.Pot, 0)
			require.Contains(t, r.Say(b, l.Units), "dishes are 72 high")
		}
	}
}
