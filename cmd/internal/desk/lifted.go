package desk

import (
	"strings"

	"threepost/layout/session"
	"threepost/render/views"
)

// Lifted is a shelf in hand with the elevation that shows it.
type Lifted struct {
	*session.Lifted
	Elevation *views.Picture `json:"elevation,omitempty"`
}

// lifted draws the elevation with the shelf at its stop.
func (d *Desk) lifted(l *session.Lifted, err error) (*Lifted, error) {
	if err != nil {
		return nil, err
	}
	d.sight.lifted = l
	out := &Lifted{Lifted: l}
	b, _ := d.s.Built()
	drawn := d.s.LiftedBuilt()
	v := &d.sight.elevation
	if b == nil || l.Index >= len(b.Levels) {
		return out, nil
	}
	if drawn == nil {
		drawn = b
	}
	hung := b.Levels[l.Index].Bottom
	o := views.LiftedOptions{W: size(v.w, 520), H: size(v.h, 400), Level: l.Index, Hung: hung, Above: l.Above, Lid: l.Lid}
	base := hung
	if l.Was >= 0 && l.Was < len(l.Stops) {
		base = hung - l.Stops[l.Was].Height
	}
	for i, s := range l.Stops {
		o.Stops = append(o.Stops, views.Stop{Z: base + s.Height, Made: pieces(s.Made), Grade: gradeOf(s.Grade), Now: i == l.At})
	}
	p := d.easel().Lifted(views.Subject{Built: drawn, Order: d.s.Order()}, o)
	v.frame, v.drawn = p.Frame, true
	out.Elevation = &p
	d.changed()
	return out, nil
}

// pieces is the short way to say a make-up: "3 × (100 + 10 + 5)" is 100+10+5.
func pieces(made string) string {
	if i := strings.IndexByte(made, '('); i >= 0 {
		made = strings.TrimSuffix(made[i+1:], ")")
	} else if i := strings.Index(made, "× "); i >= 0 {
		made = made[i+len("× "):]
	}
	return strings.ReplaceAll(made, " ", "")
}

// stop moves the lifted shelf: to a stop, or to the one nearest to a height in
// the elevation.
func (d *Desk) stop(a struct {
	Index *int     `json:"index"`
	Y     *float64 `json:"y"`  // px, where the shelf's underside is dragged to
	By    *float64 `json:"by"` // px down from where it hangs
}) (*Lifted, error) {
	l := d.sight.lifted
	if per := d.sight.elevation.frame.Per; a.By != nil && l != nil && per > 0 && l.Was >= 0 && l.Was < len(l.Stops) {
		return d.lifted(d.s.StopNear(l.Stops[l.Was].Height - *a.By/per))
	}
	if a.Index != nil || a.Y == nil || l == nil {
		index := -1
		if a.Index != nil {
			index = *a.Index
		}
		return d.lifted(d.s.Stop(index))
	}
	b, _ := d.s.Built()
	z := d.sight.elevation.frame.MM(0, *a.Y)[1]
	height := z
	if b != nil && l.Index < len(b.Levels) && l.Was >= 0 && l.Was < len(l.Stops) {
		height = z - (b.Levels[l.Index].Bottom - l.Stops[l.Was].Height)
	}
	return d.lifted(d.s.StopNear(height))
}
