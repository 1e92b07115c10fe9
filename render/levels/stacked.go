package levels

import (
	"math"

	"threepost/render/drawing"
	"threepost/render/frame"
)

// Two plans under each other, each with its legend at the right.

// stackedScale is how large such a plan is: shelves no less than leastShelf
// across.
func (m *maker) stackedScale(levels []int) float64 {
	per := math.Floor(10*m.across(levels)/leastShelf) / 10
	return 1 / per
}

// stackedSize is what such a plan takes, mm: its width with the clock, and its
// height with legend.
func (m *maker) stackedSize(levels []int) (plan, high float64) {
	lo, hi := m.b.Chamber.Bounds()
	scale := m.stackedScale(levels)
	plan = float64((hi[0]-lo[0])*scale) + 2*m.beside() - 4
	high = float64((hi[1]-lo[1])*scale) + 2*overPlan - 1
	if width := m.s.Width() - plan - columnGap/2; width >= 55 {
		for _, t := range m.tables(levels, width) {
			high = math.Max(high, t.height())
		}
		return plan, high
	}
	return plan, math.Inf(1)
}

// fitsStacked tells whether two plans of a group fit on one page.
func (m *maker) fitsStacked(g group) bool {
	page := m.s.Page(m.headOf(g))
	used := float64(columnGap / 2)
	for _, p := range g.plans {
		_, high := m.stackedSize(p)
		used += high
	}
	return used+2*5.5 <= page.Bottom-page.Top // a line of key under each
}

// stacked draws the plans of a group under each other.
func (m *maker) stacked(page *frame.Page, g group) []frame.Draft {
	y := page.Top
	lo, hi := m.b.Chamber.Bounds()
	for _, levels := range g.plans {
		wide, high := m.stackedSize(levels)
		scale := m.stackedScale(levels)
		v := view{at: drawing.At(m.s.Left()+wide/2-float64((lo[0]+hi[0])/2*scale), y+overPlan-1+float64(hi[1]*scale)), scale: scale}
		p := newPlan(page, m.b, m.o, m.kinds, levels, v)
		p.draw()
		width := m.s.Width() - wide - columnGap/2
		for _, t := range m.tables(levels, width) {
			t.draw(page, m.s.Right()-width, y+1, width)
		}
		page.Note = frame.Scale(1 / scale)
		y += high
		y = p.keyLine(y)
	}
	return []frame.Draft{page.Draft()}
}

// keyLine sets the key in one line.
func (p *plan) keyLine(y float64) float64 {
	kinds, words := p.key()
	text := frame.Text(frame.LegendSize)
	for _, w := range words {
		kinds = append(kinds, []drawing.Run{{Words: w, Style: text}})
	}
	s := p.page.Sheet
	for _, line := range s.WrapRuns(s.Width(), joined(kinds, text)...) {
		y += frame.Leading(frame.LegendSize)
		p.page.TextRuns(s.Left(), y-1, drawing.Left, line...)
		break
	}
	return y + 2
}
