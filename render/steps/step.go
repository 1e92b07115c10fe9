package steps

import (
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
)

// Kind is what a step is about.
type Kind int

// The kinds of steps, in the order in which a level has them.
const (
	Posts  Kind = iota // set posts; also the word that a top level takes none
	Pot                // set one pot
	Series             // set a row of alike pots
	Cones              // set a cone pack
	Stick              // prove the height over the posts
	Rim                // measure the shelf
	Shelf              // lay a shelf
	Lid                // prove the room to the lid
)

// Step is one line of a legend, and one screen of the phone.
type Step struct {
	Kind     Kind
	Acts     []int  // into Order.Acts; none for what is only told
	Level    int    // into Built.Levels: on whose legend it stands
	Label    string // "A B C", "1-6", "stick"
	Sentence string // in the person's words and units, without a full stop
	Figures  []string
	Pots     []int  // into Built.Pots, in order of setting
	Posts    []int  // into Built.Posts
	Shelf    int    // into Built.Shelves; -1: none
	Each     []Step // a series pot by pot
}

// Level is the legend of one level.
type Level struct {
	Level int    // into Built.Levels
	Name  string // "Left 2"
	Takes float64
	First string // what must be in the kiln before, as a sentence; usually empty
	Steps []Step
}

// List is all legends of a load, in order of setting.
type List struct {
	Levels []Level
	tell   *teller
}

// Of tells a whole order. Units and words are the person's; empty units are
// the load's.
func Of(b *stacks.Built, o *order.Order, units measure.Units, words measure.Words) List {
	if units == "" {
		units = b.Load.Units
	}
	t := &teller{b: b, o: o, units: units, words: words}
	list := List{tell: t}
	for k := range o.Levels {
		list.Levels = append(list.Levels, t.level(k))
	}
	return list
}

// LevelOf is the legend of a level (into Built.Levels), or nil.
func (l *List) LevelOf(level int) *Level {
	for i := range l.Levels {
		if l.Levels[i].Level == level {
			return &l.Levels[i]
		}
	}
	return nil
}

// Sequence is every step of the load in the order in which hands do it, level
// after level as Order.Acts has them: the phone's way through the load.
func (l *List) Sequence() []Step {
	at := map[int]*Step{}
	for i := range l.Levels {
		for k := range l.Levels[i].Steps {
			s := &l.Levels[i].Steps[k]
			if len(s.Acts) > 0 {
				at[s.Acts[0]] = s
			}
		}
	}
	var out []Step
	for i := range l.tell.o.Acts {
		if s := at[i]; s != nil {
			out = append(out, *s)
		}
	}
	return out
}

// level tells one level of the order.
func (t *teller) level(k int) Level {
	lo := &t.o.Levels[k]
	at := &t.b.Levels[lo.Level]
	out := Level{Level: lo.Level, Name: capital(t.words.Say(at.Name)), Takes: at.Takes, First: t.first(lo)}
	add := func(s Step) {
		s.Level = lo.Level
		s.Sentence = t.words.Say(s.Sentence)
		out.Steps = append(out.Steps, s)
	}
	t.laid(lo.Level, add)
	if at.UnderLid && len(lo.PostsOn) == 0 {
		add(t.top(lo))
	}
	named := "" // the ware last named: alike pots after it need no name
	for i := range t.o.Acts {
		a := &t.o.Acts[i]
		if a.Order != k {
			continue
		}
		switch a.Kind {
		case order.ActPosts:
			add(t.posts(i))
		case order.ActPot:
			add(t.pot(i, lo, &lo.Pots[a.Step], &named))
		case order.ActPattern:
			add(t.series(i, lo, &lo.Patterns[a.Pattern], &named))
		case order.ActCones:
			add(t.cones(i, &lo.Pots[a.Step]))
		case order.ActStick:
			add(t.stick(i, lo))
		}
	}
	add(t.rim(lo.Level))
	t.over(lo.Level, add)
	for i := range t.o.Acts {
		if a := &t.o.Acts[i]; a.Order == k && a.Kind == order.ActLid {
			add(t.lid(i, lo))
		}
	}
	return out
}
