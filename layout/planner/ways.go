package planner

import (
	"fmt"
	"sort"
	"strings"

	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// Most plans that are shown side by side, and the least share of the best
// plan's value that another way to stack must hold to be worth showing.
const (
	mostPlans  = 3
	worthWhile = 0.8
	mostWays   = 40
)

// wayWork is the work spent on another way to stack before it is shown.
const wayWork = 12000

// note keeps the best candidate of each way to stack, best first.
func (s *Search) note(c *candidate) {
	for i, w := range s.tried {
		if c.frame.kept || s.alike(w, c) {
			if !c.beats(w) {
				return
			}
			s.tried = append(s.tried[:i], s.tried[i+1:]...)
			break
		}
	}
	s.tried = append(s.tried, c)
	sort.SliceStable(s.tried, func(i, j int) bool { return s.tried[i].beats(s.tried[j]) })
	s.tried = s.tried[:min(len(s.tried), mostWays)]
}

// way is what a potter sees of how a candidate is stacked.
type way struct {
	split   string
	heights string // of the posts of all levels, those of every tower together
	levels  int
}

// way counts no levels on which nothing stands: they are not shown.
func (s *Search) way(c *candidate) way {
	w := c.frame.design.way
	if w.split == "" {
		d := c.frame.design
		towers := []string{}
		for _, l := range d.lists {
			towers = append(towers, s.sayHeights(l.heights))
		}
		sort.Strings(towers)
		if len(d.base) > 0 {
			towers = append([]string{s.sayHeights(d.base)}, towers...)
		}
		w = way{split: d.division.name, heights: strings.Join(towers, "; ")}
		d.way = w
	}
	for _, st := range c.frame.storeys {
		if len(st.set)+len(st.fixed) > 0 {
			w.levels++
		}
	}
	return w
}

func (s *Search) sayHeights(h []float64) string {
	h = append([]float64(nil), h...)
	sort.Float64s(h)
	var out []string
	for _, x := range h {
		out = append(out, measure.FormatLengthTo(x, s.context.load.Units, measure.Nearest, measure.PostGrain))
	}
	return strings.Join(out, ", ")
}

// alike says whether two candidates are stacked on the same posts.
func (s *Search) alike(a, b *candidate) bool {
	v, w := s.way(a), s.way(b)
	return v.split == w.split && v.heights == w.heights && sameShelf(a, b)
}

// sameShelf says whether two candidates stand on the same shelves: a kiln may
// have several sorts.
func sameShelf(a, b *candidate) bool {
	return a.frame.design.division.sites[0].kind == b.frame.design.division.sites[0].kind
}

// Plans are up to three plans that differ in how the kiln is divided, in the
// number of levels or in their heights, the best first. They are that of Best,
// and what differs most from it of those that hold nearly as much; each further
// one gets some work of its own, and may turn out better. It does not change
// the search; the same load, seed and work give the same plans.
func (s *Search) Plans() []*Plan {
	if _, ok := s.Best(); !ok {
		return nil
	}
	var plans []*Plan
	s.aside(func() {
		best := []*candidate{s.evenedTo}
		for _, c := range s.others() {
			if len(best) == mostPlans {
				break
			}
			out := s.evened(s.pursued(c, wayWork))
			if out.value >= worthWhile*s.evenedTo.value && out.musts >= s.evenedTo.musts-1e-9 && !s.among(best, out) {
				best = append(best, out)
			}
		}
		sort.SliceStable(best, func(i, j int) bool { return best[i].beats(best[j]) })
		for i, c := range best {
			p := s.told(c)
			if i > 0 {
				p.Differs = differs(s.way(best[0]), s.way(c))
			}
			plans = append(plans, p)
		}
	})
	for _, p := range plans {
		p.Work = s.spent
	}
	return plans
}

// among says whether a candidate is stacked as one of others.
func (s *Search) among(others []*candidate, c *candidate) bool {
	for _, o := range others {
		if s.alike(o, c) {
			return true
		}
	}
	return false
}

// others are the ways to stack beside the best, in the order in which they are
// worth showing: of another division, of another number of levels, of other
// heights, the best of each; then the rest.
func (s *Search) others() []*candidate {
	first := s.way(s.evenedTo)
	var out, rest []*candidate
	split, levels := map[string]bool{first.split: true}, map[int]bool{first.levels: true}
	for _, c := range s.tried {
		w := s.way(c)
		switch {
		case c == s.evenedOf || w == first || c.value < worthWhile*s.evenedTo.value:
		case !split[w.split]:
			split[w.split] = true
			out = append(out, c)
		default:
			rest = append(rest, c)
		}
	}
	var alike []*candidate
	for _, c := range rest {
		if w := s.way(c); !levels[w.levels] && w.split == first.split {
			levels[w.levels] = true
			out = append(out, c)
		} else {
			alike = append(alike, c)
		}
	}
	if len(out) > mostPlans {
		out = out[:mostPlans]
	}
	return append(out, alike[:min(len(alike), mostPlans)]...)
}

// pursued is a candidate after so much work on it alone.
func (s *Search) pursued(c *candidate, work int64) *candidate {
	until := s.spent + work
	f := c.frame.clone()
	for _, st := range f.storeys {
		st.set = nil
	}
	s.fillAll(f, work/3, 4)
	if now := s.verify(f); now != nil && now.beats(c) {
		c = now
	}
	w := &walk{at: c, best: c}
	for again := 0; s.spent < until && again < 20 && !s.holdsAll(w.best); again++ {
		before := s.spent
		s.step(w)
		if s.spent == before {
			s.spent++
		}
	}
	return w.best
}

func orNone(heights string) string {
	if heights == "" {
		return "none"
	}
	return heights
}

// differs says how one way to stack differs from the first.
func differs(first, w way) string {
	switch {
	case w.split != first.split:
		return fmt.Sprintf("%s instead of %s.", strings.ToUpper(w.split[:1])+w.split[1:], first.split)
	case w.levels != first.levels:
		return fmt.Sprintf("%s instead of %d.", silhouette.Counted(w.levels, "level"), first.levels)
	}
	return fmt.Sprintf("Posts of %s instead of %s.", orNone(w.heights), orNone(first.heights))
}
