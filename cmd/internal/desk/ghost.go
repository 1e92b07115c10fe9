package desk

import (
	"threepost/layout/session"
	"threepost/layout/stacks"
	"threepost/render/views"
)

// Ghost is what edits would make of the load, with where pots would stand in
// the top view.
type Ghost struct {
	*session.Ghost
	Marks []views.Mark `json:"marks"` // over the top view
}

// mostGhosts is how many pots are drawn where they would stand; more tell
// nothing to the eye.
const mostGhosts = 60

// try tells what edits would do and changes nothing.
func (d *Desk) try(a edits) (*Ghost, error) {
	g, err := d.s.Try(a.Edits)
	if err != nil {
		return nil, err
	}
	out := &Ghost{Ghost: g, Marks: []views.Mark{}}
	b, _ := d.s.Built()
	v := &d.sight.top
	if b == nil || !v.drawn || v.options.Level >= len(b.Levels) {
		return out, nil
	}
	sub := views.Subject{Built: b, Order: d.s.Order()}
	beside := views.Beside(b, v.options.Level)
	for i := range g.Pots {
		p := &g.Pots[i]
		k := potOf(b, p.ID)
		if k < 0 || p.Out || p.Level != v.options.Level && !contains(beside, p.Level) || i >= mostGhosts {
			continue
		}
		out.Marks = append(out.Marks, d.easel().Held(sub, v.options, views.HeldOptions{Pot: k, At: p.To, Turn: p.Turn, Ring: &p.To, Pair: -1})...)
	}
	return out, nil
}

// potOf is a built pot by its name, or -1.
func potOf(b *stacks.Built, name string) int {
	for i := range b.Pots {
		if b.Pots[i].Pot.String() == name {
			return i
		}
	}
	return -1
}
