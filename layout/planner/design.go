package planner

import (
	"sort"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// design is a division with a list of storeys for every tower: all of a plan
// but the pots.
type design struct {
	division *division
	floor    float64   // height of the posts under the lowest shelves
	base     []float64 // post heights between the levels of the base
	lists    []list    // one per site
	// baseFirst is list.first of the base, where a base goes on from what stands.
	baseFirst int
	estimate  float64 // the value it may hold, by area
	musts     float64
	way       way    // as a potter sees it, once asked for
	struck    bool   // no order of the storeys keeps the shelves off the probes, staggers them as wished
	unseen    int    // watched packs that no order of the storeys brings before a spyhole
	loosened  bool   // and that was tried
	loose     bool   // watched packs stand wherever they take least room, in sight or not
	bare      *frame // standing, without pots, once asked for
	tried     bool
	mixed     float64 // the most that patterns chosen for it promised
}

// demand is the posts a design needs: heights and how many of each.
func (d *design) demand() []stacks.Demand {
	var out []stacks.Demand
	if d.division.base != nil {
		n := len(d.division.base.lines)
		out = append(out, stacks.Demand{Height: d.floor, Posts: n})
		for _, h := range d.base {
			out = append(out, stacks.Demand{Height: h, Posts: n})
		}
	}
	for i, s := range d.division.sites {
		if d.division.base == nil {
			out = append(out, stacks.Demand{Height: d.floor, Posts: len(s.lines)})
		}
		for _, h := range d.lists[i].heights {
			out = append(out, stacks.Demand{Height: h, Posts: len(s.lines)})
		}
	}
	return out
}

// shelvesFit says whether the owned shelves suffice.
func (d *design) shelvesFit() bool {
	used, owned := map[int]int{}, map[int]int{}
	if b := d.division.base; b != nil {
		used[b.group] += d.division.bases
		owned[b.group] = b.stock
	}
	for i, s := range d.division.sites {
		used[s.group] += len(d.lists[i].heights)
		if d.division.base == nil {
			used[s.group]++
		}
		owned[s.group] = s.stock
	}
	for g, n := range used {
		if n > owned[g] {
			return false
		}
	}
	return true
}

// postsFit says whether the owned posts make each height of a design as often
// as it is asked; whether they make all at once is for the stock to say.
func (c *context) postsFit(d *design) bool {
	demand := d.demand()
	for i, a := range demand {
		n := a.Posts
		for j, b := range demand {
			if j != i && b.Height == a.Height {
				if j < i {
					n = 0
					break
				}
				n += b.Posts
			}
		}
		if n > 0 && !c.makes(a.Height, n) {
			return false
		}
	}
	return true
}

// Most designs of one division that are estimated, and that are kept.
const (
	mostLists    = 260
	mostEstimate = 70000
	keepDesigns  = 10
	keepField    = 30
	mostLooks    = 20000 // designs of one division that are looked at for one that is neither unseen nor struck
)

// designs are the best designs of a division by estimate that the furniture
// can build, best first.
func (s *Search) designs(dv *division, others bool) []*design {
	c := s.context
	floor, ok := c.floorHeight(dv)
	if !ok {
		return nil
	}
	var all []*design
	if dv.base == nil {
		z := floor + dv.sites[0].kind.Thick
		all = s.joint(dv, floor, nil, z, others)
	} else {
		heights := c.heightsFor(len(dv.base.lines), dv.base.kind.Bow, others)
		for _, base := range combinations(heights, dv.bases-1, 40) {
			z := floor + dv.base.kind.Thick
			for _, h := range base {
				z += h + dv.base.kind.Thick
			}
			all = append(all, s.joint(dv, floor, base, z, others)...)
		}
	}
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].musts != all[j].musts {
			return all[i].musts > all[j].musts
		}
		return all[i].estimate > all[j].estimate
	})
	var kept, unseen, struck []*design
	for i, d := range all {
		if len(kept) >= keepField || i >= 2500 && len(kept) > 0 || i >= mostLooks ||
			d.estimate < 0.85*all[0].estimate && len(kept)+len(unseen)+len(struck) > 0 {
			break
		}
		s.spent++
		d.unseen, d.struck = c.unseenOf(d), c.struck(d) || c.unstaggered(d) > 0
		d.struck = d.struck || s.mustSee && d.unseen > 0
		list := &kept
		switch {
		case d.struck:
			list = &struck
		case d.unseen > 0:
			list = &unseen
		}
		if list != &kept && len(*list) >= keepDesigns {
			continue
		}
		if _, err := c.catalogue.Assign(nil, d.demand(), c.load.Units); err == nil {
			*list = append(*list, d)
		}
	}
	s.field = append(s.field, kept...)
	s.field = append(s.field, unseen[:min(len(unseen), keepDesigns/2)]...)
	if len(kept)+len(unseen) == 0 {
		s.field = append(s.field, struck...)
	}
	out := append(append(kept[:min(len(kept), keepDesigns)], unseen...), struck...)
	sort.SliceStable(out, func(i, j int) bool { return out[i].before(out[j]) })
	return out
}

// blind says whether no order of a design's storeys brings the watched cone
// packs before their spyholes.
func (c *context) blind(d *design) bool {
	if c.watchedPacks() == 0 || len(c.spies) == 0 {
		return false
	}
	o := c.orders(d)
	least := 1e300
	for i, st := range d.division.sites {
		z, heights := o.starts[i], o.sites[i]
		tops := []float64{z}
		for _, h := range heights {
			z += h + st.kind.Thick
			tops = append(tops, z)
		}
		least = min(least, c.sightCost(heights, tops))
	}
	return least > 0
}

// floorHeight is the lowest height of posts under the lowest shelves that
// keeps the plan room over the floor.
func (c *context) floorHeight(dv *division) (float64, bool) {
	n := 0
	if dv.base != nil {
		n = len(dv.base.lines)
	} else {
		for _, s := range dv.sites {
			n += len(s.lines)
		}
	}
	least := c.limits[layout.BottomShelf].Plan
	if c.load.Kiln.FloorElement {
		least *= 2
	}
	made := c.madeHeights(n)
	i := sort.SearchFloat64s(made, least-plane.Tolerance)
	if i == len(made) {
		return 0, false
	}
	return made[i], true
}

// combinations are the multisets of n heights, at most that many, tallest
// first.
func combinations(heights []float64, n, most int) [][]float64 {
	if n == 0 {
		return [][]float64{nil}
	}
	var out [][]float64
	var walk func(from int, chosen []float64)
	walk = func(from int, chosen []float64) {
		if len(out) >= most {
			return
		}
		if len(chosen) == n {
			out = append(out, append([]float64(nil), chosen...))
			return
		}
		for i := from; i < len(heights); i++ {
			walk(i, append(chosen, heights[i]))
		}
	}
	walk(0, nil)
	return out
}

// joint gives every site a list and estimates what the whole holds.
func (s *Search) joint(dv *division, floor float64, base []float64, z float64, others bool) []*design {
	c := s.context
	rated := make([][]list, len(dv.sites))
	for i, st := range dv.sites {
		if st.sibling >= 0 {
			rated[i] = rated[st.sibling]
			continue
		}
		shelves := st.stock
		if dv.base == nil {
			shelves--
		}
		heights := c.heightsFor(len(st.lines), st.kind.Bow, others)
		from := z
		if dv.base == nil {
			from = floor + st.kind.Thick
		}
		rated[i] = s.rate(dv, st, c.lists(from, heights, st, shelves))
	}
	// The number of lists of each site that are combined keeps the work bounded.
	each := mostLists
	for power(each, len(dv.sites)) > mostEstimate && each > 2 {
		each--
	}
	var out []*design
	pick := make([]int, len(dv.sites))
	var walk func(i int)
	walk = func(i int) {
		if i == len(dv.sites) {
			d := &design{division: dv, floor: floor, base: base, lists: make([]list, len(pick))}
			for j, p := range pick {
				d.lists[j] = rated[j][p]
			}
			if d.shelvesFit() && c.postsFit(d) {
				d.musts, d.estimate = s.estimate(d)
				out = append(out, d)
			}
			return
		}
		from := 0
		if sib := dv.sites[i].sibling; sib >= 0 {
			from = pick[sib] // alike sites: the order of their lists means nothing
		}
		for p := from; p < min(each, len(rated[i])); p++ {
			pick[i] = p
			walk(i + 1)
		}
	}
	walk(0)
	if len(dv.sites) > 2 { // alike lists everywhere, beyond the few combined above
		for p := each; p < len(rated[0]); p++ {
			d := &design{division: dv, floor: floor, base: base, lists: make([]list, len(pick))}
			for j := range pick {
				d.lists[j] = rated[j][min(p, len(rated[j])-1)]
			}
			if d.shelvesFit() && c.postsFit(d) {
				d.musts, d.estimate = s.estimate(d)
				out = append(out, d)
			}
		}
	}
	s.spent += int64(len(out) / 50)
	return out
}

func power(b, e int) int {
	p := 1
	for ; e > 0; e-- {
		p *= b
		if p > 1<<30 {
			return p
		}
	}
	return p
}

// rate sorts a site's lists by what one such tower alone would hold.
func (s *Search) rate(dv *division, st *site, lists []list) []list {
	type rated struct {
		list  list
		value float64
	}
	alone := &division{name: dv.name, base: dv.base, bases: dv.bases, sites: []*site{st}}
	all := make([]rated, len(lists))
	for i, l := range lists {
		d := &design{division: alone, lists: []list{l}}
		musts, value := s.estimate(d)
		all[i] = rated{l, value + float64(10*musts)}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].value > all[j].value })
	s.spent += int64(len(all) / 50)
	out := make([]list, 0, min(len(all), 4*mostLists))
	for i := 0; i < len(all) && i < 4*mostLists; i++ {
		out = append(out, all[i].list)
	}
	return out
}
