package levels

import (
	"math"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// labelled is a block of lines that tells what a shape is.
type labelled struct {
	words []string
	style []drawing.TextStyle
}

// paperLabels names every pot, post and cone pack within a tile, none of them
// cut by its border.
func (p *plan) paperLabels(t *tiling, c cell) {
	lo, hi := t.box(c)
	tile, err := plane.Polygon([]plane.Vec{lo, {hi[0], lo[1]}, hi, {lo[0], hi[1]}})
	if err != nil {
		return
	}
	for i := range p.pots {
		p.paperPot(&p.pots[i], tile)
	}
	k := 0
	for _, l := range p.levels {
		for _, i := range standingOn(p.o, l) {
			p.paperPost(&p.b.Posts[i], p.posts[k], tile)
			k++
		}
	}
}

// paperPot sets number and name in a pot.
func (p *plan) paperPot(f *figure, tile plane.Outline) {
	pot := &p.b.Pots[f.pot]
	o := f.body.outline()
	words := frame.Text(frame.HeadSize).Haloed(3)
	if f.cones {
		name := "cones"
		for _, c := range pot.Cones.Cones {
			name += " " + string(c)
		}
		white := frame.Text(frame.HeadSize).Haloed(8)
		p.fit(pot.At, o, tile, nil, f, labelled{[]string{name}, []drawing.TextStyle{white}}, labelled{[]string{"cones"}, []drawing.TextStyle{white}})
		return
	}
	name := p.kinds[pot.Kind].name
	if smaller(f.foot, f.body) {
		name += ", foot here"
	}
	number := digits(f.number)
	if lo, hi := tile.Bounds(); f.far(plane.Skeleton{lo, hi}, 0) {
		return
	}
	if p.paperMiddle(f, tile, number, name) {
		return
	}
	var list []labelled
	for _, size := range [...]float64{36, 26} {
		style := frame.Heavy(size).Haloed(4)
		for _, say := range [...]string{name, p.kinds[pot.Kind].name} {
			list = append(list, labelled{[]string{number, say}, []drawing.TextStyle{style, words}})
		}
	}
	for _, size := range [...]float64{36, 26, 18, 12} {
		list = append(list, labelled{[]string{number}, []drawing.TextStyle{frame.Heavy(size).Haloed(4)}})
	}
	plus := pot.At
	p.fit(pot.At, o, tile, &plus, f, list...)
}

// paperMiddle sets the number over the cross in the middle of a pot and the
// name under it, and says whether there was room.
func (p *plan) paperMiddle(f *figure, tile plane.Outline, number, name string) bool {
	pot := &p.b.Pots[f.pot]
	o := f.body.outline()
	big, text := frame.Heavy(36).Haloed(4), frame.Text(frame.HeadSize+2).Haloed(3)
	w, h := p.size(number, big)
	tw, th := p.size(name, text)
	up := plane.Add(pot.At, plane.Vec{0, plusArm + 3.4 + h/2})
	down := plane.Sub(pot.At, plane.Vec{0, plusArm + 4.4 + th/2})
	for _, b := range []plane.Skeleton{p.box(up, w, h), p.box(down, tw, th+2)} {
		if deep(b, o) < 1 || !onTile(b, tile) || !p.alone(b, f) {
			return false
		}
	}
	p.label(up, number, big)
	p.label(down, name, text)
	return true
}

// onTile tells whether a box keeps inside a tile and off the marks at its
// corners.
func onTile(box plane.Skeleton, tile plane.Outline) bool {
	lo, hi := tile.Bounds()
	if box[0][0] < lo[0]+1.5 || box[0][1] < lo[1]+1.5 || box[2][0] > hi[0]-1.5 || box[2][1] > hi[1]-1.5 {
		return false
	}
	for _, mark := range [...]plane.Vec{lo, hi, {lo[0], hi[1]}, {hi[0], lo[1]}} {
		if _, off := box.Nearest(mark); off < 7 {
			return false
		}
	}
	return true
}

// paperPost sets letter and make-up in a post.
func (p *plan) paperPost(post *stacks.Post, q part, tile plane.Outline) {
	s := p.page.Sheet
	up := strings.ReplaceAll(s.MakeUp(post.MakeUp), "+", " + ")
	up = strings.ReplaceAll(strings.ReplaceAll(up, "\u00a0", " "), "  ", " ")
	var list []labelled
	for _, sizes := range [...][2]float64{{30, 14}, {24, 12}, {20, 10}} {
		letter, small := frame.Heavy(sizes[0]).In(drawing.White), frame.Text(sizes[1]).In(drawing.White)
		list = append(list, labelled{[]string{post.Letter, up}, []drawing.TextStyle{letter, small}})
		if cut := strings.LastIndex(up, " + "); cut > 0 {
			list = append(list, labelled{[]string{post.Letter, up[:cut], up[cut+1:]}, []drawing.TextStyle{letter, small, small}})
		}
	}
	for _, size := range [...]float64{30, 20, 12} {
		list = append(list, labelled{[]string{post.Letter}, []drawing.TextStyle{frame.Heavy(size).In(drawing.White)}})
	}
	p.fit(post.At, q.outline(), tile, nil, nil, list...)
}

// fit sets the first of several labels for which there is room in an outline
// within the tile, clear of the cross at plus and of all other pots, nearest
// to a place. Where none has room, pots and cross may lie under it.
func (p *plan) fit(at plane.Vec, o, tile plane.Outline, plus *plane.Vec, own *figure, list ...labelled) {
	lo, hi := o.Bounds()
	tlo, thi := tile.Bounds()
	lo = plane.Vec{math.Max(lo[0], tlo[0]), math.Max(lo[1], tlo[1])}
	hi = plane.Vec{math.Min(hi[0], thi[0]), math.Min(hi[1], thi[1])}
	if lo[0] >= hi[0] || lo[1] >= hi[1] {
		return // not on this tile
	}
	for _, strict := range [...]bool{true, false} {
		for _, l := range list {
			wide, high := p.block(l)
			best, spot, found := math.Inf(1), plane.Vec{}, false
			try := func(v plane.Vec) {
				off := plane.Distance(v, at)
				b := p.box(v, wide, high+1)
				if off >= best || !onTile(b, tile) || deep(b, o) < 0.9 {
					return
				}
				if strict && (!p.alone(b, own) || (plus != nil && b.Distance(plane.Skeleton{*plus}) <= plusArm+1)) {
					return
				}
				best, spot, found = off, v, true
			}
			try(at)
			for x := lo[0] + 1; x < hi[0] && best > 0; x += 2 {
				for y := lo[1] + 1; y < hi[1]; y += 2 {
					try(plane.Vec{x, y})
				}
			}
			if found {
				p.setBlock(l, spot, high)
				return
			}
		}
	}
}

// lineOver is the white between the lines of a label, mm.
const lineOver = 2.2

// block is what the lines of a label cover, mm.
func (p *plan) block(l labelled) (wide, high float64) {
	for i, w := range l.words {
		tw, th := p.size(w, l.style[i])
		wide, high = math.Max(wide, tw), high+th
		if i > 0 {
			high += lineOver
		}
	}
	return wide, high
}

// setBlock sets the lines of a label with their middle at a place.
func (p *plan) setBlock(l labelled, at plane.Vec, high float64) {
	top := at[1] + high/2
	for i, w := range l.words {
		_, th := p.size(w, l.style[i])
		p.label(plane.Vec{at[0], top - th/2}, w, l.style[i])
		top -= th + lineOver
	}
}

// alone tells whether a box keeps clear of all other pots.
func (p *plan) alone(box plane.Skeleton, own *figure) bool {
	for i := range p.pots {
		f := &p.pots[i]
		if (own != nil && f.pot == own.pot) || f.far(box, 1) {
			continue
		}
		for _, q := range f.parts() {
			if box.Distance(q.Skeleton)-q.Radius < 0.6 {
				return false
			}
		}
	}
	return true
}
