package drawing

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/stretchr/testify/require"
)

func pdfOf(t testing.TB, fonts *Fonts, doc Document) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, PDF(&b, fonts, doc))
	return b.Bytes()
}

func TestPDFHasTheSameBytes(t *testing.T) {
	doc := func(f *Fonts) Document {
		return Document{Title: "October glaze", Pages: []Page{demo(f, A4()), demo(f, Letter())}}
	}
	one := loadFonts(t)
	first := pdfOf(t, one, doc(one))
	for range 3 {
		fonts := loadFonts(t)
		require.True(t, bytes.Equal(first, pdfOf(t, fonts, doc(fonts))))
	}
	golden(t, "demo.pdf.sha256", fmt.Appendf(nil, "%x\n", sha256.Sum256(first)))
}

func TestPDFTellsTitleAndDate(t *testing.T) {
	fonts := loadFonts(t)
	doc := Document{Title: "Große Glasur", Pages: []Page{demo(fonts, A4())}}
	api.DisableConfigDir()
	info, err := api.PDFInfo(bytes.NewReader(pdfOf(t, fonts, doc)), "", nil, false, nil)
	require.NoError(t, err)
	require.Equal(t, "Große Glasur", info.Title)
	require.Contains(t, info.CreationDate, "20000101")
	doc.Created = time.Date(2031, 10, 14, 9, 30, 0, 0, time.UTC)
	require.Contains(t, string(pdfOf(t, fonts, doc)), "20311014093000")
}

func TestPDFEmbedsOnlyTheFontsItUses(t *testing.T) {
	fonts := loadFonts(t)
	p := NewPen(fonts, A4())
	p.Text(20, 20, "Fetch", Type(12, Bold))
	p.Text(20, 30, "1 full shelf", Type(12, Regular))
	b := pdfOf(t, fonts, Document{Pages: []Page{p.Page()}})
	require.Equal(t, 2, bytes.Count(b, []byte("/FontFile2")))
	require.Less(t, len(b), 40_000)
	// No standard font that a viewer would have to bring along.
	require.NotContains(t, string(b), "/Type1")
}

func TestPDFOfOddPages(t *testing.T) {
	fonts := loadFonts(t)
	api.DisableConfigDir()
	for name, draw := range map[string]func(p *Pen){
		"nothing":           func(*Pen) {},
		"no glyph":          func(p *Pen) { p.Text(20, 20, "\U0001F3FA 釉 \x01 \xff", Type(12, Regular)) },
		"brackets":          func(p *Pen) { p.Text(20, 20, `(()\ `+"\r", Type(12, Regular)) },
		"dashes of nothing": func(p *Pen) { p.Line(10, 10, 50, 50, Outline(1).Dashed(0, 0)) },
		"odd weight":        func(p *Pen) { p.Text(20, 20, "a", Type(12, 950)) },
		"size of nothing":   func(p *Pen) { p.Text(20, 20, "a", TextStyle{}) },
		"empty clip":        func(p *Pen) { p.Clip(nil, func() { p.Text(20, 20, "a", Type(12, Bold)) }) },
		"text after a clip": func(p *Pen) {
			p.Text(20, 20, "a", Type(12, Bold))
			p.Clip(Rect(0, 0, 90, 90), func() { p.Text(20, 30, "b", Type(14, Regular)) })
			p.Text(20, 40, "c", Type(12, Bold))
		},
	} {
		p := NewPen(fonts, Letter())
		draw(p)
		b := pdfOf(t, fonts, Document{Title: name, Pages: []Page{p.Page()}})
		require.NoError(t, api.Validate(bytes.NewReader(b), nil), name)
	}
}

func TestNoOutputOfWhatIsNoPlace(t *testing.T) {
	fonts := loadFonts(t)
	for name, draw := range map[string]func(p *Pen){
		"NaN in a line":  func(p *Pen) { p.Line(0, 0, math.NaN(), 1, Outline(1)) },
		"far off":        func(p *Pen) { p.Circle(1e9, 0, 5, Outline(1)) },
		"endless text":   func(p *Pen) { p.Text(0, math.Inf(1), "a", Type(12, Regular)) },
		"NaN size":       func(p *Pen) { p.Text(0, 0, "a", Type(math.NaN(), Regular)) },
		"too large":      func(p *Pen) { p.Text(0, 0, "a", Type(2001, Regular)) },
		"too wide":       func(p *Pen) { p.Line(0, 0, 1, 1, Outline(2001)) },
		"negative halo":  func(p *Pen) { p.Text(0, 0, "a", Type(12, Regular).Haloed(-1)) },
		"negative width": func(p *Pen) { p.Line(0, 0, 1, 1, Outline(-1)) },
		"negative dash":  func(p *Pen) { p.Line(0, 0, 1, 1, Outline(1).Dashed(-1, 2)) },
		"NaN in a clip":  func(p *Pen) { p.Clip(Rect(0, 0, math.NaN(), 4), func() {}) },
		"within a clip":  func(p *Pen) { p.Clip(Rect(0, 0, 4, 4), func() { p.Rect(0, 0, math.NaN(), 4, Solid(Black)) }) },
		"no first move":  func(p *Pen) { p.Path(Path{{Op: LineTo}}, Outline(1)) },
	} {
		p := NewPen(fonts, A4())
		draw(p)
		var b bytes.Buffer
		require.ErrorIs(t, PDF(&b, fonts, Document{Pages: []Page{p.Page()}}), ErrPlace, name)
		require.ErrorIs(t, SVG(&b, fonts, p.Page()), ErrPlace, name)
		require.ErrorIs(t, PNG(&b, fonts, p.Page(), 50), ErrPlace, name)
		require.Empty(t, b.Bytes(), name)
	}
	require.ErrorIs(t, PDF(&bytes.Buffer{}, fonts, Document{Pages: []Page{{Width: 0, Height: 10}}}), ErrPlace)
	require.Error(t, PDF(&bytes.Buffer{}, fonts, Document{}))
}
