package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

// TestBadFilesEndAsTheirFirstLineTells runs the program over every file of
// testdata/bad. The first line tells who speaks ("unreadable", "problem" or
// "no plan"), the .txt beside it what is said.
func TestBadFilesEndAsTheirFirstLineTells(t *testing.T) {
	t.Chdir("../../testdata/bad") // a complaint begins with the name as it was typed
	files, err := filepath.Glob("*.toml")
	require.NoError(t, err)
	kinds := map[string]int{}
	for _, file := range files {
		before := read(t, file)
		first, _, _ := strings.Cut(before, "\n")
		mark, _, _ := strings.Cut(strings.TrimPrefix(first, "# "), ":")
		want := read(t, strings.TrimSuffix(file, ".toml")+".txt")
		kinds[mark]++
		switch mark {
		case "unreadable":
			for _, verb := range []string{"check", "plan"} {
				e := typed("", verb, file)
				require.Equal(t, ended{exitUnreadable, "", want}, e, "%s %s", verb, file)
			}
		case "problem":
			badProblem(t, file, want)
		case "no plan":
			e := typed("", "plan", file, "--work", "10")
			require.Equal(t, ended{exitUnreadable, "", file + ": " + want}, e, file)
			require.Equal(t, exitFine, typed("", "check", file).code, file)
		default:
			t.Errorf("%s: its first line does not tell who speaks: %s", file, first)
		}
		require.Equal(t, before, read(t, file), file)
	}
	require.GreaterOrEqual(t, kinds["unreadable"], 50)
	require.GreaterOrEqual(t, kinds["problem"], 10)
	require.Equal(t, 2, kinds["no plan"])
}

// badProblem checks a file that reads and has problems: the person reads the
// sentences, a program gets them, and both see 1.
func badProblem(t *testing.T, file, want string) {
	e := typed("", "check", file)
	require.Equal(t, exitProblems, e.code, file)
	require.Empty(t, e.errs, file)
	told := strings.Join(strings.Fields(e.out), " ")
	for _, sentence := range strings.Split(strings.TrimSpace(want), "\n") {
		require.Contains(t, told, "problem "+strings.Join(strings.Fields(sentence), " "), file)
	}
	e = typed("", "check", file, "--json", "--mends")
	require.Equal(t, exitProblems, e.code, file)
	require.Empty(t, e.errs, file)
	var a checked
	require.NoError(t, json.Unmarshal([]byte(e.out), &a), file)
	got := ""
	for _, f := range a.Findings {
		if f.Grade == layout.Problem {
			got += f.Sentence + "\n"
		}
	}
	require.Equal(t, want, got, file)
	require.Equal(t, strings.Count(want, "\n"), a.Problems, file)
}
