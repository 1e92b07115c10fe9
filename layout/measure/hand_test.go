package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestSayGapIsWhatAHandFeels(t *testing.T) {
	// The widths are those of the loading sheet's words, on both sides of each limit.
	for _, c := range []struct {
		mm   float64
		want string
	}{
		{-3, "touching"}, {0, "touching"}, {1e-7, "touching"},
		{0.5, "under 1 mm"}, {1, "under a pencil (1 mm)"}, {4, "under a pencil (4 mm)"}, {4.99, "under a pencil (4 mm)"},
		{4.9999999, "a pencil"}, {5, "a pencil"}, {10.9, "a pencil"},
		{11, "one finger"}, {24.9, "one finger"}, {25, "two fingers"}, {41.9, "two fingers"},
		{42, "three fingers"}, {59.9, "three fingers"}, {60, "a hand's breadth"}, {99.9, "a hand's breadth"},
		{100, "100 mm"}, {234.7, "234 mm"}, {math.Inf(1), "unknown"}, {math.NaN(), "unknown"},
	} {
		require.Equal(t, c.want, SayGap(c.mm), "%v", c.mm)
	}
	require.Equal(t, "under a pencil (1/8 in)", SayGapIn(4, Inches)) // 4 mm is 2.52 sixteenths
	require.Equal(t, "under 1/16 in", SayGapIn(1.2, Inches))
	require.Equal(t, "under 1/16 in", SayGapIn(0.4, Inches))
	require.Equal(t, "4 in", SayGapIn(102, Inches))
	require.Equal(t, "a pencil", SayGapIn(6, Inches))
}

func TestLawALargerGapIsNeverSaidSmaller(t *testing.T) {
	order := []string{"touching", "under 1 mm", "under a pencil (1 mm)", "under a pencil (2 mm)", "under a pencil (3 mm)", "under a pencil (4 mm)",
		"a pencil", "one finger", "two fingers", "three fingers", "a hand's breadth"}
	rapid.Check(t, func(t *rapid.T) {
		rank := func(mm float64) int {
			said := SayGap(mm)
			for i, s := range order {
				if s == said {
					return i
				}
			}
			require.GreaterOrEqual(t, mm, 100-Tolerance, said)
			return len(order)
		}
		a := rapid.Float64Range(-5, 120).Draw(t, "a")
		b := rapid.Float64Range(-5, 120).Draw(t, "b")
		require.LessOrEqual(t, rank(min(a, b)), rank(max(a, b)))
	})
}
