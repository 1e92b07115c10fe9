package levels

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// narrow is the gap, mm, under which a bar shows it: the plan figure of deep
// levels (common practice).
const narrow = 9

func digits(n int) string { return strconv.Itoa(n) }

// bar is a narrow gap between two drawn outlines.
type bar struct {
	a, b plane.Vec
	gap  float64
}

// gaps draws a bar over every gap under narrow, and its figure where there is
// room for it.
func (p *plan) gaps() {
	bars := p.bars()
	for _, b := range bars {
		p.tick(b)
		p.shows.bars = true
		p.lines = append(p.lines, plane.Skeleton{b.a, b.b})
	}
	for _, b := range bars {
		p.gapFigure(b)
	}
}

// bars finds the narrow gaps between pots of one level, and between pots and
// posts. Figures are those of the solids, allowances included; bars run from
// drawn line to drawn line.
func (p *plan) bars() []bar {
	var out []bar
	add := func(gap float64, one, other []part) {
		if gap >= narrow-plane.Tolerance || gap < 0.5 {
			return
		}
		least, b := math.Inf(1), bar{gap: gap}
		for _, q := range one {
			for _, r := range other {
				if d, u, v := q.gap(r); d < least {
					least, b.a, b.b = d, u, v
				}
			}
		}
		if least > 0.5 {
			out = append(out, b)
		}
	}
	for i := range p.pots {
		one := &p.b.Pots[p.pots[i].pot]
		for j := i + 1; j < len(p.pots); j++ {
			other := &p.b.Pots[p.pots[j].pot]
			if one.Level != other.Level || apart(&one.Solid, &other.Solid) {
				continue
			}
			gap, _ := solid.Gap(&one.Solid, &other.Solid)
			add(gap, p.pots[i].parts(), p.pots[j].parts())
		}
		for _, k := range standingOn(p.o, one.Level) {
			post := &p.b.Posts[k]
			if apart(&one.Solid, &post.Solid) {
				continue
			}
			gap, _ := solid.Gap(&one.Solid, &post.Solid)
			add(gap, p.pots[i].parts(), []part{postPart(post)})
		}
	}
	return out
}

// apart tells whether two boxes are too far from each other for a narrow gap.
func apart(a, b *solid.Placed) bool {
	return a.Min[0] > b.Max[0]+narrow || b.Min[0] > a.Max[0]+narrow || a.Min[1] > b.Max[1]+narrow || b.Min[1] > a.Max[1]+narrow
}

// tick draws a bar with its two end ticks.
func (p *plan) tick(b bar) {
	p.line(b.a, b.b, frame.GapBar())
	side := plane.Scale(plane.Unit(plane.Left(plane.Sub(b.b, b.a))), 0.55/p.view.scale)
	for _, end := range [...]plane.Vec{b.a, b.b} {
		p.line(plane.Sub(end, side), plane.Add(end, side), frame.GapBar())
	}
}

// gapFigure steps sideways from the bar to the spot farthest from everything;
// if none is free the bar stands alone.
func (p *plan) gapFigure(b bar) {
	words := p.length(b.gap)
	style := frame.Text(frame.SmallSize)
	w, h := p.size(words, style)
	mid := plane.Lerp(b.a, b.b, 0.5)
	along := plane.Unit(plane.Sub(b.b, b.a))
	side := plane.Left(along)
	const most = 1.2 // more room than this is no better
	best, spot := 0.35, plane.Vec{}
	found := false
	for _, way := range [...]float64{1, -1} {
		for step := 1.9; step <= 5.6; step += 0.3 {
			for _, slip := range [...]float64{0, 1, -1, 2, -2} {
				try := plane.Add(mid, plane.Add(plane.Scale(side, way*step/p.view.scale), plane.Scale(along, slip/p.view.scale)))
				room := p.free(p.box(try, w, h), nil, 0.35)
				if room < 0.35 {
					continue
				}
				score := math.Min(room, most) - float64(0.08*step) - float64(0.1*math.Abs(slip)) + 1
				if !found || score > best {
					best, spot, found = score, try, true
				}
			}
		}
	}
	if found {
		p.label(spot, words, style)
	}
}

// keyOf lists the key: letters of kinds, then what the lines mean.
func (p *plan) key() (kinds [][]drawing.Run, lines []string) {
	strong, text := frame.Strong(frame.LegendSize), frame.Text(frame.LegendSize)
	for k := range p.b.Load.Ware {
		if p.shows.kinds[k] {
			kinds = append(kinds, []drawing.Run{{Words: p.kinds[k].letter, Style: strong}, {Words: " " + p.kinds[k].name, Style: text}})
		}
	}
	add := func(on bool, words string) {
		if on {
			lines = append(lines, p.page.Sheet.Say(words))
		}
	}
	add(p.shows.foot, "dotted: foot")
	add(p.shows.cookie, "long dashes: cookie")
	add(p.shows.under, "dashed: under a rim")
	add(p.shows.cones, "hatched: cones")
	add(p.shows.passing, "dashed post: under the shelf only")
	add(p.shows.bars, "bar: gap under "+p.length(narrow))
	add(p.b.Load.Firing.Stage != layout.Bisque && p.anyHandles(), "handle to 2: to 2 o'clock")
	return kinds, lines
}

func (p *plan) anyHandles() bool {
	for i := range p.pots {
		if len(p.pots[i].handles) > 0 {
			return true
		}
	}
	return false
}
