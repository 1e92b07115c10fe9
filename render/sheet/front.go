package sheet

import (
	"threepost/layout/clearance"
	"threepost/layout/stacks"
	"threepost/layout/statics"
	"threepost/render/drawing"
	"threepost/render/elevation"
	"threepost/render/frame"
)

// front is the front page, or pages, being made.
type front struct {
	s       *frame.Sheet
	b       *stacks.Built
	report  clearance.Report
	weights *statics.Weights // may be nil
	columns []column
	said    []string  // beside the plan
	handed  []string  // of these, what the board list tells, since a second page would be too dear
	boards  bool      // there is a board list
	wide    bool      // said over the whole width
	tight   bool      // headings stand in the line, so that all goes on one page
	brief   bool      // labels count the pots, so that all goes on one page
	later   []section // what goes on the next page
	// elsewhere: the board list tells what is looked at before the lid closes.
	elsewhere bool
	closing   []section // of that, what is looked at before the lid closes; the board list may tell it
}

// section draws a part of the page at (x, y) over width mm and gives the
// height it took, mm.
type section func(p *frame.Page, x, y, width float64) float64

// Distances on the front page, mm.
const (
	barHigh   = 9
	betweenUp = 2.5 // least white between two sections
	gutter    = 8   // between the two columns of a section
)

// pages makes the front page: all on one when it goes, if need be with brief
// labels, else what is looked at before the lid closes is left for later.
func (f *front) pages() []frame.Draft {
	views := f.elevations()
	if !f.goesOnOne(views) {
		f.brief = true
		if views = f.elevations(); !f.goesOnOne(views) {
			f.brief = false
			views = f.elevations()
		}
	}
	var drafts []frame.Draft
	for i, v := range views {
		p, y := f.page(len(drafts) > 0)
		room := p.Bottom - y
		var here []section
		if i == len(views)-1 {
			if !f.fits(room-v.least) && !f.hand(room-v.least) {
				here, f.later = f.split(room - v.least)
			} else {
				here = f.onePage()
			}
		}
		spare := max(0, room-v.least-f.heights(here))
		grow := min(spare, max(0, v.most-v.least))
		note := v.scale(v.least + grow)
		y += v.draw(p, y, v.least+grow)
		f.stack(p, y, spare-grow, here)
		p.Note = "elevation " + frame.Scale(note)
		drafts = append(drafts, p.Draft())
	}
	return drafts
}

// goesOnOne says whether all goes on one page under the views.
func (f *front) goesOnOne(views []view) bool {
	if len(views) != 1 {
		return false
	}
	said, handed := f.said, f.handed
	room := f.room(false) - views[0].least
	ok := f.fits(room) || f.hand(room)
	f.said, f.handed = said, handed
	return ok
}

// tail is what is looked at before the lid closes, where that alone found no
// room.
func (f *front) tail() tail {
	if len(f.closing) == 0 {
		return tail{}
	}
	return tail{f.heights(f.closing), func(p *frame.Page, y float64) { f.stack(p, y, 0, f.closing) }}
}

// continued makes the pages of what is left for later.
func (f *front) continued() []frame.Draft {
	var drafts []frame.Draft
	for rest := f.later; len(rest) > 0; {
		p, y := f.page(true)
		n := f.fill(rest, p.Bottom-y)
		f.stack(p, y, min(p.Bottom-y-f.heights(rest[:n]), 12), rest[:n])
		drafts = append(drafts, p.Draft())
		rest = rest[n:]
	}
	return drafts
}

// fits sets how the sections stand so that they go on one page in so much room:
// loose, then tight, each first with what is said beside the plan under what
// waits, then over the whole width, where it takes fewer lines. It tells
// whether they go at all.
func (f *front) fits(room float64) bool {
	for _, f.tight = range [...]bool{false, true} {
		for _, f.wide = range [...]bool{false, true} {
			if f.heights(f.onePage()) <= room {
				return true
			}
			if len(f.said) == 0 {
				break
			}
		}
	}
	f.tight, f.wide = false, false
	return false
}

// hand gives what is said beside the plan to the board list where only that
// stands between the front and one page; it tells whether it did.
func (f *front) hand(room float64) bool {
	said := f.said
	if !f.boards || len(said) == 0 {
		return false
	}
	if f.said = nil; f.fits(room) {
		f.handed = said
		return true
	}
	f.said = said
	return false
}

// onePage are the sections under the elevation when all goes on one page.
func (f *front) onePage() []section {
	right := []section{f.rooms, f.waits, f.watches, f.cones}
	signed := []section{f.checklist, f.signature}
	list := []section{f.fetch, f.beside(signed, right), f.cautions}
	if max(f.columnHeight(right), f.columnHeight(signed[:1]))+9 < f.columnHeight(signed) {
		list = []section{f.fetch, f.beside([]section{f.checklist}, right), f.cautions, f.signature}
	}
	if f.wide {
		list = append(list[:2:2], append([]section{f.sentences}, list[2:]...)...)
	}
	return list
}

// split shares the sections out on two pages: what to know while loading,
// then what to look at before the lid closes.
func (f *front) split(room float64) (here, later []section) {
	loading := []section{f.fetch, f.beside([]section{f.rooms, f.waits}, []section{f.watches})}
	if f.columnHeight([]section{f.watches}) > 60 || f.columnHeight([]section{f.waits}) > 60 {
		loading = []section{f.fetch, f.rooms, f.waits, f.watches}
	}
	n := 0
	for n < len(loading) && f.heights(loading[:n+1]) <= room {
		n++
	}
	closing := []section{f.beside([]section{f.checklist}, []section{f.cones, f.signature}), f.cautions}
	if n == len(loading) {
		f.closing = closing
		if f.elsewhere && f.heights(append(loading, f.pointer)) <= room {
			return append(loading, f.pointer), nil
		}
	}
	return loading[:n], append(loading[n:len(loading):len(loading)], closing...)
}

// pointer says where the checklist stands.
func (f *front) pointer(p *frame.Page, x, y, width float64) float64 {
	y += lead()
	p.TextRuns(x, y, drawing.Left,
		drawing.Run{Words: "Before the " + closing(f.b.Load) + " closes: ", Style: frame.Heavy(frame.TextSize)},
		drawing.Run{Words: "the checks stand under the last boards.", Style: frame.Text(frame.TextSize)})
	return lead() + 1
}

// fill is how many sections go on a page with so much room, at least one.
func (f *front) fill(list []section, room float64) int {
	n := 1
	for n < len(list) && f.heights(list[:n+1]) <= room {
		n++
	}
	return n
}

// heights is how high sections are under each other, mm.
func (f *front) heights(list []section) float64 {
	sum := 0.0
	for _, draw := range list {
		sum += f.height(draw) + betweenUp
	}
	return sum
}

// stack draws sections under each other, the spare height between them.
func (f *front) stack(p *frame.Page, y, spare float64, list []section) {
	for _, draw := range list {
		y += betweenUp + min(spare/float64(len(list)), 5)
		y += draw(p, f.s.Left(), y, f.s.Width())
	}
}

// height is how high a section is over the whole width, mm.
func (f *front) height(draw section) float64 {
	return draw(f.s.Bare(""), f.s.Left(), 0, f.s.Width())
}

// page starts a front page with its bar and gives the y under it.
func (f *front) page(continued bool) (*frame.Page, float64) {
	head := headOf(f.s, f.b)
	if continued {
		head.SubRight = "continued"
		right := f.s.Fonts.Width(frame.Heavy(frame.TitleSize), head.Right)
		if room := f.s.Width() - right - 9; room > 30 {
			head.Title = f.s.Fit(head.Title, frame.Heavy(frame.TitleSize), room)
		}
	}
	p := f.s.Page(head)
	p.Bar(p.Top, barHigh, "Take this paper off before switching on")
	return p, p.Top + barHigh + 3
}

func (f *front) columnWidth() float64 { return (f.s.Width() - gutter) / 2 }

func (f *front) columnHeight(list []section) float64 {
	scratch, y := f.s.Bare(""), 0.0
	for _, draw := range list {
		y += draw(scratch, 0, y, f.columnWidth())
	}
	return y
}

// beside is a section of two columns.
func (f *front) beside(left, right []section) section {
	return func(p *frame.Page, x, y, width float64) float64 {
		w := (width - gutter) / 2
		high := 0.0
		for i, list := range [][]section{left, right} {
			at, sum := x+float64(i)*(w+gutter), 0.0
			for _, draw := range list {
				sum += draw(p, at, y+sum, w)
			}
			high = max(high, sum)
		}
		return high
	}
}

// view is an elevation with the labels that a page has room for.
type view struct {
	least, most float64 // height, mm
	draw        func(p *frame.Page, y, height float64) float64
	scale       func(height float64) float64
}

// elevationOptions are those of the paper.
func (f *front) elevationOptions() elevation.Options {
	return elevation.Options{Figure: f.s.Post, Letters: true, Size: frame.TextSize}
}

// notes are the words under an elevation.
func (f *front) notes() [][]drawing.Run {
	var lines [][]drawing.Run
	for _, g := range floorPosts(f.b) {
		lines = append(lines, []drawing.Run{
			{Words: f.s.Posts(g.count, g.makeUp), Style: frame.Heavy(frame.LevelSize)},
			{Words: f.s.Say(" under " + series(g.under) + ", on " + letterWords(g.letters)), Style: frame.Text(frame.TextSize)},
		})
	}
	down := "down: rim to shelf top"
	if lidWord(f.b.Load) == "ceiling" {
		down = "up: hearth to shelf top"
	}
	return append(lines, []drawing.Run{{Words: f.s.Say("posts: on the shelf · " + down), Style: frame.Text(frame.TextSize)}})
}
