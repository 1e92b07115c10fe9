//go:build js && wasm

package viewport

import (
	"math"
	"syscall/js"
)

// watchPointers hands on what mouse, pen and fingers do. A pointer that goes
// down is captured, so that a drag which ends outside the canvas ends all the
// same.
func (c *Canvas) watchPointers() {
	c.on(c.el, "pointerdown", func(e js.Value) {
		c.capture(e)
		c.el.Call("focus", map[string]any{"preventScroll": true})
		c.hand(Down, e)
		e.Call("preventDefault")
	})
	c.on(c.el, "pointermove", func(e js.Value) { c.hand(Move, e) })
	c.on(c.el, "pointerup", func(e js.Value) { c.hand(Up, e) })
	c.on(c.el, "pointercancel", func(e js.Value) { c.hand(Cancel, e) })
	c.on(c.el, "pointerleave", func(e js.Value) { c.hand(Leave, e) })
	c.on(c.el, "contextmenu", func(e js.Value) { e.Call("preventDefault") })
	c.on(c.el, "wheel", func(e js.Value) {
		e.Call("preventDefault")
		x, y := c.place(e)
		c.driver.Wheel(x, y, notches(e))
	})
}

// capture keeps a pointer's events on the canvas. A pointer that is up again
// before its event comes cannot be captured; the browser throws, and nothing is
// lost.
func (c *Canvas) capture(e js.Value) {
	defer func() { _ = recover() }()
	c.el.Call("setPointerCapture", e.Get("pointerId"))
}

// notches is how far a wheel turned: 1 for a notch toward what is seen.
func notches(e js.Value) float64 {
	per := 100.0 // px of a notch
	switch e.Get("deltaMode").Int() {
	case 1: // lines
		per = 3
	case 2: // pages
		per = 1
	}
	if e.Get("ctrlKey").Bool() { // two fingers on a touch pad come as small steps
		per = 25
	}
	return math.Max(-4, math.Min(4, -e.Get("deltaY").Float()/per))
}

func (c *Canvas) place(e js.Value) (x, y float64) {
	box := c.el.Call("getBoundingClientRect")
	return e.Get("clientX").Float() - box.Get("left").Float(), e.Get("clientY").Float() - box.Get("top").Float()
}

func (c *Canvas) hand(kind PointerKind, e js.Value) {
	x, y := c.place(e)
	b := Left
	switch e.Get("button").Int() {
	case 1:
		b = Middle
	case 2:
		b = Right
	}
	c.driver.Pointer(Pointer{
		Kind: kind, ID: e.Get("pointerId").Int(), X: x, Y: y, Button: b,
		Touch: e.Get("pointerType").String() == "touch",
		Shift: e.Get("shiftKey").Bool(), Time: e.Get("timeStamp").Float(),
	})
}

// watchKeys listens on the canvas alone: typing elsewhere is not ours.
func (c *Canvas) watchKeys() {
	c.on(c.el, "keydown", func(e js.Value) {
		key := e.Get("key") // an autofill's event has none
		if key.Type() != js.TypeString || e.Get("ctrlKey").Truthy() || e.Get("metaKey").Truthy() {
			return
		}
		if c.driver.Key(Key{Name: key.String(), Shift: e.Get("shiftKey").Truthy(), Alt: e.Get("altKey").Truthy()}) {
			e.Call("preventDefault")
			e.Call("stopPropagation")
		}
	})
	c.on(c.el, "blur", func(js.Value) { c.driver.Blur() })
}
