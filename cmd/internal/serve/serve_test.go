package serve

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"threepost/cmd/internal/folder"
)

// running is a server on a port of its own over a folder of its own.
type running struct {
	t    *testing.T
	s    *Server
	url  string
	dir  string
	log  *locked
	stop func() error
}

// locked is a log that several goroutines write.
type locked struct {
	mu  sync.Mutex
	buf bytes.Buffer
}

func (l *locked) Write(b []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.buf.Write(b)
}

func (l *locked) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.buf.String()
}

// start runs a server with the planned newcomer load and the studio's list.
func start(t *testing.T, change func(*Config)) *running {
	t.Helper()
	dir := t.TempDir()
	for name, from := range map[string]string{"newcomer": "reference/newcomer", "studio": "studio"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+".toml"), []byte(testLoad(t, from)), 0o644))
	}
	f, err := folder.Open(dir, time.Now)
	require.NoError(t, err)
	log := &locked{}
	c := Config{Folder: f, Version: "test", Log: log, Limits: Limits{Look: 20 * time.Millisecond}}
	if change != nil {
		change(&c)
	}
	s, err := New(c)
	require.NoError(t, err)
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx, ln) }()
	r := &running{t: t, s: s, url: "http://" + ln.Addr().String(), dir: f.Dir(), log: log}
	r.stop = sync.OnceValue(func() error { cancel(); return <-ended })
	t.Cleanup(func() {
		require.NoError(t, r.stop())
		f.Close()
	})
	return r
}

func testLoad(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile("../../../testdata/loads/" + name + ".toml")
	require.NoError(t, err)
	return string(data)
}

// answered is an answer that was read to its end.
type answered struct {
	status int
	header http.Header
	body   string
}

func (a answered) json(t *testing.T) map[string]any {
	t.Helper()
	var m map[string]any
	require.NoError(t, json.Unmarshal([]byte(a.body), &m), a.body)
	return m
}

// ask sends a request; headers come as name, value, name, value.
func (r *running) ask(method, path string, body any, headers ...string) answered {
	r.t.Helper()
	var in io.Reader
	switch b := body.(type) {
	case nil:
	case string:
		in = strings.NewReader(b)
	default:
		data, err := json.Marshal(b)
		require.NoError(r.t, err)
		in = bytes.NewReader(data)
	}
	q, err := http.NewRequest(method, r.url+path, in)
	require.NoError(r.t, err)
	if in != nil {
		q.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i < len(headers); i += 2 {
		if headers[i] == "Host" {
			q.Host = headers[i+1]
			continue
		}
		q.Header.Set(headers[i], headers[i+1])
	}
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }, Transport: &http.Transport{DisableKeepAlives: true, DisableCompression: true}}
	a, err := client.Do(q)
	require.NoError(r.t, err)
	defer a.Body.Close()
	data, err := io.ReadAll(a.Body)
	require.NoError(r.t, err)
	return answered{a.StatusCode, a.Header, string(data)}
}

// refuses expects a status and a sentence in the product's words, and the
// headers that every answer carries.
func (r *running) refuses(status int, sentence string, a answered) {
	r.t.Helper()
	require.Equal(r.t, status, a.status, a.body)
	told, ok := a.json(r.t)["refusal"].(string)
	require.True(r.t, ok, a.body)
	require.Contains(r.t, told, sentence)
	for _, word := range []string{"error", "invalid", "warning", "!", "json:", "strconv"} {
		require.NotContains(r.t, strings.ToLower(told), word)
	}
	secured(r.t, a.header)
}

// secured looks at the headers that every answer carries.
func secured(t *testing.T, h http.Header) {
	t.Helper()
	require.Equal(t, "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; frame-src 'self' blob:; manifest-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'", h.Get("Content-Security-Policy"))
	for name, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cross-Origin-Opener-Policy": "same-origin",
		"Cross-Origin-Resource-Policy": "same-origin", "X-Frame-Options": "DENY"} {
		require.Equal(t, want, h.Get(name), name)
	}
	require.Contains(t, []string{"no-store", "no-cache"}, h.Get("Cache-Control"))
	require.Empty(t, h.Values("Access-Control-Allow-Origin"))
}

// files lists the folder with what the files hold.
func (r *running) files() map[string]string {
	r.t.Helper()
	out := map[string]string{}
	entries, err := os.ReadDir(r.dir)
	require.NoError(r.t, err)
	for _, e := range entries {
		if !e.IsDir() {
			out[e.Name()] = r.file(e.Name())
		}
	}
	return out
}

func (r *running) file(name string) string {
	r.t.Helper()
	data, err := os.ReadFile(filepath.Join(r.dir, name))
	require.NoError(r.t, err)
	return string(data)
}
