package clearance

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
)

// verdict is one hand-worked case: what a load is judged by one rule.
type verdict struct {
	what string
	rule layout.RuleName
	want string // "problem", "watch", "note" or nothing
	load *layout.Load
}

// ware is the calm load with two jars and a change to their row.
func ware(change func(w *layout.Ware)) *layout.Load {
	l := calm()
	put(l, "jar", 1, 0, 1, 0, 0)
	put(l, "jar", 2, 0, 1, 120, 0)
	change(&l.Ware[0])
	return l
}

func loaded(change func(l *layout.Load)) *layout.Load {
	l := calm()
	put(l, "jar", 1, 0, 1, 0, 0)
	change(l)
	return l
}

func cone(c measure.Cone) layout.Material { return layout.Material{Name: "it", Cone: c} }

// TestFiringRules: what fits the firing, feet and runny ware. Cones by the
// chart of the Edward Orton Jr. Ceramic Foundation (2016): 04 is cooler than 6,
// 1 bends at 1137 C; furniture by trade data.
func TestFiringRules(t *testing.T) {
	judge(t, []verdict{
		{"clay of the firing's cone", layout.FitsFiring, "", ware(func(w *layout.Ware) {})},
		{"clay for a hotter cone", layout.FitsFiring, "", ware(func(w *layout.Ware) { w.Clay = cone("10") })},
		{"clay one cone too cool", layout.FitsFiring, "problem", ware(func(w *layout.Ware) { w.Clay = cone("5") })},
		{"clay of cone 04", layout.FitsFiring, "problem", ware(func(w *layout.Ware) { w.Clay = cone("04") })},
		{"clay not known", layout.FitsFiring, "watch", ware(func(w *layout.Ware) { w.Clay = layout.Material{} })},
		{"raw ware in a glaze firing", layout.FitsFiring, "problem", ware(func(w *layout.Ware) { w.Dry = layout.BoneDry })},
		{"damp ware in a glaze firing", layout.FitsFiring, "problem", ware(func(w *layout.Ware) { w.Dry = layout.DampClay })},
		{"bisqued ware", layout.FitsFiring, "", ware(func(w *layout.Ware) { w.Dry = layout.Bisqued })},
		{"glaze for another cone", layout.FitsFiring, "watch", ware(func(w *layout.Ware) { w.Glaze = cone("5") })},
		{"raw ware in a bisque firing", layout.FitsFiring, "", bisque(func(l *layout.Load) { l.Ware[0].Dry = layout.BoneDry })},
		{"damp ware in a bisque firing", layout.FitsFiring, "watch", bisque(func(l *layout.Load) { l.Ware[0].Dry = layout.DampClay })},
		{"glazed ware in a bisque firing", layout.FitsFiring, "problem", bisque(func(l *layout.Load) { l.Ware[0].Glaze = cone("6") })},
		{"shelf at its temperature", layout.FitsFiring, "", loaded(func(l *layout.Load) { l.Firing.Peak, l.Furniture.Shelves[0].Limit = 1250, 1250 })},
		{"shelf beyond its temperature", layout.FitsFiring, "watch", loaded(func(l *layout.Load) { l.Firing.Peak, l.Furniture.Shelves[0].Limit = 1251, 1250 })},
		{"cordierite at 1300", layout.FitsFiring, "", loaded(func(l *layout.Load) { l.Firing.Peak = 1300 })},
		{"cordierite at 1301", layout.FitsFiring, "watch", loaded(func(l *layout.Load) { l.Firing.Peak = 1301 })},
		{"high alumina at 1301", layout.FitsFiring, "", loaded(func(l *layout.Load) { l.Firing.Peak, l.Furniture.Shelves[0].Material = 1301, "high alumina" })},
		{"metal stilt at 1100", layout.FitsFiring, "", stilted("04", 1100)},
		{"metal stilt at 1101", layout.FitsFiring, "watch", stilted("04", 1101)},
		{"glazed foot at cone 1", layout.GlazedFoot, "problem", stilted("1", 0)},
		{"glazed foot at cone 01 on a stilt", layout.GlazedFoot, "", stilted("01", 0)},
		{"glazed foot at cone 01 without", layout.GlazedFoot, "problem", loaded(func(l *layout.Load) {
			l.Firing.Cone, l.Ware[0].Flags.GlazedFoot = "01", true
		})},
		{"runny on the cookie it gets", layout.RunnyCookie, "", ware(func(w *layout.Ware) { w.Flags.Runny = true })},
		{"runny on a cookie 10 wider", layout.RunnyCookie, "", ware(func(w *layout.Ware) {
			w.Flags.Runny, w.Stand = true, layout.Stand{Kind: layout.Cookie, Across: 80}
		})},
		{"runny on a cookie 9.5 wider", layout.RunnyCookie, "problem", ware(func(w *layout.Ware) {
			w.Flags.Runny, w.Stand = true, layout.Stand{Kind: layout.Cookie, Across: 79}
		})},
		{"tall on its foot: 4 times", layout.TallNarrow, "", ware(func(w *layout.Ware) { w.Height, w.Foot = 100, 25 })},
		{"tall on its foot: over 4 times", layout.TallNarrow, "watch", ware(func(w *layout.Ware) { w.Height, w.Foot = 100.1, 25 })},
		{"fume beside tin white", layout.Fuming, "watch", fumes(1)},
		{"fume on another level", layout.Fuming, "", fumes(2)},
		{"a sound shelf", layout.SoundShelf, "", loaded(func(l *layout.Load) {})},
		{"a cracked shelf", layout.SoundShelf, "problem", loaded(func(l *layout.Load) { l.Furniture.Shelves[0].Cracked = true })},
		{"a damp shelf", layout.SoundShelf, "problem", loaded(func(l *layout.Load) { l.Furniture.Shelves[0].Damp = true })},
	})
}

func bisque(change func(l *layout.Load)) *layout.Load {
	l := calm()
	l.Firing.Stage, l.Firing.Cone = layout.Bisque, "04"
	l.Ware[0].Glaze = layout.Material{}
	put(l, "jar", 1, 0, 1, 0, 0)
	change(l)
	return l
}

func stilted(c measure.Cone, peak float64) *layout.Load {
	return loaded(func(l *layout.Load) {
		l.Firing.Cone, l.Firing.Peak = c, peak
		l.Furniture.Stilts = []layout.StiltKind{{Across: 40, Height: 12, Count: 20, Metal: true}}
		l.Ware[0].Glaze.Cone = c
		l.Ware[0].Flags.GlazedFoot = true
		l.Ware[0].Stand = layout.Stand{Kind: layout.Stilt, Across: 40}
	})
}

func fumes(level int) *layout.Load {
	return loaded(func(l *layout.Load) {
		shy := jar()
		shy.Name, shy.Flags.FumeShy = "white", true
		l.Ware = append(l.Ware, shy)
		l.Ware[0].Flags.Fuming = true
		put(l, "white", 1, 0, level, 100, 0)
	})
}

// TestBisqueMayTouch: in a bisque firing gap 0 passes between pots and to
// posts, and overlapping does not.
func TestBisqueMayTouch(t *testing.T) {
	touch := func(x float64) *layout.Load {
		return bisque(func(l *layout.Load) { put(l, "jar", 2, 0, 1, 80+x, 0) })
	}
	judge(t, []verdict{
		{"jars that touch", layout.PotToPot, "", touch(0)},
		{"jars a hair in each other", layout.PotToPot, "problem", touch(-0.01)},
		{"a jar at a post", layout.PotToPost, "", bisque(func(l *layout.Load) { put(l, "jar", 2, 0, 1, 0, 140) })},
		{"a jar in a post", layout.PotToPost, "problem", bisque(func(l *layout.Load) { put(l, "jar", 2, 0, 1, 0, 140.1) })},
		{"3 above", layout.RoomAbove, "", bisque(func(l *layout.Load) { l.Ware[0].Height = 147 })},
		{"2.9 above", layout.RoomAbove, "watch", bisque(func(l *layout.Load) { l.Ware[0].Height = 147.1 })},
		{"rim in the shelf", layout.RoomAbove, "problem", bisque(func(l *layout.Load) { l.Ware[0].Height = 150.1 })},
	})
}

// posts gives each line of the upper level its own make-up.
func postsOf(heights ...[]float64) *layout.Load {
	return loaded(func(l *layout.Load) {
		v := &l.Towers[0].Levels[1]
		v.Posts = nil
		for _, h := range heights {
			v.Posts = append(v.Posts, makeUps(h...)[0])
		}
	})
}

// uneven makes one of the posts of the upper level higher by x; with four
// lines where four is set.
func uneven(x float64, four bool) *layout.Load {
	return loaded(func(l *layout.Load) {
		l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Name: "high", Height: 150, Real: 150 + x, Section: square(40), Count: 4})
		if four {
			l.Towers[0].Lines = []layout.Line{{At: plane.Vec{0, 200}}, {At: plane.Vec{200, 0}}, {At: plane.Vec{0, -200}}, {At: plane.Vec{-200, 0}}}
		}
		v := &l.Towers[0].Levels[1]
		v.Posts = nil
		for range l.Towers[0].Lines {
			v.Posts = append(v.Posts, makeUps(150)[0])
		}
		v.Posts[0] = layout.MakeUp{{Height: 150, Name: "high"}}
	})
}

// moved stands the upper level as a tower of its own with its first post moved
// out by x toward 12 o'clock.
func moved(x float64) *layout.Load {
	return loaded(func(l *layout.Load) {
		base := l.Towers[0]
		up := layout.Tower{Name: "upper", On: []layout.Support{{Tower: "stack", Level: 1}}, Lines: threeLines(200), Levels: base.Levels[1:]}
		up.Lines[0].At[1] += x
		base.Levels = base.Levels[:1]
		l.Towers = []layout.Tower{base, up}
	})
}

// slender puts the upper level on posts as high as x times their width of 15.
func slender(x float64) *layout.Load {
	return loaded(func(l *layout.Load) {
		l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Name: "thin", Height: 150, Real: 15 * x, Section: square(15), Count: 4})
		l.Towers[0].Levels[1].Posts = []layout.MakeUp{{{Height: 150, Name: "thin"}}}
	})
}

// four puts both levels, or only the upper one, on four posts.
func four(both bool) *layout.Load {
	lines := []layout.Line{{At: plane.Vec{0, 200}}, {At: plane.Vec{200, 0}}, {At: plane.Vec{0, -200}}, {At: plane.Vec{-200, 0}}}
	return loaded(func(l *layout.Load) {
		l.Towers[0].Lines = lines
		if !both {
			l.Towers[0].Levels = l.Towers[0].Levels[:1]
		}
	})
}

// TestPostRules: what stands under and over each other.
func TestPostRules(t *testing.T) {
	judge(t, []verdict{
		{"exactly over each other", layout.PostOverPost, "", moved(0)},
		{"three quarters over: 10 of 40 off", layout.PostOverPost, "", moved(10)},
		{"under three quarters: 10.1 off", layout.PostOverPost, "watch", moved(10.1)},
		{"half over: 20 off", layout.PostOverPost, "watch", moved(20)},
		{"under half: 20.1 off", layout.PostOverPost, "problem", moved(20.1)},
		{"no post below", layout.PostOverPost, "problem", moved(-60)},
		{"over air", layout.TowerFooting, "problem", moved(90)},
		{"on its shelf", layout.TowerFooting, "", moved(0)},
		{"heads equal", layout.PostHeights, "", uneven(0, false)},
		{"three that differ by 1.99", layout.PostHeights, "", uneven(1.99, false)},
		{"three that differ by 2", layout.PostHeights, "watch", uneven(2, false)},
		{"three that differ by 4.99", layout.PostHeights, "watch", uneven(4.99, false)},
		{"three that differ by 5", layout.PostHeights, "problem", uneven(5, false)},
		{"four that differ by 0.49", layout.PostHeights4, "", uneven(0.49, true)},
		{"four that differ by 0.5", layout.PostHeights4, "watch", uneven(0.5, true)},
		{"four that differ by 1.99", layout.PostHeights4, "watch", uneven(1.99, true)},
		{"four that differ by 2", layout.PostHeights4, "problem", uneven(2, true)},
		{"three pieces", layout.Pieces, "", postsOf([]float64{100, 50, 10})},
		{"four pieces", layout.Pieces, "watch", postsOf([]float64{50, 50, 50, 10})},
		{"five pieces", layout.Pieces, "problem", postsOf([]float64{50, 50, 50, 10, 10})},
		{"ten times as high as wide", layout.Slender, "", slender(10)},
		{"over ten times", layout.Slender, "problem", slender(10.01)},
		{"three posts", layout.PostCount, "", loaded(func(l *layout.Load) {})},
		{"two posts", layout.PostCount, "problem", loaded(func(l *layout.Load) {
			l.Towers[0].Lines = l.Towers[0].Lines[:2]
		})},
		{"four posts that nothing needs", layout.PostCount, "watch", four(false)},
		{"a small post in from the edge", layout.PostUnder, "", loaded(func(l *layout.Load) {})},
		{"a post that sticks out", layout.PostUnder, "watch", loaded(func(l *layout.Load) {
			l.Towers[0].Lines = threeLines(241) // its corners 20 beside and 261 out
		})},
		{"its furthest corner at the edge", layout.PostUnder, "", loaded(func(l *layout.Load) {
			l.Towers[0].Lines = []layout.Line{{At: plane.Vec{0, 239}}, {At: plane.Vec{-170, -100}}, {At: plane.Vec{170, -100}}} // hypot(20, 259) is 259.77
		})},
		{"as many posts as owned", layout.OwnedCount, "", loaded(func(l *layout.Load) { l.Furniture.Posts[3].Count = 3 })},
		{"one post short", layout.OwnedCount, "problem", loaded(func(l *layout.Load) { l.Furniture.Posts[3].Count = 2 })},
		{"as many shelves as owned", layout.OwnedCount, "", loaded(func(l *layout.Load) { l.Furniture.Shelves[0].Count = 2 })},
		{"one shelf short", layout.OwnedCount, "problem", loaded(func(l *layout.Load) { l.Furniture.Shelves[0].Count = 1 })},
	})
}

// TestFourPostsMayBeNeeded: the lower of two shelves on four posts carries
// four lines and is not told; the upper one is.
func TestFourPostsMayBeNeeded(t *testing.T) {
	f := of(check(t, four(true)), layout.PostCount)
	require.Len(t, f, 1)
	require.Equal(t, 2, f[0].Things[0].Level)
}

// off stands three posts round a heavy jar so that the balance point lies x
// inside the side of the ring at y = -100: the shelf is light as a feather.
func off(x float64) *layout.Load {
	return loaded(func(l *layout.Load) {
		l.Furniture.Shelves[0].Mass = 1e-9
		l.Towers[0].Lines = []layout.Line{{At: plane.Vec{0, 200}}, {At: plane.Vec{-170, -100}}, {At: plane.Vec{170, -100}}}
		l.Towers[0].Levels = l.Towers[0].Levels[:1]
		l.Ware[0].Mass = 1000
		l.Towers[0].Levels[0].Set[0].At = plane.Vec{0, -100 + x}
	})
}

// TestBalance: the balance point of a heavy jar on a feather of a shelf is
// the jar's own place.
func TestBalance(t *testing.T) {
	judge(t, []verdict{
		{"25 inside", layout.Balance, "", off(25)},
		{"20 inside", layout.Balance, "", off(20 + 1e-4)},
		{"19.9 inside", layout.Balance, "watch", off(19.9)},
		{"0.1 inside", layout.Balance, "watch", off(0.1)},
		{"0.1 outside", layout.Balance, "problem", off(-0.1)},
	})
}

// TestBalanceWhileLoading: two heavy jars across from each other balance when
// both stand, and tip a light shelf when the first stands alone.
func TestBalanceWhileLoading(t *testing.T) {
	pair := func(mass float64) *layout.Load {
		return loaded(func(l *layout.Load) {
			l.Towers[0].Levels = l.Towers[0].Levels[:1]
			l.Towers[0].Lines = threeLines(80)
			l.Furniture.Shelves[0].Mass = 1
			l.Ware[0].Mass = mass
			l.Towers[0].Levels[0].Set[0].At = plane.Vec{-200, 0}
			put(l, "jar", 2, 0, 1, 200, 0)
		})
	}
	r := check(t, pair(10))
	f := of(r, layout.Balance)
	require.Len(t, f, 1, "%v", open(r))
	require.Equal(t, layout.Problem, f[0].Grade)
	require.Contains(t, f[0].Sentence, "When the jar toward")
	require.Contains(t, f[0].Sentence, "is set")
	require.Empty(t, of(check(t, pair(0.01)), layout.Balance), "10 g on a shelf of 1 kg")
}

func judge(t *testing.T, cases []verdict) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.what, func(t *testing.T) {
			r := check(t, c.load)
			require.Equal(t, c.want, gradeOf(r, c.rule), "%v", open(r))
		})
	}
}
