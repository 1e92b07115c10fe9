//go:build !js

package pagetest

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
)

// choose sets a list of choices by its label.
func (b *tab) choose(label, value string) {
	b.t.Helper()
	at := fmt.Sprintf(`select[aria-label=%s]`, quoted(label))
	b.wait(fmt.Sprintf(`!!document.querySelector(%s)`, quoted(at)))
	ask[bool](b, fmt.Sprintf(`(() => { const s = document.querySelector(%s); s.value = %s; s.dispatchEvent(new Event("change", { bubbles: true })); return true; })()`, quoted(at), quoted(value)))
}

// Wishes are told in the set-up and written to the file; after a plan the page
// tells those that are not kept or keep something out.
func TestWishesAreToldInTheSetup(t *testing.T) {
	h := open(t)
	h.bare("newcomer")
	b := h.visit("/?load=newcomer", 1280, 900)
	b.wait(`!!window.threepost && !!document.querySelector(".bar .firing")`)
	b.until(`document.querySelector("[data-page=setup]")`, func() { b.click(".bar .firing") })
	b.choose("Tall ware", "alternate")
	b.press("Keep a row off a level")
	b.choose("Level", "top")
	wishes := func() layout.Wishes {
		l, err := document.Parse("newcomer", []byte(h.read("newcomer")))
		if err != nil {
			return layout.Wishes{}
		}
		return l.Wishes
	}
	row := ""
	b.eventually(func() bool {
		w := wishes()
		if len(w.Off) == 1 {
			row = w.Off[0].Ware
		}
		return w.Tall == layout.TallAlternate && len(w.Off) == 1 && w.Off[0].Level == layout.TopLevel
	}, "the wishes are in the file")
	require.NotEmpty(t, row)
	ask[bool](b, `(document.querySelector(".se-leave")?.scrollIntoView(), true)`)
	b.picture("setup")
	b.press("Take out")
	b.eventually(func() bool { return len(wishes().Off) == 0 }, "the wish is gone from the file")
}
