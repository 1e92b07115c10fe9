package levels

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/internal/sample"
	"threepost/render/steps"
)

func listOf(s *frame.Sheet, b *stacks.Built, o *order.Order) steps.List {
	return steps.Of(b, o, s.Units, s.Words)
}

// crosses are the middles of the crosses on a paper, in mm of the paper.
func crosses(page drawing.Page) []drawing.Point {
	var out []drawing.Point
	for _, item := range page.Items {
		clip, ok := item.(drawing.Clip)
		if !ok {
			continue
		}
		for _, in := range clip.Items {
			shape, ok := in.(drawing.Shape)
			if !ok || len(shape.Path) != 2 {
				continue
			}
			a, b := shape.Path[0].P[0], shape.Path[1].P[0]
			if a.Y == b.Y && math.Abs(math.Abs(b.X-a.X)-2*plusArm) < 1e-9 {
				out = append(out, drawing.At((a.X+b.X)/2, a.Y))
			}
		}
	}
	return out
}

// Law: papers are 1:1. Distances of pots on every paper equal those in the
// load, north is up, and no tile shows a pot elsewhere than the next.
func TestPapersAreTrueToScale(t *testing.T) {
	eachWay(t, func(t *testing.T, name string, s *frame.Sheet, b *stacks.Built, o *order.Order) {
		if s.Units == measure.Inches {
			return // places do not depend on how lengths are shown
		}
		for v := range b.Levels {
			var want []plane.Vec
			p := newPlan(nil, b, o, kindsOf(b), []int{v}, view{scale: 1})
			for i := range p.pots {
				if !p.pots[i].cones {
					want = append(want, b.Pots[p.pots[i].pot].At)
				}
			}
			if len(want) == 0 {
				continue
			}
			for n, d := range Papers(s, b, o, v) {
				got := crosses(d.Page)
				require.Len(t, got, len(want), "%s level %d paper %d", name, v, n+1)
				for i := range got {
					require.InDelta(t, want[i][0]-want[0][0], got[i].X-got[0].X, 1e-9)
					require.InDelta(t, want[i][1]-want[0][1], got[0].Y-got[i].Y, 1e-9)
				}
			}
		}
	})
}

// Law: whatever lies on a level lies on a used tile, and every pot's number
// stands on one of them.
func TestEveryPotIsOnPaper(t *testing.T) {
	eachWay(t, func(t *testing.T, name string, s *frame.Sheet, b *stacks.Built, o *order.Order) {
		for v := range b.Levels {
			if len(b.Levels[v].Pots) == 0 {
				continue
			}
			told := map[string]bool{}
			for _, d := range Papers(s, b, o, v) {
				for _, text := range drawing.Texts(d.Page) {
					told[text.Words] = true
				}
			}
			for _, i := range b.Levels[v].Pots {
				if b.Pots[i].Ware != nil {
					require.True(t, told[digits(o.Number(i))], "%s: number %d of %s", name, o.Number(i), b.Levels[v].Name)
				}
			}
			for _, i := range standingOn(o, v) {
				require.True(t, told[b.Posts[i].Letter], "%s: post %s of %s", name, b.Posts[i].Letter, b.Levels[v].Name)
			}
		}
	})
}

// Tiles without anything are left out; every other tile is used once and its
// corners carry marks that neighbours share.
func TestTilesCoverTheLevel(t *testing.T) {
	eachWay(t, func(t *testing.T, name string, s *frame.Sheet, b *stacks.Built, o *order.Order) {
		if s.Units == measure.Inches {
			return
		}
		for v := range b.Levels {
			p := newPlan(nil, b, o, kindsOf(b), []int{v}, view{scale: 1})
			tl := tilingOf(p, s.Paper)
			lo, hi := p.reach()
			require.LessOrEqual(t, tl.left, lo[0])
			require.GreaterOrEqual(t, tl.top, hi[1])
			require.GreaterOrEqual(t, tl.left+float64(tl.across)*tl.wide, hi[0])
			require.LessOrEqual(t, tl.top-float64(tl.down)*tl.high, lo[1])
			marks := map[string]cell{}
			for at, m := range tl.marksAt {
				_, twice := marks[m]
				require.False(t, twice)
				marks[m] = at
			}
			for i := range p.pots {
				at := b.Pots[p.pots[i].pot].At
				c := cell{int((at[0] - tl.left) / tl.wide), int((tl.top - at[1]) / tl.high)}
				require.NotZero(t, tl.numberOf(c), "%s: the tile under %v is used", name, at)
			}
		}
	})
}

func TestPapersTellHowTheyJoin(t *testing.T) {
	s, b, o := set(t, sample.October(), drawing.A4(), measure.MM)
	drafts := Papers(s, b, o, 0)
	require.Greater(t, len(drafts), 6, "a shelf of 660 takes more than six papers of 180 by 244")
	first := words(drafts[0].Page)
	require.Contains(t, first, "Begin with this sheet; lay the others on its marks.")
	require.Contains(t, first, "This paper stays out of the kiln.")
	require.Contains(t, first, "Measure this line: 100\u00a0mm. If not, print again at 100 %.")
	for n, d := range drafts {
		require.True(t, d.NoFooter)
		text := words(d.Page)
		require.Contains(t, text, "Bottom on the table, sheet "+digits(n+1)+" of "+digits(len(drafts)))
		if n > 0 {
			require.Regexp(t, `Lay [a-z]+( [a-z]+)? on [a-z]+( [a-z]+)? of sheet \d+`, text)
		}
	}
	require.Contains(t, words(drafts[1].Page), "Lay b ")
}

// The control line is 100 mm, or 4 inches of 25.4 mm (international inch).
func TestControlLine(t *testing.T) {
	for units, want := range map[measure.Units]float64{measure.MM: 100, measure.Inches: 101.6} {
		s, b, o := set(t, frontLoader(), drawing.Letter(), units)
		page := Papers(s, b, o, 0)[0].Page
		found := false
		for _, item := range page.Items {
			if shape, ok := item.(drawing.Shape); ok && len(shape.Path) == 2 {
				a, b := shape.Path[0].P[0], shape.Path[1].P[0]
				found = found || (a.Y == b.Y && math.Abs(b.X-a.X-want) < 1e-9)
			}
		}
		require.True(t, found, "%s", units)
	}
}

func TestPapersTellPostsWithTheirPieces(t *testing.T) {
	s, b, o := set(t, sample.October(), drawing.A4(), measure.MM)
	all := ""
	for _, d := range Papers(s, b, o) {
		all += words(d.Page)
	}
	require.Contains(t, all, "100 + 10\n")
	require.Contains(t, all, ", foot here\n")
	require.Contains(t, all, "cones 5 6 7\n")
	require.False(t, strings.Contains(all, "sheet 1 of 0"))
}

// A jagged level: marks after z go on with aa.
func TestMarksGoOnAfterZ(t *testing.T) {
	require.Equal(t, "a", markLetter(0))
	require.Equal(t, "z", markLetter(25))
	require.Equal(t, "aa", markLetter(26))
	require.Equal(t, "ba", markLetter(52))
}
