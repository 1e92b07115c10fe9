package main

import (
	"bytes"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
)

var update = flag.Bool("update", false, "write the expected output of testdata anew")

// ended is what one run of the program left behind.
type ended struct {
	code      int
	out, errs string
}

// typed runs the program with words as a person types them and with what they
// put on standard input.
func typed(in string, args ...string) ended {
	var out, errs bytes.Buffer
	code := run(args, strings.NewReader(in), &out, &errs)
	return ended{code, out.String(), errs.String()}
}

// threepost runs the program and expects it to end with 0 and nothing to
// complain of; it gives standard output.
func threepost(t *testing.T, args ...string) string {
	t.Helper()
	e := typed("", args...)
	require.Equal(t, exitFine, e.code, "%v: %s%s", args, e.out, e.errs)
	require.Empty(t, e.errs, "%v", args)
	return e.out
}

// refused runs the program and expects a code and a sentence, nothing on
// standard output, and the named files as they were.
func refused(t *testing.T, code int, sentence string, unchanged []string, args ...string) {
	t.Helper()
	before := map[string]string{}
	for _, path := range unchanged {
		before[path] = read(t, path)
	}
	e := typed("", args...)
	require.Equal(t, code, e.code, "%v: %s%s", args, e.out, e.errs)
	require.Contains(t, e.errs, sentence, "%v", args)
	require.Empty(t, e.out, "%v", args)
	plainWords(t, e.errs)
	for path, text := range before {
		require.Equal(t, text, read(t, path), "%v has changed %s", args, path)
	}
}

// plainWords holds a sentence to the words that the product uses.
func plainWords(t *testing.T, text string) {
	t.Helper()
	for _, word := range []string{"error", "invalid", "warning", "!", "strconv", "toml:", "%!"} {
		require.NotContains(t, strings.ReplaceAll(strings.ToLower(text), ".toml:", ""), word)
	}
}

// sample copies a load of testdata/loads into a folder of its own.
func sample(t *testing.T, name string) string {
	t.Helper()
	return copyOf(t, filepath.Join("../../testdata/loads", name+".toml"))
}

// reference copies the full arrangement of a sample.
func reference(t *testing.T, name string) string {
	t.Helper()
	return copyOf(t, filepath.Join("../../testdata/loads/reference", name+".toml"))
}

func copyOf(t *testing.T, from string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), filepath.Base(from))
	write(t, path, read(t, from))
	return path
}

func read(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

func write(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

// parsed reads a load file.
func parsed(t *testing.T, path string) *layout.Load {
	t.Helper()
	l, err := document.Parse(path, []byte(read(t, path)))
	require.NoError(t, err)
	return l
}

// inFolder is what stands in a file's folder.
func inFolder(t *testing.T, path string) []string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// golden compares output with a file of testdata; the folder of the load is
// left out of it.
func golden(t *testing.T, name, got, load string) {
	t.Helper()
	got = strings.ReplaceAll(got, filepath.Dir(load)+string(filepath.Separator), "")
	path := filepath.Join("testdata", name)
	if *update {
		write(t, path, got)
	}
	require.Equal(t, read(t, path), got)
}

// closed is a standard output that nobody reads any more.
type closed struct{}

func (closed) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

// broken is a standard input on which the program itself breaks.
type broken struct{}

func (broken) Read([]byte) (int, error) { panic("a post stands on its head") }
