package drawing

// box is an upright rectangle; the zero box is empty.
type box struct {
	min, max Point
	any      bool
}

func (b box) empty() bool { return !b.any }

func (b *box) add(p Point) {
	if !b.any {
		b.min, b.max, b.any = p, p, true
		return
	}
	b.min = Point{min(b.min.X, p.X), min(b.min.Y, p.Y)}
	b.max = Point{max(b.max.X, p.X), max(b.max.Y, p.Y)}
}

// corners are top left, top right, bottom right, bottom left.
func (b box) corners() [4]Point {
	return [4]Point{b.min, {b.max.X, b.min.Y}, b.max, {b.min.X, b.max.Y}}
}

func (b box) meets(c box) bool {
	return b.any && c.any && b.min.X <= c.max.X && c.min.X <= b.max.X && b.min.Y <= c.max.Y && c.min.Y <= b.max.Y
}

func (b box) holds(p Point) bool {
	return b.any && b.min.X <= p.X && p.X <= b.max.X && b.min.Y <= p.Y && p.Y <= b.max.Y
}

func bounds(lines []line) box {
	var b box
	for _, l := range lines {
		for _, p := range l.at {
			b.add(p)
		}
	}
	return b
}

// inside says whether a point lies in the lines, each closed, by the nonzero
// winding rule.
func inside(lines []line, p Point) bool {
	winding := 0
	for _, l := range lines {
		for i, a := range l.at {
			b := l.at[(i+1)%len(l.at)]
			if (a.Y <= p.Y) == (b.Y <= p.Y) {
				continue
			}
			x := a.X + float64((p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
			if x <= p.X {
				continue
			}
			if a.Y < b.Y {
				winding++
			} else {
				winding--
			}
		}
	}
	return winding != 0
}
