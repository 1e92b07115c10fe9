package levels

import (
	"strings"

	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/steps"
)

// Measures of a legend, mm.
const (
	boxRoom   = 6.4 // from a row's left to its label
	labelGap  = 2.6 // from a label to its sentence
	labelMost = 17  // a label this long or longer is wrapped
	headHigh  = 9.2 // heading of a legend with its rule
)

// setting is how close the lines of a legend stand.
type setting struct {
	pad     float64 // white over and under the lines of a row, together, mm
	leading float64 // from line to line, mm
}

// loose is the usual setting.
func loose() setting { return setting{1.7, frame.Leading(frame.LegendSize)} }

// tight keeps the size of the type and spares a page for the end of a legend.
func tight() setting { return setting{1, 0.9 * frame.Leading(frame.LegendSize)} }

// row is a step set in lines.
type row struct {
	label  []string
	lines  [][]drawing.Run
	high   float64
	indent float64 // from the row's left to its sentence
	set    setting
}

// table is the legend of a level, or what is left of it.
type table struct {
	name  string
	takes string
	rows  []row
	going bool // it goes on from an earlier column or page
	bare  bool // it goes on beside its own beginning: no heading
}

// tableOf sets the legend of a level in a column width mm wide.
func tableOf(s *frame.Sheet, l *steps.Level, takes string, width float64, set setting) table {
	t := table{name: l.Name, takes: takes}
	label, text := frame.Strong(frame.LegendSize), frame.Text(frame.LegendSize)
	indent := 0.0
	for i := range l.Steps {
		indent = max(indent, min(labelMost, s.Fonts.Width(label, l.Steps[i].Label)))
	}
	indent += boxRoom + labelGap
	for i := range l.Steps {
		st := &l.Steps[i]
		r := row{
			label:  s.Fonts.Wrap(label, s.Say(st.Label), indent-boxRoom-labelGap+0.01),
			lines:  s.WrapRuns(width-indent, runsOf(st, text)...),
			indent: indent,
			set:    set,
		}
		r.high = float64(set.leading*float64(max(len(r.label), len(r.lines)))) + set.pad
		t.rows = append(t.rows, r)
	}
	return t
}

// runsOf is a step's sentence with its figures set stronger.
func runsOf(st *steps.Step, text drawing.TextStyle) []drawing.Run {
	strong := text
	strong.Weight = drawing.Bold
	var runs []drawing.Run
	rest := st.Sentence
	for _, figure := range st.Figures {
		at := strings.Index(rest, figure)
		if at < 0 {
			continue
		}
		if at > 0 {
			runs = append(runs, drawing.Run{Words: rest[:at], Style: text})
		}
		runs = append(runs, drawing.Run{Words: figure, Style: strong})
		rest = rest[at+len(figure):]
	}
	if rest != "" {
		runs = append(runs, drawing.Run{Words: rest, Style: text})
	}
	return runs
}

// height is how high the table is, heading included.
func (t *table) height() float64 {
	h := float64(headHigh)
	for i := range t.rows {
		h += t.rows[i].high
	}
	return h
}

// take splits off the rows that fit into a height, heading included; at least
// the heading and one row where force is set. The rest goes on elsewhere.
func (t *table) take(high float64, force bool) table {
	used, n := float64(headHigh), 0
	for n < len(t.rows) && (used+t.rows[n].high <= high+1e-9 || (force && n == 0)) {
		used += t.rows[n].high
		n++
	}
	part := *t
	part.rows = t.rows[:n]
	t.rows = t.rows[n:]
	if n > 0 {
		t.going = true
	}
	return part
}

// draw draws the table with its top left corner at (x, y) and gives the y
// under it.
func (t *table) draw(p *frame.Page, x, y, width float64) float64 {
	if len(t.rows) == 0 {
		return y
	}
	head := frame.Heavy(frame.LevelSize)
	base := y + p.Sheet.Fonts.CapHeight(head) + 0.6
	if !t.bare {
		p.Text(x, base, t.name, head)
	}
	if t.takes != "" && !t.going {
		p.Text(x+width, base, t.takes, frame.Text(frame.LegendSize).Held(drawing.Right))
	}
	y += headHigh - 1.6
	p.Line(x, y, x+width, y, drawing.Outline(1.4))
	y += 0.4
	for i := range t.rows {
		y = t.rows[i].draw(p, x, y, width)
	}
	return y
}

// draw draws a row and the hairline under it.
func (r *row) draw(p *frame.Page, x, y, width float64) float64 {
	label, text := frame.Strong(frame.LegendSize), frame.Text(frame.LegendSize)
	cap := p.Sheet.Fonts.CapHeight(text)
	leading := r.set.leading
	base := y + r.set.pad/2 + (leading+cap)/2
	p.Checkbox(x, base-cap/2-frame.BoxSide/2, frame.BoxSide)
	for i, line := range r.label {
		p.Text(x+boxRoom, base+float64(leading*float64(i)), line, label)
	}
	for i, line := range r.lines {
		p.TextRuns(x+r.indent, base+float64(leading*float64(i)), drawing.Left, line...)
	}
	y += r.high
	p.Line(x, y, x+width, y, drawing.Outline(0.5).Coloured(frame.FarInk))
	return y
}
