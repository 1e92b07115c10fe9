package levels

import (
	"threepost/render/drawing"
	"threepost/render/frame"
)

// drawKey tells what letters and lines mean: in the lower corners beside a
// round chamber where there is room, else in lines under the plan. It gives
// the y under all.
func (p *plan) drawKey(bottom float64) float64 {
	kinds, words := p.key()
	text := frame.Text(frame.LegendSize)
	var notes [][]drawing.Run
	for _, w := range words {
		notes = append(notes, []drawing.Run{{Words: w, Style: text}})
	}
	var under []drawing.Run
	if !p.corner(kinds, bottom, drawing.Left) {
		under = append(under, joined(kinds, text)...)
	}
	if !p.corner(notes, bottom, drawing.Right) {
		if len(under) > 0 {
			under = append(under, drawing.Run{Words: " · ", Style: text})
		}
		under = append(under, joined(notes, text)...)
	}
	if len(under) == 0 {
		return bottom + 3
	}
	s := p.page.Sheet
	y := bottom + 4.5
	for i, line := range s.WrapRuns(s.Width(), under...) {
		p.page.TextRuns(s.Left(), y+float64(frame.Leading(frame.LegendSize)*float64(i)), drawing.Left, line...)
		bottom = y + float64(frame.Leading(frame.LegendSize)*float64(i))
	}
	return bottom + 5
}

// joined sets entries in one line with dots between.
func joined(list [][]drawing.Run, text drawing.TextStyle) []drawing.Run {
	var out []drawing.Run
	for i, runs := range list {
		if i > 0 {
			out = append(out, drawing.Run{Words: " · ", Style: text})
		}
		out = append(out, runs...)
	}
	return out
}

// corner sets entries under each other in a lower corner of the plan and says
// whether there was room beside the wall and its clock.
func (p *plan) corner(list [][]drawing.Run, bottom float64, side drawing.Anchor) bool {
	if len(list) == 0 {
		return true
	}
	s := p.page.Sheet
	leading := frame.Leading(frame.LegendSize)
	wide := 0.0
	for _, runs := range list {
		wide = max(wide, s.RunsWidth(runs...))
	}
	high := float64(leading * float64(len(list)))
	x, inner := s.Left(), s.Left()+wide
	if side == drawing.Right {
		x, inner = s.Right(), s.Right()-wide
	}
	if p.b.Chamber.Empty() || p.b.Chamber.Depth(p.view.back(drawing.At(inner, bottom-high))) > -8.5/p.view.scale {
		return false
	}
	here := p.box(p.view.back(drawing.At((x+inner)/2, bottom-high/2)), wide, high)
	for _, b := range p.boxes {
		if here.Distance(b) < 1/p.view.scale {
			return false
		}
	}
	for i, runs := range list {
		p.page.TextRuns(x, bottom-high+float64(leading*float64(i+1))-1, side, runs...)
	}
	return true
}
