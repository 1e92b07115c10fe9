//go:build !js

package pagetest

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// From nothing: the kiln in one sentence, rows typed, a plan, all by the page.
func TestFromNothingToAPlan(t *testing.T) {
	h := open(t)
	b := h.visit("/", 1280, 800)
	b.wait(`!!document.querySelector("[data-page=first]")`)
	b.picture("first")
	b.press("Build my kiln")
	b.wait(`!!document.querySelector("[data-page]:not([data-page=first]) .plan, [data-page=table], [data-page=load]")`)
	b.picture("built")
	b.until(`document.querySelector("[data-page=table] #tb-new")`, func() { b.press("Rows") })
	for _, row := range []string{"8 mugs 100 x 85", "4 bowls 75 x 150", "vase 220 x 110"} {
		b.click(`#tb-new`)
		b.do(chromedp.KeyEvent(row))
		b.keys(kb.Enter)
		b.wait(`threepost && JSON.parse(threepost.call("state", "{}")).ok.ware.some((w) => ` + quoted(row) + `.includes(w.name.slice(0, 3)))`)
	}
	require.Equal(t, 13, b.state().Of)
	b.picture("rows")
	b.press("Plan the load")
	b.wait(`JSON.parse(threepost.call("state", "{}")).ok.set > 0`)
	b.wait(`!document.querySelector(".planning")`)
	s := b.state()
	require.Zero(t, s.Problems)
	require.Positive(t, s.Set)
	b.picture("planned")
	var file string
	b.eventually(func() bool {
		for _, name := range h.names() {
			file = h.read(strings.TrimSuffix(name, ".toml"))
		}
		return strings.Contains(file, "[tower.level.set]")
	}, "the plan is saved")
}
