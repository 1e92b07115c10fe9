package session

import (
	"fmt"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/clearance"
)

// orderOfHeld says which of the held pot and a neighbour on its level has to go
// in before the other, and the neighbour that must wait for it.
func (s *Session) orderOfHeld(h *held, nears []clearance.Near) (says, waits string) {
	hand := min(s.now.Limits(layout.HandRoom).Plan, s.now.Limits(layout.PotToPot).Plan)
	hand = max(hand, 0)
	for _, k := range h.built.Levels[h.level].Pots {
		other := &h.built.Pots[k].Solid
		if k == h.index || !beside(&h.solid, other, hand) || tooClose(nears, h.built.Pots[k].Pot.String(), hand) {
			continue
		}
		id := h.built.Pots[k].Pot.String()
		lacks := solid.LowerDepth(other, &h.solid, hand) // the held one, beside the other standing
		otherLacks := solid.LowerDepth(&h.solid, other, hand)
		can, otherCan := lacks <= plane.Tolerance, otherLacks <= plane.Tolerance
		it, its := s.heldNth(h), s.nthOr(id, h.check.NameFrom(h.index, k), h)
		switch {
		case can && otherCan:
			continue
		case otherCan:
			return capital(it) + " goes in before " + its + ". With " + its + " standing, no hand fits" + besidePost(nears) + ".", id
		case can:
			return capital(its) + " goes in before " + it + ". With " + it + " standing, no hand fits" + besidePost(nears) + ".", ""
		}
		return "Neither " + it + " nor " + its + " can be let down beside the other. " + s.up(min(lacks, otherLacks)) + " more between them would do.", ""
	}
	return "", ""
}

// beside tells whether two pots come so near in plan that one may be in the
// other's way when it is let down.
func beside(a, b *solid.Placed, hand float64) bool {
	for i := range 2 {
		if a.Min[i] > b.Max[i]+hand || b.Min[i] > a.Max[i]+hand {
			return false
		}
	}
	return true
}

// tooClose tells whether a pot stands closer than a hand: then that is what
// there is to say.
func tooClose(nears []clearance.Near, id string, hand float64) bool {
	for i := range nears {
		if n := &nears[i]; n.Thing.Name == id && n.Gap < hand-plane.Tolerance {
			return true
		}
	}
	return false
}

// nthOr calls a pot of the held pot's level by its order number while the held
// one has one too, else by its name.
func (s *Session) nthOr(id, name string, h *held) string {
	if nth := s.Order().Number(s.potIndex(id)); nth > 0 && s.heldNth(h) != h.name {
		return fmt.Sprint(nth)
	}
	return name
}

// heldNth calls the held pot by its order number where it is still on its
// level, else by its name.
func (s *Session) heldNth(h *held) string {
	v := &h.built.Levels[h.level]
	if h.nth > 0 && h.from.tower == h.built.Towers[v.Tower].Name && h.from.number == v.Number {
		return fmt.Sprint(h.nth)
	}
	return h.name
}

// besidePost names the post that stands close beside a pot.
func besidePost(nears []clearance.Near) string {
	for i := range nears {
		if nears[i].Thing.Kind == layout.ThingPost {
			return " beside post " + nears[i].Thing.Name
		}
	}
	return ""
}
