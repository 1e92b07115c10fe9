//go:build !js

package pagetest

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"threepost/layout/session"
)

// fingers puts fingers where they are given, moves them, or lifts them all.
func (b *tab) fingers(what input.DispatchTouchEventType, at ...spot) {
	b.t.Helper()
	p := input.DispatchTouchEventParams{Type: what, TouchPoints: []*input.TouchPoint{}}
	for i, s := range at {
		id, one := float64(i), 1.0
		p.TouchPoints = append(p.TouchPoints, &input.TouchPoint{X: s.X, Y: s.Y, ID: &id, RadiusX: &one, RadiusY: &one, Force: &one})
	}
	_, err := chromedp.Call(b.ctx, input.DispatchTouchEvent, p)
	b.must(err, "a touch")
}

// tap taps a control by its name.
func (b *tab) tap(name, within string) {
	b.t.Helper()
	at := b.find(name, within)
	b.do(chromedp.TapXY(at.X, at.Y))
}

// A phone in the hand: a pot is tapped, pulled by one finger, set down; the 3D
// picture comes nearer under two; levels are stepped through.
func TestPotIsMovedByTouch(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 390, 844)
	b.do(chromedp.EmulateViewport(390, 844, chromedp.EmulateTouch))
	b.opened()
	b.drawn()
	before := h.read("newcomer")

	// Two fingers spread: labels of the picture move apart, the load is as it was.
	canvas := b.at("canvas[data-view='3d']")
	label := func() string {
		return ask[string](b, `JSON.stringify([...document.querySelectorAll(".sc-label")].map((e) => [e.style.left, e.style.top]))`)
	}
	was := label()
	b.fingers(input.DispatchTouchEventTypeTouchStart, spot{canvas.X - 30, canvas.Y}, spot{canvas.X + 30, canvas.Y})
	for i := 1.0; i <= 6; i++ {
		b.fingers(input.DispatchTouchEventTypeTouchMove, spot{canvas.X - 30 - 10*i, canvas.Y}, spot{canvas.X + 30 + 10*i, canvas.Y})
	}
	b.fingers(input.DispatchTouchEventTypeTouchEnd)
	b.wait(fmt.Sprintf(`JSON.stringify([...document.querySelectorAll(".sc-label")].map((e) => [e.style.left, e.style.top])) !== %s`, quoted(was)))
	require.Equal(t, 1.0, ask[float64](b, "visualViewport.scale"), "the picture comes nearer, not the page")
	b.picture("pinched")

	// Levels, one after the other.
	shown := map[string]bool{}
	for range 3 {
		b.tap("One level lower", ".sc-head")
		shown[b.text(".sc-step .note")] = true
	}
	require.GreaterOrEqual(t, len(shown), 2, "the levels shown are told: %v", shown)

	// A tap chooses, a pull moves, letting go sets down.
	pot := b.pots("bowl 5")
	l := b.state().Levels[pot.Level]
	b.tap("Kiln", ".tabs")
	b.tapAt(fmt.Sprintf(`.el-picture [data-id="level:%s:%d"].label`, l.Tower, l.Number))
	b.tap("Load", ".tabs")
	b.tap("Top view", ".mi-tabs")
	mark := `[data-view=top] [data-id="pot:bowl 5"]`
	b.tapAt(mark)
	b.wait(`!!document.querySelector(".mi-strip b")`)
	at := b.at(mark)
	b.fingers(input.DispatchTouchEventTypeTouchStart, at)
	for i := 1.0; i <= 8; i++ {
		b.fingers(input.DispatchTouchEventTypeTouchMove, spot{at.X, at.Y + 2*i})
	}
	b.wait(`!!document.querySelector(".mi-strip .act.main")`)
	held := called[session.Held](b, "nudge", `{"dx":0,"dy":0,"turn":0}`)
	require.Equal(t, "bowl 5", held.Pot)
	require.Greater(t, math.Abs(held.At[1]-pot.At[1]), 5.0)
	b.picture("pulled")
	b.fingers(input.DispatchTouchEventTypeTouchEnd)
	b.wait(`!document.querySelector(".mi-strip .act.main")`)
	b.eventually(func() bool { return h.read("newcomer") != before }, "the move is saved")
	require.Zero(t, b.state().Problems)
	b.tap("Undo", ".bar")
	b.eventually(func() bool { return h.read("newcomer") == before }, "undo brings it back")
}

// pots is a pot that stands, by name.
func (b *tab) pots(id string) session.Pot {
	b.t.Helper()
	p := b.standing(id)
	require.NotNil(b.t, p, id)
	return *p
}

// tapAt taps the middle of the first element of a selector.
func (b *tab) tapAt(selector string) {
	b.t.Helper()
	at := b.at(selector)
	b.do(chromedp.TapXY(at.X, at.Y))
}

func TestPlanBesideAChangedLoad(t *testing.T) {
	h := open(t, "newcomer")
	bare := h.read("newcomer")
	h.write("bare", bare[:strings.Index(bare, "[[tower]]")])
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	for _, answer := range []string{"Keep what stands", "Take this one"} {
		b.withdraw("bowl 5")
		b.withdraw("bowl 6")
		b.holds(`s.set === 17`)
		b.press("Plan the load")
		b.wait(`/(18|19) of 19 set so far/.test(document.querySelector(".planning")?.innerText ?? "")`)
		b.press("Undo")
		b.holds(`s.set === 18`)
		if b.there("Stop and keep this") {
			b.press("Stop and keep this")
		}
		b.wait(`!!document.querySelector('[aria-label="A plan beside the load"]')`)
		require.Equal(t, 18, b.state().Set, "what was changed meanwhile stands")
		b.picture("offered")
		b.press(answer)
		b.wait(`!document.querySelector('[aria-label="A plan beside the load"]')`)
		if answer == "Keep what stands" {
			require.Equal(t, 18, b.state().Set)
			b.press("Undo")
		} else {
			require.Contains(t, b.state().Undo, "plan")
			b.press("Undo")
			b.holds(`s.set === 18`)
		}
	}

	// A plan that is stopped keeps the best so far.
	b.do(chromedp.Navigate(h.address + "/?load=bare"))
	b.wait(`!!document.querySelector(".bar .plan")`)
	b.press("Plan the load")
	b.wait(`/[1-9][0-9]* of 19 set so far/.test(document.querySelector(".planning")?.innerText ?? "") || !document.querySelector(".planning")`)
	if b.there("Stop and keep this") {
		b.press("Stop and keep this")
	}
	b.wait(`!document.querySelector(".planning")`)
	b.holds(`s.set > 0 && s.problems === 0`)
	b.press("Undo")
	b.holds(`s.set === 0`)
}

func TestEarlierVersionIsBroughtBack(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	before := h.read("newcomer")
	b.withdraw("bowl 5")
	b.eventually(func() bool { return h.read("newcomer") != before }, "the edit is saved")
	after := h.read("newcomer")
	b.click(".bar .home")
	b.press("Earlier versions")
	b.wait(`document.querySelectorAll(".lo-versions li").length >= 2`)
	b.picture("versions")
	b.click(".lo-versions > li:last-child button:last-child")
	b.opened()
	b.holds(`s.set === 19`)
	b.eventually(func() bool { return h.read("newcomer") == before }, "the file is as it was found")
	b.press("Undo")
	b.eventually(func() bool { return h.read("newcomer") == after }, "undo takes it back")
}

// Two hands change one load while the page cannot reach its program. Both
// versions are offered; whichever goes on, the other is kept.
func TestTwoHandsOnOneLoad(t *testing.T) {
	h := open(t, "newcomer")
	text := h.read("newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	b.onTop(b.pots("bowl 5"))
	b.offline(true)
	b.click(`[data-view=top] [data-id="pot:bowl 5"]`)
	b.press("Back to the table")
	b.wait(`/kept in this browser/.test(document.querySelector(".saved").innerText)`)
	b.picture("away")
	theirs := strings.Replace(text, `title = "First glaze"`, `title = "Another hand"`, 1)
	h.write("newcomer", theirs)
	b.offline(false)
	b.wait(`!!document.querySelector('[aria-label="Two versions"]')`)
	b.picture("clash")
	require.Equal(t, theirs, h.read("newcomer"), "nothing is overwritten")

	// What is done here meanwhile belongs to this page's version.
	b.click(`[data-view=top] [data-id="pot:bowl 6"]`)
	b.press("Back to the table")
	b.holds(`s.set === 17`)
	b.press("Go on with this page's")
	b.wait(`document.querySelector(".saved").innerText.endsWith(" saved")`)
	b.holds(`s.set === 17 && s.title === "First glaze"`)
	b.eventually(func() bool { return strings.Contains(h.read("newcomer"), "First glaze") }, "this page's version is the file")
	require.NotContains(t, h.read("newcomer"), `"bowl 6"`)
	require.True(t, b.keeps("Another hand"), "the other hand's is among the versions")

	// Again, and the file's goes on.
	mine := h.read("newcomer")
	b.offline(true)
	b.withdraw("mug 5")
	b.wait(`/kept in this browser/.test(document.querySelector(".saved").innerText)`)
	h.write("newcomer", strings.Replace(mine, `title = "First glaze"`, `title = "Another hand"`, 1))
	b.offline(false)
	b.wait(`!!document.querySelector('[aria-label="Two versions"]')`)
	b.withdraw("mug 6")
	b.press("Take the file's")
	b.holds(`s.title === "Another hand" && s.set === 17`)
	require.True(t, b.keepsWithout(`"mug 6" =`), "what this page had, to its last change, is among the versions")
}

// keeps tells whether an earlier version of the open load holds a text.
func (b *tab) keeps(what string) bool {
	b.t.Helper()
	return b.anyVersion(fmt.Sprintf(`text.includes(%s)`, quoted(what)))
}

// keepsWithout tells whether an earlier version lacks a text.
func (b *tab) keepsWithout(what string) bool {
	b.t.Helper()
	return b.anyVersion(fmt.Sprintf(`!text.includes(%s)`, quoted(what)))
}

func (b *tab) anyVersion(holds string) bool {
	return ask[bool](b, `(async () => {
		const at = "/api/loads/newcomer/versions", list = await (await fetch(at)).json();
		for (const v of list.versions ?? list) { const { text } = await (await fetch(at + "/" + v.n)).json(); if (`+holds+`) return true; }
		return false; })()`)
}
