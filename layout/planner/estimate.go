package planner

import (
	"math"

	"threepost/layout"
)

// bin is a storey as the estimate sees it: how tall, how much area.
type bin struct {
	takes float64
	area  float64
}

// estimate is the value that a design may hold when every kind fills area as it
// does alone on a shelf: the densest pots first, each in the lowest storey that
// takes it. It ranks designs; the packing decides.
func (s *Search) estimate(d *design) (musts, value float64) {
	bins := s.bins(d)
	musts, value, left := s.assign(bins, s.areas(d.division), nil)
	for _, a := range left {
		value += float64(spareArea * a) // of equals the roomier goes first; slim takes away what is not needed
	}
	// Sums of fractions differ in their last digits: equals are to compare equal.
	return math.Round(musts*1e6) / 1e6, math.Round(value*1e6) / 1e6
}

// spareArea is what a square millimetre of shelf left over adds to an
// estimate, litres: only enough to part equals.
const spareArea = 1e-8

// bins are the storeys of a design, the lowest first.
func (s *Search) bins(d *design) []bin {
	c := s.context
	lid := c.limits[layout.RoomToLid].Plan
	bins := s.binBuf[:0]
	if b := d.division.base; b != nil {
		for _, h := range d.base {
			bins = append(bins, bin{h - c.room - b.kind.Bow, b.area()})
		}
	}
	for i, st := range d.division.sites {
		l := d.lists[i]
		area := st.area()
		for _, h := range l.heights {
			bins = append(bins, bin{h - c.room - st.kind.Bow, area})
		}
		bins = append(bins, bin{l.rest - lid, area})
	}
	for i := 1; i < len(bins); i++ { // insertion sort: short, stable, no allocation
		for j := i; j > 0 && bins[j].takes < bins[j-1].takes; j-- {
			bins[j], bins[j-1] = bins[j-1], bins[j]
		}
	}
	s.binBuf = bins
	if d.division.columns != nil {
		s.lessUsed(d, bins)
	}
	return bins
}

// areas is the shelf area that one pot of each kind takes on a division's
// shelves, from the count of alike pots on a bare shelf.
func (s *Search) areas(dv *division) []float64 {
	st := dv.sites[0]
	mark := st.mark()
	for _, other := range dv.sites[1:] {
		if other.sibling < 0 {
			mark += other.mark()
		}
	}
	if a, ok := s.areaOf[mark]; ok {
		return a
	}
	a := make([]float64, len(s.context.kinds))
	for k := range a {
		a[k] = math.Inf(1)
		if n := s.capacity(st, k, false); n > 0 {
			a[k] = st.area() / float64(n)
		}
	}
	// A kind that does not go on the first shelf alone may go on another.
	others := dv.sites[1:]
	if dv.base != nil {
		others = append([]*site{dv.base}, others...)
	}
	for _, other := range others {
		if other.sibling >= 0 {
			continue
		}
		for k := range a {
			if math.IsInf(a[k], 1) {
				if n := s.capacity(other, k, false); n > 0 {
					a[k] = other.area() / float64(n)
				}
			}
		}
	}
	if s.stretch > 0 {
		for k := range a {
			a[k] = float64(a[k] * s.stretch)
		}
	}
	s.areaOf[mark] = a
	return a
}

// assign fills bins with the free pots of all kinds, musts first, then by value
// per area. quota, when not nil, gets how many of each kind each bin holds.
func (s *Search) assign(bins []bin, areas []float64, quota [][]float64) (musts, value float64, left []float64) {
	kinds := s.context.kinds
	order := s.densest(areas)
	rest := s.restBuf[:0]
	for _, b := range bins {
		rest = append(rest, b.area)
	}
	s.restBuf = rest
	for _, k := range order {
		kd := kinds[k]
		need := float64(len(kd.free))
		for i := range bins {
			if need <= 0 {
				break
			}
			if kd.body.Height > bins[i].takes+1e-6 || rest[i] <= 0 {
				continue
			}
			n := math.Min(need, rest[i]/areas[k])
			if rest[i] < bins[i].area*0.999 || n >= 1 { // a bin that holds less than one whole pot holds none
				rest[i] -= float64(n * areas[k])
				need -= n
				value += float64(n * kd.value)
				if kd.must {
					musts += float64(n * kd.value)
				}
				if quota != nil {
					quota[i][k] += n
				}
			}
		}
	}
	return musts, value, rest
}

// densest is the kinds in the order in which they are given room.
func (s *Search) densest(areas []float64) []int {
	kinds := s.context.kinds
	order := s.orderBuf[:0]
	for k := range kinds {
		if len(kinds[k].free) > 0 && !math.IsInf(areas[k], 1) {
			order = append(order, k)
		}
	}
	// Insertion sort: short, stable, no allocation.
	for i := 1; i < len(order); i++ {
		for j := i; j > 0 && denser(kinds, areas, order[j], order[j-1]); j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	s.orderBuf = order
	return order
}

func denser(kinds []*kind, areas []float64, a, b int) bool {
	if kinds[a].must != kinds[b].must {
		return kinds[a].must
	}
	return float64(kinds[a].value*areas[b]) > float64(kinds[b].value*areas[a])
}
