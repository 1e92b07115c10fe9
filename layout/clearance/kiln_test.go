package clearance

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
)

// sides is a full shelf with two half towers over it: each half 255 deep, its
// sawn edge gap/2 from the middle; the left upper shelf lies from 270 + up to
// 290 + up, the right one from 270 to 290.
func sides(gap, up float64) *layout.Load {
	l := calm()
	base := l.Towers[0]
	base.Levels = base.Levels[:1]
	left := []layout.Line{{At: plane.Vec{-30, 200}}, {At: plane.Vec{-30, -200}}, {At: plane.Vec{-200, 0}}}
	right := []layout.Line{{At: plane.Vec{30, 200}}, {At: plane.Vec{30, -200}}, {At: plane.Vec{200, 0}}}
	base.Lines = append(append([]layout.Line(nil), left...), right...)
	l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Name: "left", Height: 150, Real: 150 + up, Section: square(40), Count: 9})
	l.Towers = []layout.Tower{base,
		{Name: "left side", On: []layout.Support{{Tower: "stack", Level: 1}}, Lines: left, Levels: []layout.Level{
			{Shelves: []layout.ShelfAt{{Kind: "half", At: plane.Vec{-gap / 2, 0}, Turn: 270}}, Posts: []layout.MakeUp{{{Height: 150, Name: "left"}}}}}},
		{Name: "right side", On: []layout.Support{{Tower: "stack", Level: 1}}, Lines: right, Levels: []layout.Level{
			{Shelves: []layout.ShelfAt{{Kind: "half", At: plane.Vec{gap / 2, 0}, Turn: 90}}, Posts: makeUps(150)}}},
	}
	return l
}

// TestTheOtherSideCounts: pots and shelves of another tower are judged as
// neighbours. Sawn edges 10 apart lie at x = 5 on the right.
func TestTheOtherSideCounts(t *testing.T) {
	// a jar of the left upper level, its skin x from the right shelf's sawn
	// edge, standing 10 lower than that shelf's top
	beside := func(x float64) *layout.Load {
		l := sides(10, -10)
		put(l, "jar", 1, 1, 1, 5-x-40, 0)
		return l
	}
	across := func(x float64) *layout.Load {
		l := sides(10, -10)
		put(l, "jar", 1, 1, 1, -50, 0)
		put(l, "jar", 2, 2, 1, 30+x, 0)
		return l
	}
	judge(t, []verdict{
		{"6 from the other shelf", layout.PotToPost, "", beside(6)},
		{"5.99 from the other shelf", layout.PotToPost, "watch", beside(5.99)},
		{"3 from the other shelf", layout.PotToPost, "watch", beside(3)},
		{"2.99 from the other shelf", layout.PotToPost, "problem", beside(2.99)},
		{"6 from the other side's jar", layout.PotToPot, "", across(6)},
		{"5.99 from it", layout.PotToPot, "watch", across(5.99)},
		{"2.99 from it", layout.PotToPot, "problem", across(2.99)},
		{"halves 3 apart", layout.ShelfToShelf, "", sides(3, 0)},
		{"halves 2.9 apart", layout.ShelfToShelf, "watch", sides(2.9, 0)},
		{"halves that overlap", layout.ShelfToShelf, "problem", sides(-1, 0)},
		{"halves 2 apart, one 2.5 higher than the other's top", layout.ShelfToShelf, "", sides(2, 22.5)},      // hypot(2, 2.5) is 3.2
		{"halves 2 apart, one 2.2 higher than the other's top", layout.ShelfToShelf, "watch", sides(2, 22.2)}, // hypot(2, 2.2) is 2.97
	})
	f := of(check(t, beside(4)), layout.PotToPost)
	require.Len(t, f, 1)
	require.Contains(t, f[0].Sentence, "beside it")
	require.InDelta(t, 4, f[0].Have, 1e-9)
}

// TestAShelfPartsPots: pots over and under one shelf are no neighbours,
// however thin it is.
func TestAShelfPartsPots(t *testing.T) {
	l := calm()
	l.Furniture.Shelves[0].Thick = 2
	l.Ware[0].Height = 150
	put(l, "jar", 1, 0, 1, 0, 0)
	put(l, "jar", 2, 0, 2, 0, 0)
	r := check(t, l)
	require.Empty(t, of(r, layout.PotToPot))
	require.Equal(t, "problem", gradeOf(r, layout.RoomAbove))
}

// TestSlicesBesideAShelfKeepTheirGap: a pot's rim that is not under the shelf
// but beside its lower edge is measured to that edge. The half's sawn edge lies
// at x = 0, its underside at 270; the rim's top at 266 and 3 short of it is
// hypot(3, 4) = 5 away.
func TestSlicesBesideAShelfKeepTheirGap(t *testing.T) {
	l := sides(0, 0)
	l.Towers = l.Towers[:2]
	l.Ware[0].Height = 146
	put(l, "jar", 1, 0, 1, 40+3, 0)
	f := of(check(t, l), layout.PotToPost)
	require.Len(t, f, 1)
	require.InDelta(t, 5, f[0].Have, 1e-9)
	require.Equal(t, layout.Watch, f[0].Grade)
}

// TestInsideTheKiln: pots, shelves and posts that do not go in.
func TestInsideTheKiln(t *testing.T) {
	oval := func(x float64) *layout.Load {
		return loaded(func(l *layout.Load) { l.Towers[0].Levels[0].Set[0].At = plane.Vec{260 + x, 0} })
	}
	judge(t, []verdict{
		{"a jar at the wall", layout.InsideKiln, "", oval(0)},
		{"a jar in the wall", layout.InsideKiln, "problem", oval(0.1)},
		{"a jar to the rim", layout.InsideKiln, "", high(310)},
		{"a jar over the rim", layout.InsideKiln, "problem", high(310.1)},
		{"a shelf as wide as the kiln", layout.InsideKiln, "", shelfAcross(600)},
		{"a shelf wider than the kiln", layout.InsideKiln, "problem", shelfAcross(600.1)},
		{"a shelf at the rim", layout.InsideKiln, "", kilnHigh(290)},
		{"a shelf over the rim", layout.InsideKiln, "problem", kilnHigh(289.9)},
		{"a post in the wall", layout.InsideKiln, "problem", loaded(func(l *layout.Load) { l.Towers[0].Lines[0].At = plane.Vec{0, 281} })},
	})
}

func high(mm float64) *layout.Load {
	l := calm()
	put(l, "jar", 1, 0, 2, 0, 0)
	l.Ware[0].Height = mm
	return l
}

func shelfAcross(mm float64) *layout.Load {
	l := calm()
	l.Furniture.Shelves[0].Shape.Across = mm
	return l
}

func kilnHigh(mm float64) *layout.Load {
	l := calm()
	l.Kiln.Height = mm
	return l
}

// TestTheDoorIsAWall: in a front-loader the front of the chamber is judged as
// wall.
func TestTheDoorIsAWall(t *testing.T) {
	front := func(x float64) *layout.Load {
		l := calm()
		l.Kiln = layout.Kiln{Chamber: layout.Shape{Kind: layout.Rectangle, Width: 700, Depth: 600}, Height: 600, Opens: layout.Front}
		put(l, "jar", 1, 0, 1, 0, -300+40+x)
		return l
	}
	judge(t, []verdict{
		{"25 from the door", layout.PotToWall, "", front(25)},
		{"24.9 from the door", layout.PotToWall, "watch", front(24.9)},
		{"11.9 from the door", layout.PotToWall, "problem", front(11.9)},
	})
}

// TestProbeLevel: a shelf whose thickness takes in the probe's height, near
// enough to shade it. The shelf's edge lies at 260, the wall at 300.
func TestProbeLevel(t *testing.T) {
	probe := func(height, across float64) *layout.Load {
		return loaded(func(l *layout.Load) {
			l.Furniture.Shelves[0].Shape.Across = across
			l.Kiln.Probes = []layout.Probe{{At: 60, Height: height, Reach: 10, Diameter: 10}}
		})
	}
	judge(t, []verdict{
		{"level with the upper shelf", layout.ProbeLevel, "watch", probe(280, 520)}, // 30 from it
		{"just over it", layout.ProbeLevel, "", probe(295, 520)},
		{"just level", layout.ProbeLevel, "watch", probe(294.9, 520)},
		{"too near to be only level", layout.ProbeLevel, "", probe(280, 540)}, // 20 from it: a gap watch
		{"the gap is what is told", layout.ToProbe, "watch", probe(280, 540)},
	})
}

// TestOneFootOverTwoShelves: a foot of 60 that stands over the line between
// two halves.
func TestOneFootOverTwoShelves(t *testing.T) {
	over := func(x float64) *layout.Load {
		l := halves(4)
		put(l, "jar", 1, 0, 1, 2+30-x, 0)
		return l
	}
	judge(t, []verdict{
		{"its foot at the edge", layout.OneShelf, "", over(0)},
		{"past the edge, not yet on the other", layout.OneShelf, "", over(4)},
		{"that is past the edge", layout.FootToEdge, "problem", over(4)},
		{"on the other too", layout.OneShelf, "problem", over(4.1)},
		{"told once", layout.FootToEdge, "", over(4.1)},
	})
}

// TestRimsPastTheEdge: told as a note, one a level; a load may ask for more.
func TestRimsPastTheEdge(t *testing.T) {
	rim := func(x float64, rules layout.Rules) *layout.Load {
		l := calm()
		l.Ware[0].Across, l.Ware[0].Foot = 120, 40
		l.Rules = rules
		put(l, "jar", 1, 0, 1, 200+x, 0)
		put(l, "jar", 2, 0, 1, -200-x, 0)
		return l
	}
	option := layout.Rules{layout.RimPastEdge: {Problem: 30, Watch: 10, Plan: 10}}
	judge(t, []verdict{
		{"rims at the edge", layout.RimPastEdge, "", rim(0, nil)},
		{"rims 0.1 past it", layout.RimPastEdge, "note", rim(0.1, nil)},
		{"10 past it by choice", layout.RimPastEdge, "", rim(10, option)},
		{"10.1 past it by choice", layout.RimPastEdge, "watch", rim(10.1, option)},
	})
	f := of(check(t, rim(5, nil)), layout.RimPastEdge)
	require.Len(t, f, 1)
	require.Len(t, f[0].Things, 2)
	require.InDelta(t, 5, f[0].Have, 1e-9)
}

// TestGrips: hands of 80 at two opposite places with 20 to the wall. A
// rectangle 500 x 560 in a chamber of 600 x 600 has 50 at its sides and 20 at
// its ends; 561 leaves 19.5 at its ends but still 50 at its sides.
func TestGrips(t *testing.T) {
	shelf := func(w, d float64) *layout.Load {
		return loaded(func(l *layout.Load) {
			l.Kiln.Chamber = layout.Shape{Kind: layout.Rectangle, Width: 600, Depth: 600}
			l.Furniture.Shelves[0].Shape = layout.Shape{Kind: layout.Rectangle, Width: w, Depth: d}
			l.Towers[0].Levels = l.Towers[0].Levels[:1]
		})
	}
	judge(t, []verdict{
		{"50 at two sides", layout.GripRoom, "", shelf(500, 570)},
		{"20 all round", layout.GripRoom, "", shelf(560, 560)},
		{"19 all round", layout.GripRoom, "watch", shelf(562, 562)},
	})
}

// TestCanBeSet: a knobbed stem under a wide rim. Two measured pots reach under
// each other when each has a wide part at a height where the other is narrow.
func TestCanBeSet(t *testing.T) {
	pair := func(x float64) *layout.Load {
		l := calm()
		low, top := jar(), jar()
		low.Name, low.Measured = "low", true // wide at 20 to 30
		low.Profile = []layout.Knot{{Height: 0, Diameter: 40}, {Height: 18, Diameter: 40}, {Height: 20, Diameter: 100}, {Height: 30, Diameter: 100}, {Height: 32, Diameter: 40}, {Height: 60, Diameter: 40}, {Height: 70, Diameter: 100}, {Height: 80, Diameter: 100}}
		top.Name, top.Measured = "top", true // wide at 45 to 55, between the other's two
		top.Profile = []layout.Knot{{Height: 0, Diameter: 40}, {Height: 43, Diameter: 40}, {Height: 45, Diameter: 100}, {Height: 55, Diameter: 100}, {Height: 57, Diameter: 40}, {Height: 100, Diameter: 40}}
		low.Height, top.Height, low.Across, top.Across = 80, 100, 100, 100
		l.Ware = append(l.Ware, low, top)
		put(l, "low", 1, 0, 1, 0, 0)
		put(l, "top", 1, 0, 1, x, 0)
		return l
	}
	r := check(t, pair(90))
	require.Empty(t, of(r, layout.PotToPot), "15 over and under, 20 beside")
	require.Equal(t, "problem", gradeOf(r, layout.CanBeSet))
	require.Equal(t, "problem", gradeOf(check(t, pair(102.9)), layout.CanBeSet), "2.9 for a hand")
	require.Equal(t, "", gradeOf(check(t, pair(103)), layout.CanBeSet), "3 for a hand")
}

// TestSight: a hole at 6 o'clock looks straight at cones 70 high behind a jar
// whose skin is x from the line of sight.
func TestSight(t *testing.T) {
	hide := func(x float64) *layout.Load {
		l := calm()
		l.Kiln.Spyholes = []layout.Spyhole{{At: 180, Height: 190}}
		l.Cones = []layout.ConePack{{Name: "pack", Watched: true}}
		put(l, "pack", 0, 0, 1, 0, 60)
		put(l, "jar", 1, 0, 1, 40+x, -100)
		return l
	}
	judge(t, []verdict{
		{"a jar 5 from the line", layout.InSight, "", hide(5.001)},
		{"a jar 4.9 from it", layout.InSight, "watch", hide(4.9)},
	})
	f := of(check(t, hide(0)), layout.InSight)
	require.Len(t, f, 1)
	require.Contains(t, f[0].Sentence, "hides them")
	require.Equal(t, []string{"pack"}, New(built(t, hide(0))).Unseen())
	require.Empty(t, New(built(t, hide(5.001))).Unseen())

	// the tip 200 from the hole's mouth may lie 200 tan 14 = 49.87 off its axis
	angle := func(rise float64) *layout.Load {
		l := hide(60)
		l.Kiln.Spyholes[0].Height = 190 + rise
		l.Towers[0].Levels[0].Set[0].At = plane.Vec{0, -100}
		return l
	}
	far := 200 * math.Tan(14*math.Pi/180)
	judge(t, []verdict{
		{"13.9 degrees off", layout.InSight, "", angle(far - 0.5)},
		{"14.1 degrees off", layout.InSight, "watch", angle(far + 0.5)},
	})
}

// TestTowersThatDoNotAgree: a shelf over both sides whose supports differ.
func TestTowersThatDoNotAgree(t *testing.T) {
	both := func(up float64) *layout.Load {
		l := sides(10, up)
		l.Towers = append(l.Towers, layout.Tower{Name: "over", On: []layout.Support{{Tower: "left side", Level: 1}, {Tower: "right side", Level: 1}},
			Lines: l.Towers[0].Lines, Levels: []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: makeUps(100)}}})
		return l
	}
	judge(t, []verdict{
		{"tops at one height", layout.TowerFooting, "", both(0)},
		{"tops that differ by 1.9", layout.TowerFooting, "", both(1.9)},
		{"tops that differ by 2", layout.TowerFooting, "watch", both(2)},
		{"tops that differ by 5", layout.TowerFooting, "problem", both(5)},
	})
}

// TestPostsThatMeet: posts of two towers in one place, and a post through a
// shelf.
func TestPostsThatMeet(t *testing.T) {
	meet := func(x float64) *layout.Load {
		l := sides(10, 0)
		l.Towers[2].Lines[0].At = plane.Vec{10 + x, 200} // the left one reaches from x = -50 to -10
		return l
	}
	judge(t, []verdict{
		{"posts that touch", layout.TowerFooting, "", meet(0)},
		{"posts that overlap", layout.TowerFooting, "problem", meet(-0.1)},
	})
	l := calm() // a small shelf on a post that begins on the floor and goes through the lower shelf
	l.Furniture.Shelves = append(l.Furniture.Shelves, layout.ShelfKind{Name: "small", Shape: layout.Shape{Kind: layout.Round, Across: 100}, Thick: 10, Count: 1})
	l.Towers = append(l.Towers, layout.Tower{Name: "pole", On: []layout.Support{{}}, Lines: []layout.Line{{At: plane.Vec{0, 0}}},
		Levels: []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "small"}}, Posts: makeUps(150)}}})
	require.Equal(t, "problem", gradeOf(check(t, l), layout.TowerFooting))
}
