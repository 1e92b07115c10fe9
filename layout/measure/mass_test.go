package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseMassReadsWhatPeopleType(t *testing.T) {
	// The pound is 0.453 592 37 kg exactly and the ounce a sixteenth of it:
	// NIST SP 811 (2008), appendix B.
	for text, want := range map[string]float64{
		"310 g": 0.31, "310g": 0.31, "1.2 kg": 1.2, "1,2 kg": 1.2, "1.2": 1.2, "0": 0, "0,0000001": 0,
		"1 lb": 0.45359237, "0.7 lb": 0.317514659, "12 oz": 0.3401942775, "2 lb 4 oz": 1.0205828325,
		"2 lbs. 4 oz.": 1.0205828325, "1/2 lb": 0.226796185, "10000": Heaviest,
	} {
		got, err := ParseMass(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "-1 kg", "heavy", "NaN", "0x1p2", "1e3", "115 mm", "10001", "11 t", "4 oz 2 lb", "2 kg 4 g", "1/0"} {
		_, err := ParseMass(text)
		requireSentence(t, err, text)
	}
	_, err := ParseMass("115 mm")
	require.EqualError(t, err, `"115 mm" is not a mass, which is in kg, g, lb or oz; type one like 1.2 kg, 310 g or 0.7 lb`)
}

func TestFormatMass(t *testing.T) {
	for _, c := range []struct {
		kg   float64
		in   Units
		want string
	}{
		{0.31, MM, "310 g"},
		{0, MM, "0 g"},
		{0.9994, MM, "999 g"},
		{0.9996, MM, "1 kg"},
		{13.9, MM, "13.9 kg"},
		{14.02, MM, "14 kg"},
		{99.94, MM, "99.9 kg"},
		{99.96, MM, "100 kg"},
		{140.4, MM, "140 kg"},
		{0.3401942775, Inches, "12 oz"},
		{0.45, Inches, "1 lb"},
		{1.587573295, Inches, "3.5 lb"},
		{13.9, Inches, "30.6 lb"}, // 13.9 / 0.45359237 = 30.644
		{math.NaN(), MM, "unknown"},
	} {
		require.Equal(t, c.want, FormatMass(c.kg, c.in), "%v", c.kg)
	}
}

func TestLawParseOfFormatIsTheSameMass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kg := rapid.Float64Range(0, Heaviest).Draw(t, "kg")
		got, err := ParseMass(FormatMassFile(kg))
		require.NoError(t, err)
		if kg < leastMass {
			kg = 0
		}
		require.Equal(t, kg, got)
		for _, in := range []Units{MM, Inches} {
			text := FormatMass(kg, in)
			shown, err := ParseMass(text)
			require.NoError(t, err, text)
			require.InDelta(t, kg, shown, math.Max(0.0142, kg*0.051), text) // half an ounce; half a tenth of 1 lb
			require.Equal(t, text, FormatMass(shown, in), "shown again it is the same")
		}
	})
}

func FuzzParseMass(f *testing.F) {
	for _, s := range []string{"310 g", "2 lb 4 oz", "1,2", "12 oz", "-1", "NaN", "1e3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		kg, err := ParseMass(text)
		if err != nil {
			requireSentence(t, err, text)
			return
		}
		require.True(t, kg >= 0 && kg <= Heaviest)
		back, err := ParseMass(FormatMassFile(kg))
		require.NoError(t, err)
		require.Equal(t, kg, back)
	})
}
