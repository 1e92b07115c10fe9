package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestStepsAreOneFile: the file holds its steps and leaves the load alone.
func TestStepsAreOneFile(t *testing.T) {
	path := reference(t, "newcomer")
	before := read(t, path)
	a := asked[writtenSteps](t, "steps", path, "--json")
	require.Equal(t, filepath.Join(filepath.Dir(path), "newcomer.kiln.html"), a.File)
	require.Equal(t, before, read(t, path))
	text := read(t, a.File)
	inner := regexp.MustCompile(`(?s)<script type="application/json" id="steps">(.*?)</script>`).FindStringSubmatch(text)
	require.Len(t, inner, 2)
	var steps struct {
		Steps []struct{ N int }
	}
	require.NoError(t, json.Unmarshal([]byte(inner[1]), &steps))
	require.Len(t, steps.Steps, a.Steps)
}

func TestStepsInOtherWordsAndUnits(t *testing.T) {
	path := reference(t, "newcomer")
	out := filepath.Join(filepath.Dir(path), "k.html")
	require.Regexp(t, `^\d+ steps written to .*k\.html\.\n$`, threepost(t, "steps", path, "--out", out, "--words", "UK", "--units", "in"))
	text := read(t, out)
	require.Contains(t, text, "Props A")
	require.Contains(t, text, `"units":"in"`)
}

func TestStepsRefuse(t *testing.T) {
	path := reference(t, "newcomer")
	var out, errs nothing
	for _, words := range [][]string{
		{"steps", path, "--out", "x.pdf"}, {"steps", path, "--words", "old"}, {"steps", path, "--units", "ell"}, {"steps"},
	} {
		require.Equal(t, exitUsage, run(words, os.Stdin, &out, &errs), words)
	}
	require.Equal(t, exitUnreadable, run([]string{"steps", "nowhere.toml"}, os.Stdin, &out, &errs))
}

// nothing takes what is written to it.
type nothing struct{}

func (*nothing) Write(b []byte) (int, error) { return len(b), nil }
