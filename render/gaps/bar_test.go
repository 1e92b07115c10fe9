package gaps

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/stacks"
)

// shelf is a built load with pots of 100 across, 103 with their allowance, at
// the given places of a lower level, and one more on the level over it.
func shelf(t *testing.T, at ...plane.Vec) *stacks.Built {
	t.Helper()
	l := &layout.Load{Firing: layout.Firing{Stage: layout.Glaze, Cone: "6"}}
	l.Kiln = layout.Kiln{Chamber: layout.Shape{Kind: layout.Round, Across: 700}, Height: 600}
	l.Furniture.Shelves = []layout.ShelfKind{{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: 640}, Thick: 15, Count: 2}}
	section := layout.Section{Kind: layout.SquareSection, Width: 40}
	l.Furniture.Posts = []layout.PostKind{{Height: 25, Section: section, Count: 3}, {Height: 150, Section: section, Count: 3}}
	l.Ware = []layout.Ware{{Name: "pot", Count: len(at) + 1, Height: 90, Across: 100, Silhouette: layout.Cylinder}}
	tower := layout.Tower{Name: "stack", On: []layout.Support{{}}, Lines: []layout.Line{{At: plane.Vec{0, 250}}, {At: plane.Vec{216, -125}}, {At: plane.Vec{-216, -125}}}}
	full := []layout.ShelfAt{{Kind: "full"}}
	lower := layout.Level{Shelves: full, Posts: []layout.MakeUp{{{Height: 25}}}}
	for i, v := range at {
		lower.Set = append(lower.Set, layout.Placement{Pot: layout.Pot{Ware: "pot", Number: i + 1}, At: v})
	}
	upper := layout.Level{Shelves: full, Posts: []layout.MakeUp{{{Height: 150}}},
		Set: []layout.Placement{{Pot: layout.Pot{Ware: "pot", Number: len(at) + 1}}}}
	tower.Levels = []layout.Level{lower, upper}
	l.Towers = []layout.Tower{tower}
	b, err := stacks.Build(l)
	require.NoError(t, err)
	return b
}

// drawn are all pots of a built load as a page draws them, in order.
func drawn(b *stacks.Built) []Drawn {
	var out []Drawn
	for i := range b.Pots {
		p := &b.Pots[i]
		out = append(out, Drawn{i, []Part{PartOf(p.Body.Drawn.Body, p)}})
	}
	return out
}

// posts are those that stand on a level.
func posts(b *stacks.Built) func(int) []int {
	return func(level int) []int {
		var out []int
		for i := range b.Posts {
			if b.Posts[i].Bottom == b.Levels[level].Top {
				out = append(out, i)
			}
		}
		return out
	}
}

// Two pots whose middles are so far apart: the figure is that of the solids,
// the bar as long as what is drawn leaves between them.
func TestBarsBetweenTwoPots(t *testing.T) {
	for _, tt := range []struct {
		apart, gap float64 // gap 0: no bar
	}{
		{103, 0}, {103.4, 0}, {104, 1}, {110, 7}, {111.9, 8.9}, {112, 0}, {140, 0},
		{100, 0}, // drawn lines meet
	} {
		b := shelf(t, plane.Vec{-tt.apart / 2, 0}, plane.Vec{tt.apart / 2, 0})
		bars := Bars(b, drawn(b), posts(b))
		if tt.gap == 0 {
			require.Empty(t, bars, "%g apart", tt.apart)
			continue
		}
		require.Len(t, bars, 1, "%g apart", tt.apart)
		require.InDelta(t, tt.gap, bars[0].Gap, 1e-9)
		require.InDelta(t, tt.apart-100, plane.Distance(bars[0].A, bars[0].B), 1e-9)
		require.InDelta(t, -(tt.apart/2 - 50), bars[0].A[0], 1e-9)
	}
}

// A pot beside a post of 40, which ends at x = 236, y from -145 to -105; and a
// pot straight over another on the next level is no narrow gap.
func TestBarsBesidePosts(t *testing.T) {
	b := shelf(t, plane.Vec{216 - 20 - 7 - 51.5, -125}, plane.Vec{0, 0})
	bars := Bars(b, drawn(b), posts(b))
	require.Len(t, bars, 1)
	require.InDelta(t, 7, bars[0].Gap, 1e-9)
	require.InDelta(t, 196, bars[0].B[0], 1e-9)
	require.Empty(t, Bars(b, drawn(b), func(int) []int { return nil }))
	require.Empty(t, Bars(b, nil, posts(b)))
}

// The quick look at boxes loses no bar: all pairs, measured.
func TestLawNoBarIsLost(t *testing.T) {
	var at []plane.Vec
	for i := range 9 {
		at = append(at, plane.Vec{float64(i%3-1) * (104 + float64(i)), float64(i/3-1) * (105 + float64(i))})
	}
	b := shelf(t, at...)
	want := 0
	for i := range b.Pots {
		for j := range i {
			gap, _ := solid.Gap(&b.Pots[i].Solid, &b.Pots[j].Solid)
			if b.Pots[i].Level == b.Pots[j].Level && gap < Narrow-plane.Tolerance && gap >= least {
				want++
			}
		}
	}
	require.Positive(t, want)
	require.Len(t, Bars(b, drawn(b), func(int) []int { return nil }), want)
}
