package planner

import (
	"sort"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// Most that the rest of a load is weighed by: it is answered while a person
// stands at the kiln.
const (
	restLists  = 60   // lists of one column that are combined with others'
	restJoint  = 6000 // designs of one division that are estimated
	restKeep   = 5    // designs of one division that are packed
	restLooks  = 60   // designs of one division whose posts are counted out
	restTries  = 5    // designs packed before any is worked on
	restPosted = 24   // heights of a column
	restAll    = 14   // where the pieces left make no more heights, all are weighed
)

// surveyRest ranks the designs over what stands and queues the best.
func (s *Search) surveyRest() {
	var groups [][]*design
	var ways []*division
	if !s.rest.locks {
		ways = s.restDivisions()
	}
	for _, dv := range ways {
		s.tasks = append(s.tasks, func() { groups = append(groups, s.restDesigns(dv)) })
	}
	s.tasks = append(s.tasks, func() {
		if s.queueUp(groups); len(s.queue) == 0 && s.best == nil {
			s.refused = "What stands leaves no way to go on: no posts of what is left carry a shelf over it."
			return
		}
		for range min(len(s.queue), restTries) {
			s.tasks = append(s.tasks, s.tryNext)
		}
		s.tasks = append(s.tasks, func() {
			if s.best == nil && len(s.queue) == 0 {
				s.refused = "Nothing that was tried keeps what stands and passes the check."
			}
		})
	})
}

// restDesigns are the best designs of a division by estimate that the furniture
// left can build.
func (s *Search) restDesigns(dv *division) []*design {
	var all []*design
	if base := dv.columns.base; base != nil {
		for _, l := range s.baseLists(dv) {
			z := base.z
			for _, h := range l.heights {
				z += h + base.site.kind.Thick
			}
			all = append(all, s.restJointOf(dv, l, z)...)
		}
	} else {
		all = s.restJointOf(dv, list{}, 0)
	}
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].musts != all[j].musts {
			return all[i].musts > all[j].musts
		}
		return all[i].estimate > all[j].estimate
	})
	var kept, unseen, struck []*design
	for i, d := range all {
		if len(kept) >= restKeep || i >= restLooks {
			break
		}
		s.spent++
		if _, err := s.restPosts(d); err != nil {
			continue
		}
		switch d.struck, d.unseen = s.restBlind(d); {
		case d.struck:
			struck = append(struck, d)
		case d.unseen > 0:
			unseen = append(unseen, d)
		default:
			kept = append(kept, d)
		}
	}
	out := append(append(kept, unseen[:min(len(unseen), restKeep)]...), struck[:min(len(struck), restKeep)]...)
	sort.SliceStable(out, func(i, j int) bool { return out[i].before(out[j]) })
	return out
}

// baseLists are the heights of the full levels that go on under the sites.
func (s *Search) baseLists(dv *division) []list {
	base := dv.columns.base
	more := dv.columns.on.Level
	if base.tower >= 0 {
		more -= s.rest.stands.Towers[base.tower].Levels
	}
	heights := s.restHeights(base)
	var out []list
	for _, first := range s.firsts(base) {
		n := more
		var start []float64
		if first > 0 {
			n--
			start = []float64{base.begun[first-1].height}
		} else if base.floor {
			h, ok := s.restFloor(len(base.lines))
			if !ok {
				continue
			}
			n--
			start = []float64{h}
		}
		for _, hs := range combinations(heights, n, 20) {
			out = append(out, list{heights: append(append([]float64(nil), start...), hs...), first: first})
		}
	}
	return out
}

// firsts are the choices for the first posts of a column: 0 where none stand,
// else one and more into its begun.
func (s *Search) firsts(c *column) []int {
	if len(c.begun) == 0 {
		return []int{0}
	}
	var out []int
	for i, o := range c.begun {
		if c.floor || i == 0 || o.height-s.context.room-c.site.kind.Bow >= c.need-plane.Tolerance {
			out = append(out, i+1)
		}
	}
	return out
}

// restHeights are the post heights worth having in a column: what its ware
// needs, and those it was planned with.
func (s *Search) restHeights(c *column) []float64 {
	n := len(c.lines)
	heights := s.context.heightsFor(n, c.site.kind.Bow, true)
	if c.tower >= 0 {
		t := &s.rest.of.Towers[c.tower]
		for j := s.rest.stands.Towers[c.tower].Levels; j < len(t.Levels); j++ {
			if h := s.rest.real(t.Levels[j].PostsOn(0)); h > 0 && s.context.makes(h, n) {
				heights = append(heights, h)
			}
		}
	}
	if made := s.context.madeHeights(n); len(made) <= restAll {
		heights = append(heights, made...)
	}
	if need := c.need + s.context.room + c.site.kind.Bow; c.need > 0 {
		made := s.context.madeHeights(n)
		if i := sort.SearchFloat64s(made, need-plane.Tolerance); i < len(made) {
			heights = append(heights, made[i])
		}
	}
	sort.Sort(sort.Reverse(sort.Float64Slice(heights)))
	out := heights[:0]
	for i, h := range heights {
		if i == 0 || out[len(out)-1]-h > stacks.Alike {
			out = append(out, h)
		}
	}
	return thin(out, restPosted)
}

// restFloor is the lowest height of posts on the floor.
func (s *Search) restFloor(n int) (float64, bool) {
	least := s.context.limits[layout.BottomShelf].Plan
	if s.rest.of.Kiln.FloorElement {
		least *= 2
	}
	made := s.context.madeHeights(n)
	i := sort.SearchFloat64s(made, least-plane.Tolerance)
	if i == len(made) {
		return 0, false
	}
	return made[i], true
}

// restLists are the lists of a column whose first posts stand at z.
func (s *Search) columnLists(c *column, z float64) []list {
	left := s.shelvesLeft(c)
	heights := s.restHeights(c)
	lid := s.context.limits[layout.RoomToLid].Plan
	var out []list
	for _, first := range s.firsts(c) {
		at, shelves := z, left
		var start []float64
		switch {
		case first > 0:
			start = []float64{c.begun[first-1].height}
		case c.floor:
			h, ok := s.restFloor(len(c.lines))
			if !ok {
				continue
			}
			start = []float64{h}
		}
		for _, h := range start {
			at += h + c.site.kind.Thick
			shelves--
		}
		if shelves < 0 {
			continue
		}
		for _, l := range s.context.lists(at, heights, c.site, shelves) {
			if l.rest < 0 || len(start) == 0 && !s.clearsStanding(c, l, lid) {
				continue
			}
			one := list{heights: append(append([]float64(nil), start...), l.heights...), rest: l.rest, first: first}
			if len(start) == 0 && c.need > 0 && len(l.heights) > 1 {
				one.low = true
				if !c.crowded() {
					out = append(out, one)
					one.low = false
				}
			}
			out = append(out, one)
		}
	}
	return out
}

// clearsStanding says whether some storey of a list goes over the pots that
// stand under it.
func (s *Search) clearsStanding(c *column, l list, lid float64) bool {
	if len(l.heights) == 0 {
		return l.rest-lid >= c.need-plane.Tolerance
	}
	return l.heights[0]-s.context.room-c.site.kind.Bow >= c.need-plane.Tolerance // the tallest
}

// shelvesLeft is how many more levels of a column the shelves left make.
func (s *Search) shelvesLeft(c *column) int {
	uses := map[string]int{}
	for _, sh := range c.shelves {
		uses[sh.Kind]++
	}
	n := 50
	for i, k := range s.rest.of.Furniture.Shelves {
		if uses[k.Name] > 0 && !k.Cracked && !k.Damp {
			n = min(n, max(0, s.rest.left.Shelves[i])/uses[k.Name])
		} else if uses[k.Name] > 0 {
			n = 0
		}
	}
	return n
}

// restJointOf gives every column a list, over base levels as listed, and
// estimates what the whole holds.
func (s *Search) restJointOf(dv *division, base list, z float64) []*design {
	cols := dv.columns.sites
	rated := make([][]list, len(cols))
	for i := range cols {
		at := cols[i].z
		if dv.columns.base != nil {
			at = z
		}
		if i > 0 && dv.sites[i].sibling == 0 {
			rated[i] = rated[0]
		} else {
			rated[i] = s.rate(dv, dv.sites[i], s.columnLists(&cols[i], at))
		}
		if len(rated[i]) == 0 {
			return nil
		}
	}
	each := restLists
	for power(each, len(cols)) > restJoint && each > 2 {
		each--
	}
	var out []*design
	pick := make([]int, len(cols))
	var walk func(i int)
	walk = func(i int) {
		if i == len(cols) {
			d := &design{division: dv, base: base.heights, baseFirst: base.first, lists: make([]list, len(pick))}
			for j, p := range pick {
				d.lists[j] = rated[j][p]
			}
			if s.restShelves(d) {
				d.musts, d.estimate = s.estimate(d)
				out = append(out, d)
			}
			return
		}
		from := 0
		if dv.sites[i].sibling >= 0 {
			from = pick[dv.sites[i].sibling]
		}
		for p := from; p < min(each, len(rated[i])); p++ {
			pick[i] = p
			walk(i + 1)
		}
	}
	walk(0)
	s.spent += int64(len(out) / 50)
	return out
}

// restShelves says whether the shelves left suffice for a design.
func (s *Search) restShelves(d *design) bool {
	left := s.rest.left.Clone()
	take := func(c *column, n int) {
		for _, sh := range c.shelves {
			left.TakeShelf(sh.Kind, n)
		}
	}
	if b := d.division.columns.base; b != nil {
		take(b, len(d.base))
	}
	for i := range d.lists {
		take(&d.division.columns.sites[i], len(d.lists[i].heights))
	}
	for i, n := range left.Shelves {
		if n < 0 && n < s.rest.left.Shelves[i] {
			return false
		}
	}
	return true
}

// restPosts are the posts of a design's new levels: of the base, then of each
// column, in the order of their heights. Posts that stand go on as chosen.
func (s *Search) restPosts(d *design) ([][]layout.MakeUp, error) {
	left := s.rest.left
	var demand []stacks.Demand
	var fixed []begunPosts
	add := func(c *column, heights []float64, first int) {
		for i, h := range heights {
			if i == 0 && first > 0 {
				o := c.begun[first-1]
				fixed = append(fixed, o)
				demand = append(demand, stacks.Demand{}) // no posts of its own
				was := c.begun[0].posts
				left = left.Clone()
				for k := range was {
					left.Return(was[k], 1)
					left.Take(o.posts[k], 1)
				}
				continue
			}
			demand = append(demand, stacks.Demand{Height: h, Posts: len(c.lines)})
		}
	}
	if b := d.division.columns.base; b != nil {
		add(b, d.base, d.baseFirst)
	}
	for i := range d.lists {
		add(&d.division.columns.sites[i], d.lists[i].heights, d.lists[i].first)
	}
	out, err := s.context.catalogue.Assign(left, demand, s.rest.of.Units)
	if err != nil {
		return nil, err
	}
	for i := range out {
		if demand[i].Posts == 0 && len(fixed) > 0 {
			out[i], fixed = fixed[0].posts, fixed[1:]
		}
	}
	return out, nil
}
