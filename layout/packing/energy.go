package packing

import (
	"math"

	"threepost/geometry/plane"
)

// energy is the sum of squares of what is missing to every need that is asked,
// mm2, for the variables x; g becomes its gradient. It is 0 exactly when
// nothing is missing. It allocates nothing.
func (c *crowd) energy(x, g []float64) float64 {
	clear(g)
	if c.anyone {
		c.place(x)
		clear(c.spin)
	}
	c.work += int64(c.n*(c.n-1)/2 + c.n*(1+len(c.g.blocks)))
	if !c.near.hold(x) {
		c.gather(x)
	}
	e := 0.0
	nc := len(c.table.classes)
	for i := c.fixed; i < c.n; i++ {
		xi, yi := x[2*i], x[2*i+1]
		row := c.table.touch[int(c.class[i])*nc:][:nc]
		thick := c.thick[i]
		gx, gy := 0.0, 0.0
		for _, near := range c.near.list[c.near.first[i-c.fixed]:c.near.first[i-c.fixed+1]] {
			j := int(near)
			r := row[c.class[j]]
			dx := xi - x[2*j]
			if dx >= r || -dx >= r {
				continue
			}
			dy := yi - x[2*j+1]
			d2 := float64(dx*dx) + float64(dy*dy)
			if d2 >= float64(r*r) {
				continue
			}
			if thick || c.thick[j] {
				e += c.pushPair(i, j, x, g)
				continue
			}
			d := math.Sqrt(d2)
			v := r - d
			e += float64(v * v)
			if d < 1e-9 { // on one spot: part them along x
				gx -= 2 * v
				g[2*j] += 2 * v
				continue
			}
			f := 2 * v / d
			fx, fy := float64(f*dx), float64(f*dy)
			gx -= fx
			gy -= fy
			g[2*j] += fx
			g[2*j+1] += fy
		}
		g[2*i] += gx
		g[2*i+1] += gy
		if len(c.g.blocks) > 0 {
			e += c.pushBlocks(i, x, g)
		}
		e += c.pushFences(i, x, g)
	}
	clear(g[:2*c.fixed])
	for i := c.fixed; i < c.n; i++ {
		if s := c.swing[i]; s >= 0 {
			g[s] = c.spin[i] * c.g.kinds[c.kind[i]].degrees() / radian
		}
	}
	return e
}

// place works out where the parts of thick things stand.
func (c *crowd) place(x []float64) {
	for i := 0; i < c.n; i++ {
		if !c.thick[i] {
			continue
		}
		sin, cos := plane.SinCos(c.turnAt(x, i))
		f := &c.g.kinds[c.kind[i]]
		for a, s := range f.parts {
			k := int(c.first[i]) + a
			c.world[k] = put(c.world[k][:0], s, x[2*i], x[2*i+1], sin, cos)
			c.sides[k] = put(c.sides[k][:0], f.sides[a], 0, 0, sin, cos)
		}
	}
}

// put turns points clockwise about the origin and moves them.
func put(into, points []plane.Vec, x, y, sin, cos float64) []plane.Vec {
	for _, v := range points {
		into = append(into, plane.Vec{x + float64(v[0]*cos) + float64(v[1]*sin), y + float64(v[1]*cos) - float64(v[0]*sin)})
	}
	return into
}

// side is the normals of a part of thing i.
func (c *crowd) side(i, a int) []plane.Vec {
	if c.thick[i] {
		return c.sides[int(c.first[i])+a]
	}
	return nil
}

// twist adds the force (fx, fy), the energy's gradient at a point of thing i,
// to its gradient.
func (c *crowd) twist(i int, at plane.Vec, fx, fy float64, x, g []float64) {
	g[2*i] += fx
	g[2*i+1] += fy
	if c.swing[i] >= 0 { // clockwise: the point (rx, ry) goes toward (ry, -rx)
		rx, ry := at[0]-x[2*i], at[1]-x[2*i+1]
		c.spin[i] += float64(fx*ry) - float64(fy*rx)
	}
}

// part is a part of thing i where it stands; buf holds a point thing's.
func (c *crowd) part(i, a int, x []float64, buf *[1]plane.Vec) plane.Skeleton {
	if c.thick[i] {
		return c.world[int(c.first[i])+a]
	}
	buf[0] = plane.Vec{x[2*i], x[2*i+1]}
	return buf[:]
}

// pushPair is the energy of two things of which one at least is no point.
func (c *crowd) pushPair(i, j int, x, g []float64) float64 {
	t := &c.table
	ki, kj := &c.g.kinds[c.kind[i]], &c.g.kinds[c.kind[j]]
	bi, bj := int(t.base[c.class[i]]), int(t.base[c.class[j]])
	mid := plane.Hypot(x[2*i]-x[2*j], x[2*i+1]-x[2*j+1])
	var bufI, bufJ [1]plane.Vec
	e := 0.0
	for a := range ki.parts {
		for b := range kj.parts {
			need := t.need[(bi+a)*t.parts+bj+b]
			if mid >= need+ki.reach[a]+kj.reach[b] {
				continue
			}
			c.work += 8
			d, pa, pb, n := near(c.part(i, a, x, &bufI), c.part(j, b, x, &bufJ), c.side(i, a), c.side(j, b), need)
			v := need - d
			if v <= 0 {
				continue
			}
			e += float64(v * v)
			fx, fy := float64(2*v*n[0]), float64(2*v*n[1])
			c.twist(i, pa, fx, fy, x, g)
			c.twist(j, pb, -fx, -fy, x, g)
		}
	}
	return e
}

// separation is plane.Separation with a short way for points.
func separation(a, b plane.Skeleton) (d float64, pa, pb, n plane.Vec) {
	if len(a) == 1 && len(b) == 1 {
		v := plane.Sub(b[0], a[0])
		d = plane.Length(v)
		if d > 0 {
			return d, a[0], b[0], plane.Vec{v[0] / d, v[1] / d}
		}
		return 0, a[0], b[0], plane.Vec{1, 0}
	}
	return plane.Separation(a, b)
}

// pushBlocks is the energy of thing i against the obstacles.
func (c *crowd) pushBlocks(i int, x, g []float64) float64 {
	t := &c.table
	k := int(c.class[i])
	nc := len(t.classes)
	xi, yi := x[2*i], x[2*i+1]
	kind := &c.g.kinds[c.kind[i]]
	var buf [1]plane.Vec
	e := 0.0
	for o := range c.g.blocks {
		b := &c.g.blocks[o]
		r := t.oTouch[o*nc+k]
		dx, dy := xi-b.mid[0], yi-b.mid[1]
		if dx >= r || -dx >= r || float64(dx*dx)+float64(dy*dy) >= float64(r*r) {
			continue
		}
		for a := range kind.parts {
			need := t.oNeed[o*t.parts+int(t.base[k])+a]
			if math.IsInf(need, -1) {
				continue
			}
			c.work += 4
			d, pa, _, n := near(c.part(i, a, x, &buf), b.skeleton, c.side(i, a), b.sides, need)
			if v := need - d; v > 0 {
				e += float64(v * v)
				c.twist(i, pa, float64(2*v*n[0]), float64(2*v*n[1]), x, g)
			}
		}
	}
	return e
}

// pushFences is the energy of thing i against its outlines.
func (c *crowd) pushFences(i int, x, g []float64) float64 {
	k := int(c.class[i])
	kind := &c.g.kinds[c.kind[i]]
	e := 0.0
	var buf [1]plane.Vec
	if kind.thin {
		return c.pushPoint(i, kind, c.table.depth[k], x, g)
	}
	for m := range kind.limits {
		l := &kind.limits[m]
		need := c.table.depth[k][m]
		s := c.part(i, l.Part, x, &buf)
		f := c.g.home(l.Area, s)
		for _, v := range s {
			p, gx, gy := f.push(v[0], v[1], need)
			if p > 0 {
				e += p
				c.twist(i, v, gx, gy, x, g)
			}
		}
	}
	return e
}

// pushPoint is pushFences for a point thing.
func (c *crowd) pushPoint(i int, kind *form, depth []float64, x, g []float64) float64 {
	e := 0.0
	at := x[2*i : 2*i+2 : 2*i+2]
	for m := range kind.limits {
		areas := c.g.areas[kind.limits[m].Area]
		f := &c.g.fences[areas[0]]
		if len(areas) > 1 {
			var buf [1]plane.Vec
			f = c.g.home(kind.limits[m].Area, c.part(i, 0, x, &buf))
		}
		if f.inside(at[0], at[1], depth[m]) {
			continue
		}
		p, gx, gy := f.push(at[0], at[1], depth[m])
		if p > 0 {
			e += p
			g[2*i] += gx
			g[2*i+1] += gy
		}
	}
	return e
}

// home is the fence of an area that holds the skeleton best.
func (g *ground) home(area int, s plane.Skeleton) *fence {
	list := g.areas[area]
	if len(list) == 1 {
		return &g.fences[list[0]]
	}
	best, at := math.Inf(-1), list[0]
	for _, k := range list {
		low := math.Inf(1)
		for _, v := range s {
			low = math.Min(low, g.fences[k].depth(v[0], v[1]))
		}
		if low > best {
			best, at = low, k
		}
	}
	return &g.fences[at]
}
