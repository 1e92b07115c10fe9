package drawing

import (
	"bytes"
	"encoding/xml"
	"image/png"
	"io"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/stretchr/testify/require"
)

// FuzzOutputs puts any words at any place and size through all outputs: they
// refuse together, or give files that others can read.
func FuzzOutputs(f *testing.F) {
	f.Add("3×(100+10)", 20.0, 30.0, 12.0, 0.0, 0.0)
	f.Add("\U0001F3FA\x00\xff<&>()\\", 205.0, -3.0, 300.0, 271.5, 4.0)
	f.Add("", 1e6, 0.0, -1.0, 1e300, -2.0)
	fonts, err := LoadFonts()
	require.NoError(f, err)
	api.DisableConfigDir()
	f.Fuzz(func(t *testing.T, words string, x, y, size, turn, halo float64) {
		p := NewPen(fonts, A4())
		s := Type(size, SemiBold).Turned(turn).Haloed(halo)
		p.Clip(Circle(100, 100, 90), func() { p.Text(x, y, words, s) })
		p.Line(x, y, y, x, Outline(size).Dashed(halo, size))
		page := p.Page()
		Check(fonts, page, Rules{Margin: 10, Smallest: 12, Covered: true, Struck: true})
		Dump(page)
		var pdf, svg, dots bytes.Buffer
		refused := sound(page)
		if refused != nil {
			require.Error(t, PDF(&pdf, fonts, Document{Pages: []Page{page}}))
			require.Error(t, SVG(&svg, fonts, page))
			require.Error(t, PNG(&dots, fonts, page, 20))
			return
		}
		require.NoError(t, PDF(&pdf, fonts, Document{Title: words, Pages: []Page{page}}))
		require.NoError(t, api.Validate(bytes.NewReader(pdf.Bytes()), nil))
		require.NoError(t, SVG(&svg, fonts, page))
		d := xml.NewDecoder(&svg)
		for {
			if _, err := d.Token(); err != nil {
				require.ErrorIs(t, err, io.EOF)
				break
			}
		}
		require.NoError(t, PNG(&dots, fonts, page, 20))
		_, err := png.Decode(&dots)
		require.NoError(t, err)
	})
}
