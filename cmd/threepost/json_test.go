package main

import (
	"bytes"
	"encoding/json"
	"io"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// asked runs the program and decodes its one JSON object, strictly.
func asked[T any](t *testing.T, args ...string) (a T) {
	t.Helper()
	e := typed("", args...)
	require.Contains(t, []int{exitFine, exitProblems}, e.code, "%v: %s", args, e.errs)
	require.Empty(t, e.errs, "%v", args)
	dec := json.NewDecoder(strings.NewReader(e.out))
	dec.DisallowUnknownFields()
	require.NoError(t, dec.Decode(&a), "%v", args)
	_, err := dec.Token()
	require.ErrorIs(t, err, io.EOF, "one object and no more: %v", args)
	return a
}

// shape is a documented JSON value: an object of shapes, a list of one, a map
// from names, or a value of any kind.
type shape struct {
	kind byte // '{' object, '[' list, ':' map from names, 0 value
	keys map[string]*shape
	of   *shape
	seen map[string]bool
}

// word is a bare word of the README's notation.
var word = regexp.MustCompile(`^[a-z_]+`)

// readShape reads the README's notation: {a, b: [c], d: {name: count}}.
func readShape(t *testing.T, text string) (*shape, string) {
	t.Helper()
	text = strings.TrimLeft(text, " ,")
	if rest, ok := strings.CutPrefix(text, "{name: count}"); ok {
		return &shape{kind: ':', of: &shape{}}, rest
	}
	switch text[0] {
	case '[':
		s := &shape{kind: '['}
		s.of, text = readShape(t, text[1:])
		end := strings.IndexByte(text, ']')
		require.GreaterOrEqual(t, end, 0, text)
		return s, text[end+1:]
	case '{':
		s := &shape{kind: '{', keys: map[string]*shape{}, seen: map[string]bool{}}
		for text = text[1:]; !strings.HasPrefix(text, "}"); text = strings.TrimLeft(text, " ,") {
			text = strings.TrimLeft(text, " ,")
			key := word.FindString(text)
			require.NotEmpty(t, key, text)
			value := &shape{}
			text = text[len(key):]
			if rest, ok := strings.CutPrefix(text, ":"); ok {
				value, text = readShape(t, rest)
			}
			s.keys[key] = value
		}
		return s, text[1:]
	}
	w := word.FindString(text)
	require.NotEmpty(t, w, text)
	return &shape{}, text[len(w):]
}

// match holds a value against its shape and ticks off the keys that it has.
func (s *shape) match(t *testing.T, where string, v any) {
	t.Helper()
	switch s.kind {
	case '{':
		m, ok := v.(map[string]any)
		require.True(t, ok, "%s is no object: %v", where, v)
		for k, inner := range m {
			require.Contains(t, s.keys, k, "%s.%s is not in the README", where, k)
			s.seen[k] = true
			s.keys[k].match(t, where+"."+k, inner)
		}
	case '[':
		list, ok := v.([]any)
		require.True(t, ok, "%s is no list: %v", where, v)
		for _, inner := range list {
			s.of.match(t, where+"[]", inner)
		}
	case ':':
		m, ok := v.(map[string]any)
		require.True(t, ok, "%s is no map: %v", where, v)
		for k, inner := range m {
			s.of.match(t, where+"."+k, inner)
		}
	default:
		require.NotNil(t, v, where)
	}
}

// unseen are the keys that no answer had.
func (s *shape) unseen(where string) []string {
	if s.kind == 0 {
		return nil
	}
	if s.kind != '{' {
		return s.of.unseen(where)
	}
	var out []string
	for k, inner := range s.keys {
		if !s.seen[k] {
			out = append(out, where+"."+k)
			continue
		}
		out = append(out, inner.unseen(where+"."+k)...)
	}
	return out
}

// documented reads the table of shapes out of the README.
func documented(t *testing.T) map[string]*shape {
	t.Helper()
	_, after, ok := strings.Cut(read(t, "../../README.md"), "\n## JSON\n")
	require.True(t, ok)
	section, _, _ := strings.Cut(after, "\n## ")
	shapes := map[string]*shape{}
	for _, row := range strings.Split(section, "\n") {
		cells := strings.SplitN(row, "|", 4)
		if len(cells) < 4 || !strings.Contains(cells[2], "`{") {
			continue
		}
		for _, name := range strings.Split(cells[1], ",") {
			text := strings.TrimLeft(cells[2], " `")
			shapes[strings.Trim(name, " `")], _ = readShape(t, text)
		}
	}
	return shapes
}

// TestJSONIsAsTheREADMESays runs every verb with --json: what it prints is one
// object, each of its keys is in the README's table, and each key of the table
// is in an answer.
func TestJSONIsAsTheREADMESays(t *testing.T) {
	shapes := documented(t)
	path, lean, strict := reference(t, "newcomer"), leaning(t), watching(t)
	short := sample(t, "small-round")
	write(t, short, strings.Replace(read(t, short), "mass = 4.2, count = 4", "mass = 4.2, count = 2", 1))
	fresh, list := filepath.Join(t.TempDir(), "fresh.toml"), filepath.Join(t.TempDir(), "pots.csv")
	write(t, list, "name,count,height,across\ncup,2,60,55\n")
	table, wren := fewTable(t), filepath.Join(t.TempDir(), "wren.toml")
	write(t, wren, strings.Replace(few, "Heron", "Wren", 1))
	for _, f := range asked[checked](t, "check", strict, "--json").Findings {
		if f.Grade.String() == "watch" {
			write(t, strict, read(t, strict)+"\n[[accepted]]\nfinding = \""+f.Key+"\"\nreason = \"seen\"\n")
			break
		}
	}
	ran := map[string]bool{}
	for _, args := range [][]string{
		{"new", fresh, "--kiln", "457 x 457", "--cone", "6"},
		{"add", fresh, "2 cups 60 x 55"},
		{"import", fresh, list},
		{"plan", sample(t, "newcomer"), "--work", work},
		{"plan", sample(t, "studio"), "--work", "1"},
		{"plan", short, "--work", work, "--ways", "--buy", "--why"}, // two shelves where four are wanted: one more lets some in
		{"plan", sample(t, "bisque"), "--work", work, "--why"},      // a probe decides the order of its levels
		{"plan", plattersLoad(t), "--work", work},
		{"firings", table, wren, "--work", "2000", "--write", filepath.Join(t.TempDir(), "split")},
		{"check", path}, {"check", lean, "--mends"}, {"check", strict}, {"check", fresh},
		{"room", path, "60 x 50"}, {"room", path, "440 x 100"},
		{"fit", path, "--loaded", "bottom", "--taller", "mug 3: 4 mm", "--take", "1", "--out", filepath.Join(t.TempDir(), "fit.toml")}, {"fit", path, "--one-more", "440 x 100"},
		{"weights", path}, {"weights", fresh},
		{"sheet", path}, {"papers", path, "--measuring"}, {"steps", path},
		{"picture", sample(t, "reference/studio"), "--colour", "owner", "--size", "320x240"},
	} {
		e := typed("", append(args, "--json")...)
		require.Empty(t, e.errs, "%v", args)
		dec := json.NewDecoder(bytes.NewReader([]byte(e.out)))
		var v map[string]any
		require.NoError(t, dec.Decode(&v), "%v: %s", args, e.out)
		require.Contains(t, shapes, args[0])
		shapes[args[0]].match(t, args[0], v)
		ran[args[0]] = true
	}
	delete(shapes, "open") // it runs until Ctrl-C; its own test reads what it prints
	for verb, s := range shapes {
		require.True(t, ran[verb], "%s is in the README and was not run", verb)
		require.Empty(t, s.unseen(verb), "in the README, and in no answer")
	}
}
