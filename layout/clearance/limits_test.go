package clearance

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
)

// limit is one rule with the figures of the table (common practice; see the
// design's table of rules), written out by hand, and a load in which the rule
// measures x.
type limit struct {
	what           string
	rule           layout.RuleName
	problem, watch float64 // 0: the column is empty
	load           func(x float64) *layout.Load
	from           float64 // where the watch begins to be told, when not at the problem's figure
}

// jars stands two jars of the lower level x apart.
func jars(x float64) *layout.Load {
	l := calm()
	put(l, "jar", 1, 0, 1, 0, 0)
	put(l, "jar", 2, 0, 1, 80+x, 0)
	return l
}

func withWare(l *layout.Load, change func(w *layout.Ware)) *layout.Load {
	change(&l.Ware[0])
	return l
}

func gapLimits() []limit {
	return []limit{
		{"two jars", layout.PotToPot, 3, 6, jars, 0},
		{"deep jars are judged as others", layout.PotToPot, 3, 6, func(x float64) *layout.Load {
			l := jars(x)
			l.Rules = layout.Rules{layout.DeepFrom: {Plan: 100}}
			return l
		}, 0},
		{"one bloats", layout.PotToPot, 6, 12, func(x float64) *layout.Load {
			l := jars(x)
			l.Ware = append(l.Ware, jar())
			l.Ware[1].Name, l.Ware[1].Flags.Bloats = "bloater", true
			l.Towers[0].Levels[0].Set[1].Pot = layout.Pot{Ware: "bloater", Number: 1}
			return l
		}, 0},
		{"spitting ware", layout.PotToPot, 6, 12, func(x float64) *layout.Load {
			return withWare(jars(x), func(w *layout.Ware) { w.Flags.Spits = true })
		}, 0},
		{"a refire", layout.PotToPot, 6, 12, func(x float64) *layout.Load {
			return withWare(jars(x), func(w *layout.Ware) { w.Flags.Refire = true })
		}, 0},
		{"jar to wall", layout.PotToWall, 12, 25, func(x float64) *layout.Load {
			l := calm()
			put(l, "jar", 1, 0, 1, 300-40-x, 0) // the wall's radius 300 less the jar's 40
			return l
		}, 0},
		{"jar to post", layout.PotToPost, 3, 6, func(x float64) *layout.Load {
			l := calm()
			put(l, "jar", 1, 0, 1, 0, 200-20-40-x) // the post at 12 reaches in to y = 180
			return l
		}, 0},
		{"room above", layout.RoomAbove, 6, 10, func(x float64) *layout.Load {
			l := calm()
			put(l, "jar", 1, 0, 1, 0, 0)
			return withWare(l, func(w *layout.Ware) { w.Height = 150 - x }) // from 120 to 270
		}, 0},
		{"room above under a bowed shelf", layout.RoomAbove, 6, 10, func(x float64) *layout.Load {
			l := calm()
			put(l, "jar", 1, 0, 1, 0, 0)
			l.Furniture.Shelves[0].Bow = 4
			return withWare(l, func(w *layout.Ware) { w.Height = 150 - 4 - x })
		}, 0},
		{"room to the lid", layout.RoomToLid, 12, 25, func(x float64) *layout.Load {
			l := calm()
			put(l, "jar", 1, 0, 2, 0, 0)
			return withWare(l, func(w *layout.Ware) { w.Height = 310 - x }) // from 290 to 600
		}, 0},
		{"jar over the probe", layout.ToProbe, 12, 25, func(x float64) *layout.Load {
			l := calm()
			l.Kiln.Probes = []layout.Probe{{At: 90, Height: 480, Reach: 120, Diameter: 12}}
			put(l, "jar", 1, 0, 2, 200, 0)
			return withWare(l, func(w *layout.Ware) { w.Height = 480 - 6 - 290 - x })
		}, 0},
		{"jar before the probe's end", layout.ToProbe, 12, 25, func(x float64) *layout.Load {
			l := calm()
			l.Kiln.Probes = []layout.Probe{{At: 90, Height: 340, Reach: 120, Diameter: 12}}
			put(l, "jar", 1, 0, 2, 180-40-x, 0) // the probe's end lies at x = 180
			return l
		}, 0},
		{"post beside the probe", layout.ToProbe, 12, 25, func(x float64) *layout.Load {
			l := calm()
			l.Kiln.Probes = []layout.Probe{{At: 0, Height: 200, Reach: 80 - x, Diameter: 12}} // the post's back lies at y = 220
			return l
		}, 0},
		{"shelf under the probe", layout.ToProbe, 12, 25, func(x float64) *layout.Load {
			l := calm()
			l.Kiln.Probes = []layout.Probe{{At: 60, Height: 290 + 6 + x, Reach: 80, Diameter: 12}}
			return l
		}, 0},
		{"foot to the edge", layout.FootToEdge, 0, 6, func(x float64) *layout.Load {
			l := calm()
			put(l, "jar", 1, 0, 1, 260-30-x, 0) // the shelf's radius 260, the foot's 30
			return l
		}, 0},
		{"cookie to the edge", layout.CookieToEdge, 0, 6, func(x float64) *layout.Load {
			l := calm()
			put(l, "jar", 1, 0, 1, 260-45-x, 0)
			return withWare(l, func(w *layout.Ware) {
				w.Flags.Runny, w.Stand = true, layout.Stand{Kind: layout.Cookie, Across: 90, Height: 10}
			})
		}, 0},
		{"shelf to wall", layout.ShelfToWall, 3, 12, func(x float64) *layout.Load {
			l := calm()
			l.Furniture.Shelves[0].Shape.Across = 600 - 2*x
			l.Towers[0].Levels = l.Towers[0].Levels[:1]
			return l
		}, 0},
		{"bottom shelf over the floor", layout.BottomShelf, 0, 25, func(x float64) *layout.Load {
			l := calm()
			l.Furniture.Posts[2].Real = x
			return l
		}, 0},
		{"bottom shelf over a floor element", layout.BottomShelf, 0, 50, func(x float64) *layout.Load {
			l := calm()
			l.Kiln.FloorElement = true
			l.Furniture.Posts[2].Real = x
			return l
		}, 0},
		{"inset of a post", layout.Inset, 0, 25, func(x float64) *layout.Load {
			l := calm()
			l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Height: 99, Section: square(4), Count: 9})
			l.Towers[0].Lines = threeLines(260 - x)
			l.Towers[0].Levels = l.Towers[0].Levels[:1]
			l.Towers[0].Levels[0].Posts = makeUps(99)
			l.Towers[0].Lines = append(l.Towers[0].Lines[:1], threeLines(230)[1:]...)
			return l
		}, 2},
		{"two halves side by side", layout.ShelfToShelf, 0, 3, halves, 0},
		{"cones to the wall", layout.BlastRoom, 0, 50, func(x float64) *layout.Load {
			l := calm()
			l.Cones = []layout.ConePack{{Name: "pack", Length: 20, Width: 20}}
			put(l, "pack", 0, 0, 1, 0, 10-math.Sqrt((300-x)*(300-x)-10*10)) // its front corners lie 300 - x out
			return l
		}, 0},
	}
}

// halves lays two halves with a gap of x on four lines.
func halves(x float64) *layout.Load {
	l := calm()
	l.Towers[0].Lines = []layout.Line{{At: plane.Vec{0, 200}}, {At: plane.Vec{0, -200}}, {At: plane.Vec{-200, 0}}, {At: plane.Vec{200, 0}}}
	l.Towers[0].Levels = l.Towers[0].Levels[:1]
	for i := range l.Towers[0].Levels {
		l.Towers[0].Levels[i].Shelves = []layout.ShelfAt{{Kind: "half", At: plane.Vec{-x / 2, 0}, Turn: 270}, {Kind: "half", At: plane.Vec{x / 2, 0}, Turn: 90}}
	}
	return l
}

// TestEachGapHasItsLimits judges each gap of the table 0.01 under its limits,
// at them (within the one tolerance, which passes) and over them.
func TestEachGapHasItsLimits(t *testing.T) {
	for _, c := range gapLimits() {
		t.Run(c.what, func(t *testing.T) {
			grade := func(x float64) string { return gradeOf(check(t, c.load(x)), c.rule) }
			if c.problem > 0 {
				require.Equal(t, "problem", grade(c.problem-0.01))
				require.Equal(t, "watch", grade(c.problem-5e-7), "within the tolerance of the limit")
			}
			require.Equal(t, "watch", grade(max(c.problem, c.from)+0.01))
			require.Equal(t, "watch", grade(c.watch-0.01))
			require.Equal(t, "", grade(c.watch-5e-7), "within the tolerance of the limit")
			require.Equal(t, "", grade(c.watch+0.01))
			f := of(check(t, c.load(c.watch-0.5)), c.rule)
			require.Len(t, f, 1)
			require.InDelta(t, c.watch-0.5, f[0].Have, 1e-6, "the gap is measured exactly")
			require.Equal(t, c.watch, f[0].Need)
		})
	}
}
