package levels

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/measure"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/internal/sample"
)

// reasons gives every level a sentence.
func reasons(b *stacks.Built, text string) map[int]string {
	out := map[int]string{}
	for v := range b.Levels {
		out[v] = b.Levels[v].Name + " " + text
	}
	return out
}

// TestALevelPageSaysWhyWhereItHasRoom: no page more for it, nothing else left
// out, at the foot, and no plan clearly smaller.
func TestALevelPageSaysWhyWhereItHasRoom(t *testing.T) {
	s, b, o := set(t, sample.October(), drawing.A4(), measure.MM)
	without := s.Assemble(Pages(s, b, o, nil))
	with := s.Assemble(Pages(s, b, o, reasons(b, "stands on posts for a reason.")))
	require.Len(t, with, len(without))
	told := 0
	for i := range with {
		told += strings.Count(words(with[i]), "stands on posts for a reason.")
		require.GreaterOrEqual(t, len(words(with[i])), len(words(without[i]))-2)
	}
	require.Positive(t, told)
	require.LessOrEqual(t, told, len(b.Levels))
}

// TestAReasonTakesOneLineOrNone: the second half goes first.
func TestAReasonTakesOneLineOrNone(t *testing.T) {
	s, b, o := set(t, sample.October(), drawing.A4(), measure.MM)
	m := &maker{s: s, b: b, o: o}
	require.Equal(t, "Short.", m.fitted("Short."))
	require.Equal(t, "Short.", m.fitted("Short; "+strings.Repeat("and long ", 40)+"."))
	require.Empty(t, m.fitted(strings.Repeat("long ", 60)+"."))
	require.Empty(t, m.fitted(""))
	require.Empty(t, m.whyLines([]int{0}), "no sentence, no line")
}
