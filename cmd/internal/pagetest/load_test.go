//go:build !js

package pagetest

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/edit"
	"threepost/layout/session"
)

// state is what the page's program says of the open load.
func (b *tab) state() session.State {
	b.t.Helper()
	return called[session.State](b, "state", "{}")
}

// called asks the page's program as the page does.
func called[T any](b *tab, method, arg string) T {
	b.t.Helper()
	text := ask[string](b, fmt.Sprintf("threepost.call(%s, %s)", quoted(method), quoted(arg)))
	var answer struct {
		OK      T
		Refusal string
		Fault   string
	}
	require.NoError(b.t, json.Unmarshal([]byte(text), &answer), text)
	require.Empty(b.t, answer.Refusal+answer.Fault, method)
	return answer.OK
}

// opened waits until the load stands on the page.
func (b *tab) opened() {
	b.t.Helper()
	b.wait(`!!window.threepost && !!document.querySelector("[data-page=load] .count b")`)
}

// drawn waits until the canvas has drawn and rests.
func (b *tab) drawn() {
	b.t.Helper()
	b.wait(`!!window.threepost && threepost.frames().count > 0`)
	last := -1
	require.Eventually(b.t, func() bool {
		now := ask[int](b, "threepost.frames().count")
		still := now == last
		last = now
		return still
	}, patience, 400*time.Millisecond, "the picture comes to rest")
}

func TestFirstPictureThenRest(t *testing.T) {
	h := open(t, "studio")
	b := h.visit("/?load=studio", 1280, 800)
	b.opened()
	require.Equal(t, "91", b.text(".count b"))
	b.wait(`document.querySelectorAll(".el-picture svg [data-id]").length > 20`)
	b.drawn()
	// Clay is drawn, not only the ground: the canvas holds many colours.
	require.Greater(t, len(b.colours("canvas[data-view='3d']")), 20)
	before := ask[int](b, "threepost.frames().count")
	time.Sleep(1500 * time.Millisecond)
	require.Equal(t, before, ask[int](b, "threepost.frames().count"), "no frame is drawn while nobody acts")
}

// crowded finds a pot of the load and one beside it on the same level, both
// round and near each other.
func crowded(t *testing.T, s session.State) (pot, beside session.Pot) {
	t.Helper()
	best := math.Inf(1)
	for _, p := range s.Pots {
		for _, q := range s.Pots {
			d := math.Hypot(p.At[0]-q.At[0], p.At[1]-q.At[1])
			if p.ID != q.ID && p.Level == q.Level && !p.Cones && !q.Cones && p.Ware == "tumbler" && q.Ware == "tumbler" && d < best {
				best, pot, beside = d, p, q
			}
		}
	}
	require.NotEmpty(t, pot.ID, "two tumblers stand on one level")
	return pot, beside
}

// onTop brings the level of a pot into the top view, by the elevation.
func (b *tab) onTop(p session.Pot) {
	b.t.Helper()
	l := b.state().Levels[p.Level]
	b.goTo("Kiln")
	b.click(fmt.Sprintf(`.el-picture [data-id="level:%s:%d"].label`, l.Tower, l.Number))
	b.goTo("Load")
	b.until(fmt.Sprintf(`document.querySelector('[data-view=top] [data-id="pot:%s"]')`, p.ID), func() { b.press("Top view") })
}

// middleOf is where a pot of the top view is pressed.
func (b *tab) middleOf(p session.Pot) spot {
	return b.at(fmt.Sprintf(`[data-view=top] [data-id="pot:%s"]`, p.ID))
}

// A pot is dragged until it stands too close. The page tells a gap; the same
// load with the pot at that place is judged by the command line. Both figures
// are one.
func TestDraggedPotTellsTheCommandLinesFigure(t *testing.T) {
	h := open(t, "studio")
	b := h.visit("/?load=studio", 1280, 800)
	b.opened()
	pot, beside := crowded(t, b.state())
	b.onTop(pot)
	from, to := b.middleOf(pot), b.middleOf(beside)
	b.drag(false, from, spot{from.X + (to.X-from.X)*0.12, from.Y + (to.Y-from.Y)*0.12})
	b.wait(`!!document.querySelector(".si-nears li.problem, .si-nears li.watch")`)
	held := called[session.Held](b, "nudge", `{"dx":0,"dy":0,"turn":0}`)
	shown := b.text(".si-nears li b")
	b.picture("held")

	l, err := document.Parse("studio", []byte(h.read("studio")))
	require.NoError(t, err)
	at, turn := held.At, held.Turn
	moved, err := edit.Apply(l, layout.Edit{Act: layout.SetPot, Pot: held.Pot, Tower: held.Tower, Level: held.Number, At: &at, Turn: &turn})
	require.NoError(t, err)
	h.write("moved", string(document.Format(moved)))
	var report clearance.Report
	require.NoError(t, json.Unmarshal([]byte(h.run("check", h.file("moved"), "--json")), &report))
	nearest := held.Nears[0]
	found := false
	for _, f := range report.Findings {
		if f.Rule == layout.PotToPot && math.Abs(f.Have-nearest.Gap) < 1e-6 {
			found = true
		}
	}
	require.True(t, found, "the check finds the gap of %v that the page shows as %q", nearest.Gap, shown)
	require.True(t, strings.HasPrefix(shown, nearest.GapSaid) || nearest.Gap < 0, "the page shows %q for %v", shown, nearest.GapSaid)

	// Let go, it settles where it clears; undo brings back the text as it was.
	before := h.read("studio")
	b.letGo(spot{from.X + (to.X-from.X)*0.12, from.Y + (to.Y-from.Y)*0.12})
	b.eventually(func() bool { return h.read("studio") != before }, "the move is saved")
	require.Zero(t, b.state().Problems)
	b.keys(kb.Control + "z")
	b.press("Undo")
	b.eventually(func() bool { return h.read("studio") == before }, "undo is saved")
}

func TestKeysMoveAChosenPot(t *testing.T) {
	h := open(t, "small-round")
	b := h.visit("/?load=small-round", 1280, 800)
	b.opened()
	s := b.state()
	pot := s.Pots[slices.IndexFunc(s.Pots, func(p session.Pot) bool { return !p.Cones })]
	b.onTop(pot)
	at := b.middleOf(pot)
	b.do(chromedp.MouseClickXY(at.X, at.Y))
	b.wait(`!!document.querySelector(".si-chosen h2")`)
	b.keys(kb.ArrowLeft)
	b.wait(`!!document.querySelector(".si-keys")`)
	held := called[session.Held](b, "nudge", `{"dx":0,"dy":0,"turn":0}`)
	require.Equal(t, pot.ID, held.Pot, "the pot that was clicked is the one in hand")
	require.InDelta(t, pot.At[0]-1, held.At[0], 1e-9)
	require.InDelta(t, pot.At[1], held.At[1], 1e-9)
	b.keys(kb.Escape)
	b.wait(`!document.querySelector(".si-keys")`)
	require.Equal(t, s.Revision, b.state().Revision, "Escape leaves the load as it was")
}

func TestShelfIsRaisedToAStop(t *testing.T) {
	h := open(t, "studio")
	b := h.visit("/?load=studio", 1280, 800)
	b.opened()
	before := h.read("studio")
	// The bar lies on the shelf over the level that is worked on.
	s := b.state()
	b.click(fmt.Sprintf(`.el-picture [data-id="level:%s:1"].label`, s.Sides[len(s.Sides)-1].Tower))
	at := b.at(`.el-picture [data-id^="handle:"]`)
	b.drag(false, at, spot{at.X, at.Y - 30})
	b.wait(`!!document.querySelector(".li-stops")`)
	b.picture("lifted")
	lifted := called[session.Lifted](b, "stop", fmt.Sprintf(`{"index":%d}`, 0))
	require.NotEmpty(t, lifted.Stops)
	b.letGo(spot{at.X, at.Y - 30})
	b.wait(`!document.querySelector(".li-stops")`)
	b.eventually(func() bool { return h.read("studio") != before }, "the shelf's new height is saved")
	b.press("Undo")
	b.eventually(func() bool { return h.read("studio") == before }, "undo brings it back")
}
