package planner

import (
	"fmt"
	"sort"

	"threepost/layout"
	"threepost/layout/clearance"
)

// Search looks for a plan of a load, a step at a time. It is not for use by
// several goroutines at once.
type Search struct {
	context    *context
	seed       uint64
	spent      int64 // units of work done
	allowed    int64
	tasks      []task
	best       *candidate
	mustSee    bool         // a watched pack out of sight is no plan worth having
	loosened   int          // designs tried without regard to sight
	tried      []*candidate // the best of each way to stack, best first
	rounds     int
	walks      []*walk
	queue      []*design // designs still to try
	nextTry    int64     // units at which the next is tried
	nextMix    int64     // and patterns are chosen anew
	idle       int       // rounds since the best plan last improved
	barred     map[int]string
	unstood    map[int]string // rows of which some wait for cookies or stilts, and the sentence
	slimmed    bool           // no storey can be done without any more
	refused    string         // why no design could be built
	capacities map[capacityKey]int
	areaOf     map[string][]float64
	holds      map[string]map[int]int // what a storey holds of an owner's pots
	pause      func() bool            // asked now and then by RoomForOne and Spread; false: end early
	stretch    float64                // pots take so many times the area they take among their like; 0 means 1
	evenedOf   *candidate             // the candidate that evenedTo was made from
	evenedTo   *candidate

	rest   *rest     // what stands, where only the rest is planned
	pool   pool      // patterns packed so far
	prices []float64 // of a pot of each kind, when patterns are chosen
	debt   int       // work of choosing that makes no whole unit yet
	field  []*design // that patterns are chosen for
	mixes  int       // frames built of chosen patterns

	binBuf   []bin
	restBuf  []float64
	orderBuf []int
}

// task is a piece of the search that runs to its end.
type task func()

// candidate is a checked plan.
type candidate struct {
	frame  *frame
	towers []layout.Tower
	report clearance.Report
	musts  float64
	value  float64
	watch  int // watches that are not in the ware itself, nor watched packs out of sight
	deaf   int // what goes against the wishes
	roams  int // levels beyond the first that owners' pots need who are kept together or apart
	unseen int // watched packs out of sight
	pieces int // of furniture
}

// Work of the parts of a search, in units of package packing.
const (
	quickWork  = 300  // the very first packing of all
	firstWork  = 1500 // the first, quick packing of a design
	closerWork = 5000 // filling round what stays
	roundWork  = 1200 // one more pot squeezed in
	spreadWork = 4000 // evening out the final plan
	giveUp     = 400  // rounds without gain after which the search rests
	betterUp   = 100  // the same where all is set, but not all as wished
	freshStart = 80   // rounds without gain after which the best designs are packed anew
	mostTries  = 16   // designs that are packed at all for their estimate
	firstTries = 6    // of those, before any is worked on
)

// Start begins a search. What is locked or stands in the kiln stays; the levels
// over it are planned anew, or filled as they are where that holds more. It refuses loads that cannot be planned for: no
// shelves, no posts, no shape of chamber; the sentence says what to add.
func Start(l *layout.Load, seed uint64) (*Search, error) {
	c, err := newContext(l.Clone())
	if err != nil {
		return nil, err
	}
	s := newSearch(c, seed)
	if kept := keptFrame(c); kept != nil {
		s.tasks = append(s.tasks, func() { s.refill(kept) })
		if r := restOfKept(c); r != nil {
			s.rest = r
			c.freeRest(r)
			s.tasks = append(s.tasks, s.planOver)
		}
		return s, nil
	}
	s.tasks = append(s.tasks, s.survey)
	return s, nil
}

// newSearch is a search that has nothing to do yet.
func newSearch(c *context, seed uint64) *Search {
	return &Search{context: c, seed: seed, barred: map[int]string{}, unstood: map[int]string{},
		capacities: map[capacityKey]int{}, areaOf: map[string][]float64{}, holds: map[string]map[int]int{},
		pool: newPool()}
}

// Step does about that many units of work more. It reports whether the search
// is done: everything is set, or many rounds have brought nothing.
func (s *Search) Step(work int64) (done bool) {
	s.allowed += work
	for s.spent < s.allowed {
		if len(s.tasks) == 0 {
			if s.finished() {
				if s.slim() {
					continue
				}
				return true
			}
			s.round()
			continue
		}
		next := s.tasks[0]
		s.tasks = s.tasks[1:]
		before := s.spent
		next()
		if s.spent == before {
			s.spent++
		}
	}
	return len(s.tasks) == 0 && s.finished() && s.slimmed
}

// finished says whether more rounds are of no use.
func (s *Search) finished() bool {
	return s.best == nil || s.idle >= giveUp || s.fulfilled() || s.allSet() && s.idle >= betterUp
}

// fulfilled says whether every pot has its place, every watched pack in sight,
// and no wish is gone against: the best plan can only be leaner.
func (s *Search) fulfilled() bool {
	return s.best != nil && s.best.unseen == 0 && s.best.deaf == 0 && s.allSet()
}

// allSet says whether every pot has its place.
func (s *Search) allSet() bool { return s.holdsAll(s.best) }

// holdsAll says whether every pot has its place in a candidate.
func (s *Search) holdsAll(c *candidate) bool {
	n := 0
	for _, st := range c.frame.storeys {
		n += len(st.set)
		for _, p := range st.fixed {
			if p.pot.Ware == "" {
				n++
			}
		}
	}
	want := 0
	for _, k := range s.context.kinds {
		want += len(k.free)
	}
	return n >= want
}

// survey ranks the designs of all divisions and queues the best: those of each
// division in turn, first with the fittest posts, then with others where those
// promise more, since the estimate parts like from like better than one
// division from another.
func (s *Search) survey() {
	var groups [][]*design
	divisions := s.context.maker().divisions()
	for _, dv := range divisions {
		s.tasks = append(s.tasks, func() {
			d := s.designs(dv, false)
			if groups = append(groups, d); s.best == nil && len(d) > 0 { // a plan to show while the rest is weighed
				s.try(d[0], quickWork)
			}
		})
	}
	s.tasks = append(s.tasks, func() {
		s.queueUp(groups)
		s.tryNext()
	})
	for _, dv := range divisions {
		s.tasks = append(s.tasks, func() {
			var all []*design
			for _, g := range groups[:len(divisions)] {
				all = append(all, g...)
			}
			groups = append(groups, s.richer(all, s.designs(dv, true)))
		})
	}
	s.tasks = append(s.tasks, func() {
		if s.queueUp(groups); len(s.queue) == 0 && s.best == nil {
			s.refused = s.whyNone(divisions)
			return
		}
		for range min(len(s.queue), firstTries) {
			s.tasks = append(s.tasks, s.tryNext)
		}
	})
}

// queueUp queues the best designs of the groups that are not tried yet.
func (s *Search) queueUp(groups [][]*design) {
	var best *design
	for _, g := range groups {
		for _, d := range g {
			if best == nil || d.before(best) {
				best = d
			}
		}
	}
	s.queue = s.queue[:0]
	if best == nil {
		return
	}
	for _, d := range inTurn(groups, best) {
		if !d.tried {
			s.queue = append(s.queue, d)
		}
	}
}

// before orders designs by what they promise.
func (d *design) before(e *design) bool {
	if d.musts != e.musts {
		return d.musts > e.musts
	}
	if d.struck != e.struck {
		return e.struck
	}
	return d.hopes() > e.hopes()
}

// inTurn takes designs from all groups in turn, the most promising group first:
// the best of each, then those that promise nearly as much as the best of all.
func inTurn(groups [][]*design, best *design) []*design {
	const nearly = 0.8
	var order [][]*design
	for _, g := range groups {
		if len(g) > 0 {
			g = append([]*design(nil), g...)
			sort.SliceStable(g, func(i, j int) bool { return g[i].before(g[j]) })
			order = append(order, g)
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return order[i][0].before(order[j][0]) })
	var queue []*design
	for n := 0; n < 2*keepDesigns && len(queue) < mostTries; n++ {
		for i, g := range order {
			if n >= len(g) || len(queue) >= mostTries || n == 0 && i >= 8 {
				continue
			}
			if d := g[n]; n == 0 || d.musts >= best.musts-1e-9 && d.struck == best.struck && d.hopes() >= nearly*best.hopes() {
				queue = append(queue, d)
			}
		}
	}
	return queue
}

// richer are the designs with other than the fittest posts that promise clearly
// more than all with the fittest, where those are used up, or than those of them
// that keep off the probes and show the cones.
func (s *Search) richer(fittest, others []*design) []*design {
	const clearly = 1.04
	best, clear := 0.0, 0.0 // of all, and of those that keep clear and show the cones
	clears := func(d *design) bool { return !d.struck && d.unseen == 0 }
	for _, d := range fittest {
		best = max(best, d.hopes())
		if clears(d) {
			clear = max(clear, d.hopes())
		}
	}
	var out []*design
	for _, d := range others {
		if (d.hopes() > clearly*best || clears(d) && d.hopes() > clearly*clear) && len(out) < keepDesigns {
			out = append(out, d)
		}
	}
	return out
}

// whyNone says why no design can be built at all.
func (s *Search) whyNone(divisions []*division) string {
	if len(divisions) == 0 {
		return fmt.Sprintf("No shelf stands in the kiln with %g mm to the wall all round and three posts under it. Add a smaller shelf.",
			s.context.limits[layout.ShelfToWall].Plan)
	}
	return fmt.Sprintf("The posts do not hold a bottom shelf %g mm over the floor. Add three alike posts of %g or more.",
		s.context.limits[layout.BottomShelf].Plan, s.context.limits[layout.BottomShelf].Plan)
}

// try packs a design quickly and keeps it as a candidate.
func (s *Search) try(d *design, work int64) {
	d.tried = work >= firstWork
	bare, err := s.bare(d)
	if err != nil {
		return
	}
	f := bare.clone()
	s.fillAll(f, work, 1)
	s.keep(f)
}

// keep checks a frame and enters it among the candidates.
func (s *Search) keep(f *frame) {
	c := s.verify(f)
	if c == nil {
		return
	}
	s.note(c)
	s.enlist(c)
	s.gather(c.frame)
	c.frame.design.mixed = max(c.frame.design.mixed, c.value+float64((mustWeight-1)*c.musts))
	if s.best == nil || c.beats(s.best) {
		s.best = c
		s.idle = 0
	}
}

// beats orders candidates: musts, then no watch, then the wishes, then value
// less what packs out of sight count for, then little furniture.
func (c *candidate) beats(d *candidate) bool {
	const crumb = 1e-9
	switch {
	case c.musts > d.musts+crumb:
		return true
	case c.musts < d.musts-crumb:
		return false
	case c.watch != d.watch:
		return c.watch < d.watch
	case c.deaf != d.deaf:
		return c.deaf < d.deaf
	case c.weighed() > d.weighed()+crumb:
		return true
	case c.weighed() < d.weighed()-crumb:
		return false
	case c.unseen != d.unseen:
		return c.unseen < d.unseen
	}
	return c.pieces < d.pieces
}

// squeezeIn sets one more waiting pot on a storey, moving what is loose there:
// a kind that fits, another one each time.
func (s *Search) squeezeIn(st *storey, rest []int, seed uint64) bool {
	if st.sealed {
		return false
	}
	var fit []int
	for k, kd := range s.context.kinds {
		if kd.cones == nil && rest[k] > 0 && s.context.takes(st, k) {
			fit = append(fit, k)
		}
	}
	return len(fit) > 0 && s.squeezeOne(st, fit[(s.rounds/3)%len(fit)], seed, roundWork)
}

// clone copies a frame so that its storeys can be packed anew.
func (f *frame) clone() *frame {
	g := *f
	g.storeys = make([]*storey, len(f.storeys))
	for i, st := range f.storeys {
		c := *st
		c.set = append([]placed(nil), st.set...)
		c.fixed = append([]placed(nil), st.fixed...)
		g.storeys[i] = &c
	}
	return &g
}
