package whole

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/stacks"
)

// loads is where the samples lie.
const loads = "../../../testdata/loads"

// long asks for the sweeps that take longer than a change should wait for.
func long() bool { return os.Getenv("THREEPOST_LONG") == "1" }

// samples are the names of the loads of testdata/loads; each has a reference
// arrangement.
func samples() []string {
	return []string{"newcomer", "small-round", "studio", "oval", "front-loader", "bisque"}
}

// bytesOf are the bytes of a load's file; "reference/studio" is an arranged one.
func bytesOf(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(loads, name+".toml"))
	require.NoError(t, err)
	return data
}

// read reads a load: "studio" as a person hands it in, nothing set, and
// "reference/studio" with everything in its place.
func read(t testing.TB, name string) *layout.Load {
	t.Helper()
	l, err := document.Parse(name, bytesOf(t, name))
	require.NoError(t, err)
	return l
}

// reference is a sample's reference arrangement, built.
func reference(t testing.TB, name string) *stacks.Built {
	t.Helper()
	b, err := stacks.Build(read(t, "reference/"+name))
	require.NoError(t, err)
	return b
}
