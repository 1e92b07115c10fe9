package frame

import (
	"fmt"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/render/drawing"
)

// Sheet is what every page of one load's paper shares.
type Sheet struct {
	Fonts *drawing.Fonts
	Paper drawing.Paper
	Units measure.Units
	Words measure.Words
	Foot  string // left in the footer: "October glaze · kiln Heron · planned 14 October"
}

// New is the sheet of a load. Units empty takes the load's own.
func New(fonts *drawing.Fonts, paper drawing.Paper, load *layout.Load, units measure.Units, words measure.Words) *Sheet {
	if units == "" {
		units = load.Units
	}
	s := &Sheet{Fonts: fonts, Paper: paper, Units: units, Words: words}
	parts := []string{TitleOf(load)}
	if load.Kiln.Name != "" {
		parts = append(parts, "kiln "+load.Kiln.Name)
	}
	if load.Firing.Date != "" {
		parts = append(parts, "planned "+load.Firing.Date)
	}
	s.Foot = strings.Join(parts, " · ")
	return s
}

// TitleOf is the load's title, or what it is called without one.
func TitleOf(load *layout.Load) string {
	if t := strings.TrimSpace(load.Title); t != "" {
		return t
	}
	return "Kiln load"
}

// Width is the width between the margins, mm.
func (s *Sheet) Width() float64 { return s.Paper.Width - 2*Margin }

// Left is the x of the left margin, mm.
func (s *Sheet) Left() float64 { return Margin }

// Right is the x of the right margin, mm.
func (s *Sheet) Right() float64 { return s.Paper.Width - Margin }

// Say turns a sentence into the person's trade words.
func (s *Sheet) Say(sentence string) string { return s.Words.Say(sentence) }

// Draft is a page that waits for its number.
type Draft struct {
	Page     drawing.Page
	Note     string // right in the footer, before the number: "elevation 1 : 8.5"
	NoFooter bool   // a page whose whole area is measured on: it stays bare and is not counted
}

// Assemble puts the footers under the drafts: "sheet 4 of 7". Drafts without
// a footer are neither counted nor numbered.
func (s *Sheet) Assemble(drafts []Draft) []drawing.Page {
	total := 0
	for _, d := range drafts {
		if !d.NoFooter {
			total++
		}
	}
	pages := make([]drawing.Page, 0, len(drafts))
	n := 0
	for _, d := range drafts {
		page := d.Page
		if !d.NoFooter {
			n++
			page.Items = append(page.Items[:len(page.Items):len(page.Items)], s.footer(d.Note, n, total)...)
		}
		pages = append(pages, page)
	}
	return pages
}

// footer draws the line at the foot of page n.
func (s *Sheet) footer(note string, n, total int) []drawing.Item {
	pen := drawing.NewPen(s.Fonts, s.Paper)
	base := s.Paper.Height - Margin - descent
	pen.Line(s.Left(), base-footHeight, s.Right(), base-footHeight, Hair())
	right := fmt.Sprintf("sheet %d of %d", n, total)
	if note != "" {
		right = note + " · " + right
	}
	w := pen.Text(s.Right(), base, right, Text(TextSize).Held(drawing.Right))
	pen.Text(s.Left(), base, s.Fit(s.Foot, Text(TextSize), s.Width()-w-6), Text(TextSize))
	return pen.Page().Items
}

// footHeight is from the footer's rule to its baseline, mm.
const footHeight = 5.6

// descent is how far letters of the footer hang under its baseline, mm.
const descent = 0.9

// Fit is words, or their beginning and "…" when they are longer than width mm.
func (s *Sheet) Fit(words string, style drawing.TextStyle, width float64) string {
	if s.Fonts.Width(style, words) <= width {
		return words
	}
	runes := []rune(words)
	for n := len(runes) - 1; n > 0; n-- {
		cut := strings.TrimRight(string(runes[:n]), " ·,") + "…"
		if s.Fonts.Width(style, cut) <= width {
			return cut
		}
	}
	return "…"
}
