package packing

import (
	"math"
	"math/rand/v2"
	"sort"

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
	s.t = s.bears()
	if s.t >= e.Comfort {
		return r
	}
	s.best = append(s.best[:0], c.x...)
	s.comfort = e.Comfort
	before := s.eases()
	if s.many(Look * work) {
		s.compete(Look * work)
	} else {
		s.loosen(Look * work)
	}
	first, t := append([]float64(nil), s.best...), s.t
	s.even()
	out, ok := s.stands(s.best, r, before)
	if !ok {
		s.free, s.a.level, s.t = nil, nil, t
		out, ok = s.stands(first, r, before)
	}
	if ok {
		out.Work += c.work / Look
		return out
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
	for s.look() && s.h.bestE <= enough && s.t < s.comfort && c.g.p.goOn() {
	}
	patience := 30*(c.n-c.fixed) + 100
	for c.work < looks*3/4 && s.dull < patience && s.t < s.comfort && c.g.p.goOn() {
		s.hop()
	}
}

// compete draws all things apart alike as loosen does, but where there is work
// enough for several beginnings: the layout at hand, patches, and some thrown
// anywhere, of which the better go on. Hops alone do not come from one to the
// other.
func (s *stretcher) compete(looks int64) {
	s.h.habit = oneSize()
	had, layout := s.t, append([]float64(nil), s.best...)
	s.contest(looks*3/4, []heat{{8, 1. / 16}, {4, 1. / 24}, {2, 1. / 12}, {1, 1. / 6}}, func(i int) {
		if i > 0 {
			s.begin(i - 1)
			return
		}
		s.t, s.best = had, append(s.best[:0], layout...)
		s.aim(s.best)
		for s.look() && s.h.bestE <= enough && s.t < s.comfort {
		}
	})
}

// many says that the looks are enough for several beginnings of alike things.
func (s *stretcher) many(looks int64) bool {
	n := int64(s.c.n)
	return len(s.h.groups) == 1 && len(s.h.swings) == 0 && s.c.fixed == 0 && looks > 50000*n*n
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

// roundings is how many ways of rounding a layout are tried.
const roundings = 6

// stands is the arrangement of the variables x once rounded, in the way in
// which things bear most of some, unless it is not valid or no evener than
// before.
func (s *stretcher) stands(x []float64, r Result, before []float64) (Result, bool) {
	most, found, bear := r, false, before
	goal := math.Min(s.borne(x), s.comfort)
	for try := range roundings {
		if try > 0 {
			x = s.astir(x)
		}
		set, list := s.rounded(x, goal)
		if len(list) == 0 || list[0] < before[0] || !evener(list, before, float64(1.5*s.c.g.step)) ||
			(found && !evener(list, bear, 1e-9)) {
			continue
		}
		if out, ok := s.inOrder(set, r); ok {
			most, found, bear = out, true, list
		}
		if bear[0] > goal-float64(0.3*s.c.g.step) {
			break
		}
	}
	return most, found
}

// rounded is the layout of the variables x on the grid, and what its things
// bear.
func (s *stretcher) rounded(x []float64, goal float64) ([]Standing, []float64) {
	c := s.c
	set, ok := c.settle(x)
	if !ok {
		return nil, nil
	}
	d := crowdOf(c.g, set)
	after := stretcher{c: d, comfort: s.comfort, a: asked{grow: byEase, edge: s.a.edge, obstacle: s.a.obstacle}}
	after.settleClose(set, goal)
	after.settleWide(set)
	list := after.eases()
	c.work += d.work
	return set, list
}

// eases lists what every thing that is not fixed bears where it stands, up to
// the comfortable slack, the least first.
func (s *stretcher) eases() []float64 {
	list := make([]float64, 0, s.c.n)
	for i := s.c.fixed; i < s.c.n; i++ {
		list = append(list, math.Min(s.bearsAlone(i), s.comfort))
	}
	sort.Float64s(list)
	return list
}

// evener says that of two lists, the least first, the first is the greater at
// the first place where they differ by more than a crumb.
func evener(list, than []float64, crumb float64) bool {
	for i := range list {
		if d := list[i] - than[i]; math.Abs(d) > crumb {
			return d > 0
		}
	}
	return false
}

// astir is a layout near x that bears as much, things that have play elsewhere.
func (s *stretcher) astir(x []float64) []float64 {
	c := s.c
	copy(c.x, x)
	for i := c.fixed; i < c.n; i++ {
		c.x[2*i] += float64(stir * spanned(s.rnd))
		c.x[2*i+1] += float64(stir * spanned(s.rnd))
	}
	s.ask(s.t)
	s.d.lower(c, c.x, stop{rounds: 250, slow: 1e-7, enough: enough})
	return append([]float64(nil), c.x...)
}

// stir is how far astir moves a thing at most along x and y, mm.
const stir = 3

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

// borne is what the layout of the variables x bears when all are free.
func (s *stretcher) borne(x []float64) float64 {
	copy(s.c.x, x)
	all := stretcher{c: s.c, a: asked{grow: byEase, edge: s.a.edge, obstacle: s.a.obstacle}}
	return all.bears()
}

// settleClose moves rounded things by single steps of the grid until they bear
// as nearly t as it finds: it asks for a little less, and for ever less, and
// lessens what is missing to that, of all needs at once.
func (s *stretcher) settleClose(set []Standing, t float64) {
	c := s.c
	kept, bear := append([]Standing(nil), set...), s.bears()
	try := append([]Standing(nil), set...)
	for part := 0.25; part < 1.5; part += 0.125 {
		goal := t - float64(part*c.g.step)
		if goal <= bear {
			break
		}
		s.stand(try, set)
		s.ask(goal)
		for round := 0; round < 12; round++ {
			moved := false
			for i := c.fixed; i < c.n; i++ {
				moved = c.nudge(i, try) || moved
			}
			if !moved {
				break
			}
		}
		if b := s.bears(); b > bear {
			bear = b
			copy(kept, try)
		}
	}
	s.stand(set, kept)
}

// stand puts the things where a rounded arrangement has them, and into set.
func (s *stretcher) stand(set, from []Standing) {
	copy(set, from)
	for i := range set {
		s.c.x[2*i], s.c.x[2*i+1] = set[i].At[0], set[i].At[1]
		if w := s.c.swing[i]; w >= 0 {
			s.c.x[w] = set[i].Turn / s.c.g.kinds[s.c.kind[i]].degrees()
		}
	}
	if s.c.anyone {
		s.c.place(s.c.x)
	}
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
