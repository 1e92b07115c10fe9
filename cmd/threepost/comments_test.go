package main

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// annotate puts a remark at the top, above every row outside the towers and
// after it, and returns the remarks.
func annotate(t *testing.T, path string) []string {
	t.Helper()
	var out, remarks []string
	remark := func() string {
		remarks = append(remarks, "# remark "+string(rune('A'+len(remarks)/26))+string(rune('a'+len(remarks)%26)))
		return remarks[len(remarks)-1]
	}
	towers := false
	for _, line := range strings.Split(strings.TrimRight(read(t, path), "\n"), "\n") {
		towers = towers || strings.HasPrefix(line, "[[tower")
		if towers || line == "" || strings.HasPrefix(line, "#") {
			out = append(out, line)
			continue
		}
		out = append(out, indentOf(line)+remark(), line+" "+remark())
	}
	write(t, path, strings.Join(out, "\n")+"\n")
	parsed(t, path)
	require.Greater(t, len(remarks), 60)
	return remarks
}

func indentOf(line string) string { return line[:len(line)-len(strings.TrimLeft(line, " "))] }

func TestCommentsSurvivePlanAndEdits(t *testing.T) {
	path := sample(t, "newcomer")
	remarks := annotate(t, path)
	kept := func(after string) {
		t.Helper()
		text := read(t, path)
		at := -1
		for _, r := range remarks {
			require.Equal(t, 1, strings.Count(text, r), "%s after %s", r, after)
			require.Greater(t, strings.Index(text, r), at, "%s changed its place after %s", r, after)
			at = strings.Index(text, r)
		}
		require.Contains(t, text, "# Ilka has had her first kiln for a week.", after)
	}
	kept("annotating")
	list := filepath.Join(t.TempDir(), "pots.csv")
	write(t, list, "name,count,height,across\ncup,2,60,55\n")
	for _, args := range [][]string{
		{"format", path},
		{"plan", path, "--work", work},
		{"plan", path, "--work", work, "--seed", "2"},
		{"add", path, "beaker 60 x 50"},
		{"import", path, list},
		{"room", path, "tea bowl 40 x 40", "--write"},
		{"format", path},
	} {
		threepost(t, args...)
		kept(strings.Join(args[:1], ""))
	}
	require.NotEmpty(t, parsed(t, path).Towers)
	// The copy of the earlier arrangement is the file as it was, remarks and all.
	for _, r := range remarks {
		require.Contains(t, read(t, filepath.Join(filepath.Dir(path), "newcomer.earlier.toml")), r)
	}
}

// TestCommentsInTowersSurviveAnEdit remarks on a level and on a pot of it.
func TestCommentsInTowersSurviveAnEdit(t *testing.T) {
	path := reference(t, "newcomer")
	text := strings.Replace(read(t, path), "[[tower]]\n", "# the big one\n[[tower]]\n", 1)
	text = strings.Replace(text, "[[tower.level]]\n", "# use the old shelf\n[[tower.level]]\n", 1)
	write(t, path, text)
	threepost(t, "add", path, "beaker 60 x 50")
	threepost(t, "room", path, "tea bowl 40 x 40", "--write")
	require.Contains(t, read(t, path), "# the big one\n[[tower]]\n")
	require.Contains(t, read(t, path), "# use the old shelf\n[[tower.level]]\n")
}
