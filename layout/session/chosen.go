package session

import (
	"fmt"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/planner"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// Select tells all about one thing. An empty pick chooses nothing.
func (s *Session) Select(p Pick) (*Chosen, error) {
	switch {
	case p.Finding != "":
		return s.chooseFinding(p.Finding)
	case p.Pot != "":
		return s.choosePot(p.Pot)
	case p.Ware != "":
		return s.chooseWare(p.Ware)
	case p.Post != nil:
		return s.choosePost(*p.Post)
	case p.Tower != "":
		return s.chooseLevel(p.Tower, p.Level)
	}
	return chosen("", "", ""), nil
}

func chosen(kind, id, title string) *Chosen {
	return &Chosen{Kind: kind, ID: id, Title: title, Why: []string{}, Nears: []Near{}, Acts: []Act{}, Pots: []string{}, Level: -1}
}

// choosePot tells a pot's neighbours and what can be done with it.
func (s *Session) choosePot(id string) (*Chosen, error) {
	p, err := s.now.Find(id)
	if err != nil {
		return nil, err
	}
	w := s.now.WareOf(p)
	i := s.potIndex(id)
	if i < 0 {
		c := chosen("pot", p.String(), title(p.Ware))
		c.Line = s.wareLine(w)
		c.Place = "On the table."
		c.Acts = append(c.Acts, Act{Say: "Room for this one", Call: "room"})
		return c, nil
	}
	b, _ := s.Built()
	q := &b.Pots[i]
	c := chosen("pot", p.String(), s.say(title(s.Checker().Name(i))))
	if q.Cones != nil {
		c.Kind = "cones"
	}
	c.Line, c.Level, c.At, c.Pots = s.wareLine(w), q.Level, q.At, []string{p.String()}
	if q.Level >= 0 {
		c.Place = s.say(title(s.Checker().LevelName(q.Level)) + ", " + measure.SayClock(plane.Bearing(q.At)) + ".")
	}
	if q.Locked {
		c.Place += " Locked."
	}
	nears := s.Checker().Watch(i, q.At, q.Turn)
	for k := range nears {
		if len(c.Nears) < 4 {
			c.Nears = append(c.Nears, s.near1(b, q.Level, &nears[k]))
		}
	}
	if q.Body.Turns {
		c.Acts = append(c.Acts, Act{Say: "Turn", Call: "turn"})
	}
	c.Acts = append(c.Acts, Act{Say: "Swap", Call: "swap"},
		Act{Say: onOff(q.Locked, "Unlock", "Lock here"), Edits: []layout.Edit{{Act: layout.LockPot, Pot: p.String(), On: !q.Locked}}},
		Act{Say: "Back to the table", Edits: []layout.Edit{{Act: layout.Withdraw, Pot: p.String()}}})
	return c, nil
}

// wareLine is "95 × 86, Ida 31, oat".
func (s *Session) wareLine(w *layout.Ware) string {
	if w == nil {
		return ""
	}
	parts := []string{s.size(w)}
	if who := strings.TrimSpace(w.Owner + " " + w.Ticket); who != "" {
		parts = append(parts, who)
	}
	if w.Glaze.Name != "" {
		parts = append(parts, w.Glaze.Name)
	}
	return strings.Join(append(parts, marks(w)...), ", ")
}

func (s *Session) chooseWare(name string) (*Chosen, error) {
	w := s.now.WareOf(layout.Pot{Ware: name})
	if w == nil {
		return nil, fmt.Errorf("there is no ware %q on the list", name)
	}
	c := chosen("ware", name, capital(silhouette.Named(w.Count, name)))
	c.Line = s.wareLine(w)
	waits := 0
	for _, p := range w.Pots() {
		if s.stands(p.String()) {
			c.Pots = append(c.Pots, p.String())
		} else {
			waits++
		}
	}
	state := s.State()
	for i := range state.Ware {
		if state.Ware[i].Name == name {
			if c.Place = capital(state.Ware[i].Where) + "."; state.Ware[i].Why != "" {
				c.Place += " " + capital(strings.TrimSuffix(state.Ware[i].Why, ".")) + "."
			}
		}
	}
	c.Acts = append(c.Acts, Act{Say: "Profile", Call: "profile"}, Act{Say: "Duplicate", Call: "duplicate"})
	if waits > 0 {
		c.Acts = append(c.Acts, Act{Say: "Room for one more", Call: "room"})
	}
	c.Acts = append(c.Acts, Act{Say: "Take off the list", Edits: []layout.Edit{{Act: layout.RemoveWare, Other: name}}})
	return c, nil
}

func (s *Session) chooseLevel(tower string, number int) (*Chosen, error) {
	i := s.levelIndex(tower, number)
	if i < 0 {
		return nil, fmt.Errorf("there is no level %d of %q", number, tower)
	}
	l := &s.State().Levels[i]
	c := chosen("level", fmt.Sprintf("%s:%d", tower, number), s.say(l.Title))
	c.Level = i
	c.Line = l.Takes + ", " + l.MassSaid
	if l.Room != nil {
		c.Line += ", " + l.Room.Said
	}
	if c.Place = capital(l.Kinds); c.Place == "" {
		c.Place = "Nothing stands here"
	}
	c.Place += "."
	if l.Balance != nil {
		c.Place += " " + capital(l.Balance.Said) + "."
	}
	b, _ := s.Built()
	for _, p := range b.Levels[i].Pots {
		c.Pots = append(c.Pots, b.Pots[p].Pot.String())
	}
	c.Why = s.whyLevel(b, i)
	c.Acts = append(c.Acts, Act{Say: "Spread", Call: "spread"}, Act{Say: "Raise or lower the shelf", Call: "lift"},
		Act{Say: onOff(l.Locked, "Unlock", "Lock this level"), Edits: []layout.Edit{{Act: layout.LockLevel, Tower: tower, Level: number, On: !l.Locked}}})
	c.Acts = append(c.Acts, s.swapActs(i)...)
	c.Acts = append(c.Acts, Act{Say: "Take the shelf out", Edits: []layout.Edit{{Act: layout.RemoveLevel, Tower: tower, Level: number}}})
	return c, nil
}

// whyLevel is why a level has its height, and once what a probe or a spyhole
// decided about its place.
func (s *Session) whyLevel(b *stacks.Built, level int) []string {
	out := []string{}
	order := ""
	for _, r := range planner.WhyLevel(b, level, s.Checker(), s.Report()) {
		out = append(out, s.say(r.Say(b, s.now.Units)))
		if o := r.SayOrder(b, s.now.Units); o != "" {
			order = s.say(o)
		}
	}
	if order != "" {
		out = append(out, order)
	}
	return out
}

// swapActs are the levels of the same tower that a level can change places
// with; a locked one cannot.
func (s *Session) swapActs(level int) []Act {
	b, _ := s.Built()
	v := &b.Levels[level]
	tower := b.Towers[v.Tower].Name
	var out []Act
	if own := s.levelOf(b, level); own.Locked || own.Standing {
		return nil
	}
	for _, w := range b.Towers[v.Tower].Levels {
		if other := s.levelOf(b, w); w != level && !other.Locked && !other.Standing {
			out = append(out, Act{Say: "Swap with " + s.say(s.Checker().LevelName(w)),
				Edits: []layout.Edit{{Act: layout.SwapLevels, Tower: tower, Level: v.Number, OtherLevel: b.Levels[w].Number}}})
		}
	}
	return out
}

func (s *Session) choosePost(p PostAt) (*Chosen, error) {
	b, refused := s.Built()
	if b == nil {
		return nil, fmt.Errorf("%s", refused)
	}
	v := s.levelIndex(p.Tower, p.Level)
	for i := range b.Posts {
		if q := &b.Posts[i]; v >= 0 && q.Level == v && q.Letter == p.Letter {
			return s.tellPost(b, i), nil
		}
	}
	return nil, fmt.Errorf("there is no post %s under level %d of %q", p.Letter, p.Level, p.Tower)
}

func (s *Session) tellPost(b *stacks.Built, i int) *Chosen {
	q := &b.Posts[i]
	v := &b.Levels[q.Level]
	c := chosen("post", fmt.Sprintf("%s:%s:%d", q.Letter, b.Towers[v.Tower].Name, v.Number), "Post "+q.Letter)
	c.Line = s.say(s.makeUp(q.MakeUp, " + ") + ", under " + s.Checker().LevelName(q.Level))
	c.At, c.Level = q.At, q.Level
	for _, load := range s.State().Levels[q.Level].loads() {
		if load.Letter == q.Letter {
			c.Place = "Carries " + load.Said + "."
		}
	}
	c.Acts = append(c.Acts, Act{Say: "Raise or lower the shelf", Call: "lift"})
	return c
}

// loads are the weights on the posts of a level.
func (l *Level) loads() []Load {
	if l.Balance == nil {
		return nil
	}
	return l.Balance.Posts
}

func (s *Session) chooseFinding(key string) (*Chosen, error) {
	state := s.State()
	for i := range state.Findings {
		f := &state.Findings[i]
		if f.Key != key {
			continue
		}
		c := chosen("finding", key, f.Sentence)
		c.Line, c.Pots = f.Word, append(c.Pots, f.Pots...)
		c.At = plane.Vec{f.At[0], f.At[1]}
		for _, t := range f.Things {
			if v := s.levelIndex(t.Tower, t.Level); v >= 0 && c.Level < 0 {
				c.Level = v
			}
		}
		for _, m := range s.Mends(key) {
			c.Acts = append(c.Acts, Act{Say: s.say(m.Say), Edits: m.Edits})
		}
		if f.Grade == layout.Watch && f.Accepted == "" {
			c.Acts = append(c.Acts, Act{Say: "Accept with a reason", Call: "accept"})
		}
		return c, nil
	}
	return nil, fmt.Errorf("that finding is gone")
}
