package sheet

import (
	"fmt"
	"strings"

	"threepost/layout"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// mostWatches is how many findings the front page tells; the rest are counted.
const mostWatches = 5

// rooms draws the room to the lid, large, and over what it is.
func (f *front) rooms(p *frame.Page, x, y, width float64) float64 {
	top := y
	big, text := roomWords(f.s, f.b, lidRooms(f.columns))
	style := frame.Heavy(frame.TitleSize)
	for _, line := range f.s.Fonts.Wrap(style, big, width) {
		y += frame.Leading(frame.TitleSize) * 0.8
		p.Text(x, y, line, style)
		y += frame.Leading(frame.TitleSize) * 0.2
	}
	y += lead() * 0.75
	y += p.TextWrapped(x, y, width, lead(), text, frame.Text(frame.TextSize))
	return y - lead()*0.5 - top
}

// paragraph draws a heading and a text under it.
func (f *front) paragraph(p *frame.Page, x, y, width float64, heading, text string) float64 {
	top := y
	if f.tight && text != "" {
		y += lead()
		lines := f.s.WrapRuns(width,
			drawing.Run{Words: f.s.Say(heading) + ". ", Style: frame.Heavy(frame.TextSize)}, drawing.Run{Words: f.s.Say(text), Style: frame.Text(frame.TextSize)})
		for i, line := range lines {
			p.TextRuns(x, y+lead()*float64(i), drawing.Left, line...)
		}
		return y + lead()*float64(len(lines)-1) + 1.6 - top
	}
	y += frame.Leading(frame.HeadSize) * 0.8
	p.Text(x, y, f.s.Say(heading), frame.Heavy(frame.HeadSize))
	if text != "" {
		y += lead() + 0.6
		y += p.TextWrapped(x, y, width, lead(), f.s.Say(text), frame.Text(frame.TextSize)) - lead()
	}
	return y + 2 - top
}

// waits draws what stays on the table, with owner and ticket, and what is said
// beside the plan, each on a line of its own.
func (f *front) waits(p *frame.Page, x, y, width float64) float64 {
	top := y
	heading, text := waitWords(f.b, 12)
	y += f.paragraph(p, x, y, width, heading, text)
	if !f.wide {
		y += f.sentences(p, x, y, width)
	}
	return y - top
}

// sentences draws what is said beside the plan, each on a line of its own.
func (f *front) sentences(p *frame.Page, x, y, width float64) float64 {
	top := y
	for _, says := range f.said {
		y += lead() - 1
		y += p.TextWrapped(x, y, width, lead(), f.s.Say(says), frame.Text(frame.TextSize)) - lead() + 2
	}
	return y - top
}

// waitWords says what waits, at most most rows of it.
func waitWords(b *stacks.Built, most int) (heading, text string) {
	list := waitingOf(b)
	if len(list) == 0 {
		return "Waits: none", ""
	}
	n := 0
	var words []string
	for _, w := range list {
		n += w.count
		words = append(words, w.say())
	}
	if len(words) > most {
		words = append(words[:most-1], counted(len(words)-most+1, "kind more", "kinds more"))
	}
	return fmt.Sprintf("Waits: %d", n), strings.Join(words, ", ")
}

// told is a finding as the front page tells it.
type told struct{ sentence, reason string }

// say is the sentence, with the reason for which it was accepted.
func (t told) say() string {
	if t.reason == "" {
		return t.sentence
	}
	return t.sentence + " “" + strings.TrimSuffix(t.reason, ".") + ".”"
}

// watchList picks the findings to tell: problems, then open watches, then
// accepted ones with their reason; left is how many are not told.
func (f *front) watchList() (list []told, left int) {
	var open, accepted []told
	for _, found := range f.report.Findings {
		t := told{found.Sentence, found.Accepted}
		switch {
		case found.Grade < layout.Watch:
		case t.reason != "" && found.Grade == layout.Watch:
			accepted = append(accepted, t)
		default:
			open = append(open, told{sentence: t.sentence})
		}
	}
	list = append(open, accepted...)
	if len(list) > mostWatches {
		left = len(list) - mostWatches
		list = list[:mostWatches]
	}
	return list, left
}

// watchHeading counts what was found.
func (f *front) watchHeading() string {
	r := f.report
	if r.Problems > 0 {
		text := frame.Capital(counted(r.Problems, "problem", "problems"))
		if n := r.Watches + r.Accepted; n > 0 {
			text += ", " + counted(n, "watch", "watches")
		}
		return text
	}
	switch {
	case r.Watches > 0 && r.Accepted > 0:
		return fmt.Sprintf("Watches: %d, %d accepted", r.Watches+r.Accepted, r.Accepted)
	case r.Accepted > 0:
		return fmt.Sprintf("Watches: %d, accepted", r.Accepted)
	case r.Watches > 0:
		return fmt.Sprintf("Watches: %d", r.Watches)
	}
	return "Watches: none"
}

// watches draws problems and watches, at most five.
func (f *front) watches(p *frame.Page, x, y, width float64) float64 {
	top := y
	list, left := f.watchList()
	if f.tight && len(list) == 1 {
		return f.paragraph(p, x, y, width, f.watchHeading(), list[0].say())
	}
	y += f.paragraph(p, x, y, width, f.watchHeading(), "") - 2
	y += 0.6
	style := frame.Text(frame.TextSize)
	for i, t := range list {
		words := f.s.Say(t.say())
		if i > 0 {
			y += 0.8
		}
		y += p.TextWrapped(x, y+lead(), width, lead(), words, style)
	}
	if left > 0 {
		y += lead() + 0.8
		p.Text(x, y, fmt.Sprintf("And %d more: see the check.", left), style)
	}
	return y + 2 - top
}

// cautions draws what can hurt, in the width of the page.
func (f *front) cautions(p *frame.Page, x, y, width float64) float64 {
	top := y
	runs := []drawing.Run{{Words: "Cautions. ", Style: frame.Heavy(frame.TextSize)}, {Words: f.s.Say(cautionWords(f.s, f.b)), Style: frame.Text(frame.TextSize)}}
	y += lead() * 0.8
	for i, line := range f.s.WrapRuns(width, runs...) {
		if i > 0 {
			y += lead()
		}
		p.TextRuns(x, y, drawing.Left, line...)
	}
	return y + 2 - top
}

// cautionWords: heat, lifting, electricity, dust, opening hot; the kiln's own
// manual comes first. The figures are common practice: makers ask for 305 to
// 457 mm to what burns, the outside passes 100 C, ware is opened below 100 C.
func cautionWords(s *frame.Sheet, b *stacks.Built) string {
	heaviest := 0.0
	for i := range b.Shelves {
		heaviest = max(heaviest, b.Shelves[i].Mass)
	}
	lift := "Lift close to the body"
	if heaviest > 0 {
		lift += "; a shelf is " + s.Mass(heaviest)
	}
	return "The outside passes " + s.Heat(100) + ": nothing that burns within " + s.Size(457) + "\u00a0" + shortUnit(s) + ". " + lift +
		". Power off while hands are inside; an electrician wires. Wipe dust wet, it holds silica." +
		" Open below " + s.Heat(100) + ". Manual, local codes and licensed people come first."
}

func shortUnit(s *frame.Sheet) string {
	if s.Unit() == "mm" {
		return "mm"
	}
	return "in"
}

// coneRow is a row of the table in which the cones are written.
type coneRow struct {
	name  string
	cones []string
}

// coneRows lists the packs in the kiln, or one row to write the firing's
// cones when there is no pack.
func coneRows(s *frame.Sheet, b *stacks.Built) []coneRow {
	var rows []coneRow
	for i := range b.Pots {
		p := &b.Pots[i]
		if p.Cones == nil {
			continue
		}
		name := b.Levels[p.Level].Name
		if h := holeOf(b, p); h != "" {
			name += ", at " + h
		}
		row := coneRow{name: s.Say(name)}
		for _, c := range p.Cones.Cones {
			row.cones = append(row.cones, string(c))
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		row := coneRow{name: "where:"}
		for _, c := range b.Load.Firing.Cone.Pack() {
			row.cones = append(row.cones, string(c))
		}
		rows = append(rows, row)
	}
	return rows
}

// cones draws a table to write how far each cone went.
func (f *front) cones(p *frame.Page, x, y, width float64) float64 {
	const high = 6.8
	rows := coneRows(f.s, f.b)
	columns, alike := 1, true
	for _, r := range rows {
		columns = max(columns, len(r.cones))
		alike = alike && strings.Join(r.cones, " ") == strings.Join(rows[0].cones, " ")
	}
	style := frame.Text(frame.TextSize)
	first := width * 0.38
	for _, r := range rows {
		first = max(first, min(f.s.Fonts.Width(style, r.name)+4, width*0.55))
	}
	each := (width - first) / float64(columns)
	top := y + 2
	base := func(row int) float64 { return top + high*float64(row) + high/2 + f.s.Fonts.CapHeight(style)/2 }
	total := len(rows) + 1
	for i := 0; i <= total; i++ {
		p.Line(x, top+high*float64(i), x+width, top+high*float64(i), frame.Hair())
	}
	for i := 0; i <= columns; i++ {
		at := x + first + each*float64(i)
		p.Line(at, top, at, top+high*float64(total), frame.Hair())
	}
	p.Line(x, top, x, top+high*float64(total), frame.Hair())
	p.Text(x+2, base(0), "Cones", frame.Strong(frame.TextSize))
	for r, row := range rows {
		p.Text(x+2, base(r+1), f.s.Fit(row.name, style, first-3), style)
		for i, c := range row.cones {
			at := x + first + each*float64(i) + 2
			switch {
			case !alike:
				p.Text(at, base(r+1), c, frame.Strong(frame.TextSize))
			case r == 0:
				p.Text(at, base(0), c, frame.Strong(frame.TextSize))
			}
		}
	}
	return top + high*float64(total) + 1 - y
}

// signature draws the lines on which is written who set and switched on.
func (f *front) signature(p *frame.Page, x, y, width float64) float64 {
	rows := [][]blank{{{"Set by", 1}}, {{"Switched on by", 1}}, {{"at", 0.5}, {"off", 0.5}}}
	if width > 120 {
		rows = [][]blank{{{"Set by", 0.32}, {"Switched on by", 0.36}, {"at", 0.16}, {"off", 0.16}}}
	}
	style := frame.Text(frame.TextSize)
	top := y
	for _, row := range rows {
		y += 7
		at := x
		for i, b := range row {
			end := at + width*b.share
			used := p.Text(at, y, b.words, style)
			to := end
			if i < len(row)-1 {
				to -= 3
			}
			p.Line(at+used+1.5, y+0.6, to, y+0.6, frame.Hair())
			at = end
		}
	}
	return y + 2 - top
}

// blank is a word with a line after it to write on, over a share of the width.
type blank struct {
	words string
	share float64
}
