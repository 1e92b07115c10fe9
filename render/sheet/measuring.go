package sheet

import (
	"strconv"

	"threepost/layout/measure"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// ruler is how a measuring sheet is divided.
type ruler struct {
	step   float64 // mm between two lines
	bold   int     // every so many steps a thick line with its figure
	ringed int     // figures left and right every so many steps
	figure func(steps int) string
	check  float64 // length of the line to measure, mm
	length string  // as it is called
	apart  string  // "3 apart"
	typed  string
}

// rulerOf: 3 mm, figures every 15; or 1/8 in, figures every half inch.
func rulerOf(units measure.Units) ruler {
	if units == measure.Inches {
		return ruler{
			step: 25.4 / 8, bold: 4, ringed: 8, check: 4 * 25.4, length: "4 in", apart: "1/8 in apart", typed: "12 mugs 3 7/8 × 3 1/2",
			figure: func(n int) string {
				text := measure.FormatLength(float64(n)*25.4/8, measure.Inches, measure.Nearest)
				switch { // the font's own fractions read at a glance
				case text == "1/2":
					return "½"
				case len(text) > 4 && text[len(text)-4:] == " 1/2":
					return text[:len(text)-4] + "½"
				}
				return text
			},
		}
	}
	return ruler{
		step: 3, bold: 5, ringed: 10, check: 100, length: "100 mm", apart: "3 mm apart", typed: "12 mugs 96 × 87",
		figure: func(n int) string { return strconv.Itoa(3 * n) },
	}
}

// Where things stand on a measuring sheet, mm.
const (
	scaleStrip = 24 // width of the upright scale at the right
	smallest   = 30 // first ring
)

// measuring is the measuring sheet: rings to stand a pot on, and an upright
// scale to fold up behind it. It is printed at 100 %.
func measuring(s *frame.Sheet) *frame.Page {
	p := scalePage{s.Bare("How wide, how high")}
	r := rulerOf(s.Units)
	p.Text(s.Left(), frame.Margin+6.2, "How wide, how high", frame.Heavy(frame.TitleSize))
	p.upright(r)
	width := s.Width() - scaleStrip - 2
	radius := width / 2
	top := frame.Margin + 13.0
	p.rings(r, drawing.At(s.Left()+radius, top+radius), radius)
	p.advice(r, top+2*radius+9, width-2)
	return p.Page
}

// scalePage draws on a bare page.
type scalePage struct{ *frame.Page }

// rings draws a ring for every step and a figure on every bold one.
func (p scalePage) rings(r ruler, at drawing.Point, most float64) {
	last := int(most * 2 / r.step)
	first := int(smallest/r.step + 0.5)
	for n := first; n <= last; n++ {
		line := frame.Hair()
		if n%r.bold == 0 {
			line = frame.Ink()
		}
		p.Circle(at.X, at.Y, float64(n)*r.step/2, line)
	}
	p.Line(at.X-5, at.Y, at.X+5, at.Y, frame.Hair())
	p.Line(at.X, at.Y-5, at.X, at.Y+5, frame.Hair())
	style := frame.Strong(frame.TextSize).Held(drawing.Middle)
	cap := p.Sheet.Fonts.CapHeight(style)
	for n := first; n <= last; n++ {
		if n%r.bold != 0 {
			continue
		}
		d := float64(n) * r.step / 2
		if d > most-2 {
			continue
		}
		places := []drawing.Point{drawing.At(at.X, at.Y-d), drawing.At(at.X, at.Y+d)}
		words := r.figure(n)
		w := p.TextWidth(words, style) + 1.2
		if n%r.ringed == 0 && d+w/2 < most {
			places = append(places, drawing.At(at.X-d, at.Y), drawing.At(at.X+d, at.Y))
		}
		for _, q := range places {
			p.Rect(q.X-w/2, q.Y-cap/2-0.7, w, cap+1.4, drawing.Solid(drawing.White))
			p.Text(q.X, q.Y+cap/2, words, style)
		}
	}
}

// upright draws the scale that is folded up, its foot at the lower margin.
func (p scalePage) upright(r ruler) {
	s := p.Sheet
	fold := s.Right() - 12
	foot := s.Paper.Height - frame.Margin
	steps := int((foot - frame.Margin - 4) / r.step)
	p.Line(fold, foot, fold, foot-float64(steps)*r.step, frame.Ink())
	p.Line(s.Right()-scaleStrip+1, foot, s.Right(), foot, frame.Cut())
	style := frame.Strong(frame.TextSize)
	cap := s.Fonts.CapHeight(style)
	for n := 1; n <= steps; n++ {
		y := foot - float64(n)*r.step
		if n%r.bold == 0 {
			p.Line(fold-9, y, fold, y, frame.Ink())
			p.Text(fold+2, y+cap/2, r.figure(n), style)
			continue
		}
		p.Line(fold-4.5, y, fold, y, frame.Hair())
	}
}

// advice says how to measure, and draws the line that tells whether the paper
// was printed at its true size.
func (p scalePage) advice(r ruler, y, width float64) {
	s := p.Sheet
	x := s.Left()
	plain, strong := frame.Text(frame.TextSize), frame.Heavy(frame.TextSize)
	for _, part := range [][2]string{
		{"Across.", "Stand the pot in the middle, eye straight above it. The first ring you see all the way round is its size. A warped rim counts at its widest."},
		{"High.", "Cut on the thick base line, fold on the long line, stand it up behind the pot. Lay a card flat across the rim and read where it touches."},
		{"Always up to the next line:", "lines stand " + r.apart + ". Type the largest of the series. With a lid on, to the top of the knob."},
	} {
		for _, line := range s.WrapRuns(width, drawing.Run{Words: part[0] + " ", Style: strong}, drawing.Run{Words: part[1], Style: plain}) {
			p.TextRuns(x, y, drawing.Left, line...)
			y += lead()
		}
		y += 1.2
	}
	p.TextRuns(x, y+1, drawing.Left, drawing.Run{Words: r.typed, Style: strong}, drawing.Run{Words: "  is height first, then across.", Style: plain})
	base := s.Paper.Height - frame.Margin - 2
	p.Text(x, base-4, "Measure this line: "+r.length+". If not, print again at 100 %.", plain)
	p.Line(x, base, x+r.check, base, frame.Ink())
	for _, at := range []float64{x, x + r.check} {
		p.Line(at, base-2, at, base+2, frame.Ink())
	}
}
