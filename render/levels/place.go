package levels

import (
	"math"
	"strings"

	"threepost/geometry/plane"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// box is the upright rectangle, in the kiln's frame, that a text of w x h mm
// of paper covers with its middle at a place.
func (p *plan) box(at plane.Vec, w, h float64) plane.Skeleton {
	x, y := w/2/p.view.scale, h/2/p.view.scale
	return plane.Skeleton{
		{at[0] - x, at[1] - y}, {at[0] + x, at[1] - y}, {at[0] + x, at[1] + y}, {at[0] - x, at[1] + y},
	}
}

// size is what a text covers, mm of paper.
func (p *plan) size(words string, style drawing.TextStyle) (w, h float64) {
	w, h = p.page.TextWidth(words, style), p.page.Sheet.Fonts.CapHeight(style)
	if strings.Contains(words, "/") {
		h += 1 // a stroke reaches over and under the figures
	}
	return w, h
}

// label sets a text with its middle at a place of the kiln and keeps the spot.
func (p *plan) label(at plane.Vec, words string, style drawing.TextStyle) {
	w, h := p.size(words, style)
	spot := p.view.point(at)
	p.page.Text(spot.X, spot.Y+p.page.Sheet.Fonts.CapHeight(style)/2, words, style.Held(drawing.Middle))
	p.boxes = append(p.boxes, p.box(at, w, h))
}

// farRoom is the most room that free tells, mm of paper: more is no better.
const farRoom = 4

// free is how far a box keeps, mm of paper, at most farRoom, from every pot and post (but for
// own), label, line, shelf edge and wall; negative where it meets one.
func (p *plan) free(box plane.Skeleton, own *figure, enough float64) float64 {
	k := p.view.scale
	least := float64(farRoom)
	note := func(mm float64) bool {
		least = math.Min(least, mm*k)
		return least < enough
	}
	for i := range p.pots {
		if own != nil && p.pots[i].pot == own.pot {
			continue
		}
		f := &p.pots[i]
		if f.far(box, farRoom/k) {
			continue
		}
		if note(box.Distance(f.body.Skeleton) - f.body.Radius) {
			return least
		}
		for _, h := range f.handles {
			if note(box.Distance(h.Skeleton) - h.Radius) {
				return least
			}
		}
	}
	for _, q := range p.posts {
		if note(box.Distance(q.Skeleton) - q.Radius) {
			return least
		}
	}
	if own == nil {
		for _, q := range p.ghosts {
			if note(box.Distance(q.Skeleton) - q.Radius) {
				return least
			}
		}
	}
	for _, b := range p.boxes {
		if note(boxGap(box, b)) {
			return least
		}
	}
	for _, l := range p.lines {
		if farApart(box, l, farRoom/k) {
			continue
		}
		if note(box.Distance(l)) {
			return least
		}
	}
	note(p.offEdges(box))
	return least
}

// farApart tells whether a line's box keeps off an upright box by more than
// apart mm.
func farApart(box, line plane.Skeleton, apart float64) bool {
	lo, hi := line.Bounds()
	return lo[0] > box[2][0]+apart || box[0][0] > hi[0]+apart || lo[1] > box[2][1]+apart || box[0][1] > hi[1]+apart
}

// boxGap is the distance of two upright boxes, negative where they overlap.
func boxGap(a, b plane.Skeleton) float64 {
	x := math.Max(a[0][0]-b[2][0], b[0][0]-a[2][0])
	y := math.Max(a[0][1]-b[2][1], b[0][1]-a[2][1])
	if x > 0 && y > 0 {
		return plane.Hypot(x, y)
	}
	return math.Max(x, y)
}

// offEdges is how far a box keeps from the edges of shelves and the wall, mm
// of the kiln.
func (p *plan) offEdges(box plane.Skeleton) float64 {
	least := inOrOut(box, p.b.Chamber)
	for _, l := range p.levels {
		for _, s := range p.b.Levels[l].Shelves {
			least = math.Min(least, inOrOut(box, p.b.Shelves[s].Outline))
		}
	}
	return least
}

// inOrOut is how far a box keeps from a ring, on whichever side it lies;
// negative across it.
func inOrOut(box plane.Skeleton, o plane.Outline) float64 {
	inside := math.Inf(1)
	for _, v := range box {
		inside = math.Min(inside, o.Depth(v))
	}
	if inside > 0 {
		return inside
	}
	if out := o.Distance(box); out > 0 {
		return out
	}
	return inside
}

// Sizes of the texts in a plan, pt, and what they keep from lines, mm.
const (
	numberSize = frame.LevelSize
	lesserSize = frame.TextSize // where the other finds no room in its pot
	clearOf    = 0.45
	under      = 1.1 // from a number down to its letter
)

// numbers sets the order number and the letter of every pot: both in its
// middle where there is room, else beside it inside the outline, else the
// number alone, else in smaller type, else outside on a leader.
func (p *plan) numbers() {
	var outside []*figure
	for i := range p.pots {
		f := &p.pots[i]
		if f.cones {
			continue
		}
		if !p.inside(f, numberSize, true) && !p.inside(f, numberSize, false) && !p.inside(f, lesserSize, false) {
			outside = append(outside, f)
		}
	}
	for _, f := range outside {
		p.leader(f)
	}
}

// numberWords and styles of a pot's label.
func (p *plan) number(f *figure) (words string, style, small drawing.TextStyle) {
	return digits(f.number), frame.Heavy(numberSize).Haloed(2), frame.Text(frame.SmallSize).Haloed(2)
}

// inside sets the number inside the outline in a size, pt, with or without the
// letter, and says whether there was room.
func (p *plan) inside(f *figure, size float64, letter bool) bool {
	words, style, small := p.number(f)
	style.Size = size
	w, h := p.size(words, style)
	lw, lh := p.size(f.letter, small)
	wide, high := w, h
	if letter {
		wide, high = math.Max(w, lw), h+under+lh
	}
	o := f.body.outline()
	at := p.b.Pots[f.pot].At
	spot, found := plane.Vec{}, false
	lo, hi := f.body.Bounds()
	reach := math.Max(hi[0]-lo[0], hi[1]-lo[1]) / 2
	for _, r := range []float64{0, 0.15, 0.3, 0.45, 0.6, 0.75} {
		for bearing := 0.0; bearing < 360 && !found; bearing += 30 {
			try := plane.Add(at, plane.FromBearing(r*reach, bearing))
			box := p.box(try, wide, high)
			if deep(box, o)*p.view.scale >= clearOf && p.free(box, f, clearOf) >= clearOf {
				spot, found = try, true
			}
			if r == 0 {
				break
			}
		}
	}
	if !found {
		return false
	}
	p.boxes = append(p.boxes, p.box(spot, wide, high))
	on := p.view.point(spot)
	top := on.Y - high/2
	p.page.Text(on.X, top+h, words, style.Held(drawing.Middle))
	if letter {
		p.page.Text(on.X, top+high, f.letter, small.Held(drawing.Middle))
	}
	return true
}

// deep is how far a box keeps inside an outline, mm of the kiln.
func deep(box plane.Skeleton, o plane.Outline) float64 {
	least := math.Inf(1)
	for _, v := range box {
		least = math.Min(least, o.Depth(v))
	}
	return least
}

// leader sets a number, with its letter behind it, outside its pot at the end
// of a straight line: without the letter, and at last in small type, where a
// crowd leaves no other room.
func (p *plan) leader(f *figure) {
	words, style, small := p.number(f)
	style.Halo, small.Halo = 0, 0 // its spot is free
	tiny := style
	tiny.Size = frame.SmallSize
	var best spotFound
	for _, runs := range [...][]drawing.Run{
		{{Words: words, Style: style}, {Words: " " + f.letter, Style: small}},
		{{Words: words, Style: style}},
		{{Words: words, Style: tiny}},
	} {
		if found := p.leaderSpot(f, runs); found.score > best.score || best.runs == nil {
			best = found
		}
		if best.clear {
			break
		}
	}
	at := p.b.Pots[f.pot].At
	end, _ := best.box.Nearest(at)
	end = nearer(at, end, 0.6/p.view.scale)
	p.line(at, end, frame.Hair())
	ring := p.view.point(at)
	p.page.Circle(ring.X, ring.Y, 0.6, frame.Hair().Filled(drawing.White))
	on := p.view.point(best.at)
	_, h := p.size(words, best.runs[0].Style)
	p.page.TextRuns(on.X, on.Y+h/2, drawing.Middle, best.runs...)
	p.boxes = append(p.boxes, best.box)
	p.lines = append(p.lines, plane.Skeleton{at, end})
}

// spotFound is a place for a label outside its pot.
type spotFound struct {
	runs  []drawing.Run
	at    plane.Vec
	box   plane.Skeleton
	score float64
	clear bool // nothing is met by the label, nor crossed by its leader
}

// leaderSpot finds the best place for a label round its pot: near, free, the
// leader crossing nothing.
func (p *plan) leaderSpot(f *figure, runs []drawing.Run) spotFound {
	w := p.page.Sheet.RunsWidth(runs...)
	_, h := p.size(runs[0].Words, runs[0].Style)
	at := p.b.Pots[f.pot].At
	lo, hi := f.body.Bounds()
	k := p.view.scale
	start := math.Min(hi[0]-lo[0], hi[1]-lo[1]) / 2
	best := spotFound{runs: runs, at: plane.Add(at, plane.Vec{0, start + 8/k}), score: math.Inf(-1)}
	best.box = p.box(best.at, w, h)
	for out := start + 2/k; out < start+40/k; out += 1 / k {
		for bearing := 0.0; bearing < 360; bearing += 15 {
			try := plane.Add(at, plane.FromBearing(out, bearing))
			if p.b.Chamber.Depth(try) < -11/k {
				continue
			}
			box := p.box(try, w, h)
			room := p.free(box, nil, clearOf)
			if room < clearOf {
				continue
			}
			end, _ := box.Nearest(at)
			crossed := p.crossed(f, plane.Skeleton{at, end})
			score := math.Min(room, 1.5) - float64(out*k*0.12) - float64(3*crossed)
			if score > best.score {
				best.at, best.box, best.score, best.clear = try, box, score, crossed < 1
			}
		}
		if best.clear && best.score > 1.5-float64((out+1/k)*k*0.12) {
			break // farther out it only gets worse
		}
	}
	return best
}

// crossed counts the labels that a leader would cross, and the pots by a
// third.
func (p *plan) crossed(own *figure, line plane.Skeleton) float64 {
	n := 0.0
	for i := range p.pots {
		if f := &p.pots[i]; f.pot != own.pot && !f.far(line, 0) && line.Distance(f.body.Skeleton) < f.body.Radius {
			n += 0.34
		}
	}
	for _, b := range p.boxes {
		if !farApart(b, line, 0.4/p.view.scale) && line.Distance(b) < 0.4/p.view.scale {
			n += 2
		}
	}
	for _, l := range p.lines {
		if line.Distance(l) < 1e-9 {
			n++
		}
	}
	return n
}

// line draws a straight line between two places of the kiln.
func (p *plan) line(a, b plane.Vec, s drawing.Style) {
	from, to := p.view.point(a), p.view.point(b)
	p.page.Line(from.X, from.Y, to.X, to.Y, s)
}

// beside sets the letter of a post too small to hold it at the freest spot
// beside it.
func (p *plan) beside(letter string, q part) {
	style := frame.Heavy(frame.LegendSize)
	w, h := p.size(letter, style)
	lo, hi := q.Bounds()
	mid := plane.Lerp(lo, hi, 0.5)
	out := plane.Distance(lo, hi)/2 + (h/2+0.6)/p.view.scale
	best, spot := math.Inf(-1), mid
	for bearing := 0.0; bearing < 360; bearing += 15 {
		try := plane.Add(mid, plane.FromBearing(out, bearing))
		if room := p.free(p.box(try, w, h), nil, math.Inf(-1)); room > best {
			best, spot = room, try
		}
	}
	p.label(spot, letter, style)
}
