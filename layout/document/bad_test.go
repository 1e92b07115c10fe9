package document_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/planner"
	"threepost/layout/stacks"
)

// Each file of testdata/bad is one way to be wrong, with the sentence that is
// said to it beside it. Its first line says who speaks:
//
//	# unreadable: ...   Parse refuses it, with file, line and column
//	# problem: ...      it reads, and the check finds problems
//	# no plan: ...      it reads, and no plan can be started

var update = flag.Bool("update", false, "write the sentences of testdata/bad anew")

// said is what is said to a file, by whom its first line names.
func said(t *testing.T, file string) (mark, sentence string) {
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	first, _, _ := strings.Cut(string(data), "\n")
	mark, _, _ = strings.Cut(strings.TrimPrefix(first, "# "), ":")
	l, err := document.Parse(filepath.Base(file), data)
	if mark == "unreadable" {
		require.Error(t, err, file)
		require.Nil(t, l)
		return mark, err.Error()
	}
	require.NoError(t, err, file)
	if mark == "no plan" {
		_, err := planner.Start(l, 1)
		require.Error(t, err, file)
		return mark, err.Error()
	}
	require.Equal(t, "problem", mark, file)
	built, err := stacks.Build(l)
	require.NoError(t, err, file)
	var problems []string
	for _, f := range clearance.Check(built).Findings {
		if f.Grade == layout.Problem {
			problems = append(problems, f.Sentence)
		}
	}
	require.NotEmpty(t, problems, file)
	return mark, strings.Join(problems, "\n")
}

func TestBadFilesGetTheirSentence(t *testing.T) {
	files, err := filepath.Glob("../../testdata/bad/*.toml")
	require.NoError(t, err)
	kinds := map[string]int{}
	for _, file := range files {
		mark, got := said(t, file)
		kinds[mark]++
		beside := strings.TrimSuffix(file, ".toml") + ".txt"
		if *update {
			require.NoError(t, os.WriteFile(beside, []byte(got+"\n"), 0o644))
		}
		want, err := os.ReadFile(beside)
		require.NoError(t, err)
		require.Equal(t, string(want), got+"\n", file)
		plain := strings.ReplaceAll(strings.ToLower(got), ".toml:", "")
		for _, word := range []string{"error", "invalid", "warning", "!", "toml:"} {
			require.NotContains(t, plain, word, file)
		}
	}
	t.Logf("unreadable %d, problem %d, no plan %d", kinds["unreadable"], kinds["problem"], kinds["no plan"])
	require.GreaterOrEqual(t, kinds["unreadable"], 50)
	require.GreaterOrEqual(t, kinds["problem"], 10)
	require.Equal(t, 2, kinds["no plan"])
}
