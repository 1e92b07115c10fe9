package planner

import "math/rand/v2"

// walk goes from arrangement to arrangement of one design by packing storeys
// anew, and may lose a little on the way (record-to-record travel, Dueck 1993):
// where nearly all is set, what waits goes in only after others have changed
// places.
type walk struct {
	at     *candidate
	best   *candidate
	barren int   // steps since the best was bettered
	spent  int64 // units
}

// Figures of a walk.
const (
	walkLoss  = 0.02 // share of the value a walk may lie under its record
	walkBack  = 40   // barren steps after which it goes back to its record
	pairWork  = 700  // packing one storey of a pair
	aloneWork = 900  // packing one storey alone
	gapWork   = 100  // filling the gaps of one storey
)

// step makes one step of a walk and reports whether it set a record.
func (s *Search) step(w *walk) bool {
	s.rounds++
	rnd := rand.New(rand.NewPCG(s.seed, uint64(s.rounds)))
	w.barren++
	if w.barren%walkBack == 0 {
		w.at = w.best
	}
	now := s.stepped(w.at, rnd)
	if now == nil {
		return false
	}
	if now.musts >= w.best.musts-1e-9 && now.watch <= w.best.watch && now.deaf <= w.best.deaf && now.weighed() >= (1-walkLoss)*w.best.weighed() {
		w.at = now
	}
	if !now.beats(w.best) {
		return false
	}
	w.best, w.barren = now, 0
	return true
}

// stepped is a neighbour of a candidate: with a pot more squeezed in, or with
// one or two storeys packed anew. It is nil when nothing came of it.
func (s *Search) stepped(c *candidate, rnd *rand.Rand) *candidate {
	f := c.frame.clone()
	n := len(f.storeys)
	rest := s.restOf(f)
	a := rnd.IntN(n)
	seed := rnd.Uint64() >> 20
	switch roll := rnd.IntN(20); {
	case roll < 3:
		if !s.squeezeIn(f.storeys[a], rest, seed) {
			return nil
		}
	case roll < 9 || n == 1:
		if !s.alone(f.storeys[a], rest, seed) {
			return nil
		}
	default:
		b := (a + 1 + rnd.IntN(n-1)) % n
		if f.storeys[a].tallest() < f.storeys[b].tallest() {
			a, b = b, a
		}
		if !s.pairUp(f.storeys[a], f.storeys[b], rest, []float64{0, 0.25, 0.5, 0.75}[rnd.IntN(4)], seed) {
			return nil
		}
	}
	return s.verify(f)
}

// restOf is how many pots of each kind have no place in a frame.
func (s *Search) restOf(f *frame) []int {
	rest := s.counts()
	for _, st := range f.storeys {
		for _, p := range st.set {
			rest[p.kind]--
		}
		for _, p := range st.fixed {
			if p.pot.Ware == "" {
				rest[p.kind]--
			}
		}
	}
	return rest
}

// lift takes the loose pots off a storey, back among the rest.
func (s *Search) lift(st *storey, rest []int) {
	for _, p := range st.set {
		rest[p.kind]++
	}
	st.set = nil
}

// wantsOn are the pots of rest that a storey takes by their height.
func (s *Search) wantsOn(st *storey, rest []int) map[int]int {
	wants := map[int]int{}
	for k := range s.context.kinds {
		if s.context.movable(k) && rest[k] > 0 && s.context.takes(st, k) {
			wants[k] = rest[k]
		}
	}
	return wants
}

// alone packs one storey anew with what stood there and what waits.
func (s *Search) alone(st *storey, rest []int, seed uint64) bool {
	if st.sealed || len(s.wantsOn(st, rest)) == 0 {
		return false
	}
	s.lift(st, rest)
	wants := s.wantsOn(st, rest)
	s.partFume(st, wants)
	st.set = s.packed(st, wants, aloneWork, seed, nil)
	return true
}

// pairUp packs two storeys anew: the taller first, in whose eyes what the other
// takes too counts less by some share, then the other.
func (s *Search) pairUp(a, b *storey, rest []int, less float64, seed uint64) bool {
	if a.sealed || b.sealed {
		return false
	}
	s.lift(a, rest)
	s.lift(b, rest)
	fill := func(st *storey, seed uint64, times func(k int) float64) {
		wants := s.wantsOn(st, rest)
		if len(wants) == 0 {
			return
		}
		s.partFume(st, wants)
		st.set = s.packed(st, wants, pairWork, seed, times)
		for _, p := range st.set {
			rest[p.kind]--
		}
	}
	fill(a, seed, func(k int) float64 {
		if s.context.takes(b, k) {
			return 1 - less
		}
		return 1
	})
	fill(b, seed+1, nil)
	s.fillGap(a, rest, seed+2)
	return true
}

// fillGap sets what is left beside what stands on a storey.
func (s *Search) fillGap(st *storey, rest []int, seed uint64) {
	wants := s.wantsOn(st, rest)
	if st.sealed || len(wants) == 0 {
		return
	}
	had := len(st.set)
	for _, p := range st.set {
		wants[p.kind]++
	}
	s.addBeside(st, wants, gapWork, seed)
	for _, p := range st.set[had:] {
		rest[p.kind]--
	}
}
