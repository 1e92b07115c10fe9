package drawing

// Run is a piece of a line in a style of its own: a bold "224" before a plain " down".
type Run struct {
	Words string
	Style TextStyle
}

// TextRuns sets runs one after the other on one baseline, together held at
// (x, y) by anchor, and gives their length in mm. Each run stays a Text of
// its own. Spaces between runs are part of the words. A run's own anchor is
// not asked; the whole line turns with the first run.
func (p *Pen) TextRuns(x, y float64, anchor Anchor, runs ...Run) float64 {
	all := 0.0
	for _, r := range runs {
		all += p.fonts.Width(r.Style, r.Words)
	}
	done := map[Anchor]float64{Middle: -all / 2, Right: -all}[anchor]
	for _, r := range runs {
		s, c := sinCos(runs[0].Style.Turn)
		dx, dy := p.onPaper(float64(done*c), float64(done*s))
		done += p.Text(x+dx, y+dy, r.Words, r.Style.Held(Left).Turned(runs[0].Style.Turn))
	}
	return all
}

// onPaper gives the step within the group that is (dx, dy) of paper along the
// group's x axis: words keep their size in groups that shrink places.
func (p *Pen) onPaper(dx, dy float64) (x, y float64) {
	d, o := p.to.Apply(Point{1, 0}), p.to.Apply(Point{})
	long := distance(d, o)
	if long == 0 {
		return 0, 0
	}
	// The step on paper, turned like the text, taken back into the group.
	ux, uy := (d.X-o.X)/long, (d.Y-o.Y)/long
	px, py := float64(dx*ux)-float64(dy*uy), float64(dx*uy)+float64(dy*ux)
	t := p.to
	det := float64(t.A*t.D) - float64(t.B*t.C)
	if det == 0 {
		return 0, 0
	}
	return (float64(px*t.D) - float64(py*t.C)) / det, (float64(py*t.A) - float64(px*t.B)) / det
}
