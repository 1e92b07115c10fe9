//go:build !js

package pagetest

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image/color"
	"image/png"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// finder finds what a person would press: the first shown control whose name,
// spoken or written, is or begins with the given one.
const finder = `(() => {
  window.tpFind = (name, within) => {
    const root = within ? document.querySelector(within) : document;
    if (!root) return null;
    const shown = (el) => { const r = el.getBoundingClientRect(); return r.width > 0 && r.height > 0 && getComputedStyle(el).visibility !== "hidden"; };
    const named = (el) => (el.getAttribute("aria-label") || el.innerText || el.value || "").trim().replace(/\s+/g, " ");
    const all = [...root.querySelectorAll("button, a[href], [role=tab], [role=button], [role=option], input, select, summary, label")].filter(shown);
    return all.find((el) => named(el) === name) || all.find((el) => named(el).startsWith(name)) || null;
  };
  window.tpPlace = (el) => { el.scrollIntoView({ block: "nearest" }); const r = el.getBoundingClientRect(); return { x: r.x + r.width / 2, y: r.y + r.height / 2 }; };
  return true;
})()`

// spot is a place on the screen, CSS px.
type spot struct{ X, Y float64 }

// quoted is text as a JavaScript string.
func quoted(text string) string {
	b, _ := json.Marshal(text)
	return string(b)
}

// find waits for a control and gives its middle. within is a selector, or "".
func (b *tab) find(name, within string) spot {
	b.t.Helper()
	ask[bool](b, finder)
	b.wait(fmt.Sprintf("!!tpFind(%s, %s)", quoted(name), quoted(within)))
	return b.rests(fmt.Sprintf("tpFind(%s, %s)", quoted(name), quoted(within)))
}

// rests is the middle of an element once it stays where it is: a page that is
// still being laid out would be missed.
func (b *tab) rests(element string) spot {
	b.t.Helper()
	var last spot
	require.Eventually(b.t, func() bool {
		now := ask[spot](b, "((el) => el ? tpPlace(el) : { x: -1, y: -1 })("+element+")")
		still := now == last && now.X >= 0
		last = now
		return still
	}, patience, 60*time.Millisecond, "%s comes to rest", element)
	return last
}

// there tells whether a control is shown now.
func (b *tab) there(name string) bool {
	b.t.Helper()
	ask[bool](b, finder)
	return ask[bool](b, fmt.Sprintf("!!tpFind(%s, '')", quoted(name)))
}

// press clicks a control by its name.
func (b *tab) press(name string) { b.t.Helper(); b.pressIn(name, "") }

// pressIn clicks a control within a part of the page.
func (b *tab) pressIn(name, within string) {
	b.t.Helper()
	at := b.find(name, within)
	b.do(chromedp.MouseClickXY(at.X, at.Y))
}

// until repeats an act that can be missed while the page is still being laid
// out, until what it should bring is there.
func (b *tab) until(holds string, act func()) {
	b.t.Helper()
	for begun := time.Now(); time.Since(begun) < patience; {
		act()
		for range 40 {
			if ask[bool](b, "!!("+holds+")") {
				return
			}
			time.Sleep(50 * time.Millisecond)
		}
	}
	b.must(context.DeadlineExceeded, holds)
}

// at is the middle of the first element of a selector.
func (b *tab) at(selector string) spot {
	b.t.Helper()
	b.wait(fmt.Sprintf("!!document.querySelector(%s)", quoted(selector)))
	ask[bool](b, finder)
	return b.rests(fmt.Sprintf("document.querySelector(%s)", quoted(selector)))
}

// click clicks the middle of the first element of a selector.
func (b *tab) click(selector string) {
	b.t.Helper()
	at := b.at(selector)
	b.do(chromedp.MouseClickXY(at.X, at.Y))
}

// keys types keys where the focus is.
func (b *tab) keys(text string) { b.t.Helper(); b.do(chromedp.KeyEvent(text)) }

// drag presses at from, moves to every further place in steps, and lets go if
// asked.
func (b *tab) drag(letGo bool, from spot, to ...spot) {
	b.t.Helper()
	b.do(chromedp.MouseEvent(chromedp.MouseMoved, from.X, from.Y),
		chromedp.MouseEvent(chromedp.MousePressed, from.X, from.Y, chromedp.ButtonLeft))
	last := from
	for _, p := range to {
		const steps = 6
		for i := 1; i <= steps; i++ {
			k := float64(i) / steps
			b.do(chromedp.MouseEvent(chromedp.MouseMoved, last.X+(p.X-last.X)*k, last.Y+(p.Y-last.Y)*k, chromedp.ButtonLeft))
		}
		last = p
	}
	if letGo {
		b.letGo(last)
	}
}

// letGo lifts the button.
func (b *tab) letGo(at spot) {
	b.do(chromedp.MouseEvent(chromedp.MouseReleased, at.X, at.Y, chromedp.ButtonLeft))
}

// text is what an element says.
func (b *tab) text(selector string) string {
	b.t.Helper()
	b.wait(fmt.Sprintf("!!document.querySelector(%s)", quoted(selector)))
	return ask[string](b, fmt.Sprintf("document.querySelector(%s).innerText", quoted(selector)))
}

// eventually waits until something outside the page holds.
func (b *tab) eventually(holds func() bool, what string) {
	b.t.Helper()
	require.Eventually(b.t, holds, patience, 50*time.Millisecond, what)
}

// colours are the colours that an element shows, in steps of eight.
func (b *tab) colours(selector string) map[color.RGBA]int {
	b.t.Helper()
	ctx, stop := context.WithTimeout(b.ctx, patience)
	defer stop()
	shot, err := chromedp.Run(ctx, chromedp.Screenshot(chromedp.CSS(selector)))
	require.NoError(b.t, err)
	img, err := png.Decode(bytes.NewReader(shot))
	require.NoError(b.t, err)
	seen := map[color.RGBA]int{}
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y += 2 {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x += 2 {
			r, g, bl, _ := img.At(x, y).RGBA()
			seen[color.RGBA{uint8(r >> 11 << 3), uint8(g >> 11 << 3), uint8(bl >> 11 << 3), 255}]++
		}
	}
	return seen
}
