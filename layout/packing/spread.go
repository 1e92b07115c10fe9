package packing

import (
	"math"
	"math/rand/v2"

	"threepost/geometry/plane"
)

// Ease says how far Spread draws things apart.
type Ease struct {
	// Comfort is the slack over the need, mm, beyond which more is of no use.
	Comfort float64
	// Edge and Obstacle are the shares of a pair's slack that are wanted at the
	// outlines and at the obstacles; 0 means 1.
	Edge, Obstacle float64
}

// asked is the ease as the needs of a crowd, at t = 0.
func (e Ease) asked() asked {
	a := asked{grow: byEase, edge: e.Edge, obstacle: e.Obstacle}
	if !(a.edge > 0) {
		a.edge = 1
	}
	if !(a.obstacle > 0) {
		a.obstacle = 1
	}
	return a
}

// Least is the least ease of an arrangement, mm: the least slack over a pair's
// need, over a limit by its share, over an obstacle's need by its share. It is
// what Spread makes large first.
func (e Ease) Least(p Problem, r Result) float64 {
	if p.Fault() != nil || !standsWell(&p, r.Set) {
		return math.Inf(-1)
	}
	c := crowdOf(newGround(&p), r.Set)
	s := stretcher{c: c, a: e.asked()}
	return s.bears()
}

// spreadLevels is how often those that can go no further are held and the rest
// drawn apart more.
const spreadLevels = 6

// Spread moves what is not Fixed so that the least slack over the needs becomes
// as large as it finds within the work, then the next, up to the comfortable
// slack. The result has the same things; it is r itself where nothing better is
// found, also when r is not valid.
func Spread(p Problem, r Result, e Ease, seed uint64, work int64) Result {
	if p.Fault() != nil || !standsWell(&p, r.Set) || !(e.Comfort > 0) || math.IsInf(e.Comfort, 0) || !Valid(&p, r.Set) {
		return r
	}
	g := newGround(&p)
	c := crowdOf(g, r.Set)
	if c.n == c.fixed {
		return r
	}
	rnd := rand.New(rand.NewPCG(seed, 0x737072656164))
	s := newStretcher(c, e.asked(), rnd)
	before := s.bears()
	if before >= e.Comfort {
		return r
	}
	s.t = before
	s.best = append(s.best[:0], c.x...)
	s.comfort = e.Comfort
	s.loosen(Look * work)
	first := append([]float64(nil), s.best...)
	s.even()
	for _, x := range [][]float64{s.best, first} {
		if out, ok := s.stands(x, r, before); ok {
			out.Work += c.work / Look
			return out
		}
	}
	return r
}

// loosen draws all things apart alike until they are comfortable or the looks
// are spent, most of them: a part is left for even.
func (s *stretcher) loosen(looks int64) {
	c := s.c
	copy(c.x, s.best)
	s.ask(s.comfort)
	s.h.start()
	if s.h.e <= enough {
		s.t = s.comfort
		s.best = append(s.best[:0], c.x...)
		return
	}
	s.aim(s.best)
	s.look()
	patience := 30*(c.n-c.fixed) + 100
	for c.work < looks*3/4 && s.dull < patience && s.t < s.comfort && c.g.p.goOn() {
		s.hop()
	}
}

// even holds the things that can go no further and draws the others apart
// more, again and again.
func (s *stretcher) even() {
	c := s.c
	s.free = make([]bool, c.n)
	s.a.level = make([]float64, c.n)
	left := 0
	for i := c.fixed; i < c.n; i++ {
		s.free[i] = true
		left++
	}
	fine := stop{rounds: 250, slow: 1e-7, enough: enough}
	for k := 0; k < spreadLevels && left > 0 && s.t < s.comfort && c.g.p.goOn(); k++ {
		copy(c.x, s.best)
		// a little more than can be borne shows who is held
		s.ask(math.Min(s.comfort, s.t+float64(0.01*s.unit)))
		if e := s.d.lower(c, c.x, fine); e <= enough {
			s.t = s.asking
			s.best = append(s.best[:0], c.x...)
			continue
		}
		held := 0
		for i, lost := range c.missing(nil) {
			if i >= c.fixed && s.free[i] && lost > 1e-9 {
				s.free[i] = false
				s.a.level[i] = s.t - 1e-7
				held++
			}
		}
		left -= held
		if held == 0 || left == 0 {
			return
		}
		copy(c.x, s.best)
		next := s.t
		for step := (s.comfort - s.t) / 2; step > float64(1e-3*s.unit) && c.g.p.goOn(); step /= 2 {
			s.ask(math.Min(s.comfort, next+step))
			if s.d.lower(c, c.x, fine); s.bears() >= next {
				next = math.Min(s.bears(), s.comfort)
				s.best = append(s.best[:0], c.x...)
			} else {
				copy(c.x, s.best)
			}
		}
		s.t = next
	}
}

// stands is the arrangement of the variables x once rounded, unless it is not
// valid or bears less than before.
func (s *stretcher) stands(x []float64, r Result, before float64) (Result, bool) {
	c := s.c
	set, ok := c.settle(x)
	if !ok {
		return r, false
	}
	d := crowdOf(c.g, set)
	after := stretcher{c: d, a: asked{grow: byEase, edge: s.a.edge, obstacle: s.a.obstacle}}
	after.settleWide(set)
	if after.bears() <= before {
		return r, false
	}
	return s.inOrder(set, r)
}

// inOrder is a result with its things where set has them, in its own order;
// false when they are not valid there.
func (s *stretcher) inOrder(set []Standing, r Result) (Result, bool) {
	c := s.c
	if !Valid(c.g.p, set) {
		return r, false
	}
	out := r.Clone()
	// the fixed ones come first in a crowd; put each back in its place
	k, m := 0, c.fixed
	for i := range out.Set {
		if out.Set[i].Fixed {
			out.Set[i] = set[k]
			k++
		} else {
			out.Set[i] = set[m]
			m++
		}
	}
	return out, true
}

// settleWide moves rounded things by single steps of the grid while that gives
// them more room: rounding by itself costs up to a step and a half.
func (s *stretcher) settleWide(set []Standing) {
	c := s.c
	for round := 0; round < 4; round++ {
		moved := false
		for i := c.fixed; i < c.n; i++ {
			at := plane.Vec{c.x[2*i], c.x[2*i+1]}
			best, to := s.bearsAlone(i), at
			for k := 0; k < 9; k++ {
				n := plane.Vec{at[0] + float64(k%3-1)/c.g.grid, at[1] + float64(k/3-1)/c.g.grid}
				n = c.g.round(Standing{Kind: int(c.kind[i]), At: n}).At
				c.x[2*i], c.x[2*i+1] = n[0], n[1]
				if b := s.bearsAlone(i); b > best+1e-9 {
					best, to = b, n
				}
			}
			c.x[2*i], c.x[2*i+1] = to[0], to[1]
			set[i].At = to
			moved = moved || to != at
		}
		if !moved {
			return
		}
	}
}

// bearsAlone is what the slacks of thing i let the layout bear.
func (s *stretcher) bearsAlone(i int) float64 {
	if s.c.anyone {
		s.c.place(s.c.x)
	}
	s.c.work += int64(s.c.n)
	b := burden{grow: s.a.grow, least: math.Inf(1), hard: math.Inf(1)}
	for j := 0; j < s.c.n; j++ {
		if j != i {
			s.bearsPair(i, j, &b)
		}
	}
	s.bearsPlace(i, &b)
	return b.least
}
