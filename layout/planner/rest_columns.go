package planner

import (
	"sort"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// column is where new levels go: on from what stands of a tower, or a new tower.
type column struct {
	tower   int // in the load; -1: a new one
	name    string
	lines   []layout.Line
	site    *site
	shelves []layout.ShelfAt // of each new level
	floor   bool             // its first posts stand on the floor
	z       float64          // where its first posts stand, mm
	need    float64          // the tallest pot on the shelf they stand on, mm
	used    float64          // area that pots cover there, mm2
	begun   []begunPosts     // what the posts that stand there may become; empty: none stand
}

// begunPosts is a height that posts without their shelf may have.
type begunPosts struct {
	height float64
	posts  []layout.MakeUp
}

// columns are a division's way on from what stands.
type columns struct {
	base  *column // the full levels under the sites; nil: none are left to set
	sites []column
	on    *layout.Support // what new sites stand on where no base goes on
}

// restDivisions are the ways to go on over what stands, the one that was planned
// first.
func (s *Search) restDivisions() []*division {
	r := s.rest
	out := []*division{s.onAsPlanned()}
	root := -1
	for i := range r.of.Towers {
		if r.begun(i) {
			if root >= 0 {
				return out // several towers stand: each goes on
			}
			root = i
		}
	}
	if root < 0 {
		return append(out, s.freshDivisions()...)
	}
	t := &r.of.Towers[root]
	if !onFloor(t) {
		return out
	}
	base, ok := s.columnOf(root)
	if !ok || base.site.area() < 0.35*s.context.chamber.Area() || isHalf(base.site.kind.Shape.Kind) {
		return out
	}
	m := s.context.maker()
	if asIs := out[0].columns.sites; s.rest.of.Wishes.Towers != layout.HalfTowers && !(len(asIs) == 1 && asIs[0].tower == root) {
		out = append(out, &division{name: "full shelves", sites: []*site{base.site}, columns: &columns{sites: []column{base}}})
	}
	if s.rest.of.Wishes.Towers == layout.OneTower {
		return out
	}
	stands := r.stands.Towers[root].Levels
	for _, pair := range m.halfPairs() {
		if !over(pair, base.lines) {
			continue
		}
		for bases := max(1, stands); bases <= stands+2; bases++ {
			if len(base.begun) > 0 && bases == stands {
				continue
			}
			out = append(out, s.pairOn(base, root, bases, stands, pair))
		}
	}
	return out
}

// pairOn is two sides over a full tower of so many levels.
func (s *Search) pairOn(base column, root, bases, stands int, pair []*site) *division {
	d := &division{name: "full below, sides above", bases: bases, columns: &columns{}}
	d.columns.on = &layout.Support{Tower: s.rest.of.Towers[root].Name, Level: bases}
	if bases > stands {
		b := base
		d.base, d.columns.base = base.site, &b
	}
	for _, st := range pair {
		c := column{tower: -1, name: s.freshName(st.name), lines: st.lines, site: st, shelves: []layout.ShelfAt{st.shelf}, z: base.z}
		if bases == stands {
			c.need, c.used = base.need, base.used/2
		}
		d.sites = append(d.sites, st)
		d.columns.sites = append(d.columns.sites, c)
	}
	return d
}

// mostFresh is how many ways to divide an empty kiln are weighed.
const mostFresh = 6

// freshDivisions are the ways to divide the kiln where nothing stands yet.
func (s *Search) freshDivisions() []*division {
	list := s.context.maker().divisions()
	for _, d := range list[:min(len(list), mostFresh)] {
		d.columns = &columns{}
		if d.base != nil {
			d.columns.base = &column{tower: -1, name: d.base.name, lines: d.base.lines, site: d.base, shelves: []layout.ShelfAt{d.base.shelf}, floor: true}
			d.columns.on = &layout.Support{Tower: d.base.name, Level: d.bases}
		}
		for _, st := range d.sites {
			d.columns.sites = append(d.columns.sites, column{tower: -1, name: st.name, lines: st.lines, site: st, shelves: []layout.ShelfAt{st.shelf}, floor: d.base == nil})
		}
	}
	return list[:min(len(list), mostFresh)]
}

// freshName is a tower's name that no standing tower has.
func (s *Search) freshName(name string) string {
	for i := range s.rest.of.Towers {
		if s.rest.begun(i) && s.rest.of.Towers[i].Name == name {
			return s.freshName("upper " + name)
		}
	}
	return name
}

// over says whether every line of the sites stands over one of the lines below.
func over(sites []*site, below []layout.Line) bool {
	const near = 5 // mm off, still post over post
	for _, st := range sites {
		for _, l := range st.lines {
			found := false
			for _, m := range below {
				found = found || plane.Distance(l.At, m.At) <= near
			}
			if !found {
				return false
			}
		}
	}
	return true
}

// onAsPlanned is the division that was planned: every tower goes on.
func (s *Search) onAsPlanned() *division {
	r := s.rest
	d := &division{name: "as it was planned", columns: &columns{}}
	carried := map[string]bool{} // towers on which others stand, or are to
	for i := range r.of.Towers {
		t := &r.of.Towers[i]
		if onFloor(t) || !r.begun(i) && !r.whole(t.On) {
			continue
		}
		for _, on := range t.On {
			carried[on.Tower] = true
		}
	}
	for i := range r.of.Towers {
		t := &r.of.Towers[i]
		if carried[t.Name] || !r.begun(i) && !onFloor(t) && !r.whole(t.On) {
			continue
		}
		if c, ok := s.columnOf(i); ok {
			d.sites = append(d.sites, c.site)
			d.columns.sites = append(d.columns.sites, c)
		}
	}
	return d
}

// whole says whether all the levels that a tower stands on lie, and are the last
// that their towers may have.
func (r *rest) whole(on []layout.Support) bool {
	for _, s := range on {
		for i := range r.of.Towers {
			if r.of.Towers[i].Name == s.Tower && (r.stands.Towers[i].Levels < s.Level || r.stands.Towers[i].Posts) {
				return false
			}
		}
	}
	return true
}

func onFloor(t *layout.Tower) bool {
	for _, s := range t.On {
		if s.Tower != "" {
			return false
		}
	}
	return true
}

// begun says whether anything of a tower stands.
func (r *rest) begun(i int) bool {
	return r.stands.Towers[i].Levels > 0 || r.stands.Towers[i].Posts
}

// columnOf is a tower of the load as a column from what stands of it. It is
// false where the tower has no level to tell its shelves from.
func (s *Search) columnOf(i int) (column, bool) {
	r := s.rest
	t, st := &r.of.Towers[i], r.stands.Towers[i]
	if len(t.Levels) == 0 {
		return column{}, false
	}
	like := &t.Levels[min(st.Levels, len(t.Levels)-1)]
	if !st.Posts && st.Levels > 0 {
		like = &t.Levels[st.Levels-1]
	}
	c := column{tower: i, name: t.Name, lines: t.Lines, shelves: like.Shelves, floor: st.Levels == 0 && onFloor(t)}
	site, ok := s.siteLike(t, like)
	if !ok {
		return column{}, false
	}
	c.site = site
	s.stand(&c, t, st.Levels)
	if st.Posts {
		c.begun = s.begunOf(t, st.Levels)
	}
	return c, true
}

// siteLike is the site of a level's shelves, whether they stand or not.
func (s *Search) siteLike(t *layout.Tower, v *layout.Level) (*site, bool) {
	if len(v.Shelves) == 0 {
		return nil, false
	}
	out := &site{name: t.Name, sibling: -1, lines: t.Lines, neighbor: len(s.rest.of.Towers) > 1, shelf: v.Shelves[0]}
	for n, sh := range v.Shelves {
		k := s.rest.of.Furniture.Shelf(sh.Kind)
		if k == nil {
			return nil, false
		}
		o, err := k.Shape.Outline()
		if err != nil {
			return nil, false
		}
		o = o.At(plane.Pose{At: sh.At, Turn: sh.Turn})
		if n == 0 {
			out.kind, out.outline = k, o
		} else {
			out.beside = append(out.beside, o)
		}
	}
	return out, true
}

// stand tells a column where its first posts stand and what stands round them.
func (s *Search) stand(c *column, t *layout.Tower, levels int) {
	on := []layout.Support{{Tower: t.Name, Level: levels}}
	share := 1.0
	if levels == 0 {
		on = t.On
		share = 0.5
	}
	b := s.rest.built
	for i := range b.Levels {
		v := &b.Levels[i]
		for _, u := range on {
			if u.Tower == "" || b.Towers[v.Tower].Name != u.Tower || v.Number != u.Level {
				continue
			}
			c.z = v.Top
			for _, p := range v.Pots {
				body := b.Pots[p].Body
				c.need = max(c.need, body.Height)
				c.used += float64(share * planArea(body))
			}
		}
	}
}

// mostBegun is how many heights are weighed for posts that stand already.
const mostBegun = 8

// begunOf are the heights that the posts on a tower's last standing shelf may
// have: as they are, or each with the same pieces on top instead of its own,
// the lowest piece of all staying where it is.
func (s *Search) begunOf(t *layout.Tower, levels int) []begunPosts {
	r := s.rest
	var now []layout.MakeUp
	for k := range t.Lines {
		now = append(now, t.Levels[levels].PostsOn(k))
	}
	height := r.real(now[0])
	out := []begunPosts{{height, now}}
	var tops []layout.MakeUp
	tops = append(tops, nil)
	for i := range r.of.Furniture.Posts {
		p := r.of.Furniture.Posts[i]
		a := layout.Piece{Height: p.Height, Name: p.Name}
		tops = append(tops, layout.MakeUp{a})
		for j := i; j < len(r.of.Furniture.Posts); j++ {
			if q := r.of.Furniture.Posts[j]; q.Spacer {
				tops = append(tops, layout.MakeUp{a, {Height: q.Height, Name: q.Name}})
			}
		}
	}
	for _, less := range []int{0, 1} {
		for _, top := range tops {
			if o, ok := s.topped(now, less, top); ok {
				out = append(out, o)
			}
		}
	}
	rest := out[1:]
	sort.SliceStable(rest, func(i, j int) bool { return abs(rest[i].height-height) < abs(rest[j].height-height) })
	kept := out[:1]
	for _, o := range rest {
		new := true
		for _, k := range kept {
			new = new && abs(k.height-o.height) > stacks.Alike
		}
		if new && len(kept) < mostBegun {
			kept = append(kept, o)
		}
	}
	return kept
}

// topped is posts with so many pieces less on top and others put there instead,
// where they are owned, of one height, and not of too many pieces.
func (s *Search) topped(now []layout.MakeUp, less int, top layout.MakeUp) (begunPosts, bool) {
	if less == 0 && len(top) == 0 {
		return begunPosts{}, false
	}
	var out begunPosts
	for _, m := range now {
		if len(m)-less < 1 || len(m)-less+len(top) > int(s.context.limits[layout.Pieces].Watch) {
			return out, false
		}
		m = append(append(layout.MakeUp(nil), m[:len(m)-less]...), top...)
		h := s.rest.real(m)
		if len(out.posts) > 0 && abs(h-out.height) > stacks.Alike {
			return out, false
		}
		out.height = max(out.height, h)
		out.posts = append(out.posts, m)
	}
	_, ok := s.rest.swapped(now, out.posts)
	return out, ok
}

// swapped is what is left of the furniture once standing posts have become
// others; false where that is more than there is.
func (r *rest) swapped(from, to []layout.MakeUp) (*stacks.Stock, bool) {
	left := r.left.Clone()
	for i := range from {
		left.Return(from[i], 1)
		left.Take(to[i], 1)
	}
	for i, n := range left.Posts {
		if n < 0 && n < r.left.Posts[i] {
			return nil, false
		}
	}
	return left, true
}
