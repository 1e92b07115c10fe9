package planner

import (
	"sort"

	"threepost/geometry/plane"
	"threepost/layout"
)

// stackOf is one side of a plan that stands on the floor: its storeys from the
// lowest, the topmost apart since it has no posts of its own.
type stackOf struct {
	storeys []int // into the frame, but for the topmost
	top     int
}

// sidesEvened is a candidate whose sides are stacked to about one height and
// carry about one mass: storeys change sides, with their posts and pots. Where
// all is full there is nothing to even out.
func (s *Search) sidesEvened(c *candidate) *candidate {
	d := c.frame.design
	if d.division.base != nil || len(d.division.sites) < 2 {
		return c
	}
	for _, x := range d.division.sites[1:] {
		if _, ok := motion(d.division.sites[0], x); !ok {
			return c
		}
	}
	stacks := stacksOf(c.frame)
	if stacks == nil {
		return c
	}
	bar := s.lopsided(c.frame, stacks) - worthMoving
	for _, next := range s.nearlyEven(c.frame, s.even(c.frame, stacks), bar) {
		now := s.restacked(c.frame, next)
		if now == nil {
			continue
		}
		w := &walk{at: now, best: now}
		for again := 0; !asGood(w.best, c) && again < restackRounds; again++ {
			s.step(w)
		}
		if asGood(w.best, c) {
			return w.best
		}
	}
	return c
}

// restackings is how many ways to even out the sides are packed at most.
const restackings = 4

// restackRounds is how often a restacked plan that lacks a pot is packed on.
const restackRounds = 24

// worthMoving is how much less lopsided a plan has to become for its storeys to
// change sides: a twentieth of the kiln's height or of the ware's mass.
const worthMoving = 0.05

// stacksOf are the sides of a frame, or nil where one has no storey.
func stacksOf(f *frame) []stackOf {
	out := make([]stackOf, len(f.design.division.sites))
	for j, x := range f.design.division.sites {
		var at []int
		for i, st := range f.storeys {
			if st.site == x {
				at = append(at, i)
			}
		}
		if len(at) == 0 || len(at) != len(f.design.lists[j].heights)+1 {
			return nil
		}
		sort.SliceStable(at, func(a, b int) bool { return f.storeys[at[a]].top < f.storeys[at[b]].top })
		out[j] = stackOf{at[:len(at)-1], at[len(at)-1]}
	}
	return out
}

// risesOf is how much a storey lifts what stands on it: its posts and a shelf.
func (s *Search) risesOf(st *storey) float64 {
	return st.zones[0].takes + s.context.room + st.site.kind.Bow + st.site.kind.Thick
}

// lopsided is the range of the sides' heights over the kiln's, plus the range
// of their masses over that of all; much where a topmost storey has no room.
func (s *Search) lopsided(f *frame, stacks []stackOf) float64 {
	var low, high, light, heavy, whole float64
	for j, k := range stacks {
		mass, _ := s.heft(f.storeys[k.top])
		z := f.design.floor + f.storeys[k.top].site.kind.Thick
		for _, i := range k.storeys {
			m, _ := s.heft(f.storeys[i])
			mass += m
			z += s.risesOf(f.storeys[i])
		}
		tall := 0.0
		for _, set := range [][]placed{f.storeys[k.top].set, f.storeys[k.top].fixed} {
			for _, p := range set {
				tall = max(tall, s.context.kinds[p.kind].body.Height)
			}
		}
		if z+tall > s.lidAt()+plane.Tolerance {
			return 1e9
		}
		whole += mass
		if j == 0 {
			low, high, light, heavy = z, z, mass, mass
			continue
		}
		low, high, light, heavy = min(low, z), max(high, z), min(light, mass), max(heavy, mass)
	}
	return (high-low)/s.context.load.Kiln.Height + (heavy-light)/max(whole, 1e-9)
}

// lidAt is how high ware may reach.
func (s *Search) lidAt() float64 {
	return s.context.load.Kiln.Height - s.context.limits[layout.RoomToLid].Plan
}

// even moves and swaps storeys between the sides while they become less
// lopsided.
func (s *Search) even(f *frame, stacks []stackOf) []stackOf {
	const steps = 60
	now := s.lopsided(f, stacks)
	for range steps {
		var best []stackOf
		for _, next := range neighbours(stacks) {
			if c := s.lopsided(f, next); c < now-1e-9 {
				best, now = next, c
			}
		}
		if best == nil {
			break
		}
		stacks = best
	}
	return stacks
}

// neighbours are the stacks after one storey has changed sides, two have
// changed places, or two topmost ones have.
func neighbours(stacks []stackOf) [][]stackOf {
	var out [][]stackOf
	with := func(a, b int, x, y stackOf) {
		next := append([]stackOf(nil), stacks...)
		next[a], next[b] = x, y
		out = append(out, next)
	}
	for a, x := range stacks {
		for b, y := range stacks {
			if a == b {
				continue
			}
			for i, st := range x.storeys {
				rest := append(append([]int(nil), x.storeys[:i]...), x.storeys[i+1:]...)
				with(a, b, stackOf{rest, x.top}, stackOf{append(append([]int(nil), y.storeys...), st), y.top})
				for k := range y.storeys {
					if a < b {
						here, there := append([]int(nil), x.storeys...), append([]int(nil), y.storeys...)
						here[i], there[k] = there[k], here[i]
						with(a, b, stackOf{here, x.top}, stackOf{there, y.top})
					}
				}
			}
			if a < b {
				with(a, b, stackOf{x.storeys, y.top}, stackOf{y.storeys, x.top})
			}
		}
	}
	return out
}

// nearlyEven are stacks that are less lopsided than bar and whose shelves some
// order keeps off the probes: those given, then those one change from them, the
// least lopsided first.
func (s *Search) nearlyEven(f *frame, stacks []stackOf, bar float64) [][]stackOf {
	const looks = 40
	type rated struct {
		stacks []stackOf
		cost   float64
	}
	all := []rated{{stacks, s.lopsided(f, stacks)}}
	for _, next := range neighbours(stacks) {
		all = append(all, rated{next, s.lopsided(f, next)})
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].cost < all[j].cost })
	var out [][]stackOf
	for _, r := range all[:min(len(all), looks)] {
		if r.cost > bar || len(out) == restackings {
			break
		}
		if s.offProbes(f, r.stacks) {
			out = append(out, r.stacks)
		}
	}
	return out
}

// offProbes says whether every stack has an order in which its shelves keep off
// the probes.
func (s *Search) offProbes(f *frame, stacks []stackOf) bool {
	for j, k := range stacks {
		x := f.design.division.sites[j]
		var heights []float64
		for _, i := range k.storeys {
			heights = append(heights, s.risesOf(f.storeys[i])-x.kind.Thick)
		}
		z := f.design.floor + x.kind.Thick
		if s.context.strikes(x, z, s.context.arrange(heights, x, z, true)) {
			return false
		}
	}
	return true
}

// restacked is a frame with its storeys on the sides that the stacks say, their
// pots carried along, checked; nil where that cannot be built.
func (s *Search) restacked(f *frame, stacks []stackOf) *candidate {
	d := *f.design
	d.way = way{}
	d.lists = nil
	for j, k := range stacks {
		var heights []float64
		rest := s.context.load.Kiln.Height - d.floor - d.division.sites[j].kind.Thick
		for _, i := range k.storeys {
			rise := s.risesOf(f.storeys[i])
			heights = append(heights, rise-f.storeys[i].site.kind.Thick)
			rest -= rise
		}
		sort.Sort(sort.Reverse(sort.Float64Slice(heights)))
		d.lists = append(d.lists, list{heights: heights, rest: rest})
	}
	g, err := s.erect(&d)
	if err != nil {
		return nil
	}
	s.placePacks(g, d.loose)
	now := stacksOf(g)
	if now == nil {
		return nil
	}
	var failed []int
	settle := func(from, to int) bool {
		set, ok := carried(f.storeys[from].set, f.storeys[from].site, g.storeys[to].site)
		if !ok {
			return false
		}
		if set, ok = s.settled(g.storeys[to], set); !ok {
			failed = append(failed, to)
			return true
		}
		g.storeys[to].set = set
		return true
	}
	for j, k := range stacks {
		used := make([]bool, len(k.storeys))
		for _, to := range now[j].storeys { // from the lowest; of alike ones the heaviest first
			pick, most := -1, -1.0
			for n, i := range k.storeys {
				if used[n] || abs(f.storeys[i].zones[0].takes-g.storeys[to].zones[0].takes) > 1e-6 {
					continue
				}
				if mass, _ := s.heft(f.storeys[i]); mass > most {
					pick, most = n, mass
				}
			}
			if pick < 0 {
				return nil
			}
			used[pick] = true
			if !settle(k.storeys[pick], to) {
				return nil
			}
		}
		if !settle(k.top, now[j].top) {
			return nil
		}
	}
	left := s.restOf(g)
	for _, to := range failed {
		s.topUp(g.storeys[to], left, finishWork, 11)
	}
	if len(failed) > 0 {
		for i, st := range g.storeys {
			s.topUp(st, left, finishWork, 12+uint64(i))
		}
	}
	return s.verify(g)
}
