package views

import (
	"math"
	"strconv"
	"strings"

	"threepost/layout"
)

// ElevationOptions say what an elevation shows.
type ElevationOptions struct {
	W, H     float64 // px
	Compact  bool    // only numbers and what each level takes; so under 400 px in any case
	Active   int     // into Built.Levels; -1: none
	Chosen   string  // the chosen pot, "mug 3"; "": none
	NoHandle bool    // without the bar to drag a shelf by
}

// compactUnder is the width, px, under which an elevation is compact.
const compactUnder = 400

// Elevation draws the kiln cut through from left to right, both sides to one
// scale, with what every level takes beside its shelf and the room to the lid
// inside. The bar by which a shelf is dragged lies on the shelf over the
// active level, or on that of the level itself when nothing is over it.
//
// Ids: level:TOWER:N on labels and rooms, shelf:TOWER:N on shelves,
// handle:TOWER:N on the bar, post:LETTER:TOWER:N by the level it carries,
// pot:NAME and cones:NAME.
func (e *Easel) Elevation(s Subject, o ElevationOptions) Picture {
	d := newSection(e, s)
	d.compact = o.Compact || o.W < compactUnder
	d.chosen = o.Chosen
	d.gather(o.Active, d.split())
	caption := ""
	if d.compact && len(d.b.Levels) > 0 {
		caption = "Figures at the shelves: the tallest pot each takes."
	}
	lay := d.layOut(o.W, o.H, caption)
	d.brick()
	d.wash(o.Active)
	d.hits()
	d.pots()
	d.probes()
	d.tallest(o.Active)
	d.shelves()
	d.posts()
	d.roomsToLid()
	if !o.NoHandle {
		d.handle(d.handleOf(o.Active))
	}
	d.finish(lay)
	return d.picture(o.W, o.H, "The kiln from the front", d.f)
}

// laid is where what surrounds the kiln lies.
type laid struct {
	x0, x1              float64 // ends of the hairlines
	leadLeft, leadRight float64
	titles              float64 // baseline; 0: none
	letters             float64
	caption             []string
	captionAt           float64
}

// Distances round an elevation, px.
const (
	edge       = 1  // half of the widest line
	besideKiln = 8  // from a label to the wall
	titleHigh  = 22 // the line of titles
	letterHigh = 18 // the line of letters
	leadWide   = 16 // leaders of labels that were spread
	widest     = 40 // how much wider than needed columns of labels are
)

// layOut sets the frame so that kiln, labels, titles and letters go into w x h.
func (d *section) layOut(w, h float64, caption string) laid {
	lay := laid{x0: edge, x1: w - edge}
	top := float64(edge)
	if d.split() && !d.compactTitles(w) {
		lay.titles = top + d.e.capital(textSize) + 2
		top += titleHigh
	}
	bottom := h - edge - letterHigh
	if caption != "" {
		lay.caption = d.e.wrap(d.e.say(caption), "", noteSize, w-2*edge)
		bottom -= 12 + 17*float64(len(lay.caption))
	}
	left, right := d.columns()
	if left > 0 {
		left += besideKiln
	}
	if right > 0 {
		right += besideKiln
	}
	for range 3 {
		free := w - 2*edge - left - right - lay.leadLeft - lay.leadRight
		d.place(edge+left+lay.leadLeft, top, math.Max(free, 40), math.Max(bottom-top, 40))
		o := d.outer()
		lay.fit(o, left, right, w)
		foot := math.Max(o.y1, math.Min(bottom, o.y1+40))
		a, b := d.spread(false, top, foot), d.spread(true, top, foot)
		again := false
		if a && lay.leadLeft == 0 {
			lay.leadLeft, again = leadWide, true
		}
		if b && lay.leadRight == 0 {
			lay.leadRight, again = leadWide, true
		}
		if !again {
			break
		}
	}
	o := d.outer()
	lay.letters = o.y1 + 5 + d.e.capital(noteSize)
	lay.captionAt = lay.letters + 12 + 17
	return lay
}

// fit draws the ends of the hairlines nearer when the kiln is narrower than
// the room.
func (lay *laid) fit(o box, left, right, w float64) {
	lay.x0, lay.x1 = edge, w-edge
	if left > 0 {
		lay.x0 = math.Max(edge, o.x0-lay.leadLeft-left-widest)
	} else {
		lay.x0 = o.x0
	}
	if right > 0 {
		lay.x1 = math.Min(w-edge, o.x1+lay.leadRight+right+widest)
	} else {
		lay.x1 = o.x1
	}
}

// compactTitles tells whether two titles do not go beside each other.
func (d *section) compactTitles(w float64) bool {
	sum := 0.0
	for t := range d.b.Towers {
		if d.sides[t] != 0 {
			sum += d.e.width(textSize, strong, capital(d.b.Towers[t].Name)) + 16
		}
	}
	return len(d.b.Towers) < 4 && sum > w
}

// finish sets all texts round the kiln.
func (d *section) finish(lay laid) {
	if lay.titles > 0 {
		d.titles(lay.x0, lay.x1, lay.titles)
	}
	d.write(lay.x0, lay.x1, lay.leadLeft, lay.leadRight)
	d.lineLetters(lay.letters)
	for i, line := range lay.caption {
		d.text(lay.x0, lay.captionAt+17*float64(i), line, "quiet", "start", noteSize)
	}
}

// handleOf is the level whose shelf carries the bar: the one over the active
// level in its tower, else the active one; -1: none.
func (d *section) handleOf(active int) int {
	if active < 0 || active >= len(d.b.Levels) {
		return -1
	}
	l := &d.b.Levels[active]
	tower := d.b.Towers[l.Tower].Levels
	if l.Number < len(tower) {
		return tower[l.Number]
	}
	return active
}

// handle draws the bar by which a shelf is dragged.
func (d *section) handle(v int) {
	if v < 0 {
		return
	}
	l := &d.b.Levels[v]
	x0, x1 := spanOf(d.b, v)
	w, h := math.Min(52, (x1-x0)*d.f.Per/3), math.Max((l.Top-l.Bottom)*d.f.Per, 10)
	x, y := d.x((x0+x1)/2), (d.y(l.Top)+d.y(l.Bottom))/2
	d.group("handle", placeID("handle", d.b, v), "Drag the shelf of "+l.Name, func() {
		d.path("bar", rectPath(x-w/2, y-h/2, w, h))
		d.line("grip", x-w/5, y-1.8, x+w/5, y-1.8)
		d.line("grip", x-w/5, y+1.8, x+w/5, y+1.8)
	})
}

// roomsToLid draws the room between the tallest pot of every top level and
// the lid.
func (d *section) roomsToLid() {
	for v := range d.b.Levels {
		if !d.b.Levels[v].UnderLid {
			continue
		}
		x, z := d.tallestOn(v)
		words := d.e.room(math.Max(d.b.Height-z, 0))
		if !d.compact {
			words += " to " + ceilingWord(d.b)
		}
		class := "room strong halo"
		if d.lidGrade(v) > layout.Note {
			class += gradeClass(d.lidGrade(v))
		}
		x0, x1 := spanOf(d.b, v)
		d.dimension(x, z, x0, x1, words, class)
	}
}

// lidGrade is what is found of a level's room to the lid.
func (d *section) lidGrade(v int) layout.Grade {
	l := &d.b.Levels[v]
	most := layout.Note
	for i := range d.s.Findings {
		f := &d.s.Findings[i]
		if f.Rule != layout.RoomToLid || f.Accepted != "" {
			continue
		}
		for _, t := range f.Things {
			if (t.Tower == d.b.Towers[l.Tower].Name && t.Level == l.Number) || d.stands(t.Name, v) {
				most = max(most, f.Grade)
			}
		}
	}
	return most
}

// stands tells whether a pot of a name stands on a level.
func (d *section) stands(name string, v int) bool {
	for _, i := range d.b.Levels[v].Pots {
		if name != "" && d.b.Pots[i].Pot.String() == name {
			return true
		}
	}
	return false
}

// tallestOn is where the tallest pot of a level reaches: of equal ones the one
// nearest to the middle of the kiln's left half of it. Without a pot it is the
// shelf.
func (d *section) tallestOn(v int) (x, z float64) {
	l := &d.b.Levels[v]
	x0, x1 := spanOf(d.b, v)
	want := x0 + (x1-x0)*0.4
	x, z = want, l.Top
	for _, i := range l.Pots {
		p := &d.b.Pots[i]
		top := p.Solid.Top()
		if top > z+0.5 || (top > z-0.5 && math.Abs(p.At[0]-want) < math.Abs(x-want)) {
			x, z = p.At[0], math.Max(top, z)
		}
	}
	return x, z
}

// dimension draws the length from z0 up to the lid at x (mm) with its words
// beside it, over the level's own span from x0 to x1 where that has room.
func (d *section) dimension(x, z0, x0, x1 float64, words, class string) {
	z1 := d.b.Height
	px, y0, y1 := d.x(x), d.y(z0), d.y(z1)
	t := new(trace).move(px-4, y0).line(px+4, y0).move(px, y0).line(px, y1).move(px-4, y1).line(px+4, y1)
	if z1 > z0 {
		d.path("measure", string(*t))
	}
	cap := d.e.capital(noteSize)
	base := (y0+y1)/2 + cap/2
	if y0-y1 > 60 {
		base = y1 + 12 + cap
	}
	base = math.Max(base, y1+3+cap)
	short, _, _ := strings.Cut(words, " to ")
	own := box{d.x(x0) - 2, y1, d.x(x1) + 2, d.y(0)}
	all := box{d.x(d.left) + 3, y1, d.x(d.right) - 3, d.y(0)}
	for _, in := range [...]box{own, all} {
		for _, say := range [...]string{words, short} {
			if d.beside(px, base, say, class, in) {
				return
			}
		}
	}
}

// beside sets words beside a length at the first of some places that is free,
// within a box, and tells whether there was one.
func (d *section) beside(x, base float64, words, class string, in box) bool {
	for _, down := range [...]float64{0, 17, 34} {
		for _, anchor := range [...]string{"start", "end", "middle"} {
			at := x + 7
			switch anchor {
			case "end":
				at = x - 7
			case "middle": // on the line, which its halo breaks
				at = math.Max(in.x0+d.e.width(noteSize, class, words)/2+1, x)
				at = math.Min(in.x1-d.e.width(noteSize, class, words)/2-1, at)
			}
			b := d.e.textBox(at, base+down, words, class, anchor, noteSize)
			if b.x0 < in.x0 || b.x1 > in.x1 || b.y1 > in.y1 {
				continue
			}
			free := true
			for _, c := range d.boxes {
				free = free && b.off(c) >= 3
			}
			if free {
				d.text(at, base+down, words, class, anchor, noteSize)
				return true
			}
		}
	}
	return false
}

func counted(n int) string { return strconv.Itoa(n) }
