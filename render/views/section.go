package views

import (
	"math"
	"sort"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
	"threepost/render/elevation"
)

// How much of wall, lid and floor is drawn, px.
const (
	wallShown = 11
	lidShown  = 20
)

// section is an elevation being drawn.
type section struct {
	*sketch
	s     Subject
	b     *stacks.Built
	f     Frame // x and z
	left  float64
	right float64 // x of the walls, mm
	lid   float64 // px of roof shown

	compact bool
	grade   map[string]layout.Grade
	chosen  string
	sides   []int // of each tower: -1 left, 0 the whole width, 1 right
	labels  []*label
}

// newSection measures a load for an elevation; its frame is set later.
func newSection(e *Easel, s Subject) *section {
	lo, hi := s.Built.Chamber.Bounds()
	d := &section{sketch: &sketch{e: e}, s: s, b: s.Built, left: lo[0], right: hi[0], lid: lidShown, grade: grades(s)}
	if s.Built.Load.Kiln.Opens == layout.Front {
		d.lid = wallShown
	}
	d.sides = sidesOf(s.Built)
	return d
}

// x and y are where a place of the kiln lies in the picture.
func (d *section) x(mm float64) float64 { return d.f.X0 + mm*d.f.Per }
func (d *section) y(mm float64) float64 { return d.f.Y0 - mm*d.f.Per }

// spanOf is how far the shelves of a level reach, mm.
func spanOf(b *stacks.Built, v int) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for _, s := range b.Levels[v].Shelves {
		lo, hi := b.Shelves[s].Outline.Bounds()
		from, to = math.Min(from, lo[0]), math.Max(to, hi[0])
	}
	if from > to {
		return 0, 0
	}
	return from, to
}

// middleOf is the middle of a level's shelves seen from above, mm.
func middleOf(b *stacks.Built, v int) plane.Vec {
	lo, hi := plane.Vec{math.Inf(1), math.Inf(1)}, plane.Vec{math.Inf(-1), math.Inf(-1)}
	for _, s := range b.Levels[v].Shelves {
		l, h := b.Shelves[s].Outline.Bounds()
		lo = plane.Vec{math.Min(lo[0], l[0]), math.Min(lo[1], l[1])}
		hi = plane.Vec{math.Max(hi[0], h[0]), math.Max(hi[1], h[1])}
	}
	if lo[0] > hi[0] {
		return plane.Vec{}
	}
	return plane.Lerp(lo, hi, 0.5)
}

// sidesOf tells of each tower on which side its labels stand: towers that
// stand beside each other left and right; of towers before and behind each
// other the front one left; all others the whole width.
func sidesOf(b *stacks.Built) []int {
	lo, hi := b.Chamber.Bounds()
	mid, part := (lo[0]+hi[0])/2, (hi[0]-lo[0])*0.08
	sides := make([]int, len(b.Towers))
	for t := range b.Towers {
		if len(b.Towers[t].Levels) == 0 {
			continue
		}
		switch at := middleOf(b, b.Towers[t].Levels[0]); {
		case at[0] < mid-part:
			sides[t] = -1
		case at[0] > mid+part:
			sides[t] = 1
		}
	}
	for t := range b.Towers {
		for u := range b.Towers {
			if t == u || sides[t] != 0 || sides[u] != 0 || !sideBySide(b, t, u) {
				continue
			}
			y, z := middleOf(b, b.Towers[t].Levels[0])[1], middleOf(b, b.Towers[u].Levels[0])[1]
			if y < z {
				sides[t], sides[u] = -1, 1
			} else {
				sides[t], sides[u] = 1, -1
			}
		}
	}
	return sides
}

// sideBySide tells whether two towers stand on one height beside each other.
func sideBySide(b *stacks.Built, t, u int) bool {
	one, other := &b.Towers[t], &b.Towers[u]
	if len(one.Levels) == 0 || len(other.Levels) == 0 {
		return false
	}
	return math.Abs(one.Base-other.Base) < 1 && math.Abs(middleOf(b, one.Levels[0])[1]-middleOf(b, other.Levels[0])[1]) > 1
}

// split tells whether any two towers stand beside each other.
func (d *section) split() bool {
	for _, s := range d.sides {
		if s != 0 {
			return true
		}
	}
	return false
}

// place sets the frame so that the chamber's section fills a box of px.
func (d *section) place(x, y, w, h float64) {
	wide, high := d.right-d.left, d.b.Height
	per := math.Min((w-2*wallShown)/math.Max(wide, 1), (h-wallShown-d.lid)/math.Max(high, 1))
	per = math.Max(per, 0.001)
	d.f = Frame{Per: per}
	d.f.X0 = hundredth(x + w/2 - (d.left+d.right)/2*per)
	d.f.Y0 = hundredth(y + d.lid + high*per)
}

// outer is the outer box of the kiln, px.
func (d *section) outer() box {
	return box{d.x(d.left) - wallShown, d.y(d.b.Height) - d.lid, d.x(d.right) + wallShown, d.y(0) + wallShown}
}

// brick draws wall, lid and floor, cut and hatched, and the room inside.
func (d *section) brick() {
	o := d.outer()
	in := box{d.x(d.left), d.y(d.b.Height), d.x(d.right), d.y(0)}
	d.path("chamber", rectPath(in.x0, in.y0, in.x1-in.x0, in.y1-in.y0))
	ring := new(trace).rect(o.x0, o.y0, o.x1-o.x0, o.y1-o.y0)
	ring.move(in.x0, in.y0).line(in.x0, in.y1).line(in.x1, in.y1).line(in.x1, in.y0).close()
	d.path("brick", string(*ring))
	d.path("cut", rectPath(o.x0, o.y0, o.x1-o.x0, o.y1-o.y0))
	d.path("cut", rectPath(in.x0, in.y0, in.x1-in.x0, in.y1-in.y0))
	if d.b.Load.Kiln.Opens != layout.Front {
		d.line("cut", o.x0, in.y0, o.x1, in.y0)
	}
	for i := range d.b.Spies {
		d.spy(&d.b.Spies[i], o, in)
	}
}

// spy draws a spyhole that lies to the side as a gap in the wall.
func (d *section) spy(s *stacks.Spy, o, in box) {
	if math.Abs(s.Inward[0]) < 0.7 {
		return
	}
	across := s.Kiln.Diameter
	if across == 0 {
		across = 19
	}
	x0, x1 := o.x0, in.x0
	if s.Mouth[0] > (d.left+d.right)/2 {
		x0, x1 = in.x1, o.x1
	}
	d.path("spy", rectPath(x0, d.y(s.Height+across/2), x1-x0, across*d.f.Per))
}

// storey is one part of a level's room: under one shelf, or under the lid.
type storey struct {
	level    int
	x0, x1   float64 // mm
	from, to float64 // z of the level's underside and of what ends it
	floor    float64 // z where the pots stand
	takes    float64
	above    int // the level over it; -1: the lid
}

// storeys are the parts of a level's room, one for each level over it.
func (d *section) storeys(v int) []storey {
	l := &d.b.Levels[v]
	x0, x1 := spanOf(d.b, v)
	if d.sides[l.Tower] <= 0 {
		x0 = d.left
	}
	if d.sides[l.Tower] >= 0 {
		x1 = d.right
	}
	if d.behind(l.Tower) {
		x0, x1 = d.left, d.right
	}
	whole := storey{level: v, x0: x0, x1: x1, from: l.Bottom, floor: l.Top, to: l.Ceiling, takes: l.Takes, above: -1}
	if len(l.Above) == 1 {
		whole.above = l.Above[0]
	}
	if len(l.Above) < 2 {
		return []storey{whole}
	}
	var out []storey
	for _, a := range l.Above {
		one := whole
		one.above, one.to, one.takes = a, d.b.Levels[a].Bottom, d.b.TakesUnder(v, a)
		switch d.sides[d.b.Levels[a].Tower] {
		case -1:
			_, one.x1 = spanOf(d.b, a)
		case 1:
			one.x0, _ = spanOf(d.b, a)
		}
		out = append(out, one)
	}
	return out
}

// behind tells whether a tower stands before or behind another, so that both
// are as wide as the kiln.
func (d *section) behind(t int) bool {
	if len(d.b.Towers[t].Levels) == 0 {
		return false
	}
	x0, x1 := spanOf(d.b, d.b.Towers[t].Levels[0])
	return x1-x0 > (d.right-d.left)*0.7
}

// hits draws what a pointer meets between the pots: each level's room.
func (d *section) hits() {
	for v := range d.b.Levels {
		name := capital(d.b.Levels[v].Name)
		t := new(trace)
		for _, r := range d.storeys(v) {
			t.rect(d.x(r.x0), d.y(r.to), (r.x1-r.x0)*d.f.Per, (r.to-r.from)*d.f.Per)
		}
		d.marks = append(d.marks, Mark{Kind: PathKind, D: string(*t), Class: "hit", ID: levelID(d.b, v),
			Label: name + ", takes " + d.e.room(d.b.Levels[v].Takes)})
	}
}

// wash colours the active level's room.
func (d *section) wash(v int) {
	if v < 0 || v >= len(d.b.Levels) {
		return
	}
	for _, r := range d.storeys(v) {
		d.path("wash", rectPath(d.x(r.x0), d.y(r.to), (r.x1-r.x0)*d.f.Per, (r.to-r.from)*d.f.Per))
	}
}

// tallest draws the dashed line up to which the active level takes a pot.
func (d *section) tallest(v int) {
	if v < 0 || v >= len(d.b.Levels) {
		return
	}
	for _, r := range d.storeys(v) {
		if r.takes > 0 {
			d.line("tallest", d.x(r.x0), d.y(r.floor+r.takes), d.x(r.x1), d.y(r.floor+r.takes))
		}
	}
}

// pots draws the ware from the back to the front; the chosen pot last.
func (d *section) pots() {
	order := make([]int, len(d.b.Pots))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool {
		p, q := &d.b.Pots[order[i]], &d.b.Pots[order[j]]
		if a, b := d.isChosen(p), d.isChosen(q); a != b {
			return b
		}
		return p.At[1] > q.At[1]
	})
	type key struct {
		kind int
		turn float64
	}
	known := map[key]*elevation.Silhouette{}
	for _, i := range order {
		p := &d.b.Pots[i]
		k := key{p.Kind, p.Turn}
		if !p.Body.Turns {
			k.turn = 0
		}
		s := known[k]
		if s == nil {
			made := elevation.Of(p)
			s, known[k] = &made, &made
		}
		d.pot(p, s)
	}
}

func (d *section) isChosen(p *stacks.Pot) bool { return d.chosen != "" && p.Pot.String() == d.chosen }

// pot draws one pot as a group.
func (d *section) pot(p *stacks.Pot, s *elevation.Silhouette) {
	class := "pot near"
	if p.At[1] > 0 {
		class = "pot far"
	}
	grade := d.grade[p.Pot.String()]
	switch {
	case d.isChosen(p):
		class = "pot chosen"
	default:
		class += gradeClass(grade)
	}
	d.group(class, PotID(p), p.Pot.String(), func() {
		to := mapped(d.x(p.At[0]), d.y(p.Z), d.f.Per)
		for _, piece := range s.Pieces() {
			d.path("ware", string(*new(trace).drawn(piece, to)))
		}
		if grade > layout.Note && !d.isChosen(p) {
			for _, piece := range s.Pieces() {
				d.path("hatch"+gradeClass(grade), string(*new(trace).drawn(piece, to)))
			}
		}
	})
}

// probes draws a probe as the tube it is, from outside the wall to its tip.
func (d *section) probes() {
	for i := range d.b.Probes {
		p := &d.b.Probes[i]
		r := p.Kiln.Diameter / 2
		x0, x1 := math.Min(p.Inner[0], p.Tip[0])-r, math.Max(p.Inner[0], p.Tip[0])+r
		y := d.y(p.Kiln.Height)
		if x1-x0 < 3*r {
			d.path("probe", circlePath(d.x((x0+x1)/2), y, math.Max(r*d.f.Per, 2)))
			continue
		}
		from, to := d.x(x0), d.x(x1)
		if p.Inner[0] < p.Tip[0] {
			from = math.Min(from, d.x(d.left)) - wallShown - 6
		} else {
			to = math.Max(to, d.x(d.right)) + wallShown + 6
		}
		h := math.Min(math.Max(2*r*d.f.Per, 3), 6)
		d.path("probe", rectPath(from, y-h/2, to-from, h))
	}
}

// shelves draws every shelf.
func (d *section) shelves() {
	for v := range d.b.Levels {
		d.group("shelf", shelfID(d.b, v), "Shelf of "+d.b.Levels[v].Name, func() {
			for _, i := range d.b.Levels[v].Shelves {
				s := &d.b.Shelves[i]
				lo, hi := s.Outline.Bounds()
				d.path("slab", rectPath(d.x(lo[0]), d.y(s.Top), (hi[0]-lo[0])*d.f.Per, (s.Top-s.Bottom)*d.f.Per))
			}
		})
	}
}

// posts draws the posts of the lines that are seen, over the ware so that
// their figures can be read.
func (d *section) posts() {
	shown := map[string]bool{}
	for _, l := range elevation.Shown(d.b) {
		shown[l.Name] = true
	}
	for i := range d.b.Posts {
		p := &d.b.Posts[i]
		if !shown[p.Letter] {
			continue
		}
		d.group("post", postID(d.b, p), "Post "+p.Letter+" under "+d.b.Levels[p.Level].Name, func() {
			for _, piece := range p.Pieces {
				d.piece(p.At[0], piece)
			}
		})
	}
}

// long is the length of a post, px, from which its height is written on it.
const long = 24

// piece draws one piece of a post; a spacer is solid ink.
func (d *section) piece(x float64, p stacks.Piece) {
	w, h := p.Kind.Section.Width*d.f.Per, (p.Top-p.Bottom)*d.f.Per
	left, top := d.x(x)-w/2, d.y(p.Top)
	if p.Kind.Spacer {
		d.path("spacer", rectPath(left, top, w, h))
		return
	}
	d.path("piece", rectPath(left, top, w, h))
	if d.compact || h < long {
		return
	}
	size := float64(noteSize)
	words := d.e.post(p.Kind.Height)
	if d.e.width(size, strong, words) > h-3 || d.e.capital(size) > w-3 {
		size = Least
	}
	if d.e.width(size, strong, words) > h-3 || d.e.capital(size) > w-2 {
		return
	}
	d.turned(left+w/2, top+h/2, words, "figure strong", size, -90)
}

// lineLetters sets the letters of the lines under the floor.
func (d *section) lineLetters(y float64) {
	last := math.Inf(-1)
	for _, l := range elevation.Shown(d.b) {
		w := d.e.width(noteSize, strong, l.Name)
		x := math.Max(d.x(l.At[0]), last+w/2+3)
		d.text(x, y, l.Name, "letter strong", "middle", noteSize)
		last = x + w/2
	}
}

// number is a level's number as its label shows it: nothing for the bottom.
func (d *section) number(v int) string {
	l := &d.b.Levels[v]
	if l.Name == "bottom" || l.Name == "the bottom" {
		return ""
	}
	return strconv.Itoa(l.Number)
}
