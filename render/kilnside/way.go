package kilnside

import (
	"math"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/render/steps"
)

// Of is the way through a built load. Units and words are the person's; empty
// units are the load's. Every pot, post and shelf of the load is in exactly one
// step, in an order that o allows.
func Of(b *stacks.Built, o *order.Order, units measure.Units, words measure.Words) Steps {
	if units == "" {
		units = b.Load.Units
	}
	if units == "" {
		units = measure.MM
	}
	list := steps.Of(b, o, units, words)
	w := &way{b: b, o: o, units: units, words: words, told: list.Sequence(), drawn: map[string]int{}}
	w.out = Steps{
		Title: b.Load.Title, Kiln: b.Load.Kiln.Name, Units: string(units), Lid: "lid", Elevation: w.elevation(),
		Words: Words{Post: words.Say("post"), Posts: words.Say("posts"), Shelf: words.Say("shelf")},
	}
	if w.front() {
		w.out.Lid = "ceiling"
	}
	for i := range b.Levels {
		w.out.Levels = append(w.out.Levels, Level{ID: w.levelID(i), Title: capital(words.Say(b.Levels[i].Name))})
	}
	for i := range b.Pots {
		if b.Pots[i].Ware != nil {
			w.out.Set++
		}
	}
	w.before()
	for i := 0; i < len(w.told); {
		i += w.act(i)
	}
	w.after()
	w.count()
	return w.out
}

// way is the list while it is made.
type way struct {
	b     *stacks.Built
	o     *order.Order
	units measure.Units
	words measure.Words
	told  []steps.Step // one an act, in the order of Order.Acts
	out   Steps
	drawn map[string]int // pictures by what they show, into out.Pictures
	rod   bool           // the stick has been explained
	ware  string         // set last
}

func (w *way) front() bool { return w.b.Load.Kiln.Opens == layout.Front }

// add ends a step: its words are put into the person's, its ticks shortened.
func (w *way) add(s Step) {
	s.Title = w.words.Say(s.Title)
	for i := range s.Says {
		s.Says[i].Text = w.words.Say(s.Says[i].Text)
	}
	for i := range s.Ticks {
		s.Ticks[i] = tick(s.Ticks[i])
	}
	s.Room = w.room(s.Level)
	w.out.Steps = append(w.out.Steps, s)
}

// count numbers the steps, tells each what comes next, and which pieces may be
// missing from then on.
func (w *way) count() {
	all := w.out.Steps
	for i := range all {
		all[i].N = i + 1
		all[i].Name = w.name(&all[i], all[i].Level)
		if l := all[i].Level; l >= 0 {
			w.out.Levels[l].Steps++
			all[i].K = w.out.Levels[l].Steps
		}
		if i+1 < len(all) {
			all[i].Next = "then " + w.name(&all[i+1], all[i].Level)
		}
	}
	for i := range all {
		if l := all[i].Level; l >= 0 {
			all[i].M = w.out.Levels[l].Steps
		}
	}
}

// name is a step inside a sentence; its place where that is another than here.
func (w *way) name(s *Step, here int) string {
	t := s.Title
	switch {
	case s.Kind == Shelf && s.Picture >= 0:
		return w.words.Say("the shelf of ") + w.levelName(s.Level)
	case s.Kind == Stick:
		t = w.words.Say("the " + s.Title)
	}
	if len(t) > 1 && t[0] >= 'A' && t[0] <= 'Z' && !(t[1] >= 'A' && t[1] <= 'Z') {
		t = strings.ToLower(t[:1]) + t[1:]
	}
	t = strings.Replace(t, "the Stick", "the stick", 1)
	if strings.HasPrefix(t, "ring of ") {
		t = "the " + t
	}
	if s.Level >= 0 && s.Level != here {
		t += ", " + w.levelName(s.Level)
	}
	return t
}

// act makes the step, or the steps, of the act at place i of the sequence, and
// tells how many acts they take.
func (w *way) act(i int) int {
	s := &w.told[i]
	a := &w.o.Acts[s.Acts[0]]
	switch s.Kind {
	case steps.Posts:
		w.posts(s, a)
	case steps.Shelf:
		return w.shelf(i)
	case steps.Rim:
		w.rim(s, a)
	case steps.Pot, steps.Series:
		return w.pots(i)
	case steps.Cones:
		w.cones(s, a)
	case steps.Stick:
		w.stick(s, a)
		if !w.sameNext(i, steps.Stick, steps.Lid) {
			w.photo(a.Level)
		}
	case steps.Lid:
		w.lid(s, a)
		if !w.sameNext(i, steps.Stick, steps.Lid) {
			w.photo(a.Level)
		}
	}
	return 1
}

// sameNext tells whether the next act proves a height of the same level too.
func (w *way) sameNext(i int, kinds ...steps.Kind) bool {
	if i+1 >= len(w.told) {
		return false
	}
	for _, k := range kinds {
		if w.told[i+1].Kind == k && w.o.Acts[w.told[i+1].Acts[0]].Level == w.o.Acts[w.told[i].Acts[0]].Level {
			return true
		}
	}
	return false
}

// room is what is left to the lid over a level and all that stands on it; of
// the whole kiln for -1.
func (w *way) room(level int) Room {
	over := map[int]bool{}
	w.climb(level, over)
	top := 0.0
	for i := range w.b.Levels {
		if level < 0 || over[i] {
			top = math.Max(top, w.b.Levels[i].Top)
		}
	}
	for i := range w.b.Pots {
		if level < 0 || over[w.b.Pots[i].Level] {
			top = math.Max(top, w.b.Pots[i].Solid.Top())
		}
	}
	mm := tenth(w.b.Height - top)
	return Room{MM: mm, Said: w.roomSaid(mm)}
}

func (w *way) climb(level int, over map[int]bool) {
	if level < 0 || over[level] {
		return
	}
	over[level] = true
	for _, a := range w.b.Levels[level].Above {
		w.climb(a, over)
	}
}

// roomSaid is a length that must not be promised larger than it is.
func (w *way) roomSaid(mm float64) string {
	return hold(measure.FormatLength(mm, w.units, measure.Down))
}

// near is a length to measure off.
func (w *way) near(mm float64) string {
	return hold(measure.FormatLengthTo(mm, w.units, measure.Nearest, measure.PostGrain))
}

// levelName is a level inside a sentence: "left 2", "the bottom".
func (w *way) levelName(level int) string {
	name := w.words.Say(w.b.Levels[level].Name)
	if name == "bottom" {
		return "the bottom"
	}
	return name
}

// levelID names a level in ids: "left side:2".
func (w *way) levelID(level int) string {
	v := &w.b.Levels[level]
	return w.b.Towers[v.Tower].Name + ":" + strconv.Itoa(v.Number)
}

// levelAt is the level of an id, or -1.
func (w *way) levelAt(id string) int {
	for i := range w.b.Levels {
		if w.levelID(i) == id {
			return i
		}
	}
	return -1
}

// wareOf is what one pot is called.
func (w *way) wareOf(pot int) string {
	if ware := w.b.Pots[pot].Ware; ware != nil {
		return silhouette.Singular(ware.Name)
	}
	return "cone pack"
}

// hold keeps a figure together at a line's end.
func hold(figure string) string { return strings.ReplaceAll(figure, " ", "\u00a0") }

// capital is words with a capital first letter.
func capital(words string) string {
	if words == "" || words[0] < 'a' || words[0] > 'z' {
		return words
	}
	return string(words[0]-'a'+'A') + words[1:]
}

// series joins words: "A", "A and C", "A, C and E".
func series(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// plain and strong are parts of a sentence.
func plain(text string) Part  { return Part{Text: text} }
func strong(text string) Part { return Part{Text: text, Bold: true} }
