package planner

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// evenedRest is a candidate without empty levels on top, its new storeys drawn
// apart. A storey that holds what was planned for it stays as it was planned:
// whoever loads has it on paper.
func (s *Search) evenedRest(c *candidate) *candidate {
	c = s.trimmed(c)
	f := c.frame.clone()
	planned := s.planned()
	var loose []int
	for i, st := range f.storeys {
		if !st.sealed && len(st.set) > 0 && !s.asWasPlanned(st, planned) {
			loose = append(loose, i)
		}
	}
	if len(loose) == 0 {
		return c
	}
	each := max(spreadWork/int64(len(f.storeys)+1), 1)
	for _, i := range loose {
		s.spreadStorey(f.storeys[i], each, uint64(i))
	}
	if out := s.verify(f); asGood(out, c) {
		return out
	}
	return c
}

// standingAt is a pot of a row in its place on a site.
type standingAt struct {
	row  string
	at   plane.Vec
	turn float64
}

// planned are the levels of the load as they were planned.
func (s *Search) planned() []map[standingAt]bool {
	var out []map[standingAt]bool
	for _, t := range s.rest.of.Towers {
		for _, v := range t.Levels {
			all := map[standingAt]bool{}
			for _, p := range v.Set {
				all[standingAt{p.Pot.Ware, p.At, p.Turn}] = true
			}
			out = append(out, all)
		}
	}
	return out
}

// asWasPlanned says whether the loose pots of a storey all stand where one level
// of the load has such pots.
func (s *Search) asWasPlanned(st *storey, planned []map[standingAt]bool) bool {
	for _, level := range planned {
		all := true
		for _, p := range st.set {
			all = all && level[standingAt{s.context.kinds[p.kind].name, p.at, p.turn}]
		}
		if all {
			return true
		}
	}
	return false
}

// trimmed is a candidate without the empty levels on top that are not begun.
func (s *Search) trimmed(c *candidate) *candidate {
	for {
		less := s.withoutTop(c)
		if less == nil {
			return c
		}
		c = less
	}
}

// withoutTop takes one empty level off the top of a tower; nil where there is
// none or the check minds.
func (s *Search) withoutTop(c *candidate) *candidate {
	f := c.frame
	for i, t := range f.towers {
		n := len(t.Levels)
		if n == 0 || n <= s.rest.begunTo(t.Name) || carries(f.towers, t.Name, n) {
			continue
		}
		at := -1
		for k, p := range f.at {
			if p == (place{i, n - 1}) {
				at = k
			}
		}
		if at < 0 || len(f.storeys[at].set)+len(f.storeys[at].fixed) > 0 {
			continue
		}
		if out := s.without(f, i, at); asGood(out, c) {
			return out
		}
	}
	return nil
}

// begunTo is how many levels of a tower stand, those counted whose posts stand.
func (r *rest) begunTo(name string) int {
	for i := range r.of.Towers {
		if t := r.stands.Towers[i]; r.of.Towers[i].Name == name {
			if t.Posts {
				return t.Levels + 1
			}
			return t.Levels
		}
	}
	return 0
}

// carries says whether a tower stands on a level.
func carries(towers []layout.Tower, name string, level int) bool {
	for _, t := range towers {
		for _, on := range t.On {
			if on.Tower == name && on.Level == level {
				return true
			}
		}
	}
	return false
}

// without is a frame without the top level of a tower, its storey at a place.
func (s *Search) without(f *frame, tower, at int) *candidate {
	towers := layout.CloneTowers(f.towers)
	towers[tower].Levels = towers[tower].Levels[:len(towers[tower].Levels)-1]
	for i := range towers {
		for j := range towers[i].Levels {
			towers[i].Levels[j].Set = s.fixedOn(f, place{i, j})
		}
	}
	l := *s.rest.of
	l.Towers = begunTowers(towers)
	b, err := stacks.Build(&l)
	if err != nil {
		return nil
	}
	g := s.restFrame(b)
	g.design = f.design
	k := 0
	for i, st := range f.storeys {
		if i == at {
			continue
		}
		if k >= len(g.storeys) {
			return nil
		}
		g.storeys[k].set = append([]placed(nil), st.set...)
		g.storeys[k].fixed = append([]placed(nil), st.fixed...)
		g.storeys[k].tubes = append([]tube(nil), st.tubes...)
		k++
	}
	return s.verify(g)
}

// fixedOn are the placements of what stands on a level of a frame.
func (s *Search) fixedOn(f *frame, at place) []layout.Placement {
	var out []layout.Placement
	for i, st := range f.storeys {
		if f.at[i] != at {
			continue
		}
		for _, p := range st.fixed {
			if p.pot.Ware != "" {
				out = append(out, layout.Placement{Pot: p.pot, At: p.at, Turn: p.turn, Locked: p.lock})
			}
		}
	}
	return out
}
