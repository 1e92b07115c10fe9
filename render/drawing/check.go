package drawing

import (
	"fmt"
	"math"
)

// Rules say what Check asks of a page. The zero value asks only that texts
// stay on the page, are not cut, do not overlap and have their glyphs.
type Rules struct {
	Margin   float64 // no text nearer to the page's edges, mm
	Smallest float64 // no text smaller, pt
	Apart    float64 // inked boxes of two texts at least so far apart, mm; 0 is "do not overlap"
	Covered  bool    // nothing painted later, a halo neither, hides a text
	Struck   bool    // no visible line runs through a text, but for lines under its halo
}

// Kind is what is wrong with a text.
type Kind string

// What Check finds.
const (
	Overlap  Kind = "overlap"   // two texts overlap, or stand closer than Apart
	Outside  Kind = "outside"   // a text crosses the page's margin
	CutOff   Kind = "cut"       // a clip cuts a text
	TooSmall Kind = "too small" // below the smallest size
	NoGlyph  Kind = "no glyph"  // a letter that the font does not have
	Covered  Kind = "covered"   // something painted later hides it
	Struck   Kind = "struck"    // a line runs through it
)

// Complaint is one thing wrong with a text of a page.
type Complaint struct {
	Kind  Kind
	Text  Text
	Other string  // the other text, the letter, or where; may be empty
	Have  float64 // mm, or pt for TooSmall; negative is an overlap
	Need  float64
}

// String is the complaint as a line to read in a failed test.
func (c Complaint) String() string {
	out := fmt.Sprintf("%s: %q at %s, %s", c.Kind, c.Text.Words, hundredth(c.Text.At.X), hundredth(c.Text.At.Y))
	if c.Other != "" {
		out += " with " + c.Other
	}
	if c.Have != c.Need {
		out += fmt.Sprintf(" (have %s, need %s)", hundredth(c.Have), hundredth(c.Need))
	}
	return out
}

// touching is what counts as touching, mm: a thousandth of a letter's height.
const touching = 0.01

// printed is a thing on the page with what is needed to compare it.
type printed struct {
	order int
	clips [][]line
	box   box

	text Text
	ink  [4]Point

	lines []line // of a shape
	style Style
}

// Check finds what is wrong with the texts of a page: each pair, each text.
// Texts are judged by the box round their ink, turned with them.
func Check(fonts *Fonts, page Page, rules Rules) []Complaint {
	var out []Complaint
	texts, shapes := gather(fonts, page)
	for i, t := range texts {
		out = append(out, checkAlone(fonts, page, rules, t)...)
		for _, u := range texts[:i] {
			have, halo := apart(t, u), MM(t.text.Style.Halo)
			switch {
			case have < rules.Apart-touching:
				out = append(out, Complaint{Overlap, t.text, fmt.Sprintf("%q", u.text.Words), have, rules.Apart})
			case rules.Covered && have < halo-touching:
				out = append(out, Complaint{Covered, u.text, fmt.Sprintf("the halo of %q", t.text.Words), have, halo})
			}
		}
		for _, s := range shapes {
			if rules.Covered && covers(s, t) {
				out = append(out, Complaint{Kind: Covered, Text: t.text, Other: placeOf(s)})
			}
			if rules.Struck && strikes(s, t, shapes) {
				out = append(out, Complaint{Kind: Struck, Text: t.text, Other: placeOf(s)})
			}
		}
	}
	return out
}

func placeOf(s printed) string {
	return fmt.Sprintf("the shape at %s, %s to %s, %s", hundredth(s.box.min.X), hundredth(s.box.min.Y),
		hundredth(s.box.max.X), hundredth(s.box.max.Y))
}

// gather lists texts with ink and shapes in order of painting.
func gather(fonts *Fonts, page Page) (texts, shapes []printed) {
	order := 0
	walk(page.Items, nil, func(item Item, clips []Clip) {
		p := printed{order: order}
		order++
		for _, c := range clips {
			p.clips = append(p.clips, flatten(c.Path, touching))
		}
		switch item := item.(type) {
		case Text:
			ink, ok := fonts.Ink(item)
			if !ok {
				return
			}
			p.text, p.ink = item, ink
			for _, c := range ink {
				p.box.add(c)
			}
			texts = append(texts, p)
		case Shape:
			p.lines, p.style = flatten(item.Path, touching), item.Style
			p.box = bounds(p.lines)
			shapes = append(shapes, p)
		}
	})
	return texts, shapes
}

// checkAlone judges a text by itself.
func checkAlone(fonts *Fonts, page Page, rules Rules, t printed) []Complaint {
	var out []Complaint
	b := t.box
	room := min(b.min.X, b.min.Y, page.Width-b.max.X, page.Height-b.max.Y)
	if room < rules.Margin-touching {
		out = append(out, Complaint{Outside, t.text, "", room, rules.Margin})
	}
	if t.text.Style.Size < rules.Smallest-1e-9 {
		out = append(out, Complaint{TooSmall, t.text, "", t.text.Style.Size, rules.Smallest})
	}
	for _, r := range t.text.Words {
		if !fonts.HasGlyph(r) {
			out = append(out, Complaint{Kind: NoGlyph, Text: t.text, Other: fmt.Sprintf("%q", r)})
		}
	}
	for _, clip := range t.clips {
		for _, c := range samples(t.ink) {
			if !inside(clip, c) {
				out = append(out, Complaint{Kind: CutOff, Text: t.text, Other: placeOf(printed{box: bounds(clip)})})
				break
			}
		}
	}
	return out
}

// samples are points spread over a turned box, its corners drawn in by a
// little so that a text that just touches an edge is not blamed.
func samples(q [4]Point) []Point {
	const across, down = 12, 3
	var out []Point
	for i := range across + 1 {
		u := clampShare(float64(i)/across, 0.005)
		top, bottom := between(q[0], q[1], u), between(q[3], q[2], u)
		for j := range down + 1 {
			out = append(out, between(top, bottom, clampShare(float64(j)/down, 0.01)))
		}
	}
	return out
}

func clampShare(v, edge float64) float64 { return max(edge, min(1-edge, v)) }

// apart is the distance of two turned boxes, mm, negative when they overlap:
// the largest separation over the edge normals of both. Corner to corner it
// is a lower bound of the distance.
func apart(a, b printed) float64 {
	best := math.Inf(-1)
	for _, pair := range [2][2][4]Point{{a.ink, b.ink}, {b.ink, a.ink}} {
		for i, p := range pair[0] {
			q := pair[0][(i+1)%4]
			// The corners run clockwise on the page, so the outside of the
			// edge p-q lies along (dy, -dx).
			nx, ny := q.Y-p.Y, p.X-q.X
			length := math.Sqrt(float64(nx*nx) + float64(ny*ny))
			if length == 0 {
				continue
			}
			nearest := math.Inf(1)
			for _, c := range pair[1] {
				nearest = min(nearest, (float64((c.X-p.X)*nx)+float64((c.Y-p.Y)*ny))/length)
			}
			best = max(best, nearest)
		}
	}
	return best
}

// covers says whether a later fill hides part of a text.
func covers(s, t printed) bool {
	if s.order < t.order || s.style.Fill == None || !s.box.meets(t.box) {
		return false
	}
	for _, p := range samples(t.ink) {
		if paints(s, p) {
			return true
		}
	}
	return false
}

// paints says whether a shape's fill shows at a point.
func paints(s printed, p Point) bool {
	if s.style.Fill == None || !s.box.holds(p) || !inside(s.lines, p) {
		return false
	}
	return shows(s, p)
}

// shows says whether the clips of a thing let a point through.
func shows(s printed, p Point) bool {
	for _, clip := range s.clips {
		if !inside(clip, p) {
			return false
		}
	}
	return true
}

// strikes says whether a shape's line runs through a text where it can be
// seen: not under the text's halo, not hidden by a fill between the two.
func strikes(s, t printed, shapes []printed) bool {
	if s.style.Stroke == None || !s.box.meets(t.box) {
		return false
	}
	under := s.order < t.order
	if under && t.text.Style.Halo > 0 {
		return false
	}
	for _, l := range s.lines {
		for i, a := range l.at {
			if i == len(l.at)-1 && !l.closed {
				break
			}
			for _, p := range through(a, l.at[(i+1)%len(l.at)], t.ink) {
				if shows(s, p) && !(under && hidden(s, t, shapes, p)) {
					return true
				}
			}
		}
	}
	return false
}

// hidden says whether a fill painted after the line and before the text lies
// over a point.
func hidden(s, t printed, shapes []printed, p Point) bool {
	for _, over := range shapes {
		// A shape's own fill lies under its line.
		if over.order > s.order && over.order < t.order && paints(over, p) {
			return true
		}
	}
	return false
}

// through gives points of the piece of a-b that runs inside a turned box, or
// none. Touching the box is not running through it.
func through(a, b Point, q [4]Point) []Point {
	from, to := 0.0, 1.0
	for i, p := range q {
		n := q[(i+1)%4]
		nx, ny := n.Y-p.Y, p.X-n.X
		length := math.Sqrt(float64(nx*nx) + float64(ny*ny))
		if length == 0 {
			return nil
		}
		da := (float64((a.X-p.X)*nx)+float64((a.Y-p.Y)*ny))/length + touching
		db := (float64((b.X-p.X)*nx)+float64((b.Y-p.Y)*ny))/length + touching
		switch {
		case da >= 0 && db >= 0:
			return nil
		case da >= 0:
			from = max(from, da/(da-db))
		case db >= 0:
			to = min(to, da/(da-db))
		}
	}
	if from >= to {
		return nil
	}
	return []Point{between(a, b, from+(to-from)*0.1), between(a, b, (from+to)/2), between(a, b, from+(to-from)*0.9)}
}
