package levels

import (
	"fmt"
	"math"
	"strings"

	"threepost/geometry/plane"
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

// labelled is a block of lines that tells what a shape is.
type labelled struct {
	words []string
	style []drawing.TextStyle
}

// paperLabels names every pot, post and cone pack within a tile, none of them
// cut by its border.
func (p *plan) paperLabels(t *tiling, c cell) {
	lo, hi := t.box(c)
	tile, err := plane.Polygon([]plane.Vec{lo, {hi[0], lo[1]}, hi, {lo[0], hi[1]}})
	if err != nil {
		return
	}
	for i := range p.pots {
		p.paperPot(&p.pots[i], tile)
	}
	k := 0
	for _, l := range p.levels {
		for _, i := range standingOn(p.o, l) {
			p.paperPost(&p.b.Posts[i], p.posts[k], tile)
			k++
		}
	}
}

// paperPot sets number and name in a pot.
func (p *plan) paperPot(f *figure, tile plane.Outline) {
	pot := &p.b.Pots[f.pot]
	o := f.body.outline()
	words := frame.Text(frame.HeadSize).Haloed(3)
	if f.cones {
		name := "cones"
		for _, c := range pot.Cones.Cones {
			name += " " + string(c)
		}
		white := frame.Text(frame.HeadSize).Haloed(8)
		p.fit(pot.At, o, tile, nil, f, labelled{[]string{name}, []drawing.TextStyle{white}}, labelled{[]string{"cones"}, []drawing.TextStyle{white}})
		return
	}
	name := p.kinds[pot.Kind].name
	if smaller(f.foot, f.body) {
		name += ", foot here"
	}
	number := digits(f.number)
	if lo, hi := tile.Bounds(); f.far(plane.Skeleton{lo, hi}, 0) {
		return
	}
	if p.paperMiddle(f, tile, number, name) {
		return
	}
	var list []labelled
	for _, size := range [...]float64{36, 26} {
		style := frame.Heavy(size).Haloed(4)
		for _, say := range [...]string{name, p.kinds[pot.Kind].name} {
			list = append(list, labelled{[]string{number, say}, []drawing.TextStyle{style, words}})
		}
	}
	for _, size := range [...]float64{36, 26, 18, 12} {
		list = append(list, labelled{[]string{number}, []drawing.TextStyle{frame.Heavy(size).Haloed(4)}})
	}
	plus := pot.At
	p.fit(pot.At, o, tile, &plus, f, list...)
}

// paperMiddle sets the number over the cross in the middle of a pot and the
// name under it, and says whether there was room.
func (p *plan) paperMiddle(f *figure, tile plane.Outline, number, name string) bool {
	pot := &p.b.Pots[f.pot]
	o := f.body.outline()
	big, text := frame.Heavy(36).Haloed(4), frame.Text(frame.HeadSize+2).Haloed(3)
	w, h := p.size(number, big)
	tw, th := p.size(name, text)
	up := plane.Add(pot.At, plane.Vec{0, plusArm + 3.4 + h/2})
	down := plane.Sub(pot.At, plane.Vec{0, plusArm + 4.4 + th/2})
	for _, b := range []plane.Skeleton{p.box(up, w, h), p.box(down, tw, th+2)} {
		if deep(b, o) < 1 || !onTile(b, tile) || !p.alone(b, f) {
			return false
		}
	}
	p.label(up, number, big)
	p.label(down, name, text)
	return true
}

// onTile tells whether a box keeps inside a tile and off the marks at its
// corners.
func onTile(box plane.Skeleton, tile plane.Outline) bool {
	lo, hi := tile.Bounds()
	if box[0][0] < lo[0]+1.5 || box[0][1] < lo[1]+1.5 || box[2][0] > hi[0]-1.5 || box[2][1] > hi[1]-1.5 {
		return false
	}
	for _, mark := range [...]plane.Vec{lo, hi, {lo[0], hi[1]}, {hi[0], lo[1]}} {
		if _, off := box.Nearest(mark); off < 7 {
			return false
		}
	}
	return true
}

// paperPost sets letter and make-up in a post.
func (p *plan) paperPost(post *stacks.Post, q part, tile plane.Outline) {
	s := p.page.Sheet
	up := strings.ReplaceAll(s.MakeUp(post.MakeUp), "+", " + ")
	up = strings.ReplaceAll(strings.ReplaceAll(up, "\u00a0", " "), "  ", " ")
	var list []labelled
	for _, sizes := range [...][2]float64{{30, 14}, {24, 12}, {20, 10}} {
		letter, small := frame.Heavy(sizes[0]).In(drawing.White), frame.Text(sizes[1]).In(drawing.White)
		list = append(list, labelled{[]string{post.Letter, up}, []drawing.TextStyle{letter, small}})
		if cut := strings.LastIndex(up, " + "); cut > 0 {
			list = append(list, labelled{[]string{post.Letter, up[:cut], up[cut+1:]}, []drawing.TextStyle{letter, small, small}})
		}
	}
	for _, size := range [...]float64{30, 20, 12} {
		list = append(list, labelled{[]string{post.Letter}, []drawing.TextStyle{frame.Heavy(size).In(drawing.White)}})
	}
	p.fit(post.At, q.outline(), tile, nil, nil, list...)
}

// fit sets the first of several labels for which there is room in an outline
// within the tile, clear of the cross at plus and of all other pots, nearest
// to a place. Where none has room, pots and cross may lie under it.
func (p *plan) fit(at plane.Vec, o, tile plane.Outline, plus *plane.Vec, own *figure, list ...labelled) {
	lo, hi := o.Bounds()
	tlo, thi := tile.Bounds()
	lo = plane.Vec{math.Max(lo[0], tlo[0]), math.Max(lo[1], tlo[1])}
	hi = plane.Vec{math.Min(hi[0], thi[0]), math.Min(hi[1], thi[1])}
	if lo[0] >= hi[0] || lo[1] >= hi[1] {
		return // not on this tile
	}
	for _, strict := range [...]bool{true, false} {
		for _, l := range list {
			wide, high := p.block(l)
			best, spot, found := math.Inf(1), plane.Vec{}, false
			try := func(v plane.Vec) {
				off := plane.Distance(v, at)
				b := p.box(v, wide, high+1)
				if off >= best || !onTile(b, tile) || deep(b, o) < 0.9 {
					return
				}
				if strict && (!p.alone(b, own) || (plus != nil && b.Distance(plane.Skeleton{*plus}) <= plusArm+1)) {
					return
				}
				best, spot, found = off, v, true
			}
			try(at)
			for x := lo[0] + 1; x < hi[0] && best > 0; x += 2 {
				for y := lo[1] + 1; y < hi[1]; y += 2 {
					try(plane.Vec{x, y})
				}
			}
			if found {
				p.setBlock(l, spot, high)
				return
			}
		}
	}
}

// lineOver is the white between the lines of a label, mm.
const lineOver = 2.2

// block is what the lines of a label cover, mm.
func (p *plan) block(l labelled) (wide, high float64) {
	for i, w := range l.words {
		tw, th := p.size(w, l.style[i])
		wide, high = math.Max(wide, tw), high+th
		if i > 0 {
			high += lineOver
		}
	}
	return wide, high
}

// setBlock sets the lines of a label with their middle at a place.
func (p *plan) setBlock(l labelled, at plane.Vec, high float64) {
	top := at[1] + high/2
	for i, w := range l.words {
		_, th := p.size(w, l.style[i])
		p.label(plane.Vec{at[0], top - th/2}, w, l.style[i])
		top -= th + lineOver
	}
}

// alone tells whether a box keeps clear of all other pots.
func (p *plan) alone(box plane.Skeleton, own *figure) bool {
	for i := range p.pots {
		f := &p.pots[i]
		if (own != nil && f.pot == own.pot) || f.far(box, 1) {
			continue
		}
		for _, q := range f.parts() {
			if box.Distance(q.skeleton)-q.radius < 0.6 {
				return false
			}
		}
	}
	return true
}
