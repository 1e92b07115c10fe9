package planner

import (
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
)

// ground is a storey being planted: what stands there and how far apart things
// are to be. It asks the geometry itself, not the planner's problem.
type ground struct {
	c     *context
	st    *storey
	zone  int         // the one whose height it is planted for
	low   float64     // the tallest body it takes there
	rank  []int       // of each kind: what ranks lower is set first
	need  needTable   // of two kinds' parts
	far   [][]float64 // of two kinds: middles so far apart are surely off each other
	still []fixture
	set   []stander
	moved stander // being tried
}

// fixture is a post, a probe or a line of sight, with its distance from every
// part of every kind.
type fixture struct {
	at   plane.Skeleton
	need [][]float64
}

// needTable is the least distance of the skeletons of two kinds' parts, mm.
type needTable [][][][]float64

// stander is a pot in its place with its skeletons there.
type stander struct {
	kind  int
	at    plane.Vec
	turn  float64
	parts []plane.Skeleton
	foot  plane.Skeleton
}

// groundOf is a bare storey. Kinds are set in the order in which rims reach
// over most neighbours.
func (p planter) groundOf(c *context, st *storey) *ground {
	g := &ground{c: c, st: st, zone: p.rnd.IntN(len(st.zones))}
	g.low = st.zones[g.zone].takes
	best := math.Inf(1)
	for range 12 {
		rank := p.rnd.Perm(len(c.kinds))
		need, sum := g.needs(rank)
		if sum < best-1e-9 {
			best, g.rank, g.need = sum, rank, need
		}
	}
	for a, ka := range c.kinds {
		g.far = append(g.far, make([]float64, len(c.kinds)))
		for b, kb := range c.kinds {
			for _, row := range g.need[a][b] {
				for _, d := range row {
					g.far[a][b] = math.Max(g.far[a][b], d+ka.body.Solid.Reach()+kb.body.Solid.Reach())
				}
			}
		}
	}
	g.fix()
	return g
}

// fix notes the posts that stand on the storey and the probes that reach in.
func (g *ground) fix() {
	for _, at := range g.st.posts {
		sk, r := sectionSkeleton(at.section)
		post := solid.Part{Skeleton: sk.At(plane.Pose{At: at.at, Turn: at.turn}), Profile: solid.Profile{{Z: 0, R: r}, {Z: math.Max(g.low, 1), R: r}}}
		g.keepOff(post.Skeleton, func(part solid.Part) float64 { return solid.Need(part, post, 6, 0) })
	}
	for j := range g.c.probes {
		probe := &g.c.probes[j]
		tube := solid.Part{Skeleton: probe.Skeleton(0), Profile: probe.Body.Parts[0].Profile}
		dz := g.st.top - probe.Base()
		g.keepOff(tube.Skeleton, func(part solid.Part) float64 { // nor is it knocked when a pot is let down
			return math.Max(solid.Need(tube, part, 25, dz), solid.NeedLower(tube, part, dz)+3)
		})
	}
}

// keepOff makes a fixture of what stands at a skeleton.
func (g *ground) keepOff(at plane.Skeleton, need func(solid.Part) float64) {
	f := fixture{at: at}
	for _, kd := range g.c.kinds {
		var row []float64
		for _, part := range kd.body.Solid.Parts {
			row = append(row, need(part))
		}
		f.need = append(f.need, row)
	}
	g.still = append(g.still, f)
}

// takes says whether the storey is high enough for a kind.
func (g *ground) takes(k int) bool { return g.c.kinds[k].body.Height <= g.low+plane.Tolerance }

// needs are the distances of all kinds when they are set in the order of a
// rank, and their sum: the gap, and what lets a hand put one down beside the
// other.
func (g *ground) needs(rank []int) (needTable, float64) {
	kinds := g.c.kinds
	out, sum := make(needTable, len(kinds)), 0.0
	for a := range kinds {
		out[a] = make([][][]float64, len(kinds))
		for b := range kinds {
			gap := 6.0
			if g.st.deep {
				gap = 9
			}
			gap *= math.Max(kinds[a].apart, kinds[b].apart)
			for _, pa := range kinds[a].body.Solid.Parts {
				var row []float64
				for _, pb := range kinds[b].body.Solid.Parts {
					down := solid.NeedLower(pa, pb, 0)
					if rank[b] < rank[a] {
						down = solid.NeedLower(pb, pa, 0)
					}
					d := math.Max(solid.Need(pa, pb, gap, 0), down+3)
					row = append(row, d)
					sum += d
				}
				out[a][b] = append(out[a][b], row)
			}
		}
	}
	return out, sum
}

// standing is a pot of a kind at a place. It is good until the next is asked
// for; kept is for good.
func (g *ground) standing(k int, at plane.Vec, turn float64) *stander {
	body, out := g.c.kinds[k].body, &g.moved
	out.kind, out.at, out.turn = k, at, turn
	pose := plane.Pose{At: at, Turn: turn}
	for len(out.parts) < len(body.Solid.Parts) {
		out.parts = append(out.parts, nil)
	}
	out.parts = out.parts[:len(body.Solid.Parts)]
	for i, part := range body.Solid.Parts {
		out.parts[i] = part.Skeleton.AppendAt(out.parts[i][:0], pose)
	}
	out.foot = body.Foot.AppendAt(out.foot[:0], pose)
	return out
}

// kept is a copy.
func (s *stander) kept() stander {
	out := *s
	out.parts = nil
	for _, sk := range s.parts {
		out.parts = append(out.parts, append(plane.Skeleton(nil), sk...))
	}
	out.foot = append(plane.Skeleton(nil), s.foot...)
	return out
}

// free says whether a pot may stand there.
func (g *ground) free(s *stander) bool {
	return g.inside(s) && g.offFixtures(s) && g.offPots(s)
}

// inside says whether it keeps within shelf, wall and zone.
func (g *ground) inside(s *stander) bool {
	body, site := g.c.kinds[s.kind].body, g.st.site
	rim, wall := 0.0, 25.0
	if site.neighbor && g.st.deep {
		rim = 1.5 // half of the three that deep levels keep more
	}
	if site.neighbor && g.c.kinds[s.kind].apart > 1 {
		rim += 6
	}
	if g.c.kinds[s.kind].cones != nil {
		wall = 50
	}
	within := func(o plane.Outline, sk plane.Skeleton, depth float64) bool {
		for _, v := range sk { // the depth of a convex outline is concave
			if o.Depth(v) < depth-plane.Tolerance {
				return false
			}
		}
		return true
	}
	for i, part := range body.Solid.Parts {
		r := part.Profile.Max()
		if !within(site.outline, s.parts[i], r+rim) || !within(g.c.chamber, s.parts[i], r+wall) {
			return false
		}
		if z := g.st.zones[g.zone].region; !z.Empty() && !within(z, s.parts[i], r) {
			return false
		}
	}
	return within(site.outline, s.foot, body.FootR+6)
}

// offFixtures says whether it keeps off posts, probes and lines of sight.
func (g *ground) offFixtures(s *stander) bool {
	for i := range g.still {
		if !g.offFixture(s, &g.still[i]) {
			return false
		}
	}
	return true
}

func (g *ground) offFixture(s *stander, f *fixture) bool {
	for i, need := range f.need[s.kind] {
		if s.parts[i].Distance(f.at) < need-plane.Tolerance {
			return false
		}
	}
	return true
}

// offPots says whether it keeps off all that stands.
func (g *ground) offPots(s *stander) bool {
	for i := range g.set {
		if !g.off(s, &g.set[i]) {
			return false
		}
	}
	return true
}

// off says whether two pots keep their distances.
func (g *ground) off(s, o *stander) bool {
	if plane.Distance(s.at, o.at) >= g.far[s.kind][o.kind] {
		return true
	}
	need := g.need[s.kind][o.kind]
	for i, a := range s.parts {
		for j, b := range o.parts {
			if a.Distance(b) < need[i][j]-plane.Tolerance {
				return false
			}
		}
	}
	return true
}

// growBest grows a ground so many times and keeps what is worth most.
func (p planter) growBest(g *ground) {
	stood := g.set
	var best []stander
	most := -1.0
	for range p.tries {
		g.set = append([]stander(nil), stood...)
		p.grow(g)
		worth := 0.0
		for i := range g.set {
			worth += g.c.kinds[g.set[i].kind].worth
		}
		if worth > most {
			best, most = g.set, worth
		}
	}
	g.set = best
}

// grow sets pots of two kinds or so, each where it touches another, a post or
// the edge.
func (p planter) grow(g *ground) {
	var kinds []int
	for k, kd := range g.c.kinds {
		if kd.cones == nil && g.takes(k) && (len(kinds) == 0 || p.rnd.IntN(3) > 0) {
			kinds = append(kinds, k)
		}
	}
	area := func(k int) float64 { return planArea(g.c.kinds[k].body) }
	sort.SliceStable(kinds, func(i, j int) bool { return area(kinds[i]) > area(kinds[j]) })
	lean := p.rnd.IntN(2)
	for i, k := range kinds {
		want := 1 + p.rnd.IntN(12)
		if i == len(kinds)-1 {
			want = 60
		}
		p.growKind(g, k, want, lean)
	}
}

// spot is a place where a pot touches something.
type spot struct {
	at   plane.Vec
	turn float64
}

// growKind sets pots of one kind, each at the best place there is: farthest out
// for one leaning, beside most others for the other.
func (p planter) growKind(g *ground, k, want, lean int) {
	step, turns := 4.0, []float64{0}
	if g.c.kinds[k].body.Turns {
		step, turns = 15, []float64{0, 90}
		from := math.Floor(p.rnd.Float64() * 360)
		for i := range 6 {
			turns = append(turns, math.Mod(from+60*float64(i), 360))
		}
	}
	var spots []spot
	around := func(from plane.Vec, most float64, back bool, off func(*stander) bool) {
		for _, turn := range turns {
			for deg := p.rnd.Float64() * step; deg < 360; deg += step {
				at := g.touch(k, turn, from, plane.FromBearing(1, deg), most, back, off)
				if g.free(g.standing(k, at, turn)) {
					spots = append(spots, spot{at, turn})
				}
			}
		}
	}
	beside := func(o *stander) {
		around(o.at, g.far[k][o.kind], false, func(s *stander) bool { return g.off(s, o) })
	}
	around(g.st.site.outline.Centroid(), 1000, true, func(s *stander) bool { return !g.inside(s) })
	for i := range g.still {
		around(g.still[i].at[0], 400, false, func(s *stander) bool { return g.offFixture(s, &g.still[i]) })
	}
	for i := range g.set {
		beside(&g.set[i])
	}
	for ; want > 0 && len(spots) > 0; want-- {
		best, most := 0, math.Inf(-1)
		for i := range spots {
			if like := g.like(k, spots[i].at, lean); like > most {
				best, most = i, like
			}
		}
		one := g.standing(k, spots[best].at, spots[best].turn).kept()
		g.set = append(g.set, one)
		left := spots[:0]
		for _, x := range spots {
			if g.off(g.standing(k, x.at, x.turn), &one) {
				left = append(left, x)
			}
		}
		spots = left
		beside(&one)
	}
}

// like is how good a place is.
func (g *ground) like(k int, at plane.Vec, lean int) float64 {
	if lean == 0 {
		return plane.Distance(at, g.st.site.outline.Centroid())
	}
	sum, r := 0.0, g.c.kinds[k].body.Solid.Parts[0].Profile.Max()
	for i := range g.set {
		sum += math.Max(0, 3*r-plane.Distance(at, g.set[i].at)+g.c.kinds[g.set[i].kind].body.Solid.Parts[0].Profile.Max())
	}
	return sum
}

// touch is the nearest place on the grid along a direction from a point, and at
// most so far, at which a pot is off something there; or just before it.
func (g *ground) touch(k int, turn float64, from, dir plane.Vec, most float64, back bool, off func(*stander) bool) plane.Vec {
	in, out := 0.0, most
	for out-in > 0.1 {
		mid := (in + out) / 2
		if off(g.standing(k, plane.Add(from, plane.Scale(dir, mid)), turn)) {
			out = mid
		} else {
			in = mid
		}
	}
	if out += 0.1; back {
		out = in - 0.1
	}
	at := plane.Add(from, plane.Scale(dir, out))
	return plane.Vec{grid(at[0]), grid(at[1])}
}

// placements are the pots of the ground, numbered on from count.
func (g *ground) placements(count []int) []layout.Placement {
	var out []layout.Placement
	for _, s := range g.set {
		kd := g.c.kinds[s.kind]
		pot := layout.Pot{Ware: kd.name}
		if kd.ware != nil {
			count[s.kind]++
			pot.Number = count[s.kind]
		}
		out = append(out, layout.Placement{Pot: pot, At: s.at, Turn: s.turn})
	}
	return out
}
