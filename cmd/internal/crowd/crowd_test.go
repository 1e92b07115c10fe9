package crowd

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
	"threepost/layout/stacks"
)

func TestEveryCrowdIsALoad(t *testing.T) {
	for _, n := range []int{1, 2, 99, 100, 101, 300, 1000, Most} {
		l, err := document.Parse("crowd", []byte(Text(n)))
		require.NoError(t, err, n)
		b, err := stacks.Build(l)
		require.NoError(t, err, n)
		require.Len(t, b.Pots, n)
	}
	require.Equal(t, Text(1), Text(-5))
	require.Equal(t, Text(Most), Text(Most+1))
}
