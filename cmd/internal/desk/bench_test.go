package desk

import (
	"encoding/json"
	"fmt"
	"testing"

	"threepost/cmd/internal/crowd"
	"threepost/layout/session"
	"threepost/render/views"
)

// crowded is a desk with a load of n pots.
func crowded(b *testing.B, n int) *Desk {
	b.Helper()
	d, err := New()
	if err != nil {
		b.Fatal(err)
	}
	ask[session.State](b, d, "open", m{"text": crowd.Text(n), "name": "crowd"})
	d.Eye().Bind(func() {}, func([]byte) {})
	d.Eye().Size(900, 700)
	return d
}

// BenchmarkFrame is what the desk does for a frame without the drawing: budget
// 5 ms at 300 and 10 ms at 1,000 pots in the browser, drawing included.
func BenchmarkFrame(b *testing.B) {
	for _, n := range []int{100, 300, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			d := crowded(b, n)
			for b.Loop() {
				d.eye.redraw()
				if _, ok := d.eye.Picture(0); !ok {
					b.Fatal("nothing to draw")
				}
				d.eye.Drawn()
			}
		})
	}
}

// BenchmarkMove is a held pot moved by a px in the top view: re-check,
// neighbours, ring and marks.
func BenchmarkMove(b *testing.B) {
	for _, n := range []int{200, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			d := crowded(b, n)
			ask[views.Picture](b, d, "top", m{"w": 560, "h": 560, "tower": "base", "level": 1})
			ask[Held](b, d, "hold", m{"pot": "mug 20", "view": "top"})
			x, y := d.sight.top.frame.Px(d.s.Holding().At)
			args := [2][]byte{}
			for i := range args {
				args[i], _ = json.Marshal(m{"x": x + float64(i), "y": y})
			}
			i := 0
			for b.Loop() {
				d.Call("move", args[i&1])
				i++
			}
		})
	}
}

// BenchmarkEdit is a pot moved as an edit, its State as JSON, and the frame
// after it.
func BenchmarkEdit(b *testing.B) {
	for _, n := range []int{92, 300} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			d := crowded(b, n)
			pot, lv := firstPot(b, d, "mug")
			i := 0
			for b.Loop() {
				i++
				arg, _ := json.Marshal(m{"edits": []m{{"act": "set pot", "pot": pot.ID, "tower": lv.Tower, "level": lv.Number,
					"at": []float64{pot.At[0] + float64(i%9)/10, pot.At[1]}, "turn": pot.Turn}}})
				d.Call("apply", arg)
				d.eye.Picture(0)
			}
		})
	}
}

// BenchmarkPick is a ray through the middle of the picture.
func BenchmarkPick(b *testing.B) {
	for _, n := range []int{300, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			d := crowded(b, n)
			d.eye.Picture(0)
			for b.Loop() {
				d.eye.pieceAt(450, 350)
			}
		})
	}
}
