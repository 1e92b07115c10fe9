package packing

import (
	"math"
	"math/rand/v2"

	"threepost/geometry/plane"
)

// stretcher looks for the layout of a crowd that bears the greatest t: the
// factor by which all needs grow, or the ease beyond them.
type stretcher struct {
	c    *crowd
	h    *hopper
	d    descent
	a    asked
	rnd  *rand.Rand
	free []bool // things whose t is sought; nil: all

	t      float64   // the greatest borne
	best   []float64 // where the things stand then
	met    [16]float64
	next   int
	dull   int     // hops since t grew
	asking float64 // the t asked at the moment
	unit   float64 // mm that make a difference, for byEase; 1 for byScale

	comfort float64 // byEase: more than this is never asked
}

func newStretcher(c *crowd, a asked, rnd *rand.Rand) *stretcher {
	s := &stretcher{c: c, a: a, rnd: rnd, h: newHopper(c, rnd), t: math.Inf(-1)}
	sum := 0.0
	for i := c.fixed; i < c.n; i++ {
		sum += 2 * c.g.kinds[c.kind[i]].size
	}
	s.unit = 1
	if a.grow == byEase {
		s.unit = math.Max(sum/float64(max(c.n-c.fixed, 1)), 1)
	}
	return s
}

// ask asks the crowd for t.
func (s *stretcher) ask(t float64) {
	s.asking = t
	a := s.a
	a.t = t
	if s.free != nil {
		for i := range a.level {
			if s.free[i] {
				a.level[i] = t
			}
		}
	}
	s.c.ask(a)
}

// ahead is how much more than t is asked while hopping, so that the energy
// still tells layouts apart.
func (s *stretcher) ahead() float64 {
	base := s.unit
	if s.a.grow == byScale {
		base = 1 + s.t
	}
	u := unit(s.rnd)
	return float64(base * (s.h.habit.ahead + float64(s.h.habit.farther*float64(u*u))))
}

// aim sets the target over the best t and starts hopping there from x.
func (s *stretcher) aim(x []float64) {
	copy(s.c.x, x)
	t := s.t + s.ahead()
	if s.a.grow == byEase {
		t = math.Min(t, s.comfort)
	}
	s.ask(t)
	s.h.start()
	for i := range s.met {
		s.met[i] = -1
	}
}

// hop makes one hop and looks what its layout bears if it is worth it. It says
// whether t grew.
func (s *stretcher) hop() bool {
	s.h.hop()
	e := s.h.e
	s.dull++
	over := 1.02 // a look is dear, and most find what is known
	if s.a.grow == byEase {
		over = 1.2 // few hops will be made
	}
	if e > over*s.h.bestE {
		return false
	}
	for _, m := range s.met {
		if math.Abs(e-m) < 1e-5*e {
			return false
		}
	}
	s.met[s.next] = e
	s.next = (s.next + 1) % len(s.met)
	return s.look()
}

// look finishes the layout at hand and keeps it if it bears more than the
// best; the hopper goes on where it was.
func (s *stretcher) look() bool {
	c := s.c
	at := append([]float64(nil), c.x...)
	asked := s.asking
	t := s.finish(asked, s.h.e)
	if t > s.t+float64(1e-9*s.unit) {
		grown := t-s.t > float64(1e-6*s.unit)
		s.t = t
		s.best = append(s.best[:0], c.x...)
		if grown {
			s.dull = 0
		}
		s.aim(s.best)
		return true
	}
	copy(c.x, at)
	s.ask(asked)
	return false
}

// finish finds the greatest t that the layout at hand, a minimum of energy e
// when t is asked, can be brought to bear: the root of the energy is nearly
// linear in t there.
func (s *stretcher) finish(t, e float64) float64 {
	c := s.c
	fine := stop{rounds: 250, slow: 1e-7, enough: enough}
	rough := stop{rounds: 60, slow: 1e-3, enough: enough}
	bear, keep := s.bears(), append([]float64(nil), c.x...)
	note := func() {
		if b := s.bears(); b > bear {
			bear = b
			copy(keep, c.x)
		}
	}
	unit := s.unit
	if s.a.grow == byScale {
		unit = math.Abs(1 + t)
	}
	// two layouts that bear less than they are asked, the later nearer
	t1, r1 := t, math.Sqrt(e)
	high, root := t, math.Inf(1)
	floor := math.Max(bear, t1-float64(0.3*unit)) // further off is no guide
	t2 := t1 - float64(0.1*(t1-floor))
	for k := 0; k < 12; k++ {
		if (k == 1 && root < s.t-float64(5e-4*unit)) || (k >= 2 && root < s.t) {
			break // it will not reach the best
		}
		s.ask(t2)
		how := fine
		if k < 2 {
			how = rough
		}
		r2 := math.Sqrt(s.d.lower(c, c.x, how))
		note()
		if r2 > 1.01*math.Sqrt(enough) {
			high = math.Min(high, t2)
			root = t2 - float64(0.3*unit)
			if r1 > r2 && t1 > t2 {
				root = math.Max(root, t2-float64(r2*(t1-t2))/(r1-r2))
			}
			t1, r1 = t2, r2
		}
		if high-bear < float64(1e-8*unit) {
			break
		}
		t2 = root
		if !(root > bear+float64(1e-9*unit) && root < high) {
			t2 = bear + float64(0.3*(high-bear))
			if bear < floor {
				t2 = high - float64(0.1*(high-floor))
			}
		}
	}
	copy(c.x, keep)
	return s.bears()
}

// burden gathers what the slacks of a layout let it bear.
type burden struct {
	grow  growth
	least float64 // the greatest t
	hard  float64 // the least slack of those that t has nothing to do with
}

// note takes a slack over a need: with the share of t that is asked of it, and
// the level that it is held to, infinite where it is free.
func (b *burden) note(have, need, share, level float64) {
	switch {
	case math.IsInf(need, -1):
	case !math.IsInf(level, 1):
		b.hard = math.Min(b.hard, have-need-float64(level*share))
	case b.grow == byEase:
		b.least = math.Min(b.least, (have-need)/share)
	case need > 0:
		b.least = math.Min(b.least, have/need-1)
	default:
		b.hard = math.Min(b.hard, have-need)
	}
}

// levelOf is what thing i is held to: infinite where it is free, minus
// infinity where it is fixed.
func (s *stretcher) levelOf(i int) float64 {
	switch {
	case i < s.c.fixed:
		return math.Inf(-1)
	case s.free == nil || s.free[i]:
		return math.Inf(1)
	}
	return s.a.level[i]
}

// bears is the greatest t that the layout bears as it stands; minus infinity
// when something is missing that t has nothing to do with.
func (s *stretcher) bears() float64 {
	c := s.c
	if c.anyone {
		c.place(c.x)
	}
	c.work += int64(c.n * c.n / 2)
	b := burden{grow: s.a.grow, least: math.Inf(1), hard: math.Inf(1)}
	for i := c.fixed; i < c.n; i++ {
		for j := 0; j < i; j++ {
			s.bearsPair(i, j, &b)
		}
		s.bearsPlace(i, &b)
	}
	if b.hard < -0.5*plane.Tolerance {
		return math.Inf(-1)
	}
	return b.least
}

func (s *stretcher) bearsPair(i, j int, b *burden) {
	c := s.c
	level := math.Max(s.levelOf(i), s.levelOf(j))
	if !c.thick[i] && !c.thick[j] {
		if need := c.g.p.Need[c.kind[i]][0][c.kind[j]][0]; !math.IsInf(need, -1) {
			b.note(plane.Hypot(c.x[2*i]-c.x[2*j], c.x[2*i+1]-c.x[2*j+1]), need, 1, level)
		}
		return
	}
	var bi, bj [1]plane.Vec
	for p, row := range c.g.p.Need[c.kind[i]] {
		for q, need := range row[c.kind[j]] {
			if !math.IsInf(need, -1) {
				d, _, _, _ := separation(c.part(i, p, c.x, &bi), c.part(j, q, c.x, &bj))
				b.note(d, need, 1, level)
			}
		}
	}
}

// bearsPlace notes thing i against the obstacles and its outlines.
func (s *stretcher) bearsPlace(i int, b *burden) {
	c := s.c
	k := &c.g.kinds[c.kind[i]]
	level := s.levelOf(i)
	var buf [1]plane.Vec
	for o := range c.g.blocks {
		for p, need := range c.g.p.Obstacles[o].Need[c.kind[i]] {
			if !math.IsInf(need, -1) {
				d, _, _, _ := separation(c.part(i, p, c.x, &buf), c.g.blocks[o].skeleton)
				b.note(d, need, s.a.obstacle, level)
			}
		}
	}
	for _, l := range k.limits {
		sk := c.part(i, l.Part, c.x, &buf)
		f := c.g.home(l.Area, sk)
		for _, v := range sk {
			b.note(f.depth(v[0], v[1]), l.Depth, s.a.edge, level)
		}
	}
}
