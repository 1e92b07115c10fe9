//go:build !js

package pagetest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// crowded writes the newcomer's reference load with twenty mugs more.
func (h *house) crowded() {
	h.t.Helper()
	text, err := os.ReadFile(filepath.Join("../../../testdata/loads/reference/newcomer.toml"))
	require.NoError(h.t, err)
	more := strings.Replace(string(text), "count = 12", "count = 32", 1)
	require.NotEqual(h.t, string(text), more)
	h.write("crowded", more)
}

// TestAChosenLevelSaysWhyItHasItsHeight, in quiet lines beside what it takes.
func TestAChosenLevelSaysWhyItHasItsHeight(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	b.click(`.el-picture [data-id="level:left side:1"].label`)
	b.wait(`/Left 1 carries 3×\(50\+50\): the bowls are 77 high and want 12 above them; the posts make nothing between 88 and 100\./.test(document.querySelector(".si-chosen")?.innerText ?? "")`)
	b.picture("why")
}

// TestWhatIsWorthBuyingIsAskedForAndStopped: the page tells how far it is, keeps
// what it has, and says later that the load was another.
func TestWhatIsWorthBuyingIsAskedForAndStopped(t *testing.T) {
	h := open(t, "newcomer")
	h.crowded()
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	require.False(t, b.there("See what is worth buying next"), "nothing waits")
	b = h.visit("/?load=crowded", 1280, 800)
	b.opened()
	b.goTo("Gaps")
	b.press("See what is worth buying next")
	b.wait(`!!document.querySelector(".wb [role=status]")`)
	b.picture("buying")
	b.press("Stop and keep this")
	b.wait(`/(Stopped (before the first|after \d+) of|None of|Worth buying next: )/.test(document.querySelector(".wb")?.innerText ?? "")`)
	b.picture("bought")
}
