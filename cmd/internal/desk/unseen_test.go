package desk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestACanvasNotOnShowLeavesTheCameraWhereItWas(t *testing.T) {
	d := laid(t, "studio")
	d.Eye().Size(640, 480)
	ask[seen](t, d, "view", m{"preset": "orbit"})
	was := d.Eye().cam
	d.Eye().Size(0, 0)
	d.Eye().Size(360, 0)
	require.Equal(t, was, d.Eye().cam)

	pot, _ := firstPot(t, d, "mug")
	h := ask[Held](t, d, "hold", m{"pot": pot.ID, "view": "keys"})
	require.NotNil(t, h.Flag, "a figure beside a gap of finite numbers")
}
