package edit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// The loads of these tests: a round kiln 600 across and 600 high, round
// shelves 520 across and 20 thick on three posts of 40 whose middles lie 200
// out. The lower shelf's top lies at 120, the upper shelf from 270 to 290.
// Jars are cylinders 80 across and 100 high, without allowances.

func square(width float64) layout.Section {
	return layout.Section{Kind: layout.SquareSection, Width: width}
}

func up(heights ...float64) layout.MakeUp {
	var m layout.MakeUp
	for _, h := range heights {
		m = append(m, layout.Piece{Height: h})
	}
	return m
}

func ups(heights ...float64) []layout.MakeUp { return []layout.MakeUp{up(heights...)} }

func threeLines(out float64) []layout.Line {
	var lines []layout.Line
	for _, b := range []float64{0, 120, 240} {
		at := plane.FromBearing(out, b)
		lines = append(lines, layout.Line{At: gridPlace(at)})
	}
	return lines
}

func none() *float64 { return new(float64) }

func row(name string, count int) layout.Ware {
	return layout.Ware{Name: name, Count: count, Silhouette: layout.Cylinder, Height: 100, Across: 80, Foot: 60,
		HighAllowance: none(), WideAllowance: none(),
		Clay: layout.Material{Name: "stoneware", Cone: "6"}, Glaze: layout.Material{Name: "clear", Cone: "6"}}
}

func calm() *layout.Load {
	return &layout.Load{
		Firing: layout.Firing{Stage: layout.Glaze, Cone: "6"},
		Kiln:   layout.Kiln{Chamber: layout.Shape{Kind: layout.Round, Across: 600}, Height: 600, Opens: layout.Top},
		Furniture: layout.Furniture{
			Shelves: []layout.ShelfKind{
				{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: 520}, Thick: 20, Count: 4},
				{Name: "half", Shape: layout.Shape{Kind: layout.HalfRound, Across: 520, Depth: 255}, Thick: 20, Count: 4},
			},
			Posts: []layout.PostKind{
				{Height: 10, Section: square(40), Count: 20, Spacer: true}, {Height: 50, Section: square(40), Count: 20},
				{Height: 100, Section: square(40), Count: 20}, {Height: 150, Section: square(40), Count: 20},
			},
		},
		Ware: []layout.Ware{row("jar", 12), row("low", 2)},
		Towers: []layout.Tower{{Name: "stack", On: []layout.Support{{}}, Lines: threeLines(200), Levels: []layout.Level{
			{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: ups(100)},
			{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: ups(150)},
		}}},
	}
}

// put stands a pot, by its written name, on a level of a tower.
func put(t testing.TB, l *layout.Load, pot, tower string, level int, x, y float64) {
	t.Helper()
	p, err := l.Find(pot)
	require.NoError(t, err)
	v := &l.Tower(tower).Levels[level-1]
	v.Set = append(v.Set, layout.Placement{Pot: p, At: plane.Vec{x, y}})
}

func built(t testing.TB, l *layout.Load) *stacks.Built {
	t.Helper()
	b, err := stacks.Build(l)
	require.NoError(t, err)
	return b
}

func of(r clearance.Report, rule layout.RuleName) []layout.Finding {
	var out []layout.Finding
	for _, f := range r.Findings {
		if f.Rule == rule {
			out = append(out, f)
		}
	}
	return out
}

func at(x, y float64) *plane.Vec { return &plane.Vec{x, y} }

func deg(x float64) *float64 { return &x }
