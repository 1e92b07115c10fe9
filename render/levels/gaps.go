package levels

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/gaps"
)

func digits(n int) string { return strconv.Itoa(n) }

// gaps draws a bar over every gap under narrow, and its figure where there is
// room for it.
func (p *plan) gaps() {
	bars := p.bars()
	for _, b := range bars {
		p.tick(b)
		p.shows.bars = true
		p.lines = append(p.lines, plane.Skeleton{b.A, b.B})
	}
	for _, b := range bars {
		p.gapFigure(b)
	}
}

// bars are the narrow gaps of the plan.
func (p *plan) bars() []gaps.Bar {
	var drawn []gaps.Drawn
	for i := range p.pots {
		drawn = append(drawn, gaps.Drawn{Pot: p.pots[i].pot, Parts: p.pots[i].shared()})
	}
	return gaps.Bars(p.b, drawn, func(level int) []int { return standingOn(p.o, level) })
}

// tick draws a bar with its two end ticks.
func (p *plan) tick(b gaps.Bar) {
	p.line(b.A, b.B, frame.GapBar())
	side := plane.Scale(plane.Unit(plane.Left(plane.Sub(b.B, b.A))), 0.55/p.view.scale)
	for _, end := range [...]plane.Vec{b.A, b.B} {
		p.line(plane.Sub(end, side), plane.Add(end, side), frame.GapBar())
	}
}

// gapFigure steps sideways from the bar to the spot farthest from everything;
// if none is free the bar stands alone.
func (p *plan) gapFigure(b gaps.Bar) {
	words := p.length(b.Gap)
	style := frame.Text(frame.SmallSize)
	w, h := p.size(words, style)
	mid := plane.Lerp(b.A, b.B, 0.5)
	along := plane.Unit(plane.Sub(b.B, b.A))
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
	add(p.shows.bars, "bar: gap under "+p.length(gaps.Narrow))
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
