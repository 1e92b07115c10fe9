package stacks

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
	"threepost/layout/measure"
)

func TestParseMakeUp(t *testing.T) {
	for _, c := range []struct {
		text string
		in   measure.Units
		want layout.MakeUp
		back string
	}{
		{"25", measure.MM, layout.MakeUp{{Height: 25}}, "25"},
		{"150 + 5", measure.MM, layout.MakeUp{{Height: 150}, {Height: 5}}, "150 + 5"},
		{"150+5+5", measure.MM, layout.MakeUp{{Height: 150}, {Height: 5}, {Height: 5}}, "150 + 5 + 5"},
		{"150 old + 5", measure.MM, layout.MakeUp{{Height: 150, Name: "old"}, {Height: 5}}, "150 old + 5"},
		{"150 mm  the good ones", measure.MM, layout.MakeUp{{Height: 150, Name: "the good ones"}}, "150 the good ones"},
		{"6", measure.Inches, layout.MakeUp{{Height: 152.4}}, "6"},
		{`4 1/2" old + 1/4`, measure.Inches, layout.MakeUp{{Height: 114.3, Name: "old"}, {Height: 6.35}}, "4 1/2 old + 1/4"},
		{"127 mm in", measure.MM, layout.MakeUp{{Height: 127, Name: "in"}}, "127 mm in"},
		{"15 cm + 5 mm", measure.Inches, layout.MakeUp{{Height: 150}, {Height: 5}}, ""},
	} {
		got, err := ParseMakeUp(c.text, c.in)
		require.NoError(t, err, c.text)
		require.Equal(t, c.want, got, c.text)
		if c.back != "" {
			require.Equal(t, c.back, FormatMakeUp(got, c.in))
		}
	}
}

func TestParseMakeUpRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":                        "a piece is missing",
		"150 + ":                  "a piece is missing",
		"old":                     `"old" is no post`,
		"0":                       "is not more than 0",
		"-5":                      "is not more than 0",
		strings.Repeat("5+", 40):  "a post takes 32 at most",
		strings.Repeat("5", 2000): "letters long",
	} {
		_, err := ParseMakeUp(text, measure.MM)
		require.ErrorContains(t, err, want)
	}
}

// parse(format(m)) == m, in mm and in inches.
func TestFormatMakeUpReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var m layout.MakeUp
		for i := rapid.IntRange(1, 4).Draw(t, "pieces"); i > 0; i-- {
			h := float64(rapid.IntRange(1, 4000).Draw(t, "tenths")) / 10
			if rapid.Bool().Draw(t, "in sixteenths") {
				h = float64(rapid.IntRange(1, 200).Draw(t, "sixteenths")) / 16 * 25.4
			}
			m = append(m, layout.Piece{Height: h, Name: rapid.SampledFrom([]string{"", "old", "B", "good set"}).Draw(t, "name")})
		}
		for _, in := range []measure.Units{measure.MM, measure.Inches} {
			got, err := ParseMakeUp(FormatMakeUp(m, in), in)
			require.NoError(t, err)
			require.Equal(t, m, got)
		}
	})
}

func TestSayMakeUp(t *testing.T) {
	require.Equal(t, "3×125", SayMakeUp(3, layout.MakeUp{{Height: 125}}, measure.MM))
	require.Equal(t, "3×(100+6)", SayMakeUp(3, layout.MakeUp{{Height: 100}, {Height: 6}}, measure.MM))
	require.Equal(t, "4×(4 1/2+1/4)", SayMakeUp(4, layout.MakeUp{{Height: 114.3}, {Height: 6.35}}, measure.Inches))
	require.Equal(t, "2×100, 1×(75+25)", SayPosts([]layout.MakeUp{{{Height: 100}}, nil, {{Height: 75}, {Height: 25}}, {{Height: 100}}}, measure.MM))
	require.Empty(t, SayPosts(nil, measure.MM))
}
