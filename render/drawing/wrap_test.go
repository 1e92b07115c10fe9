package drawing

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestWrapKeepsEveryWordAndFits(t *testing.T) {
	fonts := loadFonts(t)
	word := rapid.StringOfN(rapid.RuneFrom([]rune("abcmWi019-é")), 1, 14, -1)
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(word, 1, 30).Draw(t, "words")
		width := rapid.Float64Range(3, 120).Draw(t, "width")
		s := Type(12, Regular)
		lines := fonts.Wrap(s, strings.Join(words, " "), width)
		for _, l := range lines {
			if len([]rune(l)) > 1 {
				require.LessOrEqual(t, fonts.Width(s, l), width)
			}
		}
		squeezed := strings.ReplaceAll(strings.Join(lines, ""), " ", "")
		require.Equal(t, strings.Join(words, ""), squeezed)
	})
}

func TestWrapIsGreedy(t *testing.T) {
	fonts := loadFonts(t)
	s := Type(12, Regular)
	lines := fonts.Wrap(s, "between 9 and post B, a pencil from each, handle to 2", 40)
	for i := 1; i < len(lines); i++ {
		next, _, _ := strings.Cut(lines[i], " ")
		require.Greater(t, fonts.Width(s, lines[i-1]+" "+next), 40.0)
	}
	require.Greater(t, len(lines), 1)
}

func TestWrapRows(t *testing.T) {
	fonts := loadFonts(t)
	s := Type(12, Regular)
	for _, row := range []struct {
		words string
		width float64
		want  []string
	}{
		{"", 50, nil},
		{"mug", 50, []string{"mug"}},
		{"one\ntwo", 50, []string{"one", "two"}},
		{"one\n\ntwo", 50, []string{"one", "", "two"}},
		{"  two   spaces ", 50, []string{"two spaces"}},
		{"6\u00a0mm mugs", fonts.Width(s, "6\u00a0mm mug"), []string{"6\u00a0mm", "mugs"}},
		{"mmm", fonts.Width(s, "mm"), []string{"mm", "m"}},
		{"mm", 0, []string{"m", "m"}},
		{"éé", 0, []string{"é", "é"}},
	} {
		require.Equal(t, row.want, fonts.Wrap(s, row.words, row.width), "%q", row.words)
	}
}

func TestTextWrappedTellsItsHeight(t *testing.T) {
	p := NewPen(loadFonts(t), A4())
	require.InDelta(t, 11.0, p.TextWrapped(20, 30, 100, 5.5, "one\ntwo", Type(12, Regular)), 1e-9)
	texts := Texts(p.Page())
	require.Equal(t, Point{20, 30}, texts[0].At)
	require.Equal(t, Point{20, 35.5}, texts[1].At)
	require.Zero(t, p.TextWrapped(20, 30, 100, 5.5, "", Type(12, Regular)))
}
