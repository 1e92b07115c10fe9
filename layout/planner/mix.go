package planner

import (
	"sort"

	"threepost/layout/packing"
)

// Figures of mixing patterns into new plans.
const (
	mixEach = 3 // frames built of one look over the field
	retry   = 1.002
)

// mix chooses patterns for the designs of the field and builds those that
// promise most, beyond what the design was seen to hold: the gaps that the
// choice leaves are filled up.
func (s *Search) mix() {
	if s.best == nil || s.best.frame.kept || s.fulfilled() {
		return
	}
	type promise struct {
		d *design
		c choice
	}
	var all []promise
	for _, d := range s.field {
		f, err := s.bare(d)
		if err != nil {
			continue
		}
		c := s.choose(f.storeys, s.availFor(f))
		if c.worth > retry*d.mixed {
			all = append(all, promise{d, c})
		}
	}
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].d.struck != all[j].d.struck {
			return all[j].d.struck
		}
		return sighted(all[i].c.worth, all[i].d.unseen) > sighted(all[j].c.worth, all[j].d.unseen)
	})
	for _, p := range all[:min(len(all), mixEach)] {
		s.realize(p.d, p.c)
		if s.fulfilled() {
			return
		}
	}
}

// bare is a design's frame with its cone packs and without pots. It is built
// once.
func (s *Search) bare(d *design) (*frame, error) {
	if d.bare == nil {
		f, err := s.erect(d)
		if err != nil {
			return nil, err
		}
		s.placePacks(f, d.loose)
		d.bare, d.unseen = f, s.unplaced(f)
	}
	return d.bare, nil
}

// availFor is how many pots of each kind a frame's patterns may set.
func (s *Search) availFor(f *frame) []int {
	rest := s.restOf(f)
	for k := range s.context.kinds {
		if !s.context.movable(k) {
			rest[k] = 0
		}
	}
	return rest
}

// realize builds a design with chosen patterns and fills it up.
func (s *Search) realize(d *design, c choice) {
	d.mixed = max(d.mixed, c.worth)
	bare, err := s.bare(d)
	if err != nil {
		return
	}
	f := bare.clone()
	rest := s.availFor(f)
	order := tallestFirst(f.storeys)
	for _, i := range order {
		if c.picks[i] != nil {
			s.adopt(f.storeys[i], c.picks[i], rest)
		}
	}
	s.mixes++
	s.fillGaps(f, order, rest)
	s.keep(f)
	s.gather(f)
}

// fillGaps adds pots from rest beside what stands, then packs anew the storeys
// on which something still would stand.
func (s *Search) fillGaps(f *frame, order, rest []int) {
	seed := uint64(5000 + 31*s.mixes)
	for n, i := range order {
		s.fillGap(f.storeys[i], rest, seed+uint64(n))
	}
}

// packed is a storey packed from nothing with the wants, each kind worth so
// many times its value; nil: just that.
func (s *Search) packed(st *storey, wants map[int]int, work int64, seed uint64, times func(kind int) float64) []placed {
	sp := s.context.problemOf(st, wants, st.fixed)
	for i := 0; i < len(sp.problem.Wants) && times != nil; i++ {
		w := &sp.problem.Wants[i]
		w.Value = float64(w.Value * max(0.02, times(sp.kinds[w.Kind])))
	}
	res, err := packing.Fill(sp.problem, s.seed*1000003+seed, work)
	if err != nil {
		return nil
	}
	s.spent += res.Work
	set := s.placedOf(sp, res)
	s.enter(st, set)
	return set
}

// tallestFirst is the order of storeys by what they take.
func tallestFirst(storeys []*storey) []int {
	order := make([]int, len(storeys))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return storeys[order[a]].tallest() > storeys[order[b]].tallest() })
	return order
}
