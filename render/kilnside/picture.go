package kilnside

import (
	"math"
	"strconv"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
	"threepost/render/views"
)

// Picture is marks in mm, x right and y down, with the box they lie in. Class
// says what a mark is; what it looks like, and that it waits, is done now or
// stands, is the page's.
type Picture struct {
	Box   [4]float64   `json:"box"` // x, y, width, height
	Marks []views.Mark `json:"marks"`

	level string // of posts that changed: the id of the level that they stand on
}

// outline is a ring as path data.
func outline(o plane.Outline) string {
	var d strings.Builder
	for i, e := range o.Edges() {
		if i == 0 {
			d.WriteString("M" + spot(e.From))
		}
		if e.Kind == plane.Line {
			d.WriteString("L" + spot(e.To))
			continue
		}
		// The ring runs counter-clockwise; the picture looks from above with y
		// down, where that is SVG's sweep 0.
		r := number(e.Radius)
		if e.Sweep() > 179 {
			mid := plane.Add(e.Center, plane.Rotate(plane.Sub(e.From, e.Center), -e.Sweep()/2))
			d.WriteString("A" + r + " " + r + " 0 0 0 " + spot(mid))
		}
		d.WriteString("A" + r + " " + r + " 0 0 0 " + spot(e.To))
	}
	if d.Len() > 0 {
		d.WriteString("Z")
	}
	return d.String()
}

// widened is the ring round a drawn part where it stands; the zero outline for
// one without area.
func widened(w stacks.Widened, at plane.Vec, turn float64) plane.Outline {
	return ringOf(w.Skeleton.At(plane.Pose{At: at, Turn: turn}), w.Radius)
}

func ringOf(s plane.Skeleton, r float64) plane.Outline {
	if r > 0 {
		if o, err := plane.Widened(s, r); err == nil {
			return o
		}
	}
	if o, err := plane.Polygon(s); err == nil && len(s) > 2 {
		return o
	}
	return plane.Outline{}
}

// postRing is the plan of a post.
func postRing(p *stacks.Post) plane.Outline {
	if len(p.Solid.Body.Parts) == 0 {
		return ringOf(plane.Skeleton{p.At}, 15)
	}
	return ringOf(p.Solid.Skeleton(0), p.Solid.Body.Parts[0].Profile.Max())
}

// spot is a place of the kiln in path data.
func spot(v plane.Vec) string { return number(v[0]) + " " + number(-v[1]) }

// number writes a coordinate to a tenth of a mm, never as minus zero.
func number(x float64) string {
	return strconv.FormatFloat(tenth(x), 'f', -1, 64)
}

func tenth(x float64) float64 {
	if y := math.Round(x*10) / 10; y != 0 {
		return y
	}
	return 0
}

// box is a growing box in the picture's frame.
type box struct{ lo, hi plane.Vec }

func emptyBox() box {
	inf := math.Inf(1)
	return box{plane.Vec{inf, inf}, plane.Vec{-inf, -inf}}
}

// add grows the box round an outline of the kiln.
func (b *box) add(o plane.Outline) {
	if o.Empty() {
		return
	}
	lo, hi := o.Bounds()
	b.lo = plane.Vec{math.Min(b.lo[0], lo[0]), math.Min(b.lo[1], -hi[1])}
	b.hi = plane.Vec{math.Max(b.hi[0], hi[0]), math.Max(b.hi[1], -lo[1])}
}

func (b *box) empty() bool { return b.hi[0] < b.lo[0] }

// view is the box with a border, mm.
func (b *box) view(border float64) [4]float64 {
	if b.empty() {
		return [4]float64{}
	}
	return [4]float64{tenth(b.lo[0] - border), tenth(b.lo[1] - border), tenth(b.hi[0] - b.lo[0] + 2*border), tenth(b.hi[1] - b.lo[1] + 2*border)}
}

// within is the box cut to another.
func (b box) within(c box) box {
	return box{
		plane.Vec{math.Max(b.lo[0], c.lo[0]), math.Max(b.lo[1], c.lo[1])},
		plane.Vec{math.Min(b.hi[0], c.hi[0]), math.Min(b.hi[1], c.hi[1])},
	}
}
