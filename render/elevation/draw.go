package elevation

import (
	"math"
	"sort"

	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// Options say what to write in an elevation.
type Options struct {
	Figure  func(mm float64) string // the height of a post; nil writes none
	Letters bool                    // the letters of the lines under the floor
	Size    float64                 // of the type, pt; 0 means 12
}

// Draw draws the elevation of a built load.
func Draw(pen *drawing.Pen, v View, b *stacks.Built, o Options) {
	if o.Size == 0 {
		o.Size = frame.TextSize
	}
	d := &draught{pen: pen, v: v, b: b, o: o}
	d.brick()
	d.pots()
	d.probes()
	d.shelves()
	d.posts()
}

// draught is an elevation being drawn.
type draught struct {
	pen *drawing.Pen
	v   View
	b   *stacks.Built
	o   Options
}

// brick draws wall, lid and floor, hatched, and the chamber's inside white.
func (d *draught) brick() {
	v := d.v
	left, right := v.X(v.left), v.X(v.right)
	for _, part := range []drawing.Path{
		drawing.Rect(v.Left(), v.Top(), v.Right()-v.Left(), lidShown),
		drawing.Rect(v.Left(), v.Y(v.height), wallShown, v.height/v.Per),
		drawing.Rect(right, v.Y(v.height), wallShown, v.height/v.Per),
		drawing.Rect(v.Left(), v.Floor, v.Right()-v.Left(), floorShown),
	} {
		d.pen.Hatch(part, frame.HatchGap, frame.HatchLine())
	}
	d.pen.Rect(v.Left(), v.Top(), v.Right()-v.Left(), v.Bottom()-v.Top(), frame.Hair())
	d.pen.Rect(left, v.Y(v.height), right-left, v.height/v.Per, frame.Cut().Filled(drawing.White))
	d.pen.Line(v.Left(), v.Y(v.height), v.Right(), v.Y(v.height), frame.Cut())
	for i := range d.b.Spies {
		d.spy(&d.b.Spies[i])
	}
}

// spy draws a spyhole that lies to the side as a gap in the wall.
func (d *draught) spy(s *stacks.Spy) {
	if math.Abs(s.Inward[0]) < 0.7 {
		return
	}
	across := s.Kiln.Diameter
	if across == 0 {
		across = 19
	}
	x := d.v.Left()
	if s.Mouth[0] > 0 {
		x = d.v.X(d.v.right)
	}
	y, h := d.v.Y(s.Height+across/2), across/d.v.Per
	d.pen.Rect(x, y, wallShown, h, drawing.Solid(drawing.White))
	d.pen.Line(x, y, x+wallShown, y, frame.Hair())
	d.pen.Line(x, y+h, x+wallShown, y+h, frame.Hair())
}

// pots draws the ware from the back to the front: what stands behind the
// middle in grey, the rest in ink.
func (d *draught) pots() {
	order := make([]int, len(d.b.Pots))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return d.b.Pots[order[i]].At[1] > d.b.Pots[order[j]].At[1] })
	type key struct {
		kind int
		turn float64
	}
	known := map[key]*Silhouette{}
	d.pen.Group(d.v.group(), func() {
		for _, i := range order {
			p := &d.b.Pots[i]
			k := key{p.Kind, p.Turn}
			if !p.Body.Turns {
				k.turn = 0
			}
			s := known[k]
			if s == nil {
				made := Of(p)
				s, known[k] = &made, &made
			}
			line := d.near()
			if p.At[1] > 0 {
				line = frame.Far()
			}
			s.Draw(d.pen, p.At[0], p.Z, line)
		}
	})
}

// near is the line round near ware and posts: thinner where all is small.
func (d *draught) near() drawing.Style {
	if d.v.Per > 10 {
		return drawing.Outline(0.8)
	}
	return frame.Ink()
}

// probes draws a probe as the tube it is, or its round end when it points
// at you.
func (d *draught) probes() {
	for i := range d.b.Probes {
		p := &d.b.Probes[i]
		r := p.Kiln.Diameter / 2
		x0, x1 := math.Min(p.Inner[0], p.Tip[0])-r, math.Max(p.Inner[0], p.Tip[0])+r
		if x1-x0 < 3*r {
			d.pen.Circle(d.v.X((x0+x1)/2), d.v.Y(p.Kiln.Height), r/d.v.Per, drawing.Solid(drawing.Black))
			continue
		}
		if p.Inner[0] < p.Tip[0] {
			x0 = math.Min(x0, d.v.left) - wallShown*d.v.Per
		} else {
			x1 = math.Max(x1, d.v.right) + wallShown*d.v.Per
		}
		h := math.Max(2*r/d.v.Per, 1)
		d.pen.Rect(d.v.X(x0), d.v.Y(p.Kiln.Height)-h/2, (x1-x0)/d.v.Per, h, drawing.Solid(drawing.Black))
	}
}

// shelves draws every shelf as a black slab.
func (d *draught) shelves() {
	for i := range d.b.Shelves {
		s := &d.b.Shelves[i]
		lo, hi := s.Outline.Bounds()
		d.pen.Rect(d.v.X(lo[0]), d.v.Y(s.Top), (hi[0]-lo[0])/d.v.Per, (s.Top-s.Bottom)/d.v.Per, drawing.Solid(drawing.Black))
	}
}
