package page

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestSamplesAreTheReferences keeps the copies equal to the arrangements that
// the tests of the whole program judge.
func TestSamplesAreTheReferences(t *testing.T) {
	references, err := filepath.Glob("../../testdata/loads/reference/*.toml")
	require.NoError(t, err)
	require.Len(t, references, len(SampleNames()))
	for _, name := range SampleNames() {
		text, ok := Sample(name)
		require.True(t, ok, name)
		want, err := os.ReadFile("../../testdata/loads/reference/" + name + ".toml")
		require.NoError(t, err)
		require.Equal(t, string(want), string(text), "copy testdata/loads/reference/%s.toml to assets/page/samples", name)
	}
}

func TestNamesThatAreNoneHaveNoFile(t *testing.T) {
	for _, name := range []string{"", ".", "..", "../page.go", "/index.html", ".keep", "lib/../index.html", "a\x00b", `..\page.go`} {
		_, ok := Web(name)
		require.False(t, ok, name)
		_, ok = Built(name)
		require.False(t, ok, name)
		_, ok = Sample(name)
		require.False(t, ok, name)
	}
	_, ok := Built("README.md")
	require.False(t, ok, "only the two files of the viewport are given out")
}

// TestTheCompiledViewportIsWhole looks at what `make viewport` has left, when
// it has run; the placeholder alone is complete in no case.
func TestTheCompiledViewportIsWhole(t *testing.T) {
	wasm, hasWasm := Built(Viewport)
	exec, hasExec := Built(WasmExec)
	require.Equal(t, hasWasm && hasExec, Complete())
	if hasWasm {
		require.Equal(t, "\x1f\x8b\x08", string(wasm[:3]), "RFC 1952, 2.3.1: the marks of gzip")
	}
	if hasExec {
		require.Contains(t, string(exec), "globalThis.Go")
	}
}

func TestThePageHasItsFiles(t *testing.T) {
	for _, name := range WebNames() {
		data, ok := Web(name)
		require.True(t, ok, name)
		require.NotEmpty(t, data, name)
		require.False(t, strings.HasPrefix(filepath.Base(name), "."), name)
	}
}
