package views

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
)

// fewest is the radius, px, under which the kind's letter goes.
const fewest = 14

// numbers sets order number and kind letter in every pot, or the number on a
// leader where a pot is too small for it. They go into the pot's group, so
// that they move with it.
func (p *plan) numbers() {
	for i := range p.pots {
		f := &p.pots[i]
		pot := &p.b.Pots[f.pot]
		g := p.groupOf(PotID(pot))
		if g == nil {
			continue
		}
		var made []Mark
		if pot.Cones != nil {
			made = p.coneWords(f)
		} else {
			made = p.numberOf(f, pot)
		}
		g.Marks = append(g.Marks, made...)
	}
}

// groupOf is the group with an id.
func (p *plan) groupOf(id string) *Mark {
	for i := range p.marks {
		if p.marks[i].ID == id && p.marks[i].Kind == GroupKind {
			return &p.marks[i]
		}
	}
	return nil
}

// inner is the radius of the largest disc in a pot's plan, px.
func (p *plan) inner(f *figure) float64 {
	lo, hi := f.body.Skeleton.Bounds()
	if len(f.body.Skeleton) < 3 {
		return f.body.Radius * p.f.Per
	}
	o, err := plane.Polygon(f.body.Skeleton)
	if err != nil {
		return math.Min(hi[0]-lo[0], hi[1]-lo[1]) / 2 * p.f.Per
	}
	return (o.Depth(p.b.Pots[f.pot].At) + f.body.Radius) * p.f.Per
}

// numberOf sets the figures of one pot.
func (p *plan) numberOf(f *figure, pot *stacks.Pot) []Mark {
	x, y := p.f.Px(pot.At)
	r := p.inner(f)
	words := ""
	if f.number > 0 {
		words = strconv.Itoa(f.number)
	}
	letter := p.letters[pot.Kind]
	if words == "" {
		words, letter = letter, ""
	}
	size := 19.0
	switch {
	case r < 12:
		size = Least
	case r < 18:
		size = noteSize
	case r < 24:
		size = headSize
	}
	class := "number heavy"
	cap, w := p.e.capital(size), p.e.width(size, class, words)
	if w/2 > r-1.5 || hypot(w/2, cap/2) > r {
		if w/2+1 > r {
			return p.led(f, x, y, words)
		}
	}
	if r < fewest || letter == "" || r < 17 {
		return []Mark{p.inPot(x, y+cap/2, words, class, size)}
	}
	// Number and letter as one block, a little above the middle.
	small := float64(Least)
	if r > 22 {
		small = noteSize
	}
	down := cap*0.55 + p.e.capital(small)*0.75 + 3
	return []Mark{p.inPot(x, y+cap*0.45, words, class, size), p.inPot(x, y+down+1, letter, "kind", small)}
}

// inPot makes a text in a pot and keeps its box.
func (p *plan) inPot(x, y float64, words, class string, size float64) Mark {
	p.boxes = append(p.boxes, p.e.textBox(x, y, words, class, "middle", size))
	return textMark(x, y, words, class, "middle", size)
}

// led sets a number beside its pot on a leader, at the nearest free place.
func (p *plan) led(f *figure, x, y float64, words string) []Mark {
	const size = Least
	class := "number strong halo"
	w, cap := p.e.width(size, class, words), p.e.capital(size)
	reach := plane.Distance(f.lo, f.hi) / 2 * p.f.Per
	best, found := box{}, false
	var bx, by float64
	for _, far := range [...]float64{6, 11, 17, 24} {
		for k := 0; k < 16 && !found; k++ {
			s, c := sinCos(float64(k)*22.5 + 45)
			cx, cy := x+s*(reach*0.7+far+w/2), y-c*(reach*0.7+far+cap/2)
			b := box{cx - w/2, cy - cap/2, cx + w/2, cy + cap/2}
			if p.free(b, 2, nil) >= 1.5 {
				best, bx, by, found = b, cx, cy, true
			}
		}
	}
	if !found {
		// Nothing is free: over the pot's own middle, with a halo.
		return []Mark{p.inPot(x, y+cap/2, words, class, size)}
	}
	p.boxes = append(p.boxes, best)
	dx, dy := bx-x, by-y
	n := hypot(dx, dy)
	end := 1 - (w/2+2)/math.Max(n, 1)
	p.lines = append(p.lines, plane.Skeleton{p.f.MM(x, y), p.f.MM(x+dx*end, y+dy*end)})
	return []Mark{
		{Kind: PathKind, Class: "leader", D: linePath(x, y, x+dx*end, y+dy*end)},
		textMark(bx, by+cap/2, words, class, "middle", size),
	}
}

// coneWords writes "cones" along a pack where it is long enough.
func (p *plan) coneWords(f *figure) []Mark {
	pot := &p.b.Pots[f.pot]
	sk := pot.Body.Drawn.Body.Skeleton
	lo, hi := sk.Bounds()
	long, thin := (hi[0]-lo[0]+2*pot.Body.Drawn.Body.Radius)*p.f.Per, (hi[1]-lo[1]+2*pot.Body.Drawn.Body.Radius)*p.f.Per
	turn := pot.Turn + p.f.Turn
	if thin > long {
		long, turn = thin, turn+90
	}
	const words = "cones"
	x, y := p.f.Px(pot.At)
	p.boxes = append(p.boxes, box{x - 4, y - 4, x + 4, y + 4})
	if p.e.width(Least, "halo", words)+4 > long || p.e.capital(Least)+2 > thin {
		return nil
	}
	turn = math.Mod(plane.NormalTurn(turn), 180)
	if turn > 90 {
		turn -= 180
	}
	return []Mark{p.e.turnedMark(x, y, words, "kind halo", Least, turn)}
}
