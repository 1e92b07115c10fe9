package levels

import (
	"math"

	"threepost/geometry/plane"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// Two plans under each other, their legends in one column at the right: for
// levels that lie over each other and have few pots.

// leastColumn is the narrowest legend, mm.
const leastColumn = 52

// stackedSize is how large a plan is that shares a page so, shelves no less
// than leastShelf across: its scale, and its width and height with the clock,
// mm.
func (m *maker) stackedSize(levels []int) (scale, wide, high float64) {
	scale = 1 / (math.Floor(10*m.across(levels)/leastShelf) / 10)
	lo, hi := m.b.Chamber.Bounds()
	return scale, float64((hi[0]-lo[0])*scale) + 2*m.beside() - 4, float64((hi[1]-lo[1])*scale) + 2*overPlan - 1
}

// fitsStacked tells whether two plans of a group and their legends fit on one
// page.
func (m *maker) fitsStacked(g group) bool {
	page := m.s.Page(m.headOf(g))
	room := page.Bottom - page.Top
	plans, legends, wide := keyRoom/2.0, 0.0, 0.0
	for _, levels := range g.plans {
		_, w, h := m.stackedSize(levels)
		plans, wide = plans+h, math.Max(wide, w)
	}
	column := m.s.Width() - wide - columnGap/2
	if column < leastColumn || plans > room {
		return false
	}
	for _, levels := range g.plans {
		for _, t := range m.tables(levels, column, loose()) {
			legends += t.height() + stackGap
		}
	}
	return legends <= room
}

// stackGap is the white between two legends of a column, mm.
const stackGap = 3

// stacked draws the plans of a group under each other.
func (m *maker) stacked(page *frame.Page, g group) []frame.Draft {
	y, down, most := page.Top, page.Top+1, 0.0
	lo, hi := m.b.Chamber.Bounds()
	for _, levels := range g.plans {
		_, w, _ := m.stackedSize(levels)
		most = math.Max(most, w)
	}
	column := m.s.Width() - most - columnGap/2
	var last *plan
	for _, levels := range g.plans {
		scale, wide, high := m.stackedSize(levels)
		v := view{at: drawing.At(m.s.Left()+wide/2-float64((lo[0]+hi[0])/2*scale), y+overPlan-1+float64(hi[1]*scale)), scale: scale}
		p := newPlan(page, m.b, m.o, m.kinds, levels, v)
		if last != nil {
			p.shows = last.shows
		}
		name := m.list.LevelOf(levels[0]).Name
		base := y + overPlan - 3.4
		w := page.Text(m.s.Left(), base, name, frame.Strong(frame.HeadSize))
		p.boxes = append(p.boxes, p.box(v.back(drawing.At(m.s.Left()+w/2, base-2)), w, 5))
		p.draw()
		for _, t := range m.tables(levels, column, loose()) {
			down = t.draw(page, m.s.Right()-column, down, column) + stackGap
		}
		page.Note = frame.Scale(1 / scale)
		y += high
		last = p
	}
	if last != nil {
		last.keyLines(y, most)
	}
	return []frame.Draft{page.Draft()}
}

// keyLines sets the key under plans, width mm wide.
func (p *plan) keyLines(y, width float64) {
	kinds, words := p.key()
	text := frame.Text(frame.LegendSize)
	for _, w := range words {
		kinds = append(kinds, []drawing.Run{{Words: w, Style: text}})
	}
	for i, line := range p.page.Sheet.WrapRuns(width, joined(kinds, text)...) {
		p.page.TextRuns(p.page.Sheet.Left(), y+2+float64(frame.Leading(frame.LegendSize)*float64(i)), drawing.Left, line...)
	}
}

// nearer is the place on the way from a to b that lies short mm before b, or
// a where the way is shorter.
func nearer(a, b plane.Vec, short float64) plane.Vec {
	d := plane.Distance(a, b)
	if d <= short {
		return a
	}
	return plane.Lerp(a, b, (d-short)/d)
}
