package packing

import (
	"math"
	"math/rand/v2"

	"threepost/geometry/plane"
)

// Look is how many looks at a pair of parts make one unit of work.
const Look = 1000

// Search looks for the arrangement of most value, a step at a time. It holds a
// valid Result from its first step on. It goes through the same moves whatever
// the steps it is asked for.
type Search struct {
	p    Problem
	g    *ground
	rnd  *rand.Rand
	best Result
	work int64 // looks spent, but for those of the attempt at hand

	built   int // arrangements built
	base    []Standing
	round   int      // rounds of attempts gone
	goals   []goal   // what is still to try in this round
	attempt *attempt // at hand
	done    bool     // nothing is left to try
	barren  int      // rounds gone without a find
	stock   []Result // arrangements as good as the best, to start from
	bulk    bulk     // what cannot stand, whatever is tried
}

// NewSearch starts a search. The error says what about the problem has no
// meaning. The problem must not be changed while the search lives.
func NewSearch(p Problem, seed uint64) (*Search, error) {
	if err := p.Fault(); err != nil {
		return nil, err
	}
	s := &Search{p: p, rnd: rand.New(rand.NewPCG(seed, 0x7468726565706f73))}
	s.p.Fixed = append([]Standing(nil), p.Fixed...)
	for i := range s.p.Fixed {
		s.p.Fixed[i].Fixed = true
	}
	s.g = newGround(&s.p)
	s.bulk = newBulk(s.g)
	s.base = s.p.Fixed
	s.best.Set = append(s.best.Set, s.base...)
	s.best.count(&s.p)
	s.done = s.best.Whole()
	return s, nil
}

// Best is the best arrangement so far.
func (s *Search) Best() Result {
	r := s.best.Clone()
	r.Work = s.Work()
	return r
}

// Work is the units spent so far.
func (s *Search) Work() int64 {
	w := s.work
	if s.attempt != nil {
		w += s.attempt.h.c.work
	}
	return w / Look
}

// Step spends about that many units more and says whether it is done: all
// wants have their place, or nothing is left to try.
func (s *Search) Step(work int64) (done bool) {
	until := s.Work() + work
	for !s.done && s.Work() < until {
		s.advance()
	}
	return s.done
}

// Fill places as much value of the wants as it finds within about that many
// units of work: musts before everything else.
func Fill(p Problem, seed uint64, work int64) (Result, error) {
	s, err := NewSearch(p, seed)
	if err != nil {
		return Result{}, err
	}
	s.Step(work)
	return s.Best(), nil
}

// builds is how many arrangements are built before they are worked over.
const builds = 6

// advance makes the next move of the search.
func (s *Search) advance() {
	switch {
	case s.built < builds:
		s.build()
		s.built++
	case s.attempt != nil:
		s.pursue()
	case len(s.goals) > 0:
		s.attempt = s.begin(s.goals[0])
		s.goals = s.goals[1:]
	default:
		s.plan()
	}
	if s.best.Whole() {
		s.done = true
	}
}

// build builds one arrangement from nothing.
func (s *Search) build() {
	c := newCrowd(s.g, s.base)
	lean, wild := leaning(s.built%int(leanings)), 0.0
	if s.built > 3 {
		wild = 0.3
	}
	b := newBuilder(c, lean, s.rnd)
	left := make([]int, len(s.p.Wants))
	for i, w := range s.p.Wants {
		left[i] = w.Count
	}
	for _, w := range s.g.order(left, s.built%2 == 1, wild, s.rnd) {
		b.put(w)
	}
	s.offer(c)
	s.work += c.work
}

// offer rounds a crowd in which nothing is missing and keeps it if it is the
// best, or as good.
func (s *Search) offer(c *crowd) bool {
	set, ok := c.settle(c.x)
	if !ok {
		return false
	}
	r := Result{Set: set}
	r.count(&s.p)
	if r.Better(s.best) {
		s.best = r
		s.stock = append(s.stock[:0], r)
		return true
	}
	if !s.best.Better(r) {
		if len(s.stock) < 4 {
			s.stock = append(s.stock, r)
		} else {
			s.stock[s.rnd.IntN(4)] = r
		}
	}
	return false
}

// attempt is a goal being tried.
type attempt struct {
	goal goal
	h    *hopper
	hops int
}

// begin sets up an attempt.
func (s *Search) begin(g goal) *attempt {
	from := s.best
	if len(s.stock) > 0 && s.rnd.IntN(2) == 0 {
		from = s.stock[s.rnd.IntN(len(s.stock))]
	}
	set := append([]Standing(nil), from.Set...)
	for _, w := range g.less {
		var at []int
		for i, t := range set {
			if t.Want == w && !t.Fixed {
				at = append(at, i)
			}
		}
		if len(at) == 0 {
			return nil
		}
		k := at[s.rnd.IntN(len(at))]
		set = append(set[:k], set[k+1:]...)
	}
	c := newCrowd(s.g, s.base)
	for _, t := range set[len(s.base):] {
		c.add(t.Kind, t.Want, t.At, t.Turn, false)
	}
	a := asked{crumbs: true}
	add := func(w int) {
		kind := s.p.Wants[w].Kind
		c.ask(a)
		at := c.vacancy(c.askAlso(a, kind), -1, 60, s.rnd)
		c.add(kind, w, plane.Vec{at.x, at.y}, at.turn, false)
	}
	if g.all {
		for _, w := range s.g.order(from.Left, true, 0, s.rnd) {
			add(w)
		}
	} else {
		if from.Left[g.add] == 0 {
			return nil
		}
		add(g.add)
	}
	c.ask(a)
	h := newHopper(c, s.rnd)
	h.start()
	return &attempt{goal: g, h: h}
}

// pursue makes one hop of the attempt at hand, or ends it.
func (s *Search) pursue() {
	a := s.attempt
	if a.h.bestE <= 1e-10 {
		copy(a.h.c.x, a.h.best)
		s.end()
		return
	}
	if a.hops >= a.goal.hops {
		copy(a.h.c.x, a.h.best)
		s.end()
		return
	}
	a.hops++
	a.h.hop()
}

// end turns the attempt into an arrangement: what lacks most leaves until
// nothing is missing, then whatever has room goes in.
func (s *Search) end() {
	c := s.attempt.h.c
	s.attempt = nil
	d := &descent{}
	for c.n > c.fixed {
		e := d.lower(c, c.x, stop{rounds: 300, slow: 1e-4, enough: enough})
		if e <= 1e-10 {
			break
		}
		s.work += c.work
		c = c.without(s.loser(c))
		c.ask(asked{crumbs: true})
	}
	left := make([]int, len(s.p.Wants))
	for i, w := range s.p.Wants {
		left[i] = w.Count
	}
	for i := c.fixed; i < c.n; i++ {
		left[c.want[i]]--
	}
	found := false
	if set, ok := c.settle(c.x); ok {
		s.work += c.work
		c = newCrowd(s.g, s.base)
		for _, t := range set[len(s.base):] {
			c.add(t.Kind, t.Want, t.At, t.Turn, false)
		}
		b := newBuilder(c, leaning(s.rnd.IntN(int(leanings))), s.rnd)
		for _, w := range s.g.order(left, false, 0, s.rnd) {
			b.put(w)
		}
		found = s.offer(c)
	}
	s.work += c.work
	if found {
		s.barren = 0
		s.round = 0
		s.goals = s.goals[:0]
	}
}

// loser is the thing that leaves a crowd in which something is missing: much
// missing for its worth, no must while others lack too.
func (s *Search) loser(c *crowd) int {
	lost := c.missing(nil)
	worst, at := math.Inf(-1), c.fixed
	for i := c.fixed; i < c.n; i++ {
		if lost[i] <= 0 {
			continue
		}
		w := &s.p.Wants[c.want[i]]
		v := lost[i] / math.Max(w.Value, 1e-9)
		if w.Must {
			v -= 1e300
		}
		if v > worst {
			worst, at = v, i
		}
	}
	return at
}
