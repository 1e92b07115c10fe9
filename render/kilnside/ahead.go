package kilnside

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/edit"
	"threepost/layout/measure"
	"threepost/layout/session"
	"threepost/layout/stacks"
)

// Ahead is an answer for one pot that is too tall by a usual figure.
type Ahead struct {
	Pot   string   `json:"pot"`
	By    string   `json:"by"` // "6", as it is typed
	Says  string   `json:"says"`
	More  string   `json:"more"`
	Room  Room     `json:"room"`
	Posts *Picture `json:"posts"`
}

// Usual are the figures that a pot is too tall by at the press of a key, as
// they are typed: 3, 6 and 12 mm, in inches 1/8, 1/4 and 1/2.
func Usual(units measure.Units) []string {
	if units == measure.Inches {
		return []string{"1/8", "1/4", "1/2"}
	}
	return []string{"3", "6", "12"}
}

// mostAhead bounds the work for one saved file: changes tried.
const mostAhead = 90

// WorkAhead adds to the steps of an open load the answers that a saved file can
// give with no program at hand: for pots that turn out too tall, other posts
// under the shelf over them, where that is all that has to change. Pots of one
// row on one level have the same answers.
func (s *Steps) WorkAhead(of *session.Session, words measure.Words) {
	type key struct{ ware, by, place string }
	known := map[key]*Ahead{}
	under := s.shelvesOver()
	tried := 0
	units := measure.Units(s.Units)
	for i := range s.Steps {
		step := &s.Steps[i]
		if step.Level < 0 || step.Kind != Pots && step.Kind != Stick {
			continue
		}
		for _, ask := range step.Ask {
			p, err := of.Load().Find(ask.Pot)
			if err != nil {
				continue
			}
			for _, by := range Usual(units) {
				k := key{p.Ware, by, s.Levels[step.Level].ID + " " + under[ask.Pot]}
				a, ok := known[k]
				if !ok && tried < mostAhead {
					tried++
					a = s.ahead(of, words, step, ask.Pot, by)
					known[k] = a
				}
				if a != nil {
					one := *a
					one.Pot = ask.Pot
					step.Ahead = append(step.Ahead, one)
				}
			}
		}
	}
}

// shelvesOver names, for every pot that a stick over posts asks about, the
// stick: a full shelf under two half towers has two.
func (s *Steps) shelvesOver() map[string]string {
	over := map[string]string{}
	for i := range s.Steps {
		if step := &s.Steps[i]; step.Kind == Stick {
			for _, ask := range step.Ask {
				over[ask.Pot] = step.Now[0]
			}
		}
	}
	return over
}

// ahead is the answer for one pot, or nil when it takes more than other posts
// under the shelf over it.
func (s *Steps) ahead(of *session.Session, words measure.Words, step *Step, pot, by string) *Ahead {
	f, err := of.Fit(session.Change{Kind: session.TooTall, Pot: pot, By: by}, s.Standing(step.N))
	if err != nil {
		return nil
	}
	a, ok := f.Next() // the simplest comes first
	if !ok || !simple(a.Edits) {
		return nil
	}
	next, err := edit.Apply(of.Load(), a.Edits...)
	if err != nil {
		return nil
	}
	b, err := stacks.Build(next)
	before, _ := of.Built()
	if err != nil || before == nil {
		return nil
	}
	if !samePlaces(before, b, pot) {
		return nil
	}
	w := &way{b: b, units: measure.Units(s.Units), words: words}
	level := w.levelAt(s.Levels[step.Level].ID)
	posts := Changed(before, b, w.near)
	if level < 0 || posts != nil && posts.level != s.Levels[step.Level].ID {
		return nil // posts of another place, which a saved list cannot follow
	}
	return &Ahead{By: by, Says: words.Say(a.Says), More: words.Say(a.Detail), Room: w.room(level), Posts: posts}
}

// simple tells whether edits change rows of ware and at most the posts under
// one shelf, and nothing else that hands would see.
func simple(edits []layout.Edit) bool {
	posts := 0
	for i := range edits {
		switch edits[i].Act {
		case layout.SetPosts:
			posts++
		case layout.SetWare, layout.SwapPots, layout.SetPot, layout.Withdraw:
		default:
			return false
		}
	}
	return posts <= 1
}

// samePlaces tells whether every pot stands where one of its row stood, but for
// one pot that may have a row of its own now.
func samePlaces(before, after *stacks.Built, pot string) bool {
	type place struct {
		level int
		at    plane.Vec
	}
	was := map[place]layout.Pot{}
	for i := range before.Pots {
		was[place{before.Pots[i].Level, before.Pots[i].At}] = before.Pots[i].Pot
	}
	if len(before.Pots) != len(after.Pots) {
		return false
	}
	for i := range after.Pots {
		p := &after.Pots[i]
		old, ok := was[place{p.Level, p.At}]
		if !ok || old.Ware != p.Pot.Ware && old.String() != pot {
			return false
		}
	}
	return true
}
