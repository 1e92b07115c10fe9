package packing

import (
	"math"
	"math/rand/v2"
	"sort"

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

// heat is one round of the contest of layouts: so many of them each get that
// share of the looks.
type heat struct {
	layouts int
	share   float64
}

// heats is the contest, and the habit that goes with it: where all are alike
// many beginnings, since some numbers lead nearly all of them astray (31, for
// example); where nearly all sizes differ few, since each of them learns
// slowly. Found by trial against the records of testdata/packing.
func (s *stretcher) heats() ([]heat, habit) {
	groups, n := len(s.h.groups), s.c.n-s.c.fixed
	switch {
	case groups == 1:
		return []heat{{24, 1. / 72}, {8, 1. / 32}, {3, 1. / 12}, {1, 1. / 6}}, oneSize()
	case 2*groups > n:
		return []heat{{3, 1. / 9}, {2, 1. / 6}, {1, 1. / 3}}, manySizes()
	}
	return []heat{{8, 1. / 24}, {4, 1. / 16}, {2, 1. / 8}, {1, 1. / 6}}, everyday()
}

// entry is a layout of the contest and the t it bears.
type entry struct {
	t float64
	x []float64
}

// tighten hops until the looks are spent.
func (s *stretcher) tighten(looks int64) {
	heats, habit := s.heats()
	s.h.habit = habit
	s.contest(looks, heats, s.begin)
}

// contest hops until the looks are spent or all is comfortable: several layouts
// from their beginnings, of which the better ones go on, until one is left.
func (s *stretcher) contest(looks int64, heats []heat, begin func(i int)) {
	var field []entry
	begun, spent := s.c.work, 0.0
	for round, h := range heats {
		layouts := h.layouts
		if round > 0 {
			sort.SliceStable(field, func(i, j int) bool { return field[i].t > field[j].t })
			field = field[:min(len(field), layouts)]
			layouts = len(field)
		}
		for i := range layouts {
			if (round > 0 || i > 0) && !s.going() {
				break
			}
			if round == 0 {
				begin(i)
				field = append(field, entry{})
			} else {
				s.t = field[i].t
				s.best = append(s.best[:0], field[i].x...)
				s.aim(s.best)
			}
			spent += h.share
			for until := begun + int64(spent*float64(looks)); s.c.work < until && s.going(); {
				s.hop()
			}
			field[i].t, field[i].x = s.t, append(field[i].x[:0], s.best...)
		}
	}
	for _, e := range field {
		if e.t > s.t {
			s.t, s.best = e.t, e.x
		}
	}
}

// going says that more is to be won, and wanted.
func (s *stretcher) going() bool {
	return s.a.grow == byScale || (s.t < s.comfort && s.c.g.p.goOn())
}

// begin starts layout number i of the contest: where all are alike and cannot
// be told apart by a turn the first few from the pattern in which alike discs
// lie closest, which some numbers fill out (7, 19, 31, 37, 55) and chance meets
// late; the others anywhere.
func (s *stretcher) begin(i int) {
	c := s.c
	if m := patchMiddles(); len(s.h.groups) == 1 && len(s.h.swings) == 0 && i < len(m) {
		if at := c.patch(c.n-c.fixed, m[i], 0); at != nil {
			for k, v := range at {
				s.h.stand(c.fixed+k, spot{x: v[0], y: v[1]})
			}
			t := s.bears()
			s.from(t + float64(0.04*s.scaleAt(t)))
			return
		}
	}
	room, area := 0.0, 0.0
	for _, f := range c.g.fences {
		room += f.outline.Area()
	}
	for i := c.fixed; i < c.n; i++ {
		s.h.stand(i, c.anywhere(int(c.kind[i]), s.rnd))
		area += c.g.kinds[c.kind[i]].area
	}
	s.from(float64(s.unit * (math.Sqrt(0.8*room/math.Max(area, 1e-9)) - 1)))
}

// from lowers the layout at hand, t being asked, and goes on from it.
func (s *stretcher) from(t float64) {
	c := s.c
	s.t = math.Inf(-1)
	if s.a.grow == byEase {
		t = math.Min(t, s.comfort)
	}
	s.ask(t)
	s.h.start()
	s.t = s.finish(t, s.h.e)
	s.best = append(s.best[:0], c.x...)
	s.aim(s.best)
}

// scaleAt is what a share is a share of at t.
func (s *stretcher) scaleAt(t float64) float64 {
	if s.a.grow == byScale {
		return math.Abs(1 + t)
	}
	return s.unit
}
