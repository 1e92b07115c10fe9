package serve

import (
	"io"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/stacks"
)

// TestSplitIntoFirings: a third more ware than the kiln holds makes two loads or
// more, each sound, and every pot is in one of them or waits with a reason.
func TestSplitIntoFirings(t *testing.T) {
	r := start(t, nil)
	text := crowded(t)
	a := r.ask("POST", "/api/firings", map[string]any{"text": text})
	require.Equal(t, 200, a.status)
	lines := linesAs[splitLine](t, a.body)
	last := lines[len(lines)-1]
	require.True(t, last.Done)
	require.Empty(t, last.Refusal)
	require.NotNil(t, last.Split)
	require.GreaterOrEqual(t, len(last.Split.Firings), 2)
	asked, err := document.Parse("", []byte(text))
	require.NoError(t, err)
	pots := 0
	for _, w := range asked.Ware {
		pots += w.Count
	}
	for _, f := range last.Split.Firings {
		l, err := document.Parse("", []byte(f.Text))
		require.NoError(t, err)
		b, err := stacks.Build(l)
		require.NoError(t, err)
		require.Equal(t, f.Problems, clearance.Check(b).Problems)
		require.Zero(t, f.Problems)
		require.Contains(t, f.Fires, "cone 6")
		require.NotEmpty(t, f.Ware)
		for _, w := range l.Ware {
			pots -= w.Count
		}
	}
	if len(last.Split.Waits) == 0 {
		require.Zero(t, pots)
	} else {
		require.Positive(t, pots)
	}
}

// TestSplitStops: ended by its name it says so, and gives no firing.
func TestSplitStops(t *testing.T) {
	r := start(t, nil)
	text, err := os.ReadFile("../../../testdata/firings/table.toml")
	require.NoError(t, err)
	in := r.begin("/api/firings", map[string]any{"text": string(text), "run": "here"})
	_, err = in.ReadString('\n')
	require.NoError(t, err)
	require.Equal(t, 204, r.ask("POST", "/api/plan/enough", map[string]any{"run": "here"}).status)
	rest, err := io.ReadAll(in)
	require.NoError(t, err)
	lines := linesAs[splitLine](t, string(rest))
	last := lines[len(lines)-1]
	require.True(t, last.Done)
	require.Nil(t, last.Split)
	require.Contains(t, last.Refusal, "stopped before it was done")
}

func TestSplitRefuses(t *testing.T) {
	r := start(t, nil)
	r.refuses(422, "after a name comes", r.ask("POST", "/api/firings", map[string]any{"text": "opens"}))
	r.refuses(400, "letters at most", r.ask("POST", "/api/firings", map[string]any{"text": crowded(t), "run": strings.Repeat("x", 200)}))
	l, err := document.Parse("", []byte(crowded(t)))
	require.NoError(t, err)
	l.Ware, l.Towers = nil, nil
	r.refuses(409, "nothing to split", r.ask("POST", "/api/firings", map[string]any{"text": string(document.Format(l))}))
}
