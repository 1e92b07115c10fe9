package sheet

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/measure"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// circle is a drawn ring: its middle and its radius on paper, mm.
type circle struct{ x, y, r float64 }

func circles(page drawing.Page) []circle {
	var list []circle
	for _, item := range page.Items {
		s, ok := item.(drawing.Shape)
		if !ok || len(s.Path) < 5 || s.Path[1].Op != drawing.CubicTo {
			continue
		}
		lo, hi, top := math.Inf(1), math.Inf(-1), math.Inf(1)
		for _, seg := range s.Path {
			at := seg.P[0]
			if seg.Op == drawing.CubicTo {
				at = seg.P[2]
			}
			if seg.Op != drawing.Close {
				lo, hi, top = math.Min(lo, at.X), math.Max(hi, at.X), math.Min(top, at.Y)
			}
		}
		list = append(list, circle{(lo + hi) / 2, top + (hi-lo)/2, (hi - lo) / 2})
	}
	return list
}

// Rings lie at their true size on paper, every 3 mm or 1/8 in (25.4 mm to the
// inch, exact since 1959).
func TestRingsAreAtTheirTrueSize(t *testing.T) {
	for _, c := range []struct {
		units measure.Units
		paper drawing.Paper
		step  float64
	}{
		{measure.MM, drawing.A4(), 3}, {measure.Inches, drawing.A4(), 3.175}, {measure.MM, drawing.Letter(), 3}, {measure.Inches, drawing.Letter(), 3.175},
	} {
		page := Measuring(fontsOf(t), c.paper, c.units)
		rings := circles(page)
		require.Greater(t, len(rings), 35)
		for i, r := range rings {
			n := math.Round(2 * r.r / c.step)
			require.InDelta(t, n*c.step, 2*r.r, 0.001)
			require.InDelta(t, rings[0].x, r.x, 0.001)
			require.InDelta(t, rings[0].y, r.y, 0.001)
			if i > 0 {
				require.InDelta(t, c.step/2, r.r-rings[i-1].r, 0.001, "none is left out")
			}
		}
		require.GreaterOrEqual(t, 2*rings[len(rings)-1].r, 150.0)
		require.InDelta(t, rings[0].x, math.Abs(rings[0].x), c.paper.Width)
	}
}

// Every figure at a ring stands as far from the middle as it says.
func TestFiguresStandOnTheirRings(t *testing.T) {
	page := Measuring(fontsOf(t), drawing.A4(), measure.MM)
	middle := circles(page)[0]
	fonts := fontsOf(t)
	ringed := 0
	for _, text := range drawing.Texts(page) {
		mm, err := measure.ParseLength(text.Words, measure.MM)
		if err != nil || text.Style.Anchor != drawing.Middle {
			continue
		}
		ringed++
		d := math.Hypot(text.At.X-middle.x, text.At.Y-fonts.CapHeight(text.Style)/2-middle.y)
		require.InDelta(t, mm/2, d, 0.01, text.Words)
	}
	require.GreaterOrEqual(t, ringed, 24)
}

// The upright scale starts at its foot and is true, and the line to measure is
// 100 mm or 4 in long.
func TestScaleAndControlLine(t *testing.T) {
	for _, c := range []struct {
		units  measure.Units
		length float64
		says   string
	}{{measure.MM, 100, "Measure this line: 100 mm."}, {measure.Inches, 101.6, "Measure this line: 4 in."}} {
		paper := drawing.A4()
		page := Measuring(fontsOf(t), paper, c.units)
		require.Contains(t, said(page), c.says)
		found := false
		for _, item := range page.Items {
			s, ok := item.(drawing.Shape)
			if !ok || len(s.Path) != 2 {
				continue
			}
			a, b := s.Path[0].P[0], s.Path[1].P[0]
			if a.Y == b.Y && math.Abs(b.X-a.X-c.length) < 0.001 {
				found = true
			}
		}
		require.True(t, found)
		fonts := fontsOf(t)
		foot := paper.Height - frame.Margin
		scaled := 0
		for _, text := range drawing.Texts(page) {
			if text.Style.Anchor != drawing.Left || text.At.X < paper.Width-frame.Margin-15 {
				continue
			}
			words := strings.Replace(text.Words, "½", " 1/2", 1)
			mm, err := measure.ParseLength(strings.TrimSpace(words), c.units)
			require.NoError(t, err)
			require.InDelta(t, mm, foot-(text.At.Y-fonts.CapHeight(text.Style)/2), 0.01, text.Words)
			scaled++
		}
		require.GreaterOrEqual(t, scaled, 15)
	}
}
