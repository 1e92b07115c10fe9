package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseClockReadsWhatPeopleType(t *testing.T) {
	// An hour of the clock face is 30 degrees, a minute half of one.
	for text, want := range map[string]float64{
		"12:00": 0, "3:00": 90, "6:00": 180, "10:30": 315, "4:30": 135, "04:30": 135, "12:01": 0.5, "11:59": 359.5,
		"half past 4": 135, "Half Past 12": 15, "quarter past 4": 127.5, "quarter to 5": 142.5, "quarter to 12": 352.5, "quarter to 1": 22.5,
		"4 o'clock": 120, "4 o’clock": 120, "4 oclock": 120, "12 o'clock": 0, "half past 4 o'clock": 135, "toward half past 9": 285, "to 2": 60, "4": 120, "12": 0,
		"135 deg": 135, "135°": 135, "135,3 degrees": 135.3, "-90 deg": 270, "360 deg": 0, "450 deg": 90, "0 deg": 0, "-0.0000000001 deg": 0,
	} {
		got, err := ParseClock(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{
		"", "13:00", "0:30", "4:60", "4:5", "4:055", "4:", ":30", "-4:30", "4:30:10", "135", "0", "13", "half past", "half past 13",
		"north", "NaN deg", "1e3 deg", "3601 deg", "12 mm", "toward", "o'clock", "4 5 deg", "1/0 deg", "½:30",
	} {
		_, err := ParseClock(text)
		requireSentence(t, err, text)
	}
	_, err := ParseClock("13:00")
	require.EqualError(t, err, `"13:00" is not a clock bearing; type one like 4:30, half past 4, 4 o'clock or 135 deg`)
}

func TestFormatClock(t *testing.T) {
	for deg, want := range map[float64]string{
		0: "12:00", 315: "10:30", 135: "4:30", 0.5: "12:01", 359.5: "11:59", 135.3: "135.3 deg", 359.9: "359.9 deg",
		-90: "9:00", 360: "12:00", 720.5: "12:01", -1e-17: "12:00", math.Inf(1): "unknown", math.NaN(): "unknown",
	} {
		require.Equal(t, want, FormatClock(deg))
	}
}

func TestSayClockRoundsToTheHalfHour(t *testing.T) {
	for _, c := range []struct {
		deg                float64
		said, short, going string
	}{
		{120, "4 o'clock", "4", "toward 4 o'clock"},
		{127.4, "4 o'clock", "4", "toward 4 o'clock"},
		{127.5, "half past 4", "half past 4", "toward half past 4"},
		{135, "half past 4", "half past 4", "toward half past 4"},
		{0, "12 o'clock", "12", "toward 12 o'clock"},
		{7.5, "half past 12", "half past 12", "toward half past 12"},
		{345, "half past 11", "half past 11", "toward half past 11"},
		{352.4, "half past 11", "half past 11", "toward half past 11"},
		{352.6, "12 o'clock", "12", "toward 12 o'clock"},
		{-30, "11 o'clock", "11", "toward 11 o'clock"},
	} {
		require.Equal(t, c.said, SayClock(c.deg))
		require.Equal(t, c.short, ShortClock(c.deg))
		require.Equal(t, c.going, TowardClock(c.deg))
	}
	require.Equal(t, "unknown", SayClock(math.NaN()))
}

func TestLawParseOfFormatIsTheSameBearing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		deg := rapid.OneOf(
			rapid.Custom(func(t *rapid.T) float64 { return float64(rapid.IntRange(0, 3599).Draw(t, "grid")) / 10 }),
			rapid.Custom(func(t *rapid.T) float64 { return float64(rapid.IntRange(0, 719).Draw(t, "minute")) / 2 }),
			rapid.Float64Range(0, 359.99999),
		).Draw(t, "deg")
		if deg < leastTurn {
			deg = 0
		}
		text := FormatClock(deg)
		got, err := ParseClock(text)
		require.NoError(t, err, text)
		require.Equal(t, deg, got, text)

		for _, said := range []string{SayClock(deg), ShortClock(deg), TowardClock(deg)} {
			got, err = ParseClock(said)
			require.NoError(t, err, said)
			off := math.Abs(got - deg)
			require.LessOrEqual(t, math.Min(off, 360-off), 7.5+1e-9, said)
		}
	})
}

func FuzzParseClock(f *testing.F) {
	for _, s := range []string{"12:00", "half past 4", "4 o'clock", "135.3 deg", "-90°", "quarter to 1", "4:60", "359.9999999 deg"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		deg, err := ParseClock(text)
		if err != nil {
			requireSentence(t, err, text)
			return
		}
		require.True(t, deg >= 0 && deg < 360)
		back, err := ParseClock(FormatClock(deg))
		require.NoError(t, err)
		require.Equal(t, deg, back)
	})
}
