package clearance

import (
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/measure"
)

// Near is one neighbour of a pot that is being moved: the least gap to it and
// how the rule grades that.
type Near struct {
	Thing layout.Thing    `json:"thing"`
	Name  string          `json:"name"` // as the person points at it: "the mug toward 8", "post B", "the wall"
	Rule  layout.RuleName `json:"rule"`
	Gap   float64         `json:"gap"`   // mm, negative when they overlap
	Plan  float64         `json:"plan"`  // mm
	Grade layout.Grade    `json:"grade"` // Note when no limit is missed
	Clear bool            `json:"clear"` // at least the plan figure
}

// watchBeyond is how far past its plan figure a neighbour is still told, mm.
const watchBeyond = 12

// Watch tells the gaps of one pot of the load as if it stood at another place
// of its level: one Near for each neighbour near enough for a rule to care,
// the closest to its plan figure first. pot is an index into Built.Pots; one
// out of range has no neighbours.
func (c *Checker) Watch(pot int, v plane.Vec, turn float64) []Near {
	if pot < 0 || pot >= len(c.b.Pots) {
		return nil
	}
	s := c.moving(pot, v, turn)
	out := make([]Near, 0, 12)
	add := func(rule layout.RuleName, gap float64, l layout.Limits, t layout.Thing, name string) {
		g, bad := under(gap, l)
		if !bad {
			g = layout.Note
		}
		out = append(out, Near{Thing: t, Name: name, Rule: rule, Gap: gap, Plan: l.Plan, Grade: g, Clear: gap >= l.Plan-tol})
	}
	c.watchGrid(pot, s, v, add)
	c.watchKiln(pot, s, v, turn, add)
	sort.SliceStable(out, func(i, j int) bool { return out[i].Gap-out[i].Plan < out[j].Gap-out[j].Plan })
	return out
}

// told is how a watch reports one gap.
type told func(rule layout.RuleName, gap float64, l layout.Limits, t layout.Thing, name string)

// moving is the scratch solid of the pot that is being moved.
func (c *Checker) moving(pot int, v plane.Vec, turn float64) *solid.Placed {
	if c.held != pot || len(c.hand.Body.Parts) == 0 {
		c.hand, c.held = c.b.Pots[pot].Solid.Clone(), pot
	}
	c.hand.Move(solid.Pose{At: v, Turn: turn, Z: c.b.Pots[pot].Z})
	return &c.hand
}

// watchGrid tells the pots and posts round a held pot.
func (c *Checker) watchGrid(pot int, s *solid.Placed, v plane.Vec, add told) {
	n, pots := c.names, len(c.b.Pots)
	c.near = c.grid.Near(c.near[:0], boxOf(s), c.widest+watchBeyond)
	for _, id := range c.near {
		if id == pot {
			continue
		}
		if id < pots {
			l, q := c.potLimits(pot, id), &c.b.Pots[id]
			if c.potsClear(pot, s, id, &q.Solid, l.Plan+watchBeyond) {
				continue
			}
			gap, w := solid.Gap(s, &q.Solid)
			if gap > 0 && c.separated(w) {
				continue
			}
			add(layout.PotToPot, gap, l, n.potThing(id), n.fromPlace(v, c.b.Pots[pot].Level, id))
			continue
		}
		q, l := &c.b.Posts[id-pots], c.lim.post
		if c.underOwnShelf(pot, id-pots) || solid.GapAtLeast(s, &q.Solid, l.Plan+watchBeyond) {
			continue
		}
		gap, w := solid.Gap(s, &q.Solid)
		if gap > 0 && c.separated(w) {
			continue
		}
		add(layout.PotToPost, gap, l, n.postThing(id-pots), "post "+q.Letter)
	}
}

// watchKiln tells wall, lid, probes, shelves and the edge of the pot's shelf.
func (c *Checker) watchKiln(pot int, s *solid.Placed, v plane.Vec, turn float64, add told) {
	n := c.names
	rule, l := c.wallLimits(pot)
	if c.b.Chamber.Depth(v)-c.broad[pot] < l.Plan+watchBeyond {
		if gap := solid.WallClearance(s, c.b.Chamber); gap < l.Plan+watchBeyond {
			add(rule, gap, l, layout.Thing{Kind: layout.ThingWall}, "the wall")
		}
	}
	if room := c.b.Height - s.Max[2]; room < c.lim.lid.Plan+watchBeyond {
		add(layout.RoomToLid, room, c.lim.lid, layout.Thing{Kind: layout.ThingLid}, "the "+c.lidWord())
	}
	for k := range c.b.Probes {
		q := &c.b.Probes[k].Solid
		if apart(boxOf(s), boxOf(q)) >= c.lim.probe.Plan+watchBeyond {
			continue
		}
		if gap, w := solid.Gap(s, q); gap < c.lim.probe.Plan+watchBeyond && !(gap > 0 && c.separated(w)) {
			add(layout.ToProbe, gap, c.lim.probe, n.probeThing(k), n.probe(k))
		}
	}
	for k := range c.b.Shelves {
		rule, gap, ok := c.toShelf(pot, s, k)
		if !ok {
			continue
		}
		l, name := c.lim.post, n.shelf(k)
		if rule == layout.RoomAbove {
			l, name = c.lim.above, "the shelf above"
		}
		if gap < l.Plan+watchBeyond {
			add(rule, gap, l, n.shelfThing(k), name)
		}
	}
	rule, l = c.edgeLimits(pot)
	if room := c.footRoom(pot, v, turn); room < l.Plan+watchBeyond {
		add(rule, room, l, n.shelfThing(c.shelfAt(pot, v)), "the edge of the shelf")
	}
}

// underOwnShelf tells whether a post stands under the shelf of a pot.
func (c *Checker) underOwnShelf(pot, post int) bool {
	p := &c.b.Pots[pot]
	return p.Shelf >= 0 && c.b.Posts[post].Top <= c.b.Shelves[p.Shelf].Bottom+tol
}

// fromPlace says pot j as seen from a place on a level.
func (n *namer) fromPlace(v plane.Vec, level, j int) string {
	q := &n.b.Pots[j]
	if q.Cones != nil {
		return n.pot(j)
	}
	if q.Pot.Number == 0 {
		return "the " + q.Pot.Ware
	}
	s := "the " + q.Pot.Ware + " toward " + measure.ShortClock(plane.Bearing(plane.Sub(q.At, v)))
	if q.Level != level {
		s += " on " + n.level(q.Level)
	}
	return s
}

// planReach is the widest plan figure between pots and posts, mm.
func (c *Checker) planReach() float64 {
	widest := math.Max(c.lim.post.Plan, math.Max(c.lim.pot.Plan, c.lim.deep.Plan))
	for _, t := range c.twice {
		if t {
			return math.Max(widest, 2*math.Max(c.lim.pot.Plan, c.lim.deep.Plan))
		}
	}
	return widest
}
