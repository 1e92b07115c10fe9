package views

import (
	"strings"

	"threepost/layout/measure"
	"threepost/render/drawing"
)

// Sizes of type, px. Nothing is smaller than Least.
const (
	Least     = 12 // the least size of any text
	noteSize  = 13
	textSize  = 14
	headSize  = 16
	placeSize = 20 // names of places and levels' numbers
)

// Words of classes that say more than a colour: strong and heavy set a text's
// weight, halo puts a rim of the ground round it.
const (
	strong = "strong" // 600
	heavy  = "heavy"  // 700
	halo   = "halo"
)

// box is an upright rectangle, px.
type box struct{ x0, y0, x1, y1 float64 }

// off is how far two boxes are apart, negative where they overlap.
func (b box) off(c box) float64 {
	x := max(b.x0-c.x1, c.x0-b.x1)
	y := max(b.y0-c.y1, c.y0-b.y1)
	if x > 0 && y > 0 {
		return hypot(x, y)
	}
	return max(x, y)
}

// grown is the box with more room on all sides.
func (b box) grown(by float64) box { return box{b.x0 - by, b.y0 - by, b.x1 + by, b.y1 + by} }

// sketch is a picture in the making: marks in order of painting, and the
// boxes of the texts set so far.
type sketch struct {
	e     *Easel
	marks []Mark
	boxes []box
}

// words says whether a class holds a word.
func has(class, word string) bool {
	for class != "" {
		var one string
		one, class, _ = strings.Cut(class, " ")
		if one == word {
			return true
		}
	}
	return false
}

// weightOf is the weight of type that a class sets.
func weightOf(class string) drawing.Weight {
	switch {
	case has(class, heavy):
		return drawing.Bold
	case has(class, strong):
		return drawing.SemiBold
	}
	return drawing.Regular
}

// width is the length of a text, px.
func (e *Easel) width(size float64, class, words string) float64 {
	return drawing.PT(e.Fonts.Width(drawing.Type(size, weightOf(class)), words))
}

// capital is the height of a capital of a size, px.
func (e *Easel) capital(size float64) float64 {
	return drawing.PT(e.Fonts.CapHeight(drawing.Type(size, drawing.Regular)))
}

// say turns words into the person's trade words.
func (e *Easel) say(words string) string { return e.Words.Say(words) }

// room is a length that must not be promised larger than it is.
func (e *Easel) room(mm float64) string { return measure.FormatLength(mm, e.Units, measure.Down) }

// gap is a gap, rounded down to the grain of posts.
func (e *Easel) gap(mm float64) string {
	return measure.FormatLengthTo(mm, e.Units, measure.Down, measure.PostGrain)
}

// near is a length to the nearest mm or 1/16 in.
func (e *Easel) near(mm float64) string {
	return measure.FormatLengthTo(mm, e.Units, measure.Nearest, measure.PostGrain)
}

// post is the height that a post is called by.
func (e *Easel) post(mm float64) string {
	if e.Units != measure.Inches {
		return measure.FormatFile(mm)
	}
	return e.near(mm)
}

// path adds a path.
func (s *sketch) path(class, d string) {
	if d != "" {
		s.marks = append(s.marks, Mark{Kind: PathKind, D: d, Class: class})
	}
}

// line adds a straight line.
func (s *sketch) line(class string, x1, y1, x2, y2 float64) { s.path(class, linePath(x1, y1, x2, y2)) }

// anchored is how far a text of a width reaches left of its place.
func anchored(anchor string, w float64) float64 {
	switch anchor {
	case "middle":
		return w / 2
	case "end":
		return w
	}
	return 0
}

// textBox is what a text on a baseline covers.
func (e *Easel) textBox(x, y float64, words, class, anchor string, size float64) box {
	w := e.width(size, class, words)
	left := x - anchored(anchor, w)
	b := box{left, y - e.capital(size), left + w, y}
	if strings.ContainsAny(words, "/gjpqy,;()") {
		b.y0, b.y1 = b.y0-size*0.08, b.y1+size*0.22
	}
	return b
}

// text adds a line of text on a baseline, keeps its box and gives its width.
func (s *sketch) text(x, y float64, words, class, anchor string, size float64) float64 {
	if words == "" {
		return 0
	}
	b := s.e.textBox(x, y, words, class, anchor, size)
	s.boxes = append(s.boxes, b)
	s.marks = append(s.marks, textMark(x, y, words, class, anchor, size))
	return b.x1 - b.x0
}

func textMark(x, y float64, words, class, anchor string, size float64) Mark {
	return Mark{Kind: TextKind, X: hundredth(x), Y: hundredth(y), Text: words, Class: class, Anchor: anchor, Size: size}
}

// turned adds a text turned about its middle, degrees clockwise.
func (s *sketch) turned(x, y float64, words, class string, size, turn float64) {
	m := s.e.turnedMark(x, y, words, class, size, turn)
	s.marks = append(s.marks, m)
}

// turnedMark is a text whose middle, halfway up a capital, lies at a place.
func (e *Easel) turnedMark(x, y float64, words, class string, size, turn float64) Mark {
	sin, cos := sinCos(turn)
	half := e.capital(size) / 2
	m := textMark(x-half*sin, y+half*cos, words, class, "middle", size)
	m.Turn = hundredth(turn)
	return m
}

// group adds what draw adds as one group.
func (s *sketch) group(class, id, label string, draw func()) {
	outer := s.marks
	s.marks = nil
	draw()
	inner := s.marks
	s.marks = append(outer, Mark{Kind: GroupKind, Class: class, ID: id, Label: label, Marks: inner})
}

// picture is what was drawn.
func (s *sketch) picture(w, h float64, label string, f Frame) Picture {
	if s.marks == nil {
		s.marks = []Mark{}
	}
	return Picture{W: w, H: h, Label: label, Marks: s.marks, Frame: f}
}

// fit is words, or their beginning and an ellipsis when they are longer than w.
func (e *Easel) fit(words, class string, size, w float64) string {
	if e.width(size, class, words) <= w {
		return words
	}
	runes := []rune(words)
	for n := len(runes) - 1; n > 0; n-- {
		cut := strings.TrimRight(string(runes[:n]), " ·,") + "…"
		if e.width(size, class, cut) <= w {
			return cut
		}
	}
	return ""
}

// wrap breaks words into lines no longer than w.
func (e *Easel) wrap(words, class string, size, w float64) []string {
	return e.Fonts.Wrap(drawing.Type(size, weightOf(class)), words, drawing.MM(w))
}
