package planner

import (
	"fmt"
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/layout/packing"
)

// pattern is what a storey held once: so many pots of each kind, and where they
// stood. On levels of one shelf, under one height, it holds again.
type pattern struct {
	site   *site
	need   float64 // height of its tallest pot, mm
	counts []int   // of each kind
	set    []placed
	serial int // the order in which patterns were found
}

// class tells which storeys hold each other's patterns: of the same shelf with
// as many posts on it, at gaps of the same rule.
type class struct {
	shelf string
	posts int
	rooms int
	deep  bool
	bars  string // kinds that the wishes keep off
}

func classOf(st *storey) class {
	like := st.site
	if like.like != nil {
		like = like.like
	}
	return class{shelf: like.mark(), posts: len(st.posts), rooms: len(st.zones), deep: st.deep, bars: st.barred()}
}

// pool is the patterns that a search has packed, by class.
type pool struct {
	of     map[class][]*pattern
	seen   map[string]bool
	serial int
}

func newPool() pool { return pool{of: map[class][]*pattern{}, seen: map[string]bool{}} }

// mostPatterns is how many patterns of one class are held.
const mostPatterns = 90

// gather enters what stands on a frame's storeys into the pool.
func (s *Search) gather(f *frame) {
	if f.kept {
		return
	}
	for _, st := range f.storeys {
		s.enter(st, st.set)
	}
}

// enter puts pots that stand well on a storey into the pool.
func (s *Search) enter(st *storey, set []placed) {
	if len(set) == 0 {
		return
	}
	p := &pattern{site: st.site, counts: make([]int, len(s.context.kinds))}
	for _, q := range set {
		p.counts[q.kind]++
		p.need = max(p.need, s.context.kinds[q.kind].body.Height)
	}
	c := classOf(st)
	key := fmt.Sprint(c, p.counts)
	if s.pool.seen[key] {
		return
	}
	s.pool.seen[key] = true
	for _, q := range s.pool.of[c] {
		if q.need <= p.need && covers(q.counts, p.counts) {
			return
		}
	}
	p.set = append([]placed(nil), set...)
	s.pool.serial++
	p.serial = s.pool.serial
	kept := s.pool.of[c][:0]
	for _, q := range s.pool.of[c] {
		if !(p.need <= q.need && covers(p.counts, q.counts)) {
			kept = append(kept, q)
		}
	}
	kept = append(kept, p)
	if len(kept) > mostPatterns {
		kept = s.thinned(kept)
	}
	s.pool.of[c] = kept
}

// thinned drops the pattern of least value among the older half.
func (s *Search) thinned(list []*pattern) []*pattern {
	worst, least := 0, math.Inf(1)
	for i, p := range list[:len(list)/2] {
		if v := s.countWorth(p.counts); v < least {
			worst, least = i, v
		}
	}
	return append(list[:worst], list[worst+1:]...)
}

// countWorth is the value of counts of pots, musts many times over.
func (s *Search) countWorth(counts []int) float64 {
	v := 0.0
	for k, n := range counts {
		v += float64(float64(n) * s.context.weight(k))
	}
	return v
}

// weight is the value of a pot of a kind, musts many times over.
func (c *context) weight(k int) float64 {
	if c.kinds[k].must {
		return mustWeight * c.kinds[k].value
	}
	return c.kinds[k].value
}

// mustWeight is how many times over a must counts when patterns are chosen.
const mustWeight = 20

// covers says whether a holds no less of any kind than b.
func covers(a, b []int) bool {
	for k := range a {
		if a[k] < b[k] {
			return false
		}
	}
	return true
}

// offers are the patterns that hold on a storey, oldest first: those of its
// class, and of stricter ones.
func (s *Search) offers(st *storey) []*pattern {
	own := classOf(st)
	var out []*pattern
	add := func(c class) {
		for _, p := range s.pool.of[c] {
			if st.fits(p.need) {
				out = append(out, p)
			}
		}
	}
	add(own)
	if !own.deep {
		add(class{own.shelf, own.posts, own.rooms, true, own.bars})
	}
	if own.posts == 0 && own.rooms == 1 {
		n := len(st.site.lines)
		add(class{own.shelf, n, 1, own.deep, own.bars})
		if !own.deep {
			add(class{own.shelf, n, 1, true, own.bars})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].serial < out[j].serial })
	return out
}

// adopt sets a pattern's pots on an empty storey, as many of each kind as rest
// has and as keep all distances there, and counts them off.
func (s *Search) adopt(st *storey, p *pattern, rest []int) {
	wants := map[int]int{}
	for k, n := range p.counts {
		if n = min(n, rest[k]); n > 0 && s.context.takes(st, k) {
			wants[k] = n
		}
	}
	if len(wants) == 0 {
		return
	}
	s.partFume(st, wants)
	sp := s.context.problemOf(st, wants, st.fixed)
	var stand []packing.Standing
	var left []placed
	turn := plane.NormalTurn(st.site.shelf.Turn - p.site.shelf.Turn)
	for _, q := range p.set {
		i, ok := sp.index[q.kind]
		if !ok || wants[q.kind] <= 0 {
			continue
		}
		if st.site != p.site {
			at := plane.Add(st.site.shelf.At, plane.Rotate(plane.Sub(q.at, p.site.shelf.At), turn))
			q.at = plane.Vec{grid(at[0]), grid(at[1])}
			if s.context.kinds[q.kind].body.Turns {
				q.turn = grid(plane.NormalTurn(q.turn + turn))
			}
		}
		stand = append(stand, packing.Standing{Kind: i, Want: 0, At: q.at, Turn: q.turn})
		left = append(left, q)
		wants[q.kind]--
	}
	for _, i := range s.together(sp, stand, left) {
		st.set = append(st.set, left[i])
		rest[left[i].kind]--
	}
}

// together are the indices of the things that stand together, all of them or
// those that find their distances kept when set one by one.
func (s *Search) together(sp *shelfProblem, stand []packing.Standing, of []placed) []int {
	all := make([]int, len(stand))
	for i := range all {
		all[i] = i
	}
	fixed := sp.problem.Fixed
	whole := append(append([]packing.Standing(nil), fixed...), stand...)
	s.spent += int64(len(whole)*len(whole))/2000 + 1
	if packing.Valid(&sp.problem, whole) {
		return all
	}
	sort.SliceStable(all, func(i, j int) bool {
		return s.context.weight(of[all[i]].kind) > s.context.weight(of[all[j]].kind)
	})
	kept := append([]packing.Standing(nil), fixed...)
	var out []int
	for _, i := range all {
		s.spent++
		if packing.Valid(&sp.problem, append(kept, stand[i])) {
			kept = append(kept, stand[i])
			out = append(out, i)
		}
	}
	sort.Ints(out)
	return out
}
