package sheet

import (
	"fmt"
	"math"
	"strings"

	"threepost/layout"
	"threepost/layout/order"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// Where the columns of the board list begin, mm from the left margin.
const (
	boardLevelAt = 13
	boardDrawnAt = 36
	boardThick   = 1.6 // of a drawn board, mm of paper
)

// boardList is the list being drawn.
type boardList struct {
	s      *frame.Sheet
	b      *stacks.Built
	boards []board
	per    float64  // mm of board for one mm of paper
	said   []string // beside what waits
	textAt float64  // where the items begin, mm from the left margin
}

// tail is a part of another page that stands under the list where that leaves
// room: its height, mm, and how it is drawn at y.
type tail struct {
	high float64
	draw func(p *frame.Page, y float64)
}

// boardPages is the list of boards to carry out, in order; said stands under
// what waits. with says whether the tail found room on the last page.
func boardPages(s *frame.Sheet, b *stacks.Built, o *order.Order, said []string, end tail) (drafts []frame.Draft, with bool) {
	l := &boardList{s: s, b: b, said: said, boards: boardsOf(b, o), per: 13}
	l.textAt = boardDrawnAt + boardLong/l.per + 4
	l.divide(s.Paper.Height - 90)
	head := frame.Head{
		Title: "Boards to carry out",
		Right: counted(setPots(b), "pot", "pots") + " · " + counted(len(l.boards), "board", "boards") + " of " + s.Near(boardLong),
		Sub:   "Carry in this order. Each level's pots stand on their board before you start.",
	}
	waits := l.waits()
	for i := 0; i < len(l.boards) || len(drafts) == 0; {
		if len(drafts) > 0 {
			head.Sub = "Continued. Carry in this order."
		}
		p := s.Page(head)
		p.Note = "boards drawn " + frame.Scale(l.per)
		y := l.headings(p)
		for first := true; i < len(l.boards); first = false {
			high := l.rowHeight(l.boards[i])
			if y+high > p.Bottom && !first {
				break
			}
			l.row(p, i, y, high)
			y += high
			i++
		}
		if i == len(l.boards) {
			if y+waits+4 > p.Bottom {
				drafts = append(drafts, p.Draft())
				head.Sub = "Continued. Carry in this order."
				p = s.Page(head)
				p.Note = "boards drawn " + frame.Scale(l.per)
				y = p.Top
			}
			if end.high > 0 && y+8+end.high+waits <= p.Bottom {
				l.drawWaits(p, y+8)
				y += 8 + waits
				p.Line(s.Left(), y, s.Right(), y, frame.Cut())
				end.draw(p, y)
				with = true
			} else {
				l.drawWaits(p, math.Max(y+4, p.Bottom-waits))
			}
		}
		drafts = append(drafts, p.Draft())
	}
	return drafts, with
}

// divide makes two boards of one whose list is higher than a page has room for.
func (l *boardList) divide(room float64) {
	var list []board
	for _, b := range l.boards {
		for len(b.parts) > 1 && l.rowHeight(b) > room {
			n := len(b.parts) - 1
			for n > 1 && l.rowHeight(board{b.level, b.parts[:n]}) > room {
				n--
			}
			list = append(list, board{b.level, b.parts[:n]})
			b.parts = b.parts[n:]
		}
		list = append(list, b)
	}
	l.boards = list
}

// headings names the columns and gives the y under their rule.
func (l *boardList) headings(p *frame.Page) float64 {
	x, y := l.s.Left(), p.Top+3
	style := frame.Text(frame.TextSize)
	p.Text(x, y, "Board", style)
	p.Text(x+boardLevelAt, y, "for level", style)
	p.Text(x+boardDrawnAt, y, "stands like this, drawn to scale", style)
	p.Text(x+l.textAt, y, "pots · owner, ticket", style)
	y += 2.2
	p.Line(x, y, l.s.Right(), y, frame.Cut())
	return y
}

// item is a line with a box of a board's list.
type item struct {
	count string
	words string
	after string // on a line of its own: "9 in front, 8 behind"
}

func (l *boardList) items(b board) []item {
	var list []item
	for _, p := range b.parts {
		if p.lot.ware == nil {
			list = append(list, item{words: packWords(p.lot.cones)})
			continue
		}
		n := p.front + p.behind
		it := item{count: fmt.Sprint(n), words: " " + silhouette.Named(n, p.lot.ware.Name)}
		if o := ownerOf(p.lot.ware); o != "" {
			it.words += " · " + o
		}
		if p.behind > 0 {
			it.after = fmt.Sprintf("%d in front, %d behind", p.front, p.behind)
		}
		list = append(list, it)
		if k := standWords(l.b, p.lot, n); k != "" {
			list = append(list, item{words: k})
		}
	}
	return list
}

// packWords is "cone pack 5 6 7".
func packWords(c *layout.ConePack) string {
	words := []string{"cone pack"}
	for _, cone := range c.Cones {
		words = append(words, string(cone))
	}
	return strings.Join(words, " ")
}

// standWords is the cookies or stilts to carry with a lot: "2 cookies".
func standWords(b *stacks.Built, l *lot, n int) string {
	switch kind := b.Pots[l.pots[0]].Body.Stand.Kind; kind {
	case layout.Cookie, layout.Stilt:
		return numbered(n, string(kind))
	case layout.Wads:
		return "wads"
	}
	return ""
}

func (l *boardList) itemLines(it item) [][]drawing.Run {
	width := l.s.Width() - l.textAt - frame.BoxSide - 2.4
	lines := l.s.WrapRuns(width,
		drawing.Run{Words: it.count, Style: frame.Strong(frame.TextSize)}, drawing.Run{Words: it.words, Style: frame.Text(frame.TextSize)})
	if it.after != "" {
		lines = append(lines, []drawing.Run{{Words: it.after, Style: frame.Text(frame.TextSize)}})
	}
	return lines
}

// rowHeight is what the taller of drawing and list needs.
func (l *boardList) rowHeight(b board) float64 {
	lines := 0
	for _, it := range l.items(b) {
		lines += len(l.itemLines(it))
	}
	return math.Max(l.drawnHeight(b), float64(lines)*lead()+3.5)
}

// drawnHeight is what the drawing needs.
func (l *boardList) drawnHeight(b board) float64 {
	tall := 0.0
	for _, p := range b.parts {
		tall = math.Max(tall, p.lot.side.Top)
	}
	return tall/l.per + boardThick + 4.5
}

// row draws board i between y and y + high.
func (l *boardList) row(p *frame.Page, i int, y, high float64) {
	b := l.boards[i]
	x := l.s.Left()
	p.Text(x, y+6.4, fmt.Sprint(i+1), frame.Heavy(frame.PostsSize))
	name := frame.Strong(frame.TextSize)
	for k, line := range l.s.Fonts.Wrap(name, l.s.Say(l.b.Levels[b.level].Name), boardDrawnAt-boardLevelAt-2) {
		p.Text(x+boardLevelAt, y+5.4+float64(k)*lead(), line, name)
	}
	l.plank(p, b, x+boardDrawnAt, y+math.Min(high, math.Max(l.drawnHeight(b), 24))-2)
	at := y + 5.4
	for _, it := range l.items(b) {
		from := p.Tick(x+l.textAt, at, frame.TextSize)
		for _, line := range l.itemLines(it) {
			p.TextRuns(from, at, drawing.Left, line...)
			at += lead()
		}
	}
	p.Line(x, y+high, l.s.Right(), y+high, frame.Hair())
}

// plank draws a board with its pots, the row behind in grey.
func (l *boardList) plank(p *frame.Page, b board, x, bottom float64) {
	top := bottom - boardThick
	p.Rect(x, top, boardLong/l.per, boardThick, frame.Ink())
	p.Group(drawing.Stretch(1/l.per, -1/l.per).Then(drawing.Move(x, top)), func() {
		for _, behind := range []bool{true, false} {
			at := 4.0
			for _, part := range b.parts {
				n, line, shift := part.front, frame.Ink(), 0.0
				if behind {
					n, line, shift = part.behind, frame.Far(), part.lot.wide*0.4
				}
				for k := range n {
					part.lot.side.Draw(p.Pen, at+shift+float64(k)*part.lot.wide-part.lot.side.Min, 0, line)
				}
				at += float64(part.front) * part.lot.wide
			}
		}
	})
}

// waitRuns is what stays, with owners.
func (l *boardList) waitRuns() []drawing.Run {
	_, text := waitWords(l.b, 40)
	if text == "" {
		text = "nothing, everything goes in"
	}
	return []drawing.Run{{Words: "Stays on the shelf, waits: ", Style: frame.Heavy(frame.TextSize)}, {Words: text, Style: frame.Text(frame.TextSize)}}
}

// waitLines are the lines of what stays, and of what is said beside it.
func (l *boardList) waitLines() [][]drawing.Run {
	lines := l.s.WrapRuns(l.s.Width(), l.waitRuns()...)
	for _, says := range l.said {
		lines = append(lines, l.s.WrapRuns(l.s.Width(), drawing.Run{Words: l.s.Say(says), Style: frame.Text(frame.TextSize)})...)
	}
	return lines
}

// waits is the height of what is said about pots that stay, mm.
func (l *boardList) waits() float64 {
	return float64(len(l.waitLines()))*lead() + 4
}

func (l *boardList) drawWaits(p *frame.Page, y float64) {
	p.Line(l.s.Left(), y, l.s.Right(), y, frame.Cut())
	y += 6
	for _, line := range l.waitLines() {
		p.TextRuns(l.s.Left(), y, drawing.Left, line...)
		y += lead()
	}
}
