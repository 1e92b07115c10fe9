package planner

import "math/rand/v2"

// A walk goes from arrangement to arrangement of one design by packing storeys
// anew, and may lose a little on the way (record-to-record travel, Dueck 1993):
// where nearly all is set, what waits goes in only after others have changed
// places.
type walk struct {
	at     *candidate
	best   *candidate
	barren int // steps since the best was bettered
}

// Figures of a walk.
var (
	walkLoss  = 0.02       // share of the value a walk may lie under its record
	walkBack  = 40         // barren steps after which it goes back to its record
	pairWork  = int64(700) // packing one storey of a pair
	aloneWork = int64(900) // packing one storey alone
	rollA     = 4
	rollB     = 9
)

// step makes one step of a walk and reports whether it set a record.
func (s *Search) step(w *walk) bool {
	s.rounds++
	rnd := rand.New(rand.NewPCG(s.seed, uint64(s.rounds)))
	w.barren++
	if w.barren%walkBack == 0 {
		w.at = w.best
	}
	before := s.spent
	kind, now := s.stepped(w.at, rnd)
	if now != nil {
		s.gather(now.frame)
	}
	dbg2(kind, w.at, w.best, now, s.spent-before)
	if now == nil {
		return false
	}
	if now.musts >= w.best.musts-1e-9 && now.watch <= w.best.watch && now.value >= (1-walkLoss)*w.best.value {
		w.at = now
	}
	if now.beats(w.best) {
		w.best, w.barren = now, 0
		return true
	}
	return false
}

// stepped is a neighbour of a candidate.
func (s *Search) stepped(c *candidate, rnd *rand.Rand) (string, *candidate) {
	f := c.frame.clone()
	n := len(f.storeys)
	rest := s.restOf(f)
	seed := rnd.Uint64() >> 20
	a := rnd.IntN(n)
	switch roll := rnd.IntN(20); {
	case roll < rollA:
		if !s.squeezeIn(f.storeys[a], rest, seed) {
			return "squeeze", nil
		}
		return "squeeze", s.verify(f)
	case roll < rollB || n == 1:
		st := f.storeys[a]
		wants := s.wantsOn(st, s.lifted(st, rest))
		if st.sealed || len(wants) == 0 {
			return "alone", nil
		}
		st.set = nil
		s.fillStorey(st, wants, aloneWork, seed)
		return "alone", s.verify(f)
	default:
		b := (a + 1 + rnd.IntN(n-1)) % n
		if f.storeys[a].tallest() < f.storeys[b].tallest() {
			a, b = b, a
		}
		s.pairUp(f.storeys[a], f.storeys[b], rest, rnd, seed)
		return "pair", s.verify(f)
	}
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

// lifted puts a storey's pots back among the rest.
func (s *Search) lifted(st *storey, rest []int) []int {
	for _, p := range st.set {
		rest[p.kind]++
	}
	return rest
}

// pairUp packs two storeys anew: the taller first, in whose eyes what the other
// takes too counts less by some share, then the other.
func (s *Search) pairUp(a, b *storey, rest []int, rnd *rand.Rand, seed uint64) {
	if a.sealed || b.sealed {
		return
	}
	s.lifted(a, rest)
	s.lifted(b, rest)
	a.set, b.set = nil, nil
	less := []float64{0, 0.25, 0.5, 0.75}[rnd.IntN(4)]
	fill := func(st *storey, less float64, work int64, seed uint64) {
		wants := s.wantsOn(st, rest)
		if len(wants) == 0 {
			return
		}
		s.partFume(st, wants)
		st.set = s.packed(st, wants, work, seed, func(k int) float64 {
			if less > 0 && b.fits(s.context.kinds[k].body.Height) {
				return 1 - less
			}
			return 1
		})
		for _, p := range st.set {
			rest[p.kind]--
		}
	}
	fill(a, less, pairWork, seed)
	fill(b, 0, pairWork, seed+1)
	if wants := s.wantsOn(a, rest); len(wants) > 0 {
		for _, p := range a.set {
			wants[p.kind]++
		}
		s.addBeside(a, wants, 100, seed+2)
	}
}
