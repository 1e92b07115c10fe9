package desk

import (
	"threepost/layout/session"
	"threepost/render/views"
)

// wayCalls are about the plans that lie beside the load.
func wayCalls() map[string]call {
	return map[string]call{
		"lay": with(func(d *Desk, l session.Laid) (*session.State, error) { return d.s.Lay(l) }),
		"buying": with(func(d *Desk, a struct {
			Text string   `json:"text"`
			Says []string `json:"says"`
		}) (*session.State, error) {
			return d.s.LayBuying(a.Text, a.Says)
		}),
		"compare": with(func(d *Desk, _ none) (*session.Compared, error) {
			return d.s.Compare()
		}),
		"way": with((*Desk).way),
		"takeway": with(func(d *Desk, a struct {
			Plan int `json:"plan"`
		}) (*session.State, error) {
			return d.after(d.s.TakeWay(a.Plan))
		}),
		"closer": with(func(d *Desk, _ none) (*session.State, error) {
			return d.after(d.s.ShowCloser())
		}),
	}
}

// way draws one of the plans small, as large as the others.
func (d *Desk) way(a struct {
	Plan int     `json:"plan"`
	W    float64 `json:"w"`
	H    float64 `json:"h"`
}) (*views.Picture, error) {
	b, report, differs, err := d.s.WayBuilt(a.Plan)
	if err != nil {
		return nil, err
	}
	p := d.easel().Beside(views.Subject{Built: b, Findings: report.Findings}, views.BesideOptions{W: size(a.W, 300), H: size(a.H, 290), Differs: differs})
	return &p, nil
}
