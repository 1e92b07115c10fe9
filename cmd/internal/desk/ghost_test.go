package desk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

func TestWhatEditsWouldDoIsDrawnOverTheTopViewAndNotDone(t *testing.T) {
	d := laid(t, "studio")
	pot, level := firstPot(t, d, "mug")
	before := ask[struct{ Text string }](t, d, "text", m{}).Text
	move := []layout.Edit{{Act: layout.SetPot, Pot: pot.ID, Tower: level.Tower, Level: level.Number, At: vec(pot.At.Add([2]float64{20, 0}))}}

	require.Empty(t, ask[Ghost](t, d, "try", m{"edits": move}).Marks, "no top view is on the page")
	ask[map[string]any](t, d, "top", m{"w": 500, "h": 500, "tower": level.Tower, "level": level.Number})
	g := ask[Ghost](t, d, "try", m{"edits": move})
	require.Len(t, g.Pots, 1)
	require.Equal(t, pot.ID, g.Pots[0].ID)
	require.Len(t, g.Marks, 1)
	require.Equal(t, "ring", g.Marks[0].Class)
	require.Equal(t, before, ask[struct{ Text string }](t, d, "text", m{}).Text)

	away := []layout.Edit{{Act: layout.Withdraw, Pot: pot.ID}}
	require.Empty(t, ask[Ghost](t, d, "try", m{"edits": away}).Marks, "what leaves the kiln stands nowhere")
}

func TestAShelfIsDraggedByPxFromWhereItHangs(t *testing.T) {
	d := laid(t, "studio")
	ask[map[string]any](t, d, "elevation", m{"w": 520, "h": 400})
	was := ask[Lifted](t, d, "lift", m{"tower": "left side", "level": 4})
	per := d.sight.elevation.frame.Per
	for i, s := range was.Stops {
		by := (was.Stops[was.Was].Height - s.Height) * per
		got := ask[Lifted](t, d, "stop", m{"by": by})
		require.Equal(t, i, got.At, "%s is %g px down", s.Posts, by)
	}
}
