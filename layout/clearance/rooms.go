package clearance

import (
	"math"
	"sort"

	"threepost/layout"
)

// roomKey gathers pots of one kind on one level that lack room above, so that
// twelve mugs under one shelf are one sentence.
type roomKey struct {
	rule        layout.RuleName
	level, kind int
}

// room is the least room over a gathered row.
type room struct {
	pots  []int
	least float64
	pot   int // the one with the least
	shelf int // over that one; -1: the lid
	grade layout.Grade
}

func (r *run) collectRoom(pot, shelf int, rule layout.RuleName, gap float64, grade layout.Grade) {
	p := &r.b.Pots[pot]
	k := roomKey{rule, p.Level, p.Kind}
	g := r.above[k]
	if g == nil {
		g = &room{least: math.Inf(1)}
		r.above[k] = g
	}
	if len(g.pots) == 0 || g.pots[len(g.pots)-1] != pot {
		g.pots = append(g.pots, pot)
	}
	if gap < g.least {
		g.least, g.pot, g.shelf, g.grade = gap, pot, shelf, grade
	}
}

// toLid gathers a pot that comes too near the lid, or stands over it.
func (r *run) toLid(pot int, gap float64) {
	if gap < -tol {
		r.collectRoom(pot, -1, layout.InsideKiln, gap, layout.Problem)
		return
	}
	if grade, bad := under(gap, r.lim.lid); bad {
		r.collectRoom(pot, -1, layout.RoomToLid, gap, grade)
	}
}

// tellRooms makes one finding of each gathered row.
func (r *run) tellRooms() {
	keys := make([]roomKey, 0, len(r.above))
	for k := range r.above {
		keys = append(keys, k)
	}
	sort.Slice(keys, func(i, j int) bool {
		a, b := keys[i], keys[j]
		if a.rule != b.rule {
			return a.rule < b.rule
		}
		if a.level != b.level {
			return a.level < b.level
		}
		return a.kind < b.kind
	})
	for _, k := range keys {
		r.tellRoom(k, r.above[k])
	}
}

func (r *run) tellRoom(k roomKey, g *room) {
	n := r.names
	l := r.lim.above
	if k.rule != layout.RoomAbove {
		l = r.lim.lid
	}
	p := &r.b.Pots[g.pot]
	who, be, them := r.roomSubject(k, g)
	lack := r.up(l.Plan - g.least)
	var s string
	switch {
	case k.rule == layout.InsideKiln:
		s = who + " " + pick(len(g.pots), "stands", "stand") + " " + r.up(-g.least) + " too high: the " + r.lidWord() + " stays open."
		if r.b.Load.Kiln.Opens == layout.Front {
			s = who + " " + pick(len(g.pots), "stands", "stand") + " " + r.up(-g.least) + " into the ceiling."
		}
	case k.rule == layout.RoomToLid && r.down(g.least) == "0":
		s = who + " " + be + " too tall by " + lack + ": " + pick(len(g.pots), "it touches", "they touch") + " the " + r.lidWord() + "."
	case k.rule == layout.RoomToLid:
		s = who + " " + be + " too tall by " + lack + ": " + r.down(g.least) + " to the " + r.lidWord() + ", plan " + r.up(l.Plan) + "."
	case g.least < -tol:
		s = who + " " + be + " too tall by " + lack + ": " + pick(len(g.pots), "it stands ", "they stand ") + r.up(-g.least) + " into " + n.shelf(g.shelf) + "."
	case r.down(g.least) == "0":
		s = who + " " + be + " too tall by " + lack + ": " + n.shelf(g.shelf) + " lies on " + them + "."
	default:
		s = who + " " + be + " too tall by " + lack + ": " + r.down(g.least) + " above " + them + ", plan " + r.up(l.Plan) + "."
	}
	things := make([]layout.Thing, 0, len(g.pots)+1)
	things = append(things, n.potThing(g.pot))
	for _, i := range g.pots {
		if i != g.pot {
			things = append(things, n.potThing(i))
		}
	}
	over := layout.Thing{Kind: layout.ThingLid}
	if g.shelf >= 0 {
		over = n.shelfThing(g.shelf)
	}
	r.add(k.rule, g.grade, s, against(g.least, g.grade, l, at(p.At, p.Solid.Max[2])), append(things, over),
		n.kindLabel(k.kind), n.place(k.level))
}

// roomSubject says who lacks room: "The vase", "A mug on left 2", "Twelve mugs
// on left 2", with the verb and the pronoun that go with it.
func (r *run) roomSubject(k roomKey, g *room) (who, be, them string) {
	p, n := &r.b.Pots[g.pot], r.names
	switch {
	case p.Cones != nil:
		return sentence(n.pot(g.pot)), "are", "them"
	case len(g.pots) > 1:
		return sentence(n.count(k.kind, len(g.pots))) + " on " + n.level(k.level), "are", "them"
	case p.Pot.Number == 0:
		return sentence(n.pot(g.pot)), "is", "it"
	}
	return sentence(n.pot(g.pot)), "is", "it"
}

// lidWord is what closes the kiln over the ware.
func (c *Checker) lidWord() string {
	if c.b.Load.Kiln.Opens == layout.Front {
		return "ceiling"
	}
	return "lid"
}

func pick(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
