package document

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// compiled is the schema as an independent validator understands it.
func compiled(t testing.TB) *jsonschema.Schema {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("load.json", doc))
	s, err := c.Compile("load.json")
	require.NoError(t, err)
	return s
}

// asJSON is a TOML file as a general TOML reader gives it to JSON.
func asJSON(t interface{ Fatal(...any) }, data []byte) any {
	var v map[string]any
	if err := toml.Unmarshal(data, &v); err != nil {
		t.Fatal(err, string(data))
	}
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func TestSchemaTakesWhatParseTakes(t *testing.T) {
	s := compiled(t)
	files, err := filepath.Glob("../../testdata/loads/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range append(files, "testdata/example.toml") {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		require.NoError(t, s.Validate(asJSON(t, data)), file)
	}
	require.NoError(t, s.Validate(asJSON(t, []byte(commented))))
	rapid.Check(t, func(t *rapid.T) {
		data := Format(drawLoad(t))
		if err := s.Validate(asJSON(t, data)); err != nil {
			t.Fatalf("%s\n%v", data, err)
		}
	})
}

// The schema refuses what one key alone can tell.
func TestSchemaRefusesWhatAKeyCanTell(t *testing.T) {
	s := compiled(t)
	refused := 0
	for _, name := range []string{
		"unknown-key", "unknown-table", "wrong-type", "cone-as-a-number", "bearing-as-a-number", "shape-that-is-none", "no-kiln",
		"negative-height", "height-of-0", "unknown-rows", "count-of-a-billion", "count-of-none", "half-a-pot", "no-posts-under-a-shelf",
		"pot-without-a-place", "rule-that-is-none", "no-version", "newer-version", "version-in-words",
	} {
		data, err := os.ReadFile("../../testdata/bad/" + name + ".toml")
		require.NoError(t, err)
		require.Error(t, s.Validate(asJSON(t, data)), name)
		refused++
	}
	t.Logf("%d refused", refused)
}

// Every key is explained, and the bytes are the same every time.
func TestSchemaExplainsEveryKey(t *testing.T) {
	require.Equal(t, string(Schema()), string(Schema()))
	var doc any
	require.NoError(t, json.Unmarshal(Schema(), &doc))
	keys := 0
	var walk func(path string, v any)
	walk = func(path string, v any) {
		m, ok := v.(map[string]any)
		if !ok {
			return
		}
		if p, ok := m["properties"].(map[string]any); ok {
			for key, q := range p {
				say, _ := q.(map[string]any)["description"].(string)
				require.True(t, strings.HasSuffix(say, "."), "%s/%s: %q", path, key, say)
				keys++
			}
		}
		for key, q := range m {
			walk(path+"/"+key, q)
		}
	}
	walk("", doc)
	require.Greater(t, keys, 100)
	require.Equal(t, "https://json-schema.org/draft/2020-12/schema", doc.(map[string]any)["$schema"])
}
