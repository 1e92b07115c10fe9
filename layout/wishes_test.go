package layout

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A level that a wish speaks of is bottom, top, or a number from the floor up.
func TestLevelRefNamesALevel(t *testing.T) {
	for _, c := range []struct {
		ref   LevelRef
		known bool
		n     int
		top   bool
		is    bool
	}{
		{BottomLevel, true, 1, false, true}, {BottomLevel, true, 2, true, false},
		{TopLevel, true, 3, true, true}, {TopLevel, true, 3, false, false}, {TopLevel, true, 1, true, true},
		{"2", true, 2, false, true}, {"2", true, 3, true, false}, {"64", true, 64, true, true},
		{"0", false, 0, false, false}, {"65", false, 65, false, false}, {"02", false, 2, false, false},
		{"-1", false, 1, false, false}, {"", false, 1, true, false}, {"lid", false, 1, true, false},
	} {
		require.Equal(t, c.known, c.ref.Known(), c.ref)
		if c.known {
			require.Equal(t, c.is, c.ref.Is(c.n, c.top), "%s %d %v", c.ref, c.n, c.top)
		}
	}
}
