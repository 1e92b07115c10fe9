package levels

import (
	"math"
	"sort"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/gaps"
)

// plan is one top view: a chamber with one level, or with two side by side.
type plan struct {
	page   *frame.Page
	b      *stacks.Built
	o      *order.Order
	kinds  map[int]kind
	levels []int // into Built.Levels
	view   view

	pots   []figure         // from the lowest top
	posts  []part           // that stand on the levels
	ghosts []part           // lines that only pass below, where no pot hides them
	boxes  []plane.Skeleton // of the texts set so far
	lines  []plane.Skeleton // bars and leaders
	shows  shown
}

// shown is what the key of a plan has to explain.
type shown struct {
	foot, cookie, under, cones, bars, passing bool
	kinds                                     map[int]bool
}

// figure is a pot as it is drawn.
type figure struct {
	pot     int
	number  int
	cones   bool
	body    part
	foot    part
	cookie  *part
	handles []part
	letter  string
	lo, hi  plane.Vec // the upright box round all parts
}

// far tells whether a pot's box keeps off a skeleton's by more than apart mm.
func (f *figure) far(s plane.Skeleton, apart float64) bool {
	lo, hi := s.Bounds()
	return f.lo[0] > hi[0]+apart || lo[0] > f.hi[0]+apart || f.lo[1] > hi[1]+apart || lo[1] > f.hi[1]+apart
}

// parts are the solid outlines of a figure.
func (f *figure) parts() []part { return append([]part{f.body}, f.handles...) }

// shared are the same as package gaps takes them.
func (f *figure) shared() []gaps.Part {
	out := []gaps.Part{f.body.Part}
	for _, h := range f.handles {
		out = append(out, h.Part)
	}
	return out
}

// Distances round a plan, mm of paper.
const (
	overPlan = 7.5 // over the wall, for the numeral 12
	sidePlan = 9   // beside the wall
)

// newPlan gathers what stands on levels.
func newPlan(page *frame.Page, b *stacks.Built, o *order.Order, kinds map[int]kind, levels []int, v view) *plan {
	p := &plan{page: page, b: b, o: o, kinds: kinds, levels: levels, view: v, shows: shown{kinds: map[int]bool{}}}
	for _, l := range levels {
		for _, i := range b.Levels[l].Pots {
			p.pots = append(p.pots, p.figure(i))
		}
		for _, i := range standingOn(o, l) {
			p.posts = append(p.posts, postPart(&b.Posts[i]))
		}
	}
	sort.SliceStable(p.pots, func(i, j int) bool {
		return b.Pots[p.pots[i].pot].Solid.Top() < b.Pots[p.pots[j].pot].Solid.Top()
	})
	return p
}

// standingOn are the posts that stand on a level.
func standingOn(o *order.Order, level int) []int {
	var posts []int
	if lo := o.LevelOf(level); lo != nil {
		for _, s := range lo.PostsOn {
			posts = append(posts, s.Post)
		}
	}
	return posts
}

// figure is pot i as it is drawn.
func (p *plan) figure(i int) figure {
	pot := &p.b.Pots[i]
	d := &pot.Body.Drawn
	f := figure{
		pot: i, number: p.o.Number(i), cones: pot.Cones != nil,
		body: placed(d.Body, pot), foot: placed(d.Foot, pot), letter: p.kinds[pot.Kind].letter,
	}
	if d.Cookie != nil {
		c := placed(*d.Cookie, pot)
		f.cookie = &c
	}
	for _, h := range d.Handles {
		f.handles = append(f.handles, placed(h, pot))
	}
	f.lo, f.hi = f.body.Bounds()
	for _, h := range f.handles {
		lo, hi := h.Bounds()
		f.lo = plane.Vec{min(f.lo[0], lo[0]), min(f.lo[1], lo[1])}
		f.hi = plane.Vec{max(f.hi[0], hi[0]), max(f.hi[1], hi[1])}
	}
	return f
}

// draw draws the whole plan: chamber, shelves, lines, pots, then the figures
// into the room that is left.
func (p *plan) draw() {
	p.chamber()
	p.shelves()
	p.passing()
	for i := range p.pots {
		p.pot(&p.pots[i])
	}
	p.under()
	p.standing()
	p.numbers()
	p.gaps()
}

// stroke draws a part in a style.
func (p *plan) stroke(q part, s drawing.Style) { p.page.Path(p.view.path(q.outline()), s) }

// chamber draws the wall with the clock round it, spyholes and probes.
func (p *plan) chamber() {
	page, v := p.page, p.view
	marks := p.reaching()
	page.Path(v.path(p.b.Chamber), frame.Cut())
	for hour := 1; hour <= 12; hour++ {
		bearing := float64(hour * 30 % 360)
		p.numeral(bearing, strconv.Itoa(hour), p.hourWords(hour, marks))
	}
	for _, m := range marks {
		if m.hour == 0 {
			p.numeral(m.bearing, "", m.word)
		}
	}
}

// hourWords is what stands beside a numeral.
func (p *plan) hourWords(hour int, marks []reaching) string {
	words := ""
	front := p.b.Load.Kiln.Opens == layout.Front
	switch {
	case hour == 12 && !front:
		words = "hinge"
	case hour == 12:
		words = "back"
	case hour == 6 && front:
		words = "door, you stand here"
	case hour == 6:
		words = "you stand here"
	}
	for _, m := range marks {
		if m.hour == hour {
			if words != "" {
				words += ", "
			}
			words += m.word
		}
	}
	return words
}

// numeral sets an hour, and words beside it, outside the wall.
func (p *plan) numeral(bearing float64, hour, words string) {
	page := p.page
	at := p.view.point(wall(p.b.Chamber, bearing))
	bold, text := frame.Strong(frame.TextSize), frame.Text(frame.LegendSize)
	cap := page.Sheet.Fonts.CapHeight(bold)
	out := 3.6
	spot := at.Toward(bearing, out)
	y := spot.Y + cap/2
	var runs []drawing.Run
	if hour != "" {
		runs = append(runs, drawing.Run{Words: hour, Style: bold})
	}
	if words = page.Sheet.Say(words); words != "" {
		if hour != "" {
			words = " " + words
		}
		runs = append(runs, drawing.Run{Words: words, Style: text})
	}
	anchor := drawing.Middle
	lo, hi := p.b.Chamber.Bounds()
	s, _ := plane.SinCos(bearing)
	switch {
	case at.Y < p.view.point(hi).Y+0.5: // over the wall, as 12 is
		y, anchor = at.Y-2.4, away(s, words)
	case at.Y > p.view.point(lo).Y-0.5:
		y, anchor = at.Y+2.4+cap, away(s, words)
	case s > 0:
		anchor = drawing.Left
		spot.X -= 1
	case s < 0:
		anchor = drawing.Right
		spot.X += 1
	}
	wide := page.TextRuns(spot.X, y, anchor, runs...)
	switch anchor {
	case drawing.Left:
		spot.X += wide / 2
	case drawing.Right:
		spot.X -= wide / 2
	}
	p.boxes = append(p.boxes, p.box(p.view.back(drawing.At(spot.X, y-cap/2)), wide, cap))
}

// away is how a numeral over or under the wall is held: words beside it run
// away from those of 12 and 6.
func away(sine float64, words string) drawing.Anchor {
	switch {
	case words == "" || math.Abs(sine) < 0.1:
		return drawing.Middle
	case sine > 0:
		return drawing.Left
	}
	return drawing.Right
}

// reaching is a probe or spyhole in the storeys of a plan.
type reaching struct {
	bearing float64
	hour    int // the hour it stands at; 0: between hours
	word    string
}

// reaching draws the probes and spyholes at the height of the plan's levels,
// and the holes that their cones face, and tells them for the clock.
func (p *plan) reaching() []reaching {
	var marks []reaching
	add := func(bearing float64, word string) {
		m := reaching{bearing: bearing, word: word}
		if off := plane.NormalTurn(bearing + 4); plane.NormalTurn(off-float64(30*int(off/30))) <= 8 {
			if m.hour = int(off/30) % 12; m.hour == 0 {
				m.hour = 12
			}
		}
		for _, known := range marks {
			if known == m {
				return
			}
		}
		marks = append(marks, m)
	}
	for i := range p.b.Probes {
		probe := &p.b.Probes[i]
		if p.inStorey(probe.Kiln.Height) {
			rod := part{gaps.Part{Skeleton: plane.Skeleton{probe.Inner, probe.Tip}, Radius: probe.Kiln.Diameter / 2}}
			p.page.Clip(p.view.path(p.b.Chamber), func() { p.stroke(rod, frame.Ink().Filled(drawing.Grey(200))) })
			p.lines = append(p.lines, plane.Skeleton{probe.Inner, probe.Tip})
			add(probe.Kiln.At, "probe")
		}
	}
	for i := range p.b.Spies {
		spy := &p.b.Spies[i]
		if p.inStorey(spy.Height) || p.watched(i+1) {
			p.notch(spy)
			add(spy.Kiln.At, "spyhole")
		}
	}
	return marks
}

// inStorey tells whether a height lies in a storey of the plan.
func (p *plan) inStorey(z float64) bool {
	for _, l := range p.levels {
		if at := &p.b.Levels[l]; z > at.Top-1 && z < at.Ceiling+1 {
			return true
		}
	}
	return false
}

// watched tells whether cones of the plan face spyhole n, counted from 1.
func (p *plan) watched(n int) bool {
	for i := range p.pots {
		if c := p.b.Pots[p.pots[i].pot].Cones; c != nil && c.Watched && c.Spyhole == n {
			return true
		}
	}
	return false
}

// notch marks a spyhole on the inside of the wall.
func (p *plan) notch(spy *stacks.Spy) {
	at := p.view.point(spy.Mouth)
	inward := plane.Bearing(spy.Inward)
	in := at.Toward(inward, 2.6)
	back := at.Toward(inward, -2)
	p.page.Clip(p.view.path(p.b.Chamber), func() {
		p.page.Polygon([]drawing.Point{
			back.Toward(inward+90, 3.2), in.Toward(inward+90, 1.4), in.Toward(inward-90, 1.4), back.Toward(inward-90, 3.2),
		}, frame.Ink().Filled(drawing.White))
	})
	p.lines = append(p.lines, plane.Skeleton{spy.Mouth, plane.Add(spy.Mouth, plane.Scale(spy.Inward, 3.2/p.view.scale))})
}

// shelves draws the shelves of the plan's levels.
func (p *plan) shelves() {
	for _, l := range p.levels {
		for _, s := range p.b.Levels[l].Shelves {
			p.page.Path(p.view.path(p.b.Shelves[s].Outline), frame.Ink())
		}
	}
}

// length shows a gap, never larger than it is.
func (p *plan) length(mm float64) string {
	return measure.FormatLengthTo(mm, p.page.Sheet.Units, measure.Down, measure.PostGrain)
}
