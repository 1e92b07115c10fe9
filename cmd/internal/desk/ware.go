package desk

import (
	"encoding/json"

	"threepost/layout/session"
	"threepost/render/views"
)

// wareCalls are about the list of ware, profiles, kiln and furniture.
func wareCalls() map[string]call {
	return map[string]call{
		"rows": with(func(d *Desk, a struct {
			Text string `json:"text"`
		}) (session.Rows, error) {
			return d.s.Rows(a.Text), nil
		}),
		"row": with(func(d *Desk, a struct {
			Name   string         `json:"name"`
			Fields session.Fields `json:"fields"`
		}) (*session.State, error) {
			return d.after(d.s.Row(a.Name, a.Fields))
		}),
		"count": with(func(d *Desk, a struct {
			Name  string `json:"name"`
			Count int    `json:"count"`
		}) (*session.State, error) {
			return d.after(d.s.Count(a.Name, a.Count))
		}),
		"duplicate": with(func(d *Desk, a named) (*session.State, error) {
			return d.after(d.s.Duplicate(a.Name))
		}),
		"remove": with(func(d *Desk, a named) (*session.State, error) {
			return d.after(d.s.Remove(a.Name))
		}),
		"csv": with(func(d *Desk, _ none) (written, error) {
			return written{d.s.CSV()}, nil
		}),
		"profile": with((*Desk).profile),
		"knot":    with((*Desk).knot),
		"addpoint": with(func(d *Desk, a struct {
			Index int `json:"index"`
		}) (*form, error) {
			return d.form(d.s.AddPoint(a.Index))
		}),
		"removepoint": with(func(d *Desk, a struct {
			Index int `json:"index"`
		}) (*form, error) {
			return d.form(d.s.RemovePoint(a.Index))
		}),
		"measure": with(func(d *Desk, a struct {
			What string `json:"what"`
			Text string `json:"text"`
		}) (*form, error) {
			return d.form(d.s.Measure(a.What, a.Text))
		}),
		"keep": with(func(d *Desk, _ none) (*session.State, error) {
			d.sight.profile = profileView{}
			return d.after(d.s.Keep())
		}),
		"kiln": with(func(d *Desk, _ none) (*session.Setup, error) {
			return d.s.Setup(), nil
		}),
		"setup": with(func(d *Desk, a struct {
			Part   string          `json:"part"`
			Fields json.RawMessage `json:"fields"`
		}) (*session.State, error) {
			return d.after(d.s.SetUp(a.Part, a.Fields))
		}),
		"addshelf": with(func(d *Desk, _ none) (choices, error) {
			return choices{d.s.ShelfChoices()}, nil
		}),
		"sides": with(func(d *Desk, _ none) (choices, error) {
			return choices{d.s.SideChoices()}, nil
		}),
	}
}

// named is a row of ware by its name.
type named struct {
	Name string `json:"name"`
}

// choices are several things to do.
type choices struct {
	Choices []session.Choice `json:"choices"`
}

// form is the profile of a row with its picture.
type form struct {
	*session.Form
	Picture views.Picture `json:"picture"`
}

// profileView is the profile editor on the page.
type profileView struct {
	w, h  float64
	knot  int // that is held, -1: none
	frame views.Frame
}

// profile opens the profile of a row in a picture of w by h px.
func (d *Desk) profile(a struct {
	Ware string  `json:"ware"`
	W    float64 `json:"w"`
	H    float64 `json:"h"`
}) (*form, error) {
	d.sight.profile = profileView{w: size(a.W, 360), h: size(a.H, 360), knot: -1}
	return d.form(d.s.Profile(a.Ware))
}

// knot moves a point of the profile: to a place in the picture, or to figures.
func (d *Desk) knot(a struct {
	Index    int      `json:"index"`
	X        *float64 `json:"x"`
	Y        *float64 `json:"y"`
	Height   float64  `json:"height"`
	Diameter float64  `json:"diameter"`
	Done     bool     `json:"done"` // the knot is let go
}) (*form, error) {
	v := &d.sight.profile
	v.knot = a.Index
	if a.X != nil && a.Y != nil {
		at := v.frame.MM(*a.X, *a.Y)
		a.Diameter, a.Height = 2*abs(at[0]), at[1]
	}
	if a.Done {
		v.knot = -1
	}
	return d.form(d.s.Knot(a.Index, a.Height, a.Diameter))
}

// form draws the profile that is open.
func (d *Desk) form(f *session.Form, err error) (*form, error) {
	if err != nil {
		return nil, err
	}
	v := &d.sight.profile
	o := views.ProfileOptions{W: size(v.w, 360), H: size(v.h, 360), Ware: &f.Ware, Knot: v.knot}
	if v.knot >= 0 && v.knot < len(f.Knots) {
		o.Flag = f.Knots[v.knot].Said
	}
	p := d.easel().Profile(o)
	v.frame = p.Frame
	return &form{Form: f, Picture: p}, nil
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
