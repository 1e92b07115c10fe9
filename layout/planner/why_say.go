package planner

import (
	"fmt"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// Say tells why in one plain sentence, in the given units: "Left 1 carries
// 3×(150+5): the vase is 143 high and wants 12 above it; the posts make nothing
// between 125 and 155." b is the load that was asked about.
func (r Reason) Say(b *stacks.Built, units measure.Units) string {
	s := &whySayer{r, b, units}
	switch {
	case r.Over < 0:
		return s.toLid()
	case len(r.Under) == 0:
		return s.overFloor()
	}
	return s.underShelf()
}

// Brief is Say for a page on which the posts are told already: "Left 1: the vase
// is 143 high and wants 12 above it; the posts make nothing between 125 and
// 155."
func (r Reason) Brief(b *stacks.Built, units measure.Units) string {
	text := r.Say(b, units)
	if _, why, ok := strings.Cut(text, ": "); ok && r.Over >= 0 && len(r.Under) > 0 {
		return first((&whySayer{r, b, units}).levels(r.Under)) + ": " + why
	}
	return text
}

// SayOrder tells what a probe or a spyhole decided about the order of the
// tower's storeys; empty where neither did, or not about this one.
func (r Reason) SayOrder(b *stacks.Built, units measure.Units) string {
	if r.Order == nil {
		return ""
	}
	return (&whySayer{r, b, units}).order()
}

// whySayer says one reason.
type whySayer struct {
	Reason
	b     *stacks.Built
	units measure.Units
}

func (s *whySayer) down(mm float64) string { return measure.FormatLength(mm, s.units, measure.Down) }
func (s *whySayer) up(mm float64) string   { return measure.FormatLength(mm, s.units, measure.Up) }
func (s *whySayer) post(mm float64) string {
	return measure.FormatLengthTo(mm, s.units, measure.Nearest, measure.PostGrain)
}

// levels names levels in a sentence: "left 2 and right 2".
func (s *whySayer) levels(list []int) string {
	var names []string
	for _, v := range list {
		names = append(names, s.names.LevelName(v))
	}
	return strings.Join(names, " and ")
}

// first begins a sentence.
func first(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// isAre is the verb of a figure.
func isAre(figure string) string {
	if figure == "1" {
		return "is"
	}
	return "are"
}

// inside is a sentence inside another one.
func inside(sentence string) string {
	for _, the := range []string{"The ", "A ", "An ", "Nothing "} {
		if strings.HasPrefix(sentence, the) {
			sentence = strings.ToLower(the) + sentence[len(the):]
		}
	}
	return strings.TrimSuffix(sentence, ".")
}

// pick is one or many by a count.
func pick(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// who is the row of the tallest pot as it stands there, and whether it is told
// as many: "the vase", "a mug", "the mugs".
func (s *whySayer) who() (name string, many bool) {
	p := &s.b.Pots[s.Pot]
	if p.Cones != nil {
		return s.names.Name(s.Pot), true
	}
	n := 0
	for i := range s.b.Pots {
		if q := &s.b.Pots[i]; q.Kind == p.Kind && q.Level == p.Level {
			n++
		}
	}
	switch {
	case p.Ware.Count == 1:
		name = "the " + silhouette.Singular(p.Ware.Name)
	case n == 1:
		name = "one " + silhouette.Singular(p.Ware.Name)
	default:
		name, many = "the "+silhouette.Plural(p.Ware.Name), true
	}
	if len(s.Under) > 1 || s.Over >= 0 && len(s.Under) == 1 && p.Level != s.Under[0] {
		name += " on " + s.names.LevelName(p.Level)
	}
	return name, many
}

// high tells the tallest pot and the room it wants: "the vase is 143 high and
// wants 12 above it".
func (s *whySayer) high() string {
	name, many := s.who()
	wants, it := "wants", "it"
	if many {
		wants, it = "want", "them"
	}
	text := fmt.Sprintf("%s %s high and %s %s above %s", name, s.is(many), wants, s.up(s.Room), it)
	if s.Bow > 0 {
		text += fmt.Sprintf(", and the shelf above bows %s", s.up(s.Bow))
	}
	return text
}

// is tells the height of the tallest pot: "is 143".
func (s *whySayer) is(many bool) string {
	if many {
		return "are " + s.up(s.Tall)
	}
	return "is " + s.up(s.Tall)
}

// posts is what stands there: "3×(150+5)".
func (s *whySayer) posts() string { return stacks.SayPosts(s.Posts, s.units) }

// underShelf is the sentence of a storey with a shelf over it.
func (s *whySayer) underShelf() string {
	head := fmt.Sprintf("%s %s %s", first(s.levels(s.Under)), pick(len(s.Under), "carries", "carry"), s.posts())
	if len(s.b.Levels[s.Under[0]].Above) > 1 {
		head += " under " + s.names.LevelName(s.Over)
	}
	switch {
	case s.Cause == ForStays:
		return head + ", " + s.stays() + "."
	case s.Pot < 0:
		return head + ", and nothing stands under the shelf of " + s.names.LevelName(s.Over) + "."
	case s.Cause == ForLack:
		name, many := s.who()
		return fmt.Sprintf("%s: %s %s high, which leaves %s above, plan %s.", head, name, s.is(many),
			s.down(max(0, s.Height-s.Tall-s.Bow)), s.up(s.Room))
	}
	return head + ": " + s.high() + s.lower() + "."
}

// overFloor is the sentence of the room under a lowest shelf.
func (s *whySayer) overFloor() string {
	head := fmt.Sprintf("%s stands on %s", first(s.names.LevelName(s.Over)), s.posts())
	switch s.Cause {
	case ForStays:
		return head + ", " + s.stays() + "."
	case ForLack:
		return fmt.Sprintf("%s: %s of the %s wanted over the floor.", head, s.down(s.Height), s.up(s.Room))
	}
	over := "the floor"
	if s.b.Load.Kiln.FloorElement {
		over = "the element in the floor"
	}
	return fmt.Sprintf("%s: plans keep %s over %s%s.", head, s.up(s.Room), over, s.lower())
}

// stays says that a plan leaves a level alone.
func (s *whySayer) stays() string {
	v := &s.b.Levels[s.Over]
	if s.b.Load.Towers[s.b.Towers[v.Tower].Index].Levels[v.Number-1].Standing {
		return "which stand in the kiln already"
	}
	return "which are locked"
}

// lower is the end of a sentence: why nothing lower does.
func (s *whySayer) lower() string {
	at := s.post(s.Lower)
	switch s.Cause {
	case ForPosts:
		switch {
		case s.Lower == 0:
			return "; the posts make nothing lower"
		case s.Spare() < 0.5:
			return "" // it is as high as that, to the millimetre
		}
		return fmt.Sprintf("; the posts make nothing between %s and %s", at, s.post(s.Height))
	case ForUsed:
		if s.By < 0 {
			return fmt.Sprintf("; %s would do, but its posts are in use on other levels", at)
		}
		return fmt.Sprintf("; %s would do, but its posts hold up %s", at, s.names.LevelName(s.By))
	case ForRule:
		return fmt.Sprintf("; at %s %s", at, inside(s.Breaks.Sentence))
	case ForPieces:
		now := 0
		for _, m := range s.Posts {
			now += len(m)
		}
		return fmt.Sprintf("; %s would do, but of %d pieces instead of %d", at, s.Pieces, now)
	case ForAlike:
		return fmt.Sprintf("; %s would do, and so it is as high as %s", at, s.names.LevelName(s.By))
	case ForSpare:
		return fmt.Sprintf("; %s would do as well", at)
	}
	return ""
}

// toLid is the sentence of the room up to the lid.
func (s *whySayer) toLid() string {
	lid := "lid"
	if s.b.Load.Kiln.Opens == layout.Front {
		lid = "ceiling"
	}
	head := fmt.Sprintf("%s has %s to the %s", first(s.levels(s.Under)), s.down(s.Height), lid)
	if s.Pot < 0 {
		return head + ", and nothing stands there."
	}
	name, many := s.who()
	head += fmt.Sprintf(": %s %s high, plans keep %s", name, s.is(many), s.up(s.Room))
	if s.Height < s.Need-0.5 {
		return head + fmt.Sprintf(", and %s are left.", s.down(max(0, s.Height-s.Tall)))
	}
	spare := s.down(s.Spare())
	if spare == "0" {
		return head + ", and nothing is left."
	}
	return fmt.Sprintf("%s, and %s %s left%s.", head, spare, isAre(spare), s.rest())
}

// rest is why what is left up to the lid makes no further level.
func (s *whySayer) rest() string {
	switch s.Further {
	case FurtherSet:
		return "; nothing waits for another level"
	case FurtherShelves:
		return "; no shelf for another level is left"
	case FurtherPosts:
		return "; the posts that are left make no level of it"
	}
	return ""
}

// order is the sentence on what a probe or a spyhole decided.
func (s *whySayer) order() string {
	o := s.Order
	usual := "tall levels low"
	switch leaf := s.b.Towers[s.b.Levels[s.Over].Tower].Leaf; {
	case leaf && s.b.Load.Wishes.Tall == layout.TallHigh:
		usual = "tall levels high"
	case leaf && s.b.Load.Wishes.Tall == layout.TallAlternate:
		usual = "tall and short levels in turn"
	}
	where := o.Tower
	if where == "" || len(s.b.Towers) == 1 {
		where = "tower"
	}
	if o.Spyhole != nil {
		return fmt.Sprintf("The spyhole at %s decided the order: with %s no level of the %s would bring the cones before it.", measure.ShortClock(o.Spyhole.At), usual, where)
	}
	shelf := fmt.Sprintf("the shelf of level %d", o.Level)
	for i := range s.b.Levels {
		if v := &s.b.Levels[i]; s.b.Towers[v.Tower].Name == o.Tower && v.Number == o.Level {
			shelf = "the shelf of " + s.names.LevelName(i)
		}
	}
	if o.Gap < 0.5 {
		return fmt.Sprintf("The probe at %s decided the order: with %s %s would be level with it.", measure.ShortClock(o.Probe.At), usual, shelf)
	}
	return fmt.Sprintf("The probe at %s decided the order: with %s %s would be %s from it.", measure.ShortClock(o.Probe.At), usual, shelf, s.down(o.Gap))
}
