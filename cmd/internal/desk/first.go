package desk

import (
	"threepost/layout"
	"threepost/layout/session"
	"threepost/render/views"
)

// first is the page before there is a load, with the half section of the kiln.
type first struct {
	session.First
	Picture *views.Picture `json:"picture"`
}

func (d *Desk) first(a struct {
	Answers *session.Answers `json:"answers"`
	W       float64          `json:"w"`
	H       float64          `json:"h"`
}) (*first, error) {
	out := &first{First: session.Begin(a.Answers)}
	l := out.Load
	if l == nil {
		return out, nil
	}
	o := views.FirstOptions{W: size(a.W, 360), H: size(a.H, 560), Chamber: l.Kiln.Chamber, Height: l.Kiln.Height, Front: l.Kiln.Opens == layout.Front}
	if len(l.Furniture.Shelves) > 0 {
		s := &l.Furniture.Shelves[0]
		o.Across, o.Thick = max(s.Shape.Across, s.Shape.Width), s.Thick
	}
	o.Under = firstPost(l)
	e := d.easel()
	e.Units = l.Units
	p := e.First(o)
	out.Picture = &p
	return out, nil
}

// firstPost is the height of the posts under the first shelf: the lowest that
// keep it off the floor as the plan wants.
func firstPost(l *layout.Load) float64 {
	want, best := l.Limits(layout.BottomShelf).Plan, 0.0
	for _, p := range l.Furniture.Posts {
		if !p.Spacer && p.Height >= want && (best == 0 || p.Height < best) {
			best = p.Height
		}
	}
	return best
}

// begun is a new load's text.
type begun struct {
	Text  string `json:"text"`
	Title string `json:"title"`
}

func (d *Desk) beginLoad(a struct {
	Answers session.Answers `json:"answers"`
}) (begun, error) {
	text, title, err := session.NewText(a.Answers)
	return begun{text, title}, err
}
