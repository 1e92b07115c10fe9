package views

import (
	"math"
	"strconv"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
)

// corner is the name of one level with what it takes, in an upper corner.
type corner struct {
	right      bool
	row        int
	name, line string
	active     bool
	level      int
}

// cornersOf lists the names of the levels, each in the corner on its side.
func (p *plan) cornersOf() []corner {
	var out []corner
	rows := [2]int{}
	for i, v := range p.levels {
		l := &p.b.Levels[v]
		x, _ := p.sideOf(v)
		c := corner{right: x > 1, name: capital(p.e.say(l.Name)), line: p.takesOf(v), active: i == 0, level: v}
		if i > 0 {
			if diff := p.b.Levels[p.o.Level].Top - l.Top; math.Abs(diff) >= 1 {
				word := " lower, "
				if diff < 0 {
					word = " higher, "
				}
				c.line = p.e.near(math.Abs(diff)) + word + c.line
			}
		}
		k := 0
		if c.right {
			k = 1
		}
		c.row = rows[k]
		rows[k]++
		out = append(out, c)
	}
	return out
}

// takesOf is what a level takes: "takes 98", of a full shelf under two sides
// "takes 113 left, 143 right".
func (p *plan) takesOf(v int) string {
	l := &p.b.Levels[v]
	if len(l.Above) < 2 {
		return "takes " + p.e.room(l.Takes)
	}
	list := p.b.TakesEach(v)
	if len(list) > 1 && list[0] != list[len(list)-1] {
		return "takes " + p.e.room(list[0]) + " to " + p.e.room(list[len(list)-1])
	}
	return "takes " + p.e.room(l.Takes)
}

// sideOf is where the middle of a level lies in the drawing, from the
// chamber's middle, px.
func (p *plan) sideOf(v int) (x, y float64) {
	lo, hi := p.b.Chamber.Bounds()
	m := plane.Sub(middleOf(p.b, v), plane.Lerp(lo, hi, 0.5))
	if p.o.Turn != 0 {
		m = plane.Rotate(m, p.o.Turn)
	}
	return m[0], -m[1]
}

// cornerHigh is the height of one name with its line, px.
const cornerHigh = 42

// cornerBoxes are what the names in the corners cover.
func (p *plan) cornerBoxes() []box {
	var out []box
	for _, c := range p.cornersOf() {
		w := math.Max(p.e.width(placeSize, heavy, c.name), p.e.width(noteSize, "", c.line))
		y := float64(c.row * cornerHigh)
		if c.right {
			out = append(out, box{p.o.W - edge - w, y, p.o.W - edge, y + 38})
		} else {
			out = append(out, box{edge, y, edge + w, y + 38})
		}
	}
	return out
}

// corners sets the names of the levels in the upper corners.
func (p *plan) corners() {
	for _, c := range p.cornersOf() {
		x, anchor := float64(edge), "start"
		if c.right {
			x, anchor = p.o.W-edge, "end"
		}
		y := float64(c.row*cornerHigh) + 17
		class := "place"
		if c.active {
			class = "place active"
		}
		p.group(class, levelID(p.b, c.level), c.name, func() {
			p.text(x, y, c.name, "name heavy", anchor, placeSize)
			p.text(x, y+18, c.line, "quiet", anchor, noteSize)
		})
	}
}

// clock sets the hours round the wall, with what lies there: first the figures
// alone that have no words, then those with words, which give way.
func (p *plan) clock() {
	for _, worded := range [...]bool{false, true} {
		for hour := 1; hour <= 12; hour++ {
			if words := p.hourWords(hour); (words != "") == worded {
				p.hour(float64(hour*30%360), strconv.Itoa(hour), words)
			}
		}
	}
}

// hourWords is what stands beside an hour.
func (p *plan) hourWords(hour int) string {
	front := p.b.Load.Kiln.Opens == layout.Front
	var words []string
	switch {
	case hour == 12 && !front:
		words = append(words, "hinge")
	case hour == 12:
		words = append(words, "back")
	case hour == 6 && front:
		words = append(words, "door, you stand here")
	case hour == 6:
		words = append(words, "you stand here")
	}
	near := func(bearing float64) bool {
		return math.Abs(math.Remainder(bearing-float64(hour*30), 360)) <= 8
	}
	for i := range p.b.Probes {
		if q := p.b.Probes[i].Kiln; near(q.At) && p.inStorey(q.Height) {
			words = append(words, "probe")
		}
	}
	for i := range p.b.Spies {
		if q := &p.b.Spies[i]; near(q.Kiln.At) && p.inStorey(q.Height) {
			words = append(words, "spyhole")
		}
	}
	return p.e.say(strings.Join(words, ", "))
}

// hour sets a figure of the clock outside the wall; its words beside it, else
// under or over it, else only the first of them, where there is room.
func (p *plan) hour(bearing float64, figure, words string) {
	x, y := p.wallAt(bearing)
	sin, cos := sinCos(plane.NormalTurn(bearing + p.f.Turn))
	cap := p.e.capital(noteSize)
	cx, cy := x+sin*13, y-cos*13
	if math.Abs(sin) < 0.1 {
		cy = y - cos*(6+cap/2)
	}
	fw := p.e.width(noteSize, strong, figure)
	base := cy + cap/2
	if p.meets(p.e.textBox(cx, base, figure, strong, "middle", noteSize)) {
		return // in a picture so small the hours between go
	}
	first, _, _ := strings.Cut(words, ", ")
	for _, say := range [...]string{words, first} {
		if say == "" {
			break
		}
		ww := p.e.width(noteSize, "", say)
		if math.Abs(sin) < 0.1 {
			left := cx - (fw+5+ww)/2
			if b := (box{left, base - cap, left + fw + 5 + ww, base + 3}); !p.meets(b) && p.within(b) {
				p.text(left, base, figure, "clock strong", "start", noteSize)
				p.text(left+fw+5, base, say, "quiet", "start", noteSize)
				return
			}
		}
		for _, at := range p.wordSpots(cx, base, fw, sin, cos) {
			b := p.e.textBox(at.x, at.y, say, "", at.anchor, noteSize)
			own := box{cx - fw/2, base - cap, cx + fw/2, base}
			if p.within(b) && !p.meets(b) && b.off(own) > 2 && p.clearOfWall(b) {
				p.text(cx, base, figure, "clock strong", "middle", noteSize)
				p.text(at.x, at.y, say, "quiet", at.anchor, noteSize)
				return
			}
		}
	}
	p.text(cx, base, figure, "clock strong", "middle", noteSize)
}

// wordSpot is a place for a text.
type wordSpot struct {
	x, y   float64
	anchor string
}

// wordSpots are places for the words of an hour beside its figure.
func (p *plan) wordSpots(cx, base, fw, sin, cos float64) []wordSpot {
	line := 15.0
	if cos > 0 {
		line = -15
	}
	switch {
	case math.Abs(sin) < 0.1:
		return []wordSpot{{cx, base + line, "middle"}}
	case sin < 0:
		return []wordSpot{{cx - fw/2 - 5, base, "end"}, {edge, base + line, "start"}, {edge, base - line, "start"}}
	}
	return []wordSpot{{cx + fw/2 + 5, base, "start"}, {p.o.W - edge, base + line, "end"}, {p.o.W - edge, base - line, "end"}}
}

// within tells whether a box lies in the picture.
func (p *plan) within(b box) bool { return b.x0 >= 0 && b.y0 >= 0 && b.x1 <= p.o.W && b.y1 <= p.o.H }

// meets tells whether a box comes near a text that is set.
func (p *plan) meets(b box) bool {
	for _, c := range p.boxes {
		if b.off(c) < 3 {
			return true
		}
	}
	return false
}

// clearOfWall tells whether a box keeps outside the chamber.
func (p *plan) clearOfWall(b box) bool {
	return p.b.Chamber.Distance(p.skeletonOf(b))*p.f.Per > 3
}
