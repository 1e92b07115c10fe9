package frame

import "threepost/render/drawing"

// Head is the band on top of a page.
type Head struct {
	Title    string // large, left
	Right    string // large, right: what the page holds
	Sub      string // under the title
	SubRight string
}

// Page is a page being drawn. Its Pen draws in mm of paper from the top left
// corner; its body lies between the margins, from Top to Bottom.
type Page struct {
	*drawing.Pen
	Sheet  *Sheet
	Top    float64 // y under the band's rule, mm
	Bottom float64 // y over the footer's rule, mm
	Note   string  // right in the footer, before the number
	bare   bool
}

// Where the band's lines stand, mm from the top of the paper.
const (
	titleBase = Margin + 6.2
	subBase   = titleBase + 7.2
	ruleAt    = subBase + 3.6
)

// Page starts a page with its band and room for the footer. A title that is
// too long beside Right takes a second line of its own; Sub wraps.
func (s *Sheet) Page(h Head) *Page {
	p := &Page{Pen: drawing.NewPen(s.Fonts, s.Paper).Titled(h.Title), Sheet: s}
	p.Bottom = s.Paper.Height - Margin - descent - footHeight - 2
	y := p.band(h)
	p.Line(s.Left(), y, s.Right(), y, Cut())
	p.Top = y + 3
	return p
}

// Bare starts a page without band and footer, for papers that are measured on
// over their whole area. It is not counted among the sheets.
func (s *Sheet) Bare(title string) *Page {
	return &Page{
		Pen: drawing.NewPen(s.Fonts, s.Paper).Titled(title), Sheet: s, bare: true,
		Top: Margin, Bottom: s.Paper.Height - Margin,
	}
}

// Draft is the page as drawn so far, for Assemble.
func (p *Page) Draft() Draft { return Draft{Page: p.Page(), Note: p.Note, NoFooter: p.bare} }

// Page is what has been drawn so far.
func (p *Page) Page() drawing.Page { return p.Pen.Page() }

// band draws title and subline and gives the y of the rule under them.
func (p *Page) band(h Head) float64 {
	s := p.Sheet
	y := float64(titleBase)
	title, right := Heavy(TitleSize), Heavy(rightSize(h))
	rw := s.Fonts.Width(right, h.Right)
	room := s.Width() - rw - 8
	if h.Right == "" {
		room = s.Width()
	}
	lines := s.Fonts.Wrap(title, h.Title, room)
	if len(lines) > 1 && h.Right != "" {
		// The two lines stand under each other rather than squeeze.
		lines = s.Fonts.Wrap(title, h.Title, s.Width())
		if len(lines) > 2 {
			lines = []string{lines[0], s.Fit(lines[1]+" "+lines[2], title, s.Width())}
		}
		for _, line := range lines {
			p.Text(s.Left(), y, line, title)
			y += Leading(TitleSize)
		}
		for i, line := range s.Fonts.Wrap(right, h.Right, s.Width()) {
			if i > 0 {
				y += Leading(right.Size)
			}
			p.Text(s.Left(), y, line, right)
		}
	} else {
		for i, line := range lines {
			if i > 0 {
				y += Leading(TitleSize)
			}
			p.Text(s.Left(), y, line, title)
		}
		p.Text(s.Right(), y, h.Right, right.Held(drawing.Right))
	}
	return p.subline(h, y)
}

// rightSize is the size of the text at the right of the band: as large as the
// title on a front page, smaller where it lists what the page holds.
func rightSize(h Head) float64 {
	if h.SubRight != "" {
		return TitleSize
	}
	return LevelSize
}

func (p *Page) subline(h Head, y float64) float64 {
	if h.Sub == "" && h.SubRight == "" {
		return y + (ruleAt - subBase)
	}
	s := p.Sheet
	y += subBase - titleBase
	rw := p.Text(s.Right(), y, h.SubRight, Text(TextSize).Held(drawing.Right))
	room := s.Width()
	if rw > 0 {
		room -= rw + 6
	}
	for i, line := range s.Fonts.Wrap(Text(TextSize), h.Sub, room) {
		if i > 0 {
			y += Leading(TextSize)
		}
		p.Text(s.Left(), y, line, Text(TextSize))
	}
	return y + (ruleAt - subBase)
}
