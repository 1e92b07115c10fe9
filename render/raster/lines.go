package raster

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/render/scene"
)

// Widths of lines, px.
const (
	outlineWidth = 1.25
	creaseWidth  = 1.0
)

// lines draws the creases of all shown groups.
func (p *painter) lines() {
	for i := range p.s.Groups {
		g := &p.s.Groups[i]
		if !g.Shown {
			continue
		}
		m := &g.Mesh
		for k := range m.CreasePieces {
			p.crease(vec(m.Creases, 2*k), vec(m.Creases, 2*k+1), int32(m.CreasePieces[k]))
		}
	}
}

// crease draws one line a hair before the surface it lies on, over its own
// piece only, so that it neither shows through nor bleeds onto the ground.
func (p *painter) crease(a, b mgl64.Vec3, piece int32) {
	if p.o.Cut != nil {
		var ok bool
		if a, b, ok = kept(p.o.Cut, a, b); !ok {
			return
		}
	}
	ea, eb := p.toEye(a), p.toEye(b)
	if !p.cam.Parallel() && (-ea[2] < p.near || -eb[2] < p.near) {
		return
	}
	// as much nearer as a line lies before the surface: a share of the way
	lift := p.cam.Distance / 700
	ea[2], eb[2] = ea[2]+lift, eb[2]+lift
	sa, sb := p.spotOf(ea), p.spotOf(eb)
	dx, dy := sb.x-sa.x, sb.y-sa.y
	long := math.Hypot(dx, dy)
	half := creaseWidth * float64(p.n) / 2
	if long < 1e-6 {
		return
	}
	x0, x1 := span(sa.x-half, sb.x+half, sa.x+half, p.w)
	x2, x3 := span(sb.x-half, sb.x+half, sa.x, p.w)
	x0, x1 = min(x0, x2), max(x1, x3)
	y0, y1 := span(sa.y-half, sb.y+half, sa.y+half, p.h)
	y2, y3 := span(sb.y-half, sb.y+half, sa.y, p.h)
	y0, y1 = min(y0, y2), max(y1, y3)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			px, py := float64(x)+0.5-sa.x, float64(y)+0.5-sa.y
			t := math.Min(1, math.Max(0, (px*dx+py*dy)/(long*long)))
			if off := math.Hypot(px-t*dx, py-t*dy); off > half {
				continue
			}
			i := y*p.w + x
			if p.piece[i] != piece || float32(sa.d+(sb.d-sa.d)*t) < p.depth[i] || p.facing[i] >= creased {
				continue
			}
			p.facing[i] += creased
		}
	}
}

// creased is added to the facing of a sample that a crease covers, so that
// none is inked twice.
const creased = 64

// kept is the part of a line that a plane leaves.
func kept(cut *scene.Plane, a, b mgl64.Vec3) (mgl64.Vec3, mgl64.Vec3, bool) {
	if cut.Cuts(a) {
		a, b = b, a
	}
	if cut.Cuts(a) {
		return a, b, false
	}
	if !cut.Cuts(b) {
		return a, b, true
	}
	n := cut.Normal
	da := cut.Offset - (n[0]*a[0] + n[1]*a[1] + n[2]*a[2])
	db := cut.Offset - (n[0]*b[0] + n[1]*b[1] + n[2]*b[2])
	t := da / (da - db)
	for k := range 3 {
		b[k] = a[k] + (b[k]-a[k])*t
	}
	return a, b, true
}

// outlines inks the samples that lie within half a line of an edge: where the
// piece changes, or where one piece hides itself. Creases are inked first.
func (p *painter) outlines() {
	ink := p.s.Look.Ink
	for i := range p.facing {
		if f := p.facing[i]; f >= creased && f != 255 {
			p.colour[i] = p.colour[i].Mix(ink, p.s.Look.LineDown)
		}
	}
	edge := p.edges()
	reach := outlineWidth * float64(p.n) / 2
	r := int(math.Ceil(reach))
	weight := make([]float32, len(edge))
	for y := range p.h {
		for x := range p.w {
			switch edge[y*p.w+x] {
			case outline:
				p.dab(weight, x, y, r, reach)
			case hairline:
				weight[y*p.w+x] = max(weight[y*p.w+x], 0.45)
			}
		}
	}
	for i, t := range weight {
		if t > 0 {
			p.colour[i] = p.colour[i].Mix(ink, 0.94*t)
		}
	}
}

// dab lays a round dab of ink with a soft rim.
func (p *painter) dab(weight []float32, x, y, r int, reach float64) {
	for dy := -r; dy <= r; dy++ {
		for dx := -r; dx <= r; dx++ {
			u, v := x+dx, y+dy
			if u < 0 || v < 0 || u >= p.w || v >= p.h {
				continue
			}
			t := float32(math.Min(1, math.Max(0, reach+0.5-math.Hypot(float64(dx), float64(dy)))))
			i := v*p.w + u
			weight[i] = max(weight[i], t)
		}
	}
}

// Kinds of edges: a hairline bounds the bare kiln, an outline all that stands
// in it.
const (
	hairline = 1
	outline  = 2
)

// edges are the samples just on the near side of an edge.
func (p *painter) edges() []uint8 {
	edge := make([]uint8, len(p.depth))
	for y := range p.h {
		for x := range p.w {
			i := y*p.w + x
			if x+1 < p.w {
				p.edge(edge, i, i+1)
			}
			if y+1 < p.h {
				p.edge(edge, i, i+p.w)
			}
		}
	}
	return edge
}

// edge marks the nearer of two neighbours when there is an edge between them.
func (p *painter) edge(edge []uint8, i, j int) {
	a, b := p.piece[i], p.piece[j]
	nearer := i
	if p.depth[j] > p.depth[i] {
		nearer = j
	}
	switch {
	case a <= 0 && b <= 0:
		if a != b {
			edge[nearer] = max(edge[nearer], hairline)
		}
	case a != b || p.apart(i, j, 14):
		edge[nearer] = outline
	}
}

// apart tells whether two samples lie more than mm apart in depth.
func (p *painter) apart(i, j int, mm float64) bool {
	a, b := float64(p.depth[i]), float64(p.depth[j])
	if math.IsInf(a, 0) || math.IsInf(b, 0) {
		return true
	}
	if p.cam.Parallel() {
		return math.Abs(a-b) > mm
	}
	return math.Abs(1/a-1/b) > mm
}
