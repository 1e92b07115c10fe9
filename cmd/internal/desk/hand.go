package desk

import (
	"threepost/geometry/plane"
	"threepost/layout/session"
	"threepost/render/views"
)

// handCalls are about what is in hand: a pot, or a shelf.
func handCalls() map[string]call {
	return map[string]call{
		"hold": with((*Desk).hold),
		"move": with(func(d *Desk, a point) (*Held, error) {
			if d.hand.view == view3D {
				return d.eye.moveTo(a.X, a.Y)
			}
			return d.moveTop(a.X, a.Y)
		}),
		"nudge": with(func(d *Desk, a struct {
			DX   float64 `json:"dx"`
			DY   float64 `json:"dy"`
			Turn float64 `json:"turn"`
		}) (*Held, error) {
			d.hand.offset = nil
			return d.held(d.s.Nudge(a.DX, a.DY, a.Turn))
		}),
		"over": with(func(d *Desk, a level) (*Held, error) {
			return d.held(d.s.Over(a.Tower, a.Level))
		}),
		"drop": with(func(d *Desk, a struct {
			Snap bool `json:"snap"`
		}) (*session.State, error) {
			return d.after(d.s.Drop(a.Snap))
		}),
		"cancel": with(func(d *Desk, _ none) (*session.State, error) {
			d.sight.lifted = nil
			d.sight.profile = profileView{}
			return d.after(d.s.Cancel(), nil)
		}),
		"lift": with(func(d *Desk, a level) (*Lifted, error) {
			return d.lifted(d.s.Lift(a.Tower, a.Level))
		}),
		"stop": with((*Desk).stop),
		"put": with(func(d *Desk, _ none) (*session.State, error) {
			d.sight.lifted = nil
			return d.after(d.s.Put())
		}),
	}
}

// level names a level by its tower, from 1.
type level struct {
	Tower string `json:"tower"`
	Level int    `json:"level"`
}

// point is a place in a picture, px.
type point struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// The views a pot can be taken in.
const (
	viewTop  = "top"
	view3D   = "3d"
	viewKeys = "keys"
)

// hand is what is held, and where it was taken.
type hand struct {
	pot    string
	view   string
	at     *plane.Vec // where the pointer was when the pot was taken, mm
	offset *plane.Vec // from the pointer to the middle of the pot, mm
}

// Held is a pot in hand with what to draw over the top view, px.
type Held struct {
	*session.Held
	View  string       `json:"view"`
	DX    float64      `json:"dx"` // px the pot's own group has moved in the top view
	DY    float64      `json:"dy"`
	Marks []views.Mark `json:"marks"` // over the top view
	Flag  *Flag        `json:"flag"`  // at the least gap in the 3D picture
}

// Flag is a gap's figure in the 3D picture, px.
type Flag struct {
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
	Text  string  `json:"text"`
	Grade string  `json:"grade"`
}

// hold takes a pot: one that stands, one that waits, or the next of a row.
func (d *Desk) hold(a struct {
	Pot  string   `json:"pot"`
	Ware string   `json:"ware"`
	View string   `json:"view"`
	X    *float64 `json:"x"` // where the pointer took it, px in the view
	Y    *float64 `json:"y"`
}) (*Held, error) {
	pot := a.Pot
	if pot == "" {
		pot = a.Ware
	}
	view := a.View
	if view != view3D && view != viewKeys {
		view = viewTop
	}
	h, err := d.s.Hold(pot)
	if err != nil {
		return nil, err
	}
	d.hand = hand{pot: h.Pot, view: view}
	if a.X != nil && a.Y != nil && view == viewTop {
		d.hand.at = vec(d.sight.top.frame.MM(*a.X, *a.Y))
	}
	d.eye.taken()
	return d.held(h, nil)
}

// moveTop moves the held pot with the pointer in the top view. A pot that was
// taken off its middle keeps that distance; one from the table comes to the
// pointer.
func (d *Desk) moveTop(x, y float64) (*Held, error) {
	return d.moveBy(d.sight.top.frame.MM(x, y))
}

func (d *Desk) moveBy(to plane.Vec) (*Held, error) {
	if d.hand.offset == nil {
		d.hand.offset = &plane.Vec{}
		if now := d.s.Holding(); now != nil && now.From != nil {
			from := to
			if d.hand.at != nil {
				from = *d.hand.at
			}
			if off := plane.Sub(now.At, from); plane.Length(off) < grasp {
				d.hand.offset = &off
			}
		}
	}
	return d.held(d.s.Move(plane.Add(to, *d.hand.offset)))
}

// grasp is how far from a pot's middle it can be taken, mm; farther off, the
// pot comes to the pointer.
const grasp = 200

// held adds what the pictures show of a held pot.
func (d *Desk) held(h *session.Held, err error) (*Held, error) {
	if err != nil {
		return nil, err
	}
	out := &Held{Held: h, View: d.hand.view}
	d.overTop(out)
	d.eye.heldNow(out)
	return out, nil
}

func vec(v plane.Vec) *plane.Vec { return &v }
