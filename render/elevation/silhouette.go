package elevation

import (
	"math"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/render/drawing"
)

// Silhouette is a pot from the side, in mm: u to the right of its middle, z
// up from the shelf, without allowances.
type Silhouette struct {
	pieces   []drawing.Path // in order of painting, each filled white and outlined
	Min, Max float64        // how far it reaches to the left and right, mm
	Top      float64        // mm over the shelf
}

// Of is the silhouette of a set pot, turned as it stands.
func Of(p *stacks.Pot) Silhouette { return kindOf(p.Body, p.Ware, p.Cones, p.Turn) }

// Aside is the silhouette of a pot with its handle to the right, as it stands
// on a board.
func Aside(p *stacks.Pot) Silhouette {
	turn := 0.0
	if p.Ware != nil && !silhouette.Oblong(p.Ware) {
		turn = 90
	}
	return kindOf(p.Body, p.Ware, p.Cones, turn)
}

// AsideOf is Aside for a row of ware of which nothing need be set.
func AsideOf(b *stacks.Body, w *layout.Ware) Silhouette {
	turn := 90.0
	if silhouette.Oblong(w) {
		turn = 0
	}
	return kindOf(b, w, nil, turn)
}

// Pieces are the closed paths of the silhouette in order of painting, each
// hiding what was painted before it: u to the right, z up, mm.
func (s *Silhouette) Pieces() []drawing.Path { return s.pieces }

func kindOf(b *stacks.Body, w *layout.Ware, cones *layout.ConePack, turn float64) Silhouette {
	var s Silhouette
	if w == nil {
		s.cones(b, cones, turn)
	} else {
		s.pot(b, w, turn)
	}
	s.bounds()
	return s
}

// pot draws cookie or stilt, what stands behind the body, the body, the lid
// and what stands before it.
func (s *Silhouette) pot(b *stacks.Body, w *layout.Ware, turn float64) {
	s.stand(b, turn)
	filled, _, err := silhouette.Fill(*w)
	if err != nil {
		filled = *w // Build has refused such a row long before
	}
	half := halfWidth(b.Drawn.Body, turn)
	length := 0.0
	for _, k := range filled.Profile {
		length = math.Max(length, k.Diameter)
	}
	if length <= 0 {
		length = 2 * half
	}
	body := newSide(filled.Profile, half/length)
	up := b.StandH
	for _, h := range filled.Handles {
		s.limb(body, h, turn, up, true)
	}
	if filled.Spout != nil {
		s.spout(body, *filled.Spout, turn, up)
	}
	for i := max(filled.Nested, 1) - 1; i >= 0; i-- {
		s.pieces = append(s.pieces, body.outline(up+float64(filled.Adds*float64(i))))
	}
	if b.Drawn.Knob > 0 && len(body.z) > 0 {
		n := len(body.z) - 1
		s.lid(body.r[n], body.z[n]+up+float64(filled.Adds*float64(max(filled.Nested, 1)-1)), b.Drawn.Knob)
	}
	for _, h := range filled.Handles {
		s.limb(body, h, turn, up, false)
	}
}

// halfWidth is half the width that is seen of a plan turned clockwise.
func halfWidth(w stacks.Widened, turn float64) float64 {
	lo, hi := w.Skeleton.At(plane.Pose{Turn: turn}).Bounds()
	return (hi[0]-lo[0])/2 + w.Radius
}

// stand draws a cookie as a slab, stilts and wads as what is seen of them.
func (s *Silhouette) stand(b *stacks.Body, turn float64) {
	if b.StandH <= 0 {
		return
	}
	half := b.Stand.Across / 2
	if b.Drawn.Cookie != nil {
		half = halfWidth(*b.Drawn.Cookie, turn)
	}
	switch b.Stand.Kind {
	case layout.Stilt:
		s.pieces = append(s.pieces,
			drawing.Polygon(drawing.At(-half, 0), drawing.At(-half+2, b.StandH), drawing.At(-half+4, 0)),
			drawing.Polygon(drawing.At(half-4, 0), drawing.At(half-2, b.StandH), drawing.At(half, 0)))
	case layout.Wads:
		r := b.StandH / 2
		foot := math.Max(0, halfWidth(b.Drawn.Foot, turn)-2*r)
		for _, u := range []float64{-foot, 0, foot} {
			s.pieces = append(s.pieces, drawing.Circle(u, r, r))
		}
	default:
		s.pieces = append(s.pieces, drawing.Rect(-half, 0, 2*half, b.StandH))
	}
}

// strap is how thick a handle is from the side, mm (common practice).
const strap = 9

// limb draws a handle as a loop when it points sideways, as an upright strap
// when it points at you. Behind tells whether to draw those that the body
// hides in part, or those before it.
func (s *Silhouette) limb(body side, h layout.Handle, turn, up float64, behind bool) {
	sin, cos := plane.SinCos(turn + h.At)
	if (cos > -0.5) != behind {
		return
	}
	reach := body.most() + h.Reach
	if math.Abs(sin) < 0.4 {
		mid := sin * (reach - strap)
		w := math.Max(h.Thick, strap) / 2
		s.pieces = append(s.pieces, drawing.RoundedRect(mid-w, h.From+up, 2*w, h.To-h.From, w))
		return
	}
	t := math.Min(strap, (h.To-h.From)/3)
	t = math.Min(t, h.Reach/2)
	loop := func(from, to, end float64) drawing.Path {
		r0, r1 := body.at(from)-2, body.at(to)-2
		c := (end - (r0+r1)/8) * 4 / 3
		var p drawing.Path
		p.Move(drawing.At(float64(sin*r0), from+up))
		p.Cubic(drawing.At(float64(sin*c), from+up), drawing.At(float64(sin*c), to+up), drawing.At(float64(sin*r1), to+up))
		return p
	}
	outer, inner := loop(h.From, h.To, reach), loop(h.From+t, h.To-t, reach-t)
	ring := append(drawing.Path(nil), outer...)
	ring.Line(inner[1].P[2])
	back := inner[1]
	ring.Cubic(back.P[1], back.P[0], inner[0].P[0]).Close()
	s.pieces = append(s.pieces, ring)
}

// spout draws what points sideways of a spout or a lip.
func (s *Silhouette) spout(body side, h layout.Handle, turn, up float64) {
	sin, _ := plane.SinCos(turn + h.At)
	if math.Abs(sin) < 0.3 {
		return
	}
	tip := sin * (body.most() + h.Reach)
	low, high := h.From, h.From+float64(0.45*(h.To-h.From))
	r0, r1 := sin*(body.at(low)-2), sin*(body.at(high)-2)
	mouth := math.Copysign(math.Min(9, h.Reach/2), sin)
	var p drawing.Path
	p.Move(drawing.At(r0, low+up))
	p.Cubic(drawing.At((r0+tip)/2, low+up), drawing.At(tip-float64(0.6*mouth), high+up), drawing.At(tip, h.To+up))
	p.Line(drawing.At(tip-mouth, h.To+up))
	p.Cubic(drawing.At(tip-float64(1.3*mouth), high+up), drawing.At((r1+tip)/2-mouth, high+up), drawing.At(r1, high+up))
	p.Close()
	s.pieces = append(s.pieces, p)
}

// lid draws a lid of radius r on height z with its knob, together knob high.
func (s *Silhouette) lid(r, z, knob float64) {
	band, dome := float64(knob*0.12), float64(knob*0.5)
	k := math.Min(r/2, math.Max(knob*0.32, 4))
	var p drawing.Path
	p.Move(drawing.At(r+1, z)).Line(drawing.At(r+1, z+band))
	p.Cubic(drawing.At(float64(r*0.8), z+dome), drawing.At(k, z+dome), drawing.At(float64(k*0.6), z+dome))
	p.Line(drawing.At(k, z+float64(knob*0.75)))
	p.Cubic(drawing.At(k, z+knob), drawing.At(k, z+knob), drawing.At(float64(k*0.5), z+knob))
	p.Line(drawing.At(-float64(k*0.5), z+knob))
	p.Cubic(drawing.At(-k, z+knob), drawing.At(-k, z+knob), drawing.At(-k, z+float64(knob*0.75)))
	p.Line(drawing.At(-float64(k*0.6), z+dome))
	p.Cubic(drawing.At(-k, z+dome), drawing.At(-float64(r*0.8), z+dome), drawing.At(-r-1, z+band))
	p.Line(drawing.At(-r-1, z)).Close()
	s.pieces = append(s.pieces, p)
}

// cones draws a pack: leaning cones in a pad of clay.
func (s *Silhouette) cones(b *stacks.Body, c *layout.ConePack, turn float64) {
	half := halfWidth(b.Drawn.Body, turn)
	n := 3
	if c != nil && len(c.Cones) > 0 {
		n = min(len(c.Cones), 6)
	}
	pad := math.Min(15, b.Height/3)
	room := 2 * half * 0.84 / float64(n)
	for i := range n {
		u := -half*0.84 + float64(room*float64(i))
		w := math.Min(room*0.75, 13)
		s.pieces = append(s.pieces, drawing.Polygon(
			drawing.At(u, pad-1), drawing.At(u+float64(w*0.75), b.Height), drawing.At(u+float64(w*0.95), b.Height), drawing.At(u+w, pad-1)))
	}
	s.pieces = append(s.pieces, drawing.RoundedRect(-half, 0, 2*half, pad, 2))
}

// bounds measures what was drawn by its points; controls of curves may lie a
// little outside.
func (s *Silhouette) bounds() {
	first := true
	for _, p := range s.pieces {
		for _, seg := range p {
			at := seg.P[0]
			switch seg.Op {
			case drawing.Close:
				continue
			case drawing.CubicTo:
				at = seg.P[2]
				mid := (seg.P[0].X*3 + seg.P[1].X*3 + 2*seg.P[2].X) / 8
				s.Min, s.Max = math.Min(s.Min, mid), math.Max(s.Max, mid)
			}
			if first {
				s.Min, s.Max, first = at.X, at.X, false
			}
			s.Min, s.Max, s.Top = math.Min(s.Min, at.X), math.Max(s.Max, at.X), math.Max(s.Top, at.Y)
		}
	}
}

// Draw draws the pot with its middle u mm right and its foot z mm up in the
// pen's group, in which z runs up. It hides what was drawn behind it.
func (s *Silhouette) Draw(pen *drawing.Pen, u, z float64, line drawing.Style) {
	pen.Group(drawing.Move(u, z), func() {
		for _, p := range s.pieces {
			pen.Path(p, line.Filled(drawing.White))
		}
	})
}
