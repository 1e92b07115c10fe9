package planner

import (
	"sort"

	"threepost/geometry/plane"
)

// Figures of opened, found by looking at levels on paper.
const (
	openPocket = 150.0 // mm across: a smaller pocket is none that an eye minds
	lessPocket = 12.0  // mm that a change has to take from the larger pocket
	openWork   = 12000 // units after which no further change is tried
	apartWork  = 400   // units for drawing one level apart
	pocketStep = 12.0  // mm of the lattice on which pockets are looked for
)

// opened is a candidate in which a level with a large pocket takes pots of one
// that is fuller, where that scatters no row more: room is of more use to all
// than to one level.
func (s *Search) opened(c *candidate) *candidate {
	if len(c.frame.storeys) > mostBits {
		return c
	}
	until := s.spent + openWork
	bar := s.tightest(c.frame)
	failed := map[gathering]bool{}
	for s.spent < until {
		next := s.opening(c, bar, until, failed)
		if next == nil {
			return c
		}
		c = next
	}
	return c
}

// opening is a candidate after the first change that makes a pocket smaller, or
// nil.
func (s *Search) opening(c *candidate, bar float64, until int64, failed map[gathering]bool) *candidate {
	pockets := make([]float64, len(c.frame.storeys))
	order := make([]int, len(pockets))
	for i, st := range c.frame.storeys {
		pockets[i], order[i] = s.pocketApart(st, i), i
	}
	sort.SliceStable(order, func(a, b int) bool { return pockets[order[a]] > pockets[order[b]] })
	for _, j := range order {
		if pockets[j] < openPocket {
			break
		}
		for _, g := range s.openings(c.frame, j, pockets) {
			if failed[g] {
				continue
			}
			if s.spent >= until {
				return nil
			}
			failed[g] = true
			if now := s.openBy(c, g, bar, pockets); now != nil {
				return now
			}
		}
	}
	return nil
}

// openings are the changes that would fill a storey's pocket with pots of
// fuller ones, the fullest first.
func (s *Search) openings(f *frame, j int, pockets []float64) []gathering {
	m := s.measured(f)
	type rated struct {
		gathering
		scatter int
		share   float64
	}
	var all []rated
	for i, st := range f.storeys {
		if i == j || st.sealed || pockets[i] > pockets[j]-lessPocket {
			continue
		}
		for k, kd := range s.context.kinds {
			n := m.tally[i][k]
			if kd.cones != nil || n == 0 || n == len(st.set) || !s.context.takes(f.storeys[j], k) || s.acrossOf(k) > pockets[j] {
				continue
			}
			for _, amount := range []int{n, (n + 1) / 2, n / 4} {
				if amount == 0 {
					continue
				}
				g := gathering{kind: k, from: 1 << i, to: j, back: -1, amount: amount}
				if more := m.moved(k, i, j, amount); more <= 0 {
					all = append(all, rated{g, more, s.coverOf(st)})
				}
			}
		}
	}
	sort.SliceStable(all, func(a, b int) bool {
		if all[a].scatter != all[b].scatter {
			return all[a].scatter < all[b].scatter
		}
		return all[a].share > all[b].share+1e-9
	})
	out := make([]gathering, len(all))
	for i := range all {
		out[i] = all[i].gathering
	}
	return out
}

// coverOf is the share of a storey's shelf that its pots take, half a gap round
// each.
func (s *Search) coverOf(st *storey) float64 {
	sum := 0.0
	for _, p := range st.set {
		sum += s.ground(p.kind)
	}
	return sum / max(st.site.area(), 1)
}

// openBy is a candidate after one change if the larger of the two pockets is
// smaller then and nothing else worse.
func (s *Search) openBy(c *candidate, g gathering, bar float64, pockets []float64) *candidate {
	f := c.frame.clone()
	i := 0
	for g.from>>i&1 == 0 {
		i++
	}
	from, to := f.storeys[i], f.storeys[g.to]
	if drop(from, g.kind, g.amount) != g.amount || s.admit(to, g.kind, g.amount) != g.amount || !s.eased(to, bar) {
		return nil
	}
	if max(s.pocketApart(from, i), s.pocketApart(to, g.to)) > max(pockets[i], pockets[g.to])-lessPocket {
		return nil
	}
	if now := s.verify(f); asGood(now, c) && s.asWellPlaced(now.frame, c.frame) {
		return now
	}
	return nil
}

// pocketApart is the pocket of a storey once its pots are drawn apart.
func (s *Search) pocketApart(st *storey, i int) float64 {
	wide := s.pocket(st)
	if wide < openPocket || st.sealed || len(st.set) == 0 {
		return wide
	}
	apart := *st
	s.spreadStorey(&apart, apartWork, uint64(i))
	return min(wide, s.pocket(&apart))
}

// pocket is how wide a disc would still stand on a storey, clear of pots, posts
// and the shelf's edge, mm across, to a lattice's width.
func (s *Search) pocket(st *storey) float64 {
	type blocked struct {
		skeleton plane.Skeleton
		radius   float64
		middle   plane.Vec
		far      float64
	}
	var all []blocked
	add := func(k plane.Skeleton, r float64) {
		low, up := k.Bounds()
		b := blocked{skeleton: k, radius: r, middle: plane.Lerp(low, up, 0.5)}
		for _, v := range k {
			b.far = max(b.far, plane.Distance(v, b.middle)+r)
		}
		all = append(all, b)
	}
	for _, set := range [][]placed{st.fixed, st.set} {
		for _, p := range set {
			for _, part := range s.context.kinds[p.kind].body.Solid.Parts {
				add(part.Skeleton.At(plane.Pose{At: p.at, Turn: p.turn}), part.Profile.Max())
			}
		}
	}
	for _, p := range st.posts {
		k, r := sectionSkeleton(p.section)
		add(k.At(plane.Pose{At: p.at, Turn: p.turn}), r)
	}
	widest := 0.0
	for _, o := range append([]plane.Outline{st.site.outline}, st.site.beside...) {
		low, up := o.Bounds()
		for x := low[0]; x <= up[0]; x += pocketStep {
			for y := low[1]; y <= up[1]; y += pocketStep {
				at := plane.Vec{x, y}
				r := o.Depth(at)
				for i := 0; i < len(all) && r > widest; i++ {
					b := &all[i]
					if plane.Distance(at, b.middle)-b.far >= r {
						continue
					}
					d, _, _ := plane.SignedDistance(plane.Skeleton{at}, b.skeleton)
					r = min(r, d-b.radius)
				}
				widest = max(widest, r)
			}
		}
	}
	return 2 * widest
}
