package packing

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

// sort of thing for tests: parts widened by radii; need = both radii + gap.
type thing struct {
	parts []plane.Skeleton
	radii []float64
	turns bool
	count int
	value float64
	must  bool
}

func pot(r float64, count int) thing {
	return thing{parts: []plane.Skeleton{{{0, 0}}}, radii: []float64{r}, count: count, value: r * r}
}

// mug has a handle toward bearing 0 at turn 90, along x at turn 0.
func mug(r, reach float64, count int) thing {
	return thing{parts: []plane.Skeleton{{{0, 0}}, {{r - 5, 0}, {r + reach - 7, 0}}}, radii: []float64{r, 7},
		turns: true, count: count, value: r * r}
}

func tray(length, width float64, count int) thing {
	x, y := length/2-10, width/2-10
	return thing{parts: []plane.Skeleton{{{-x, -y}, {x, -y}, {x, y}, {-x, y}}}, radii: []float64{10},
		turns: true, count: count, value: length * width / 3}
}

// scene is a problem of these things on one area, gap between them and edge to
// its outline, with posts of radius 19.
func scene(outlines []plane.Outline, things []thing, gap, edge float64, posts ...plane.Vec) Problem {
	p := Problem{Areas: []Area{{Outlines: outlines}}}
	for i, t := range things {
		k := Kind{Parts: t.parts, Turns: t.turns}
		for j := range t.parts {
			k.Limits = append(k.Limits, Limit{Part: j, Area: 0, Depth: t.radii[j] + edge})
		}
		p.Kinds = append(p.Kinds, k)
		p.Wants = append(p.Wants, Want{Kind: i, Count: t.count, Value: t.value, Must: t.must})
	}
	p.Need = NewNeeds(p.Kinds)
	for a, s := range things {
		for b, t := range things {
			for i, r := range s.radii {
				for j, q := range t.radii {
					p.Need.Set(a, i, b, j, r+q+gap)
				}
			}
		}
	}
	for _, at := range posts {
		o := Obstacle{Skeleton: plane.Skeleton{at}}
		for _, t := range things {
			var row []float64
			for _, r := range t.radii {
				row = append(row, r+19+gap)
			}
			o.Need = append(o.Need, row)
		}
		p.Obstacles = append(p.Obstacles, o)
	}
	return p
}

func rectangle(t testing.TB, w, d float64) plane.Outline {
	o, err := plane.Rectangle(w, d)
	require.NoError(t, err)
	return o
}

func halfRound(t testing.TB, across, depth float64) plane.Outline {
	o, err := plane.HalfRound(across, depth)
	require.NoError(t, err)
	return o
}

// anyScene draws a scene: any outline, up to five kinds, posts.
func anyScene(r *rapid.T, t testing.TB) Problem {
	var o plane.Outline
	var err error
	wide := rapid.Float64Range(250, 700).Draw(r, "wide")
	deep := rapid.Float64Range(0.4, 1).Draw(r, "deep")
	switch rapid.IntRange(0, 5).Draw(r, "outline") {
	case 0:
		o, err = plane.Round(wide)
	case 1:
		o, err = plane.Rectangle(wide, wide*deep)
	case 2:
		o, err = plane.HalfRound(wide, wide/2*deep)
	case 3:
		o, err = plane.Oval(wide, wide*deep)
	case 4:
		o, err = plane.HalfOval(wide, wide/2*deep)
	default:
		o, err = plane.Sided(rapid.IntRange(3, 12).Draw(r, "sides"), wide, 0)
	}
	require.NoError(t, err)
	outlines := []plane.Outline{o}
	if rapid.Bool().Draw(r, "two shelves") {
		outlines = append(outlines, o.At(plane.Pose{At: plane.Vec{wide + 6, 0}, Turn: 180}))
	}
	var things []thing
	for i := rapid.IntRange(1, 5).Draw(r, "kinds"); i > 0; i-- {
		n := rapid.IntRange(0, 8).Draw(r, "count")
		var x thing
		switch rapid.IntRange(0, 3).Draw(r, "sort") {
		case 0, 1:
			x = pot(rapid.Float64Range(15, 90).Draw(r, "r"), n)
		case 2:
			x = mug(rapid.Float64Range(30, 60).Draw(r, "r"), 35, n)
		default:
			x = tray(rapid.Float64Range(60, 260).Draw(r, "length"), rapid.Float64Range(40, 160).Draw(r, "width"), n)
		}
		x.must = rapid.IntRange(0, 3).Draw(r, "must") == 0
		things = append(things, x)
	}
	var posts []plane.Vec
	for i := rapid.IntRange(0, 4).Draw(r, "posts"); i > 0; i-- {
		posts = append(posts, plane.Vec{rapid.Float64Range(-300, 300).Draw(r, "x"), rapid.Float64Range(-300, 300).Draw(r, "y")})
	}
	gap := rapid.Float64Range(0, 10).Draw(r, "gap")
	return scene(outlines, things, gap, gap, posts...)
}
