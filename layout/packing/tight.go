package packing

import (
	"math"
	"math/rand/v2"

	"threepost/geometry/plane"
)

// Tight looks for the arrangement of everything that is wanted in which all
// needs and depths may be multiplied by the greatest factor. A factor of 1 or
// more means that everything goes in; under 1, how much smaller it would have
// to be. The arrangement is rounded to the grid and the factor is what it bears
// then, to a part in 1e12.
func Tight(p Problem, seed uint64, work int64) (Result, float64, error) {
	if err := p.Fault(); err != nil {
		return Result{}, 0, err
	}
	g := newGround(&p)
	rnd := rand.New(rand.NewPCG(seed, 0x7469676874))
	c := newCrowd(g, p.Fixed)
	for w, want := range p.Wants {
		for i := 0; i < want.Count; i++ {
			s := c.anywhere(want.Kind, rnd)
			c.add(want.Kind, w, plane.Vec{s.x, s.y}, s.turn, false)
		}
	}
	var r Result
	if c.n == c.fixed {
		r.Set = c.standings(c.x)
		r.count(&p)
		return r, math.Inf(1), nil
	}
	s := newStretcher(c, asked{grow: byScale, edge: 1, obstacle: 1}, rnd)
	s.tighten(Look * work)
	set := c.standings(s.best)
	for i := range set {
		set[i] = g.round(set[i])
	}
	for i := range set {
		c.x[2*i], c.x[2*i+1] = set[i].At[0], set[i].At[1]
		if w := c.swing[i]; w >= 0 {
			c.x[w] = set[i].Turn / g.kinds[c.kind[i]].degrees()
		}
	}
	r.Set = set
	r.count(&p)
	r.Work = c.work / Look
	return r, 1 + s.bears(), nil
}

// tighten hops until the looks are spent: laps from new beginnings, the best
// lap taken up again and again.
func (s *stretcher) tighten(looks int64) {
	c := s.c
	lap := func(budget int64) {
		until := min(c.work+budget, looks)
		for c.work < until {
			s.hop()
		}
	}
	best, bestT := []float64(nil), math.Inf(-1)
	keep := func() {
		if s.t > bestT {
			bestT = s.t
			best = append(best[:0], s.best...)
		}
	}
	share := looks / 12
	if 2*len(s.h.groups) > c.n-c.fixed { // longer laps, since a lap learns slowly
		share, s.h.habit = looks/6, manySizes()
	}
	for k := 0; c.work < looks; k++ {
		if k%3 == 0 {
			s.anew()
			lap(share)
			keep()
			continue
		}
		s.t = bestT
		s.best = append(s.best[:0], best...)
		s.aim(s.best)
		lap(share)
		keep()
	}
	s.t, s.best = bestT, best
}

// anew starts from a random layout.
func (s *stretcher) anew() {
	c := s.c
	room, area := 0.0, 0.0
	for _, f := range c.g.fences {
		room += f.outline.Area()
	}
	for i := c.fixed; i < c.n; i++ {
		s.h.stand(i, c.anywhere(int(c.kind[i]), s.rnd))
		area += c.g.kinds[c.kind[i]].area
	}
	t := math.Sqrt(0.8*room/math.Max(area, 1e-9)) - 1
	s.t = math.Inf(-1)
	s.ask(t)
	s.h.start()
	s.t = s.finish(t, s.h.e)
	s.best = append(s.best[:0], c.x...)
	s.aim(s.best)
}
