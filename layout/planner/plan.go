package planner

import (
	"maps"
	"slices"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// Plan is an arrangement of a load that passes the check.
type Plan struct {
	Load   *layout.Load // with its towers
	Report clearance.Report
	Set    int // pots that have a place, cone packs not counted
	Of     int // pots of the ware list
	Value  float64
	Whole  float64 // value of the whole ware list
	Waits  []Wait
	Wishes []Wished // what became of the load's wishes
	Split  string   // how the kiln is divided: "two sides"
	Levels int
	// Differs is how a further plan differs from the first of Plans.
	Differs string
	Pieces  int // of furniture: shelves, posts and what they are made of
	Seed    uint64
	Work    int64 // units spent until now

	way    way
	musts  float64
	unseen int     // watched packs out of sight
	watch  int     // watches that are not in the ware itself
	deaf   int     // what goes against the wishes
	roams  int     // levels beyond the first of owners who are kept together or apart
	weight float64 // its value with what has waited longest worth more
}

// Wait is a row of ware of which some pots have no place.
type Wait struct {
	Ware   string
	Count  int
	Reason string // why, in a sentence
	LetIn  string // what would let it in, or empty where nothing simple would
}

// Progress tells how far a search is without building a plan.
func (s *Search) Progress() (set, of int, work int64) {
	for _, k := range s.context.kinds {
		if k.ware != nil {
			of += k.ware.Count
		}
	}
	if s.best != nil {
		for _, t := range s.best.towers {
			for _, v := range t.Levels {
				for _, p := range v.Set {
					if s.context.load.WareOf(p.Pot) != nil {
						set++
					}
				}
			}
		}
	}
	return set, of, s.spent
}

// Refused is why there is no plan at all, when the search is done and has none.
func (s *Search) Refused() string { return s.refused }

// Best is the best plan so far, evened out, with reasons for what waits. ok is
// false when there is none yet. It does not change the search.
func (s *Search) Best() (*Plan, bool) {
	if s.best == nil {
		return nil, false
	}
	var p *Plan
	s.aside(func() {
		if s.evenedOf != s.best {
			s.evenedTo, s.evenedOf = s.evened(s.best), s.best
		}
		p = s.told(s.evenedTo)
	})
	p.Work = s.spent
	return p, true
}

// aside does something that does not move the search on: what it spends and
// learns is forgotten.
func (s *Search) aside(do func()) {
	spent, rounds, mixes, idle, debt, loosened := s.spent, s.rounds, s.mixes, s.idle, s.debt, s.loosened
	pool, prices := s.pool, slices.Clone(s.prices)
	barred, unstood := maps.Clone(s.barred), maps.Clone(s.unstood)
	free := make([][]layout.Pot, len(s.context.kinds))
	for i, k := range s.context.kinds {
		free[i] = k.free
	}
	s.pool = newPool()
	capacities, areas, holds := maps.Clone(s.capacities), maps.Clone(s.areaOf), maps.Clone(s.holds)
	do()
	s.spent, s.rounds, s.mixes, s.idle, s.debt, s.loosened = spent, rounds, mixes, idle, debt, loosened
	s.pool, s.prices, s.barred, s.unstood = pool, prices, barred, unstood
	for i, k := range s.context.kinds {
		k.free = free[i]
	}
	s.capacities, s.areaOf, s.holds = capacities, areas, holds
}

// planOf tells a candidate as a plan.
func (s *Search) planOf(c *candidate) *Plan {
	l := s.context.load.Clone()
	l.Towers = layout.CloneTowers(c.towers)
	p := &Plan{Load: l, Report: c.report, Seed: s.seed, Work: s.spent, Split: c.frame.design.division.name, Pieces: c.pieces,
		way: s.way(c), musts: c.musts, unseen: c.unseen, watch: c.watch, deaf: c.deaf, roams: c.roams, weight: c.value}
	for _, k := range s.context.kinds {
		if k.ware != nil {
			p.Of += k.ware.Count
			p.Whole += float64(k.worth * float64(k.ware.Count))
		}
	}
	for _, t := range l.Towers {
		p.Levels += len(t.Levels)
		for _, v := range t.Levels {
			for _, pl := range v.Set {
				for _, k := range s.context.kinds {
					if k.ware != nil && k.name == pl.Pot.Ware {
						p.Value += k.worth
						p.Set++
					}
				}
			}
		}
	}
	p.Waits = s.waits(c)
	return p
}

// told is a candidate as a plan that people see: with its wishes.
func (s *Search) told(c *candidate) *Plan {
	p := s.planOf(c)
	if b, err := stacks.Build(p.Load); err == nil {
		p.Wishes = Wishes(b, clearance.New(b))
	}
	return p
}

// evened is a candidate without empty levels and with every level's pots drawn
// apart, where that passes the check.
func (s *Search) evened(c *candidate) *candidate {
	if s.rest != nil {
		return s.evenedRest(c)
	}
	lean := s.tidied(s.withoutEmpty(c))
	f := lean.frame.clone()
	s.spread(f, spreadWork)
	out := s.verify(f)
	if out == nil || lean.beats(out) {
		out = s.evenedEach(lean)
	}
	return s.straight(out)
}

// evenedEach draws the storeys apart one by one and keeps those that pass.
func (s *Search) evenedEach(out *candidate) *candidate {
	for i := range out.frame.storeys {
		f := out.frame.clone()
		if len(f.storeys[i].set) == 0 || f.storeys[i].sealed {
			continue
		}
		s.spreadStorey(f.storeys[i], spreadWork/int64(len(f.storeys)), uint64(i))
		if c := s.verify(f); c != nil && c.value >= out.value-1e-9 && c.watch <= out.watch && c.deaf <= out.deaf && c.roams <= out.roams && c.unseen <= out.unseen && c.musts >= out.musts-1e-9 {
			out = c
		}
	}
	return out
}

// Value is what the pots that are set in a load are worth by the planner's
// measure: the person's value or kiln space, in litres.
func Value(l *layout.Load) (float64, error) {
	kinds := map[string]float64{}
	for i := range l.Ware {
		body, err := stacks.BodyOf(l, &l.Ware[i])
		if err != nil {
			return 0, err
		}
		kinds[l.Ware[i].Name] = body.Value
	}
	sum := 0.0
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			for _, p := range v.Set {
				sum += kinds[p.Pot.Ware]
			}
		}
	}
	return sum, nil
}
