package levels

import (
	"fmt"
	"math"
	"strings"

	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// Papers are the shelf papers at 1:1 of the levels named (indices into
// Built.Levels), or of every level with pots. They stay out of the kiln and
// are not counted among the sheets.
func Papers(s *frame.Sheet, b *stacks.Built, o *order.Order, levels ...int) []frame.Draft {
	if len(levels) == 0 {
		for i := range o.Levels {
			if l := o.Levels[i].Level; len(b.Levels[l].Pots) > 0 {
				levels = append(levels, l)
			}
		}
	}
	kinds := kindsOf(b)
	var drafts []frame.Draft
	for _, l := range levels {
		if l < 0 || l >= len(b.Levels) || len(b.Levels[l].Shelves) == 0 {
			continue
		}
		drafts = append(drafts, papersOf(s, b, o, kinds, l)...)
	}
	return drafts
}

// Where a tile lies on its paper, mm: the rest is for words and marks.
const (
	tileLeft = 15
	tileOver = 30
	tileFoot = 23
)

// papersOf tiles one level.
func papersOf(s *frame.Sheet, b *stacks.Built, o *order.Order, kinds map[int]kind, level int) []frame.Draft {
	goods := newPlan(nil, b, o, kinds, []int{level}, view{scale: 1})
	upright := tilingOf(goods, s.Paper)
	if turned := tilingOf(goods, s.Paper.Sideways()); turned.better(&upright) {
		upright = turned
		sideways := *s
		sideways.Paper = s.Paper.Sideways()
		s = &sideways
	}
	var drafts []frame.Draft
	for n := range upright.used {
		drafts = append(drafts, upright.paper(s, goods, level, n))
	}
	return drafts
}

// paper draws tile n.
func (t *tiling) paper(s *frame.Sheet, goods *plan, level, n int) frame.Draft {
	name := s.Say(goods.b.Levels[level].Name)
	title := fmt.Sprintf("%s on the table, sheet %d of %d", frame.Capital(name), n+1, len(t.used))
	page := s.Bare(title)
	lo, _ := t.box(t.used[n])
	p := *goods
	p.page, p.boxes, p.lines = page, nil, nil
	// The tile's lower left corner in the kiln lies on its lower left on paper.
	p.view = view{at: drawing.At(tileLeft-lo[0], tileOver+t.high+lo[1]), scale: 1}
	page.Clip(drawing.Rect(tileLeft, tileOver, t.wide, t.high), func() { p.paperShapes() })
	p.paperLabels(t, t.used[n])
	t.words(page, title, n)
	t.marks(page, n)
	t.mapOf(page, &p, n)
	controlLine(page, tileOver+t.high)
	return page.Draft()
}

// paperShapes draws everything that lies on the shelf at 1:1.
func (p *plan) paperShapes() {
	for _, l := range p.levels {
		for _, s := range p.b.Levels[l].Shelves {
			p.page.Path(p.view.path(p.b.Shelves[s].Outline), frame.Cut())
		}
	}
	for i := range p.pots {
		p.pot(&p.pots[i])
	}
	p.under()
	for _, q := range p.posts {
		p.stroke(q, drawing.Solid(drawing.Black))
	}
	for i := range p.pots {
		if f := &p.pots[i]; !f.cones {
			at := p.view.point(p.b.Pots[f.pot].At)
			p.page.Line(at.X-plusArm, at.Y, at.X+plusArm, at.Y, frame.Hair())
			p.page.Line(at.X, at.Y-plusArm, at.X, at.Y+plusArm, frame.Hair())
		}
	}
}

// plusArm is half of the cross in the middle of a pot, mm.
const plusArm = 2.6

// words heads a paper: where it goes.
func (t *tiling) words(page *frame.Page, title string, n int) {
	s := page.Sheet
	page.Text(tileLeft, 12, title, frame.Heavy(frame.LevelSize))
	text := frame.Text(frame.TextSize)
	page.Text(tileLeft, 17.6, t.joins(n), text)
	page.TextRuns(tileLeft, 23, drawing.Left,
		drawing.Run{Words: "This paper stays out of the kiln.", Style: frame.Strong(frame.TextSize)},
		drawing.Run{Words: s.Say(" Set the level here, then carry it over."), Style: text})
}

// joins tells which marks lie on which of the sheets before.
func (t *tiling) joins(n int) string {
	at := t.used[n]
	var words []string
	join := func(other cell, corners ...cell) {
		m := t.numberOf(other)
		if m == 0 || m > n {
			return
		}
		var marks []string
		for _, c := range corners {
			marks = append(marks, t.marksAt[c])
		}
		on := strings.Join(marks, " ")
		words = append(words, on+" on "+on+" of sheet "+digits(m))
	}
	join(cell{at.x, at.y - 1}, at, cell{at.x + 1, at.y})
	join(cell{at.x - 1, at.y}, at, cell{at.x, at.y + 1})
	if len(words) == 0 {
		join(cell{at.x - 1, at.y - 1}, at)
		join(cell{at.x + 1, at.y - 1}, cell{at.x + 1, at.y})
	}
	if len(words) == 0 {
		if len(t.used) == 1 {
			return "The whole level is on this sheet."
		}
		if n == 0 {
			return "Begin with this sheet; lay the others on its marks."
		}
		return "It joins a later sheet."
	}
	return "Lay " + strings.Join(words, ", ") + "."
}

// marks draws the tile's border and the marks at its corners.
func (t *tiling) marks(page *frame.Page, n int) {
	page.Rect(tileLeft, tileOver, t.wide, t.high, drawing.Outline(0.7).Dashed(6, 4))
	at := t.used[n]
	for dy := range 2 {
		for dx := range 2 {
			x, y := tileLeft+float64(t.wide*float64(dx)), tileOver+float64(t.high*float64(dy))
			page.Circle(x, y, 2.7, frame.Ink())
			page.Line(x-5.6, y, x+5.6, y, frame.Ink())
			page.Line(x, y-5.6, x, y+5.6, frame.Ink())
			side, out := drawing.Right, -1.0
			if dx == 1 {
				side, out = drawing.Left, 1
			}
			style := frame.Heavy(frame.HeadSize).Held(side)
			base := y - 3.2
			if dy == 1 {
				base = y + 3.2 + page.Sheet.Fonts.CapHeight(style)
			}
			page.Text(x+float64(4.2*out), base, t.marksAt[cell{at.x + dx, at.y + dy}], style)
		}
	}
}

// mapOf draws where the tile lies on the shelf.
func (t *tiling) mapOf(page *frame.Page, p *plan, n int) {
	const wide, high = 25.0, 17.0
	k := math.Min(wide/(t.wide*float64(t.across)), high/(t.high*float64(t.down)))
	left := page.Sheet.Paper.Width - tileLeft - float64(k*t.wide*float64(t.across))
	tile := func(c cell) drawing.Path {
		return drawing.Rect(left+float64(k*t.wide*float64(c.x)), 6+float64(k*t.high*float64(c.y)), k*t.wide, k*t.high)
	}
	for _, c := range t.used {
		page.Path(tile(c), drawing.Outline(0.5).Dashed(1.6, 1.6))
	}
	page.Path(tile(t.used[n]), drawing.Solid(drawing.Black))
	small := view{at: drawing.At(left-float64(k*t.left), 6+float64(k*t.top)), scale: k}
	for _, l := range p.levels {
		for _, s := range p.b.Levels[l].Shelves {
			page.Path(small.path(p.b.Shelves[s].Outline), frame.Ink())
		}
	}
}

// controlLine draws a line to measure: a printer that shrinks makes papers
// that lie.
func controlLine(page *frame.Page, under float64) {
	length, says := 100.0, "100\u00a0mm"
	if page.Sheet.Units == measure.Inches {
		length, says = 101.6, "4\u00a0inches"
	}
	page.Text(tileLeft+12, under+8.4, "Measure this line: "+says+". If not, print again at 100 %.", frame.Text(frame.TextSize))
	y := under + 13
	page.Line(tileLeft, y, tileLeft+length, y, frame.Ink())
	for i, x := range [...]float64{0, length / 2, length} {
		arm := 1.8
		if i == 1 {
			arm = 1.2
		}
		page.Line(tileLeft+x, y-arm, tileLeft+x, y+arm, frame.Ink())
	}
}
