package desk

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/session"
)

const loads = "../../../testdata/loads/reference"

// sample is the text of a sample's full arrangement.
func sample(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(loads, name+".toml"))
	require.NoError(t, err)
	return string(text)
}

// samples are the names of all samples.
func samples(t testing.TB) []string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(loads, "*.toml"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	var names []string
	for _, p := range paths {
		names = append(names, strings.TrimSuffix(filepath.Base(p), ".toml"))
	}
	return names
}

// called is a call's answer.
type called struct {
	OK      json.RawMessage `json:"ok"`
	Refusal string          `json:"refusal"`
	Fault   string          `json:"fault"`
}

func call1(t testing.TB, d *Desk, method, arg string) called {
	t.Helper()
	var c called
	require.NoError(t, json.Unmarshal(d.Call(method, []byte(arg)), &c), method)
	return c
}

// ask is the result of a call that must not be refused.
func ask[T any](t testing.TB, d *Desk, method string, arg any) T {
	t.Helper()
	raw, err := json.Marshal(arg)
	require.NoError(t, err)
	c := call1(t, d, method, string(raw))
	require.Empty(t, c.Refusal, "%s %s", method, raw)
	require.Empty(t, c.Fault, "%s %s", method, raw)
	var v T
	require.NoError(t, json.Unmarshal(c.OK, &v), "%s: %s", method, c.OK)
	return v
}

type m = map[string]any

// laid is a desk with a sample on it.
func laid(t testing.TB, name string) *Desk {
	t.Helper()
	d, err := New()
	require.NoError(t, err)
	ask[session.State](t, d, "open", m{"text": sample(t, name), "name": name})
	return d
}

func TestEveryCallRefusesWhatIsNoJSON(t *testing.T) {
	d := laid(t, "studio")
	before := ask[session.State](t, d, "state", m{})
	for _, method := range Methods() {
		for _, arg := range []string{"{", "[", `"x"`, "7", "nul", `{"pot":`, "\xff", `{"a":1}}`} {
			c := call1(t, d, method, arg)
			require.NotEmpty(t, c.Refusal, "%s %q", method, arg)
			require.Empty(t, c.Fault)
			require.Contains(t, c.Refusal, "cannot be read", "%s %q", method, arg)
		}
	}
	require.Equal(t, before, ask[session.State](t, d, "state", m{}))
}

func TestEveryCallRefusesWithoutALoad(t *testing.T) {
	free := map[string]bool{"open": true, "first": true, "begin": true, "look": true}
	for _, method := range Methods() {
		d, err := New()
		require.NoError(t, err)
		c := call1(t, d, method, "{}")
		require.Empty(t, c.Fault, method)
		if !free[method] {
			require.Equal(t, "No load is open; open one or begin one.", c.Refusal, method)
		}
	}
}

// TestNoCallFaults gives every call arguments of the right shape and no sense.
func TestNoCallFaults(t *testing.T) {
	args := []string{
		"", "{}", `{"pot":"no such pot"}`, `{"tower":"nowhere","level":99}`, `{"index":-1}`, `{"index":1000000}`, `{"index":0,"x":1e300,"y":-1e300}`,
		`{"x":1e9,"y":1e9}`, `{"w":-1,"h":1e12}`, `{"w":1,"h":1}`, `{"text":"12 mugs 100 x 85"}`, `{"text":"threepost = 1"}`, `{"preset":"spyhole 99"}`,
		`{"by":"weather"}`, `{"ware":"mug","w":300,"h":300}`, `{"dx":1e300,"turn":1e300}`, `{"edits":[{"act":"set pot","pot":"mug 1"}]}`,
		`{"edits":[{"act":"dance"}]}`, `{"finding":"none","reason":"x"}`, `{"ms":1e12}`, `{"part":"kiln","fields":{"height":"0"}}`, `{"answers":{}}`,
		`{"answers":{"shape":"cube"}}`, `{"base":-5,"edit":{"act":"arrange"}}`, `{"units":"furlong"}`, `{"words":"fr"}`, `{"name":"mug","count":-3}`,
		`{"name":"mug","count":1000000000}`, `{"what":"height","text":"-4"}`, `{"tower":"left side","level":1,"w":400,"h":400}`,
	}
	d := laid(t, "studio")
	for _, method := range Methods() {
		for _, arg := range args {
			c := call1(t, d, method, arg)
			require.Empty(t, c.Fault, "%s %s", method, arg)
			require.NotContains(t, c.Refusal, "!", "%s %s", method, arg)
		}
	}
}

func TestAnUnknownCallIsRefused(t *testing.T) {
	d := laid(t, "studio")
	c := call1(t, d, "dance", "{}")
	require.Equal(t, `The page's program knows no call "dance".`, c.Refusal)
}

func TestAnArgumentTooLongIsRefused(t *testing.T) {
	d := laid(t, "studio")
	c := call1(t, d, "rows", `{"text":"`+strings.Repeat("x", maxArg)+`"}`)
	require.Contains(t, c.Refusal, "at most")
}

// TestAFaultIsTold: a panic under a call is told and does not end the program.
func TestAFaultIsTold(t *testing.T) {
	d := laid(t, "studio")
	d.calls["stumble"] = func(*Desk, []byte) (any, error) { panic("on purpose") }
	require.Contains(t, call1(t, d, "stumble", "{}").Fault, "on purpose")
	require.Empty(t, call1(t, d, "state", "{}").Fault)
}

func TestABrokenTextOpensNothing(t *testing.T) {
	d := laid(t, "studio")
	was := ask[session.State](t, d, "state", m{})
	c := call1(t, d, "open", `{"text":"threepost = 1\nwobble = 3\n","name":"x.toml"}`)
	require.Contains(t, c.Refusal, "wobble")
	require.Equal(t, was, ask[session.State](t, d, "state", m{}), "the load on the desk stays")
}

// TestTextComesBack: open(text(open(x))) says the same of the load.
func TestTextComesBack(t *testing.T) {
	for _, name := range samples(t) {
		d := laid(t, name)
		was := ask[session.State](t, d, "state", m{})
		text := ask[written](t, d, "text", m{}).Text
		now := ask[session.State](t, d, "open", m{"text": text, "name": name})
		require.Equal(t, was, now, name)
	}
}

func TestUndoAndRedo(t *testing.T) {
	d := laid(t, "studio")
	was := ask[session.State](t, d, "state", m{})
	text := ask[written](t, d, "text", m{}).Text
	pot := was.Pots[0].ID
	now := ask[session.State](t, d, "apply", m{"edits": []m{{"act": "withdraw", "pot": pot}}})
	require.Equal(t, was.Set-1, now.Set)
	require.NotEmpty(t, now.Undo)
	back := ask[session.State](t, d, "undo", m{})
	require.Equal(t, was.Set, back.Set)
	require.Equal(t, text, ask[written](t, d, "text", m{}).Text)
	again := ask[session.State](t, d, "redo", m{})
	require.Equal(t, was.Set-1, again.Set)
}

func TestWordsAreThePersons(t *testing.T) {
	d := laid(t, "studio")
	ask[session.State](t, d, "words", m{"words": "uk"})
	c := call1(t, d, "top", `{"tower":"left side","level":77}`)
	require.NotEmpty(t, c.Refusal)
	s := ask[session.State](t, d, "state", m{})
	require.Equal(t, "uk", strings.ToLower(s.Words))
}
