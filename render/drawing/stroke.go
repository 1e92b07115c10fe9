package drawing

import "math"

// miterLimit is where pointed corners are cut off, in line widths: the SVG
// default, given to the PDF too.
const miterLimit = 4

// strokeLines turns a line of a width into filled convex pieces, all turning
// the same way, so that filling them together by the nonzero rule paints the
// line once. All lengths are of the unit the points are in.
func strokeLines(lines []line, width float64, round bool, dash []float64) [][]Point {
	var out [][]Point
	for _, l := range dashed(lines, dash) {
		out = strokeLine(out, l, width/2, round)
	}
	return out
}

func strokeLine(out [][]Point, l line, half float64, round bool) [][]Point {
	at := distinct(l)
	if len(at) == 1 {
		if round {
			out = append(out, disc(at[0], half))
		}
		return out
	}
	n := len(at)
	pieces := n - 1
	if l.closed {
		pieces = n
	}
	for i := range pieces {
		a, b := at[i], at[(i+1)%n]
		s := sideways(a, b, half)
		out = append(out, clockwise([]Point{
			{a.X + s.X, a.Y + s.Y}, {b.X + s.X, b.Y + s.Y}, {b.X - s.X, b.Y - s.Y}, {a.X - s.X, a.Y - s.Y}}))
		if i+1 < pieces || l.closed {
			out = append(out, corner(a, b, at[(i+2)%n], half, round)...)
		}
	}
	if round && !l.closed {
		out = append(out, halfDisc(at[0], sideways(at[0], at[1], half)),
			halfDisc(at[n-1], sideways(at[n-1], at[n-2], half)))
	}
	return out
}

// together is how near points are one point to a stroke: a piece between them
// would have no direction.
const together = 1e-6

// distinct drops repeated points.
func distinct(l line) []Point {
	var at []Point
	for _, p := range l.at {
		if len(at) == 0 || distance(at[len(at)-1], p) > together {
			at = append(at, p)
		}
	}
	if l.closed && len(at) > 1 && distance(at[0], at[len(at)-1]) <= together {
		at = at[:len(at)-1]
	}
	return at
}

// sideways is the vector of a length at right angles to a-b.
func sideways(a, b Point, length float64) Point {
	dx, dy := b.X-a.X, b.Y-a.Y
	d := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	return Point{-dy / d * length, dx / d * length}
}

// corner fills the notch outside of the turn a-b-c.
func corner(a, b, c Point, half float64, round bool) [][]Point {
	s, t := sideways(a, b, half), sideways(b, c, half)
	cross := float64(s.X*t.Y) - float64(s.Y*t.X)
	if math.Abs(cross) < 1e-9*half*half {
		if back := float64(s.X*t.X)+float64(s.Y*t.Y) < 0; back && round {
			return [][]Point{halfDisc(b, sideways(b, a, half))}
		}
		return nil
	}
	if cross > 0 { // the notch lies on the other side
		s, t = Point{-s.X, -s.Y}, Point{-t.X, -t.Y}
	}
	notch := []Point{b, {b.X + s.X, b.Y + s.Y}}
	if round {
		notch = append(bend(notch, b, s, t), Point{b.X + t.X, b.Y + t.Y})
		return [][]Point{clockwise(notch)}
	}
	// The miter's tip lies along s + t; its length over half is 1 / cos of
	// half the turn.
	mx, my := s.X+t.X, s.Y+t.Y
	m2 := float64(mx*mx) + float64(my*my)
	if ratio := 2 * half / math.Sqrt(m2); ratio <= miterLimit {
		k := 2 * half * half / m2
		notch = append(notch, Point{b.X + float64(mx*k), b.Y + float64(my*k)})
	}
	notch = append(notch, Point{b.X + t.X, b.Y + t.Y})
	return [][]Point{clockwise(notch)}
}

// bendTolerance is how far round corners may be off, in the points' unit: a
// twentieth of a dot.
const bendTolerance = 0.05

// bend adds the points of the circle about a centre that lie between the
// arms s and t, the short way round.
func bend(at []Point, centre, s, t Point) []Point {
	mx, my := s.X+t.X, s.Y+t.Y
	r2 := float64(s.X*s.X) + float64(s.Y*s.Y)
	m2 := float64(mx*mx) + float64(my*my)
	r, m := math.Sqrt(r2), math.Sqrt(m2)
	// A chord whose middle lies m/2 from the centre cuts off r - m/2.
	if m2 < 1e-12*r2 || r-m/2 <= bendTolerance {
		return at
	}
	mid := Point{mx / m * r, my / m * r}
	at = append(bend(at, centre, s, mid), Point{centre.X + mid.X, centre.Y + mid.Y})
	return bend(at, centre, mid, t)
}

// halfDisc is the round end of a line about a centre: s is an arm sideways of
// the line as it leaves the centre.
func halfDisc(centre, s Point) []Point {
	back, t := Point{-s.Y, s.X}, Point{-s.X, -s.Y}
	at := bend([]Point{{centre.X + s.X, centre.Y + s.Y}}, centre, s, back)
	at = append(at, Point{centre.X + back.X, centre.Y + back.Y})
	at = append(bend(at, centre, back, t), Point{centre.X + t.X, centre.Y + t.Y})
	return clockwise(at)
}

// disc is a many-sided circle.
func disc(c Point, r float64) []Point {
	n := max(8, min(64, int(4*math.Sqrt(r))*4))
	at := make([]Point, n)
	for i := range at {
		at[i] = c.Toward(float64(i)*360/float64(n), r)
	}
	return clockwise(at)
}

// clockwise turns a polygon round if it runs the other way on the page.
func clockwise(at []Point) []Point {
	area := 0.0
	for i, p := range at {
		q := at[(i+1)%len(at)]
		area += float64(p.X*q.Y) - float64(p.Y*q.X)
	}
	if area < 0 {
		for i, j := 0, len(at)-1; i < j; i, j = i+1, j-1 {
			at[i], at[j] = at[j], at[i]
		}
	}
	return at
}

// mostDashes keeps a tiny dash on a long line from filling the memory; such a
// line is drawn whole.
const mostDashes = 100000

// dashed cuts lines into their dashes. Dashes that add up to nothing leave
// the lines whole.
func dashed(lines []line, dash []float64) []line {
	sum, all := 0.0, 0.0
	for _, d := range dash {
		sum += d
	}
	for _, l := range lines {
		all += length(l)
	}
	if len(dash) == 0 || !(sum > 0) || all/sum*float64(len(dash)) > mostDashes {
		return lines
	}
	var out []line
	for _, l := range lines {
		out = dashLine(out, l, dash)
	}
	return out
}

func length(l line) float64 {
	sum := 0.0
	for i := 1; i < len(l.at); i++ {
		sum += distance(l.at[i-1], l.at[i])
	}
	if l.closed && len(l.at) > 1 {
		sum += distance(l.at[len(l.at)-1], l.at[0])
	}
	return sum
}

func distance(a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	return math.Sqrt(float64(dx*dx) + float64(dy*dy))
}

func dashLine(out []line, l line, dash []float64) []line {
	at := l.at
	if l.closed {
		at = append(append([]Point{}, at...), at[0])
	}
	which, left := 0, dash[0]
	now := []Point{at[0]}
	for i := 1; i < len(at); i++ {
		a, b := at[i-1], at[i]
		d := distance(a, b)
		done := 0.0
		for d-done > left {
			done += left
			p := between(a, b, done/d)
			if which%2 == 0 {
				out = append(out, line{at: append(now, p)})
			}
			now = []Point{p}
			which++
			left = dash[which%len(dash)]
			if left == 0 && which%2 == 0 { // a dot
				out = append(out, line{at: []Point{p}})
				which++
				left = dash[which%len(dash)]
			}
		}
		left -= d - done
		now = append(now, b)
	}
	if which%2 == 0 && len(now) > 1 {
		out = append(out, line{at: now})
	}
	return out
}
