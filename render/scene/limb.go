package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout"
)

// strap is how thick a handle is from the side, mm (common practice).
const strap = 9

// station is a place along a limb: how far out on its bearing, how high, and
// half its section across and along.
type station struct{ out, up, across, along float64 }

// edge is how far the outside lies on a bearing at a height over the foot.
func (p *potter) edge(bearing, z float64) float64 {
	return p.plan.exit(bearing) * p.share(p.side.at(z))
}

// handle lays a handle as a bent strap, or as a lug where it is low.
func (p *potter) handle(h layout.Handle) {
	most := p.plan.exit(h.At)
	reach := most + h.Reach
	high := h.To - h.From
	if high < 26 || high < 0.6*h.Reach {
		p.lug(h, reach)
		return
	}
	t := math.Min(math.Min(strap, high/3), h.Reach/2)
	lo, hi := h.From+t/2, h.To-t/2
	r0, r1 := p.edge(h.At, hi)-p.thick*0.7, p.edge(h.At, lo)-p.thick*0.7
	end := reach - t/2
	c := (end - (r0+r1)/8) * 4 / 3
	const n = 11
	var list []station
	for i := 0; i <= n; i++ {
		s := float64(i) / n
		u := 1 - s
		x := u*u*u*r0 + 3*u*u*s*c + 3*u*s*s*c + s*s*s*r1
		z := u*u*u*hi + 3*u*u*s*hi + 3*u*s*s*lo + s*s*s*lo
		flare := 1 - 0.22*math.Sin(math.Pi*s)
		list = append(list, station{x, z + p.up, h.Thick / 2 * flare, t / 2})
	}
	p.tube(h.At, list)
}

// lug lays a solid knob of clay.
func (p *potter) lug(h layout.Handle, reach float64) {
	mid, half := (h.From+h.To)/2+p.up, (h.To-h.From)/2
	r0 := p.edge(h.At, (h.From+h.To)/2) - p.thick*0.7
	along := func(s float64) float64 { return r0 + (reach-r0)*s }
	p.tube(h.At, []station{
		{along(0), mid, h.Thick / 2, half}, {along(0.55), mid, h.Thick / 2, half}, {along(0.85), mid, h.Thick / 2 * 0.85, half * 0.8},
		{along(1), mid, h.Thick / 2 * 0.5, half * 0.45},
	})
}

// spout lays a teapot's spout, or pulls the rim of a jug into a lip.
func (p *potter) spout(h layout.Handle) {
	if h.Reach < 0.2*(h.To-h.From)+4 || h.Reach < 9 || h.From > 0.7*p.side.top() {
		p.lip(h)
		return
	}
	reach := p.plan.exit(h.At) + h.Reach
	high := h.To - h.From
	z0 := h.From + 0.26*high
	r0 := p.edge(h.At, z0) - p.thick*0.8
	w := h.Thick / 2
	tip := w * 0.72
	x1 := reach - tip
	const n = 9
	var list []station
	for i := 0; i <= n; i++ {
		s := float64(i) / n
		u := 1 - s
		x := u*u*u*r0 + 3*u*u*s*(r0+(x1-r0)*0.62) + 3*u*s*s*(r0+(x1-r0)*0.72) + s*s*s*x1
		z := u*u*u*z0 + 3*u*u*s*(z0+high*0.02) + 3*u*s*s*(z0+high*0.42) + s*s*s*(h.To-0.3*tip)
		a := tip + (w-tip)*u
		list = append(list, station{x, z + p.up, a, a + (high*0.2-a)*u*u})
	}
	p.tube(h.At, list)
}

// tube lays an oval tube along stations on a bearing, closed at both ends.
func (p *potter) tube(bearing float64, list []station) {
	const n = 8
	d := plane.FromBearing(1, bearing)
	across := plane.Left(d) // so that the rings run counter-clockwise seen from outside
	var below, first []uint32
	for i, s := range list {
		a, b := list[max(0, i-1)], list[min(len(list)-1, i+1)]
		t := plane.Unit(plane.Vec{b.out - a.out, b.up - a.up})
		nx, nz := -t[1], t[0]
		shade := 1 - 0.1*math.Exp(-math.Max(0, s.up-p.up)/14)
		row := make([]uint32, n)
		for j := range n {
			sn, cs := plane.SinCos(360 * float64(j) / n)
			o := s.out + nx*s.along*cs
			at := mgl64.Vec3{d[0]*o + across[0]*s.across*sn, d[1]*o + across[1]*s.across*sn, s.up + nz*s.along*cs}
			k := cs / math.Max(s.along, 0.1)
			m := sn / math.Max(s.across, 0.1)
			row[j] = p.f.vertex(at, mgl64.Vec3{d[0]*nx*k + across[0]*m, d[1]*nx*k + across[1]*m, nz * k}, shade, warePaint)
		}
		if i > 0 {
			for j := range n {
				k := (j + 1) % n
				p.f.quad(below[k], below[j], row[j], row[k])
			}
		}
		if i == 0 {
			first = row
		}
		below = row
	}
	p.startCap(list, first, d)
	p.endCap(list, below, d)
}

// startCap closes the end that lies in the wall.
func (p *potter) startCap(list []station, ring []uint32, d plane.Vec) {
	s := list[0]
	mid := p.f.vertex(mgl64.Vec3{d[0] * s.out, d[1] * s.out, s.up}, mgl64.Vec3{-d[0], -d[1], 0}, 0.7, warePaint)
	for j := range ring {
		p.f.triangle(mid, ring[j], ring[(j+1)%len(ring)])
	}
}

// endCap closes the far end.
func (p *potter) endCap(list []station, below []uint32, d plane.Vec) {
	n := len(below)
	e := list[len(list)-1]
	q := list[len(list)-2]
	t := plane.Unit(plane.Vec{e.out - q.out, e.up - q.up})
	face := mgl64.Vec3{d[0] * t[0], d[1] * t[0], t[1]}
	mid := p.f.vertex(mgl64.Vec3{d[0] * e.out, d[1] * e.out, e.up}, face, 0.7, warePaint)
	for j := range n {
		a, b := p.f.vertex(p.f.pos[below[j]], face, 0.8, warePaint), p.f.vertex(p.f.pos[below[(j+1)%n]], face, 0.8, warePaint)
		p.f.triangle(mid, b, a)
	}
}

// lip pulls the rim outwards on a bearing, as a finger does.
func (p *potter) lip(h layout.Handle) {
	d := plane.FromBearing(1, h.At)
	low := math.Min(h.From, p.side.top()*0.8) + p.up
	span := math.Max(1, p.up+p.side.top()-low)
	rim := math.Max(p.side.at(p.side.top()), 1)
	for i, v := range p.f.pos {
		at := plane.Vec{v[0], v[1]}
		l := plane.Length(at)
		if v[2] < low || l < 1 || p.f.paint[i] != warePaint {
			continue
		}
		along, beside := plane.Dot(at, d)/rim, math.Abs(plane.Cross(at, d))/rim
		if along <= 0 {
			continue
		}
		up := (v[2] - low) / span
		k := math.Exp(-beside*beside/0.09) * up * up
		p.f.pos[i] = v.Add(mgl64.Vec3{d[0] * h.Reach * k, d[1] * h.Reach * k, 0})
	}
	for i := range p.f.lines {
		for e := range 2 {
			v := p.f.lines[i][e]
			at := plane.Vec{v[0], v[1]}
			if v[2] < low || plane.Dot(at, d) <= 0 {
				continue
			}
			beside := math.Abs(plane.Cross(at, d)) / rim
			up := (v[2] - low) / span
			k := math.Exp(-beside*beside/0.09) * up * up
			p.f.lines[i][e] = v.Add(mgl64.Vec3{d[0] * h.Reach * k, d[1] * h.Reach * k, 0})
		}
	}
}
