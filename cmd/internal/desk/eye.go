package desk

import (
	"encoding/json"

	"threepost/layout/session"
	"threepost/layout/stacks"
	"threepost/render/scene"
	"threepost/render/viewport"
)

// Eye is the 3D picture: what it shows, where it stands, what lies under the
// pointer. It drives a canvas and knows none, so that a test can be one.
type Eye struct {
	d       *Desk
	refresh func()       // asks for a frame
	tell    func([]byte) // the page's listener

	screen  scene.Screen
	options scene.Options
	up      *level // the level that is looked at; nil: all
	cutting bool
	tubes   bool // tubes of sight are always shown
	still   bool // no motion is wanted: every move of the camera is a cut

	built *stacks.Built // the scene was made of
	scene *scene.Scene  // nil: to be made anew
	prev  *scene.Scene  // the one before, whose unchanged levels are taken over
	ids   map[pieceOf]int

	cam    scene.Camera
	preset string // "" once a hand has moved the camera
	spy    int    // the spyhole looked through, from 0
	moving *travel
	fit    bool // the camera is to be put where the preset has it

	hot    int
	marked map[string]bool // pots that are chosen
	chosen *session.Chosen
	ghost  *viewport.Ghost
	lifted string // pot the ghost was made for
	held   *Held
	pinch  gesture
	placed bool // labels were told for what is seen
}

// pieceOf names a piece by what it is in Built.
type pieceOf struct {
	kind  scene.Kind
	index int
}

// travel is a camera on its way.
type travel struct {
	from, to scene.Camera
	began    float64 // ms; negative: at the next frame
}

// easing is how long the camera is on its way, ms.
const easing = 300

func newEye(d *Desk) *Eye {
	return &Eye{d: d, refresh: func() {}, tell: func([]byte) {}, screen: scene.Screen{W: 640, H: 480}, preset: "stand"}
}

// Bind says how a frame is asked for and who is told what happens.
func (e *Eye) Bind(refresh func(), tell func([]byte)) { e.refresh, e.tell = refresh, tell }

// say tells the page's listener.
func (e *Eye) say(event any) {
	b, err := json.Marshal(event)
	if err != nil {
		return // every event is made of texts and numbers
	}
	e.tell(b)
}

// opened begins with another load.
func (e *Eye) opened() {
	e.up, e.hot, e.marked, e.chosen, e.preset, e.fit = nil, 0, nil, nil, "stand", true
	e.stale()
}

// stale makes the scene anew before it is seen next.
func (e *Eye) stale() {
	e.scene, e.ghost, e.lifted, e.held = nil, nil, "", nil
	e.redraw()
}

// Lost tells the page that the picture is gone for the moment.
func (e *Eye) Lost() { e.say(plainEvent{"lost"}) }

// Back makes every mesh anew: the graphics card has lost them.
func (e *Eye) Back() {
	e.prev, e.built = nil, nil
	e.ghost, e.lifted = nil, ""
	e.again()
	if e.held != nil && e.ensure() {
		e.makeGhost(e.held)
	}
	e.say(plainEvent{"back"})
}

// plainEvent tells that something happened.
type plainEvent struct {
	Event string `json:"event"`
}

// redraw asks for a frame, after which labels are told anew.
func (e *Eye) redraw() {
	e.placed = false
	e.refresh()
}

// ensure makes the scene when there is none; false when there is no load, or
// one that cannot be built.
func (e *Eye) ensure() bool {
	if e.scene != nil {
		return true
	}
	if e.d.s == nil {
		return false
	}
	b, _ := e.d.s.Built()
	if drawn := e.d.s.LiftedBuilt(); drawn != nil {
		b = drawn
	}
	if b == nil {
		return false
	}
	o := e.options
	o.Units, o.Kiln = b.Load.Units, e.preset == "spyhole"
	if o.Colour == scene.ByFindings {
		r := e.d.s.Report()
		o.Report = &r
	}
	if e.up != nil {
		if i, err := levelIndex(b, e.up.Tower, e.up.Level); err == nil {
			o.Up = i + 1
		}
	}
	e.built, e.scene = b, scene.Renew(e.prev, b, o)
	e.prev = e.scene
	e.ids = make(map[pieceOf]int, len(e.scene.Pieces))
	for id := range e.scene.Pieces {
		p := &e.scene.Pieces[id]
		e.ids[pieceOf{p.Kind, p.Index}] = id
	}
	e.hot = 0
	if e.fit {
		e.fit, e.moving = false, nil
		e.cam = e.presetCamera(e.preset)
	}
	return true
}

// potPiece is the id of a pot's piece, or 0.
func (e *Eye) potPiece(i int) int {
	if id := e.ids[pieceOf{scene.PotPiece, i}]; id > 0 {
		return id
	}
	return e.ids[pieceOf{scene.ConePiece, i}]
}

// potIndex is a pot of the scene by its name, or -1.
func (e *Eye) potIndex(name string) int {
	for i := range e.built.Pots {
		if e.built.Pots[i].Pot.String() == name {
			return i
		}
	}
	return -1
}

// Size is the canvas's size, px.
func (e *Eye) Size(w, h float64) {
	if !(w >= 1 && h >= 1) { // a canvas that is not on show has no size; what was seen stays
		return
	}
	e.screen = scene.Screen{W: w, H: h}
	if e.preset != "" && e.ensure() {
		e.moving = nil
		e.cam = e.presetCamera(e.preset)
	}
	e.redraw()
}

// travel sends the camera on its way, or there at once when no motion is wanted.
func (e *Eye) travel(to scene.Camera) {
	if e.still || e.cam == (scene.Camera{}) {
		e.cam, e.moving = to, nil
	} else {
		e.moving = &travel{from: e.cam, to: to, began: -1}
	}
	e.redraw()
}

// settle moves the camera to where it is at a time.
func (e *Eye) settle(now float64) {
	m := e.moving
	if m == nil {
		return
	}
	if m.began < 0 {
		m.began = now
	}
	e.placed = false
	e.cam = scene.Blend(m.from, m.to, (now-m.began)/easing)
	if now-m.began >= easing {
		e.cam, e.moving = m.to, nil
	}
}

// Picture is what a frame shows.
func (e *Eye) Picture(now float64) (viewport.Picture, bool) {
	if !e.ensure() {
		return viewport.Picture{}, false
	}
	e.settle(now)
	p := viewport.Picture{Scene: e.scene, Camera: e.cam, Hot: e.hot, Cut: e.cut(), Moving: e.moving != nil}
	p.Wears = e.wears()
	p.Lines = e.lines()
	if e.held != nil && e.ghost != nil {
		p.Ghost = e.ghost
		if i := e.potIndex(e.held.Pot); i >= 0 {
			p.Hidden = e.potPiece(i)
		}
	}
	return p, true
}

// Drawn tells the labels of what has just been drawn, when it is not what they
// were told for.
func (e *Eye) Drawn() {
	if e.placed {
		return
	}
	e.placed = true
	e.say(labelsEvent{"labels", e.labels()})
}

// wears is what every piece wears over its clay: chosen, or the hatch of what
// needs a look.
func (e *Eye) wears() []viewport.Wear {
	list := make([]viewport.Wear, len(e.scene.Pieces))
	byFindings := e.options.Colour == scene.ByFindings || e.options.Colour == ""
	st := e.d.s.State()
	for i := range e.built.Pots {
		id := e.potPiece(i)
		if id == 0 {
			continue
		}
		name := e.built.Pots[i].Pot.String()
		w := &list[id]
		w.Chosen = e.marked[name] && e.held == nil
		if byFindings && i < len(st.Pots) && st.Pots[i].ID == name {
			w.Hatch = hatchOf(st.Pots[i].Grade)
		}
		if e.held != nil && e.held.Pair == name {
			w.Hatch = hatchOf(e.held.Grade)
		}
	}
	return list
}

func hatchOf(grade string) scene.Hatch {
	switch grade {
	case "watch":
		return scene.WatchLines
	case "problem":
		return scene.FaultLines
	}
	return scene.Plain
}

// cut is the plane that opens the picture: upright, through the kiln's middle,
// across the line of sight.
func (e *Eye) cut() *scene.Plane {
	if !e.cutting {
		return nil
	}
	p := scene.CutBefore(e.cam.Azimuth)
	return &p
}

// mark makes the chosen thing's pots stand out.
func (e *Eye) mark(c *session.Chosen) {
	e.marked, e.chosen = map[string]bool{}, c
	if c.Kind == "pot" || c.Kind == "cones" || c.Kind == "ware" {
		for _, id := range c.Pots {
			e.marked[id] = true
		}
		if c.ID != "" && c.Kind != "ware" {
			e.marked[c.ID] = true
		}
	}
	e.redraw()
	e.sights()
}

// sights shows the tubes of sight while cones are chosen and when the page asks
// for them; not while one looks through a tube oneself.
func (e *Eye) sights() {
	want := e.preset != "spyhole" && (e.tubes || e.chosen != nil && e.chosen.Kind == "cones")
	if want != e.options.Sight {
		e.options.Sight = want
		e.again()
	}
}
