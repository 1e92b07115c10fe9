package planner

import (
	"flag"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
)

var update = flag.Bool("update", false, "write the golden plan anew")

// TestGoldenPlan compares plans with committed ones, byte for byte. `make
// test-wasm` runs it as WebAssembly under Node: the same bytes there.
func TestGoldenPlan(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"newcomer", "small-round"} {
		path := "testdata/" + name + ".plan.toml"
		got := document.Format(planned(t, sample(t, name), 5, 12000).Load)
		if *update {
			require.NoError(t, os.WriteFile(path, got, 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(want), string(got), "%s; if the planner was changed on purpose, run go test ./layout/planner -run Golden -update", name)
	}
}
