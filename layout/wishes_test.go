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

// A level is counted from the floor over the highest of what carries its tower,
// in whatever order that is listed; a ring ends.
func TestFromFloorCountsWhatCarries(t *testing.T) {
	towers := []Tower{{Name: "base", On: []Support{{}}}, {Name: "left", On: []Support{{Tower: "base", Level: 1}}}, {Name: "right", On: []Support{{Tower: "base", Level: 1}}},
		{Name: "top", On: []Support{{Tower: "left", Level: 1}, {Tower: "right", Level: 2}}}}
	require.Equal(t, 1, FromFloor(towers, 0, 0))
	require.Equal(t, 3, FromFloor(towers, 2, 1))
	require.Equal(t, 4, FromFloor(towers, 3, 0))
	towers[3].On[0], towers[3].On[1] = towers[3].On[1], towers[3].On[0]
	require.Equal(t, 4, FromFloor(towers, 3, 0))
	ring := []Tower{{Name: "a", On: []Support{{Tower: "b", Level: 1}}}, {Name: "b", On: []Support{{Tower: "a", Level: 1}}}}
	require.Positive(t, FromFloor(ring, 0, 0))
}
