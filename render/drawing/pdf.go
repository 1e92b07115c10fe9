//go:build !js

package drawing

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// PDF writes a document with its fonts embedded. The same document gives the
// same bytes: its dates come from Document.Created.
func PDF(w io.Writer, fonts *Fonts, doc Document) error {
	if len(doc.Pages) == 0 {
		return fmt.Errorf("a document without pages makes no PDF")
	}
	for i, page := range doc.Pages {
		if err := sound(page); err != nil {
			return fmt.Errorf("page %d: %w", i+1, err)
		}
	}
	first := doc.Pages[0]
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: PT(first.Width), Ht: PT(first.Height)}})
	describe(f, doc)
	for _, one := range fontsUsed(fonts, doc.Pages) {
		f.AddUTF8FontFromBytes(family(one.weight), "", one.data)
	}
	for _, page := range doc.Pages {
		f.AddPageFormat("P", fpdf.SizeType{Wd: PT(page.Width), Ht: PT(page.Height)})
		p := pdfPage{pdf: f, fonts: fonts, height: PT(page.Height)}
		p.raw(fmt.Sprintf("%d M", miterLimit))
		p.items(page.Items)
	}
	return f.Output(w)
}

// describe sets the metadata and takes out what fpdf would add by itself.
func describe(f *fpdf.Fpdf, doc Document) {
	created := doc.Created
	if created.IsZero() {
		created = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	f.SetCreationDate(created)
	f.SetModificationDate(created)
	f.SetCatalogSort(true)
	f.SetTitle(plain(doc.Title), true)
	f.SetProducer("Threepost", true)
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
}

func family(w Weight) string { return fmt.Sprintf("atkinson%d", w) }

// pdfPage writes one page. state is what the page's graphics state is known
// to be, so that only changes are written.
type pdfPage struct {
	pdf    *fpdf.Fpdf
	fonts  *Fonts
	height float64 // pt
	state  pdfState
	font   pdfFont // the one fpdf has chosen
}

type pdfState struct {
	fill, stroke, line string
	font               pdfFont
}

type pdfFont struct {
	weight Weight
	size   float64
}

func (p *pdfPage) raw(s string) { p.pdf.RawWriteStr(s) }

func (p *pdfPage) items(items []Item) {
	for _, item := range items {
		switch item := item.(type) {
		case Shape:
			p.shape(item)
		case Text:
			p.text(item)
		case Clip:
			p.clip(item)
		}
	}
}

func (p *pdfPage) clip(c Clip) {
	outer := p.state
	p.raw("q " + p.path(c.Path) + " W n")
	p.items(c.Items)
	p.raw("Q")
	p.state = outer
}

func (p *pdfPage) shape(s Shape) {
	filled, stroked := s.Style.Fill != None, s.Style.Stroke != None && s.Style.Width > 0
	paint := ""
	switch {
	case filled && stroked:
		paint = " B"
	case filled:
		paint = " f"
	case stroked:
		paint = " S"
	default:
		return
	}
	if filled {
		p.set(&p.state.fill, pdfColour(s.Style.Fill, "rg", "g"))
	}
	if stroked {
		p.set(&p.state.stroke, pdfColour(s.Style.Stroke, "RG", "G"))
		p.set(&p.state.line, pdfLine(s.Style))
	}
	p.raw(p.path(s.Path) + paint)
}

func (p *pdfPage) set(now *string, want string) {
	if *now != want {
		p.raw(want)
		*now = want
	}
}

func pdfColour(c Colour, rgb, grey string) string {
	r, g, b := c.RGB()
	if c.grey() {
		return decimal(float64(r)/255, 3) + " " + grey
	}
	return decimal(float64(r)/255, 3) + " " + decimal(float64(g)/255, 3) + " " + decimal(float64(b)/255, 3) + " " + rgb
}

func pdfLine(s Style) string {
	ends := "0 J 0 j"
	if s.Round {
		ends = "1 J 1 j"
	}
	dash, sum := make([]string, len(s.Dash)), 0.0
	for i, d := range s.Dash {
		dash[i] = decimal(d, 2)
		sum += d
	}
	if sum < 0.005 { // a PDF may not hold a pattern of nothing
		dash = nil
	}
	return decimal(s.Width, 2) + " w " + ends + " [" + strings.Join(dash, " ") + "] 0 d"
}

func (p *pdfPage) path(path Path) string {
	var b strings.Builder
	for i, s := range path {
		if i > 0 {
			b.WriteByte(' ')
		}
		for j := range s.points() {
			b.WriteString(decimal(PT(s.P[j].X), 2) + " " + decimal(p.height-float64(PT(s.P[j].Y)), 2) + " ")
		}
		b.WriteByte("mlch"[min(s.Op, Close)])
	}
	return b.String()
}

func (p *pdfPage) text(t Text) {
	words := p.known(t)
	if words == "" || t.Style.Size <= 0 {
		return
	}
	p.choose(pdfFont{p.fonts.face(t.Style.Weight).weight, t.Style.Size})
	p.set(&p.state.fill, pdfColour(t.Style.ink(), "rg", "g"))
	if t.Style.Halo > 0 {
		p.raw("q 1 G " + decimal(2*t.Style.Halo, 2) + " w 1 J 1 j [] 0 d 1 Tr")
		p.words(t, words)
		p.raw("Q")
	}
	p.words(t, words)
}

// words sets a line at its place, turned.
func (p *pdfPage) words(t Text, words string) {
	at, along := t.start()
	x, y := PT(at.X), PT(at.Y)
	if along == (Point{1, 0}) {
		p.pdf.Text(x, y, words)
		return
	}
	cos, sin := decimal(along.X, 5), decimal(along.Y, 5)
	minus := decimal(-along.Y, 5)
	p.raw("q " + cos + " " + minus + " " + sin + " " + cos + " " + decimal(x, 2) + " " + decimal(p.height-y, 2) + " cm")
	p.pdf.Text(0, p.height, words)
	p.raw("Q")
}

// choose sets the font where the page, or fpdf itself, has another.
func (p *pdfPage) choose(want pdfFont) {
	if p.state.font != want || p.font != want {
		p.pdf.SetFont(family(want.weight), "", want.size)
		p.state.font, p.font = want, want
	}
}

// known replaces letters that the font lacks by one that shows its empty box.
func (p *pdfPage) known(t Text) string {
	return strings.Map(func(r rune) rune {
		if !p.fonts.HasGlyph(r) {
			return '\uFFFD'
		}
		return r
	}, t.Words)
}

// plain replaces broken bytes and letters beyond 16 bits, which fpdf cannot
// write, by the sign for "a letter was here".
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r > math.MaxUint16 {
			return '\uFFFD'
		}
		return r
	}, s)
}
