package planner

import (
	"fmt"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// ordered is the heights of one column from the bottom up: those that stand or
// stand on the floor first, then in the order that suits probes and spyholes
// and leaves room over what stands.
func (s *Search) ordered(c *column, l list, z float64, wish bool) []float64 {
	heights := l.heights
	start := 0
	switch {
	case l.first > 0 || c.floor:
		start = 1
	case l.low:
		heights = s.lowestFirst(c, heights)
		start = min(1, len(heights))
	}
	if len(heights) <= start {
		return heights
	}
	for _, h := range heights[:start] {
		z += h + c.site.kind.Thick
	}
	room := s.context.room + c.site.kind.Bow
	fits := func(h float64) bool { return start > 0 || h-room >= c.need-plane.Tolerance }
	out := append([]float64(nil), heights[:start]...)
	return append(out, s.context.arranged(heights[start:], ordering{site: c.site, start: z, wish: wish, first: fits})...)
}

// lowestFirst is heights, tallest first, with the lowest that clears what stands
// under them brought to the front.
func (s *Search) lowestFirst(c *column, heights []float64) []float64 {
	for i := len(heights) - 1; i > 0; i-- {
		if heights[i]-s.context.room-c.site.kind.Bow >= c.need-plane.Tolerance {
			out := append([]float64{heights[i]}, heights[:i]...)
			return append(out, heights[i+1:]...)
		}
	}
	return heights
}

// restBlind says whether a design brings a shelf too near a probe, and how many
// of the watched packs that are still to be set it brings before no spyhole.
func (s *Search) restBlind(d *design) (struck bool, unseen int) {
	c := s.context
	least := 1e300
	look := func(col *column, l list, z float64, wish bool) (float64, bool) {
		order := s.ordered(col, l, z, wish)
		tops := []float64{z}
		if z == 0 {
			tops = nil
		}
		for _, h := range order {
			if c.probeCost(col.site, z+h, z+h+col.site.kind.Thick) > 0 {
				return z, false
			}
			z += h + col.site.kind.Thick
			tops = append(tops, z)
		}
		rest := order
		if len(tops) == len(order) && len(order) > 0 {
			rest = order[1:]
		}
		least = min(least, c.sightCost(rest, tops))
		return z, true
	}
	at := -1.0
	if b := d.division.columns.base; b != nil {
		z, ok := look(b, b.listOf(d), b.z, false)
		if !ok {
			return true, 0
		}
		at = z
	}
	for i := range d.lists {
		col := &d.division.columns.sites[i]
		z := col.z
		if at >= 0 {
			z = at
		}
		if _, ok := look(col, d.lists[i], z, true); !ok {
			return true, 0
		}
	}
	if least > 0 {
		unseen = c.watchedPacks()
	}
	return false, unseen
}

// listOf is the list of a design's base.
func (c *column) listOf(d *design) list {
	return list{heights: d.base, first: d.baseFirst, low: c.crowded()}
}

// crowded says whether little goes beside what stands under a column.
func (c *column) crowded() bool { return c.used > c.site.area()/3 }

// erectRest stands a design up over what stands.
func (s *Search) erectRest(d *design) (*frame, error) {
	r := s.rest
	posts, err := s.restPosts(d)
	if err != nil {
		return nil, err
	}
	towers := layout.CloneTowers(r.kept)
	var added []layout.Tower
	next := func(n int) [][]layout.MakeUp {
		out := posts[:n]
		posts = posts[n:]
		return out
	}
	at := -1.0
	grow := func(c *column, l list, on *layout.Support, wish bool) float64 {
		z := c.z
		if at >= 0 {
			z = at
		}
		made := next(len(l.heights))
		order := s.ordered(c, l, z, wish)
		levels := make([]layout.Level, 0, len(order))
		for _, h := range order {
			for k := range l.heights {
				if l.heights[k] == h && made[k] != nil {
					levels = append(levels, layout.Level{Shelves: append([]layout.ShelfAt(nil), c.shelves...), Posts: oneIfAlike(made[k])})
					made[k] = nil
					break
				}
			}
			z += h + c.site.kind.Thick
		}
		if c.tower >= 0 {
			towers[c.tower].Levels = append(towers[c.tower].Levels, levels...)
		} else if len(levels) > 0 {
			t := layout.Tower{Name: c.name, On: []layout.Support{{}}, Lines: c.lines, Levels: levels}
			if on != nil {
				t.On[0] = *on
			}
			added = append(added, t)
		}
		return z
	}
	cols := d.division.columns
	if cols.base != nil {
		at = grow(cols.base, cols.base.listOf(d), nil, false)
	}
	for i := range d.lists {
		grow(&cols.sites[i], d.lists[i], cols.on, true)
	}
	r.asPostsStood(towers)
	return s.raised(d, begunTowers(append(towers, added...)))
}

// asPostsStood gives posts that go on as they stand the very list of the load:
// one for all lines or one for each.
func (r *rest) asPostsStood(towers []layout.Tower) {
	for i := range r.of.Towers {
		n := r.stands.Towers[i].Levels
		if !r.stands.Towers[i].Posts || len(towers[i].Levels) <= n {
			continue
		}
		was, now := &r.of.Towers[i].Levels[n], &towers[i].Levels[n]
		same := true
		for k := range r.of.Towers[i].Lines {
			same = same && fmt.Sprint(was.PostsOn(k)) == fmt.Sprint(now.PostsOn(k))
		}
		if same {
			now.Posts = was.Posts
		}
	}
}

// raised is a design's towers as a frame, nothing set on it but what stands.
func (s *Search) raised(d *design, towers []layout.Tower) (*frame, error) {
	l := *s.rest.of
	l.Towers = towers
	b, err := stacks.Build(&l)
	if err != nil {
		return nil, err
	}
	f := s.restFrame(b)
	f.design = d
	d.way = way{}
	if len(d.division.sites) == 0 {
		return nil, fmt.Errorf("no column goes on")
	}
	return f, nil
}

// lessUsed takes the area that pots cover which stand already off the bins of a
// design: off that of the storey they stand on.
func (s *Search) lessUsed(d *design, bins []bin) {
	less := func(c *column, l list) {
		if c.used == 0 {
			return
		}
		takes := l.rest - s.context.limits[layout.RoomToLid].Plan
		if len(l.heights) > 0 {
			h := l.heights[0]
			if l.low && l.first == 0 {
				h = s.lowestFirst(c, l.heights)[0]
			}
			takes = h - s.context.room - c.site.kind.Bow
		}
		for i := range bins {
			if abs(bins[i].takes-takes) < plane.Tolerance {
				bins[i].area = max(0, bins[i].area-c.used)
				return
			}
		}
	}
	cols := d.division.columns
	if cols.base != nil {
		less(cols.base, cols.base.listOf(d))
		return
	}
	for i := range cols.sites {
		less(&cols.sites[i], d.lists[i])
	}
}

// freeArea is a storey's area, less what stands on it where something does.
func (s *Search) freeArea(st *storey) float64 {
	area := st.site.area()
	if s.rest == nil {
		return area
	}
	for _, p := range st.fixed {
		if p.pot.Ware != "" {
			area -= planArea(s.context.kinds[p.kind].body)
		}
	}
	if st.sealed {
		return 0
	}
	return max(0, area)
}
