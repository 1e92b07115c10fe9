package planner

import (
	"fmt"
	"sort"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// Stands is what is in the kiln already and stays as it is.
type Stands struct {
	Towers []TowerStands       // one for each tower of the load, in its order; what is left out does not stand
	Pots   map[layout.Pot]bool // pots and cone packs in their places on levels that stand
}

// TowerStands is how far a tower is built.
type TowerStands struct {
	Levels int  // shelves that lie, from the bottom
	Posts  bool // the posts for the shelf after those stand too
}

// rest is the part of a search that plans round what stands.
type rest struct {
	of      *layout.Load // as it was planned, with the changed fact
	stands  Stands
	kept    []layout.Tower // what stands, without what does not
	built   *stacks.Built  // of kept
	left    *stacks.Stock  // furniture that is not in use
	excused map[string]bool
	locks   bool // something that does not stand is locked: then no level is planned anew
	// planning says that nobody stands at the kiln: what is locked there may still
	// be reached over.
	planning bool
}

// Rest begins a search for a plan of all that does not stand yet. Shelves,
// posts and pots that stand stay to the byte. Levels that are not begun are
// planned anew on the furniture that is left, lines over the lines that stand;
// over full shelves, halves where their posts find posts below. Posts that stand
// without their shelf keep their lowest piece and may get others on top. The
// arrangement the load has is the first plan, where it passes the check. Where
// something is locked that does not stand, no level is planned anew.
//
// A finding that lies in what stands alone does not stop the search; it stays
// in the plan's report. A load without towers is planned as by Start.
func Rest(l *layout.Load, stands Stands, seed uint64) (*Search, error) {
	if len(l.Towers) == 0 {
		return Start(l, seed)
	}
	c, err := newContext(l.Clone())
	if err != nil {
		return nil, err
	}
	r := &rest{of: c.load, stands: stands, excused: map[string]bool{}}
	if err := r.read(); err != nil {
		return nil, err
	}
	c.standing, c.left = c.standing || len(stands.Pots) > 0, r.left
	s := newSearch(c, seed)
	s.rest = r
	c.freeRest(r)
	s.tasks = append(s.tasks, s.asPlanned, s.asPlannedOnOtherPosts, s.surveyRest)
	return s, nil
}

// read works out what stands and what is left of the furniture.
func (r *rest) read() error {
	if len(r.stands.Towers) > len(r.of.Towers) {
		return fmt.Errorf("%d towers are said to stand, and the load has %d", len(r.stands.Towers), len(r.of.Towers))
	}
	r.stands.Towers = append([]TowerStands(nil), r.stands.Towers...)
	for len(r.stands.Towers) < len(r.of.Towers) {
		r.stands.Towers = append(r.stands.Towers, TowerStands{})
	}
	for i := range r.of.Towers {
		t, st := &r.of.Towers[i], &r.stands.Towers[i]
		for j, v := range t.Levels {
			r.locks = r.locks || v.Locked && j >= st.Levels
			for _, p := range v.Set {
				r.locks = r.locks || p.Locked && !r.stands.Pots[p.Pot]
			}
		}
		if st.Levels < 0 || st.Levels > len(t.Levels) {
			return fmt.Errorf("%s has %d levels, so %d cannot stand", t.Name, len(t.Levels), st.Levels)
		}
		st.Posts = st.Posts && st.Levels < len(t.Levels)
	}
	r.kept = layout.CloneTowers(r.of.Towers)
	for i := range r.kept {
		levels := r.kept[i].Levels[:r.stands.Towers[i].Levels]
		for j := range levels {
			set := levels[j].Set[:0:0]
			for _, p := range levels[j].Set {
				if r.stands.Pots[p.Pot] {
					set = append(set, p)
				}
			}
			levels[j].Set = set
		}
		r.kept[i].Levels = levels
	}
	bare := *r.of
	bare.Towers = begunTowers(r.kept)
	b, err := stacks.Build(&bare)
	if err != nil {
		return err
	}
	r.built = b
	for _, f := range clearance.Check(b).Findings {
		r.excused[f.Key] = true
	}
	r.left = stacks.NewStock(&r.of.Furniture)
	r.left.Use(b)
	for i := range r.of.Towers {
		if st := r.stands.Towers[i]; st.Posts {
			for k := range r.of.Towers[i].Lines {
				r.left.Take(r.of.Towers[i].Levels[st.Levels].PostsOn(k), 1)
			}
		}
	}
	return nil
}

// begunTowers are the towers that have a level.
func begunTowers(towers []layout.Tower) []layout.Tower {
	var out []layout.Tower
	for _, t := range towers {
		if len(t.Levels) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// asPlanned is the arrangement that the load has, the loose pots in their
// places: what breaks the check waits, and what waits goes in where it still
// does.
func (s *Search) asPlanned() {
	s.keepArrangement(s.rest.of.Towers)
}

// asPlannedOnOtherPosts is the same arrangement where it takes pieces that are
// not owned: each level that is not begun as high as it was, on other pieces.
func (s *Search) asPlannedOnOtherPosts() {
	r := s.rest
	if s.best != nil {
		return
	}
	towers := layout.CloneTowers(r.of.Towers)
	var demand []stacks.Demand
	var at []*layout.Level
	for i := range towers {
		from := r.stands.Towers[i].Levels
		if r.stands.Towers[i].Posts {
			from++
		}
		for j := from; j < len(towers[i].Levels); j++ {
			v := &towers[i].Levels[j]
			demand = append(demand, stacks.Demand{Height: r.real(v.PostsOn(0)), Posts: len(towers[i].Lines)})
			at = append(at, v)
		}
	}
	posts, err := s.context.catalogue.Assign(r.left, demand, r.of.Units)
	s.spent++
	if err != nil {
		return
	}
	for i, v := range at {
		if len(posts[i]) > 0 {
			v.Posts = oneIfAlike(posts[i])
		}
	}
	s.keepArrangement(towers)
}

// real is how tall a post of a make-up is, mm.
func (r *rest) real(m layout.MakeUp) float64 {
	sum := 0.0
	for _, p := range m {
		if k := r.of.Furniture.Post(p); k != nil {
			sum += k.RealHeight()
		}
	}
	return sum
}

// keepArrangement enters an arrangement with all its pots among the candidates,
// and again with what else goes in.
func (s *Search) keepArrangement(towers []layout.Tower) {
	l := *s.rest.of
	l.Towers = begunTowers(towers)
	b, err := stacks.Build(&l)
	if err != nil {
		return
	}
	f := s.restFrame(b)
	f.design.division.name = "as it was planned"
	for i, st := range f.storeys {
		for _, pi := range b.Levels[i].Pots {
			p := &b.Pots[pi]
			one := placed{kind: p.Kind, at: p.At, turn: p.Turn}
			switch {
			case s.rest.stays(&l.Towers[f.at[i].tower].Levels[f.at[i].level], &layout.Placement{Pot: p.Pot, Locked: p.Locked}):
			case p.Cones == nil:
				st.set = append(st.set, one)
			default:
				st.fixed = append(st.fixed, one)
			}
		}
	}
	s.context.keepSights(f, b)
	s.hear(f)
	s.keep(f.clone())
	if s.best == nil {
		return
	}
	g := s.best.frame.clone()
	left := s.restOf(g)
	order := tallestFirst(g.storeys)
	for n := len(order) - 1; n >= 0; n-- {
		s.fillGap(g.storeys[order[n]], left, 900+uint64(n))
	}
	s.keep(g)
}

// restFrame reads a built load back as a frame whose standing pots are fixed
// and whose other places are free.
func (s *Search) restFrame(b *stacks.Built) *frame {
	r := s.rest
	f := frameOf(s.context, b, r.stays)
	for i, st := range f.storeys {
		v := &b.Load.Towers[f.at[i].tower].Levels[f.at[i].level]
		if !r.planning {
			st.sealed = v.Locked || r.covered(b, i)
		}
	}
	s.context.keepSights(f, b)
	s.hear(f)
	return f
}

// stays says whether a pot is left where it is: it stands, or is locked.
func (r *rest) stays(v *layout.Level, p *layout.Placement) bool {
	return r.stands.Pots[p.Pot] || p.Locked || v.Locked
}

// covered says whether a shelf that stands lies over a level.
func (r *rest) covered(b *stacks.Built, level int) bool {
	for _, a := range b.Levels[level].Above {
		up := &b.Levels[a]
		name := b.Towers[up.Tower].Name
		for i := range r.of.Towers {
			if r.of.Towers[i].Name == name && up.Number <= r.stands.Towers[i].Levels {
				return true
			}
		}
	}
	return false
}

// freeRest takes the pots that stand out of the lists of free pots, and puts
// those that have a place first, so that they keep their names in it.
func (c *context) freeRest(r *rest) {
	at := map[layout.Pot]int{}
	for _, t := range begunTowers(r.of.Towers) {
		for _, v := range t.Levels {
			for _, p := range v.Set {
				at[p.Pot] = len(at) + 1
			}
		}
	}
	for _, k := range c.kinds {
		free := k.free[:0:0]
		for _, p := range k.free {
			if !r.stands.Pots[p] {
				free = append(free, p)
			}
		}
		sort.SliceStable(free, func(i, j int) bool {
			a, b := at[free[i]], at[free[j]]
			return a > 0 && (b == 0 || a < b)
		})
		k.free = free
	}
}
