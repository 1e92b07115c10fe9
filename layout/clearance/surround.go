package clearance

import (
	"math"

	"threepost/geometry/nearby"
	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/stacks"
)

// surround judges one pot against the kiln: wall, lid, probes, and the shelves
// above and beside it.
func (r *run) surround(i int) {
	p := &r.b.Pots[i]
	r.toWall(i)
	if room := r.b.Height - p.Solid.Max[2]; room < worst(r.lim.lid)-tol {
		r.toLid(i, room)
	}
	for k := range r.b.Probes {
		r.toProbe(i, k)
	}
	for k := range r.b.Shelves {
		if rule, gap, ok := r.toShelf(i, &p.Solid, k); ok {
			r.judgeShelf(i, k, rule, gap)
		}
	}
}

func (r *run) toWall(i int) {
	p := &r.b.Pots[i]
	rule, l := r.wallLimits(i)
	depth := r.b.Chamber.Depth(p.At)
	if depth-r.broad[i] >= worst(l) {
		return
	}
	gap := solid.WallClearance(&p.Solid, r.b.Chamber)
	grade, bad := under(gap, l)
	if gap < -tol {
		rule, grade, bad = layout.InsideKiln, layout.Problem, true
	}
	if !bad {
		return
	}
	_, in := r.b.Chamber.DepthNormal(p.At)
	where := at(plane.Add(p.At, plane.Scale(in, -depth)), p.Z+float64(p.Body.Height/2))
	n := r.names
	s := r.sayGap(i, "the wall", gap, grade, l, "the element may mark it")
	if rule == layout.BlastRoom && gap >= 1 {
		s = sentence(n.pot(i)) + " " + r.stands(i, gap, "the wall") + ". Plan " + r.up(l.Plan) + ", or the element bends them early."
	}
	r.add(rule, grade, s, against(gap, grade, l, where), []layout.Thing{n.potThing(i), {Kind: layout.ThingWall}}, n.potLabel(i), "wall")
}

func (r *run) toProbe(i, k int) {
	p, q := &r.b.Pots[i], &r.b.Probes[k]
	l := r.lim.probe
	if apart(boxOf(&p.Solid), boxOf(&q.Solid)) >= worst(l) || solid.GapAtLeast(&p.Solid, &q.Solid, worst(l)) {
		return
	}
	gap, w := solid.Gap(&p.Solid, &q.Solid)
	grade, bad := under(gap, l)
	if !bad || gap > 0 && r.separated(w) {
		return
	}
	n := r.names
	r.add(layout.ToProbe, grade, r.sayGap(i, n.probe(k), gap, grade, l, "it may be knocked"), against(gap, grade, l, middle(w)),
		[]layout.Thing{n.potThing(i), n.probeThing(k)}, n.potLabel(i), n.probeLabel(k))
}

// toShelf tells which rule holds between a pot, standing as solid s, and a
// shelf, and the gap; false when the shelf is none of its business or far off.
//
// A shelf that hangs over some slice of the pot asks for room above; one
// beside it, another tower's, asks for a gap to its edge.
func (c *Checker) toShelf(i int, s *solid.Placed, k int) (layout.RuleName, float64, bool) {
	p, q := &c.b.Pots[i], &c.b.Shelves[k]
	widest := math.Max(worst(c.lim.above), worst(c.lim.post))
	bottom := q.Bottom - bowOf(q)
	if q.Level == p.Level || bottom-s.Max[2] >= widest || q.Top <= s.Base()+tol {
		return "", 0, false
	}
	lo, hi := q.Solid.Min, q.Solid.Max
	lo[2], hi[2] = bottom, q.Top
	if apart(boxOf(s), nearby.Box{Min: lo, Max: hi}) >= widest {
		return "", 0, false
	}
	rule := layout.PotToPost
	if under := overlapsPlan(s, q.Outline); under && (c.hangsOver(p.Level, q.Level) || q.Bottom >= s.Max[2]-tol) {
		rule = layout.RoomAbove
	}
	return rule, solid.GapToSlab(s, q.Outline, bottom, q.Top), true
}

// hangsOver tells whether a level's shelves hang directly over another level.
func (c *Checker) hangsOver(level, up int) bool {
	if level < 0 {
		return false
	}
	for _, a := range c.b.Levels[level].Above {
		if a == up {
			return true
		}
	}
	return false
}

// bowOf is how far the middle of a shelf may hang under its posts' plane, mm.
func bowOf(s *stacks.Shelf) float64 {
	if s.Kind == nil {
		return 0
	}
	return math.Abs(s.Kind.Bow)
}

// overlapsPlan tells whether any slice of the solid lies under or over the
// outline.
func overlapsPlan(s *solid.Placed, o plane.Outline) bool {
	for i := range s.Body.Parts {
		if o.Distance(s.Skeleton(i)) < s.Body.Parts[i].Profile.Max()-tol {
			return true
		}
	}
	return false
}

func (r *run) judgeShelf(i, k int, rule layout.RuleName, gap float64) {
	l := r.lim.post
	if rule == layout.RoomAbove {
		l = r.lim.above
	}
	grade, bad := under(gap, l)
	if !bad {
		return
	}
	if rule == layout.RoomAbove {
		r.collectRoom(i, k, rule, gap, grade)
		return
	}
	p, n := &r.b.Pots[i], r.names
	edge := r.b.Shelves[k].Outline.NearestEdge(p.At)
	what := n.shelf(k) + " beside it"
	r.add(layout.PotToPost, grade, r.sayGap(i, what, gap, grade, l, "they may fuse"),
		against(gap, grade, l, at(edge, r.b.Shelves[k].Top)),
		[]layout.Thing{n.potThing(i), n.shelfThing(k)}, n.potLabel(i), n.shelfLabel(k))
}
