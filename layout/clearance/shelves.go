package clearance

import (
	"math"

	"threepost/geometry/nearby"
	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/order"
)

// shelves judges every shelf against the kiln and against the others.
func (r *run) shelves() {
	for i := range r.b.Shelves {
		r.shelfInside(i)
		r.grips(i)
		r.sound(i)
		r.overFloor(i)
		for k := range r.b.Probes {
			r.shelfProbe(i, k)
		}
		for j := i + 1; j < len(r.b.Shelves); j++ {
			r.shelfToShelf(i, j)
		}
		for j := range r.b.Posts {
			r.shelfToPost(i, j)
		}
	}
}

func (r *run) shelfInside(i int) {
	s, n := &r.b.Shelves[i], r.names
	l := r.b.Load.Limits(layout.ShelfToWall)
	gap, where := insideBy(s.Outline, r.b.Chamber)
	grade, bad := under(gap, l)
	switch {
	case gap < -tol:
		r.add(layout.InsideKiln, layout.Problem, sentence(n.shelf(i))+" does not go in: it reaches "+r.upUnit(-gap)+" into the wall.",
			against(gap, layout.Problem, l, at(where, s.Top)), []layout.Thing{n.shelfThing(i), {Kind: layout.ThingWall}}, n.shelfLabel(i), "wall")
	case bad:
		say := ". Plan " + r.up(l.Plan) + "."
		if grade == layout.Problem {
			say = ". Under " + r.up(l.Problem) + " it may jam when it grows."
		}
		lies := " lies " + r.downUnit(gap) + " from the wall"
		if r.down(gap) == "0" {
			lies = " touches the wall"
		}
		r.add(layout.ShelfToWall, grade, sentence(n.shelf(i))+lies+say,
			against(gap, grade, l, at(where, s.Top)), []layout.Thing{n.shelfThing(i), {Kind: layout.ThingWall}}, n.shelfLabel(i))
	}
	if over := s.Top - r.b.Height; over > tol {
		r.add(layout.InsideKiln, layout.Problem, sentence(n.shelf(i))+" lies "+r.upUnit(over)+" too high: the "+r.lidWord()+" stays open.",
			measured{have: -over, at: at(s.At, s.Top)}, []layout.Thing{n.shelfThing(i), {Kind: layout.ThingLid}}, n.shelfLabel(i), "lid")
	}
}

// grips judges whether hands fit between shelf and wall at two opposite
// places.
func (r *run) grips(i int) {
	s, n := &r.b.Shelves[i], r.names
	l := r.b.Load.Limits(layout.GripRoom)
	inside, _ := insideBy(s.Outline, r.b.Chamber)
	if inside >= worst(l)-tol || inside < -tol || r.sidesFit(s.Outline, worst(l)) {
		return // room all round or at two sides, or it does not go in at all
	}
	g := order.GripsOn(r.b, i)
	grade, bad := under(g.Room, l)
	if !bad {
		return
	}
	where := at(s.At, s.Top)
	if len(g.Hold) > 0 {
		where = at(g.Hold[0].At, s.Top)
	}
	r.add(layout.GripRoom, grade, sentence(n.shelf(i))+" leaves no room for two hands: "+r.down(math.Max(0, g.Room))+" to the wall at its best two places, plan "+r.up(l.Plan)+".",
		against(g.Room, grade, l, where), []layout.Thing{n.shelfThing(i), {Kind: layout.ThingWall}}, n.shelfLabel(i))
}

// gripWide is how wide a place for a hand is, mm, as package order has it.
const gripWide = 80

// sidesFit tells whether two straight sides across from each other have room
// for a hand at their middles. It is the short way for rectangles: depth in the
// chamber is concave along a straight, so it is least at the ends of the place.
func (r *run) sidesFit(o plane.Outline, need float64) bool {
	var fit []plane.Vec // unit outward normals of sides with room
	center := o.Centroid()
	for _, e := range o.Edges() {
		long := plane.Distance(e.From, e.To)
		if e.Kind == plane.Arc || long < gripWide {
			continue
		}
		mid, half := plane.Lerp(e.From, e.To, 0.5), plane.Scale(plane.Unit(plane.Sub(e.To, e.From)), gripWide/2)
		out := plane.Unit(plane.Sub(mid, center))
		if math.Min(r.b.Chamber.Depth(plane.Add(mid, half)), r.b.Chamber.Depth(plane.Sub(mid, half))) < need-tol {
			continue
		}
		for _, u := range fit {
			if plane.Dot(u, out) < -1+1e-9 {
				return true
			}
		}
		fit = append(fit, out)
	}
	return false
}

// sound tells a cracked or damp shelf.
func (r *run) sound(i int) {
	s, n := &r.b.Shelves[i], r.names
	if s.Kind == nil {
		return
	}
	say := ""
	switch {
	case s.Kind.Cracked:
		say = " is cracked. It breaks in the firing: leave it out."
	case s.Kind.Damp:
		say = " is damp. Damp shelves crack or burst: dry it first."
	default:
		return
	}
	r.add(layout.SoundShelf, layout.Problem, sentence(n.shelf(i))+say, measured{at: at(s.Outline.Centroid(), s.Top)}, []layout.Thing{n.shelfThing(i)}, n.shelfLabel(i))
}

// overFloor judges the room under the lowest shelves.
func (r *run) overFloor(i int) {
	s, n := &r.b.Shelves[i], r.names
	v := &r.b.Levels[s.Level]
	if v.Number != 1 || len(r.b.Towers[v.Tower].On) > 0 {
		return
	}
	l := r.b.Load.Limits(layout.BottomShelf)
	over := ""
	if r.b.Load.Kiln.FloorElement {
		l.Problem, l.Watch, l.Plan = 2*l.Problem, 2*l.Watch, 2*l.Plan
		over = " over a floor element or vent"
	}
	grade, bad := under(s.Bottom, l)
	if !bad {
		return
	}
	lies := " lies " + r.downUnit(s.Bottom) + " over the floor"
	if r.down(s.Bottom) == "0" {
		lies = " lies on the floor"
	}
	r.add(layout.BottomShelf, grade, sentence(n.shelf(i))+lies+". Plan "+r.up(l.Plan)+over+".",
		against(s.Bottom, grade, l, at(s.Outline.Centroid(), s.Bottom)), []layout.Thing{n.shelfThing(i), {Kind: layout.ThingFloor}}, n.shelfLabel(i))
}

// probeLevelReach is how near in plan a shelf at a probe's height must come
// for the two to be "level" with each other, mm: a shelf on the other side of
// the kiln does not shade the probe.
const probeLevelReach = 100

func (r *run) shelfProbe(i, k int) {
	s, q, n := &r.b.Shelves[i], &r.b.Probes[k], r.names
	l := r.lim.probe
	lo, hi := q.Solid.Min[2], q.Solid.Max[2]
	level := s.Bottom < hi-tol && s.Top > lo+tol
	if !level && (s.Bottom-hi >= worst(l) || lo-s.Top >= worst(l)) {
		return
	}
	gap := solid.GapToSlab(&q.Solid, s.Outline, s.Bottom, s.Top)
	where := at(q.Tip, q.Kiln.Height)
	things := []layout.Thing{n.shelfThing(i), n.probeThing(k)}
	grade, bad := under(gap, l)
	switch {
	case bad:
		r.add(layout.ToProbe, grade, r.sayShelfProbe(i, k, gap, grade, l), against(gap, grade, l, where), things, n.shelfLabel(i), n.probeLabel(k))
	case level && gap < probeLevelReach-tol:
		r.add(layout.ProbeLevel, layout.Watch, sentence(n.shelf(i))+" lies level with "+n.probe(k)+", which then reads the shelf. Put it above or below.",
			measured{have: gap, plan: l.Plan, at: where}, things, n.shelfLabel(i), n.probeLabel(k))
	}
}

func (r *run) sayShelfProbe(i, k int, gap float64, g layout.Grade, l layout.Limits) string {
	s, q, n := &r.b.Shelves[i], &r.b.Probes[k], r.names
	where := " beside "
	switch {
	case s.Top <= q.Solid.Min[2]+tol:
		where = " under "
	case s.Bottom >= q.Solid.Max[2]-tol:
		where = " over "
	}
	lies := sentence(n.shelf(i)) + " lies " + r.down(gap) + where + n.probe(k)
	switch {
	case gap < tol:
		return sentence(n.shelf(i)) + " hits " + n.probe(k) + "."
	case g == layout.Problem:
		return lies + ". Under " + r.up(l.Problem) + " it may be knocked."
	}
	return lies + ". Plan " + r.up(l.Plan) + "."
}

// shelfToShelf judges shelves that lie beside each other.
func (r *run) shelfToShelf(i, j int) {
	s, t, n := &r.b.Shelves[i], &r.b.Shelves[j], r.names
	l := r.b.Load.Limits(layout.ShelfToShelf)
	rise := math.Max(s.Bottom-t.Top, t.Bottom-s.Top)
	if rise >= worst(l) || plansApart(s.Outline, t.Outline) >= worst(l) {
		return
	}
	gap, where := outlinesApart(s.Outline, t.Outline)
	if rise > -tol && gap < tol {
		return // one lies over the other; what stands between is judged as posts and pots
	}
	if rise > 0 && gap > 0 {
		gap = plane.Hypot(gap, rise)
	}
	grade, bad := under(gap, l)
	if !bad {
		return
	}
	say := " lies " + r.downUnit(gap) + " from " + n.shelf(j) + ". Plan " + r.up(l.Plan) + "."
	switch {
	case gap < -tol:
		say = " overlaps " + n.shelf(j) + " by " + r.upUnit(-gap) + "."
	case r.down(gap) == "0":
		say = " touches " + n.shelf(j) + ". Plan " + r.up(l.Plan) + "."
	}
	r.add(layout.ShelfToShelf, grade, sentence(n.shelf(i))+say, against(gap, grade, l, at(where, math.Max(s.Top, t.Top))),
		[]layout.Thing{n.shelfThing(i), n.shelfThing(j)}, sorted(n.shelfLabel(i), n.shelfLabel(j))...)
}

// plansApart is a lower bound of the distance of two outlines.
func plansApart(a, b plane.Outline) float64 {
	alo, ahi := a.Bounds()
	blo, bhi := b.Bounds()
	dx := math.Max(0, math.Max(alo[0]-bhi[0], blo[0]-ahi[0]))
	dy := math.Max(0, math.Max(alo[1]-bhi[1], blo[1]-ahi[1]))
	return plane.Hypot(dx, dy)
}

// shelfToPost tells a post that goes through another tower's shelf.
func (r *run) shelfToPost(i, j int) {
	s, p, n := &r.b.Shelves[i], &r.b.Posts[j], r.names
	if p.Top <= s.Bottom+tol || p.Bottom >= s.Top-tol {
		return
	}
	lo, hi := s.Solid.Min, s.Solid.Max
	if apart(boxOf(&p.Solid), nearby.Box{Min: lo, Max: hi}) > 0 {
		return
	}
	gap := solid.GapToSlab(&p.Solid, s.Outline, s.Bottom, s.Top)
	if gap >= -tol {
		return
	}
	r.add(layout.TowerFooting, layout.Problem, sentence(n.post(j))+" goes through "+n.shelf(i)+".",
		measured{have: gap, at: at(p.At, s.Top)}, []layout.Thing{n.postThing(j), n.shelfThing(i)}, n.postLabel(j), n.shelfLabel(i))
}
