package clearance

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// The loads of these tests: a round kiln 600 across and 600 high, round
// shelves 520 across and 20 thick (40 from the wall) on three square posts of
// 40, their middles 200 from the kiln's (60 in from the shelf's edge), at 12,
// 4 and 8 o'clock. The lower shelf's top lies at 120, the upper shelf's
// underside at 270 and its top at 290.
//
// Jars are cylinders 80 across and 100 high, without allowances: a gap is the
// distance of two middles less 80.

func square(width float64) layout.Section {
	return layout.Section{Kind: layout.SquareSection, Width: width}
}

func makeUps(heights ...float64) []layout.MakeUp {
	var m layout.MakeUp
	for _, h := range heights {
		m = append(m, layout.Piece{Height: h})
	}
	return []layout.MakeUp{m}
}

func threeLines(out float64) []layout.Line {
	var lines []layout.Line
	for _, b := range []float64{0, 120, 240} {
		lines = append(lines, layout.Line{At: plane.FromBearing(out, b)})
	}
	return lines
}

func none() *float64 { return new(float64) }

func jar() layout.Ware {
	return layout.Ware{Name: "jar", Count: 12, Silhouette: layout.Cylinder, Height: 100, Across: 80, Foot: 60,
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
		Ware: []layout.Ware{jar()},
		Towers: []layout.Tower{{Name: "stack", On: []layout.Support{{}}, Lines: threeLines(200), Levels: []layout.Level{
			{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: makeUps(100)},
			{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: makeUps(150)},
		}}},
	}
}

// put stands pot number n of a row on a level, counted from 1, of a tower.
func put(l *layout.Load, ware string, n, tower, level int, x, y float64) {
	p := layout.Pot{Ware: ware, Number: n}
	for _, w := range l.Ware {
		if w.Name == ware && w.Count == 1 {
			p.Number = 0
		}
	}
	for _, c := range l.Cones {
		if c.Name == ware {
			p.Number = 0
		}
	}
	v := &l.Towers[tower].Levels[level-1]
	v.Set = append(v.Set, layout.Placement{Pot: p, At: plane.Vec{x, y}})
}

func built(t testing.TB, l *layout.Load) *stacks.Built {
	t.Helper()
	b, err := stacks.Build(l)
	require.NoError(t, err)
	return b
}

func check(t testing.TB, l *layout.Load) Report {
	t.Helper()
	return Check(built(t, l))
}

// of is the findings of a rule.
func of(r Report, rule layout.RuleName) []layout.Finding {
	var out []layout.Finding
	for _, f := range r.Findings {
		if f.Rule == rule {
			out = append(out, f)
		}
	}
	return out
}

// grades says the grades found of a rule, worst first: "problem", "watch",
// "" for none.
func gradeOf(r Report, rule layout.RuleName) string {
	if fs := of(r, rule); len(fs) > 0 {
		return fs[0].Grade.String()
	}
	return ""
}

// open is the report without notes, as sentences.
func open(r Report) []string {
	var out []string
	for _, f := range r.Findings {
		if f.Grade != layout.Note {
			out = append(out, f.Grade.String()+" "+string(f.Rule)+": "+f.Sentence)
		}
	}
	return out
}

func TestACalmLoadHasNoFinding(t *testing.T) {
	l := calm()
	put(l, "jar", 1, 0, 1, 0, 0)
	put(l, "jar", 2, 0, 1, 100, 0)
	put(l, "jar", 3, 0, 2, 0, 0)
	r := check(t, l)
	require.Empty(t, open(r))
	require.Equal(t, 0, r.Problems+r.Watches)
	require.Equal(t, 1, r.Notes, "nine jars wait")
}
