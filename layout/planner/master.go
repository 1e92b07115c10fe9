package planner

import (
	"math"
	"sort"
)

// Figures of the choice of patterns.
const (
	priceRounds = 12 // steps in which the prices of the kinds settle
	beamWide    = 10 // choices pursued side by side
	beamOffers  = 24 // patterns weighed for each storey
	masterLook  = 6000
)

// choice is a pattern, or none, for each storey of a frame.
type choice struct {
	picks []*pattern
	worth float64 // value that is set when no more is added, musts many times over
}

// choose finds the patterns for a frame's storeys that together set most value
// of the pots there are: prices for a pot of each kind, settled so that no kind
// is asked for more often than there are pots (a Lagrangian relaxation of the
// counts), then a beam search over the storeys with the prices as what the pots
// left over may still bring.
func (s *Search) choose(storeys []*storey, avail []int) choice {
	offers := make([][]*pattern, len(storeys))
	for i, st := range storeys {
		if !st.sealed && len(st.set) == 0 {
			offers[i] = s.offers(st)
		}
	}
	prices := s.settlePrices(offers, avail)
	return s.beam(storeys, offers, avail, prices)
}

// settlePrices are prices of one pot of each kind at which the best pattern of
// each storey asks for no more pots than there are, as nearly as a few steps
// bring it about. They start from the last ones.
func (s *Search) settlePrices(offers [][]*pattern, avail []int) []float64 {
	c := s.context
	n := len(c.kinds)
	if len(s.prices) != n {
		s.prices = make([]float64, n)
	}
	used := make([]int, n)
	ops := 0
	for round := 0; round < priceRounds; round++ {
		clear(used)
		for _, list := range offers {
			best, most := -1, 0.0
			for i, p := range list {
				if v := s.reduced(p, avail, s.prices); v > most {
					best, most = i, v
				}
			}
			ops += len(list) * n
			if best >= 0 {
				for k, m := range list[best].counts {
					used[k] += min(m, avail[k])
				}
			}
		}
		step := 0.4 / float64(1+round)
		for k := range s.prices {
			if avail[k] == 0 {
				s.prices[k] = 0
				continue
			}
			w := c.weight(k)
			over := float64(used[k]-avail[k]) / float64(avail[k])
			over = math.Max(-1, math.Min(1, over))
			s.prices[k] = math.Max(0, math.Min(w, s.prices[k]+float64(float64(step*w)*over)))
		}
	}
	s.owe(ops)
	return s.prices
}

// owe counts work of the master in units.
func (s *Search) owe(ops int) {
	s.debt += ops
	s.spent += int64(s.debt / masterLook)
	s.debt %= masterLook
}

// reduced is a pattern's value less the price of its pots.
func (s *Search) reduced(p *pattern, rest []int, prices []float64) float64 {
	v := 0.0
	for k, n := range p.counts {
		if n > 0 {
			v += float64(float64(min(n, rest[k])) * (s.context.weight(k) - prices[k]))
		}
	}
	return v
}

// beamState is a part of a choice.
type beamState struct {
	from  int // state of the storey before
	pick  *pattern
	rest  []int
	worth float64
	score float64 // worth and the prices of what is left
}

// beam chooses storey by storey, the tallest first.
func (s *Search) beam(storeys []*storey, offers [][]*pattern, avail []int, prices []float64) choice {
	order := make([]int, len(storeys))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return storeys[order[a]].tallest() > storeys[order[b]].tallest() })
	states := []beamState{{rest: avail}}
	steps := make([][]beamState, 0, len(order))
	ops := 0
	for _, i := range order {
		list := s.dearest(offers[i], avail, prices)
		ops += (len(offers[i]) + len(states)*(len(list)+1)) * len(avail)
		var next []beamState
		for from := range states {
			next = append(next, s.extend(states, from, nil, prices))
			for _, p := range list {
				next = append(next, s.extend(states, from, p, prices))
			}
		}
		sort.SliceStable(next, func(a, b int) bool { return next[a].score > next[b].score })
		kept := next[:0]
		for _, st := range next {
			if len(kept) == beamWide {
				break
			}
			if len(kept) > 0 && st.score == kept[len(kept)-1].score && st.worth == kept[len(kept)-1].worth {
				continue // most likely the same pots
			}
			kept = append(kept, st)
		}
		states = append([]beamState(nil), kept...)
		for j := range states {
			states[j].take()
		}
		steps = append(steps, states)
	}
	s.owe(ops)
	best := 0
	for j := range states {
		if states[j].worth > states[best].worth {
			best = j
		}
	}
	out := choice{picks: make([]*pattern, len(storeys)), worth: states[best].worth}
	for n := len(order) - 1; n >= 0; n-- {
		out.picks[order[n]] = steps[n][best].pick
		best = steps[n][best].from
	}
	return out
}

// dearest are the patterns of most value at the prices.
func (s *Search) dearest(list []*pattern, avail []int, prices []float64) []*pattern {
	type rated struct {
		p *pattern
		v float64
	}
	all := make([]rated, len(list))
	for i, p := range list {
		all[i] = rated{p, s.reduced(p, avail, prices)}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].v > all[j].v })
	out := make([]*pattern, 0, beamOffers)
	for i := 0; i < len(all) && i < beamOffers; i++ {
		out = append(out, all[i].p)
	}
	return out
}

// extend is a state with one storey more decided; what is left is counted off
// only once it is kept.
func (s *Search) extend(states []beamState, from int, p *pattern, prices []float64) beamState {
	was := &states[from]
	next := beamState{from: from, pick: p, rest: was.rest, worth: was.worth, score: was.score}
	if p == nil {
		return next
	}
	for k, n := range p.counts {
		if n = min(n, was.rest[k]); n > 0 {
			w := s.context.weight(k)
			next.worth += float64(float64(n) * w)
			next.score += float64(float64(n) * (w - prices[k]))
		}
	}
	return next
}

// take counts off what the pick of a state sets.
func (b *beamState) take() {
	if b.pick == nil {
		return
	}
	rest := append([]int(nil), b.rest...)
	for k, n := range b.pick.counts {
		rest[k] -= min(n, rest[k])
	}
	b.rest = rest
}
