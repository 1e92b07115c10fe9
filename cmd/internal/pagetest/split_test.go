//go:build !js

package pagetest

import (
	"os"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// The ware of a course week is split into firings on the page: they are told
// with what is in them and why, and one is made a load of the folder. The load
// itself stays as it is.
func TestTheTableIsSplitIntoFirings(t *testing.T) {
	h := open(t)
	text, err := os.ReadFile("../../../testdata/firings/table.toml")
	require.NoError(t, err)
	h.write("table", string(text))
	b := h.visit("/?load=table", 1440, 900)
	b.wait(`!!window.threepost && !!document.querySelector("[data-page=load] .bar .plan")`)
	b.goTo("Table")
	b.press("Split into firings")
	b.wait(`!!document.querySelector("[data-page=firings] .sp-acts")`)
	b.click("[data-page=firings] .sp-acts .main")
	b.wait(`document.querySelectorAll(".sp-one").length > 1`)
	said := said(b.text(".sp"))
	require.Regexp(t, `\d+ of 137 pots in \d+ firings\.`, said)
	require.Contains(t, said, "Firing 1: glaze cone 6 (1222 C)")
	require.Contains(t, said, "must go")
	require.Contains(t, said, "floor vase")
	require.Contains(t, said, "At least")
	b.picture("desk")
	before := h.read("table")
	names := len(h.names())
	b.click(".sp-one button")
	b.wait(`/under Your loads/.test(document.querySelector(".sp-one").innerText)`)
	require.Len(t, h.names(), names+1)
	require.Equal(t, before, h.read("table"))
	for _, name := range h.names() {
		if name = strings.TrimSuffix(name, ".toml"); name != "table" {
			require.Contains(t, h.run("check", h.file(name)), "No problem")
		}
	}
	b.press("Back to the load")
	b.wait(`!!document.querySelector("[data-page=load]")`)
	b.goTo("Table")
	b.press("Split into firings")
	b.wait(`document.querySelectorAll(".sp-one").length > 1`) // it is still there
	b.do(chromedp.EmulateViewport(390, 844))
	b.wait("innerWidth === 390")
	require.Zero(t, ask[int](b, "Math.max(0, document.documentElement.scrollWidth - innerWidth)"))
	b.picture("phone")
	b.audit("firings")
}
