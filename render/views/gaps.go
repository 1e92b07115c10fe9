package views

import (
	"math"

	"threepost/geometry/plane"
	"threepost/render/gaps"
)

// gaps draws a bar over every gap under narrow, and its figure where there is
// room for it.
func (p *plan) gaps() {
	bars := p.bars()
	t := new(trace)
	for _, b := range bars {
		p.tick(t, b)
		p.lines = append(p.lines, plane.Skeleton{b.A, b.B})
	}
	p.path("gapbar", string(*t))
	for _, b := range bars {
		p.gapFigure(b)
	}
}

// bars are the narrow gaps of the picture. The held pot has none: they would
// stay behind.
func (p *plan) bars() []gaps.Bar {
	var drawn []gaps.Drawn
	for i := range p.pots {
		at := p.pots[i].pot
		if p.o.Held == "" || p.b.Pots[at].Pot.String() != p.o.Held {
			drawn = append(drawn, gaps.Drawn{Pot: at, Parts: p.pots[i].shared()})
		}
	}
	return gaps.Bars(p.b, drawn, p.standing)
}

// all are the solid outlines of a figure.
func (f *figure) all() []part {
	if len(f.handles) == 0 {
		return []part{f.body}
	}
	return append([]part{f.body}, f.handles...)
}

// shared are the same as package gaps takes them.
func (f *figure) shared() []gaps.Part {
	out := []gaps.Part{f.body.Part}
	for _, h := range f.handles {
		out = append(out, h.Part)
	}
	return out
}

// tick draws a bar with its two end ticks.
func (p *plan) tick(t *trace, b gaps.Bar) {
	ax, ay := p.f.Px(b.A)
	bx, by := p.f.Px(b.B)
	dx, dy := bx-ax, by-ay
	n := hypot(dx, dy)
	if n < 0.1 {
		return
	}
	sx, sy := -dy/n*3, dx/n*3
	t.move(ax, ay).line(bx, by)
	t.move(ax-sx, ay-sy).line(ax+sx, ay+sy)
	t.move(bx-sx, by-sy).line(bx+sx, by+sy)
}

// obstacle is what lies near a bar: a disc, a line or a box, px.
type near struct {
	pots  []int
	posts []part
	lines []plane.Skeleton
	boxes []box
}

// nearTo gathers what a text within reach px of a point could meet.
func (p *plan) nearTo(x, y, reach float64) *near {
	n := &near{}
	at, mm := p.f.MM(x, y), reach/p.f.Per
	for i := range p.pots {
		f := &p.pots[i]
		if at[0] > f.lo[0]-mm && at[0] < f.hi[0]+mm && at[1] > f.lo[1]-mm && at[1] < f.hi[1]+mm {
			n.pots = append(n.pots, i)
		}
	}
	for _, q := range p.posts {
		if _, d := q.Skeleton.Nearest(at); d-q.Radius < mm {
			n.posts = append(n.posts, q)
		}
	}
	for _, l := range p.lines {
		if _, d := l.Nearest(at); d < mm {
			n.lines = append(n.lines, l)
		}
	}
	here := box{x, y, x, y}
	for _, b := range p.boxes {
		if here.off(b) < reach {
			n.boxes = append(n.boxes, b)
		}
	}
	return n
}

// free is how far a box keeps, px, at most 8, from pots, posts, texts, lines,
// shelf edges and the wall; as soon as it is under enough, that is enough to
// know. Without a list of what is near everything is looked at.
func (p *plan) free(b box, enough float64, n *near) float64 {
	least := 8.0
	cx, cy := (b.x0+b.x1)/2, (b.y0+b.y1)/2
	if n == nil {
		n = p.nearTo(cx, cy, hypot(b.x1-b.x0, b.y1-b.y0)/2+8)
	}
	for _, c := range n.boxes {
		if least = math.Min(least, b.off(c)); least < enough {
			return least
		}
	}
	at := p.f.MM(cx, cy)
	w, h := (b.x1-b.x0)/2, (b.y1-b.y0)/2
	// gap is the distance of the box to a widened skeleton: exact for a point,
	// else from the box's own skeleton.
	var own plane.Skeleton
	gap := func(q part) float64 {
		if len(q.Skeleton) == 1 {
			x, y := p.f.Px(q.Skeleton[0])
			dx, dy := math.Max(math.Abs(x-cx)-w, 0), math.Max(math.Abs(y-cy)-h, 0)
			return hypot(dx, dy) - q.Radius*p.f.Per
		}
		if own == nil {
			own = p.skeletonOf(b)
		}
		return (own.Distance(q.Skeleton) - q.Radius) * p.f.Per
	}
	for _, i := range n.pots {
		f := &p.pots[i]
		if least = math.Min(least, gap(f.body)); least < enough {
			return least
		}
		for _, q := range f.handles {
			if least = math.Min(least, gap(q)); least < enough {
				return least
			}
		}
	}
	for _, q := range n.posts {
		if least = math.Min(least, gap(q)); least < enough {
			return least
		}
	}
	for _, l := range n.lines {
		if least = math.Min(least, gap(part{gaps.Part{Skeleton: l}})); least < enough {
			return least
		}
	}
	reach := hypot(w, h) / p.f.Per
	for k := -1; k < len(p.edges); k++ {
		o := p.b.Chamber
		if k >= 0 {
			o = p.edges[k]
		}
		deep := o.Depth(at)
		if math.Abs(deep) > reach+8/p.f.Per {
			continue
		}
		if own == nil {
			own = p.skeletonOf(b)
		}
		if least = math.Min(least, inOrOut(own, o)*p.f.Per); least < enough {
			return least
		}
	}
	return least
}

// skeletonOf is a box of the picture in the kiln's frame.
func (p *plan) skeletonOf(b box) plane.Skeleton {
	return plane.Skeleton{p.f.MM(b.x0, b.y1), p.f.MM(b.x1, b.y1), p.f.MM(b.x1, b.y0), p.f.MM(b.x0, b.y0)}
}

// inOrOut is how far a box keeps from a ring on whichever side it lies, mm;
// negative across it.
func inOrOut(s plane.Skeleton, o plane.Outline) float64 {
	inside := math.Inf(1)
	for _, v := range s {
		inside = math.Min(inside, o.Depth(v))
	}
	if inside > 0 {
		return inside
	}
	if out := o.Distance(s); out > 0 {
		return out
	}
	return inside
}

// gapFigure steps sideways from the bar, 9 to 21 px, to the spot farthest from
// everything; if none is free the bar stands alone.
func (p *plan) gapFigure(b gaps.Bar) {
	words := p.e.gap(b.Gap)
	const size, least = Least, 1.0
	w, h := p.e.width(size, "", words), p.e.capital(size)
	ax, ay := p.f.Px(b.A)
	bx, by := p.f.Px(b.B)
	mx, my := (ax+bx)/2, (ay+by)/2
	n := math.Max(hypot(bx-ax, by-ay), 1e-6)
	ux, uy := (bx-ax)/n, (by-ay)/n
	all := p.nearTo(mx, my, 21+w+8)
	best, found := least, false
	var spot box
	for _, way := range [...]float64{1, -1} {
		for step := 9.0; step <= 21; step += 2 {
			for _, slip := range [...]float64{0, 4, -4} {
				x, y := mx-uy*way*step+ux*slip, my+ux*way*step+uy*slip
				t := box{x - w/2, y - h/2, x + w/2, y + h/2}
				room := p.free(t, least, all)
				if room < least {
					continue
				}
				score := math.Min(room, 4) - 0.12*step - 0.1*math.Abs(slip) + 3
				if !found || score > best {
					best, spot, found = score, t, true
				}
			}
		}
	}
	if found {
		p.text((spot.x0+spot.x1)/2, spot.y1, words, "gap quiet", "middle", size)
	}
}
