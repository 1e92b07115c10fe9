package measure

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// chartRows reads the copy of the chart in testdata.
//
// Source: Edward Orton Jr. Ceramic Foundation, Temperature Equivalents, Large
// Self-Supporting Cones (2016). The C columns are from the text of the chart;
// the F columns are from memory but for some cells of cones 04, 6, 8, 9 and 10.
func chartRows(t *testing.T) [][]string {
	t.Helper()
	text, err := os.ReadFile("testdata/cones.csv")
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func TestConeTemperaturesAreThoseOfTheChart(t *testing.T) {
	rows := chartRows(t)
	require.Len(t, rows, coneCount)
	for i, row := range rows {
		c := Cone(row[0])
		require.Equal(t, c, Cones()[i])
		for j, rate := range []float64{15, 60, 150} {
			got, ok := c.Temperature(rate)
			if row[1+j] == "" {
				require.False(t, ok, "cone %s at %v C/h has no figure", c, rate)
				continue
			}
			want, err := strconv.ParseFloat(row[1+j], 64)
			require.NoError(t, err)
			require.True(t, ok)
			require.Equal(t, want, got, "cone %s at %v C/h", c, rate)
			f, err := strconv.ParseFloat(row[4+j], 64)
			require.NoError(t, err)
			require.InDelta(t, f, got*1.8+32, 1, "cone %s at %v C/h agrees with its F column", c, rate)
		}
		bare, ok := c.Temperature(0)
		require.True(t, ok)
		require.Equal(t, c.Heat(), bare)
	}
}

func TestConesRiseInHeat(t *testing.T) {
	cones := Cones()
	for i, a := range cones {
		for j, b := range cones {
			require.Equal(t, i < j, Compare(a, b) < 0, "%s %s", a, b)
			require.Equal(t, i < j, a.Heat() < b.Heat(), "%s %s", a, b)
			require.Equal(t, Compare(a, b), -Compare(b, a))
		}
		require.Positive(t, Compare(a, "99"))
	}
	// 05 and 5 are 155 C apart, design section 7; by the chart 1031 and 1186.
	require.Equal(t, 155.0, Cone("5").Heat()-Cone("05").Heat())
}

func TestConeTemperatureBetweenTheColumns(t *testing.T) {
	c := Cone("6") // 1185, 1222, 1243
	for rate, want := range map[float64]float64{37.5: 1203.5, 105: 1232.5} {
		got, ok := c.Temperature(rate)
		require.True(t, ok)
		require.InDelta(t, want, got, 1e-9)
	}
	for _, rate := range []float64{14.9, 150.1, -60, math.NaN(), math.Inf(1)} {
		_, ok := c.Temperature(rate)
		require.False(t, ok, "%v", rate)
	}
	_, ok := Cone("022").Temperature(30) // no figure at 15 to read from
	require.False(t, ok)
	_, ok = Cone("99").Temperature(60)
	require.False(t, ok)
	require.Zero(t, Cone("").Heat())
}

func TestParseConeReadsWhatPeopleType(t *testing.T) {
	for text, want := range map[string]Cone{
		"6": "6", "cone 6": "6", "Cone 06": "06", "cone6": "6", "^6": "6", "^ 04": "04", "∆6": "6", "Δ6": "6", "△ 10": "10", "c6": "6",
		"04": "04", " 05.5 ": "05.5", "5½": "5.5", "5 1/2": "5.5", "05 1/2": "05.5", "5,5": "5.5", "022": "022", "14": "14",
	} {
		got, err := ParseCone(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
}

func TestParseConeNamesTheNearOnes(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "a cone is missing; type one like 04 or 6"},
		{"o5", `"o5" is not a cone; the nearest name is cone 05 (1031 C)`},
		{"005", `"005" is not a cone; did you mean cone 05 (1031 C) or cone 5 (1186 C)? They are different cones`},
		{"0 5", `"0 5" is not a cone; did you mean cone 05 (1031 C) or cone 5 (1186 C)? They are different cones`},
		{"023", `"023" is not a cone; did you mean`},
		{"1222", `"1222" looks like a temperature, not a cone; the nearest is cone 6 (1222 C)`},
		{"1945 F", `"1945 F" looks like a temperature, not a cone; the nearest is cone 04 (1063 C)`},
		{"glaze", `"glaze" is not a cone; type a cone from 022 to 14, like 04 or 6`},
		{"cone", `"cone" is not a cone; type a cone from 022 to 14, like 04 or 6`},
		{"-6", "cone 6 (1222 C)"},
		{"0", ""}, {"15", ""}, {"6.0", ""}, {"6-7", ""}, {"99", ""}, {strings.Repeat("6", 300), ""},
	} {
		_, err := ParseCone(c.text)
		requireSentence(t, err, c.text)
		require.Contains(t, err.Error(), c.want)
	}
}

func TestConePacks(t *testing.T) {
	// Guide one cooler, guard one hotter, half cones passed over: common practice.
	for c, want := range map[Cone][]Cone{
		"6": {"5", "6", "7"}, "04": {"05", "04", "03"}, "1": {"01", "1", "2"}, "5.5": {"5", "5.5", "6"}, "05.5": {"06", "05.5", "05"},
		"022": {"022", "021"}, "14": {"13", "14"}, "99": nil, "": nil,
	} {
		require.Equal(t, want, c.Pack(), "cone %s", c)
	}
	for _, c := range Cones() {
		require.True(t, slices.IsSortedFunc(c.Pack(), Compare))
		if next, ok := c.Next(); ok && !strings.Contains(string(c), ".") {
			back, ok := next.Previous()
			require.True(t, ok)
			require.Equal(t, c, back)
		}
	}
	_, ok := Cone("14").Next()
	require.False(t, ok)
	_, ok = Cone("99").Previous()
	require.False(t, ok)
}

func TestConeTwins(t *testing.T) {
	for c, want := range map[Cone]Cone{"05": "5", "5": "05", "06": "6", "5.5": "05.5", "010": "10", "14": "014"} {
		got, ok := c.Twin()
		require.True(t, ok)
		require.Equal(t, want, got)
	}
	for _, c := range []Cone{"022", "015", "", "99"} {
		_, ok := c.Twin()
		require.False(t, ok, "cone %s", c)
	}
}

func TestDescribeTellsNameAndTemperature(t *testing.T) {
	require.Equal(t, "cone 6 (1222 C)", Cone("6").Describe())
	require.Equal(t, "cone 6 (2232 F)", Cone("6").DescribeIn(Inches)) // chart, 108 F/h
	require.Equal(t, "cone 99", Cone("99").Describe())
	require.Equal(t, "no cone", Cone("").Describe())
}

func TestLawParseOfFormatIsTheSameCone(t *testing.T) {
	for _, c := range Cones() {
		for _, text := range []string{string(c), "cone " + string(c), "^" + string(c)} {
			got, err := ParseCone(text)
			require.NoError(t, err)
			require.Equal(t, c, got)
		}
	}
}

func FuzzParseCone(f *testing.F) {
	for _, s := range []string{"6", "cone 04", "^5½", "∆6", "005", "1222", "o6", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := ParseCone(text)
		if err != nil {
			requireSentence(t, err, text)
			return
		}
		require.True(t, c.Known())
		back, err := ParseCone(string(c))
		require.NoError(t, err)
		require.Equal(t, c, back)
	})
}
