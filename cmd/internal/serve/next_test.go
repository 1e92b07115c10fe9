package serve

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
)

// TestTheNextLoadIsWhatWaits takes pots off a level and asks for the load of
// them: as many, nothing set, and a file of its own once it is kept.
func TestTheNextLoadIsWhatWaits(t *testing.T) {
	r := start(t, nil)
	text := testLoad(t, "reference/newcomer")
	r.refuses(409, "Nothing waits: every pot of the table stands in the kiln.", r.ask("POST", "/api/next", map[string]any{"text": text}))
	r.refuses(422, "after a name comes", r.ask("POST", "/api/next", map[string]any{"text": "opens"}))

	l, err := document.Parse("", []byte(text))
	require.NoError(t, err)
	v := &l.Towers[len(l.Towers)-1].Levels[0]
	gone := len(v.Set)
	require.Positive(t, gone)
	v.Set = nil
	now, err := document.Update([]byte(text), l)
	require.NoError(t, err)
	m := r.ask("POST", "/api/next", map[string]any{"text": string(now)}).json(t)
	require.EqualValues(t, gone, m["pots"])
	require.Equal(t, "First glaze, next load", m["title"])
	rest, err := document.Parse("", []byte(m["text"].(string)))
	require.NoError(t, err)
	pots := 0
	for _, w := range rest.Ware {
		pots += w.Count
	}
	require.Equal(t, gone, pots)
	require.Empty(t, rest.Towers)
	require.True(t, strings.HasPrefix(m["text"].(string), "# Ilka has had"), "comments stay")
	made := r.ask("POST", "/api/loads", map[string]any{"title": m["title"], "text": m["text"]}).json(t)
	require.Equal(t, "first-glaze-next-load", made["id"])
}
