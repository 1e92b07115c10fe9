package desk

import (
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/session"
)

// loadCalls are about the load as a whole.
func loadCalls() map[string]call {
	return map[string]call{
		"open": without((*Desk).open),
		"state": with(func(d *Desk, _ none) (*session.State, error) {
			return d.s.State(), nil
		}),
		"text":  with((*Desk).text),
		"apply": with((*Desk).apply),
		"undo": with(func(d *Desk, _ none) (*session.State, error) {
			return d.after(d.s.Undo())
		}),
		"redo": with(func(d *Desk, _ none) (*session.State, error) {
			return d.after(d.s.Redo())
		}),
		"restore": with(func(d *Desk, a struct {
			Text string `json:"text"`
			What string `json:"what"`
		}) (*session.State, error) {
			return d.after(d.s.Restore(a.Text, a.What))
		}),
		"try":    with((*Desk).try),
		"select": with((*Desk).choose),
		"accept": with(func(d *Desk, a struct {
			Finding string `json:"finding"`
			Reason  string `json:"reason"`
		}) (*session.State, error) {
			return d.after(d.s.Accept(a.Finding, a.Reason))
		}),
		"mends": with(func(d *Desk, a struct {
			Finding string `json:"finding"`
		}) (mends, error) {
			return mends{d.s.Mends(a.Finding)}, nil
		}),
		"offer": with(func(d *Desk, a struct {
			Base int         `json:"base"`
			Edit layout.Edit `json:"edit"`
			Says string      `json:"says"`
		}) (*session.State, error) {
			return d.after(d.s.Offer(a.Base, a.Edit, a.Says))
		}),
		"take": with(func(d *Desk, _ none) (*session.State, error) {
			return d.after(d.s.Take())
		}),
		"leave": with(func(d *Desk, _ none) (*session.State, error) {
			return d.after(d.s.Leave(), nil)
		}),
		"waits": with(func(d *Desk, a struct {
			Waits []session.Wait `json:"waits"`
		}) (*session.State, error) {
			return d.after(d.s.Waits(a.Waits), nil)
		}),
		"units": with(func(d *Desk, a struct {
			Units string `json:"units"`
		}) (*session.State, error) {
			return d.after(d.s.SetUnits(a.Units))
		}),
		"words": with((*Desk).speak),
		"find": with(func(d *Desk, a struct {
			Text string `json:"text"`
		}) (session.Found, error) {
			return d.s.Find(a.Text), nil
		}),
	}
}

// edits are acts that belong together and the name of doing them.
type edits struct {
	Edits []layout.Edit `json:"edits"`
	What  string        `json:"what"`
}

// mends are the ways out of a finding.
type mends struct {
	Mends []layout.Mend `json:"mends"`
}

// opening is a document to work at.
type opening struct {
	Text  string `json:"text"`
	Name  string `json:"name"`
	Words string `json:"words"` // "us" or "uk"; empty: as before
}

// open puts a load on the desk in place of what lay there.
func (d *Desk) open(a opening) (*session.State, error) {
	words := d.words
	if a.Words != "" {
		w, err := measure.ParseWords(a.Words)
		if err != nil {
			return nil, err
		}
		words = w
	}
	s, err := session.Open(a.Text, a.Name)
	if err != nil {
		return nil, err
	}
	s.SetWords(words)
	d.s, d.words = s, words
	d.hand, d.jobs, d.sight.chosen = hand{}, jobs{}, ""
	d.eye.opened()
	return s.State(), nil
}

// text is the load as a document.
func (d *Desk) text(none) (written, error) {
	text, err := d.s.Text()
	return written{text}, err
}

// written is a text: a load, or its ware as a spreadsheet reads it.
type written struct {
	Text string `json:"text"`
}

func (d *Desk) apply(a edits) (*session.State, error) {
	return d.after(d.s.Apply(a.Edits, a.What))
}

// speak chooses US or UK words.
func (d *Desk) speak(a struct {
	Words string `json:"words"`
}) (*session.State, error) {
	w, err := measure.ParseWords(a.Words)
	if err != nil {
		return nil, err
	}
	d.words = w
	return d.after(d.s.SetWords(w), nil)
}

// choose tells all about one thing and marks it in every picture.
func (d *Desk) choose(p session.Pick) (*session.Chosen, error) {
	c, err := d.s.Select(p)
	if err != nil {
		return nil, err
	}
	d.sight.chosen = ""
	if c.Kind == "pot" || c.Kind == "cones" {
		d.sight.chosen = c.ID
	}
	d.eye.mark(c)
	return c, nil
}
