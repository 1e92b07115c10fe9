package planner

import (
	"errors"
	"maps"
	"slices"
	"sort"

	"threepost/layout"
	"threepost/layout/stacks"
)

// A trial is a search for a load with other furniture that begins with what a
// plan without it holds: what each storey has, and every pattern that was packed
// on the way to it. Its designs are the plan's own with a height or two changed
// or a storey more, so that a little work shows what a piece of furniture does.

// footing is what the trials of one plan have in common.
type footing struct {
	plan     *Plan
	built    *stacks.Built
	division *division // the plan's
}

// footing reads a plan back; ok is false where it is none that a design would
// stack, such as one made by hand or over what stands.
func (s *Search) footing(p *Plan) (on footing, ok bool) {
	b, err := stacks.Build(p.Load)
	if err != nil {
		return on, false
	}
	for _, dv := range s.context.maker().divisions() {
		if s.context.designOf(dv, b) != nil {
			return footing{p, b, dv}, true
		}
	}
	return on, false
}

// trial begins one of a load that owns other counts of the same furniture. near
// is the plan's own design in it.
func (s *Search) trial(with *layout.Load, on footing) (t *Search, near *design, err error) {
	c, err := newContext(with)
	if err != nil {
		return nil, nil, err
	}
	t = newSearch(c, s.seed)
	t.barred, t.unstood = maps.Clone(s.barred), maps.Clone(s.unstood)
	for k := range t.barred {
		c.kinds[k].free = nil
	}
	// Counts of alike pots on a bare shelf hold whatever else is owned.
	t.capacities = maps.Clone(s.capacities)
	t.pool = s.pool.clone()
	near = c.designOf(on.division.owning(s.context.load, with), on.built)
	if near == nil {
		return nil, nil, errors.New("the plan is none of a design")
	}
	return t, near, nil
}

// owning is a division with the shelves that another load owns.
func (d *division) owning(was, now *layout.Load) *division {
	out := *d
	copied := map[*site]*site{}
	copyOf := func(st *site) *site {
		if st == nil {
			return nil
		}
		x := *st
		x.stock += now.Furniture.Shelves[st.group].Count - was.Furniture.Shelves[st.group].Count
		x.kind = &now.Furniture.Shelves[st.group]
		copied[st] = &x
		return &x
	}
	out.base = copyOf(d.base)
	out.sites = nil
	for _, st := range d.sites {
		out.sites = append(out.sites, copyOf(st))
	}
	for _, st := range out.sites {
		if like, known := copied[st.like]; known {
			st.like = like
		}
	}
	return &out
}

// clone is a pool that grows on its own.
func (p pool) clone() pool {
	out := pool{of: map[class][]*pattern{}, seen: maps.Clone(p.seen), serial: p.serial}
	for c, list := range p.of {
		out.of[c] = slices.Clone(list)
	}
	return out
}

// levelsOf are what stands on the levels of a built load, the tallest first, on
// the sites of a division.
func (s *Search) levelsOf(dv *division, b *stacks.Built) []*pattern {
	var out []*pattern
	for _, st := range s.standingFrame(b).storeys {
		for _, x := range append(slices.Clone(dv.sites), dv.base) {
			if x == nil || x.mark() != st.site.mark() || len(st.set) == 0 {
				continue
			}
			st.site = x
			s.enter(st, st.set)
			p := &pattern{site: x, counts: make([]int, len(s.context.kinds)), set: st.set}
			for _, q := range st.set {
				p.counts[q.kind]++
				p.need = max(p.need, s.context.kinds[q.kind].body.Height)
			}
			out = append(out, p)
			break
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].need > out[j].need })
	return out
}

// designOf reads a built load back as a design of a division; nil where it is
// none.
func (c *context) designOf(dv *division, b *stacks.Built) *design {
	d := &design{division: dv, lists: make([]list, len(dv.sites))}
	heights := func(tower string, st *site) ([]float64, bool) {
		for t := range b.Towers {
			if b.Towers[t].Name != tower {
				continue
			}
			var out []float64
			for _, v := range b.Towers[t].Levels {
				lv := &b.Levels[v]
				if len(lv.Posts) == 0 || siteOf(b, lv, false).mark() != st.mark() {
					return nil, false
				}
				post := &b.Posts[lv.Posts[0]]
				out = append(out, post.Top-post.Bottom)
			}
			return out, true
		}
		return nil, true
	}
	towers := 0
	rest := c.load.Kiln.Height
	if dv.base != nil {
		h, ok := heights(dv.base.name, dv.base)
		if !ok || len(h) != dv.bases {
			return nil
		}
		towers++
		d.floor, d.base = h[0], tallFirst(h[1:])
		for _, x := range h {
			rest -= x + dv.base.kind.Thick
		}
	}
	for i, st := range dv.sites {
		h, ok := heights(st.name, st)
		if !ok || dv.base == nil && len(h) == 0 {
			return nil
		}
		if len(h) > 0 {
			towers++
		}
		l := list{rest: rest}
		for _, x := range h {
			l.rest -= x + st.kind.Thick
		}
		if dv.base == nil {
			if i > 0 && abs(d.floor-h[0]) > stacks.Alike {
				return nil
			}
			d.floor, h = h[0], h[1:]
		}
		l.heights = tallFirst(h)
		d.lists[i] = l
	}
	if towers != len(b.Towers) || towers == 0 {
		return nil
	}
	return d
}

// tallFirst are heights from the tallest.
func tallFirst(h []float64) []float64 {
	h = slices.Clone(h)
	sort.Sort(sort.Reverse(sort.Float64Slice(h)))
	return h
}

// Figures of a trial.
const (
	nearWide = 10 // designs from which a second change is made
	nearKept = 14 // designs that patterns are chosen for
)

// around are designs that differ from one in a height or two of its storeys, or
// have a storey more, and that the furniture makes; the most promising first,
// the one itself among them.
func (t *Search) around(near *design) []*design {
	c := t.context
	near.musts, near.estimate = t.estimate(near)
	all := []*design{near}
	seen := map[string]bool{t.key(near): true}
	grow := func(from []*design) {
		for _, d := range from {
			for i := range d.lists {
				for _, x := range c.changed(d, i) {
					if k := t.key(x); !seen[k] && x.shelvesFit() && c.postsFit(x) {
						seen[k] = true
						x.musts, x.estimate = t.estimate(x)
						all = append(all, x)
					}
				}
			}
		}
		sort.SliceStable(all, func(i, j int) bool { return all[i].before(all[j]) })
		t.spent += int64(len(all) / 50)
	}
	grow(all)
	grow(slices.Clone(all[:min(len(all), nearWide)]))
	// Shelves at the probe, or cones that no level brings before their spyhole,
	// are weighed where the plan has them too.
	struck, blind := c.struck(near), c.blind(near)
	var out []*design
	for _, d := range all {
		if _, err := c.catalogue.Assign(nil, d.demand(), c.load.Units); err != nil || !struck && c.struck(d) || !blind && c.blind(d) {
			continue
		}
		if out = append(out, d); len(out) == nearKept {
			break
		}
	}
	return out
}

// key tells designs of one division apart.
func (t *Search) key(d *design) string {
	key := ""
	for i := range d.lists {
		key += t.sayHeights(d.lists[i].heights) + "/"
	}
	return key
}

// changed are the designs in which one storey of a site has another height, or
// one storey more is there.
func (c *context) changed(d *design, site int) []*design {
	st := d.division.sites[site]
	l := d.lists[site]
	least := c.limits[layout.RoomToLid].Plan + leastLevel
	var out []*design
	with := func(heights []float64, rest float64) {
		if rest < least {
			return
		}
		x := *d
		x.way, x.bare, x.tried, x.mixed = way{}, nil, false, 0
		x.lists = slices.Clone(d.lists)
		x.lists[site] = list{heights: tallFirst(heights), rest: rest}
		out = append(out, &x)
	}
	for _, h := range c.heightsFor(len(st.lines), st.kind.Bow, true) {
		for j, old := range l.heights {
			if h != old && (j == 0 || l.heights[j-1] != old) {
				next := slices.Clone(l.heights)
				next[j] = h
				with(next, l.rest+old-h)
			}
		}
		with(append(slices.Clone(l.heights), h), l.rest-h-st.kind.Thick)
	}
	return out
}

// Figures of a look.
const (
	lookCarried = 3   // designs onto which the plan's levels are carried
	lookChosen  = 2   // designs that patterns are chosen for
	emptyWork   = 700 // packing a storey that the plan did not have
)

// look works on the designs round a plan for about that many units. The plan's
// levels are carried onto its own design and onto those that promise most by
// area, patterns are chosen for those that promise most by them, and from the
// best the search walks on.
func (t *Search) look(near *design, field []*design, on footing, work int64) {
	end := t.spent + work
	levels := t.levelsOf(near.division, on.built)
	t.carry(near, levels)
	for n, d := range field {
		if n == lookCarried || t.spent >= end-work/3 || t.fulfilled() {
			break
		}
		if d != near {
			t.carry(d, levels)
		}
	}
	type promise struct {
		d *design
		c choice
	}
	var all []promise
	for _, d := range field {
		if f, err := t.bare(d); err == nil {
			all = append(all, promise{d, t.choose(f.storeys, t.availFor(f))})
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].c.worth > all[j].c.worth })
	for n, p := range all {
		if n == lookChosen || t.spent >= end-work/4 || t.fulfilled() {
			break
		}
		t.realize(p.d, p.c)
	}
	for t.best != nil && t.spent < end && !t.allSet() {
		before := t.spent
		w := t.turn()
		if t.step(w) {
			t.record(w, w.best)
		}
		w.spent += max(1, t.spent-before)
		t.spent = max(t.spent, before+1)
	}
}

// carry builds a design with the levels of a plan, each on the lowest storey of
// its place that takes it, packs the storeys that are left, and fills all up.
func (t *Search) carry(d *design, levels []*pattern) {
	bare, err := t.bare(d)
	if err != nil {
		return
	}
	f := bare.clone()
	rest := t.availFor(f)
	used := make([]bool, len(f.storeys))
	for _, p := range levels {
		best := -1
		for i, st := range f.storeys {
			if !used[i] && st.site == p.site && st.fits(p.need) && (best < 0 || st.tallest() < f.storeys[best].tallest()) {
				best = i
			}
		}
		if best >= 0 {
			used[best] = true
			t.adopt(f.storeys[best], p, rest)
		}
	}
	order := tallestFirst(f.storeys)
	for _, i := range order {
		st := f.storeys[i]
		if wants := t.wantsOn(st, rest); !used[i] && !st.sealed && len(wants) > 0 {
			t.partFume(st, wants)
			st.set = t.packed(st, wants, emptyWork, uint64(9000+i), nil)
			for _, q := range st.set {
				rest[q.kind]--
			}
		}
	}
	t.mixes++
	t.fillGaps(f, order, rest)
	t.keep(f)
}
