package desk

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/layout"
	"threepost/layout/session"
	"threepost/render/scene"
)

// eyeCalls are about the 3D picture.
func eyeCalls() map[string]call {
	return map[string]call{
		"view":   with((*Desk).view),
		"level":  with((*Desk).lookAt),
		"cut":    with((*Desk).cutOpen),
		"colour": with((*Desk).colour),
		"pick":   with((*Desk).pick),
		"look":   without((*Desk).look),
		"labels": with(func(d *Desk, _ none) ([]Label, error) {
			if !d.eye.ensure() {
				return []Label{}, nil
			}
			return d.eye.labels(), nil
		}),
	}
}

// seen tells where the camera stands and what it shows.
type seen struct {
	Preset string       `json:"preset"`
	Camera scene.Camera `json:"camera"`
	Cut    bool         `json:"cut"`
	Colour string       `json:"colour"`
	Legend []legendKey  `json:"legend"` // what the hatches of the ware mean
}

// legendKey is one entry of the legend.
type legendKey struct {
	Said   string `json:"said"`
	Hatch  int    `json:"hatch"`
	Colour string `json:"colour"` // hex
	Count  int    `json:"count"`
}

func (e *Eye) seen() *seen {
	s := &seen{Preset: e.preset, Camera: e.cam, Cut: e.cutting, Colour: string(e.options.Colour), Legend: []legendKey{}}
	if s.Colour == "" {
		s.Colour = string(scene.ByClay)
	}
	if e.moving != nil {
		s.Camera = e.moving.to
	}
	if e.ensure() {
		for _, k := range e.scene.Legend {
			s.Legend = append(s.Legend, legendKey{e.d.words.Say(k.Mark.Label), int(k.Mark.Hatch), hex(k.Colour), k.Count})
		}
	}
	return s
}

func hex(c scene.Colour) string {
	part := func(v float32) int { return int(math.Round(float64(v) * 255)) }
	return fmt.Sprintf("#%02x%02x%02x", part(c[0]), part(c[1]), part(c[2]))
}

// view takes the camera to a preset.
func (d *Desk) view(a struct {
	Preset string `json:"preset"`
}) (*seen, error) {
	e := d.eye
	if !e.ensure() {
		return e.seen(), nil
	}
	name, n, err := presetOf(a.Preset)
	if err != nil {
		return nil, err
	}
	if name == "spyhole" {
		if n < 1 || n > len(e.built.Spies) {
			return nil, fmt.Errorf("the kiln has %d spyholes; there is no spyhole %d", len(e.built.Spies), n)
		}
	}
	wasKiln := e.preset == "spyhole"
	e.preset = a.Preset
	if name == "spyhole" {
		e.preset = "spyhole"
		e.spy = n - 1
	}
	if (name == "spyhole") != wasKiln { // the kiln's walls are shown, or no longer
		e.scene = nil
		e.ensure()
	}
	e.sights()
	if e.ensure() {
		e.travel(e.presetCamera(e.preset))
	}
	return e.seen(), nil
}

// presetOf reads "spyhole 2" as spyhole, 2.
func presetOf(text string) (name string, n int, err error) {
	switch text {
	case "stand", "front", "top", "orbit", "side", "back":
		return text, 0, nil
	case "spyhole":
		return text, 1, nil
	}
	if rest, ok := strings.CutPrefix(text, "spyhole "); ok {
		if n, err := strconv.Atoi(rest); err == nil {
			return "spyhole", n, nil
		}
	}
	return "", 0, fmt.Errorf("%q is no view; there are orbit, stand, front, side, back, top and spyhole 1", text)
}

// presetCamera is where a preset has the camera for what is shown.
func (e *Eye) presetCamera(preset string) scene.Camera {
	box := e.scene.Box
	if box.Empty() {
		box = e.scene.Kiln
	}
	var c scene.Camera
	switch preset {
	case "top":
		c = scene.Top(box, e.screen)
	case "front":
		c = scene.Side(180, box, e.screen)
	case "side":
		c = scene.Side(90, box, e.screen)
	case "back":
		c = scene.Side(0, box, e.screen)
	case "spyhole":
		if c, ok := scene.Through(e.built, e.spy); ok {
			return c
		}
		c = scene.Stand(e.built, box, e.screen)
	case "orbit":
		c = scene.Stand(e.built, box, e.screen)
		c.Azimuth, c.Elevation = 205, 28
	default:
		c = scene.Stand(e.built, box, e.screen)
	}
	return e.filled(c)
}

// Room kept free round the load, px: at the sides the labels hang.
const (
	sideRoom  = 66.0
	otherRoom = 22.0
)

// filled is a camera moved so that what is shown fills the canvas: a round load
// is smaller than the box round it.
func (e *Eye) filled(c scene.Camera) scene.Camera {
	points := e.outline()
	if len(points) == 0 {
		return c
	}
	w, h := e.screen.W, e.screen.H
	sides := sideRoom
	if w < narrowest {
		sides = otherRoom
	}
	for range 6 { // perspective: each round settles nearer
		lo, hi := mgl64.Vec2{math.Inf(1), math.Inf(1)}, mgl64.Vec2{math.Inf(-1), math.Inf(-1)}
		for _, p := range points {
			at, _, ok := c.Project(p, e.screen)
			if !ok {
				return c
			}
			for k := range at {
				lo[k], hi[k] = math.Min(lo[k], at[k]), math.Max(hi[k], at[k])
			}
		}
		c = c.Pan((w-lo[0]-hi[0])/2, (h-lo[1]-hi[1])/2, e.screen)
		factor := math.Min(math.Max(w-2*sides, 20)/math.Max(hi[0]-lo[0], 1), math.Max(h-2*otherRoom, 20)/math.Max(hi[1]-lo[1], 1))
		c = c.Zoom(factor, w/2, h/2, e.screen)
	}
	return c
}

// outline are points round all that is shown: edges of shelves, and the boxes
// of what stands on them.
func (e *Eye) outline() []mgl64.Vec3 {
	var points []mgl64.Vec3
	for i := range e.scene.Labels {
		if l := &e.scene.Labels[i]; l.Kind == scene.MassLabel && l.Shown {
			points = append(points, l.Ring...)
		}
	}
	for id := range e.scene.Pieces {
		p := &e.scene.Pieces[id]
		switch p.Kind {
		case scene.PotPiece, scene.ConePiece, scene.PostKind:
			if e.scene.Groups[p.Group].Shown {
				c := p.Box.Corners()
				points = append(points, c[:]...)
			}
		}
	}
	return points
}

// lookAt lifts the levels above one away, or puts them back.
func (d *Desk) lookAt(a struct {
	Tower string `json:"tower"`
	Level int    `json:"level"`
	All   bool   `json:"all"`
}) (*seen, error) {
	e := d.eye
	e.up = nil
	if !a.All {
		b, refused := d.s.Built()
		if b == nil {
			return nil, fmt.Errorf("%s", refused)
		}
		if _, err := levelIndex(b, a.Tower, a.Level); err != nil {
			return nil, err
		}
		e.up = &level{a.Tower, a.Level}
	}
	e.scene = nil
	if e.ensure() && e.preset != "" {
		e.travel(e.presetCamera(e.preset))
	}
	e.redraw()
	return e.seen(), nil
}

// cutOpen cuts the picture open along the line of sight.
func (d *Desk) cutOpen(a struct {
	On bool `json:"on"`
}) (*seen, error) {
	d.eye.cutting = a.On
	d.eye.redraw()
	return d.eye.seen(), nil
}

// colour tells ware apart by something.
func (d *Desk) colour(a struct {
	By string `json:"by"`
}) (*seen, error) {
	by := scene.WareColour(a.By)
	switch a.By {
	case "", "clay":
		by = scene.ByClay
	case "finding":
		by = scene.ByFindings
	}
	known := false
	for _, c := range scene.WareColours() {
		known = known || c == by
	}
	if !known {
		return nil, fmt.Errorf("%q is nothing to tell ware apart by; there are clay, owner, glaze, mass and findings", a.By)
	}
	e := d.eye
	e.options.Colour = by
	e.again()
	return e.seen(), nil
}

// again makes the scene anew and leaves the camera where it is.
func (e *Eye) again() {
	e.scene = nil
	e.redraw()
}

// look chooses light or dark, and whether things move.
func (d *Desk) look(a struct {
	Dark  *bool `json:"dark"`
	Still *bool `json:"still"`
	Sight *bool `json:"sight"` // tubes of sight are shown
}) (struct{}, error) {
	e := d.eye
	if a.Still != nil {
		e.still = *a.Still
	}
	if a.Sight != nil {
		e.tubes = *a.Sight
		e.sights()
	}
	if a.Dark != nil && *a.Dark != e.options.Dark {
		e.options.Dark = *a.Dark
		e.again()
	}
	return struct{}{}, nil
}

// under is what lies under a point of the canvas.
type under struct {
	Event string        `json:"event,omitempty"`
	Thing *layout.Thing `json:"thing"`
	Title string        `json:"title"`
	Size  string        `json:"size"`
	Near  string        `json:"near"`     // the nearest thing
	Gap   string        `json:"gap_said"` // "6 mm"
	Plan  string        `json:"plan_said"`
	Grade string        `json:"grade"`
	X     float64       `json:"x"` // where the pointer is, px
	Y     float64       `json:"y"`
}

func (d *Desk) pick(a point) (*under, error) {
	e := d.eye
	if !e.ensure() {
		return &under{}, nil
	}
	return e.describe(e.pieceAt(a.X, a.Y), a.X, a.Y), nil
}

// pieceAt is the id of the piece under a point of the canvas, or 0.
func (e *Eye) pieceAt(x, y float64) int {
	hit, ok := e.scene.Pick(e.built, e.cam.Ray(x, y, e.screen), e.cut())
	if !ok || hit.Piece < 0 || hit.Piece >= len(e.scene.Pieces) {
		return 0
	}
	return hit.Piece
}

// describe tells what a piece is, and of a pot its least gap.
func (e *Eye) describe(id int, x, y float64) *under {
	u := &under{X: x, Y: y}
	if id == 0 {
		return u
	}
	p := &e.scene.Pieces[id]
	thing := p.Thing
	u.Thing, u.Title = &thing, e.d.words.Say(capital(p.Name))
	pick := pickOf(thing)
	if pick == nil {
		return u
	}
	c, err := e.d.s.Select(*pick)
	if err != nil {
		return u
	}
	u.Title, u.Size = c.Title, c.Line
	for i := range c.Nears {
		n := &c.Nears[i]
		if i == 0 || n.Gap < least(c.Nears[:i]) {
			u.Near, u.Gap, u.Plan, u.Grade = n.Name, n.GapSaid, n.PlanSaid, n.Grade
		}
	}
	return u
}

func least(list []session.Near) float64 {
	out := math.Inf(1)
	for i := range list {
		out = math.Min(out, list[i].Gap)
	}
	return out
}

// pickOf is what select takes for a thing, or nil when it cannot be chosen.
func pickOf(t layout.Thing) *session.Pick {
	switch t.Kind {
	case layout.ThingPot, layout.ThingCones:
		return &session.Pick{Pot: t.Name}
	case layout.ThingShelf, layout.ThingLevel:
		return &session.Pick{Tower: t.Tower, Level: t.Level}
	case layout.ThingPost:
		return &session.Pick{Post: &session.PostAt{Letter: t.Name, Tower: t.Tower, Level: t.Level}}
	}
	return nil
}
