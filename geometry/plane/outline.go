package plane

import "math"

// EdgeKind tells a straight edge from an arc.
type EdgeKind int

const (
	// Line is a straight edge.
	Line EdgeKind = iota
	// Arc is a part of a circle, or the whole of one when From equals To.
	Arc
)

// Edge is one piece of an outline, walked counter-clockwise, mm. Center and
// Radius are those of an arc.
type Edge struct {
	Kind             EdgeKind
	From, To, Center Vec
	Radius           float64
}

// Sweep is how far an arc turns, degrees counter-clockwise, up to 360; 0 for
// a straight edge.
func (e Edge) Sweep() float64 {
	if e.Kind == Line {
		return 0
	}
	if e.From == e.To {
		return 360
	}
	return NormalTurn(Bearing(Sub(e.From, e.Center)) - Bearing(Sub(e.To, e.Center)))
}

// Outline is a convex plan shape bounded by a ring of straight edges and
// arcs: a chamber, a shelf, a foot. The zero value is no shape: it holds
// nothing and everything lies infinitely far from it.
//
//	      ___arc___
//	    /           \        every arc bulges outwards, and either
//	line             line    its whole disc holds the outline (half
//	    \___line____/        round) or its disc's sector lies in it
type Outline struct{ edges []ringEdge }

// ringEdge is an edge with what the distances ask for again and again.
type ringEdge struct {
	Edge
	in    Vec  // unit inward normal of a line
	wide  bool // the arc turns more than 180 degrees
	full  bool // the arc is a circle
	whole bool // the arc's disc holds the whole outline
	slack float64
}

// coneSlack, times the radius in mm, is how far in mm a point may lie beside
// an arc's cone and still count as in it, so that a point beyond the joint of
// an arc and a line is never lost between the two by rounding.
const coneSlack = 1e-9

func newRingEdge(e Edge, whole bool) ringEdge {
	r := ringEdge{Edge: e}
	if e.Kind == Line {
		r.in = Unit(Left(Sub(e.To, e.From)))
		return r
	}
	r.full = e.From == e.To
	r.wide = Cross(Sub(e.From, e.Center), Sub(e.To, e.Center)) < 0
	r.whole = whole || r.full
	r.slack = float64(coneSlack * e.Radius)
	return r
}

// inCone tells whether direction d from the centre looks at the arc.
func (r *ringEdge) inCone(d Vec) bool {
	if r.full {
		return true
	}
	u, v := Sub(r.From, r.Center), Sub(r.To, r.Center)
	if r.wide {
		return !(Cross(v, d) > r.slack && Cross(d, u) > r.slack)
	}
	return Cross(u, d) >= -r.slack && Cross(d, v) >= -r.slack
}

// Empty tells whether o is the zero outline.
func (o Outline) Empty() bool { return len(o.edges) == 0 }

// Edges are the pieces of the ring, counter-clockwise, for drawing.
func (o Outline) Edges() []Edge {
	list := make([]Edge, len(o.edges))
	for i, e := range o.edges {
		list[i] = e.Edge
	}
	return list
}

// At is the outline where the pose puts it.
func (o Outline) At(p Pose) Outline {
	sin, cos := SinCos(p.Turn)
	put := func(v Vec) Vec { return Add(rotateBy(v, sin, cos), p.At) }
	list := make([]ringEdge, len(o.edges))
	for i, e := range o.edges {
		moved := Edge{Kind: e.Kind, From: put(e.From), To: put(e.To), Center: put(e.Center), Radius: e.Radius}
		if e.Kind == Line {
			moved.Center = Vec{}
		}
		list[i] = newRingEdge(moved, e.whole)
		list[i].wide = e.wide
	}
	return Outline{edges: list}
}

// Support is the point of the outline farthest in direction dir.
func (o Outline) Support(dir Vec) Vec {
	best, at := math.Inf(-1), Vec{}
	take := func(v Vec) {
		if d := Dot(v, dir); d > best {
			best, at = d, v
		}
	}
	for i := range o.edges {
		e := &o.edges[i]
		take(e.From)
		if e.Kind == Arc && e.inCone(dir) {
			take(Add(e.Center, Scale(Unit(dir), e.Radius)))
		}
	}
	return at
}

// Bounds is the smallest upright rectangle round the outline.
func (o Outline) Bounds() (lo, hi Vec) {
	lo = Vec{o.Support(Vec{-1, 0})[0], o.Support(Vec{0, -1})[1]}
	hi = Vec{o.Support(Vec{1, 0})[0], o.Support(Vec{0, 1})[1]}
	return lo, hi
}

// Reach is the greatest distance of the outline from point p, mm.
func (o Outline) Reach(p Vec) float64 {
	far := 0.0
	for i := range o.edges {
		e := &o.edges[i]
		far = max(far, Distance(p, e.From))
		if d := Sub(e.Center, p); e.Kind == Arc && (Length(d) == 0 || e.inCone(d)) {
			far = max(far, Length(d)+e.Radius)
		}
	}
	return far
}

// Points is a polygon drawn in the outline, counter-clockwise, whose sides
// keep within sag (mm, at least 1e-6) of the arcs.
func (o Outline) Points(sag float64) []Vec {
	sag = max(sag, 1e-6)
	var list []Vec
	for _, e := range o.edges {
		list = append(list, e.From)
		if e.Kind == Line {
			continue
		}
		start := Bearing(Sub(e.From, e.Center))
		sweep := e.Sweep()
		// the sag of a chord over an angle a is r (1 - cos a/2), about r a^2/8
		step := float64(math.Sqrt(8*min(sag/e.Radius, 0.25)) * degreesPerRadian)
		n := int(math.Ceil(sweep / step))
		for k := 1; k < n; k++ {
			list = append(list, Add(e.Center, FromBearing(e.Radius, start-float64(sweep*float64(k)/float64(n)))))
		}
	}
	return list
}
