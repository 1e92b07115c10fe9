package whole

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/statics"
	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/sheet"
)

// TestSheetsOfAllSamples makes every sheet of every reference load: no text
// leaves its page or lies on another, none is smaller than it may be, and the
// front page has nothing under 12 pt. No line runs through a text and nothing
// hides one. Desk printers leave 3 to 6 mm blank (common practice): level pages
// keep 6, shelf papers, which run to their marks, 4.
func TestSheetsOfAllSamples(t *testing.T) {
	fonts, err := drawing.LoadFonts()
	require.NoError(t, err)
	for _, name := range samples() {
		for _, p := range []struct {
			paper drawing.Paper
			units measure.Units
		}{{drawing.A4(), measure.MM}, {drawing.A4(), measure.Inches}, {drawing.Letter(), measure.MM}, {drawing.Letter(), measure.Inches}} {
			t.Run(fmt.Sprintf("%s %s %s", name, p.paper.Name, p.units), func(t *testing.T) {
				b := reference(t, name)
				o, _ := order.Of(b)
				r, w := clearance.Check(b), statics.Weigh(b)
				check := func(parts sheet.Parts, smallest, margin float64) {
					pages, err := sheet.Make(b, r, o, w, sheet.Options{Paper: p.paper, Units: p.units, Fonts: fonts, Parts: parts})
					require.NoError(t, err)
					require.NotEmpty(t, pages)
					for i, page := range pages {
						rules := drawing.Rules{Margin: margin, Smallest: smallest, Apart: 0.2, Covered: true, Struck: true}
						upright := page.Width == p.paper.Width && page.Height == p.paper.Height
						lying := page.Width == p.paper.Height && page.Height == p.paper.Width
						require.True(t, upright || parts.Papers && lying, "%+v page %d is %g x %g", parts, i+1, page.Width, page.Height)
						for _, c := range drawing.Check(fonts, page, rules) {
							t.Errorf("%+v page %d: %s", parts, i+1, c)
						}
					}
				}
				check(sheet.Parts{Front: true, Boards: true, Measuring: true}, frame.TextSize, frame.Margin-0.5)
				check(sheet.Parts{Levels: true}, frame.SmallSize, 6)
				check(sheet.Parts{Papers: true}, frame.SmallSize, 4)
			})
		}
	}
}
