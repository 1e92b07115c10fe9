package session

import (
	"errors"
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// held is a pot in hand: the load as if it stood on the level it is over.
type held struct {
	pot   layout.Pot
	name  string // "the mug next to post B"
	level int    // into built.Levels; -1 while it is over none
	index int    // into built.Pots
	at    plane.Vec
	turn  float64
	from  *standing // where it stands in the load; nil: on the table
	nth   int       // its order number where it stands
	built *stacks.Built
	check *clearance.Checker
	solid solid.Placed // as it is held
}

// Hold takes a pot in hand: one that stands ("mug 3"), one that waits, or the
// next of a row that waits ("mug"). A pot from the table is over no level until
// Over says which. Whatever was in hand is put back first.
func (s *Session) Hold(pot string) (*Held, error) {
	s.putBack()
	b, refused := s.Built()
	if b == nil {
		return nil, errors.New(refused)
	}
	p, err := s.potToHold(pot)
	if err != nil {
		return nil, err
	}
	h := &held{pot: p, level: -1, index: s.potIndex(p.String()), name: "the " + p.Ware}
	if h.index >= 0 {
		q := &b.Pots[h.index]
		if q.Level < 0 {
			return nil, fmt.Errorf("%s stands on no level", p)
		}
		was := standingOf(b, h.index)
		h.from, h.level, h.at, h.turn = &was, q.Level, q.At, q.Turn
		h.built, h.check, h.name, h.nth = b, s.Checker(), s.Checker().Name(h.index), s.Order().Number(h.index)
		h.solid = q.Solid.Clone()
	}
	s.held = h
	return s.tellHeld(), nil
}

// potToHold is the pot a name means; of a row, the first that waits.
func (s *Session) potToHold(name string) (layout.Pot, error) {
	p, err := s.now.Find(name)
	if err == nil {
		return p, nil
	}
	w := s.now.WareOf(layout.Pot{Ware: name})
	if w == nil {
		return p, err
	}
	for _, q := range w.Pots() {
		if !s.stands(q.String()) {
			return q, nil
		}
	}
	return p, fmt.Errorf("all %d of %q are set; say which one, like \"%s 1\"", w.Count, name, name)
}

// Holding is the pot in hand, or nil.
func (s *Session) Holding() *Held {
	if s.held == nil {
		return nil
	}
	return s.tellHeld()
}

// Over carries the held pot to a level of a tower (from 1), where it keeps its
// place in plan.
func (s *Session) Over(tower string, level int) (*Held, error) {
	h := s.held
	if h == nil {
		return nil, errors.New("no pot is in hand")
	}
	to := s.levelIndex(tower, level)
	if to < 0 {
		return nil, fmt.Errorf("there is no level %d of %q", level, tower)
	}
	if h.level == to {
		return s.tellHeld(), nil
	}
	if h.from != nil && h.from.tower == tower && h.from.number == level {
		b, _ := s.Built()
		h.built, h.check, h.level, h.index = b, s.Checker(), to, s.potIndex(h.pot.String())
		h.solid = b.Pots[h.index].Solid.Clone()
		return s.tellHeld(), nil
	}
	at, turn := h.at, h.turn
	next, err := edit.Apply(s.now, layout.Edit{Act: layout.SetPot, Pot: h.pot.String(), Tower: tower, Level: level, At: &at, Turn: &turn})
	if err != nil {
		return nil, err
	}
	b, err := stacks.Build(next)
	if err != nil {
		return nil, err
	}
	for i := range b.Pots {
		if b.Pots[i].Pot == h.pot {
			h.built, h.check, h.level, h.index = b, clearance.New(b), to, i
			h.solid = b.Pots[i].Solid.Clone()
		}
	}
	return s.tellHeld(), nil
}

// Move moves the held pot to a place on the level it is over, mm, on the grid
// of 0.1 mm.
func (s *Session) Move(at plane.Vec) (*Held, error) {
	h := s.held
	switch {
	case h == nil:
		return nil, errors.New("no pot is in hand")
	case !(math.Abs(at[0]) <= farthest && math.Abs(at[1]) <= farthest):
		return nil, errors.New("that is not a place in the kiln")
	}
	h.at = plane.Vec{clearance.Round(at[0]), clearance.Round(at[1])}
	return s.tellHeld(), nil
}

// farthest is how far from the kiln's middle a place may lie, mm.
const farthest = 1e5

// Nudge moves the held pot by mm and turns it by degrees clockwise.
func (s *Session) Nudge(dx, dy, turn float64) (*Held, error) {
	h := s.held
	if h == nil {
		return nil, errors.New("no pot is in hand")
	}
	if !(math.Abs(turn) <= farthest) {
		return nil, errors.New("that is not an angle; give degrees clockwise")
	}
	was := h.turn
	h.turn = plane.NormalTurn(clearance.Round(plane.NormalTurn(h.turn + turn)))
	out, err := s.Move(plane.Vec{h.at[0] + dx, h.at[1] + dy})
	if err != nil {
		h.turn = was
	}
	return out, err
}

// Drop sets the held pot down where it is, or on the ring when snap and there
// is one: one edit. Set down where it stood it changes nothing.
func (s *Session) Drop(snap bool) (*State, error) {
	h := s.held
	if h == nil {
		return nil, errors.New("no pot is in hand")
	}
	if h.level < 0 {
		return nil, errors.New("carry it over a level first, or put it back")
	}
	at, turn := h.at, h.turn
	if snap {
		if ring := s.ring(h, s.watch(h)); ring != nil {
			at = *ring
		}
	}
	v := &h.built.Levels[h.level]
	tower := h.built.Towers[v.Tower].Name
	if h.from != nil && *h.from == (standing{tower, v.Number, at, turn}) {
		s.putBack()
		return s.State(), nil
	}
	what := "move " + h.name
	if h.from == nil {
		what = "set " + article(h.pot.Ware) + " on " + h.check.LevelName(h.level)
	}
	return s.Apply([]layout.Edit{{Act: layout.SetPot, Pot: h.pot.String(), Tower: tower, Level: v.Number, At: &at, Turn: &turn}}, what)
}

// article is "a mug", "an oval baker".
func article(name string) string {
	if name != "" {
		switch name[0] {
		case 'a', 'e', 'i', 'o', 'u', 'A', 'E', 'I', 'O', 'U':
			return "an " + name
		}
	}
	return "a " + name
}

// watch is what is near the held pot, the closest to its plan figure first.
func (s *Session) watch(h *held) []clearance.Near { return h.check.Watch(h.index, h.at, h.turn) }

// snapReach is how far a ring may lie from the held pot, mm: a hand's breadth.
const snapReach = 100

// ring is the nearest place that clears, when the held pot does not where it
// is.
func (s *Session) ring(h *held, nears []clearance.Near) *plane.Vec {
	for i := range nears {
		if nears[i].Clear {
			continue
		}
		to, ok := h.check.SnapTo(h.index, h.at, h.turn, snapReach, clearance.AskPlan)
		if !ok || to == h.at {
			return nil
		}
		return &to
	}
	return nil
}

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

// gapLine is the shortest way from a held pot to a neighbour.
func gapLine(h *held, n *clearance.Near) *GapLine {
	b := h.built
	switch n.Thing.Kind {
	case layout.ThingPot, layout.ThingCones:
		for i := range b.Pots {
			if b.Pots[i].Pot.String() == n.Thing.Name {
				return lineTo(h, &b.Pots[i].Solid)
			}
		}
	case layout.ThingPost:
		for i := range b.Posts {
			p := &b.Posts[i]
			if v := &b.Levels[p.Level]; p.Letter == n.Thing.Name && v.Number == n.Thing.Level && b.Towers[v.Tower].Name == n.Thing.Tower {
				return lineTo(h, &p.Solid)
			}
		}
	case layout.ThingProbe:
		for i := range b.Probes {
			if fmt.Sprint(i+1) == n.Thing.Name {
				return lineTo(h, &b.Probes[i].Solid)
			}
		}
	case layout.ThingWall:
		depth, in := b.Chamber.DepthNormal(h.at)
		z := h.solid.Base() + float64((h.solid.Top()-h.solid.Base())/2)
		wall := plane.Sub(h.at, plane.Scale(in, depth))
		near := plane.Add(wall, plane.Scale(in, n.Gap))
		return &GapLine{From: mgl64.Vec3{near[0], near[1], z}, To: mgl64.Vec3{wall[0], wall[1], z}}
	case layout.ThingLid:
		return &GapLine{From: mgl64.Vec3{h.at[0], h.at[1], h.solid.Top()}, To: mgl64.Vec3{h.at[0], h.at[1], b.Height}}
	case layout.ThingShelf:
		return shelfLine(h, n)
	}
	return nil
}

func lineTo(h *held, other *solid.Placed) *GapLine {
	_, w := solid.Gap(&h.solid, other)
	return &GapLine{From: w.A, To: w.B}
}

// shelfLine is the way to a shelf: up to the one above, else to the nearest
// edge.
func shelfLine(h *held, n *clearance.Near) *GapLine {
	b := h.built
	for i := range b.Shelves {
		sh := &b.Shelves[i]
		v := &b.Levels[sh.Level]
		if fmt.Sprint(sh.Index+1) != n.Thing.Name || v.Number != n.Thing.Level || b.Towers[v.Tower].Name != n.Thing.Tower {
			continue
		}
		if n.Rule == layout.RoomAbove {
			return &GapLine{From: mgl64.Vec3{h.at[0], h.at[1], h.solid.Top()}, To: mgl64.Vec3{h.at[0], h.at[1], sh.Bottom}}
		}
		edge := sh.Outline.NearestEdge(h.at)
		way := plane.Unit(plane.Sub(h.at, edge))
		if n.Rule == layout.PotToPost { // another side's shelf beside it
			way = plane.Unit(plane.Sub(edge, h.at))
			from := plane.Sub(edge, plane.Scale(way, n.Gap))
			return &GapLine{From: mgl64.Vec3{from[0], from[1], sh.Top}, To: mgl64.Vec3{edge[0], edge[1], sh.Top}}
		}
		from := plane.Add(edge, plane.Scale(way, n.Gap))
		z := h.solid.Base()
		return &GapLine{From: mgl64.Vec3{from[0], from[1], z}, To: mgl64.Vec3{edge[0], edge[1], z}}
	}
	return nil
}

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
