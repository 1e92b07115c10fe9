package clearance

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/nearby"
	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// A watched cone must be seen along a tube of sightTube radius, at most
// sightAngle degrees off the spyhole's axis: what a 19 mm hole through 76 mm
// of brick leaves.
const (
	sightTube  = 5
	sightAngle = 14
)

// view is what one spyhole sees of a cone pack.
type view struct {
	spy     int
	clear   bool
	off     bool    // beyond the hole's angle
	margin  float64 // mm of room round the tube
	blocker layout.Thing
	name    string
}

// Unseen names the watched cone packs that no spyhole shows, in the order in
// which they are built: what Check finds by the rule InSight, accepted or not.
func (c *Checker) Unseen() []string {
	r := &run{Checker: c}
	r.sights()
	var out []string
	for i := range r.found {
		for _, t := range r.found[i].Things {
			if t.Kind == layout.ThingCones {
				out = append(out, t.Name)
				break
			}
		}
	}
	return out
}

// sights judges that watched cones can be seen.
func (r *run) sights() {
	for i := range r.b.Pots {
		p := &r.b.Pots[i]
		if p.Cones == nil || !p.Cones.Watched {
			continue
		}
		r.sight(i)
	}
}

func (r *run) sight(i int) {
	p, n := &r.b.Pots[i], r.names
	best, any := view{}, false
	for k := range r.b.Spies {
		if p.Cones.Spyhole > 0 && p.Cones.Spyhole != k+1 {
			continue
		}
		v := r.look(i, k)
		if v.clear {
			return
		}
		if !any || best.off && !v.off || best.off == v.off && v.margin > best.margin {
			best, any = v, true
		}
	}
	m := measured{have: best.margin, at: at(p.At, p.Solid.Max[2])}
	things := []layout.Thing{n.potThing(i)}
	say := sentence(n.pot(i)) + " cannot be seen: the kiln has no spyhole."
	if any {
		hole := "the hole at " + measure.ShortClock(r.b.Spies[best.spy].Kiln.At)
		say = sentence(n.pot(i)) + " cannot be seen from " + hole + ": " + best.name + " hides them."
		if best.off {
			say = sentence(n.pot(i)) + " cannot be seen from " + hole + ": they stand too far off its line."
		}
		things = append(things, layout.Thing{Kind: layout.ThingSpy, Name: itoa(best.spy + 1)})
		if best.name != "" {
			things = append(things, best.blocker)
		}
	} else if p.Cones.Spyhole > 0 {
		say = sentence(n.pot(i)) + " cannot be seen: the kiln has no spyhole " + itoa(p.Cones.Spyhole) + "."
	}
	r.add(layout.InSight, layout.Watch, say, m, things, n.potLabel(i))
}

// look tells how a spyhole sees the tip of a cone pack.
func (r *run) look(i, k int) view {
	p, s := &r.b.Pots[i], &r.b.Spies[k]
	from := mgl64.Vec3{s.Mouth[0], s.Mouth[1], s.Height}
	to := mgl64.Vec3{p.At[0], p.At[1], p.Solid.Max[2]}
	v := view{spy: k}
	if !withinAngle(s, to) {
		v.off = true
		return v
	}
	var bodies []*solid.Placed
	var who []func() (layout.Thing, string)
	box := tubeBox(from, to)
	take := func(q *solid.Placed, say func() (layout.Thing, string)) {
		if apart(box, boxOf(q)) <= 0 {
			bodies, who = append(bodies, q), append(who, say)
		}
	}
	n := r.names
	for j := range r.b.Pots {
		if j != i {
			take(&r.b.Pots[j].Solid, func() (layout.Thing, string) { return n.potThing(j), n.pot(j) })
		}
	}
	for j := range r.b.Posts {
		take(&r.b.Posts[j].Solid, func() (layout.Thing, string) { return n.postThing(j), n.post(j) })
	}
	for j := range r.b.Shelves {
		take(&r.b.Shelves[j].Solid, func() (layout.Thing, string) { return n.shelfThing(j), n.shelf(j) })
	}
	for j := range r.b.Probes {
		take(&r.b.Probes[j].Solid, func() (layout.Thing, string) { return n.probeThing(j), n.probe(j) })
	}
	blocker, clear, margin := solid.Sight(from, to, sightTube, bodies)
	v.clear, v.margin = clear, margin
	if !clear && blocker >= 0 && blocker < len(who) {
		v.blocker, v.name = who[blocker]()
	}
	return v
}

// withinAngle tells whether a point lies within the hole's cone of sight.
// tan 14 degrees bounds the offset from the axis over the way along it.
func withinAngle(s *stacks.Spy, to mgl64.Vec3) bool {
	way := plane.Sub(plane.Vec{to[0], to[1]}, s.Mouth)
	along := plane.Dot(way, s.Inward)
	side := plane.Hypot(plane.Cross(s.Inward, way), to[2]-s.Height)
	sin, cos := plane.SinCos(sightAngle)
	return along > 0 && float64(side*cos) <= float64(along*sin)+tol
}

func tubeBox(a, b mgl64.Vec3) nearby.Box {
	var box nearby.Box
	for i := range a {
		box.Min[i], box.Max[i] = math.Min(a[i], b[i])-sightTube, math.Max(a[i], b[i])+sightTube
	}
	return box
}
