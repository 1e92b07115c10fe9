package steps

import (
	"math"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/order"
)

// stick proves the height of the next shelf: a stick over the posts that
// carry it.
func (t *teller) stick(act int, lo *order.LevelOrder) Step {
	a := &t.o.Acts[act]
	s := Step{Kind: Stick, Acts: []int{act}, Label: "stick", Posts: a.Posts, Shelf: -1}
	var letters []string
	for _, i := range a.Posts {
		letters = append(letters, t.b.Posts[i].Letter)
	}
	s.Sentence = "across " + strings.Join(letters, "\u00a0") + ": "
	switch {
	case a.Room < 0:
		s.Sentence += "it does not lie down; a " + t.every(lo) + " stands " + t.near(-a.Room) + " too high"
	case len(lo.Pots) == 0:
		s.Sentence += "it rests on every post"
	case a.Room < t.b.Load.Limits(layout.RoomAbove).Plan-plane.Tolerance:
		s.Sentence += "light over every " + t.every(lo) + ", " + t.room(a.Room) + " at the least"
	default:
		s.Sentence += "light over every " + t.every(lo)
	}
	return s
}

// depth is how a shelf's height is measured: down from the rim, or up from
// the hearth of a front-loader, mm.
func (t *teller) depth(level int) float64 {
	if t.front() {
		return t.b.Levels[level].Top
	}
	return t.b.Height - t.b.Levels[level].Top
}

// rim tells where the shelf of a level has to be, and where the next.
func (t *teller) rim(level int) Step {
	s := Step{Kind: Rim, Label: "rim", Shelf: -1}
	way := " down to this shelf"
	if t.front() {
		s.Label, way = "hearth", " up to this shelf"
	}
	for i := range t.o.Acts {
		if a := &t.o.Acts[i]; a.Kind == order.ActMeasure && a.Level == level {
			s.Acts = []int{i}
		}
	}
	here := t.near(t.depth(level))
	s.Sentence, s.Figures = here+way, []string{here}
	over := t.levelsOver(level)
	for i, x := range over {
		next := t.near(t.depth(x))
		switch {
		case len(over) == 1:
			s.Sentence += "; next shelf " + next
		case i == 0:
			s.Sentence += "; next " + t.levelName(x) + " " + next
		default:
			s.Sentence += ", " + t.levelName(x) + " " + next
		}
		s.Figures = append(s.Figures, next)
	}
	return s
}

// levelsOver are the levels whose posts stand on a level, in order of setting
// their posts.
func (t *teller) levelsOver(level int) []int {
	var out []int
	for i := range t.o.Acts {
		if a := &t.o.Acts[i]; a.Kind == order.ActPosts && a.Level == level && a.Carries >= 0 {
			out = append(out, a.Carries)
		}
	}
	return out
}

// over tells the shelves that are laid over a level.
func (t *teller) over(level int, add func(Step)) {
	over := t.levelsOver(level)
	for i := range t.o.Acts {
		a := &t.o.Acts[i]
		if a.Kind != order.ActShelf || t.carrier(a.Level) != level {
			continue
		}
		label := "next"
		if len(over) > 1 {
			label = t.b.Levels[a.Level].Name
		}
		add(t.shelf(i, label))
	}
}

// shelf tells how a shelf is laid: which, how heavy, and where hands hold it.
func (t *teller) shelf(act int, label string) Step {
	a := &t.o.Acts[act]
	s := Step{Kind: Shelf, Acts: []int{act}, Label: label, Shelf: a.Shelf}
	sh := &t.b.Shelves[a.Shelf]
	name := sh.Kind.Name
	if !strings.Contains(name, "shelf") {
		name += " shelf"
	}
	s.Sentence = name + ", " + hold(measure.FormatMass(sh.Mass, t.units))
	if a.Shelf >= len(t.o.Grips) {
		return s
	}
	g := &t.o.Grips[a.Shelf]
	if len(g.Hold) != 2 {
		s.Sentence += "; no room for hands beside it: hold it from above"
		return s
	}
	s.Sentence += "; hold at " + hold(measure.ShortClock(g.Hold[0].Clock)) + " and at " + hold(measure.ShortClock(g.Hold[1].Clock))
	if !g.Fit {
		s.Sentence += ", " + t.room(g.Room) + " to the wall there"
	}
	return s
}

// lid proves the room over the topmost pots.
func (t *teller) lid(act int, lo *order.LevelOrder) Step {
	a := &t.o.Acts[act]
	s := Step{Kind: Lid, Acts: []int{act}, Label: t.lidWord(), Shelf: -1}
	need := t.near(t.b.Load.Limits(layout.RoomToLid).Plan)
	over := "the shelf"
	tallest := math.Inf(-1)
	for i := range lo.Pots {
		p := &t.b.Pots[lo.Pots[i].Pot]
		if top := p.Solid.Top(); top > tallest+plane.Tolerance {
			tallest, over = top, "the "+t.wareOf(lo.Pots[i].Pot)
		}
	}
	have := t.room(a.Room)
	s.Figures = []string{have}
	if t.front() {
		s.Sentence = have + " over " + over + "; " + need + " or more"
		return s
	}
	s.Sentence = "stick over the rim: " + have + " to " + over + "; " + need + " or more"
	return s
}
