package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// verbs is every verb that reads a load, with the words that follow it.
var verbs = map[string][]string{
	"add": {"12 tumblers 90 x 80"}, "import": {"pots.csv"}, "export": nil, "plan": {"--work", "1"}, "check": nil,
	"room": {"60 x 50"}, "fit": {"--one-more", "60 x 50"}, "weights": nil, "sheet": nil, "papers": nil, "format": nil,
}

func TestHelpOfEveryVerbHasAnExample(t *testing.T) {
	all := threepost(t, "--help")
	for _, verb := range append([]string{"new", "schema", "open"}, keysOf(verbs)...) {
		require.Regexp(t, `(?m)^  `+verb+` +[A-Z]`, all, "the list of verbs tells %s", verb)
		help := threepost(t, verb, "--help")
		require.Contains(t, help, "Examples:\n  threepost "+verb, verb)
		require.NotContains(t, help, "!", verb)
	}
	for _, code := range []string{"0 no problem", "1 problems", "2 usage", "3 unreadable", "4 a fault"} {
		require.Contains(t, strings.Join(strings.Fields(all), " "), code)
	}
	require.Contains(t, threepost(t, "--version"), "threepost version")
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		require.Contains(t, threepost(t, "completion", shell), "threepost", shell)
	}
}

func keysOf(m map[string][]string) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	return keys
}

func TestUsageEndsWith2(t *testing.T) {
	path := reference(t, "newcomer")
	keep := []string{path}
	for _, c := range []struct {
		sentence string
		args     []string
	}{
		{"pln", []string{"pln", path}},
		{"there is no flag --nope", []string{"plan", path, "--nope"}},
		{"there is no flag -q", []string{"plan", path, "-q"}},
		{`--work does not take "x"`, []string{"plan", path, "--work", "x"}},
		{`--work wants a value after it`, []string{"plan", path, "--work"}},
		{"--work is 0 or more", []string{"plan", path, "--work", "-1"}},
		{"--seconds more than 0", []string{"plan", path, "--seconds", "0"}},
		{"--seconds more than 0", []string{"plan", path, "--seconds", "NaN"}},
		{"--seconds more than 0", []string{"plan", path, "--seconds", "86401"}},
		{"schema", []string{"schema", "x"}},
		{"leave --json out", []string{"export", path, "--json"}},
		{`"A5"`, []string{"sheet", path, "--paper", "A5"}},
		{"--units", []string{"sheet", path, "--units", "ells"}},
		{"--words", []string{"sheet", path, "--words", "AU"}},
		{"--dpi is from 20 to 600", []string{"sheet", path, "--dpi", "601"}},
		{"--dpi is from 20 to 600", []string{"sheet", path, "--dpi", "NaN"}},
		{`"lid" is no part`, []string{"sheet", path, "--parts", "front,lid"}},
		{"--parts names nothing", []string{"sheet", path, "--parts", ""}},
		{".pdf, .svg or .png", []string{"sheet", path, "--out", filepath.Join(t.TempDir(), "sheet.txt")}},
		{"--units", []string{"new", "x.toml", "--units", "ells", "--kiln", "457 x 457", "--cone", "6"}},
	} {
		refused(t, exitUsage, c.sentence, keep, c.args...)
	}
	for verb := range verbs {
		refused(t, exitUsage, verb+" takes", nil, verb)
	}
	refused(t, exitUsage, "new takes", nil, "new", "a.toml", "b.toml")
	refused(t, exitUsage, "there is no row", keep, "add", path, "")
	require.Equal(t, []string{"newcomer.toml"}, inFolder(t, path))
}

func TestUnreadableEndsWith3(t *testing.T) {
	gone := filepath.Join(t.TempDir(), "gone.toml")
	bad := copyOf(t, "../../testdata/bad/unknown-key.toml")
	sentence := strings.TrimSpace(read(t, "../../testdata/bad/unknown-key.txt"))
	for verb, more := range verbs {
		refused(t, exitUnreadable, gone+" is not there", nil, append([]string{verb, gone}, more...)...)
		refused(t, exitUnreadable, "is a folder", nil, append([]string{verb, filepath.Dir(gone)}, more...)...)
		refused(t, exitUnreadable, sentence, []string{bad}, append([]string{verb, bad}, more...)...)
	}
	require.Empty(t, inFolder(t, gone))
	require.Equal(t, []string{"unknown-key.toml"}, inFolder(t, bad))
}

func TestUnwritableEndsWith3(t *testing.T) {
	path := reference(t, "newcomer")
	away := filepath.Join(filepath.Dir(path), "no such folder", "x")
	refused(t, exitUnreadable, "is not there", []string{path}, "export", path, "--out", away+".csv")
	refused(t, exitUnreadable, "is not there", []string{path}, "sheet", path, "--out", away+".pdf")
	refused(t, exitUnreadable, "is not there", []string{path}, "plan", path, "--work", "2500", "--out", away+".toml")
	refused(t, exitUnreadable, "is not there", nil, "new", away+".toml", "--kiln", "457 x 457", "--cone", "6")
	require.Equal(t, []string{"newcomer.toml"}, inFolder(t, path))
}

// TestClosedOutputEndsWith3 runs the verbs that print a document into a pipe
// that nobody reads.
func TestClosedOutputEndsWith3(t *testing.T) {
	path := reference(t, "newcomer")
	for _, args := range [][]string{
		{"export", path}, {"schema"}, {"format", path, "--print"}, {"check", path, "--json"}, {"weights", path, "--json"},
	} {
		var errs bytes.Buffer
		require.Equal(t, exitUnreadable, run(args, strings.NewReader(""), closed{}, &errs), "%v: %s", args, errs.String())
		require.Contains(t, errs.String(), "standard output was closed", "%v", args)
	}
}

// TestAFaultOfTheProgramEndsWith4 breaks the program in the middle of reading
// rows: the person is told that it is not their load, and the load is as it was.
func TestAFaultOfTheProgramEndsWith4(t *testing.T) {
	path := reference(t, "newcomer")
	before := read(t, path)
	var out, errs bytes.Buffer
	code := run([]string{"add", path, "-"}, broken{}, &out, &errs)
	require.Equal(t, exitInternal, code)
	require.Contains(t, errs.String(), "a fault of the program, not of your load")
	require.Contains(t, errs.String(), "a post stands on its head")
	require.Empty(t, out.String())
	require.Equal(t, before, read(t, path))
}
