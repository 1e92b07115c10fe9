package serve

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
)

// crowded is the newcomer's reference load with more mugs than go in.
func crowded(t *testing.T) string {
	t.Helper()
	l, err := document.Parse("", []byte(testLoad(t, "reference/newcomer")))
	require.NoError(t, err)
	l.Ware[0].Count += 20
	return string(document.Format(l))
}

// TestBuyingStopsWithWhatItHas: the first line comes early; once its run is
// ended the last line says how far it came.
func TestBuyingStopsWithWhatItHas(t *testing.T) {
	r := start(t, nil)
	in := r.begin("/api/buy", map[string]any{"text": crowded(t), "run": "here"})
	line, err := in.ReadString('\n')
	require.NoError(t, err)
	first := linesAs[buyLine](t, line)[0]
	require.Zero(t, first.Tried)
	require.Equal(t, 12, first.Of)
	require.Empty(t, first.Says)
	require.Equal(t, 204, r.ask("POST", "/api/plan/enough", map[string]any{"run": "here"}).status)
	rest, err := io.ReadAll(in)
	require.NoError(t, err)
	lines := linesAs[buyLine](t, string(rest))
	last := lines[len(lines)-1]
	require.True(t, last.Done)
	require.Less(t, last.Tried, 12)
	require.NotEmpty(t, last.Says)
}

// TestBuyingWhereNothingHelps: all is set, or what stands stays.
func TestBuyingWhereNothingHelps(t *testing.T) {
	r := start(t, nil)
	a := r.ask("POST", "/api/buy", map[string]any{"text": testLoad(t, "reference/newcomer")})
	require.Equal(t, 200, a.status, a.body)
	require.Equal(t, []buyLine{{Done: true}}, linesAs[buyLine](t, a.body))
	a = r.ask("POST", "/api/buy", map[string]any{"text": strings.Replace(crowded(t), `posts = "25"`, "posts = \"25\"\nlocked = true", 1)})
	require.Equal(t, 200, a.status, a.body)
	require.Contains(t, a.body, "What is locked or stands in the kiln stays on its levels")
	r.refuses(422, "after a name comes", r.ask("POST", "/api/buy", map[string]any{"text": "opens"}))
	r.refuses(400, "letters at most", r.ask("POST", "/api/buy", map[string]any{"text": crowded(t), "run": strings.Repeat("x", 200)}))
}
