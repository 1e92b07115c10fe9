package planner

import (
	"math"

	"threepost/layout"
	"threepost/layout/packing"
	"threepost/layout/stacks"
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
	if n := c.manyByArea(st, k); n > 0 {
		s.capacities[key] = n
		return n
	}
	// Ask for as many as the shelf could hold by area, to see what it takes.
	count := min(200, int(st.area()/planArea(c.kinds[k].body))+2)
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

// Small things are not counted out one by one: so much of a shelf is covered by
// many of them, each with half a gap round it.
const (
	manyPots  = 40
	manyCover = 0.66
)

// manyByArea is how many pots of a kind a site takes by area, when that is
// many; else 0.
func (c *context) manyByArea(st *site, k int) int {
	part := c.kinds[k].body.Solid.Parts[0]
	r := part.Profile.Max() + float64(c.limits[layout.PotToPot].Plan/2)
	area := part.Skeleton.Area() + float64(part.Skeleton.Perimeter()*r) + float64(math.Pi*float64(r*r))
	if n := int(float64(manyCover*st.area()) / area); n > manyPots {
		return n
	}
	return 0
}

// planArea is the plan area of the pot itself, without handles, mm2.
func planArea(b *stacks.Body) float64 {
	part := b.Solid.Parts[0]
	r := part.Profile.Max()
	return part.Skeleton.Area() + float64(part.Skeleton.Perimeter()*r) + float64(math.Pi*float64(r*r)) + 1
}
