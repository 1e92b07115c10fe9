package serve

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
)

// atTheKiln starts a server with a load that has room for answers.
func atTheKiln(t *testing.T) (*running, string) {
	r := start(t, nil)
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "cups.toml"), []byte(testLoad(t, "reference/small-round")), 0o644))
	got := r.ask("GET", "/api/loads/cups/steps", nil)
	require.Equal(t, http.StatusOK, got.status, got.body)
	revision, _ := got.json(t)["revision"].(string)
	require.NotEmpty(t, revision)
	return r, revision
}

// stepsOf are the steps of an answer.
func stepsOf(t *testing.T, m map[string]any) []map[string]any {
	t.Helper()
	all, ok := m["steps"].(map[string]any)
	require.True(t, ok)
	var out []map[string]any
	for _, one := range all["steps"].([]any) {
		out = append(out, one.(map[string]any))
	}
	return out
}

func TestPageAtTheKiln(t *testing.T) {
	r := start(t, nil)
	got := r.ask("GET", "/kiln/newcomer", nil)
	require.Equal(t, http.StatusOK, got.status)
	require.Contains(t, got.header.Get("Content-Type"), "text/html")
	require.Contains(t, got.body, "/assets/kiln.js")
	require.NotContains(t, got.body, "onclick")
	for _, name := range []string{"kiln.js", "kiln.css"} {
		require.Equal(t, http.StatusOK, r.ask("GET", "/assets/"+name, nil).status, name)
	}
}

func TestSteps(t *testing.T) {
	r := start(t, nil)
	got := r.ask("GET", "/api/loads/newcomer/steps?words=uk", nil)
	require.Equal(t, http.StatusOK, got.status)
	m := got.json(t)
	require.Equal(t, "newcomer", m["id"])
	all := stepsOf(t, m)
	require.Equal(t, "Kiln cold and off", all[0]["title"])
	require.Contains(t, got.body, "Props A")
	for path, status := range map[string]int{
		"/api/loads/nothing/steps":            http.StatusNotFound,
		"/api/loads/..%2fnewcomer/steps":      http.StatusNotFound,
		"/api/loads/newcomer/steps?words=old": http.StatusBadRequest,
		"/api/loads/studio/steps":             http.StatusUnprocessableEntity, // nothing is planned in it
		"/kiln/nothing/saved":                 http.StatusNotFound,
		"/kiln/studio/saved":                  http.StatusUnprocessableEntity,
	} {
		got := r.ask("GET", path, nil)
		require.Equal(t, status, got.status, path)
		require.NotEmpty(t, got.json(t)["refusal"], path)
	}
	require.Contains(t, r.ask("GET", "/api/loads/studio/steps", nil).body, "Plan it on the page")
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "broken.toml"), []byte("threepost = 1\nunits = \n"), 0o644))
	broken := r.ask("GET", "/api/loads/broken/steps", nil)
	require.Equal(t, http.StatusUnprocessableEntity, broken.status)
	require.Contains(t, broken.body, "broken.toml")
}

// TestFitIsWrittenByPut: an answer changes nothing; its text is saved on the
// revision it was made from, reads back, and gives the steps of the answer.
func TestFitIsWrittenByPut(t *testing.T) {
	r, revision := atTheKiln(t)
	before, err := os.ReadFile(filepath.Join(r.dir, "cups.toml"))
	require.NoError(t, err)
	step, pot := 0, ""
	for _, s := range stepsOf(t, r.ask("GET", "/api/loads/cups/steps", nil).json(t)) {
		if s["kind"] == "pots" && strings.Contains(s["title"].(string), "espresso cups in the middle") {
			step = int(s["n"].(float64))
			pot = s["pots"].([]any)[0].(string)
		}
	}
	require.NotZero(t, step)
	ask := map[string]any{"base": revision, "step": step, "change": map[string]any{"kind": "taller", "pot": pot, "by": "12"}}
	got := r.ask("POST", "/api/loads/cups/fit", ask)
	require.Equal(t, http.StatusOK, got.status, got.body)
	m := got.json(t)
	answer := m["answer"].(map[string]any)
	require.Equal(t, "Put one 6 on each of A, B and C", answer["says"])
	require.Equal(t, "37", answer["was"].(map[string]any)["said"])
	require.Equal(t, "31", answer["now"].(map[string]any)["said"])
	after, err := os.ReadFile(filepath.Join(r.dir, "cups.toml"))
	require.NoError(t, err)
	require.Equal(t, string(before), string(after), "an answer writes nothing")

	l, err := document.Parse("", []byte(m["text"].(string)))
	require.NoError(t, err)
	require.Equal(t, 1, l.Ware[len(l.Ware)-1].Count)
	put := r.ask("PUT", "/api/loads/cups", map[string]any{"base": revision, "text": m["text"], "what": "At the kiln: too tall by 12. Put one 6 on each of A, B and C"})
	require.Equal(t, http.StatusOK, put.status, put.body)
	now := r.ask("GET", "/api/loads/cups/steps", nil).json(t)
	require.Equal(t, put.json(t)["revision"], now["revision"])
	require.Equal(t, m["steps"].(map[string]any)["steps"], now["steps"].(map[string]any)["steps"], "the steps of the answer are those of the file")

	// The page that still has the old steps is told calmly.
	late := r.ask("POST", "/api/loads/cups/fit", ask)
	require.Equal(t, http.StatusConflict, late.status)
	require.Contains(t, late.json(t)["refusal"], "has changed")
	require.Equal(t, now["revision"], late.json(t)["revision"])
}

func TestAnotherWayAndNoWay(t *testing.T) {
	r, revision := atTheKiln(t)
	says := map[string]bool{}
	for way := range mostWays {
		got := r.ask("POST", "/api/loads/cups/fit", map[string]any{
			"base": revision, "step": 9, "way": way, "change": map[string]any{"kind": "leave out", "pot": "bud vase 2"},
		})
		m := got.json(t)
		if got.status != http.StatusOK {
			require.Equal(t, http.StatusUnprocessableEntity, got.status)
			require.Equal(t, true, m["none"])
			require.NotEmpty(t, says)
			return
		}
		word := m["answer"].(map[string]any)["says"].(string)
		require.False(t, says[word], word)
		says[word] = true
	}
	require.Fail(t, "the ways do not end")
}

func TestFitRefuses(t *testing.T) {
	r, revision := atTheKiln(t)
	taller := func(pot, by string) map[string]any { return map[string]any{"kind": "taller", "pot": pot, "by": by} }
	for name, c := range map[string]struct {
		body   any
		status int
		says   string
	}{
		"step past the end": {map[string]any{"base": revision, "step": 999, "change": taller("bud vase 2", "6")}, 400, "no such step"},
		"step zero":         {map[string]any{"base": revision, "step": 0, "change": taller("bud vase 2", "6")}, 400, "no such step"},
		"way past the end":  {map[string]any{"base": revision, "step": 3, "way": 900000, "change": taller("bud vase 2", "6")}, 400, "no such step"},
		"no pot":            {map[string]any{"base": revision, "step": 9, "change": taller("bud vase 900", "6")}, 422, "bud vase 900"},
		"no figure":         {map[string]any{"base": revision, "step": 9, "change": taller("bud vase 2", "a lot")}, 422, "a lot"},
		"no change":         {map[string]any{"base": revision, "step": 9}, 422, "nothing that can be answered"},
		"no JSON":           {"step 9", 400, "JSON"},
	} {
		got := r.ask("POST", "/api/loads/cups/fit", c.body)
		require.Equal(t, c.status, got.status, "%s: %s", name, got.body)
		require.Contains(t, got.json(t)["refusal"], c.says, name)
	}
	got := r.ask("POST", "/api/loads/cups/fit", map[string]any{"base": revision, "step": 9, "change": taller("bud vase 2", "6")}, "Origin", "http://elsewhere.example")
	require.Equal(t, http.StatusForbidden, got.status)
}

// TestSavedIsOneFile: it comes as a file, brings its own policy and its steps.
func TestSavedIsOneFile(t *testing.T) {
	r := start(t, nil)
	got := r.ask("GET", "/kiln/newcomer/saved", nil)
	require.Equal(t, http.StatusOK, got.status)
	require.Contains(t, got.header.Get("Content-Disposition"), "attachment")
	require.Contains(t, got.header.Get("Content-Disposition"), "newcomer%20at%20the%20kiln.html")
	require.Contains(t, got.body, `id="steps"`)
	require.Contains(t, got.body, "default-src 'none'")
	require.NotContains(t, got.body, `src="/assets`)
}
