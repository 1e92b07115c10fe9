package order

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// up is one make-up for all lines.
func up(heights ...float64) []layout.MakeUp {
	var m layout.MakeUp
	for _, h := range heights {
		m = append(m, layout.Piece{Height: h})
	}
	return []layout.MakeUp{m}
}

// october is the twelve-sided kiln of the look: a full shelf on six posts, and
// two sides of half shelves whose heights are those of its elevation.
func october() *layout.Load {
	at := func(x, y float64) layout.Line { return layout.Line{At: plane.Vec{x, y}} }
	// Letters run clockwise from where you stand: A at 6, B at 9, C at 12.
	left := []layout.Line{at(-28, -270), at(-290, 0), at(-28, 270)}
	right := []layout.Line{at(28, 270), at(290, 0), at(28, -270)}
	half := func(x, turn float64) []layout.ShelfAt {
		return []layout.ShelfAt{{Kind: "half", At: plane.Vec{x, 0}, Turn: turn}}
	}
	square := layout.Section{Kind: layout.SquareSection, Width: 38}
	l := &layout.Load{
		Firing: layout.Firing{Stage: layout.Glaze, Cone: "6"},
		Kiln:   layout.Kiln{Chamber: layout.Shape{Kind: layout.Sided, Sides: 12, Across: 712}, Height: 686, Opens: layout.Top},
		Furniture: layout.Furniture{Shelves: []layout.ShelfKind{
			{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: 660}, Thick: 19, Mass: 13.9, Count: 1},
			{Name: "half", Shape: layout.Shape{Kind: layout.HalfRound, Across: 660, Depth: 327}, Thick: 19, Mass: 6.9, Count: 6},
		}},
		Towers: []layout.Tower{
			{Name: "base", On: []layout.Support{{}}, Lines: append(append([]layout.Line(nil), left...), right...),
				Levels: []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: up(25)}}},
			{Name: "left side", On: []layout.Support{{Tower: "base", Level: 1}}, Lines: left, Levels: []layout.Level{
				{Shelves: half(-3, 270), Posts: up(125)},
				{Shelves: half(-3, 270), Posts: up(200, 50, 5)},
				{Shelves: half(-3, 270), Posts: up(100, 10)},
			}},
			{Name: "right side", On: []layout.Support{{Tower: "base", Level: 1}}, Lines: right, Levels: []layout.Level{
				{Shelves: half(3, 90), Posts: up(150, 5)},
				{Shelves: half(3, 90), Posts: up(75, 10)},
				{Shelves: half(3, 90), Posts: up(75, 10)},
			}},
		},
	}
	for _, h := range []float64{5, 10, 25, 50, 75, 100, 125, 150, 200} {
		l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Height: h, Section: square, Count: 12, Spacer: h < 25})
	}
	return l
}

// cylinder is a row of plain pots without allowances.
func cylinder(name string, count int, height, across float64) layout.Ware {
	none := 0.0
	return layout.Ware{Name: name, Count: count, Silhouette: layout.Cylinder, Height: height, Across: across,
		HighAllowance: &none, WideAllowance: &none, Mass: 0.4}
}

// set stands the next pot of a row on a level of a tower.
func set(l *layout.Load, tower, level int, ware string, x, y, turn float64) {
	v := &l.Towers[tower].Levels[level-1]
	n := 1
	for _, t := range l.Towers {
		for _, o := range t.Levels {
			for _, p := range o.Set {
				if p.Pot.Ware == ware {
					n++
				}
			}
		}
	}
	for _, c := range l.Cones {
		if c.Name == ware {
			n = 0
		}
	}
	v.Set = append(v.Set, layout.Placement{Pot: layout.Pot{Ware: ware, Number: n}, At: plane.Vec{x, y}, Turn: turn})
}

// fullOctober puts a few pots of true height on every level.
func fullOctober() *layout.Load {
	l := october()
	l.Ware = []layout.Ware{
		cylinder("tumbler", 20, 105, 84), cylinder("jar", 20, 135, 120), cylinder("vase", 2, 240, 110),
		cylinder("soup bowl", 20, 70, 120), cylinder("mug", 20, 95, 86), cylinder("rice bowl", 20, 70, 110),
		cylinder("bottle", 20, 217, 90),
	}
	set(l, 0, 1, "tumbler", -150, 60, 0)
	set(l, 0, 1, "jar", 150, 60, 0)
	set(l, 1, 1, "vase", -150, 40, 0)
	set(l, 1, 2, "mug", -150, 40, 0)
	set(l, 1, 3, "rice bowl", -150, 40, 0)
	set(l, 2, 1, "soup bowl", 150, 40, 0)
	set(l, 2, 2, "soup bowl", 150, 40, 0)
	set(l, 2, 3, "bottle", 150, 40, 0)
	return l
}

// build builds a load that is right.
func build(t testing.TB, l *layout.Load) *stacks.Built {
	t.Helper()
	b, err := stacks.Build(l)
	require.NoError(t, err)
	return b
}

// oneShelf is a round kiln with one full shelf for trying orders on.
func oneShelf() *layout.Load {
	l := october()
	l.Towers = l.Towers[:1]
	return l
}

// hexes are places on a triangular grid of a pitch inside a circle, mm.
func hexes(pitch, within float64, most int) []plane.Vec {
	var out []plane.Vec
	for row := -20; row <= 20; row++ {
		for col := -20; col <= 20; col++ {
			x := pitch * (float64(col) + 0.5*math.Abs(float64(row%2)))
			y := pitch * math.Sqrt(3) / 2 * float64(row)
			x, y = math.Round(x*10)/10, math.Round(y*10)/10
			if math.Hypot(x, y) <= within && len(out) < most {
				out = append(out, plane.Vec{x, y})
			}
		}
	}
	return out
}
