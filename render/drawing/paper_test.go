package drawing

import (
	"bytes"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/stretchr/testify/require"
)

func TestPaperSizesReadBackFromThePDF(t *testing.T) {
	fonts := loadFonts(t)
	api.DisableConfigDir()
	for _, row := range []struct {
		paper         Paper
		width, height float64 // mm
	}{
		{A4(), 210, 297},                  // ISO 216:2007, table 1
		{Letter(), 8.5 * 25.4, 11 * 25.4}, // ANSI/ASME Y14.1, size A: 8.5 x 11 in
		{A4().Sideways(), 297, 210},
	} {
		var b bytes.Buffer
		require.NoError(t, PDF(&b, fonts, Document{Pages: []Page{demo(fonts, row.paper), demo(fonts, row.paper)}}))
		require.NoError(t, api.Validate(bytes.NewReader(b.Bytes()), nil), row.paper.Name)
		dims, err := api.PageDims(bytes.NewReader(b.Bytes()), nil)
		require.NoError(t, err)
		require.Len(t, dims, 2)
		for _, d := range dims { // points; a PDF here states hundredths
			require.InDelta(t, row.width, d.Width/72*25.4, 0.004, row.paper.Name)
			require.InDelta(t, row.height, d.Height/72*25.4, 0.004, row.paper.Name)
		}
	}
}

func TestMixedPaperInOnePDF(t *testing.T) {
	fonts := loadFonts(t)
	api.DisableConfigDir()
	var b bytes.Buffer
	doc := Document{Pages: []Page{demo(fonts, A4()), demo(fonts, Letter()), demo(fonts, A4().Sideways())}}
	require.NoError(t, PDF(&b, fonts, doc))
	dims, err := api.PageDims(bytes.NewReader(b.Bytes()), nil)
	require.NoError(t, err)
	for i, d := range dims {
		require.InDelta(t, doc.Pages[i].Width, d.Width/72*25.4, 0.004)
		require.InDelta(t, doc.Pages[i].Height, d.Height/72*25.4, 0.004)
	}
}

func TestPaperNamed(t *testing.T) {
	for name, want := range map[string]Paper{"A4": A4(), "a4": A4(), " letter ": Letter(), "LETTER": Letter()} {
		have, err := PaperNamed(name)
		require.NoError(t, err, name)
		require.Equal(t, want, have, name)
	}
	_, err := PaperNamed("A5")
	require.EqualError(t, err, `paper "A5" is not known: write A4 or Letter`)
}
