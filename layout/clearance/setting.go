package clearance

import (
	"math"
	"strings"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/order"
)

// The order of setting costs more than all other rules together, so it is
// worked out only when something may be wrong with it: when the pots that can
// only be let down after others form a ring, when some subset of a shelf's
// load might tip it, or when hands hardly fit round a shelf. Each of these is
// first judged by a bound that never passes what the order would not.

// inOrder is the order of setting, worked out once.
func (r *run) inOrder() *order.Order {
	if r.order == nil {
		r.order, _ = order.Of(r.b)
	}
	return r.order
}

// lowering notes, for two pots of one level, which has to stand first.
func (r *run) lowering(a, b int) {
	p, q := &r.b.Pots[a], &r.b.Pots[b]
	if p.Level != q.Level || r.passes(&p.Solid, &q.Solid, r.hand) {
		return
	}
	bCan := solid.LowerDepth(&p.Solid, &q.Solid, r.hand) <= tol
	aCan := solid.LowerDepth(&q.Solid, &p.Solid, r.hand) <= tol
	switch {
	case aCan && bCan:
	case bCan:
		r.first[b] = append(r.first[b], a)
	case aCan:
		r.first[a] = append(r.first[a], b)
	default:
		r.first[a], r.first[b] = append(r.first[a], b), append(r.first[b], a)
	}
}

// passes tells whether two bodies can surely be let down beside each other:
// no part comes within the hand room of another in plan.
func (c *Checker) passes(p, q *solid.Placed, hand float64) bool {
	for i := range p.Body.Parts {
		for j := range q.Body.Parts {
			if p.Skeleton(i).Distance(q.Skeleton(j)) < c.radius(p, i)+c.radius(q, j)+hand {
				return false
			}
		}
	}
	return true
}

func (c *Checker) radius(p *solid.Placed, part int) float64 { return p.Body.Parts[part].Profile.Max() }

// handRoom is the room for fingers beside a pot that is let down: the rule's,
// but no more than the gap at which pots are planned to stand, as package
// order has it.
func (c *Checker) handRoom() float64 {
	return math.Max(0, math.Min(c.b.Load.Limits(layout.HandRoom).Plan, c.lim.pot.Plan))
}

// ringed tells whether the pots that have to stand before others form a ring.
func ringed(first map[int][]int) bool {
	state := map[int]int{} // 1: on the way, 2: done
	var visit func(i int) bool
	visit = func(i int) bool {
		if state[i] != 0 {
			return state[i] == 1
		}
		state[i] = 1
		for _, j := range first[i] {
			if visit(j) {
				return true
			}
		}
		state[i] = 2
		return false
	}
	for i := range first {
		if visit(i) {
			return true
		}
	}
	return false
}

// settable tells the rings of pots that no order of setting allows.
func (r *run) settable() {
	if !ringed(r.first) {
		return
	}
	for _, c := range order.Cycles(r.b) {
		if len(c.Pots) < 2 || len(c.Pots) == 2 && r.fused(c.Pots[0], c.Pots[1]) {
			continue
		}
		r.tellCycle(c)
	}
}

func (r *run) tellCycle(c order.Cycle) {
	n := r.names
	things := make([]layout.Thing, len(c.Pots))
	labels := make([]string, len(c.Pots))
	for i, p := range c.Pots {
		things[i], labels[i] = n.potThing(p), n.potLabel(p)
	}
	say := sentence(n.pot(c.Pots[0])) + " and " + n.from(c.Pots[0], c.Pots[1]) + " cannot be set: no hand fits between them, whichever goes in first."
	if len(c.Pots) > 2 {
		says := make([]string, 0, len(c.Pots))
		for _, p := range c.Pots {
			says = append(says, n.pot(p))
		}
		say = sentence(strings.Join(says[:len(says)-1], ", ")) + " and " + says[len(says)-1] + " each have to go in before the next: no order sets them."
	}
	l := r.b.Load.Limits(layout.HandRoom)
	mid := plane.Lerp(r.b.Pots[c.Pots[0]].At, r.b.Pots[c.Pots[1]].At, 0.5)
	r.add(layout.CanBeSet, layout.Problem, say, measured{have: l.Plan - c.Short, need: l.Plan, plan: l.Plan, at: at(mid, r.b.Pots[c.Pots[0]].Z)}, things, sorted(labels...)...)
}

// fused tells whether two pots were found too near already, which a sentence
// about hands would only repeat.
func (r *run) fused(a, b int) bool {
	key := keyOf(layout.PotToPot, sorted(r.names.potLabel(a), r.names.potLabel(b))...)
	for i := range r.found {
		if r.found[i].Key == key && r.found[i].Grade == layout.Problem {
			return true
		}
	}
	return false
}
