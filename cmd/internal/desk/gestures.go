package desk

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/render/scene"
	"threepost/render/viewport"
)

// gesture is what the pointers on the canvas do together.
type gesture struct {
	kind  doing
	down  map[int]finger
	begin mgl64.Vec2 // where it began, px
	last  mgl64.Vec2
	hit   int  // the piece under the pointer when it went down
	moved bool // farther than a hand trembles
	touch bool
}

// finger is a pointer that is down.
type finger struct{ at mgl64.Vec2 }

// doing is what a gesture does.
type doing int

const (
	nothing doing = iota
	turning
	panning
	pinching
	carrying
)

// Figures of the hand; common practice.
const (
	tremble      = 4.0  // px a mouse may move and still click
	trembleTouch = 10.0 // px a finger may
	turnPer      = 0.4  // degrees of orbit a px
	notch        = 1.15 // of zoom for a notch of the wheel
	keyTurn      = 10.0 // degrees of orbit for an arrow key
	keyZoom      = 1.2
)

// selectEvent tells that a thing of the picture was chosen; nil: none.
type selectEvent struct {
	Event string `json:"event"`
	Thing any    `json:"thing"`
}

// heldEvent tells what is in hand in the 3D picture; nil: nothing any more.
type heldEvent struct {
	Event   string `json:"event"`
	Held    *Held  `json:"held"`
	Refusal string `json:"refusal,omitempty"`
}

// stateEvent tells the load after an act of the 3D picture.
type stateEvent struct {
	Event string `json:"event"`
	State any    `json:"state"`
}

// cameraEvent tells that a hand has moved the camera off its preset.
type cameraEvent struct {
	Event  string `json:"event"`
	Preset string `json:"preset"`
}

// labelsEvent tells where the labels lie now.
type labelsEvent struct {
	Event  string  `json:"event"`
	Labels []Label `json:"labels"`
}

// Pointer is what mouse, pen and fingers do on the canvas.
func (e *Eye) Pointer(p viewport.Pointer) {
	if !e.ensure() {
		return
	}
	at := mgl64.Vec2{p.X, p.Y}
	switch p.Kind {
	case viewport.Down:
		e.pointerDown(p, at)
	case viewport.Move:
		e.pointerMove(p, at)
	case viewport.Up:
		e.pointerUp(p, at)
	case viewport.Cancel:
		if e.pinch.kind == carrying {
			e.cancel()
		}
		e.pinch = gesture{}
	case viewport.Leave:
		if len(e.pinch.down) == 0 {
			e.hover(0, p.X, p.Y)
		}
	}
}

func (e *Eye) pointerDown(p viewport.Pointer, at mgl64.Vec2) {
	g := &e.pinch
	if g.down == nil {
		*g = gesture{down: map[int]finger{}}
	}
	g.down[p.ID] = finger{at}
	e.moving = nil
	if len(g.down) == 2 {
		if g.kind == carrying { // the second finger ends the drag where it is
			e.cancel()
		}
		g.kind, g.moved = pinching, true
		return
	}
	if len(g.down) > 2 {
		return
	}
	g.begin, g.last, g.touch, g.moved = at, at, p.Touch, false
	g.hit = e.pieceAt(p.X, p.Y)
	g.kind = turning
	if p.Button != viewport.Left || p.Shift {
		g.kind = panning
	}
	if e.held != nil && e.d.hand.view == viewKeys && p.Button == viewport.Left {
		e.drop() // what the keys moved stays where it is
	}
}

func (e *Eye) pointerMove(p viewport.Pointer, at mgl64.Vec2) {
	g := &e.pinch
	if _, down := g.down[p.ID]; !down {
		if len(g.down) == 0 && e.moving == nil {
			e.hover(e.pieceAt(p.X, p.Y), p.X, p.Y)
		}
		return
	}
	if g.kind == pinching {
		e.pinched(p.ID, at)
		return
	}
	limit := tremble
	if g.touch {
		limit = trembleTouch
	}
	if !g.moved {
		if plane.Distance(at, g.begin) < limit {
			return
		}
		g.moved = true
		if g.kind == turning && e.takes(g.hit) {
			e.take(g)
		}
	}
	d := at.Sub(g.last)
	g.last, g.down[p.ID] = at, finger{at}
	switch g.kind {
	case carrying:
		h, err := e.moveTo(p.X, p.Y)
		if err != nil {
			e.say(heldEvent{Event: "held", Held: e.held, Refusal: e.d.sentence(err)})
			return
		}
		e.say(heldEvent{Event: "held", Held: h})
	case turning:
		e.byHand(e.cam.Orbit(d[0]*turnPer, d[1]*turnPer))
	case panning:
		e.byHand(e.cam.Pan(d[0], d[1], e.screen))
	}
}

// pinched moves the camera with two fingers.
func (e *Eye) pinched(id int, at mgl64.Vec2) {
	g := &e.pinch
	if len(g.down) != 2 {
		g.down[id] = finger{at}
		return
	}
	was := g.down[id].at
	for other, f := range g.down {
		if other != id {
			e.byHand(e.cam.Pinch(was, f.at, at, f.at, e.screen))
		}
	}
	g.down[id] = finger{at}
}

func (e *Eye) pointerUp(p viewport.Pointer, at mgl64.Vec2) {
	g := &e.pinch
	if _, down := g.down[p.ID]; !down {
		return
	}
	delete(g.down, p.ID)
	switch {
	case g.kind == carrying:
		e.drop()
	case !g.moved && g.kind == turning:
		e.tap(g.hit)
	}
	if len(g.down) == 1 { // one finger of two is left: it turns on
		for _, f := range g.down {
			g.kind, g.last, g.begin, g.hit = turning, f.at, f.at, 0
		}
		return
	}
	if len(g.down) == 0 {
		e.pinch = gesture{}
	}
}

// byHand puts the camera where a hand has it; it keeps to no preset any more.
func (e *Eye) byHand(c scene.Camera) {
	if e.preset == "spyhole" { // through a hole one looks, one does not walk
		e.redraw()
		return
	}
	e.cam, e.moving = c, nil
	if e.preset != "" {
		e.preset = ""
		e.say(cameraEvent{"camera", ""})
	}
	e.redraw()
}

// takes tells whether a drag that begins on a piece moves it: it has to be the
// chosen pot, so that all other drags turn the picture.
func (e *Eye) takes(id int) bool {
	if id == 0 {
		return false
	}
	p := &e.scene.Pieces[id]
	if p.Kind != scene.PotPiece && p.Kind != scene.ConePiece {
		return false
	}
	name := e.built.Pots[p.Index].Pot.String()
	return len(e.marked) == 1 && e.marked[name]
}

// take takes the pot under the pointer in hand.
func (e *Eye) take(g *gesture) {
	i := e.scene.Pieces[g.hit].Index
	pot := &e.built.Pots[i]
	h, err := e.d.s.Hold(pot.Pot.String())
	if err != nil {
		e.say(heldEvent{Event: "held", Refusal: e.d.sentence(err)})
		return
	}
	e.d.hand = hand{pot: h.Pot, view: view3D}
	if at, ok := e.cam.Ray(g.begin[0], g.begin[1], e.screen).OnLevel(pot.Z); ok {
		// The pointer is on the pot's side, not on the shelf: the pot moves as
		// the pointer does, whatever lies between.
		off := plane.Sub(pot.At, at)
		e.d.hand.offset = &off
	}
	g.kind = carrying
	e.hover(0, g.begin[0], g.begin[1])
	e.taken()
}

// drop sets down what is held, on the ring when there is one.
func (e *Eye) drop() {
	state, err := e.d.after(e.d.s.Drop(true))
	if err != nil {
		e.say(heldEvent{Event: "held", Refusal: e.d.sentence(err)})
		e.cancel()
		return
	}
	e.say(stateEvent{"state", state})
}

// cancel puts what is held back.
func (e *Eye) cancel() {
	_, _ = e.d.after(e.d.s.Cancel(), nil)
	e.say(heldEvent{Event: "held"})
}

// tap chooses what lies under the pointer.
func (e *Eye) tap(id int) {
	if id == 0 {
		e.marked, e.chosen = nil, nil
		e.redraw()
		e.say(selectEvent{"select", nil})
		return
	}
	e.say(selectEvent{"select", e.scene.Pieces[id].Thing})
}

// hover makes a piece the one under the pointer.
func (e *Eye) hover(id int, x, y float64) {
	if id == e.hot {
		return
	}
	e.hot = id
	e.refresh()
	u := e.describe(id, x, y)
	u.Event = "hover"
	e.say(u)
}

// Wheel brings the picture nearer about the pointer.
func (e *Eye) Wheel(x, y, turns float64) {
	if e.ensure() {
		e.byHand(e.cam.Zoom(math.Pow(notch, turns), x, y, e.screen))
	}
}
