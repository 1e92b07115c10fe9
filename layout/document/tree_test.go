package document

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/require"
)

// plainValue is a tree as a general TOML reader would give it; false when a
// figure or a date in it is not one.
func plainValue(n *node) (any, bool) {
	switch n.kind {
	case tableKind:
		m := map[string]any{}
		for _, e := range n.keys {
			v, ok := plainValue(e.value)
			if !ok {
				return nil, false
			}
			m[e.key] = v
		}
		return m, true
	case arrayKind:
		all := []any{}
		for _, item := range n.items {
			v, ok := plainValue(item)
			if !ok {
				return nil, false
			}
			all = append(all, v)
		}
		return all, true
	case textKind:
		return n.text, true
	case boolKind:
		return n.text == "true", true
	case integerKind:
		i, err := strconv.ParseInt(strings.ReplaceAll(n.text, "_", ""), 0, 64)
		return i, err == nil
	case floatKind:
		f, err := strconv.ParseFloat(strings.ReplaceAll(n.text, "_", ""), 64)
		return f, err == nil
	}
	return "date", true
}

// undated takes the dates of a general reader for one word, as plainValue does.
func undated(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k := range v {
			v[k] = undated(v[k])
		}
	case []any:
		for i := range v {
			v[i] = undated(v[i])
		}
	case toml.LocalDate, toml.LocalTime, toml.LocalDateTime, time.Time:
		return "date"
	}
	return v
}

// agree compares the tree with go-toml's own reading of the same file.
func agree(t *testing.T, text string) {
	tree := plant("", []byte(text))
	var want map[string]any
	err := toml.Unmarshal([]byte(text), &want)
	got, plain := plainValue(tree.root)
	if !plain {
		return // a figure that only its reader refuses
	}
	if err != nil {
		// dates are looked at by their readers here, by go-toml at once
		if !strings.Contains(text, "-") && !strings.Contains(text, ":") {
			require.NotEmpty(t, tree.found, "%s\n%v", text, err)
		}
		return
	}
	require.Empty(t, tree.found, text)
	if strings.Contains(strings.ToLower(text), "nan") {
		return // is not equal to itself
	}
	if want == nil {
		want = map[string]any{}
	}
	require.Equal(t, undated(want), got, text)
}

// The cases are of the TOML 1.0 specification's text on keys, tables, inline
// tables and arrays of tables (toml.io), written from memory.
func treeCases() []string {
	return []string{
		"", "a = 1", "a.b.c = 1\na.b.d = 2", "a = 1\na = 2", "a.b = 1\na.b.c = 2", "a = {}\na.b = 1", "a = []\n[[a]]",
		"[a]\n[a]", "[a.b]\n[a]\nx = 1", "[a]\nb = 1\n[a.b]", "[a]\nb.c = 1\n[a.b]", "[a]\nb.c = 1\n[a.b.d]",
		"[[a]]\nx = 1\n[[a]]\nx = 2\n[a.b]\ny = 3\n[[a.c]]\n[[a.c]]", "[a]\n[[a]]", "[[a]]\n[a]", "[a.b.c]\n[a.b]\n[a]",
		"[a.b]\nx = 1\n[a]\nb.y = 2", "a = { b = 1, c = { d = [1, 2, { e = 3 }] } }", "a = { b = 1, b = 2 }", "a = { b.c = 1, b.d = 2 }",
		"a = [ # x\n 1, # y\n # z\n 2,\n ] # w\nb = '''\nx''' # v", "\"a b\".'c' = \"\\u00e9\\n\"", "a = 2026-10-14\nb = 07:30:00\nc = 1979-05-27T07:32:00Z",
		"a = 0x1F\nb = 1_000\nc = -1.5e3\nd = inf\ne = +0.0", "[ a . \"b.c\" ]\nx = true", "a = [[1, 2], [], [[3]]]", "[a]\n[b]\n[a.c]\n[b.c]\n[a.c.d]",
		"[[a.b]]\nx = 1\n[a]\ny = 2", "[a]\nx = 1\n[a.b]\n[a]\n", "fruit.apple.skin = 1\nfruit.orange = 2\n[fruit]", "a = 1\r\n[b]\r\nc = 2\r\n",
	}
}

// Law: the tree holds what a general TOML reader reads, and refuses what it
// refuses.
func TestTreeAgreesWithAGeneralReader(t *testing.T) {
	for _, text := range treeCases() {
		agree(t, text)
	}
	agree(t, commented)
	agree(t, string(example(t)))
}

func FuzzTree(f *testing.F) {
	for _, text := range treeCases() {
		f.Add(text)
	}
	f.Fuzz(agree)
}

// Places lead back to what stands there.
func TestTreeKnowsPlaces(t *testing.T) {
	tree := plant("", []byte(commented))
	require.Empty(t, tree.found)
	for _, it := range itemsOf(tree) {
		piece := commented[it.start:it.end]
		key := it.path[strings.LastIndex(it.path, separator)+1:]
		line, column := tree.place(it.start)
		require.Equal(t, piece[:1], strings.Split(commented, "\n")[line-1][column-1:column], key)
		if strings.HasPrefix(piece, "[[") && !strings.HasPrefix(piece, "[[-") {
			require.True(t, strings.HasSuffix(piece, "]]"), piece)
		}
	}
	shelves := tree.root.get("furniture").value.get("shelves").value
	require.Equal(t, `{ name = "half", shape = "half round", across = 410, depth = 205, thick = 16, count = 6 }`, commented[shelves.items[1].at:shelves.items[1].end])
}
