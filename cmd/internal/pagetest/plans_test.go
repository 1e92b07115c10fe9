//go:build !js

package pagetest

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"threepost/layout/clearance"
)

// bare is a load of testdata without an arrangement, written into the house.
func (h *house) bare(name string) {
	h.t.Helper()
	text, err := os.ReadFile(filepath.Join("../../../testdata/loads", name+".toml"))
	require.NoError(h.t, err)
	h.write(name, string(text))
}

// planned plans the open load, stops as soon as there is a plan, and waits for
// what comes beside it.
func (b *tab) planned() {
	b.t.Helper()
	b.wait(`!!window.threepost && !!document.querySelector("[data-page=load] .bar .plan")`)
	b.press("Plan the load")
	b.wait(`/[1-9]\d* of \d+ set so far/.test(document.querySelector(".planning")?.innerText ?? "") || !document.querySelector(".planning")`)
	if b.there("Stop and keep this") {
		b.press("Stop and keep this")
	}
	b.wait(`!document.querySelector(".planning") && (JSON.parse(threepost.call("state", "{}")).ok.ways?.plans ?? 0) > 1`)
	b.wait(`!!JSON.parse(threepost.call("state", "{}")).ok.ways.price`)
}

// compared opens the plans side by side.
func (b *tab) compared() {
	b.t.Helper()
	b.goTo("Gaps")
	b.until(`document.querySelector("[data-page=plans] .pl-plan")`, func() { b.press("Compare the plans") })
	b.wait(`document.querySelectorAll(".pl-plan .pl-picture svg").length === document.querySelectorAll(".pl-plan").length`)
}

// said is a text of the page made plain.
func said(text string) string { return strings.Join(strings.Fields(text), " ") }

// A load is planned; the plans that differ stand side by side with the bound
// and the price. Another is taken, kept on disk, and undone.
func TestPlansSideBySide(t *testing.T) {
	h := open(t)
	h.bare("newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.planned()
	lines := said(b.text(".wy"))
	require.Regexp(t, `^\d+ set\. (Nobody|Nothing shows)`, lines, "the bound is told")
	b.compared()
	b.picture("desk")
	n := ask[int](b, `document.querySelectorAll(".pl-plan").length`)
	require.GreaterOrEqual(t, n, 2)
	require.Equal(t, 1, ask[int](b, `document.querySelectorAll(".pl-plan.mine").length`))
	require.Equal(t, "Keep this one", b.text(".pl-plan.mine .pl-act button"))
	// What a column says is what the plan is, judged by the command line.
	before := h.read("newcomer")
	other := `.pl-plan:not(.mine)`
	set, watches := b.text(other+" .pl-set b"), said(b.text(other+" .pl-watches"))
	title := b.text(other + " h2")
	b.click(other + " .pl-act button")
	b.wait(`!!document.querySelector("[data-page=load]")`)
	require.Contains(t, b.text(".said p"), title)
	b.eventually(func() bool { return h.read("newcomer") != before }, "the other plan is saved")
	require.Equal(t, set, b.text(".count b"))
	var report clearance.Report
	require.NoError(t, json.Unmarshal([]byte(h.run("check", h.file("newcomer"), "--json")), &report))
	require.Zero(t, report.Problems)
	require.Equal(t, report.Watches == 0, strings.HasPrefix(watches, "none"), watches)
	b.compared()
	require.Equal(t, title, b.text(".pl-plan.mine h2"))
	b.keys(kb.Escape)
	b.wait(`!!document.querySelector("[data-page=load]")`)
	b.press("Undo")
	b.eventually(func() bool { return h.read("newcomer") == before }, "undo brings the plan back")
}

// The closer arrangement is shown with its gaps as watches; undo takes it away.
func TestCloserGapsAreShownAndUndone(t *testing.T) {
	h := open(t)
	h.bare("newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.planned()
	before, was := h.read("newcomer"), b.state()
	require.NotNil(t, was.Ways.Price)
	require.NotEmpty(t, was.Ways.Price.Act)
	b.press(was.Ways.Price.Act)
	b.eventually(func() bool { return h.read("newcomer") != before }, "the closer arrangement is saved")
	now := b.state()
	require.Greater(t, now.Set, was.Set)
	require.Positive(t, now.Watches)
	require.Zero(t, now.Problems)
	b.wait(`!!document.querySelector("[data-view=top] .watch")`)
	b.picture("closer")
	b.compared()
	require.Contains(t, b.text(".pl-note"), "The closer arrangement stands")
	b.picture("compare")
	b.press("Undo")
	b.eventually(func() bool { return h.read("newcomer") == before }, "undo brings the plan back")
	require.Equal(t, 1, ask[int](b, `document.querySelectorAll(".pl-plan.mine").length`))
}

// When the load asks for something else, the plans say so; undone, they are
// there again. In inches and UK words all figures and words follow.
func TestPlansFollowTheLoad(t *testing.T) {
	h := open(t)
	h.bare("newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.planned()
	b.compared()
	require.Contains(t, said(b.text(".pl-plan .pl-furniture")), "shelves")
	room := b.text(".pl-plan .pl-room")
	called[any](b, "words", `{"words":"UK"}`)
	b.press("in")
	b.wait(`document.querySelector(".pl-plan .pl-room").innerText !== ` + quoted(room))
	require.Contains(t, said(b.text(".pl-plan .pl-furniture")), "bats")
	require.Contains(t, said(b.text(".pl-plan .pl-furniture")), "props")
	b.picture("inches")
	b.press("mm")
	b.keys(kb.Escape)
	b.goTo("Table")
	b.until(`document.querySelector("#tb-new")`, func() { b.press("Rows") })
	name := b.state().Ware[0].Name
	b.cell("height of "+name, "80")
	b.press("Pots")
	b.wait(`/made for the load as it was/.test(document.querySelector(".wy")?.innerText ?? "")`)
	require.False(t, b.there("Compare the plans"))
	b.picture("stale")
	b.press("Undo")
	b.wait(`document.querySelector(".wy")?.innerText.includes("Compare the plans")`)
}

// The plans beside a load are there again when the page is loaded anew in the
// same tab, with bound and price; the price not once the load has changed.
func TestPlansOutliveAReload(t *testing.T) {
	h := open(t)
	h.bare("newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.planned()
	b.eventually(func() bool { return strings.Contains(h.read("newcomer"), "[[tower]]") }, "the plan is saved")
	was := b.state().Ways
	again := func() {
		ask[int](b, "(window.before = 1, 1)")
		b.do(chromedp.Reload())
		b.wait(`!window.before && !!window.threepost && !!document.querySelector("[data-page=load] .bar .plan")`)
		b.wait(`(JSON.parse(threepost.call("state", "{}")).ok.ways?.plans ?? 0) > 1`)
	}
	again()
	now := b.state().Ways
	require.Equal(t, was.Plans, now.Plans)
	require.Equal(t, was.Bound, now.Bound)
	require.Equal(t, was.Price, now.Price)
	b.compared()
	n := ask[int](b, `document.querySelectorAll(".pl-plan").length`)
	require.Equal(t, was.Plans, n)
	before := h.read("newcomer")
	b.click(".pl-plan:not(.mine) .pl-act button")
	b.wait(`!!document.querySelector("[data-page=load]")`)
	b.eventually(func() bool { return h.read("newcomer") != before }, "the other plan is saved")
	again()
	require.Equal(t, was.Plans, b.state().Ways.Plans)
	require.Nil(t, b.state().Ways.Price, "it was that of another arrangement")
}

// The plans are read and chosen on a phone, and from one wall of screen to
// another nothing is cut and no rule of accessibility is broken.
func TestPlansOnEveryScreen(t *testing.T) {
	h := open(t)
	h.bare("newcomer")
	b := h.visit("/?load=newcomer", 390, 844)
	b.planned()
	b.compared()
	for _, z := range []size{{"phone", 390, 844}, {"small", 360, 640}, {"tablet", 820, 1180}, {"desk", 1280, 800}, {"large", 2560, 1440}} {
		b.do(chromedp.EmulateViewport(z.width, z.height))
		b.wait(fmt.Sprintf("innerWidth === %d && document.getAnimations().length === 0", z.width))
		b.wait(`[...document.querySelectorAll(".pl-picture")].every((p) => { const a = p.getBoundingClientRect(), s = p.querySelector("svg")?.getBoundingClientRect(); return s && Math.abs(a.width - s.width) < 2 && Math.abs(a.height - s.height) < 2; })`)
		for _, scheme := range []string{"light", "dark"} {
			b.scheme(scheme)
			b.wait("document.getAnimations().length === 0")
			if scheme == "light" || z.name == "phone" || os.Getenv("THREEPOST_LONG") != "" {
				b.audit("plans, " + z.name + ", " + scheme)
			}
			b.picture(z.name + "-" + scheme)
		}
		over := ask[int](b, "Math.max(0, document.documentElement.scrollWidth - innerWidth)")
		require.Zero(t, over, "%s: px to the right of the screen", z.name)
		cut := ask[int](b, `[...document.querySelectorAll(".pl-plan *")].filter((e) => e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflowX !== "visible" && !e.closest("dt") && e.clientWidth > 1).length`)
		require.Zero(t, cut, "%s: texts that are cut", z.name)
	}
}
