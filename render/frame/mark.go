package frame

import (
	"strings"

	"threepost/render/drawing"
)

// BoxSide is the side of a box to tick, mm.
const BoxSide = 3.9

// Tick draws a box to tick before a line of text of a size in pt whose
// baseline is at y, its left side at x, and gives the x where the text starts.
func (p *Page) Tick(x, y, size float64) float64 {
	cap := p.Sheet.Fonts.CapHeight(Text(size))
	p.Checkbox(x, y-cap/2-BoxSide/2, BoxSide)
	return x + BoxSide + 2.4
}

// Cones draws the mark of a cone pack, three tall cones on a foot, width mm
// wide, its foot on the baseline y.
func (p *Page) Cones(x, y, width float64) {
	w, h := width/3, width*0.62
	for i := range 3 {
		at := x + float64(w*float64(i))
		p.Polyline([]drawing.Point{
			drawing.At(at, y), drawing.At(at+float64(w*0.42), y-h), drawing.At(at+float64(w*0.62), y-h), drawing.At(at+w, y),
		}, drawing.Outline(1.1).Rounded())
	}
	p.Line(x, y, x+width, y, drawing.Outline(1.1).Rounded())
}

// Bar draws a black bar with white words in its middle, the top at y, height
// mm high, over the whole width.
func (p *Page) Bar(y, height float64, words string) {
	s := p.Sheet
	p.Rect(s.Left(), y, s.Width(), height, drawing.Solid(drawing.Black))
	style := Strong(LevelSize + 1)
	p.Pen.Text(s.Paper.Width/2, y+height/2+s.Fonts.CapHeight(style)/2, words, style.Held(drawing.Middle).In(drawing.White))
}

// RunsWidth is the length of pieces set one after the other, mm.
func (s *Sheet) RunsWidth(runs ...drawing.Run) float64 {
	w := 0.0
	for _, r := range runs {
		w += s.Fonts.Width(r.Style, r.Words)
	}
	return w
}

// WrapRuns breaks pieces in several styles into lines no longer than width mm,
// at spaces; a no-break space gives way only in what is longer than a line,
// and a word that is longer is broken inside.
func (s *Sheet) WrapRuns(width float64, runs ...drawing.Run) [][]drawing.Run {
	var lines [][]drawing.Run
	var line []drawing.Run
	used := 0.0
	for _, r := range runs {
		for i, word := range s.words(r, width) {
			lead := ""
			if i > 0 && !word.joined {
				lead = " "
			}
			w := s.Fonts.Width(r.Style, lead+word.text)
			if used > 0 && used+w > width && (i > 0 || strings.HasSuffix(lastWords(line), " ")) {
				lines, line, used = append(lines, line), nil, 0
				lead = ""
				w = s.Fonts.Width(r.Style, word.text)
			}
			line = appendRun(line, drawing.Run{Words: lead + word.text, Style: r.Style})
			used += w
		}
	}
	if len(line) > 0 {
		lines = append(lines, line)
	}
	return lines
}

// word is what is not broken; joined tells that no space stands before it.
type word struct {
	text   string
	joined bool
}

func (s *Sheet) words(r drawing.Run, width float64) []word {
	var list []word
	for _, w := range strings.Split(r.Words, " ") {
		if s.Fonts.Width(r.Style, w) <= width {
			list = append(list, word{text: w})
			continue
		}
		for _, part := range strings.Split(w, "\u00a0") {
			for i, piece := range s.Fonts.Wrap(r.Style, part, width) {
				list = append(list, word{piece, i > 0})
			}
		}
	}
	return list
}

func lastWords(line []drawing.Run) string {
	if len(line) == 0 {
		return ""
	}
	return line[len(line)-1].Words
}

// appendRun adds a piece, joined to the last one when the style is the same.
func appendRun(line []drawing.Run, r drawing.Run) []drawing.Run {
	if n := len(line); n > 0 && line[n-1].Style == r.Style {
		line[n-1].Words += r.Words
		return line
	}
	return append(line, r)
}

// Heading draws a heading of a size in pt and gives the y of the next
// baseline of plain text.
func (p *Page) Heading(x, y, size float64, words string) float64 {
	p.Pen.Text(x, y, words, Heavy(size))
	return y + Leading(TextSize) + 1
}
