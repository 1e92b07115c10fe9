package session

import (
	"fmt"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// tellHeld is the held pot as the page shows it.
func (s *Session) tellHeld() *Held {
	h := s.held
	out := &Held{Pot: h.pot.String(), Ware: h.pot.Ware, Level: h.level, At: h.at, Turn: h.turn, Nears: []Near{}, Grade: clears,
		Nth: h.nth, Title: s.say(title(h.name)), Place: "Held."}
	if h.level < 0 {
		out.Place = "Held, over no level."
		return out
	}
	v := &h.built.Levels[h.level]
	out.Tower, out.Number = h.built.Towers[v.Tower].Name, v.Number
	out.Place = s.say("Held. " + title(h.check.LevelName(h.level)) + ", " + measure.SayClock(plane.Bearing(h.at)) + ".")
	if h.from != nil && h.from.tower == out.Tower && h.from.number == out.Number {
		from := h.from.at
		out.From = &from
	} else {
		out.Nth = 0
	}
	h.solid.Move(solid.Pose{At: h.at, Turn: h.turn, Z: v.Top})
	nears := s.watch(h)
	s.nearsOf(out, h, nears)
	out.Ring = s.ring(h, nears)
	if out.Ring != nil {
		far := max(1, plane.Distance(h.at, *out.Ring))
		out.Mend = &HeldMend{Say: "Let go: " + measure.SayLength(far, s.now.Units, measure.Nearest) + " " +
			measure.TowardClock(plane.Bearing(plane.Sub(*out.Ring, h.at)))}
	}
	out.Order, out.Before = s.orderOfHeld(h, nears)
	return out
}

// clears is the grade of what keeps every limit.
const clears = "clears"

// nearsOf fills in what is near a held pot, the gravest grade, the sentence and
// the gap line.
func (s *Session) nearsOf(out *Held, h *held, nears []clearance.Near) {
	gravest := layout.Note
	for i := range nears {
		if len(out.Nears) < 4 {
			out.Nears = append(out.Nears, s.near1(h.built, h.level, &nears[i]))
		}
		if nears[i].Grade > gravest {
			gravest = nears[i].Grade
		}
	}
	if gravest > layout.Note {
		out.Grade = gravest.String()
	}
	if len(nears) == 0 {
		return
	}
	first := &nears[0]
	for i := range nears { // the gravest speaks
		if nears[i].Grade > first.Grade {
			first = &nears[i]
		}
	}
	told := s.near1(h.built, h.level, first)
	out.Word = told.Word
	out.Gap = gapLine(h, first)
	if first.Grade == layout.Note {
		return
	}
	if first.Thing.Kind == layout.ThingPot || first.Thing.Kind == layout.ThingCones {
		out.Pair = first.Thing.Name
	}
	out.Sentence = s.say(capital(h.name) + " " + s.standsNear(first, told.Name))
}

// standsNear says how a held pot stands beside something: "stands 2 mm from
// mug 5. Under 3 they may fuse."
func (s *Session) standsNear(n *clearance.Near, name string) string {
	l := s.now.Limits(n.Rule)
	if n.Gap <= 0.05 {
		return "touches " + name + ". Plan " + s.up(n.Plan) + "."
	}
	text := "stands " + s.downUnit(n.Gap) + " from " + name + ". "
	if n.Grade == layout.Problem && n.Rule == layout.PotToPot {
		return text + "Under " + s.up(l.Problem) + " they may fuse."
	}
	return text + "Plan " + s.up(n.Plan) + "."
}

// near1 is one neighbour as the page shows it. Pots of the level are called by
// their kind and order number.
func (s *Session) near1(b *stacks.Built, level int, n *clearance.Near) Near {
	out := Near{Name: n.Name, Gap: n.Gap, GapSaid: s.downUnit(n.Gap), PlanSaid: "plan " + s.up(n.Plan), Grade: clears,
		Word: s.gapWord(n.Gap, n.Plan, n.Grade), Thing: n.Thing}
	if n.Grade != layout.Note {
		out.Grade = n.Grade.String()
	}
	if n.Thing.Kind == layout.ThingPot || n.Thing.Kind == layout.ThingCones {
		out.ID = n.Thing.Name
		if i := s.potIndex(out.ID); i >= 0 && n.Thing.Kind == layout.ThingPot && s.mustFind(out.ID).Number > 0 { // only one-offs have names
			v := &b.Levels[level]
			if nth := s.Order().Number(i); nth > 0 && n.Thing.Tower == b.Towers[v.Tower].Name && n.Thing.Level == v.Number {
				out.Name = b.Load.WareOf(s.mustFind(out.ID)).Name + " " + fmt.Sprint(nth)
			}
		}
	}
	out.Name = s.say(out.Name)
	return out
}

// mustFind is the pot of a name that is known to be one.
func (s *Session) mustFind(id string) layout.Pot {
	p, _ := s.now.Find(id)
	return p
}
