package planner

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
)

// The references are arrangements somebody found; no bound may lie below one.
func TestLawBoundIsNeverBelowAReference(t *testing.T) {
	files, err := filepath.Glob("../../testdata/loads/reference/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		l, err := document.Parse(file, text)
		require.NoError(t, err)
		set, of := 0, 0
		for _, w := range l.Ware {
			of += w.Count
		}
		for _, tw := range l.Towers {
			for _, v := range tw.Levels {
				for _, p := range v.Set {
					if l.WareOf(p.Pot) != nil {
						set++
					}
				}
			}
		}
		value, err := Value(l)
		require.NoError(t, err)
		b, err := Bound(l)
		require.NoError(t, err)
		t.Logf("%s: %d of %d set, bound %d; value %.1f, bound %.1f; %s", filepath.Base(file), set, of, b.Count, value, b.Value, b.Reason)
		require.GreaterOrEqual(t, b.Count, set, file)
		require.GreaterOrEqual(t, b.Value, value-1e-9, file)
	}
}
