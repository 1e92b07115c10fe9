package drawing

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/stretchr/testify/require"
)

// contentOf is what pdfcpu reads as the content of a PDF's first page.
func contentOf(t *testing.T, pdf []byte) string {
	t.Helper()
	api.DisableConfigDir()
	ctx, err := api.ReadValidateAndOptimize(bytes.NewReader(pdf), model.NewDefaultConfiguration())
	require.NoError(t, err)
	r, err := pdfcpu.ExtractPageContent(ctx, 1)
	require.NoError(t, err)
	content, err := io.ReadAll(r)
	require.NoError(t, err)
	return string(content)
}

// An inch is 72 points, and a PDF counts from the bottom left (ISO 32000-1,
// 8.3.2.3): Letter is 612 x 792.
func TestPDFPlacesThings(t *testing.T) {
	fonts := loadFonts(t)
	for _, row := range []struct {
		what string
		draw func(p *Pen)
		want []string
	}{
		{"a line of an inch", func(p *Pen) { p.Line(25.4, 25.4, 50.8, 25.4, Outline(1.25)) },
			[]string{"0 G", "1.25 w 0 J 0 j [] 0 d", "72 720 m 144 720 l S"}},
		{"dashes in points", func(p *Pen) { p.Line(0, 0, 25.4, 0, Outline(1).Dashed(5, 3).Rounded()) },
			[]string{"1 w 1 J 1 j [5 3] 0 d", "0 792 m 72 792 l S"}},
		{"a filled square", func(p *Pen) { p.Rect(0, 254, 25.4, 25.4, Solid(RGB(255, 0, 51))) },
			[]string{"1 0 0.2 rg", "0 72 m 72 72 l 72 0 l 0 0 l h f"}},
		{"both", func(p *Pen) { p.Rect(0, 254, 25.4, 25.4, Outline(1).Filled(White)) },
			[]string{"1 g", "0 72 m 72 72 l 72 0 l 0 0 l h B"}},
		{"a clip", func(p *Pen) { p.Clip(Rect(0, 254, 25.4, 25.4), func() { p.Line(0, 0, 25.4, 0, Outline(1)) }) },
			[]string{"q 0 72 m 72 72 l 72 0 l 0 0 l h W n", "0 792 m 72 792 l S\nQ"}},
		{"text", func(p *Pen) { p.Text(25.4, 25.4, "m", Type(20, Bold)) },
			[]string{" 20.00 Tf", "BT 72.00 720.00 Td (\x00m) Tj ET"}},
		// Clockwise by a quarter: the baseline runs down the page.
		{"turned text", func(p *Pen) { p.Text(25.4, 25.4, "m", Type(20, Bold).Turned(90)) },
			[]string{"q 0 -1 1 0 72 720 cm", "BT 0.00 0.00 Td (\x00m) Tj ET", "Q"}},
		{"a halo of 2 is a line of 4", func(p *Pen) { p.Text(25.4, 25.4, "m", Type(20, Bold).Haloed(2)) },
			[]string{"q 1 G 4 w 1 J 1 j [] 0 d 1 Tr", "Q"}},
	} {
		p := NewPen(fonts, Letter())
		row.draw(p)
		content := contentOf(t, pdfOf(t, fonts, Document{Pages: []Page{p.Page()}}))
		for _, want := range row.want {
			require.Contains(t, content, want, row.what)
		}
	}
}

func TestPDFSaysAStateOnce(t *testing.T) {
	fonts := loadFonts(t)
	p := NewPen(fonts, Letter())
	for i := range 5 {
		p.Line(0, float64(i), 10, float64(i), Outline(1.25))
		p.Text(20, float64(20+i*10), "m", Type(20, Bold))
	}
	content := contentOf(t, pdfOf(t, fonts, Document{Pages: []Page{p.Page()}}))
	require.Equal(t, 1, strings.Count(content, "1.25 w"))
	require.Equal(t, 1, strings.Count(content, "20.00 Tf"))
	// What a clip changed is said again after it.
	p.Clip(Rect(0, 0, 99, 99), func() {
		p.Line(0, 0, 10, 0, Outline(3))
		p.Text(20, 90, "m", Type(11, Regular))
	})
	p.Line(0, 50, 10, 50, Outline(1.25))
	p.Text(20, 120, "m", Type(20, Bold))
	content = contentOf(t, pdfOf(t, fonts, Document{Pages: []Page{p.Page()}}))
	after := content[strings.LastIndex(content, "\nQ"):]
	require.NotContains(t, after, " w ", "the line's state came back with Q")
	require.Contains(t, after, "20.00 Tf")
}
