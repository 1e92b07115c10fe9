//go:build js && wasm

// Command viewport is the page's program, built for js/wasm: it puts the desk
// on the page as the global "threepost" and lets it drive a canvas.
//
//	threepost.call(method, json) -> json     desk.Call
//	threepost.attach(canvas, {aa}) -> ""     or the sentence why not
//	threepost.detach()
//	threepost.listen(fn)                     fn gets {event, ...}
//	threepost.frames() -> {count, last, all, buffers, arrays}
//	threepost.measure(n) -> {middle, slowest, heap}   ms of Go a frame, MB; for tests
//	threepost.stop()                         ends the program
package main
