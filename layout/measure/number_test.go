package measure

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"
)

// requireSentence checks what every refusal owes: it quotes or names what is
// missing, says what to type, and keeps to the plain words of the house.
func requireSentence(t *testing.T, err error, typed string) {
	t.Helper()
	require.Error(t, err)
	said := err.Error()
	require.Less(t, len(said), 400, "one sentence")
	for _, r := range said {
		require.True(t, unicode.IsPrint(r), "%q is on one printable line", said)
	}
	for _, never := range []string{"error", "invalid", "warning", "!", "strconv", "parse"} {
		if !strings.Contains(strings.ToLower(typed), never) {
			require.NotContains(t, strings.ToLower(said), never)
		}
	}
	told := strings.Contains(said, "type ") || strings.Contains(said, "use ") ||
		strings.Contains(said, "check ") || strings.Contains(said, "cone ")
	require.True(t, told, "%q says what to do", said)
	require.True(t, strings.HasPrefix(said, `"`) || strings.Contains(said, "is missing") ||
		strings.Contains(said, "hotter than"), "%q begins with what was typed", said)
}

func TestNumbersAreReadExactly(t *testing.T) {
	for text, want := range map[string]string{
		"12": "12", "4.5": "9/2", ".5": "1/2", "4.": "4", "1/2": "1/2", "4 1/2": "9/2", "4-1/2": "9/2",
		"010/016": "5/8", "007": "7", "0.125": "1/8", "33 1/3": "100/3",
	} {
		got, rest, ok := readNumber(text)
		require.True(t, ok, text)
		require.Empty(t, rest, text)
		require.Equal(t, want, got.RatString(), text)
	}
	for _, text := range []string{"", ".", "1/0", "1/00", "1/", "4 9/2", "4 1/0", "a", "/2", "-1", "٣"} {
		_, _, ok := readNumber(text)
		require.False(t, ok, text)
	}
}

func TestQuoteIsShortAndPrintable(t *testing.T) {
	require.Equal(t, `"a b"`, quote(" a\nb "))
	require.Equal(t, `"`+strings.Repeat("x", 40)+`..."`, quote(strings.Repeat("x", 1000)))
	require.Equal(t, "\"\ufffd\"", quote("\xff"))
}
