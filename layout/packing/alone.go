package packing

import (
	"math"
	"math/rand/v2"

	"threepost/geometry/plane"
)

// spot is a place for one thing.
type spot struct {
	x, y, turn float64 // mm, degrees
	e          float64 // energy there, mm2
}

// felt gathers the energy of one thing and its gradient by x, y and the turn in
// radians.
type felt struct {
	e, gx, gy, gt float64
	x, y          float64 // its origin
}

// force adds the gradient (fx, fy) at a point of the thing.
func (f *felt) force(at plane.Vec, fx, fy float64) {
	f.gx += fx
	f.gy += fy
	f.gt += float64(fx*(at[1]-f.y)) - float64(fy*(at[0]-f.x))
}

// lack adds what is missing to a need: v mm, at a point of the thing, from
// which the other lies in direction n.
func (f *felt) lack(v float64, at, n plane.Vec) {
	f.e += float64(v * v)
	f.force(at, float64(2*v*n[0]), float64(2*v*n[1]))
}

// alone is the energy of one thing of a class at a spot against everything in
// the crowd but thing skip (-1: against all), and its gradient by x, y and the
// turn in radians. The crowd's parts must be placed. Over enough it may stop.
func (c *crowd) alone(cl int, s spot, skip int, enough float64) (e, gx, gy, gt float64) {
	t := &c.table
	nc := len(t.classes)
	kind := &c.g.kinds[t.classes[cl].kind]
	c.work += int64(c.n + 1 + len(c.g.blocks))
	c.standAlone(kind, s)
	f := felt{x: s.x, y: s.y}
	c.feelFences(cl, &f) // they refuse most
	if f.e > enough {
		return f.e, f.gx, f.gy, f.gt
	}
	c.feelBlocks(cl, &f)
	row := t.touch[cl*nc:][:nc]
	for j, k := range c.class {
		r := row[k]
		dx := s.x - c.x[2*j]
		if dx >= r || -dx >= r || j == skip {
			continue
		}
		dy := s.y - c.x[2*j+1]
		d2 := float64(dx*dx) + float64(dy*dy)
		if d2 >= float64(r*r) {
			continue
		}
		if !kind.thin || c.thick[j] {
			c.feelOther(cl, j, d2, &f)
			continue
		}
		d := math.Sqrt(d2)
		v := r - d
		f.e += float64(v * v)
		if d > 0 {
			k := 2 * v / d
			f.gx -= float64(k * dx)
			f.gy -= float64(k * dy)
		}
	}
	return f.e, f.gx, f.gy, f.gt
}

// feelFences adds what the parts in c.lone lack to their outlines.
func (c *crowd) feelFences(cl int, f *felt) {
	kind := &c.g.kinds[c.table.classes[cl].kind]
	for m := range kind.limits {
		l := &kind.limits[m]
		sk := c.lone[l.Part]
		home := c.g.home(l.Area, sk)
		for _, v := range sk {
			if e, gx, gy := home.push(v[0], v[1], c.table.depth[cl][m]); e > 0 {
				f.e += e
				f.force(v, gx, gy)
			}
		}
	}
}

// feelBlocks adds what the parts in c.lone lack to the obstacles.
func (c *crowd) feelBlocks(cl int, f *felt) {
	t := &c.table
	kind := &c.g.kinds[t.classes[cl].kind]
	for o := range c.g.blocks {
		b := &c.g.blocks[o]
		r := t.oTouch[o*len(t.classes)+cl]
		dx, dy := f.x-b.mid[0], f.y-b.mid[1]
		if dx >= r || -dx >= r || float64(dx*dx)+float64(dy*dy) >= float64(r*r) {
			continue
		}
		for a := range kind.parts {
			need := t.oNeed[o*t.parts+int(t.base[cl])+a]
			if math.IsInf(need, -1) {
				continue
			}
			c.work += 4
			d, pa, _, n := near(c.lone[a], b.skeleton, c.loneSides[a], b.sides, need)
			if v := need - d; v > 0 {
				f.lack(v, pa, n)
			}
		}
	}
}

// feelOther adds what the parts in c.lone lack to thing j, whose origin lies at
// a squared distance d2.
func (c *crowd) feelOther(cl, j int, d2 float64, f *felt) {
	t := &c.table
	kind, other := &c.g.kinds[t.classes[cl].kind], &c.g.kinds[c.kind[j]]
	var buf [1]plane.Vec
	for a := range kind.parts {
		for b := range other.parts {
			need := t.need[(int(t.base[cl])+a)*t.parts+int(t.base[c.class[j]])+b]
			reach := need + kind.reach[a] + other.reach[b]
			if reach <= 0 || d2 >= float64(reach*reach) {
				continue
			}
			c.work += 8
			d, pa, _, n := near(c.lone[a], c.part(j, b, c.x, &buf), c.loneSides[a], c.side(j, b), need)
			if v := need - d; v > 0 {
				f.lack(v, pa, n)
			}
		}
	}
}

// standAlone puts the parts of a thing at a spot into c.lone.
func (c *crowd) standAlone(kind *form, s spot) {
	for len(c.lone) < len(kind.parts) {
		c.lone = append(c.lone, nil)
		c.loneSides = append(c.loneSides, nil)
	}
	sin, cos := 0.0, 1.0
	if !kind.thin {
		sin, cos = plane.SinCos(s.turn)
	}
	for a, p := range kind.parts {
		c.lone[a] = put(c.lone[a][:0], p, s.x, s.y, sin, cos)
		if len(kind.sides[a]) > 0 {
			c.loneSides[a] = put(c.loneSides[a][:0], kind.sides[a], 0, 0, sin, cos)
		} else {
			c.loneSides[a] = nil
		}
	}
}

// ease moves a spot downhill for some rounds, everything else standing still.
func (c *crowd) ease(cl int, s spot, skip, rounds int) spot {
	kind := &c.g.kinds[c.table.classes[cl].kind]
	arm := math.Max(0.7*kind.far, 1e-3)
	e, gx, gy, gt := c.alone(cl, s, skip, math.Inf(1))
	s.e = e
	k := 0.5
	for r := 0; r < rounds && s.e > 1e-12; r++ {
		n := s
		n.x -= float64(k * gx)
		n.y -= float64(k * gy)
		if kind.turns {
			n.turn -= float64(k * gt / float64(arm*arm) * radian)
		}
		e, hx, hy, ht := c.alone(cl, n, skip, math.Inf(1))
		if e >= s.e {
			if k *= 0.4; k < 0.01 {
				return s
			}
			continue
		}
		done := s.e-e < 1e-4*s.e
		n.e = e
		s, gx, gy, gt = n, hx, hy, ht
		k = math.Min(1.0, 1.6*k)
		if done {
			return s
		}
	}
	return s
}

// anywhere is a random spot for a kind.
func (c *crowd) anywhere(kind int, rnd *rand.Rand) spot {
	f := &c.g.kinds[kind]
	w := plane.Sub(c.g.up, c.g.low)
	s := spot{x: c.g.low[0] + float64(unit(rnd)*w[0]), y: c.g.low[1] + float64(unit(rnd)*w[1])}
	switch {
	case f.turns && rnd.IntN(4) > 0:
		s.turn = f.tried[rnd.IntN(len(f.tried))]
	case f.turns:
		s.turn = float64(360 * unit(rnd))
	default:
		s.turn = f.turnOf()
	}
	return s
}

// vacancy is the spot of least energy for one more thing of a class that some
// tries find, everything else standing still.
func (c *crowd) vacancy(cl, skip, tries int, rnd *rand.Rand) spot {
	const keep = 3
	var best [keep]spot
	for i := range best {
		best[i].e = math.Inf(1)
	}
	kind := int(c.table.classes[cl].kind)
	if c.anyone {
		c.place(c.x)
	}
	for t := 0; t < tries; t++ {
		s := c.anywhere(kind, rnd)
		s.e, _, _, _ = c.alone(cl, s, skip, best[keep-1].e)
		for i := range best {
			if s.e < best[i].e {
				best[i], s = s, best[i]
			}
		}
	}
	at := best[0]
	for i := range best {
		if math.IsInf(best[i].e, 1) {
			continue
		}
		if s := c.ease(cl, best[i], skip, 12); s.e < at.e || i == 0 {
			at = s
		}
	}
	return at
}

// missing is the energy of every unfixed thing where the crowd stands.
func (c *crowd) missing(into []float64) []float64 {
	into = into[:0]
	if c.anyone {
		c.place(c.x)
	}
	for i := 0; i < c.n; i++ {
		if i < c.fixed {
			into = append(into, 0)
			continue
		}
		s := spot{x: c.x[2*i], y: c.x[2*i+1], turn: c.turnAt(c.x, i)}
		e, _, _, _ := c.alone(int(c.class[i]), s, i, math.Inf(1))
		into = append(into, e)
	}
	return into
}
