package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"
)

func TestFormatIsCanonical(t *testing.T) {
	path := sample(t, "newcomer")
	canonical := read(t, path)
	mixed := strings.Replace(canonical, "height = 100\nacross = 85\n", "across   = 85.0 # measured twice\nheight = 100\n", 1)
	require.NotEqual(t, canonical, mixed)
	write(t, path, mixed)
	printed := threepost(t, "format", path, "--print")
	require.Equal(t, mixed, read(t, path), "--print leaves the file")
	require.Contains(t, printed, "# measured twice")
	require.Empty(t, threepost(t, "format", path))
	require.Equal(t, printed, read(t, path))
	threepost(t, "format", path)
	require.Equal(t, printed, read(t, path), "once is enough")
	require.Equal(t, parsed(t, sample(t, "newcomer")), parsed(t, path))
}

// TestFormatKeepsEveryLoad formats every sample and reference: it reads as the
// same load, its remarks are there, and a second time changes nothing.
func TestFormatKeepsEveryLoad(t *testing.T) {
	for _, name := range []string{"newcomer", "small-round", "studio", "oval", "front-loader", "bisque"} {
		for _, path := range []string{sample(t, name), reference(t, name)} {
			before, load := read(t, path), parsed(t, path)
			threepost(t, "format", path)
			once := read(t, path)
			require.Equal(t, load, parsed(t, path), name)
			require.Equal(t, once, threepost(t, "format", path, "--print"), name)
			for _, line := range strings.Split(before, "\n") {
				if strings.HasPrefix(line, "#") {
					require.Contains(t, once, line, name)
				}
			}
		}
	}
}

// TestSchemaCompiles reads what is printed with a general JSON Schema library.
func TestSchemaCompiles(t *testing.T) {
	out := threepost(t, "schema")
	require.True(t, json.Valid([]byte(out)))
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader([]byte(out)))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("threepost.json", doc))
	s, err := c.Compile("threepost.json")
	require.NoError(t, err)
	require.Error(t, s.Validate(map[string]any{"threepost": 1, "kilm": 2}))
}
