package views

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
)

// HeldOptions say what lies over a top view while a pot is held.
type HeldOptions struct {
	Pot    int           // into Built.Pots
	At     plane.Vec     // where it is now, mm
	Turn   float64       // degrees
	Drawn  bool          // draw the pot itself too: when it was turned, its group alone cannot show it
	Ring   *plane.Vec    // the nearest clear place; nil: none, or it stands on it
	Bar    *[2]plane.Vec // between which places the least gap lies, the held pot's first
	Flag   string        // "2 mm, too close"; "": no flag
	Grade  layout.Grade  // of that gap; Note: it clears
	Pair   int           // the other pot of that gap, into Built.Pots; -1: none
	Leader *Leader       // nil: none
}

// Leader is a sentence that stands outside the wall with a dotted line to a pot.
type Leader struct {
	To    int    // into Built.Pots
	Says  string // "4 goes in before 5"
	After string // inside that pot: "after 4"
}

// Held draws what lies over a top view while a pot is held: the ring where it
// clears, the hatch on the other pot of the least gap, that gap's line with
// its flag, and the leader. top are the options the view was drawn with.
func (e *Easel) Held(s Subject, top TopOptions, o HeldOptions) []Mark {
	p := newPlan(e, s, top)
	p.place()
	if o.Pot < 0 || o.Pot >= len(p.b.Pots) {
		return []Mark{}
	}
	pot := p.b.Pots[o.Pot]
	pot.At, pot.Turn = o.At, o.Turn
	own := p.standIn(o.Pot, pot.At, pot.Turn)
	p.around()
	if o.Ring != nil {
		t := new(trace)
		q := p.figureAt(o.Pot, *o.Ring, o.Turn)
		q.body.trace(t, p.f)
		for _, h := range q.handles {
			h.trace(t, p.f)
		}
		p.path("ring", string(*t))
	}
	if o.Pair >= 0 && o.Pair < len(p.b.Pots) && o.Grade > layout.Note {
		p.pair(o.Pair, o.Grade)
	}
	if o.Drawn {
		p.group("pot held", "", "", func() {
			for _, h := range own.handles {
				t := new(trace)
				h.trace(t, p.f)
				p.path("handle", string(*t))
			}
			t := new(trace)
			own.body.trace(t, p.f)
			p.path("body", string(*t))
			p.marks = append(p.marks, p.numberOf(&own, &pot)...)
		})
	}
	if o.Bar != nil {
		p.flag(*o.Bar, o.Flag, o.Grade, &own)
	}
	if o.Leader != nil {
		p.leader(*o.Leader)
	}
	if p.marks == nil {
		return []Mark{}
	}
	return p.marks
}

// pair draws the other pot of the least gap anew, hatched, its number over it.
func (p *plan) pair(i int, grade layout.Grade) {
	f := p.figure(i)
	p.group("pot"+gradeClass(grade), "", "", func() {
		t := new(trace)
		f.body.trace(t, p.f)
		p.path("body", string(*t))
		p.path("hatch"+gradeClass(grade), string(*t))
		if p.b.Pots[i].Cones != nil || f.number == 0 {
			return
		}
		x, y := p.f.Px(p.b.Pots[i].At)
		words := strconv.Itoa(f.number)
		size := math.Min(19, math.Max(Least, p.inner(&f)))
		if p.e.width(size, heavy, words)/2 < p.inner(&f) {
			p.text(x, y+p.e.capital(size)/2-2, words, "number heavy halo", "middle", size)
		}
	})
}

// figureAt is pot i as it is drawn somewhere else.
func (p *plan) figureAt(i int, at plane.Vec, turn float64) figure {
	moved := p.b.Pots[i]
	moved.At, moved.Turn = at, turn
	d := &moved.Body.Drawn
	f := figure{pot: i, level: moved.Level, body: placed(d.Body, &moved), foot: placed(d.Foot, &moved)}
	if p.s.Order != nil {
		f.number = p.s.Order.Number(i)
	}
	f.lo, f.hi = f.body.Bounds()
	for _, h := range d.Handles {
		q := placed(h, &moved)
		f.handles = append(f.handles, q)
		lo, hi := q.Bounds()
		f.lo = plane.Vec{math.Min(f.lo[0], lo[0]), math.Min(f.lo[1], lo[1])}
		f.hi = plane.Vec{math.Max(f.hi[0], hi[0]), math.Max(f.hi[1], hi[1])}
	}
	return f
}

// standIn puts the held pot where it is into what labels keep clear of.
func (p *plan) standIn(i int, at plane.Vec, turn float64) figure {
	own := p.figureAt(i, at, turn)
	for k := range p.pots {
		if p.pots[k].pot == i {
			p.pots[k] = own
			return own
		}
	}
	p.pots = append(p.pots, own)
	return own
}

// around gathers what lies under the overlay: posts, and texts round the wall.
func (p *plan) around() {
	marks := p.marks
	p.corners()
	p.clock()
	for _, v := range p.levels {
		for _, i := range p.standing(v) {
			p.posts = append(p.posts, postPart(&p.b.Posts[i]))
		}
	}
	p.marks = marks
}

// flagHigh is the height of a flag, px.
const flagHigh = 24

// flag draws the line of the least gap, a ring at its end and the words on a
// flag outside the wall or over plain shelf, never over the held pot.
func (p *plan) flag(bar [2]plane.Vec, words string, grade layout.Grade, own *figure) {
	ax, ay := p.f.Px(bar[0])
	bx, by := p.f.Px(bar[1])
	mx, my := (ax+bx)/2, (ay+by)/2
	class := gradeClass(grade)
	p.path("lead"+class, linePath(ax, ay, bx, by))
	if words == "" {
		p.path("end"+class, circlePath(mx, my, 3.2))
		return
	}
	w := p.e.width(textSize, strong, words) + 44
	spot, found := p.flagSpot(mx, my, w, own)
	if !found {
		p.path("end"+class, circlePath(mx, my, 3.2))
		return
	}
	ex, ey := math.Max(spot.x0, math.Min(mx, spot.x1)), math.Max(spot.y0, math.Min(my, spot.y1))
	p.path("lead"+class, linePath(mx, my, ex, ey))
	p.path("end"+class, circlePath(mx, my, 3.2))
	p.path("flag"+class, rectPath(spot.x0, spot.y0, spot.x1-spot.x0, spot.y1-spot.y0))
	p.marks = append(p.marks, symbol(grade, spot.x0+8, spot.y0+(flagHigh-16)/2, "on-flag ")...)
	p.text(spot.x0+35, (spot.y0+spot.y1)/2+p.e.capital(textSize)/2, words, "on-flag strong", "start", textSize)
	p.boxes = append(p.boxes, spot)
}

// flagSpot is the nearest free place for a flag; if none is free it is the
// nearest one that keeps off the held pot and covers least.
func (p *plan) flagSpot(x, y, w float64, own *figure) (box, bool) {
	best, least, found := box{}, math.Inf(1), false
	for _, far := range [...]float64{22, 40, 60, 85, 115, 150, 190, 240, 300} {
		if far >= least { // every way off costs its length at least
			break
		}
		for k := range 24 {
			s, c := sinCos(float64(k) * 15)
			cx, cy := x+s*(far+w*0.5*math.Abs(s)), y-c*far
			b := box{cx - w/2, cy - flagHigh/2, cx + w/2, cy + flagHigh/2}
			if b.x0 < 1 || b.y0 < 1 || b.x1 > p.o.W-1 || b.y1 > p.o.H-1 {
				continue
			}
			cost := far + p.covered(b, own) + p.crosses(x, y, b, own)
			if cost < least {
				best, least, found = b, cost, true
			}
		}
	}
	return best, found && least < 5000
}

// crosses is what a flag's line would cross, and the wall under the flag, as
// px of way.
func (p *plan) crosses(x, y float64, b box, own *figure) float64 {
	ex, ey := math.Max(b.x0, math.Min(x, b.x1)), math.Max(b.y0, math.Min(y, b.y1))
	cost := 0.0
	for _, t := range [...]float64{0.25, 0.45, 0.65, 0.85} {
		at := p.f.MM(x+(ex-x)*t, y+(ey-y)*t)
		for i := range p.pots {
			f := &p.pots[i]
			if at[0] < f.lo[0] || at[0] > f.hi[0] || at[1] < f.lo[1] || at[1] > f.hi[1] {
				continue
			}
			if _, d := f.body.Skeleton.Nearest(at); d < f.body.Radius-1/p.f.Per {
				cost += 30
				if f.pot == own.pot {
					cost += 170
				}
			}
		}
	}
	sk := p.skeletonOf(b)
	for k := -1; k < len(p.edges); k++ {
		o := p.b.Chamber
		if k >= 0 {
			o = p.edges[k]
		}
		if inOrOut(sk, o) < 0 {
			cost += 35
		}
	}
	return cost
}

// covered is what a flag would cover, as px of way that it is worth to go on.
func (p *plan) covered(b box, own *figure) float64 {
	sk := p.skeletonOf(b)
	lo, hi := sk.Bounds()
	beyond := 3 / p.f.Per
	cost := 0.0
	for i := range p.pots {
		f := &p.pots[i]
		if lo[0] > f.hi[0]+beyond || lo[1] > f.hi[1]+beyond || hi[0] < f.lo[0]-beyond || hi[1] < f.lo[1]-beyond {
			continue // too far off to be covered, told by the boxes alone
		}
		for _, q := range f.all() {
			if gap := (q.Skeleton.Distance(sk) - q.Radius) * p.f.Per; gap < 3 {
				if f.pot == own.pot {
					return 1e4
				}
				cost += 120 + math.Min(-gap, 20)*6
			}
		}
	}
	for _, q := range p.posts {
		if (q.Skeleton.Distance(sk)-q.Radius)*p.f.Per < 2 {
			cost += 200
		}
	}
	for _, c := range p.boxes {
		if b.off(c) < 3 {
			cost += 400
		}
	}
	return cost
}

// leader sets a sentence outside the wall with a dotted line to a pot, and
// what has to wait inside it.
func (p *plan) leader(l Leader) {
	if l.To < 0 || l.To >= len(p.b.Pots) {
		return
	}
	at := p.b.Pots[l.To].At
	f := p.figure(l.To)
	x, y := p.f.Px(at)
	if l.After != "" {
		base := y + p.inner(&f)*0.62
		p.text(x, base+p.e.capital(Least)/2, l.After, "kind strong halo", "middle", Least)
	}
	if l.Says == "" {
		return
	}
	const lead = 17
	lines := p.e.wrap(l.Says, strong, textSize, 96)
	w := 0.0
	for _, line := range lines {
		w = math.Max(w, p.e.width(textSize, strong, line))
	}
	h := lead * float64(len(lines))
	var best box
	least := math.Inf(1)
	for _, cx := range [...]float64{w/2 + 2, p.o.W - w/2 - 2} {
		for cy := h/2 + 2; cy < p.o.H-h/2; cy += 6 {
			b := box{cx - w/2, cy - h/2, cx + w/2, cy + h/2}
			cost := hypot(cx-x, cy-y)
			if !p.clearOfWall(b) {
				cost += 600
			}
			for _, c := range p.boxes {
				if b.off(c) < 5 {
					cost += 900
				}
			}
			if cost < least {
				best, least = b, cost
			}
		}
	}
	if math.IsInf(least, 1) || least > 900 {
		return
	}
	fromX := best.x1 + 6
	if best.x0 > x {
		fromX = best.x0 - 6
	}
	fromY := (best.y0 + best.y1) / 2
	n := math.Max(hypot(x-fromX, y-fromY), 1)
	stop := 1 - f.body.Radius*p.f.Per/n
	if len(f.body.Skeleton) > 1 {
		stop = 1 - p.inner(&f)/n
	}
	p.path("leader dotted", linePath(fromX, fromY, fromX+(x-fromX)*stop, fromY+(y-fromY)*stop))
	for i, line := range lines {
		p.text(best.x0, best.y0+lead*float64(i)+13, line, "strong", "start", textSize)
	}
}

// symbol draws the sign of a grade, 20 x 16, two pots from above: apart for
// what clears, a bar between them for a watch, crossing with the lens filled
// for a problem.
func symbol(g layout.Grade, x, y float64, class string) []Mark {
	ring := func(cx float64, r float64) Mark {
		return Mark{Kind: PathKind, Class: class + "symbol", D: circlePath(x+cx, y+8, r)}
	}
	switch g {
	case layout.Problem:
		// The lens of two circles of radius 5, 6 apart: half angle acos(3/5).
		t := new(trace)
		t.move(x+10, y+4)
		t.arc(x+7, y+8, 5, 36.87, 143.13)
		t.arc(x+13, y+8, 5, 216.87, 323.13)
		t.close()
		return []Mark{ring(7, 5), ring(13, 5), {Kind: PathKind, Class: class + "symbol full", D: string(*t)}}
	case layout.Watch:
		return []Mark{ring(4.5, 3.6), ring(15.5, 3.6), {Kind: PathKind, Class: class + "symbol", D: linePath(x+10, y+2, x+10, y+14)}}
	}
	return []Mark{ring(4.5, 3.6), ring(15.5, 3.6)}
}
