package drawing

import (
	"bufio"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
)

// svgFamily is the name the SVG calls its embedded fonts by.
const svgFamily = "Atkinson Hyperlegible Next"

// SVG writes one page in mm, text as text, with the fonts it uses inside the
// file. A viewer that takes other fonts still sets every line at its length.
func SVG(w io.Writer, fonts *Fonts, page Page) error {
	if err := sound(page); err != nil {
		return err
	}
	s := svgPage{out: bufio.NewWriter(w), fonts: fonts}
	width, height := decimal(page.Width, 3), decimal(page.Height, 3)
	s.printf(`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s">`+"\n", width, height, width, height)
	s.printf("<title>%s</title>\n", escaped(page.Title))
	s.styles(page)
	s.printf(`<rect width="%s" height="%s" fill="#ffffff"/>`+"\n", width, height)
	s.items(page.Items)
	s.printf("</svg>\n")
	return s.out.Flush()
}

// svgPage writes one page; bufio keeps the first failure for Flush.
type svgPage struct {
	out   *bufio.Writer
	fonts *Fonts
	clips int
}

func (s *svgPage) printf(format string, args ...any) { fmt.Fprintf(s.out, format, args...) }

func (s *svgPage) styles(page Page) {
	used := fontsUsed(s.fonts, []Page{page})
	if len(used) == 0 {
		return
	}
	s.printf("<style>\n")
	for _, one := range used {
		s.printf(`@font-face{font-family:"%s";font-weight:%d;src:url(data:font/ttf;base64,%s)}`+"\n",
			svgFamily, one.weight, base64.StdEncoding.EncodeToString(one.data))
	}
	s.printf(`text{font-family:"%s",sans-serif;font-kerning:none;font-variant-ligatures:none;white-space:pre}`+"\n</style>\n", svgFamily)
}

func (s *svgPage) items(items []Item) {
	for _, item := range items {
		switch item := item.(type) {
		case Shape:
			s.printf(`<path d="%s"%s/>`+"\n", svgPath(item.Path), svgStyle(item.Style))
		case Text:
			s.text(item)
		case Clip:
			s.clips++
			s.printf(`<clipPath id="clip%d"><path d="%s"/></clipPath>`+"\n", s.clips, svgPath(item.Path))
			s.printf(`<g clip-path="url(#clip%d)">`+"\n", s.clips)
			s.items(item.Items)
			s.printf("</g>\n")
		}
	}
}

func svgPath(p Path) string {
	var b strings.Builder
	for _, s := range p {
		b.WriteByte("MLCZ"[min(s.Op, Close)])
		for j := range s.points() {
			if j > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(decimal(s.P[j].X, 3) + " " + decimal(s.P[j].Y, 3))
		}
	}
	return b.String()
}

func svgStyle(s Style) string {
	out := ` fill="none"`
	if s.Fill != None {
		out = ` fill="` + hex(s.Fill) + `"`
	}
	if s.Stroke == None || s.Width <= 0 {
		return out
	}
	out += ` stroke="` + hex(s.Stroke) + `" stroke-width="` + decimal(MM(s.Width), 3) + `"`
	if len(s.Dash) > 0 {
		dash := make([]string, len(s.Dash))
		for i, d := range s.Dash {
			dash[i] = decimal(MM(d), 3)
		}
		out += ` stroke-dasharray="` + strings.Join(dash, " ") + `"`
	}
	if s.Round {
		out += ` stroke-linecap="round" stroke-linejoin="round"`
	}
	return out
}

func (s *svgPage) text(t Text) {
	at, _ := t.start()
	x, y := decimal(at.X, 3), decimal(at.Y, 3)
	s.printf(`<text x="%s" y="%s" font-size="%s" font-weight="%d" fill="%s" textLength="%s"`, x, y,
		decimal(MM(t.Style.Size), 4), s.fonts.face(t.Style.Weight).weight, hex(t.Style.ink()), decimal(t.Width, 3))
	if t.Style.Turn != 0 {
		s.printf(` transform="rotate(%s %s %s)"`, decimal(t.Style.Turn, 4), x, y)
	}
	if t.Style.Halo > 0 {
		s.printf(` paint-order="stroke" stroke="#ffffff" stroke-linejoin="round" stroke-width="%s"`, decimal(2*MM(t.Style.Halo), 3))
	}
	s.printf(">%s</text>\n", escaped(t.Words))
}

func escaped(s string) string {
	var b strings.Builder
	// A strings.Builder never fails.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}
