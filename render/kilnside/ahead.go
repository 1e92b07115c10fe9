package kilnside

import (
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
const mostAhead = 240

// WorkAhead adds to the steps of an open load the answers that a saved file can
// give with no program at hand: for pots that turn out too tall, other posts
// under the shelf over them, where that is all that has to change. Pots of one
// row on one level have the same answers.
func (s *Steps) WorkAhead(of *session.Session, words measure.Words) {
	type key struct{ ware, by, level string }
	known := map[key]*Ahead{}
	tried := 0
	units := measure.Units(s.Units)
	for i := range s.Steps {
		step := &s.Steps[i]
		if step.Level < 0 || step.Kind != Pots && step.Kind != Stick {
			continue
		}
		level := s.Levels[step.Level].ID
		for _, ask := range step.Ask {
			p, err := of.Load().Find(ask.Pot)
			if err != nil {
				continue
			}
			for _, by := range Usual(units) {
				k := key{p.Ware, by, level}
				if step.Kind == Stick {
					k.level += "|" + step.Now[0]
				}
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

// ahead is the answer for one pot, or nil when it takes more than other posts
// under the shelf over it.
func (s *Steps) ahead(of *session.Session, words measure.Words, step *Step, pot, by string) *Ahead {
	f, err := of.Fit(session.Change{Kind: session.TooTall, Pot: pot, By: by}, s.Standing(step.N))
	if err != nil {
		return nil
	}
	const looks = 2 // simple answers come first
	for range looks {
		a, ok := f.Next()
		if !ok {
			return nil
		}
		if !onlyPosts(a.Edits) {
			continue
		}
		next, err := edit.Apply(of.Load(), a.Edits...)
		if err != nil {
			return nil
		}
		b, err := stacks.Build(next)
		if err != nil {
			return nil
		}
		before, _ := of.Built()
		w := &way{b: b, units: measure.Units(s.Units), words: words}
		level := w.levelAt(s.Levels[step.Level].ID)
		if level < 0 || before == nil {
			return nil
		}
		posts := Changed(before, b, w.near)
		if posts == nil || posts.level != s.Levels[step.Level].ID {
			continue // posts of another place, which a saved list cannot follow
		}
		return &Ahead{By: by, Says: words.Say(a.Says), More: words.Say(a.Detail), Room: w.room(level), Posts: posts}
	}
	return nil
}

// onlyPosts tells whether edits change rows of ware and posts under one shelf,
// and nothing else that hands would see.
func onlyPosts(edits []layout.Edit) bool {
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
	return posts == 1
}
