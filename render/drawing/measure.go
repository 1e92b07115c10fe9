package drawing

// Millimetre per point: 1 pt is 1/72 in.
const mmPerPt = 25.4 / 72

// MM is a length of points in mm.
func MM(pt float64) float64 { return pt * mmPerPt }

// PT is a length of mm in points.
func PT(mm float64) float64 { return mm / mmPerPt }

// Width is the length of a line in mm, from the sum of its advance widths.
func (f *Fonts) Width(s TextStyle, words string) float64 {
	one, sum := f.face(s.Weight), 0
	for _, r := range words {
		sum += one.letter(r).advance
	}
	return round(float64(sum) / unitsPerEm * s.Size * mmPerPt)
}

// CapHeight is the height of a capital H above the baseline, mm: what to
// centre a line by.
func (f *Fonts) CapHeight(s TextStyle) float64 {
	return -f.face(s.Weight).letter('H').ink.min.Y / unitsPerEm * s.Size * mmPerPt
}

// start is where the left end of a text's baseline lies, and the unit step
// along it.
func (t Text) start() (at, along Point) {
	s, c := sinCos(t.Style.Turn)
	back := 0.0
	switch t.Style.Anchor {
	case Middle:
		back = t.Width / 2
	case Right:
		back = t.Width
	}
	return Point{t.At.X - float64(back*c), t.At.Y - float64(back*s)}, Point{c, s}
}

// placing maps thousandths of the type size to the page.
func (t Text) placing() Transform {
	at, _ := t.start()
	return Scale(t.Style.Size * mmPerPt / unitsPerEm).Then(Turn(t.Style.Turn)).Then(Move(at.X, at.Y))
}

// Ink is the box round what a text prints, as four corners in mm: top left,
// top right, bottom right, bottom left as the text reads. Spaces alone print
// nothing: ok is false.
func (f *Fonts) Ink(t Text) (corners [4]Point, ok bool) {
	one, pen := f.face(t.Style.Weight), 0.0
	var all box
	for _, r := range t.Words {
		l := one.letter(r)
		if !l.ink.empty() {
			b := l.ink
			b.min.X += pen
			b.max.X += pen
			all.add(b.min)
			all.add(b.max)
		}
		pen += float64(l.advance)
	}
	if all.empty() {
		return corners, false
	}
	place := t.placing()
	for i, c := range all.corners() {
		corners[i] = place.Apply(c)
	}
	return corners, true
}

// outline is the shape of a text in page mm.
func (f *Fonts) outline(t Text) Path {
	one, pen, place := f.face(t.Style.Weight), 0.0, t.placing()
	var all Path
	for _, r := range t.Words {
		l := one.letter(r)
		all = append(all, l.outline.Apply(Move(pen, 0).Then(place))...)
		pen += float64(l.advance)
	}
	return all
}
