package measure

import (
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseLengthReadsWhatPeopleType(t *testing.T) {
	// The inch is 25.4 mm and the foot 304.8 mm exactly: NIST SP 811 (2008), appendix B.
	for _, c := range []struct {
		text string
		in   Units
		want float64
	}{
		{"115", MM, 115},
		{"115 mm", MM, 115},
		{"115mm", Inches, 115},
		{"115.", MM, 115},
		{" 115\t mm ", MM, 115},
		{"11.5 cm", MM, 115},
		{"11,5 cm", MM, 115},
		{"0,5", MM, 0.5},
		{"1.1 m", MM, 1100},
		{"2 Millimetres", MM, 2},
		{"4", Inches, 101.6},
		{"4 1/2", Inches, 114.3},
		{"4 1/2 in", MM, 114.3},
		{"4-1/2 in.", MM, 114.3},
		{"4½ in", MM, 114.3},
		{"4½", Inches, 114.3},
		{"½ in", MM, 12.7},
		{"4.5\"", MM, 114.3},
		{"4.5″", MM, 114.3},
		{"4.5''", MM, 114.3},
		{"4,5 inches", MM, 114.3},
		{"1⁄8 in", MM, 3.175},
		{"1/2", Inches, 12.7},
		{"1/2", MM, 0.5},
		{"1' 6\"", MM, 457.2},
		{"1 ft 6 1/2 in", MM, 469.9},
		{"18 in", MM, 457.2},
		{"-3 mm", MM, -3},
		{"−3", MM, -3},
		{"+3", MM, 3},
		{"115\u00a0mm", MM, 115},
		{"0", MM, 0},
		{"-0", MM, 0},
		{"0.0000004", MM, 0},
		{"100000", MM, Longest},
		{"115", "", 115},
	} {
		got, err := ParseLength(c.text, c.in)
		require.NoError(t, err, c.text)
		require.Equal(t, c.want, got, c.text) // bit for bit
		require.False(t, math.Signbit(got) && got == 0, "%s is not -0", c.text)
	}
}

func TestParseLengthRefusesWithASentence(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", "a length is missing"},
		{"  ", "a length is missing"},
		{"NaN", "is not a length"},
		{"Inf", "is not a length"},
		{"-inf mm", "is not a length"},
		{"0x1p4", "is not a length"},
		{"1e9", "is not a length"},
		{"1_000", "is not a length"},
		{"1,000,5", "is not a length"},
		{"1,000.5", "is not a length"},
		{"1.2.3", "is not a length"},
		{"1/0 in", "is not a length"},
		{"4 9/2 in", "is not a length"},
		{"--3", "is not a length"},
		{"mm", "is not a length"},
		{"four", "is not a length"},
		{"100 x 85", "is not a length"},
		{"100-110", "is not a length"},
		{"310 g", "is in mm, cm, m, in or ft"},
		{"4 furlongs", "is in mm, cm, m, in or ft"},
		{"5 6", "is not a length"},
		{"5 mm 6 mm", "has two figures"},
		{"6 in 1 ft", "has two figures"},
		{"1 ft 2 in 3 in", "is not a length"},
		{"100001", "longer than 100 m"},
		{"-100001", "longer than 100 m"},
		{"101 m", "longer than 100 m"},
		{strings.Repeat("9", 64), "longer than 100 m"},
		{strings.Repeat("1", 65), "is not a length"},
		{"\xff", "is not a length"},
		{"٣ mm", "is not a length"},
	} {
		for _, in := range []Units{MM, Inches} {
			_, err := ParseLength(c.text, in)
			requireSentence(t, err, c.text)
			require.Contains(t, err.Error(), c.says, c.text)
		}
	}
	_, err := ParseLength("abc", MM)
	require.EqualError(t, err, `"abc" is not a length; type one like 115, 11.5 cm or 4 1/2 in`)
}

func TestParsePositiveAndNotNegative(t *testing.T) {
	for _, c := range []struct {
		text                  string
		positive, notNegative bool
	}{{"1", true, true}, {"0", false, true}, {"-1", false, false}, {"x", false, false}, {"0.0000001", false, true}} {
		_, err := ParsePositive(c.text, MM)
		require.Equal(t, c.positive, err == nil, c.text)
		if err != nil {
			requireSentence(t, err, c.text)
		}
		_, err = ParseNotNegative(c.text, MM)
		require.Equal(t, c.notNegative, err == nil, c.text)
		if err != nil {
			requireSentence(t, err, c.text)
		}
	}
}

func TestParseUnits(t *testing.T) {
	for text, want := range map[string]Units{"": MM, "mm": MM, " MM ": MM, "in": Inches, "Inches": Inches} {
		got, err := ParseUnits(text)
		require.NoError(t, err)
		require.Equal(t, want, got, text)
	}
	_, err := ParseUnits("cubits")
	requireSentence(t, err, "cubits")
}

func TestFormatLengthRoundsToTheSafeSide(t *testing.T) {
	for _, c := range []struct {
		mm    float64
		in    Units
		round Round
		grain Grain
		want  string
	}{
		{34.2, MM, Up, PotGrain, "35"},
		{34.8, MM, Down, PotGrain, "34"},
		{34.5, MM, Nearest, PotGrain, "35"},
		{34.4, MM, Nearest, PotGrain, "34"},
		{-34.5, MM, Nearest, PotGrain, "-35"},
		{34.5, MM, Exact, PotGrain, "34.5"},
		{34.0000001, MM, Up, PotGrain, "34"},   // within the tolerance of 34
		{33.9999999, MM, Down, PotGrain, "34"}, // the same from below
		{34.00001, MM, Up, PotGrain, "35"},     // beyond it
		{33.99999, MM, Down, PotGrain, "33"},
		{-2.3, MM, Down, PotGrain, "-3"}, // an overlap is told larger
		{-0.2, MM, Up, PotGrain, "0"},
		{-0.2, MM, Nearest, PotGrain, "0"},
		{114.3, Inches, Up, PotGrain, "4 1/2"},
		{114.4, Inches, Up, PotGrain, "4 5/8"},
		{114.4, Inches, Down, PotGrain, "4 1/2"},
		{114.2, Inches, Down, PotGrain, "4 3/8"},
		{114.2, Inches, Down, PostGrain, "4 7/16"},
		{114.2, Inches, Nearest, PostGrain, "4 1/2"},
		{3, Inches, Down, PotGrain, "0"},
		{3, Inches, Down, PostGrain, "1/16"},
		{304.8, Inches, Up, PotGrain, "12"},
		{-114.3, Inches, Nearest, PotGrain, "-4 1/2"},
		{-3.175, Inches, Nearest, PotGrain, "-1/8"},
		{25.4, Inches, Up, 0, "1"},
		{26, Inches, Up, 1 << 40, "1 1/32"},
		{math.NaN(), MM, Up, PotGrain, "unknown"},
		{math.Inf(1), Inches, Down, PotGrain, "unknown"},
	} {
		require.Equal(t, c.want, FormatLengthTo(c.mm, c.in, c.round, c.grain), "%v %s", c.mm, c.in)
	}
	require.Equal(t, "4 5/8", FormatLength(114.4, Inches, Up))
	require.Equal(t, "115 mm", SayLength(114.3, MM, Up))
	require.Equal(t, "4 1/2 in", SayLength(114.3, Inches, Up))
	require.Equal(t, "1/16 in", SayLengthTo(1, Inches, Up, PostGrain))
	require.Equal(t, "unknown", SayLength(math.NaN(), MM, Up))
}

func TestFormatFileIsTheShortestDecimal(t *testing.T) {
	for mm, want := range map[float64]string{
		34.5: "34.5", -205: "-205", 0: "0", math.Copysign(0, -1): "0", 1e-9: "0", 0.1: "0.1", 100000: "100000",
		math.Nextafter(0.3, 1): "0.30000000000000004", math.Inf(-1): "unknown", math.NaN(): "unknown",
	} {
		require.Equal(t, want, FormatFile(mm))
	}
}

// anyLength draws lengths as files hold them and as arithmetic leaves them,
// many on the 0.1 mm grid and many a hair off an inch mark.
func anyLength(t *rapid.T) float64 {
	switch rapid.IntRange(0, 3).Draw(t, "sort") {
	case 0:
		return float64(rapid.IntRange(-1000000, 1000000).Draw(t, "grid")) / 10
	case 1:
		mark := rapid.IntRange(-64*3900, 64*3900).Draw(t, "mark")
		off := rapid.Float64Range(-2*Tolerance, 2*Tolerance).Draw(t, "off")
		return float64(mark)*inch/64 + off
	case 2:
		return rapid.Float64Range(-Tolerance, Tolerance).Draw(t, "tiny")
	}
	return rapid.Float64Range(-Longest, Longest).Draw(t, "any")
}

// settled is what ParseLength makes of a length: the tolerance counts as 0.
func settled(mm float64) float64 {
	if math.Abs(mm) < Tolerance {
		return 0
	}
	return mm
}

func TestLawParseOfFormatIsTheSameLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := anyLength(t)
		if math.Abs(mm) > Longest {
			return
		}
		got, err := ParseLength(FormatFile(mm), MM)
		require.NoError(t, err)
		require.Equal(t, settled(mm), got)

		for _, in := range []Units{MM, Inches} {
			text := FormatLength(mm, in, Exact)
			got, err = ParseLength(text, in)
			require.NoError(t, err, text)
			require.Equal(t, settled(mm), got, text)

			got, err = ParseLength(SayLength(mm, in, Exact), MM) // the unit wins
			require.NoError(t, err)
			require.Equal(t, settled(mm), got)
		}
	})
}

func TestLawInchFractionsAreExact(t *testing.T) {
	// big.Rat is the outside judge: n/grain inches is n*127/(5*grain) mm.
	rapid.Check(t, func(t *rapid.T) {
		grain := rapid.SampledFrom([]Grain{1, 2, 4, 8, 16, 32, 64}).Draw(t, "grain")
		n := rapid.Int64Range(-3937*int64(grain), 3937*int64(grain)).Draw(t, "n")
		mm, _ := big.NewRat(n*127, 5*int64(grain)).Float64()
		for _, round := range []Round{Nearest, Up, Down, Exact} {
			text := FormatLengthTo(mm, Inches, round, grain)
			require.Equal(t, big.NewRat(n, int64(grain)).RatString(), ratOf(text).RatString(), text)
			back, err := ParseLength(text, Inches)
			require.NoError(t, err)
			require.Equal(t, mm, back, text)
		}
	})
}

// ratOf reads "-4 1/2" by means of big.Rat alone.
func ratOf(text string) *big.Rat {
	sum := new(big.Rat)
	for _, part := range strings.Fields(strings.TrimPrefix(text, "-")) {
		r, ok := new(big.Rat).SetString(part)
		if !ok {
			panic(text)
		}
		sum.Add(sum, r)
	}
	if strings.HasPrefix(text, "-") {
		sum.Neg(sum)
	}
	return sum
}

func TestLawShownLengthsAreOnTheSafeSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := anyLength(t)
		in := rapid.SampledFrom([]Units{MM, Inches}).Draw(t, "in")
		grain := rapid.SampledFrom([]Grain{PotGrain, PostGrain}).Draw(t, "grain")
		step := 1.0
		if in == Inches {
			step = inch / float64(grain)
		}
		shown := func(round Round) float64 {
			text := FormatLengthTo(mm, in, round, grain)
			require.NotContains(t, text, ".")
			worth := ratOf(text)
			if in == Inches {
				worth.Mul(worth, big.NewRat(127, 5))
			}
			x, _ := worth.Float64()
			return x
		}
		const hair = 1e-9 // of float64 at 1e5 mm
		up, down, nearest := shown(Up), shown(Down), shown(Nearest)
		require.GreaterOrEqual(t, up, mm-Tolerance-hair)
		require.Less(t, up, mm-Tolerance+step+hair)
		require.LessOrEqual(t, down, mm+Tolerance+hair)
		require.Greater(t, down, mm+Tolerance-step-hair)
		require.LessOrEqual(t, math.Abs(nearest-mm), step/2+Tolerance+hair)
	})
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"115", "4 1/2 in", "4½\"", "11,5 cm", "1' 6\"", "1e9", "NaN", "-3", "1/0", "\xff", "0.0000001"} {
		f.Add(s, true)
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, text string, inches bool) {
		in := MM
		if inches {
			in = Inches
		}
		mm, err := ParseLength(text, in)
		if err != nil {
			requireSentence(t, err, text)
			return
		}
		require.LessOrEqual(t, math.Abs(mm), Longest)
		for _, again := range []struct {
			text string
			in   Units
		}{{FormatFile(mm), MM}, {FormatLength(mm, Inches, Exact), Inches}} {
			back, err := ParseLength(again.text, again.in)
			require.NoError(t, err, again.text)
			require.Equal(t, mm, back, again.text)
		}
	})
}

func ExampleFormatLength() {
	mm, _ := ParseLength("11,5 cm", Inches)
	fmt.Println(SayLength(mm, MM, Up), "high, to the lid", SayLength(38.4, MM, Down))
	fmt.Println(SayLength(mm, Inches, Up), "high, to the lid", SayLength(38.4, Inches, Down))
	// Output:
	// 115 mm high, to the lid 38 mm
	// 4 5/8 in high, to the lid 1 1/2 in
}
