package planner

import (
	"fmt"
	"sort"

	"threepost/layout"
	"threepost/layout/packing"
)

// heard is what a frame does about the wishes: which storeys each owner's pots
// keep to.
type heard struct {
	homes map[string][]int // storeys by owner, for owners that are kept together or apart
}

// takes says whether a storey takes a pot of a kind: by its height, and by what
// the wishes keep off it.
func (c *context) takes(st *storey, k int) bool {
	return st.fits(c.kinds[k].body.Height) && (st.bars == nil || !st.bars[k])
}

// takesAll says whether a storey takes all those pots.
func (c *context) takesAll(st *storey, set []placed) bool {
	for _, p := range set {
		if !c.takes(st, p.kind) {
			return false
		}
	}
	return true
}

// owners are those whose pots are kept together or apart, apart ones first.
func (c *context) owners() []string {
	var out []string
	seen := map[string]bool{}
	for _, list := range [][]string{c.load.Wishes.Apart, c.load.Wishes.Together} {
		for _, o := range list {
			if !seen[o] {
				seen[o] = true
				out = append(out, o)
			}
		}
	}
	return out
}

// owns says whether a kind is ware of an owner.
func (k *kind) owns(owner string) bool { return k.ware != nil && k.ware.Owner == owner }

// isApart says whether an owner's pots share no level with others'.
func (c *context) isApart(owner string) bool {
	for _, o := range c.load.Wishes.Apart {
		if o == owner {
			return true
		}
	}
	return false
}

// hear tells each storey of a frame what the wishes keep off it.
func (s *Search) hear(f *frame) {
	c := s.context
	owners := c.owners()
	if len(c.load.Wishes.Off) == 0 && len(owners) == 0 {
		return
	}
	for i, st := range f.storeys {
		st.bars = make([]bool, len(c.kinds))
		n, top := f.number(i), f.underLid(i)
		for _, off := range c.load.Wishes.Off {
			for k, kd := range c.kinds {
				if kd.ware != nil && kd.name == off.Ware && off.Level.Is(n, top) {
					st.bars[k] = true
				}
			}
		}
	}
	f.heard.homes = map[string][]int{}
	dedicated := make([]bool, len(f.storeys))
	for _, o := range owners {
		homes := s.homesOf(f, o, dedicated)
		if len(homes) == 0 {
			if c.isApart(o) {
				s.keepOff(f, o)
			}
			continue
		}
		f.heard.homes[o] = homes
		home := make([]bool, len(f.storeys))
		for _, i := range homes {
			home[i] = true
			dedicated[i] = dedicated[i] || c.isApart(o)
		}
		for i, st := range f.storeys {
			for k, kd := range c.kinds {
				switch {
				case kd.owns(o) && !home[i], kd.ware != nil && !kd.owns(o) && home[i] && c.isApart(o):
					st.bars[k] = true
				}
			}
		}
	}
}

// keepOff keeps what is left of an owner's pots off all storeys: none was found
// that would hold them alone. What must go goes anyway.
func (s *Search) keepOff(f *frame, owner string) {
	for _, st := range f.storeys {
		for k, kd := range s.context.kinds {
			if kd.owns(owner) && !kd.must {
				st.bars[k] = true
			}
		}
	}
}

// number is a storey counted up from the floor, from 1.
func (f *frame) number(i int) int {
	return layout.FromFloor(f.towers, f.at[i].tower, f.at[i].level)
}

// underLid says whether nothing stands over a storey, or not over all of it.
func (f *frame) underLid(i int) bool {
	at := f.at[i]
	if at.level+1 < len(f.towers[at.tower].Levels) {
		return false
	}
	carries := 0
	for t := range f.towers {
		for _, on := range f.towers[t].On {
			if on.Tower == f.towers[at.tower].Name && on.Level == at.level+1 {
				carries++
				break
			}
		}
	}
	return carries < max(1, len(f.storeys[i].zones))
}

// homesOf are the storeys for an owner's pots: those where some stand already,
// then the lowest that holds all that are left; where none does, that which
// holds most, and so on.
func (s *Search) homesOf(f *frame, owner string, dedicated []bool) []int {
	c := s.context
	left := map[int]int{}
	for k, kd := range c.kinds {
		if kd.owns(owner) && len(kd.free) > 0 {
			left[k] = len(kd.free)
		}
	}
	var homes []int
	is := make([]bool, len(f.storeys))
	settle := func(i int, held map[int]int) {
		homes = append(homes, i)
		is[i] = true
		for k, n := range held {
			if left[k] -= n; left[k] <= 0 {
				delete(left, k)
			}
		}
	}
	for i, st := range f.storeys {
		if c.countOn(st, func(k *kind) bool { return k.owns(owner) }) > 0 {
			settle(i, s.held(st, left))
		}
	}
	for len(left) > 0 {
		best := -1
		var most map[int]int
		for i, st := range f.storeys {
			if is[i] || dedicated[i] || st.sealed || c.isApart(owner) && c.countOn(st, func(k *kind) bool { return !k.owns(owner) }) > 0 {
				continue
			}
			held := s.held(st, left)
			if len(held) == 0 {
				continue
			}
			a, b := c.worthOf(held), 0.0
			if best >= 0 {
				b = c.worthOf(most)
			}
			if best < 0 || a > b+1e-9 || a > b-1e-9 && s.room(st) < s.room(f.storeys[best])-1e-9 {
				best, most = i, held
			}
		}
		if best < 0 {
			break
		}
		settle(best, most)
	}
	sort.Ints(homes)
	return homes
}

// room is about what space a storey has, mm3.
func (s *Search) room(st *storey) float64 { return float64(s.freeArea(st) * st.tallest()) }

// worthOf is the value of so many pots of each kind, in the kinds' order.
func (c *context) worthOf(counts map[int]int) float64 {
	sum := 0.0
	for k, kd := range c.kinds {
		sum += float64(float64(counts[k]) * kd.value)
	}
	return sum
}

// held is how many of each kind a storey holds of those wanted, beside what is
// fixed there, after a quick look.
func (s *Search) held(st *storey, wants map[int]int) map[int]int {
	c := s.context
	take := map[int]int{}
	for k, n := range wants {
		if c.takes(st, k) {
			take[k] = n
		}
	}
	if len(take) == 0 {
		return nil
	}
	key := fmt.Sprint(classOf(st), st.site.mark(), st.top, st.posts, st.tubes, st.zones, st.fixed, take)
	if held, ok := s.holds[key]; ok {
		return held
	}
	sp := c.problemOf(st, take, st.fixed)
	held := map[int]int{}
	if res, err := packing.Fill(sp.problem, s.seed, holdWork); err == nil {
		s.spent += res.Work
		for _, p := range s.placedOf(sp, res) {
			held[p.kind]++
		}
	}
	s.holds[key] = held
	return held
}

// holdWork is the work of one look at what a storey holds of an owner's pots.
const holdWork = 150

// unheard counts what in a frame goes against the wishes: pots on a level that
// their row keeps off, levels that an owner shares who would have them alone,
// shelves level with a neighbour's. roams are the levels beyond one that owners'
// pots have who are kept together or apart.
func (s *Search) unheard(f *frame) (n, roams int) {
	c := s.context
	w := &c.load.Wishes
	if len(w.Off) > 0 {
		for i, st := range f.storeys {
			level, top := f.number(i), f.underLid(i)
			for _, off := range w.Off {
				if off.Level.Is(level, top) {
					n += c.countOn(st, func(k *kind) bool { return k.name == off.Ware })
				}
			}
		}
	}
	for _, o := range c.owners() {
		used := 0
		for _, st := range f.storeys {
			if c.countOn(st, func(k *kind) bool { return k.owns(o) }) == 0 {
				continue
			}
			used++
			if c.isApart(o) && c.countOn(st, func(k *kind) bool { return !k.owns(o) }) > 0 {
				n++
			}
		}
		roams += max(0, max(used, len(f.heard.homes[o]))-1)
	}
	if w.Stagger && s.levelShelves(f) > 0 {
		n++
	}
	return n, roams
}

// countOn counts the pots of the ware on a storey that are meant.
func (c *context) countOn(st *storey, is func(*kind) bool) int {
	n := 0
	for _, set := range [][]placed{st.fixed, st.set} {
		for _, p := range set {
			if k := c.kinds[p.kind]; k.ware != nil && is(k) {
				n++
			}
		}
	}
	return n
}

// levelShelves counts the shelves that lie level with one of a tower beside
// theirs, those lowest on the floor aside.
func (s *Search) levelShelves(f *frame) int {
	n := 0
	for i, a := range f.storeys {
		for j := range i {
			b := f.storeys[j]
			if f.at[i].tower == f.at[j].tower || f.number(i) == 1 || f.number(j) == 1 || a.site == nil || b.site == nil ||
				f.stacked(f.at[i].tower, f.at[j].tower) {
				continue
			}
			if abs(a.top-a.site.kind.Thick-b.top+b.site.kind.Thick) < staggerRoom-1e-6 {
				n++
			}
		}
	}
	return n
}

// stacked says whether one tower stands on the other.
func (f *frame) stacked(a, b int) bool {
	for _, x := range [][2]int{{a, b}, {b, a}} {
		for _, on := range f.towers[x[0]].On {
			if on.Tower == f.towers[x[1]].Name {
				return true
			}
		}
	}
	return false
}
