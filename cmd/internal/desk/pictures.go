package desk

import (
	"errors"
	"fmt"
	"math"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/session"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/render/views"
)

// pictureCalls are the flat pictures of the page.
func pictureCalls() map[string]call {
	return map[string]call{
		"elevation": with((*Desk).elevation),
		"top":       with((*Desk).top),
		"plank":     with((*Desk).plank),
		"box":       with((*Desk).box),
		"aside":     with((*Desk).aside),
		"balance":   with((*Desk).balance),
		"first":     without((*Desk).first),
		"begin":     without((*Desk).beginLoad),
	}
}

// sight is what the pictures on the page show, so that a pointer in one of
// them has a meaning, and a held pot can be drawn over them.
type sight struct {
	chosen    string // the chosen pot
	top       topView
	elevation elevationView
	lifted    *session.Lifted
	profile   profileView
}

// topView is the top view on the page.
type topView struct {
	options views.TopOptions
	frame   views.Frame
	drawn   bool
}

// elevationView is the elevation on the page.
type elevationView struct {
	w, h  float64
	frame views.Frame
	drawn bool
}

// Sizes of pictures, px.
const (
	leastSize = 40
	mostSize  = 8000
)

// size is a wanted size kept within reason, or the usual one.
func size(want, usual float64) float64 {
	if !(want > 0) {
		return usual
	}
	return math.Min(mostSize, math.Max(leastSize, want))
}

// subject is the load that is drawn.
func (d *Desk) subject() (views.Subject, error) {
	b, refused := d.s.Built()
	if b == nil {
		return views.Subject{}, errors.New(refused)
	}
	return views.Subject{Built: b, Order: d.s.Order(), Findings: d.s.Report().Findings}, nil
}

// levelIndex is a level of a tower, from 1, as an index into Built.Levels.
func levelIndex(b *stacks.Built, tower string, number int) (int, error) {
	for i := range b.Levels {
		if b.Levels[i].Number == number && b.Towers[b.Levels[i].Tower].Name == tower {
			return i, nil
		}
	}
	return -1, fmt.Errorf("there is no level %d of %q", number, tower)
}

// activeLevel is where the page says that work is done; -1 when it says none.
func activeLevel(b *stacks.Built, at *level) int {
	if at == nil {
		return -1
	}
	i, err := levelIndex(b, at.Tower, at.Level)
	if err != nil {
		return -1
	}
	return i
}

// elevation draws the kiln cut through.
func (d *Desk) elevation(a struct {
	W       float64 `json:"w"`
	H       float64 `json:"h"`
	Compact bool    `json:"compact"`
	Active  *level  `json:"active"`
	Tower   string  `json:"tower"` // the active level, when it is not in active
	Level   int     `json:"level"`
	Chosen  *string `json:"chosen"`
}) (*views.Picture, error) {
	sub, err := d.subject()
	if err != nil {
		return nil, err
	}
	if a.Active == nil && a.Tower != "" {
		a.Active = &level{a.Tower, a.Level}
	}
	o := views.ElevationOptions{W: size(a.W, 520), H: size(a.H, 400), Compact: a.Compact, Active: activeLevel(sub.Built, a.Active), Chosen: d.sight.chosen}
	if a.Chosen != nil {
		o.Chosen = *a.Chosen
	}
	p := d.easel().Elevation(sub, o)
	d.sight.elevation = elevationView{o.W, o.H, p.Frame, true}
	return &p, nil
}

// top draws a level from above.
func (d *Desk) top(a struct {
	W      float64 `json:"w"`
	H      float64 `json:"h"`
	Tower  string  `json:"tower"`
	Level  int     `json:"level"`
	Turned bool    `json:"turned"` // 6 o'clock up: as seen from the back
	Chosen *string `json:"chosen"`
}) (*views.Picture, error) {
	sub, err := d.subject()
	if err != nil {
		return nil, err
	}
	o := views.TopOptions{W: size(a.W, 560), H: size(a.H, 560), Chosen: d.sight.chosen}
	if a.Chosen != nil {
		o.Chosen = *a.Chosen
	}
	if o.Level, err = levelIndex(sub.Built, a.Tower, a.Level); err != nil {
		return nil, err
	}
	if a.Turned {
		o.Turn = 180
	}
	if h := d.s.Holding(); h != nil {
		o.Held = h.Pot
	}
	p := d.easel().Top(sub, o)
	d.sight.top = topView{o, p.Frame, true}
	return &p, nil
}

// overTop adds what is drawn over the top view for a held pot.
func (d *Desk) overTop(h *Held) {
	h.Marks = []views.Mark{}
	v := &d.sight.top
	b, i := d.s.HeldBuilt()
	if !v.drawn || b == nil || v.options.Level >= len(b.Levels) {
		return
	}
	if h.Level != v.options.Level && !contains(views.Beside(b, v.options.Level), h.Level) {
		return
	}
	o := views.HeldOptions{Pot: i, At: h.At, Turn: h.Turn, Ring: h.Ring, Flag: h.Word, Grade: gradeOf(h.Grade), Pair: -1}
	stood := &b.Pots[i]
	o.Drawn = h.From == nil || stood.Turn != h.Turn
	if h.From != nil {
		h.DX, h.DY = v.frame.Move(plane.Sub(h.At, *h.From))
	}
	if h.Gap != nil {
		o.Bar = &[2]plane.Vec{{h.Gap.From[0], h.Gap.From[1]}, {h.Gap.To[0], h.Gap.To[1]}}
	}
	for k := range b.Pots {
		switch b.Pots[k].Pot.String() {
		case "":
		case h.Pair:
			o.Pair = k
		}
		if h.Before != "" && b.Pots[k].Pot.String() == h.Before {
			o.Leader = &views.Leader{To: k, Says: firstSentence(h.Order), After: after(h)}
		}
	}
	top := v.options
	top.Held = h.Pot
	sub := views.Subject{Built: b, Order: d.s.Order()}
	h.Marks = append(h.Marks, d.easel().Held(sub, top, o)...)
}

// after is what stands inside a pot that must wait for the held one.
func after(h *Held) string {
	if h.Nth > 0 {
		return fmt.Sprintf("after %d", h.Nth)
	}
	return "after it"
}

// firstSentence is a text up to its first full stop, without it.
func firstSentence(text string) string {
	for i := 0; i+1 < len(text); i++ {
		if text[i] == '.' && text[i+1] == ' ' {
			return text[:i]
		}
	}
	if n := len(text); n > 0 && text[n-1] == '.' {
		return text[:n-1]
	}
	return text
}

func gradeOf(word string) layout.Grade {
	switch word {
	case "problem":
		return layout.Problem
	case "watch":
		return layout.Watch
	}
	return layout.Note
}

func contains(list []int, want int) bool {
	for _, v := range list {
		if v == want {
			return true
		}
	}
	return false
}

// plank draws the ware on the table.
func (d *Desk) plank(a struct {
	W float64 `json:"w"`
	H float64 `json:"h"`

	Chosen string `json:"chosen"` // the row that is chosen
}) (*views.Picture, error) {
	st, l := d.s.State(), d.s.Load()
	bodies, _ := stacks.Bodies(l)
	o := views.PlankOptions{W: size(a.W, 1232), H: size(a.H, 130)}
	for pass := range 2 { // what waits stands first
		for i := range st.Ware {
			r := &st.Ware[i]
			if i >= len(l.Ware) || (r.Waits > 0) != (pass == 0) {
				continue
			}
			item := views.PlankItem{Ware: &l.Ware[i], Body: bodies[i], Count: r.Waits, Title: silhouette.Counted(r.Waits, r.Name), Note: waitNote(r)}
			if r.Waits == 0 {
				item.Count, item.Set, item.Title, item.Note = r.Set, true, capital(silhouette.Counted(0, r.Name)[2:]), setNote(r)
				if r.Count == 1 {
					item.Title = capital(r.Name)
				}
			}
			item.Chosen = a.Chosen != "" && r.Name == a.Chosen
			o.Items = append(o.Items, item)
		}
	}
	p := d.easel().Plank(o)
	return &p, nil
}

// waitNote is the line under ware that waits: whose it is, else why it waits.
func waitNote(r *session.Row) string {
	note := ""
	for _, part := range []string{join(r.Fields.Owner, r.Fields.Ticket), r.Why} {
		if part == "" {
			continue
		}
		if note != "" {
			note += " · "
		}
		note += part
	}
	return note
}

func setNote(r *session.Row) string {
	if r.Count == 1 {
		return "set"
	}
	return fmt.Sprintf("all %d set", r.Count)
}

func join(a, b string) string {
	if a != "" && b != "" {
		return a + " " + b
	}
	return a + b
}

func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// box draws the posts that are left: while a shelf is dragged, with it at its
// stop.
func (d *Desk) box(a struct {
	W    float64 `json:"w"`
	H    float64 `json:"h"`
	Bare bool    `json:"bare"`
}) (*views.Picture, error) {
	o := views.BoxOptions{W: size(a.W, 508), H: a.H, Bare: a.Bare}
	if o.H > 0 {
		o.H = size(o.H, 0)
	}
	if l := d.sight.lifted; l != nil {
		o.Posts = boxOf(l.Box)
	} else {
		for _, p := range d.s.State().Posts {
			o.Posts = append(o.Posts, views.BoxPost{Height: p.Height, Said: p.Said, Left: p.Owned - p.Used, Spacer: p.Spacer})
		}
	}
	p := d.easel().Box(o)
	return &p, nil
}

func boxOf(list []session.BoxPost) []views.BoxPost {
	out := make([]views.BoxPost, 0, len(list))
	for _, p := range list {
		out = append(out, views.BoxPost{Height: p.Height, Said: p.Said, Left: p.Left, Spacer: p.Spacer})
	}
	return out
}

// aside draws one pot from the side: of a row, or a usual form.
func (d *Desk) aside(a struct {
	Ware   string  `json:"ware"`
	Form   string  `json:"form"`
	W      float64 `json:"w"`
	H      float64 `json:"h"`
	Chosen bool    `json:"chosen"`
	Dashed bool    `json:"dashed"`
	Per    float64 `json:"per"`
	Scale  bool    `json:"scale"` // to one scale with all other rows of the table
}) (*views.Picture, error) {
	l := d.s.Load()
	w := &layout.Ware{Name: a.Form, Count: 1, Silhouette: layout.Silhouette(a.Form), Height: 120, Across: 100}
	if a.Form == "" {
		p := layout.Pot{Ware: a.Ware}
		if w = l.WareOf(p); w == nil {
			return nil, fmt.Errorf("no row of ware is called %q", a.Ware)
		}
	}
	body, err := stacks.BodyOf(l, w)
	if err != nil {
		return nil, err
	}
	if a.Scale {
		a.Per = tableScale(l, size(a.W, 56), size(a.H, 56))
	}
	p := d.easel().Aside(views.AsideOptions{W: size(a.W, 56), H: size(a.H, 56), Ware: w, Body: body, Chosen: a.Chosen, Dashed: a.Dashed,
		Per: math.Min(math.Max(a.Per, 0), 20)})
	return &p, nil
}

// tableScale is the px per mm at which the largest pot of the table fits.
func tableScale(l *layout.Load, w, h float64) float64 {
	wide, high := 1.0, 1.0
	for i := range l.Ware {
		r := &l.Ware[i]
		if filled, _, err := silhouette.Fill(*r); err == nil {
			wide, high = math.Max(wide, math.Max(filled.Across, filled.Length)), math.Max(high, filled.Height)
		}
	}
	return math.Min((w-3)/wide, (h-3)/high)
}

// balance draws how a level's load lies on its posts.
func (d *Desk) balance(a struct {
	W     float64 `json:"w"`
	H     float64 `json:"h"`
	Tower string  `json:"tower"`
	Level int     `json:"level"`
	Large bool    `json:"large"`
}) (*views.Picture, error) {
	b, refused := d.s.Built()
	if b == nil {
		return nil, errors.New(refused)
	}
	i, err := levelIndex(b, a.Tower, a.Level)
	if err != nil {
		return nil, err
	}
	o := views.BalanceOptions{W: size(a.W, 56), H: size(a.H, 56), Large: a.Large}
	v := d.s.State().Levels[i].Balance
	if v == nil {
		return &views.Picture{W: o.W, H: o.H, Marks: []views.Mark{}}, nil
	}
	o.Point, o.Out = v.Point, v.Edge < 0
	for _, p := range v.Posts {
		o.Posts = append(o.Posts, views.BalancePost{Letter: p.Letter, At: p.At, Said: p.Said})
	}
	p := d.easel().Balance(o)
	return &p, nil
}
