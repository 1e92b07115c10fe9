package order

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
	"threepost/layout/stacks"
)

// Shelves that lie alike share their grips; each is what it has by itself.
func TestLawAllGripsAreEachShelfsOwn(t *testing.T) {
	files, err := filepath.Glob("../../testdata/loads/reference/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		l, err := document.Parse(file, text)
		require.NoError(t, err)
		b, err := stacks.Build(l)
		require.NoError(t, err)
		for i, g := range allGrips(b) {
			require.Equal(t, GripsOn(b, i), g, "%s, shelf %d", file, i)
		}
	}
}
