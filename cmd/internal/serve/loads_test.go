package serve

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"threepost/assets/page"
	"threepost/cmd/internal/folder"
)

func TestTheRoomTellsFolderLoadsAndSamples(t *testing.T) {
	r := start(t, nil)
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "broken.toml"), []byte("threepost = 1\nx ["), 0o644))
	a := r.ask("GET", "/api/room", nil)
	require.Equal(t, 200, a.status)
	m := a.json(t)
	require.Equal(t, r.dir, m["folder"])
	require.Equal(t, false, m["lan"])
	require.Equal(t, "test", m["version"])
	loads := map[string]map[string]any{}
	for _, l := range m["loads"].([]any) {
		one := l.(map[string]any)
		loads[one["id"].(string)] = one
	}
	require.Len(t, loads, 3)
	require.Equal(t, "First glaze", loads["newcomer"]["title"])
	require.EqualValues(t, 19, loads["newcomer"]["set"])
	require.EqualValues(t, 0, loads["studio"]["set"])
	require.EqualValues(t, 92, loads["studio"]["of"])
	require.NotContains(t, loads["newcomer"], "unreadable")
	require.NotEmpty(t, loads["broken"]["unreadable"])
	samples := m["samples"].([]any)
	require.Len(t, samples, len(page.SampleNames()))
	require.Equal(t, map[string]any{"id": "newcomer", "title": "First glaze",
		"line": "19 of 19 pots set. Ilka has had her first kiln for a week. These are her first glazed pots, and the furniture is what came in the box."}, samples[1])
	s := r.ask("GET", "/api/samples/newcomer", nil).json(t)
	require.Equal(t, testLoad(t, "reference/newcomer"), s["text"])
	require.Equal(t, "First glaze", s["title"])
	r.refuses(404, "no sample", r.ask("GET", "/api/samples/none", nil))
}

func TestALoadIsOpenedSavedAndFoundAgain(t *testing.T) {
	r := start(t, nil)
	text := testLoad(t, "reference/newcomer")
	m := r.ask("GET", "/api/loads/newcomer", nil).json(t)
	require.Equal(t, text, m["text"])
	require.Equal(t, "First glaze", m["title"])
	require.NotContains(t, m, "unsaved")
	edited := strings.Replace(text, "First glaze", "Second glaze", 1)
	a := r.ask("PUT", "/api/loads/newcomer", map[string]any{"base": m["revision"], "text": edited, "what": "another title"})
	require.Equal(t, 200, a.status, a.body)
	rev := a.json(t)["revision"]
	require.Equal(t, edited, r.file("newcomer.toml"))
	require.Equal(t, rev, r.ask("GET", "/api/loads/newcomer", nil).json(t)["revision"])

	var all []map[string]any
	require.NoError(t, json.Unmarshal([]byte(r.ask("GET", "/api/loads/newcomer/versions", nil).body), &all))
	require.Len(t, all, 2)
	require.Equal(t, "another title", all[0]["what"])
	require.EqualValues(t, 19, all[0]["set"])
	require.Equal(t, "as it was found", all[1]["what"])
	v := r.ask("GET", "/api/loads/newcomer/versions/1", nil).json(t)
	require.Equal(t, text, v["text"])

	a = r.ask("POST", "/api/loads", map[string]string{"text": edited})
	require.Equal(t, 200, a.status, a.body)
	require.Equal(t, "second-glaze", a.json(t)["id"])
	a = r.ask("POST", "/api/loads", map[string]string{"text": edited, "title": "../../Second: glaze"})
	require.Equal(t, "second-glaze-2", a.json(t)["id"])
	require.Equal(t, edited, r.file("second-glaze-2.toml"))
	r.refuses(404, "not in the folder", r.ask("GET", "/api/loads/none", nil))
	r.refuses(404, "not in the folder", r.ask("GET", "/api/loads/none/versions", nil))
}

func TestAFileChangedOutsideIsNotOverwritten(t *testing.T) {
	r := start(t, nil)
	text := testLoad(t, "reference/newcomer")
	base := r.ask("GET", "/api/loads/newcomer", nil).json(t)["revision"]
	theirs := strings.Replace(text, "First glaze", "Theirs", 1)
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "newcomer.toml"), []byte(theirs), 0o644))
	a := r.ask("PUT", "/api/loads/newcomer", map[string]any{"base": base, "text": strings.Replace(text, "First glaze", "Mine", 1), "what": "mine"})
	r.refuses(409, "changed by another hand and is not overwritten", a)
	require.Equal(t, theirs, a.json(t)["text"])
	require.Equal(t, folder.Revision(theirs), a.json(t)["revision"])
	require.Equal(t, theirs, r.file("newcomer.toml"))
	v := r.ask("GET", "/api/loads/newcomer/versions/1", nil).json(t)
	require.Contains(t, v["text"], "Mine")
	require.Equal(t, "aside", v["state"])

	require.NoError(t, os.Remove(filepath.Join(r.dir, "newcomer.toml")))
	a = r.ask("PUT", "/api/loads/newcomer", map[string]any{"base": folder.Revision(theirs), "text": text})
	r.refuses(409, "not in the folder any more", a)
	require.Equal(t, "", a.json(t)["revision"])
}

func TestABrokenFileComesWithItsTextAndSentences(t *testing.T) {
	r := start(t, nil)
	sentence, err := os.ReadFile("../../../testdata/bad/unknown-key.txt")
	require.NoError(t, err)
	data, err := os.ReadFile("../../../testdata/bad/unknown-key.toml")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "unknown-key.toml"), data, 0o644))
	a := r.ask("GET", "/api/loads/unknown-key", nil)
	require.Equal(t, 422, a.status)
	_, what, _ := strings.Cut(strings.TrimSpace(string(sentence)), "\n")
	if what == "" {
		what = strings.TrimSpace(string(sentence))
	}
	require.Contains(t, what, a.json(t)["refusal"].(string)[len("unknown-key.toml:"):], "the sentence that the command line says")
	require.Equal(t, string(data), a.json(t)["text"])
	require.Equal(t, folder.Revision(string(data)), a.json(t)["revision"])

	base := folder.Revision(testLoad(t, "reference/newcomer"))
	r.refuses(422, "newcomer.toml:", r.ask("PUT", "/api/loads/newcomer", map[string]any{"base": base, "text": string(data), "what": "half typed"}))
	require.Equal(t, testLoad(t, "reference/newcomer"), r.file("newcomer.toml"))
	m := r.ask("GET", "/api/loads/newcomer", nil).json(t)
	unsaved := m["unsaved"].(map[string]any)
	require.Equal(t, string(data), unsaved["text"], "it is journalled all the same")
	require.Equal(t, "unread", unsaved["state"])
}

// listening reads server-sent events.
type listening struct {
	lines chan string
	stop  func()
}

func (r *running) listen(path string) *listening {
	r.t.Helper()
	ctx, stop := context.WithTimeout(context.Background(), 30*time.Second)
	q, err := http.NewRequestWithContext(ctx, "GET", r.url+path, nil)
	require.NoError(r.t, err)
	client := http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	a, err := client.Do(q)
	require.NoError(r.t, err)
	require.Equal(r.t, 200, a.StatusCode)
	require.Equal(r.t, "text/event-stream", a.Header.Get("Content-Type"))
	secured(r.t, a.Header)
	l := &listening{lines: make(chan string), stop: stop}
	go func() {
		defer close(l.lines)
		defer a.Body.Close()
		for s := bufio.NewScanner(a.Body); s.Scan(); {
			if rest, ok := strings.CutPrefix(s.Text(), "data: "); ok {
				l.lines <- rest
			}
		}
	}()
	r.t.Cleanup(stop)
	return l
}

func revisionLine(text string) string { return `{"revision":"` + folder.Revision(text) + `"}` }

// TestChangesAreToldByWhateverHand also shows that the time limits of a
// request do not end a stream.
func TestChangesAreToldByWhateverHand(t *testing.T) {
	r := start(t, func(c *Config) { c.Limits.Read, c.Limits.Write = 300*time.Millisecond, 300*time.Millisecond })
	text := testLoad(t, "reference/newcomer")
	l := r.listen("/api/loads/newcomer/changes")
	require.Equal(t, revisionLine(text), <-l.lines)
	time.Sleep(time.Second) // longer than both limits
	mine := strings.Replace(text, "First glaze", "Mine", 1)
	require.Equal(t, 200, r.ask("PUT", "/api/loads/newcomer", map[string]any{"base": folder.Revision(text), "text": mine}).status)
	require.Equal(t, revisionLine(mine), <-l.lines)
	theirs := strings.Replace(text, "First glaze", "Theirs", 1)
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "newcomer.toml"), []byte(theirs), 0o644))
	require.Equal(t, revisionLine(theirs), <-l.lines)
	require.NoError(t, os.Remove(filepath.Join(r.dir, "newcomer.toml")))
	require.Equal(t, `{"revision":""}`, <-l.lines)
	r.refuses(404, "not in the folder", r.ask("GET", "/api/loads/none/changes", nil))
}

func TestStreamsEndWithTheServerAndAreFew(t *testing.T) {
	r := start(t, func(c *Config) { c.Limits.Streams = 1 })
	l := r.listen("/api/loads/newcomer/changes")
	<-l.lines
	r.refuses(429, "Too many pages are open", r.ask("GET", "/api/loads/studio/changes", nil))
	begun := time.Now()
	require.NoError(t, r.stop())
	for range l.lines {
		continue
	}
	require.Less(t, time.Since(begun), 5*time.Second, "it does not wait for the time that is given to slow answers")
}

func TestAssetsAreKeptUntilTheyChange(t *testing.T) {
	r := start(t, nil)
	names := page.WebNames()
	require.Contains(t, names, "index.html")
	for _, name := range names {
		a := r.ask("GET", "/assets/"+name, nil)
		if kindOf(name) == "" {
			require.Equal(t, 404, a.status, name)
			continue
		}
		want, _ := page.Web(name)
		require.Equal(t, 200, a.status, name)
		require.Equal(t, string(want), a.body, name)
		require.Equal(t, "no-cache", a.header.Get("Cache-Control"))
		tag := a.header.Get("ETag")
		require.Regexp(t, `^"[0-9a-f]{24}"$`, tag)
		again := r.ask("GET", "/assets/"+name, nil, "If-None-Match", `"x", W/`+tag)
		require.Equal(t, 304, again.status)
		require.Empty(t, again.body)
		secured(t, again.header)
	}
	a := r.ask("GET", "/assets/fonts/AtkinsonHyperlegibleNext-600.ttf", nil)
	require.Equal(t, "font/ttf", a.header.Get("Content-Type"))
	require.Equal(t, "\x00\x01\x00\x00", a.body[:4], "OpenType specification: TrueType outlines")
}

func TestThePageSaysWhatToRunWhenItIsNotBuilt(t *testing.T) {
	r := start(t, nil)
	r.s.pages.put("viewport.wasm", file{missing: unbuilt})
	a := r.ask("GET", "/", nil)
	require.Equal(t, 503, a.status)
	require.Contains(t, a.body, "<code>make run</code>")
	secured(t, a.header)
	r.refuses(404, "`make run`", r.ask("GET", "/assets/viewport.wasm", nil))

	var pressed bytes.Buffer
	press := gzip.NewWriter(&pressed)
	_, err := press.Write([]byte("hello\n"))
	require.NoError(t, err)
	require.NoError(t, press.Close())
	zipped := pressed.Bytes()
	r.s.pages.put("viewport.wasm", file{kind: "application/wasm", data: zipped, zipped: true})
	require.Equal(t, 200, r.ask("GET", "/", nil).status)
	for accept, plain := range map[string]bool{"gzip": false, "br, gzip;q=0.5": false, "*": false, "": true, "identity": true, "gzip;q=0": true, "gzip; q=0.0, br": true} {
		a := r.ask("GET", "/assets/viewport.wasm", nil, "Accept-Encoding", accept)
		require.Equal(t, 200, a.status)
		require.Equal(t, "application/wasm", a.header.Get("Content-Type"))
		require.Equal(t, "Accept-Encoding", a.header.Get("Vary"))
		if plain {
			require.Empty(t, a.header.Get("Content-Encoding"), accept)
			require.Equal(t, "hello\n", a.body)
		} else {
			require.Equal(t, "gzip", a.header.Get("Content-Encoding"), accept)
			require.Equal(t, string(zipped), a.body)
		}
	}
}

func TestASecondStartFindsTheFirst(t *testing.T) {
	r := start(t, nil)
	require.Empty(t, Running(context.Background(), r.dir))
	leave := r.s.Announce(r.url)
	require.Equal(t, r.url, Running(context.Background(), r.dir))
	info, err := os.Stat(filepath.Join(r.dir, ".threepost", "running"))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	r.refuses(404, "", r.ask("GET", "/api/alive", nil, tokenHeader, "guess"))
	other := start(t, nil)
	for _, note := range []string{
		`{"address":"` + other.url + `","token":"x"}`, `{"address":"http://192.0.2.1:80","token":"x"}`, `{"address":"http://evil.example:80","token":"x"}`,
		`{"address":"","token":""}`, `{`, "", strings.Repeat(" ", 5000), `{"address":"http://127.0.0.1:1","token":"x"}`, `{"address":"` + r.url + `","token":"wrong"}`,
	} {
		require.NoError(t, os.WriteFile(filepath.Join(r.dir, ".threepost", "running"), []byte(note), 0o600))
		require.Empty(t, Running(context.Background(), r.dir), note)
	}
	r.s.Announce(r.url)
	leave()
	require.NoFileExists(t, filepath.Join(r.dir, ".threepost", "running"))
}
