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

// pages makes the front page and its continuations.
func (f *front) pages() []frame.Draft {
	views := f.elevations()
	rest := f.sections()
	var drafts []frame.Draft
	for i, v := range views {
		p, y := f.page(len(drafts) > 0)
		last := i == len(views)-1
		room := p.Bottom - y
		var here []section
		used := v.least
		if last {
			for len(rest) > 0 {
				h := f.height(rest[0]) + betweenUp
				if used+h > room {
					break
				}
				used += h
				here, rest = append(here, rest[0]), rest[1:]
			}
		}
		spare := max(0, room-used)
		grow := min(spare, max(0, v.most-v.least))
		spare -= grow
		y += v.draw(p, y, v.least+grow)
		f.stack(p, y, spare, here)
		p.Note = "elevation " + frame.Scale(v.scale(v.least+grow))
		drafts = append(drafts, p.Draft())
	}
	for len(rest) > 0 {
		p, y := f.page(true)
		var here []section
		used := 0.0
		for len(rest) > 0 {
			h := f.height(rest[0]) + betweenUp
			if used+h > p.Bottom-y && len(here) > 0 {
				break
			}
			used += h
			here, rest = append(here, rest[0]), rest[1:]
		}
		f.stack(p, y, min(p.Bottom-y-used, 12), here)
		drafts = append(drafts, p.Draft())
	}
	return drafts
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
	}
	p := f.s.Page(head)
	p.Bar(p.Top+1, barHigh, "Take this paper off before switching on")
	return p, p.Top + 1 + barHigh + 3
}

// sections are what stands under the elevation, in the order in which it may
// go over to a second page.
func (f *front) sections() []section {
	left := []section{f.checklist}
	right := []section{f.rooms, f.waits, f.watches, f.cones}
	list := []section{f.fetch}
	if f.columnHeight(right) > f.columnHeight(left)+32 {
		// Long words run over the whole width, the table stands beside the list.
		list = append(list, f.waits, f.watches)
		right = []section{f.rooms, f.cones}
	}
	list = append(list, f.beside(left, right))
	return append(list, f.cautions, f.signature)
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
			{Words: f.s.Say(" under the " + g.shelf + ", on " + g.letters), Style: frame.Text(frame.TextSize)},
		})
	}
	down := "down: rim to shelf top"
	if lidWord(f.b.Load) == "ceiling" {
		down = "up: hearth to shelf top"
	}
	return append(lines, []drawing.Run{{Words: f.s.Say("posts: on the shelf · " + down), Style: frame.Text(frame.TextSize)}})
}
