package firings

import (
	"sort"

	"threepost/layout"
)

// splitter is one split while it is made.
type splitter struct {
	studio  Studio
	asked   Asked
	classes []class
	lots    []lot
	of      int // pots of the waiting list
	setPots int
	times   []int // firings of each kiln so far
	box     layout.Furniture
	firings []*made
	renamed []map[string]string
	notes   []string
	solo    map[[3]int]string // by kiln, class and lot: why one pot has no place in the empty kiln
	cache   map[[2]int]*trial // by kiln and class, while the list of the class stays
	raised  map[int]bool      // lots that a trial treats as must-go: what waits longest
	hold    map[int]int       // while more is poured into a firing: what it holds already
	most    []float64         // value that each kiln is known to hold
	blocked map[int]string    // why a kiln in which something stays cannot be fired
	bare    bool              // trials leave the cone packs on the table
	poured  bool              // what suits several firings has been poured into them
	stopped bool
}

// made is a firing and the trial it came from.
type made struct {
	*trial
	round int
	box   layout.Furniture // what it may use
	kept  bool             // what stayed in the kiln is in it
	why   []string
	fill  float64
}

// Split splits the waiting list of a studio into firings. It refuses a studio
// without kilns and cones that no chart has, with a sentence; Stopped when
// Asked.Tell ended it.
func Split(studio Studio, asked Asked) (*Answer, error) {
	if err := studio.check(); err != nil {
		return nil, err
	}
	if asked.Work <= 0 {
		asked.Work = EachWork
	}
	if asked.Most <= 0 || asked.Most > MostFirings {
		asked.Most = MostFirings
	}
	s := &splitter{studio: studio, asked: asked, times: make([]int, len(studio.Kilns)), most: make([]float64, len(studio.Kilns)), solo: map[[3]int]string{}, blocked: map[int]string{}, cache: map[[2]int]*trial{}}
	s.gather()
	s.classify()
	s.box = s.oneBox()
	for more := true; more && !s.stopped; {
		more = false
		for len(s.firings) < asked.Most && s.round() && !s.stopped {
			more = true
		}
		if !s.stopped && s.pour() {
			more = true
		}
	}
	s.fillRates()
	a := s.answer()
	if s.stopped {
		return nil, Stopped{}
	}
	return a, nil
}

// round makes the firings of one round: one where firings come one after
// another, one of every kiln where they burn together. False when none was made.
func (s *splitter) round() bool {
	if s.studio.Together && len(s.studio.Kilns) > 1 {
		return s.roundTogether()
	}
	t := s.next(nil, func(k int) layout.Furniture { return s.boxOf(k) }, true)
	if t == nil {
		return false
	}
	s.take(t, s.boxOf(t.kiln), len(s.firings)+1)
	return true
}

// boxOf is all furniture a kiln may use when it is fired alone.
func (s *splitter) boxOf(k int) layout.Furniture {
	if s.studio.Share {
		return s.box
	}
	return s.studio.Kilns[k].Load.Furniture
}

// next is the trial that is fired next: of every class the best kiln, of these
// the class that goes first. busy kilns are passed over.
func (s *splitter) next(busy map[int]bool, box func(int) layout.Furniture, cached bool) *trial {
	var best *trial
	for c := range s.classes {
		var of *trial
		for k := range s.studio.Kilns {
			if busy[k] || !s.may(k, c) {
				continue
			}
			t := s.tryCached(k, c, box(k), cached)
			if s.stopped {
				return nil
			}
			if t != nil && t.pots > 0 && (of == nil || s.fitter(t, of)) {
				of = t
			}
		}
		if of != nil && (best == nil || s.sooner(of, best)) {
			best = of
		}
	}
	return best
}

// may tells whether a kiln's next firing can be of a class.
func (s *splitter) may(k, c int) bool {
	return s.reaches(k, c) && (!s.keeps(k) || s.classes[c].kilns[k])
}

func (s *splitter) tryCached(k, c int, box layout.Furniture, cached bool) *trial {
	key := [2]int{k, c}
	if t, there := s.cache[key]; cached && there {
		return t
	}
	t := s.filled(k, c, box)
	if cached && !s.stopped {
		s.cache[key] = t
	}
	return t
}

// fitter tells whether a trial suits its class better than one in another kiln:
// more must-go pots; both set all: the smaller kiln; else the more value.
func (s *splitter) fitter(a, b *trial) bool {
	switch {
	case differ(a.musts, b.musts):
		return a.musts > b.musts
	case !a.waits && !b.waits && a.pots == b.pots:
		return s.litres(a.kiln) < s.litres(b.kiln)-1e-9
	}
	return a.value > b.value+1e-9
}

// sooner tells whether one class is fired before another: must-go pots first,
// full firings before part-full ones, then what waits longest, then the more
// value.
func (s *splitter) sooner(a, b *trial) bool {
	if (a.musts > 0) != (b.musts > 0) {
		return a.musts > 0
	}
	if a.waits != b.waits {
		return a.waits
	}
	if x, y := s.oldest(a), s.oldest(b); x != y {
		return x != "" && (y == "" || x < y)
	}
	return a.value > b.value+1e-9
}

// oldest is the date that the longest waiting pot of a trial waits since.
func (s *splitter) oldest(t *trial) string {
	out := ""
	for lot := range t.set {
		if d := s.lots[lot].ware.Since; d != "" && (out == "" || d < out) {
			out = d
		}
	}
	return out
}

func differ(a, b float64) bool { return a > b+1e-9 || b > a+1e-9 }

// litres is the room of a kiln.
func (s *splitter) litres(k int) float64 {
	kiln := &s.studio.Kilns[k].Load.Kiln
	o, err := kiln.Chamber.Outline()
	if err != nil {
		return 0
	}
	return o.Area() * kiln.Height / 1e6
}

// take makes a trial a firing: its pots leave the list.
func (s *splitter) take(t *trial, box layout.Furniture, round int) {
	m := &made{trial: t, round: round, box: box, kept: s.keeps(t.kiln)}
	m.why = s.whyNow(t)
	for lot, n := range t.set {
		s.lots[lot].left -= n
		s.setPots += n
	}
	if s.keeps(t.kiln) {
		for i := range s.lots {
			if s.lots[i].from == t.kiln {
				s.lots[i].kept = nil
			}
		}
	}
	s.times[t.kiln]++
	s.firings = append(s.firings, m)
	// What was tried with the pots that are gone, or in that kiln while
	// something stayed there, holds no longer.
	for key, old := range s.cache {
		stale := key[0] == t.kiln && s.times[t.kiln] == 1
		if old != nil {
			for lot := range t.set {
				for _, o := range old.offered {
					stale = stale || o.lot == lot
				}
			}
		}
		stale = stale || key[1] == t.class
		if stale {
			delete(s.cache, key)
		}
	}
}

// offer lists what a firing of a class in a kiln is offered, in the order of the
// list: what stays in the kiln, lots that suit no other class, must-go lots, and
// lots that suit several once all others of those are gone. A list far larger
// than the kiln is cut, longest waiting first.
func (s *splitter) offer(k, c int) []part {
	var lots []int
	for i := range s.lots {
		if l := &s.lots[i]; s.available(i, k) > 0 && (s.keeps(k) && l.from == k && len(l.kept) > 0 || s.belongs(l, c)) {
			lots = append(lots, i)
		}
	}
	room := 2.5 * s.litres(k)
	taken := map[int]int{}
	for _, i := range s.inOrder(lots) {
		each := litresOf(&s.lots[i].ware)
		n := s.available(i, k)
		if each > 0 && float64(each*float64(n)) > room {
			n = min(n, int(max(0, room)/each)+1)
		}
		if room <= 0 {
			n = 0
		}
		if s.keeps(k) && s.lots[i].from == k {
			n = max(n, len(s.lots[i].kept))
		}
		room -= float64(each * float64(n))
		taken[i] = n
	}
	var out []part
	for _, i := range lots {
		if taken[i] > 0 {
			out = append(out, part{i, taken[i]})
		}
	}
	return out
}

// litresOf is the room that a pot takes on a shelf, its box, in litres.
func litresOf(w *layout.Ware) float64 {
	x, y := w.Across, w.Across
	if w.Length > 0 {
		x, y = w.Length, w.Width
	}
	return float64(x*y) * w.Height / 1e6
}

// available is how many pots of a lot a kiln may have: those that stay in
// another kiln are not.
func (s *splitter) available(i, k int) int {
	l := &s.lots[i]
	if l.from == k && s.keeps(k) {
		if l.why != "" {
			return len(l.kept)
		}
		return l.left
	}
	if l.why != "" {
		return 0
	}
	return l.left - len(l.kept)
}

// belongs tells whether a lot is offered to firings of a class now.
func (s *splitter) belongs(l *lot, c int) bool {
	suits := false
	for _, w := range l.wants {
		suits = suits || w == c
	}
	if !suits || len(l.wants) == 1 || l.must() {
		return suits
	}
	if c != l.wants[0] || !s.poured {
		return false
	}
	return true
}

// sortedLots lists the lots of a trial in the order of the list.
func (t *trial) sortedLots() []int {
	var out []int
	for lot := range t.set {
		out = append(out, lot)
	}
	sort.Ints(out)
	return out
}

func sortByNumber(set []*layout.Placement) {
	sort.SliceStable(set, func(i, j int) bool { return set[i].Pot.Number < set[j].Pot.Number })
}
