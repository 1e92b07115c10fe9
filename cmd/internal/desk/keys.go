package desk

import (
	"math"

	"threepost/geometry/plane"
	"threepost/render/scene"
	"threepost/render/viewport"
)

// Key is a key pressed on the canvas. Arrows nudge the chosen pot, as seen on
// the screen, and turn the picture when none is chosen.
func (e *Eye) Key(k viewport.Key) bool {
	if !e.ensure() || k.Alt {
		return false
	}
	switch k.Name {
	case "Escape":
		if e.held == nil && e.d.s.Holding() == nil {
			return false
		}
		e.pinch = gesture{}
		e.cancel()
		return true
	case "Enter", " ":
		if e.held == nil {
			return false
		}
		e.drop()
		return true
	case "+", "=":
		e.travelByHand(e.cam.Zoom(keyZoom, e.screen.W/2, e.screen.H/2, e.screen))
		return true
	case "-", "_":
		e.travelByHand(e.cam.Zoom(1/keyZoom, e.screen.W/2, e.screen.H/2, e.screen))
		return true
	}
	x, y, turn, ok := keyStep(k)
	if !ok {
		return false
	}
	if pot := e.onePot(); pot != "" {
		e.nudge(pot, x, y, turn, k.Shift)
		return true
	}
	if turn != 0 {
		return false
	}
	e.travelByHand(e.cam.Orbit(-x*keyTurn, y*keyTurn))
	return true
}

// travelByHand sends the camera to where keys want it.
func (e *Eye) travelByHand(c scene.Camera) {
	if m := e.moving; m != nil { // keys come faster than the camera goes
		e.cam, e.moving = m.to, nil
	}
	if e.preset == "spyhole" {
		return
	}
	if e.preset != "" {
		e.preset = ""
		e.say(cameraEvent{"camera", ""})
	}
	e.travel(c)
}

// keyStep is the way of a key: right and up, or a turn.
func keyStep(k viewport.Key) (x, y, turn float64, ok bool) {
	switch k.Name {
	case "ArrowLeft":
		return -1, 0, 0, true
	case "ArrowRight":
		return 1, 0, 0, true
	case "ArrowUp":
		return 0, 1, 0, true
	case "ArrowDown":
		return 0, -1, 0, true
	case "[", "{":
		return 0, 0, -1, true
	case "]", "}":
		return 0, 0, 1, true
	}
	return 0, 0, 0, false
}

// onePot is the pot that keys move: the held one, else the only chosen one.
func (e *Eye) onePot() string {
	if e.held != nil {
		return e.held.Pot
	}
	if len(e.marked) != 1 || e.chosen == nil {
		return ""
	}
	for name := range e.marked {
		if e.potIndex(name) >= 0 {
			return name
		}
	}
	return ""
}

// Steps of the keys: a millimetre and five, five degrees and one.
const (
	nudgeStep = 1.0
	nudgeFar  = 5.0
	turnStep  = 5.0
	turnFine  = 1.0
)

// nudge moves a pot by a step as seen on the screen, to the nearest of the
// four ways of the kiln's frame.
func (e *Eye) nudge(pot string, x, y, turn float64, shift bool) {
	if e.held == nil {
		h, err := e.d.s.Hold(pot)
		if err != nil {
			e.say(heldEvent{Event: "held", Refusal: e.d.sentence(err)})
			return
		}
		e.d.hand = hand{pot: h.Pot, view: viewKeys}
		e.taken()
	}
	step, turned := nudgeStep, turnStep
	if shift {
		step, turned = nudgeFar, turnFine
	}
	// Seen from the bearing 180, in front, right is x and up is y.
	way := plane.Rotate(plane.Vec{x * step, y * step}, 90*math.Round((e.cam.Azimuth-180)/90))
	h, err := e.d.held(e.d.s.Nudge(way[0], way[1], turn*turned))
	if err != nil {
		e.say(heldEvent{Event: "held", Held: e.held, Refusal: e.d.sentence(err)})
		return
	}
	e.say(heldEvent{Event: "held", Held: h})
}

// Blur ends what the keys do: the pot stays where they moved it.
func (e *Eye) Blur() {
	if e.held != nil && e.d.hand.view == viewKeys {
		e.drop()
	}
}
