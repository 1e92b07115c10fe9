package elevation

import (
	"math"
	"sort"

	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// Shown are the letters of the lines that are seen from the front: of lines
// that stand behind each other only the nearest.
func Shown(b *stacks.Built) []stacks.Letter {
	order := append([]stacks.Letter(nil), b.Letters...)
	sort.SliceStable(order, func(i, j int) bool {
		if order[i].At[1] != order[j].At[1] {
			return order[i].At[1] < order[j].At[1]
		}
		return order[i].Name < order[j].Name
	})
	width := widestPost(b)
	var shown []stacks.Letter
	for _, l := range order {
		free := true
		for _, s := range shown {
			free = free && math.Abs(s.At[0]-l.At[0]) >= width
		}
		if free {
			shown = append(shown, l)
		}
	}
	sort.SliceStable(shown, func(i, j int) bool { return shown[i].At[0] < shown[j].At[0] })
	return shown
}

// widestPost is the width of the widest post in the load, mm.
func widestPost(b *stacks.Built) float64 {
	w := 0.0
	for i := range b.Posts {
		for _, p := range b.Posts[i].Pieces {
			w = math.Max(w, p.Kind.Section.Width)
		}
	}
	if w == 0 {
		return 38
	}
	return w
}

// posts draws the posts of the lines that are seen, over the ware, so that
// their figures can be read, and the lines' letters under the floor.
func (d *draught) posts() {
	shown := map[string]bool{}
	letters := Shown(d.b)
	for _, l := range letters {
		shown[l.Name] = true
	}
	for i := range d.b.Posts {
		p := &d.b.Posts[i]
		if !shown[p.Letter] {
			continue
		}
		for _, piece := range p.Pieces {
			d.piece(p.At[0], piece)
		}
	}
	if !d.o.Letters {
		return
	}
	style := frame.Strong(d.o.Size).Held(drawing.Middle)
	y := d.v.Bottom() + d.pen.Fonts().CapHeight(style) + 1.4
	last := math.Inf(-1)
	for _, l := range letters {
		w := d.pen.TextWidth(l.Name, style)
		x := math.Max(d.v.X(l.At[0]), last+w/2+0.8)
		d.pen.Text(x, y, l.Name, style)
		last = x + w/2
	}
}

// piece draws one piece of a post; a spacer is solid ink.
func (d *draught) piece(x float64, p stacks.Piece) {
	w := p.Kind.Section.Width / d.v.Per
	h := (p.Top - p.Bottom) / d.v.Per
	left, top := d.v.X(x)-w/2, d.v.Y(p.Top)
	if p.Kind.Spacer {
		d.pen.Rect(left, top, w, h, drawing.Solid(drawing.Black))
		return
	}
	d.pen.Rect(left, top, w, h, d.near().Filled(drawing.White))
	if d.o.Figure == nil {
		return
	}
	style := frame.Strong(d.o.Size)
	figure := d.o.Figure(p.Kind.Height)
	cap := d.pen.Fonts().CapHeight(style)
	if d.pen.TextWidth(figure, style) > h-0.8 || cap > w-0.5 {
		return
	}
	d.pen.Text(left+w/2+cap/2, top+h/2, figure, style.Held(drawing.Middle).Turned(270))
}
