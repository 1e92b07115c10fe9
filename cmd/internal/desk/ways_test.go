package desk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/session"
	"threepost/render/views"
)

// Two arrangements of one load are laid beside it, drawn, compared, and one is
// taken and undone by the calls of the page.
func TestPlansAreLaidComparedAndTaken(t *testing.T) {
	d := laid(t, "small-round")
	text := ask[written](t, d, "text", m{}).Text
	towers := layout.CloneTowers(d.s.Load().Towers)
	fewer := layout.CloneTowers(towers)
	last := len(fewer[0].Levels) - 1
	fewer[0].Levels = fewer[0].Levels[:last]
	s := ask[session.State](t, d, "lay", m{"text": text, "plans": []m{
		{"edit": m{"act": "arrange", "towers": towers}, "split": "full shelves", "value": 10, "told": true},
		{"edit": m{"act": "arrange", "towers": fewer}, "split": "full shelves", "value": 8},
	}})
	require.Equal(t, 0, s.Ways.Mine)
	require.Equal(t, 2, s.Ways.Plans)
	s = ask[session.State](t, d, "lay", m{"bound": m{"set": 99, "value": 99}})
	require.Equal(t, 2, s.Ways.Plans, "what was laid stays")

	c := ask[session.Compared](t, d, "compare", m{})
	require.Equal(t, "One level fewer", c.Columns[1].Title)
	require.InDelta(t, 0.8, c.Columns[1].Share, 1e-9)
	one, two := ask[views.Picture](t, d, "way", m{"plan": 0, "w": 300, "h": 280}), ask[views.Picture](t, d, "way", m{"plan": 1, "w": 300, "h": 280})
	require.Equal(t, one.Frame, two.Frame, "to one scale")
	require.Zero(t, washes(one))
	require.Positive(t, washes(two), "the level that has another ceiling is washed")

	before := ask[written](t, d, "text", m{}).Text
	s = ask[session.State](t, d, "takeway", m{"plan": 1})
	require.Equal(t, 1, s.Ways.Mine)
	require.Equal(t, last, len(s.Levels))
	require.Equal(t, "take plan 2", s.Undo)
	ask[session.State](t, d, "undo", m{})
	require.Equal(t, before, ask[written](t, d, "text", m{}).Text)
	for _, bad := range []string{`{"plan":7}`, `{"plan":-1}`} {
		require.Contains(t, string(d.Call("takeway", []byte(bad))), "no such plan")
		require.Contains(t, string(d.Call("way", []byte(bad))), "no such plan")
	}
	require.Contains(t, string(d.Call("closer", nil)), "Closer gaps let nothing more in.")
}

func washes(p views.Picture) (n int) {
	for _, k := range p.Marks {
		if k.Class == "wash" {
			n++
		}
	}
	return n
}
