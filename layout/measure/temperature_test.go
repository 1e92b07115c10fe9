package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseTemperatureReadsWhatPeopleType(t *testing.T) {
	// C = (F - 32) / 1.8 exactly: NIST SP 811 (2008), appendix B.
	for text, want := range map[string]float64{
		"1222": 1222, "1222 C": 1222, "1222°C": 1222, "1222 ºc": 1222, "1222℃": 1222, "1222 deg": 1222, "1222 degrees C": 1222,
		"1222,5": 1222.5, "212 F": 100, "32 °F": 0, "-40 f": -40, "-40": -40, "2192 F": 1200, "2000": Hottest,
	} {
		got, err := ParseTemperature(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "hot", "NaN", "1e3", "2232", "4000 F", "-274", "-500 F", "1222 K", "1222 mm", "12 C 5 C", "cone 6"} {
		_, err := ParseTemperature(text)
		requireSentence(t, err, text)
	}
	_, err := ParseTemperature("2232")
	require.EqualError(t, err, "2232 C is hotter than 2000 C, the hottest here; for Fahrenheit type 2232 F")
}

func TestFormatTemperature(t *testing.T) {
	require.Equal(t, "1222 C", FormatTemperature(1222.4, MM))
	require.Equal(t, "2232 F", FormatTemperature(1222, Inches))
	require.Equal(t, "-40 F", FormatTemperature(-40, Inches))
	require.Equal(t, "0 C", FormatTemperature(-0.2, MM))
	require.Equal(t, "unknown", FormatTemperature(math.Inf(1), MM))
}

func TestLawParseOfFormatIsTheSameTemperature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := settled(rapid.Float64Range(absoluteZero, Hottest).Draw(t, "c"))
		got, err := ParseTemperature(FormatFile(c))
		require.NoError(t, err)
		require.Equal(t, c, got)

		f := rapid.IntRange(-459, 3632).Draw(t, "f") // whole degrees F survive
		text := FormatFile(float64(f)) + " F"
		c, err = ParseTemperature(text)
		require.NoError(t, err)
		require.Equal(t, text, FormatTemperature(c, Inches))
	})
}

func FuzzParseTemperature(f *testing.F) {
	for _, s := range []string{"1222", "2232 F", "1222°C", "-40", "K"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := ParseTemperature(text)
		if err != nil {
			requireSentence(t, err, text)
			return
		}
		back, err := ParseTemperature(FormatFile(c))
		require.NoError(t, err)
		require.Equal(t, c, back)
	})
}
