//go:build js && wasm

package main

import (
	"fmt"
	"os"
	"runtime"
	"syscall/js"

	"threepost/cmd/internal/desk"
	"threepost/render/viewport"
)

// shim is the page's port to the desk.
type shim struct {
	desk   *desk.Desk
	canvas *viewport.Canvas
	hear   js.Value // the page's listener
	done   chan struct{}
}

func main() {
	d, err := desk.New()
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	s := &shim{desk: d, done: make(chan struct{})}
	d.Eye().Bind(s.refresh, s.tell)
	port := js.Global().Get("Object").New()
	for name, do := range map[string]func([]js.Value) any{
		"call":    s.call,
		"attach":  s.attach,
		"detach":  func([]js.Value) any { s.detach(); return nil },
		"listen":  func(a []js.Value) any { s.hear = first(a); return nil },
		"stop":    func([]js.Value) any { s.stop(); return nil },
		"frames":  s.frames,
		"measure": s.measure,
	} {
		port.Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any { return do(args) }))
	}
	js.Global().Set("threepost", port)
	if ready := js.Global().Get("threepostReady"); ready.Type() == js.TypeFunction {
		ready.Invoke()
	}
	<-s.done
}

func first(args []js.Value) js.Value {
	if len(args) == 0 {
		return js.Undefined()
	}
	return args[0]
}

// call hands a call through: call(method, json) -> json.
func (s *shim) call(args []js.Value) any {
	if len(args) < 1 || args[0].Type() != js.TypeString {
		return `{"refusal":"A call has a name and an argument."}`
	}
	var arg []byte
	if len(args) > 1 && args[1].Type() == js.TypeString {
		arg = []byte(args[1].String())
	}
	return string(s.desk.Call(args[0].String(), arg))
}

// attach draws on a canvas: attach(canvas, {aa}) -> "" or a sentence.
func (s *shim) attach(args []js.Value) any {
	s.detach()
	o := viewport.Options{Smooth: true}
	if len(args) > 1 && args[1].Type() == js.TypeObject && args[1].Get("aa").Type() == js.TypeBoolean {
		o.Smooth = args[1].Get("aa").Bool()
	}
	c, err := viewport.Attach(first(args), s.desk.Eye(), o, s.fault)
	if err != nil {
		return err.Error()
	}
	s.canvas = c
	return ""
}

func (s *shim) detach() {
	if s.canvas != nil {
		s.canvas.Detach()
		s.canvas = nil
	}
}

// frames tells {count, last, all, buffers, arrays}: how many frames were drawn,
// the Go time of the last and of all in ms, and what lies on the graphics card.
func (s *shim) frames([]js.Value) any {
	out := map[string]any{"count": 0, "last": 0, "all": 0, "buffers": 0, "arrays": 0}
	if s.canvas != nil {
		out["count"], out["last"], out["all"] = s.canvas.Frames()
		out["buffers"], out["arrays"] = s.canvas.Held()
	}
	return out
}

// measure draws n frames and tells {middle, slowest, heap}: Go time in ms, and
// the Go heap that is in use, MB.
func (s *shim) measure(args []js.Value) any {
	n := 30
	if len(args) > 0 && args[0].Type() == js.TypeNumber {
		n = min(max(args[0].Int(), 1), 1000)
	}
	out := map[string]any{"middle": 0, "slowest": 0}
	if s.canvas != nil {
		out["middle"], out["slowest"] = s.canvas.Measure(n)
	}
	runtime.GC()
	var mem runtime.MemStats
	runtime.ReadMemStats(&mem)
	out["heap"] = float64(mem.HeapAlloc) / 1e6
	return out
}

func (s *shim) refresh() {
	if s.canvas != nil {
		s.canvas.Refresh()
	}
}

// tell tells the page's listener, an object each.
func (s *shim) tell(event []byte) {
	if s.hear.Type() == js.TypeFunction {
		s.hear.Invoke(js.Global().Get("JSON").Call("parse", string(event)))
	}
}

// fault tells the page that the picture cannot be drawn.
func (s *shim) fault(why string) {
	fmt.Fprintln(os.Stderr, why)
	if s.hear.Type() == js.TypeFunction {
		s.hear.Invoke(map[string]any{"event": "fault", "why": why})
	}
}

// stop ends the program.
func (s *shim) stop() {
	s.detach()
	select {
	case <-s.done:
	default:
		close(s.done)
	}
}
