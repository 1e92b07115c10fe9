//go:build !js

package pagetest

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
)

// TestWhatWaitsBecomesTheNextLoad adds two cups to a full load and makes the
// next load of them: a file of its own, and this one as it was.
func TestWhatWaitsBecomesTheNextLoad(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	b.press("Rows")
	require.False(t, b.there("Make the next load"), "nothing waits yet")
	b.click("#tb-new")
	b.keys("2 cups 60 x 55\r")
	b.holds(`s.ware.length === 4 && s.ware[3].waits === 2`)
	b.picture("next")
	b.press("Make the next load")
	b.eventually(func() bool { return len(h.names()) == 2 }, "a second load in the folder")
	l, err := document.Parse("", []byte(h.read("first-glaze-next-load")))
	require.NoError(t, err)
	require.Len(t, l.Ware, 1)
	require.Equal(t, 2, l.Ware[0].Count)
	require.Empty(t, l.Towers)
	require.Equal(t, "First glaze, next load", l.Title)
	require.Len(t, b.state().Ware, 4)
	b.press("Pots")
	b.opened()
	b.picture("foot")
}
