//go:build !js

package pagetest

import (
	"fmt"
	"os"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// size is a screen in CSS px.
type size struct {
	name          string
	width, height int64
}

// states are the places of the page a person can be in, with the way there.
// Each begins from a page of its own.
var states = []struct {
	name, load, path string
	reach            func(*tab)
}{
	{"first run", "", "/", func(b *tab) { b.wait(`!!document.querySelector("[data-page=first]")`) }},
	{"load", "studio", "/?load=studio", func(b *tab) { b.opened(); b.drawn() }},
	{"pot chosen", "studio", "/?load=studio", func(b *tab) {
		b.opened()
		pot, _ := crowded(b.t, b.state())
		b.onTop(pot)
		b.click(fmt.Sprintf(`[data-view=top] [data-id="pot:%s"]`, pot.ID))
		b.wait(`!!document.querySelector(".si-chosen h2")`)
	}},
	{"pot in hand", "studio", "/?load=studio", func(b *tab) {
		b.opened()
		pot, _ := crowded(b.t, b.state())
		b.onTop(pot)
		b.click(fmt.Sprintf(`[data-view=top] [data-id="pot:%s"]`, pot.ID))
		b.keys(kb.ArrowLeft)
		b.wait(`!!document.querySelector(".si-keys")`)
	}},
	{"setup", "studio", "/?load=studio", func(b *tab) {
		b.opened()
		b.until(`document.querySelector("[data-page=setup]")`, func() { b.click(".bar .firing") })
	}},
	{"rows", "studio", "/?load=studio", func(b *tab) {
		b.opened()
		b.goTo("Table")
		b.until(`document.querySelector("#tb-new")`, func() { b.press("Rows") })
	}},
	{"print", "newcomer", "/?load=newcomer", func(b *tab) {
		b.opened()
		if b.there("More:") {
			b.press("More:")
		}
		b.press("Print the sheet")
		b.wait(`document.querySelectorAll("[data-page=print] img, [data-page=print] svg[viewBox]").length > 0`)
	}},
	{"loads", "newcomer", "/?load=newcomer", func(b *tab) {
		b.opened()
		b.until(`document.querySelector("[data-page=loads]")`, func() { b.click(".bar .home") })
	}},
	{"at the kiln", "newcomer", "/kiln/newcomer", func(b *tab) { b.wait(`!!document.querySelector("#kiln.at-step h1")`) }},
}

// goTo opens a place's tab where places are tabs.
func (b *tab) goTo(place string) {
	b.t.Helper()
	if ask[bool](b, `!!document.querySelector(".tabs")`) {
		b.until(`document.querySelector(".tabs [aria-selected=true]")?.innerText === `+quoted(place), func() { b.pressIn(place, ".tabs") })
	}
}

// No state of the page has a serious violation of the accessibility rules: on a
// desk in light, on a phone in dark; with THREEPOST_LONG=1 both in both.
func TestEveryStateIsAccessible(t *testing.T) {
	for _, s := range states {
		t.Run(s.name, func(t *testing.T) {
			h := open(t, []string{s.load}[:min(len(s.load), 1)]...)
			for _, z := range []struct {
				size
				schemes []string
			}{{size{"desk", 1280, 800}, []string{"light", "dark"}}, {size{"phone", 390, 844}, []string{"dark", "light"}}} {
				if os.Getenv("THREEPOST_LONG") == "" {
					z.schemes = z.schemes[:1]
				}
				b := h.visit(s.path, z.width, z.height)
				s.reach(b)
				for _, scheme := range z.schemes {
					b.scheme(scheme)
					b.wait("document.getAnimations().length === 0") // colours settle
					b.audit(s.name + ", " + z.name + ", " + scheme)
					b.picture(z.name + "-" + scheme)
				}
				b.do(chromedp.Navigate("about:blank"))
			}
		})
	}
}

// Nothing is cut off at the sides, from a small phone to a wall of screen: the
// page is opened once and made larger. THREEPOST_LONG=1 takes every state.
func TestNothingReachesOverTheSides(t *testing.T) {
	h := open(t, "studio", "newcomer")
	for _, s := range states {
		if s.load == "" || os.Getenv("THREEPOST_LONG") == "" && s.name != "rows" && s.name != "setup" && s.name != "pot chosen" {
			continue
		}
		b := h.visit(s.path, 360, 640)
		s.reach(b)
		for _, z := range []size{{"small phone", 360, 640}, {"tablet", 820, 1180}, {"large", 2560, 1440}, {"4K", 3840, 2160}} {
			b.do(chromedp.EmulateViewport(z.width, z.height))
			b.wait(fmt.Sprintf("innerWidth === %d && document.getAnimations().length === 0", z.width))
			over := ask[int](b, "Math.max(0, document.documentElement.scrollWidth - innerWidth)")
			b.picture(z.name + "-" + s.name)
			require.Zero(t, over, "%s, %s: px to the right of the screen", s.name, z.name)
		}
		b.do(chromedp.Navigate("about:blank"))
	}
}
