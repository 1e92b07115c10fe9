package levels

import (
	"threepost/geometry/plane"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// Lines of a plan.
func footLine() drawing.Style   { return drawing.Outline(0.8).Dashed(1, 3).Rounded() }
func cookieLine() drawing.Style { return drawing.Outline(0.8).Dashed(6, 3) }
func underLine() drawing.Style  { return drawing.Outline(0.9).Dashed(2.5, 2.5) }

// pot draws one pot: handles, body, foot, cookie; a cone pack is hatched.
func (p *plan) pot(f *figure) {
	line := frame.Ink().Filled(drawing.White)
	for _, h := range f.handles {
		p.stroke(h, line)
	}
	p.stroke(f.body, line)
	if f.cones {
		p.page.Hatch(p.view.path(f.body.outline()), 1.5, frame.HatchLine())
		p.shows.cones = true
		return
	}
	p.shows.kinds[p.b.Pots[f.pot].Kind] = true
	if smaller(f.foot, f.body) {
		p.stroke(f.foot, footLine())
		p.shows.foot = true
	}
	if f.cookie != nil {
		p.stroke(*f.cookie, cookieLine())
		p.shows.cookie = true
	}
}

// smaller tells whether a foot lies visibly inside its body.
func smaller(foot, body part) bool {
	flo, fhi := foot.Bounds()
	blo, bhi := body.Bounds()
	return bhi[0]-blo[0]-(fhi[0]-flo[0]) > 4 || bhi[1]-blo[1]-(fhi[1]-flo[1]) > 4
}

// under dashes the outline of what lies under another's rim.
func (p *plan) under() {
	for i := range p.pots {
		for j := i + 1; j < len(p.pots); j++ {
			low, high := &p.pots[i], &p.pots[j]
			for _, q := range low.parts() {
				for _, over := range high.parts() {
					if gap, _, _ := over.Gap(q.Part); gap < -0.3 {
						p.shows.under = true
						p.page.Clip(p.view.path(over.outline()), func() { p.stroke(q, underLine()) })
					}
				}
			}
		}
	}
}

// passing draws the lines whose posts stand under a level but not on it,
// dashed, their letters between shelf and wall.
func (p *plan) passing() {
	for _, l := range p.levels {
		on := map[string]bool{}
		for _, i := range standingOn(p.o, l) {
			on[p.b.Posts[i].Letter] = true
		}
		for _, i := range p.b.Levels[l].Posts {
			if post := &p.b.Posts[i]; !on[post.Letter] {
				p.shows.passing = true
				p.stroke(postPart(post), underLine())
				p.ghosts = append(p.ghosts, postPart(post))
				p.outside(post.Letter, post.At)
			}
		}
	}
}

// outside sets the letter of a line between its shelf and the wall.
func (p *plan) outside(letter string, at plane.Vec) {
	bearing := plane.Bearing(at)
	edge := wall(p.b.Chamber, bearing)
	for _, l := range p.levels {
		for _, s := range p.b.Levels[l].Shelves {
			if o := p.b.Shelves[s].Outline; o.Contains(at) {
				lo, hi := 0.0, plane.Distance(at, edge)
				for range 30 {
					mid := (lo + hi) / 2
					if o.Contains(plane.Add(at, plane.FromBearing(mid, bearing))) {
						lo = mid
					} else {
						hi = mid
					}
				}
				edge = plane.Lerp(edge, plane.Add(at, plane.FromBearing(lo, bearing)), 0.5)
			}
		}
	}
	p.label(edge, letter, frame.Text(frame.SmallSize))
}

// standing draws the posts that stand on the levels, solid, with their letters
// in white.
func (p *plan) standing() {
	for _, l := range p.levels {
		for _, i := range standingOn(p.o, l) {
			post := &p.b.Posts[i]
			q := postPart(post)
			p.stroke(q, drawing.Solid(drawing.Black))
			style := frame.Heavy(frame.LegendSize)
			lo, hi := q.Bounds()
			least := min(hi[0]-lo[0], hi[1]-lo[1]) * p.view.scale
			if p.page.TextWidth(post.Letter, style)+1 > least || p.page.Sheet.Fonts.CapHeight(style)+1 > least {
				p.beside(post.Letter, q)
				continue
			}
			p.label(post.At, post.Letter, style.In(drawing.White))
		}
	}
}
