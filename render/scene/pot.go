package scene

import (
	"math"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// potter makes the form of one row of ware.
type potter struct {
	f     *form
	b     *stacks.Body
	w     layout.Ware // filled
	side  curve
	plan  plan
	thick float64 // of the wall, mm
	up    float64 // of the foot over the shelf
}

// formOf is the form of a body: a pot on what it stands on, or a cone pack.
// What would stand out of the parts is drawn in.
func formOf(b *stacks.Body, w *layout.Ware, cones *layout.ConePack) *form {
	f, _ := formed(b, w, cones)
	return f
}

// formed is formOf, and how many vertices had to be drawn in.
func formed(b *stacks.Body, w *layout.Ware, cones *layout.ConePack) (*form, int) {
	f := &form{}
	if w == nil {
		f.conePack(b, cones)
		f.offShelf()
		return f.close(), 0
	}
	filled, _, err := silhouette.Fill(*w)
	if err != nil {
		filled = *w // Build has refused such a row long before
	}
	p := &potter{f: f, b: b, w: filled, side: newCurve(b.Drawn.Profile), up: b.StandH}
	if len(filled.Profile) > 0 && filled.Nested > 1 {
		p.side = newCurve(upTo(filled.Profile, filled.Height))
	}
	p.thick = filled.Wall
	if p.thick <= 0 {
		p.thick = math.Min(6, math.Max(3.5, 1.8+0.03*p.side.most()))
	}
	p.thick = math.Min(p.thick, math.Min(p.side.top()/3, p.side.most()/3))
	p.plan = planOf(b.Drawn.Body, corners(2*p.side.most()), p.thick+2)
	p.pot()
	moved := f.keepWithin(b)
	f.offShelf()
	return f.close(), moved
}

// upTo is a profile that ends at a height.
func upTo(p []layout.Knot, height float64) []layout.Knot {
	if last := p[len(p)-1]; last.Height < height {
		p = append(p[:len(p):len(p)], layout.Knot{Height: height, Diameter: last.Diameter})
	}
	return p
}

// corners is how many points the ring of a pot has: facets stay under half a
// mm.
func corners(across float64) int {
	n := 4 * int(math.Round(math.Sqrt(math.Max(across, 1))*0.62))
	return min(40, max(20, n))
}

// mostShown is how many pieces of a bundle are drawn; of more, every so many.
const mostShown = 12

// pot lays stand, bodies, lid and limbs.
func (p *potter) pot() {
	p.stand()
	n := max(p.w.Nested, 1)
	shown := min(n, mostShown)
	top := p.up
	for i := range shown {
		if shown > 1 {
			top = p.up + p.w.Adds*float64(i*(n-1)/(shown-1))
		}
		p.body(top, i == shown-1, shown > 4)
	}
	if p.b.Drawn.Knob > 0 {
		p.lid(top + p.side.top())
	}
	for _, h := range p.w.Handles {
		p.handle(h)
	}
	if p.w.Spout != nil {
		p.spout(*p.w.Spout)
	}
}

// body lathes one piece standing at height up. A covered one of a large bundle
// has no inside and fewer rings.
func (p *potter) body(up float64, open, many bool) {
	rings := 13
	if many {
		rings = 5
	}
	outer := p.outer(up, rings)
	n := len(outer)
	foot := outer[0]
	bevel := math.Min(1.2, p.side.top()/8)
	walls := []wall{
		{knots: []knot{{0, 0, up, 0.7}, {foot.share, bevel, up, 0.7}}},
		{knots: append([]knot{{foot.share, bevel, up, foot.tone}}, outer...)},
	}
	walls[1].knots[1].z = up + bevel
	last := outer[n-1]
	top := up + p.side.top()
	if p.solid() || many && !open {
		walls = append(walls, wall{knots: []knot{last, {last.share, 0, top, 1}}},
			wall{knots: []knot{{last.share, 0, top, 1}, {0, 0, top, 1}}, crease: true})
		p.f.lathe(p.plan, warePaint, walls...)
		return
	}
	inner := p.inner(outer, up, open && p.b.Drawn.Knob <= 0)
	lip := []knot{last, {last.share, p.thick / 2, top, 1.02}, inner[0]}
	walls = append(walls, wall{knots: lip, crease: true}, wall{knots: inner, crease: true})
	p.f.lathe(p.plan, warePaint, walls...)
}

// solid tells whether the ware has no inside: tiles, and what is only a box
// of measures.
func (p *potter) solid() bool {
	s := p.silhouette()
	return s == layout.Tile || p.side.top() < 2*p.thick+1
}

// silhouette is the ware's, told by its name where it says none.
func (p *potter) silhouette() layout.Silhouette {
	if p.w.Silhouette != "" {
		return p.w.Silhouette
	}
	return silhouette.Guess(p.w.Name)
}

// outer are the rings of the outside from the foot to just under the rim.
func (p *potter) outer(up float64, rings int) []knot {
	high := p.side.top()
	rim := math.Min(1, high/10)
	zs := p.side.heights(0, high-rim, rings)
	var list []knot
	for _, z := range zs {
		r := p.side.at(z)
		list = append(list, knot{share: p.share(r), z: up + z, tone: 1 - 0.14*math.Exp(-z/14)})
	}
	return list
}

// share is a radius as a share of the widest.
func (p *potter) share(r float64) float64 {
	if most := p.side.most(); most > 0 {
		return r / most
	}
	return 1
}

// inner are the rings of the inside from the rim down to the middle of its
// floor: the outside moved in by the wall along its own normal, darker the
// deeper.
func (p *potter) inner(outer []knot, up float64, open bool) []knot {
	n := len(outer)
	high, rim := p.side.top(), math.Max(p.side.at(p.side.top())-p.thick, 3)
	floor := p.thick + math.Min(3, high/12)
	dark := func(z float64) float64 {
		deep := math.Max(0, high-z)
		return 0.97 - 0.5*(1-math.Exp(-deep/(0.95*rim)))
	}
	first := knot{outer[n-1].share, p.thick, outer[n-1].z, 0.99}
	list := []knot{first}
	for i := n - 2; i >= 1; i-- {
		a, b := outer[i-1], outer[i+1]
		dr, dz := (b.share-a.share)*p.side.most(), b.z-a.z
		l := math.Hypot(dr, dz)
		if l < step {
			continue
		}
		k := knot{share: outer[i].share, inset: p.thick * dz / l, z: outer[i].z + p.thick*dr/l}
		if k.z-up < floor || k.z > list[len(list)-1].z-0.5 {
			continue
		}
		if i%2 == 0 && n > 8 && i > 2 && math.Abs(dr/l) < 0.3 {
			continue // the inside needs fewer rings
		}
		k.tone = dark(k.z - up)
		list = append(list, k)
	}
	low := list[len(list)-1]
	if low.z > up+floor+1 {
		r := p.side.at(math.Max(0, floor-p.thick/2)) - p.thick*0.8
		r = math.Min(math.Max(r, 1), low.share*p.side.most()-low.inset)
		list = append(list, knot{p.share(r), 0, up + floor + math.Min(1.5, floor/4), dark(floor)})
		low = list[len(list)-1]
	}
	r := low.share*p.side.most() - low.inset
	if r > 12 {
		list = append(list, knot{p.share(r - 6), 0, up + floor, dark(floor) * 1.01})
	}
	list = append(list, knot{0, 0, up + floor, dark(floor) * 1.03})
	if !open {
		for i := range list {
			list[i].tone *= 0.8
		}
	}
	return list
}

// lid lays a lid with its knob on a rim at height z.
func (p *potter) lid(z float64) {
	knobHigh := p.b.Drawn.Knob
	r := p.side.at(p.side.top())
	over := math.Min(1, p.side.most()-r)
	band, dome := knobHigh*0.14, knobHigh*0.5
	k := math.Min(r/2, math.Max(knobHigh*0.5, 7))
	s := func(mm float64) float64 { return p.share(mm) }
	walls := []wall{
		{knots: []knot{{0, 0, z, 0.6}, {s(r + over), 0, z, 0.6}}},
		{knots: []knot{{s(r + over), 0, z, 0.92}, {s(r + over), 0, z + band, 1}}, crease: true},
		{knots: []knot{
			{s(r + over), 0, z + band, 1}, {s(r * 0.82), 0, z + band + (dome-band)*0.55, 1},
			{s(r * 0.55), 0, z + band + (dome-band)*0.86, 1}, {s(k * 0.9), 0, z + dome, 0.95},
			{s(k * 0.7), 0, z + dome + knobHigh*0.04, 0.9},
		}, crease: true},
		{knots: []knot{
			{s(k * 0.7), 0, z + dome + knobHigh*0.04, 0.9}, {s(k * 0.68), 0, z + knobHigh*0.66, 0.95}, {s(k), 0, z + knobHigh*0.8, 1},
			{s(k * 0.92), 0, z + knobHigh*0.93, 1}, {s(k * 0.5), 0, z + knobHigh, 1}, {0, 0, z + knobHigh, 1},
		}, crease: true},
	}
	p.f.lathe(p.plan, warePaint, walls...)
}

// stand lays a cookie, a stilt or wads.
func (p *potter) stand() {
	if p.up <= 0 {
		return
	}
	tones := [3]float64{0.7, 0.92, 1}
	across := p.b.Stand.Across
	foot := p.b.Drawn.Foot
	switch p.b.Stand.Kind {
	case layout.Stilt:
		for i := range 3 {
			at := plane.FromBearing(across*0.3, float64(i)*120)
			p.f.prism(moved(roundPlan(across*0.1, 8), at), 0, p.up*0.75, 0.6, standPaint, tones)
		}
		p.f.prism(roundPlan(across*0.34, 16), 0, p.up*0.35, 0.6, standPaint, tones)
	case layout.Wads:
		ring := planOf(foot, 24, 2)
		for i := range 3 {
			at := plane.Scale(ring.at[i*len(ring.at)/3], math.Max(0, 1-p.up/math.Max(ring.far, 1)))
			p.f.prism(moved(roundPlan(p.up*0.7, 10), at), 0, p.up, p.up*0.3, standPaint, tones)
		}
	default:
		on := stacks.Widened{Skeleton: plane.Skeleton{{0, 0}}, Radius: across / 2}
		if p.b.Drawn.Cookie != nil {
			on = *p.b.Drawn.Cookie
		}
		p.f.prism(planOf(on, 28, 2), 0, p.up, 1, standPaint, tones)
	}
}

// moved is a plan elsewhere.
func moved(p plan, at plane.Vec) plan {
	q := plan{far: p.far, out: p.out, mid: plane.Add(p.mid, at)}
	for _, v := range p.at {
		q.at = append(q.at, plane.Add(v, at))
	}
	return q
}
