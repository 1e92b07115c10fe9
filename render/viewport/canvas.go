//go:build js && wasm

package viewport

import (
	"fmt"
	"math"
	"sort"
	"syscall/js"
)

// Options say how a canvas is drawn on.
type Options struct {
	Smooth bool // antialiasing; a rasteriser in software is much faster without
	Limit  int  // most points of the screen that are drawn, 0: 8 million
}

// Canvas is a canvas of the page that is drawn on.
type Canvas struct {
	el      js.Value
	driver  Driver
	options Options
	context js.Value
	painter *painter
	lost    bool
	asked   bool // a frame is asked for
	gone    bool // detached
	frames  int
	spent   float64 // ms of Go in all frames
	last    float64 // ms of Go in the last frame
	w, h    float64 // px
	pixel   float64 // px of a point of the screen
	frame   js.Func
	ends    []func() // what to undo on Detach
	fault   func(string)
}

// Attach takes a canvas over: its size, its context and its events. fault is
// told when a frame cannot be drawn.
func Attach(el js.Value, d Driver, o Options, fault func(string)) (*Canvas, error) {
	if !el.Truthy() || !el.Get("getContext").Truthy() {
		return nil, fmt.Errorf("the page gives no canvas to draw on")
	}
	if o.Limit <= 0 {
		o.Limit = 8_000_000
	}
	c := &Canvas{el: el, driver: d, options: o, fault: fault, pixel: 1}
	c.context = el.Call("getContext", "webgl2", map[string]any{
		"alpha": false, "antialias": o.Smooth, "depth": true, "stencil": false, "preserveDrawingBuffer": false,
	})
	if !c.context.Truthy() {
		return nil, fmt.Errorf("this browser draws no 3D (WebGL 2); the top view shows the same")
	}
	var err error
	if c.painter, err = newPainter(c.context); err != nil {
		return nil, err
	}
	c.frame = js.FuncOf(func(_ js.Value, args []js.Value) any {
		c.asked = false
		c.draw(args[0].Float())
		return nil
	})
	c.watchContext()
	c.watchSize()
	c.watchPointers()
	c.watchKeys()
	d.Back() // a context of its own holds no mesh yet, whatever another canvas held
	c.Refresh()
	return c, nil
}

// Refresh asks for a frame, once.
func (c *Canvas) Refresh() {
	if c.asked || c.gone || c.lost {
		return
	}
	c.asked = true
	js.Global().Call("requestAnimationFrame", c.frame)
}

// Frames is how many frames have been drawn, and the Go time of the last and
// of all, ms.
func (c *Canvas) Frames() (count int, last, all float64) { return c.frames, c.last, c.spent }

// Measure draws n frames one after another, whatever is asked for, and gives
// the Go time of the middle one and of the slowest, ms. It is for tests: what
// the graphics card does afterwards is not in it.
func (c *Canvas) Measure(n int) (middle, slowest float64) {
	if c.gone || c.lost || n < 1 {
		return 0, 0
	}
	times := make([]float64, 0, n)
	for range n {
		c.draw(now())
		times = append(times, c.last)
	}
	sort.Float64s(times)
	return times[n/2], times[n-1]
}

// Held counts what lies on the graphics card: buffers and vertex arrays.
func (c *Canvas) Held() (buffers, arrays int) {
	if c.painter == nil {
		return 0, 0
	}
	return c.painter.held()
}

// Detach lets the canvas go.
func (c *Canvas) Detach() {
	if c.gone {
		return
	}
	c.gone = true
	for _, end := range c.ends {
		end()
	}
	if c.painter != nil && !c.lost {
		c.painter.drop()
	}
	if !c.asked { // else the frame still runs once and finds it gone
		c.frame.Release()
	}
}

func now() float64 { return js.Global().Get("performance").Call("now").Float() }

// draw is one frame.
func (c *Canvas) draw(at float64) {
	if c.gone || c.lost {
		return
	}
	defer func() {
		if r := recover(); r != nil {
			c.fault(fmt.Sprint(r))
		}
	}()
	begin := now()
	c.measure()
	if c.w < 1 || c.h < 1 {
		return
	}
	pic, ok := c.driver.Picture(at)
	if !ok || pic.Scene == nil {
		return
	}
	c.painter.paint(&pic, c.w, c.h, c.pixel)
	c.driver.Drawn()
	c.frames++
	c.last = now() - begin
	c.spent += c.last
	if pic.Moving {
		c.Refresh()
	}
}

// measure takes the canvas's size on the page and makes its points as fine as
// the screen's, or coarser where that were too many.
func (c *Canvas) measure() {
	w, h := c.el.Get("clientWidth").Float(), c.el.Get("clientHeight").Float()
	ratio := js.Global().Get("devicePixelRatio").Float()
	if !(ratio > 0) {
		ratio = 1
	}
	ratio = math.Min(ratio, 3)
	if w*h*ratio*ratio > float64(c.options.Limit) {
		ratio = math.Sqrt(float64(c.options.Limit) / (w * h))
	}
	pw, ph := int(math.Round(w*ratio)), int(math.Round(h*ratio))
	if c.el.Get("width").Int() != pw || c.el.Get("height").Int() != ph {
		c.el.Set("width", pw)
		c.el.Set("height", ph)
	}
	if w != c.w || h != c.h {
		c.w, c.h = w, h
		c.driver.Size(w, h)
	}
	c.pixel = 1 / ratio
}

// watchContext rebuilds everything when the graphics card was lost and is back.
func (c *Canvas) watchContext() {
	c.on(c.el, "webglcontextlost", func(e js.Value) {
		e.Call("preventDefault")
		c.lost = true
		c.driver.Lost()
	})
	c.on(c.el, "webglcontextrestored", func(js.Value) {
		p, err := newPainter(c.context)
		if err != nil {
			c.fault(err.Error())
			return
		}
		c.painter, c.lost = p, false
		c.driver.Back()
		c.Refresh()
	})
}

// watchSize asks for a frame when the canvas or the fineness of the screen
// changes.
func (c *Canvas) watchSize() {
	f := js.FuncOf(func(js.Value, []js.Value) any { c.Refresh(); return nil })
	o := js.Global().Get("ResizeObserver").New(f)
	o.Call("observe", c.el)
	c.ends = append(c.ends, func() { o.Call("disconnect"); f.Release() })
	c.on(js.Global(), "resize", func(js.Value) { c.Refresh() })
}

// on listens until Detach.
func (c *Canvas) on(target js.Value, event string, do func(e js.Value)) {
	f := js.FuncOf(func(_ js.Value, args []js.Value) any {
		defer func() {
			if r := recover(); r != nil {
				c.fault(fmt.Sprint(r))
			}
		}()
		do(args[0])
		return nil
	})
	options := map[string]any{"passive": false}
	target.Call("addEventListener", event, f, options)
	c.ends = append(c.ends, func() {
		target.Call("removeEventListener", event, f, options)
		f.Release()
	})
}
