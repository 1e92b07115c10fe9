package serve

import (
	"bufio"
	"bytes"
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// begin asks for what is told line by line, and gives the lines as they come.
func (r *running) begin(path string, ask any) *bufio.Reader {
	r.t.Helper()
	body, err := json.Marshal(ask)
	require.NoError(r.t, err)
	q, err := http.NewRequest("POST", r.url+path, bytes.NewReader(body))
	require.NoError(r.t, err)
	q.Header.Set("Content-Type", "application/json")
	a, err := http.DefaultClient.Do(q)
	require.NoError(r.t, err)
	r.t.Cleanup(func() { a.Body.Close() })
	return bufio.NewReader(a.Body)
}

// linesAs reads an answer that was told line by line.
func linesAs[T any](t *testing.T, body string) []T {
	t.Helper()
	var out []T
	for _, line := range strings.Split(strings.TrimSuffix(body, "\n"), "\n") {
		var l T
		require.NoError(t, json.Unmarshal([]byte(line), &l), line)
		out = append(out, l)
	}
	return out
}
