package planner

import (
	"threepost/layout/packing"
)

// capacityWork is what one count of alike pots on a bare shelf may cost.
const capacityWork = 60

// capacityKey names a count: how many pots of a kind a site takes alone.
type capacityKey struct {
	site string // the site's mark
	kind int
	deep bool
}

// capacity is how many pots of a kind the site's shelf takes when nothing else
// stands there, round the posts. Sites of one shape share the count: it is an
// estimate for ranking, never a verdict.
func (s *Search) capacity(st *site, k int, deep bool) int {
	key := capacityKey{st.mark(), k, deep}
	if n, ok := s.capacities[key]; ok {
		return n
	}
	c := s.context
	probe := &storey{site: st, deep: deep, zones: []zone{{takes: c.kinds[k].body.Height}}, posts: c.postsAt(st)}
	count := min(len(c.kinds[k].free), 60)
	if count == 0 {
		count = 1
	}
	// Ask for as many as the shelf could hold by area, to see what it takes.
	area := st.outline.Area()
	r := c.kinds[k].body.Solid.Parts[0].Profile.Max()
	if r > 0 {
		count = min(200, int(area/(3*r*r))+2)
	}
	sp := c.problemOf(probe, map[int]int{k: count}, nil)
	res, err := packing.Fill(sp.problem, s.seed, capacityWork)
	n := 0
	if err == nil {
		s.spent += res.Work
		n = len(res.Set)
	}
	s.capacities[key] = n
	return n
}
