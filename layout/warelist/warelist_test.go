package warelist

import (
	"errors"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
	"threepost/layout/measure"
)

func mug(count int, height, across float64) layout.Ware {
	return layout.Ware{Name: "mug", Count: count, Height: height, Across: across}
}

// The first four lines are the examples of the design.
func TestShortFormReadsSizes(t *testing.T) {
	for _, c := range []struct {
		line  string
		units measure.Units
		want  layout.Ware
	}{
		{"12 mugs 100 x 85", measure.MM, mug(12, 100, 85)},
		{"6 bowls 75 x 150", measure.MM, layout.Ware{Name: "bowl", Count: 6, Height: 75, Across: 150}},
		{"vase 220 x 110", measure.MM, layout.Ware{Name: "vase", Count: 1, Height: 220, Across: 110}},
		{"2 bakers 60 x 260 x 160", measure.MM, layout.Ware{Name: "baker", Count: 2, Height: 60, Length: 260, Width: 160}},
		{"12 mugs 100x85", measure.MM, mug(12, 100, 85)},
		{"12 mugs 100×85", measure.MM, mug(12, 100, 85)},
		{"12 mugs 100 by 85", measure.MM, mug(12, 100, 85)},
		{"12 x mugs 100 x 85", measure.MM, mug(12, 100, 85)},
		{"12x mugs 100 x 85", measure.MM, mug(12, 100, 85)},
		{"  12   mugs\t100 x 85  # from the top shelf", measure.MM, mug(12, 100, 85)},
		{"12 mug 100 x 85", measure.MM, mug(12, 100, 85)},
		{"mug 10 cm x 8.5 cm", measure.MM, mug(1, 100, 85)},
		{"mug 10 x 8.5 cm", measure.MM, mug(1, 100, 85)},
		{"mug 10 cm x 8.5", measure.MM, mug(1, 100, 85)},
		{"mug 10,5 x 8,5 cm", measure.MM, mug(1, 105, 85)},
		{"mug 4 1/2 x 3 in", measure.MM, mug(1, 114.3, 76.2)}, // 4.5 and 3 of 25.4
		{`mug 4.5" x 3"`, measure.MM, mug(1, 114.3, 76.2)},
		{"mug 4½ x 3", measure.Inches, mug(1, 114.3, 76.2)},
		{"mug 100 mm x 3 in", measure.MM, mug(1, 100, 76.2)},
		{`3 "mugs, tall" 100 x 85`, measure.MM, layout.Ware{Name: "mugs, tall", Count: 3, Height: 100, Across: 85}},
		{`"size ""L"" mug" 100 x 85`, measure.MM, layout.Ware{Name: `size "L" mug`, Count: 1, Height: 100, Across: 85}},
		{"mug no 5 100 x 85", measure.MM, layout.Ware{Name: "mug no 5", Count: 1, Height: 100, Across: 85}},
		{"soup bowl 70 x 140", measure.MM, layout.Ware{Name: "soup bowl", Count: 1, Height: 70, Across: 140}},
	} {
		got, err := ParseLine(c.line, c.units)
		require.NoError(t, err, c.line)
		require.Equal(t, c.want, got, c.line)
	}
}

func TestShortFormReadsWhatElseThereIs(t *testing.T) {
	on, beside := true, false
	zero, five := 0.0, 5.0
	for _, c := range []struct {
		tag  string
		want func(w *layout.Ware)
	}{
		{"runny", func(w *layout.Ware) { w.Flags.Runny = true }},
		{"Refire; bloats, spits", func(w *layout.Ware) { w.Flags = layout.Flags{Refire: true, Bloats: true, Spits: true} }},
		{"glazed foot, fuming", func(w *layout.Ware) { w.Flags = layout.Flags{GlazedFoot: true, Fuming: true} }},
		{"fume-sensitive, unglazed", func(w *layout.Ware) { w.Flags = layout.Flags{FumeShy: true, Unglazed: true} }},
		{"must", func(w *layout.Ware) { w.Must = layout.MustGo }},
		{"filler", func(w *layout.Ware) { w.Must = layout.Filler }},
		{"clay buff stoneware cone 6", func(w *layout.Ware) { w.Clay = layout.Material{Name: "buff stoneware", Cone: "6"} }},
		{"clay cone 04", func(w *layout.Ware) { w.Clay.Cone = "04" }},
		{"clay buff", func(w *layout.Ware) { w.Clay.Name = "buff" }},
		{`glaze "tin white, thin" cone 6`, func(w *layout.Ware) { w.Glaze = layout.Material{Name: "tin white, thin", Cone: "6"} }},
		{`glaze "cone white"`, func(w *layout.Ware) { w.Glaze.Name = "cone white" }},
		{"owner Ida", func(w *layout.Ware) { w.Owner = "Ida" }},
		{`ticket "41, blue"`, func(w *layout.Ware) { w.Ticket = "41, blue" }},
		{"since 2026-10-01", func(w *layout.Ware) { w.Since = "2026-10-01" }},
		{"value 2.5", func(w *layout.Ware) { w.Value = 2.5 }},
		{"value 2,5", func(w *layout.Ware) { w.Value = 2.5 }},
		{"mass 310 g", func(w *layout.Ware) { w.Mass = 0.31 }},
		{"foot 55, knob 20; wall 6", func(w *layout.Ware) { w.Foot, w.Knob, w.Wall = 55, 20, 6 }},
		{"profile 0 x 76 > 95 x 86, measured", func(w *layout.Ware) {
			w.Profile, w.Measured = []layout.Knot{{Height: 0, Diameter: 76}, {Height: 95, Diameter: 86}}, true
		}},
		{"handle 38 from 20 to 80", func(w *layout.Ware) { w.Handles = []layout.Handle{{Reach: 38, From: 20, To: 80}} }},
		{"handle 38 from 20 to 80 thick 14, handle 20 from 20 to 50 at 180", func(w *layout.Ware) {
			w.Handles = []layout.Handle{{Reach: 38, From: 20, To: 80, Thick: 14}, {Reach: 20, From: 20, To: 50, At: 180}}
		}},
		{"spout 1 1/2 in from 1 in to 2 in", func(w *layout.Ware) { w.Spout = &layout.Handle{Reach: 38.1, From: 25.4, To: 50.8} }},
		{"lid on", func(w *layout.Ware) { w.LidOn = &on }},
		{"lid beside", func(w *layout.Ware) { w.LidOn = &beside }},
		{"allow high 0, allow wide 5", func(w *layout.Ware) { w.HighAllowance, w.WideAllowance = &zero, &five }},
		{"cookie", func(w *layout.Ware) { w.Stand.Kind = layout.Cookie }},
		{"stilt 60 wide 12 high", func(w *layout.Ware) { w.Stand = layout.Stand{Kind: layout.Stilt, Across: 60, Height: 12} }},
		{"wads", func(w *layout.Ware) { w.Stand.Kind = layout.Wads }},
		{"nested 3, adds 25", func(w *layout.Ware) { w.Nested, w.Adds = 3, 25 }},
		{"as lidded jar", func(w *layout.Ware) { w.Silhouette = layout.LiddedJar }},
		{"plan oval", func(w *layout.Ware) { w.Plan = layout.Oval }},
		{"raw", func(w *layout.Ware) { w.Dry = layout.BoneDry }},
		{",, ;", func(*layout.Ware) {}},
	} {
		want := mug(12, 100, 85)
		c.want(&want)
		got, err := ParseLine("12 mugs 100 x 85, "+c.tag, measure.MM)
		require.NoError(t, err, c.tag)
		require.Equal(t, want, got, c.tag)
	}
}

// Every message says what to type.
func TestShortFormSaysWhatToType(t *testing.T) {
	for _, c := range []struct{ line, say string }{
		{"12 mugs", `"12 mugs" has no size; type height x across, like 12 mugs 100 x 85`},
		{"12 mugs 100", `"12 mugs 100" has no size; type height x across, like 12 mugs 100 x 85`},
		{"100 x 85", `"100 x 85" has no name; type count, name, height x across, like 12 mugs 100 x 85`},
		{"12", `"12" has no name; type count, name, height x across, like 12 mugs 100 x 85`},
		{"0 mugs 100 x 85", `the count is 0; type 1 or more`},
		{"-3 mugs 100 x 85", `the count is -3; type 1 or more`},
		{"1000000000 mugs 100 x 85", `the count is 1000000000; at most 10000 can be planned`},
		{"99999999999999999999999 mugs 100 x 85", `the count is 99999999999999999999...; at most 10000 can be planned`},
		{"mug 100 x -85", `"-85" is not more than 0; type a length like 115, 11.5 cm or 4 1/2 in`},
		{"mug 0 x 85", `"0" is not more than 0; type a length like 115, 11.5 cm or 4 1/2 in`},
		{"mug 100 x 85 x 60 x 20", `the size "100 x 85 x 60 x 20" has 4 figures; type height x across, or height x length x width`},
		{"mug 100 ells x 85", `"100 ells" is not a length, which is in mm, cm, m, in or ft; type one like 115, 11.5 cm or 4 1/2 in`},
		{"box 10 cm x 4 in x 100", `the size "10 cm x 4 in x 100" mixes units; type a unit after each figure`},
		{"mug 100 x 85, glazed food", `"glazed food" is not known here; the nearest is "glazed foot"`},
		{"mug 100 x 85, runy", `"runy" is not known here; the nearest is "runny"`},
		{"mug 100 x 85, ownr Ida", `"ownr Ida" is not known here; the nearest is "owner Ida"`},
		{"mug 100 x 85, pretty", `"pretty" is not known here; type a word like runny, must, refire, or owner Ida, clay buff cone 6, since 2026-10-14`},
		{"mug 100 x 85, owner", `"owner" says nothing yet; type one like owner Ida`},
		{"mug 100 x 85, owner Ida, owner Bo", `owner is told twice; tell it once`},
		{"mug 100 x 85, clay buff cone 66", `clay: "cone 66" is not a cone; did you mean cone 06 (998 C), cone 6 (1222 C)? They are different cones`},
		{"mug 100 x 85, since 1 May", `since: "1 May" is not a date; type one like 2026-10-14`},
		{"mug 100 x 85, since 2026-02-30", `since: "2026-02-30" is not a date; type one like 2026-10-14`},
		{"mug 100 x 85, lid off it", `lid: "off it" is not known; type lid on or lid beside`},
		{"mug 100 x 85, profile 0 > 95", `profile: "0" is not an entry of a profile; type height x diameter from the foot up, like 0 x 76 > 95 x 86`},
		{"mug 100 x 85, handle 38", `handle: "38" has no height; type its reach, lowest and highest height, like 38 from 20 to 80`},
		{"mug 100 x 85, as mugg", `as: "mugg" is not known; the nearest is "mug"`},
		{"mug 100 x 85, value -2", `value: "-2" is not a value; type a number of 0 or more`},
		{"", `the row is empty; type one like 12 mugs 100 x 85`},
		{`"" 100 x 85`, `the name "" is empty or begins or ends with a space; type one like "mug"`},
	} {
		_, err := ParseLine(c.line, measure.MM)
		require.Error(t, err, c.line)
		if strings.Contains(c.say, "did you mean") {
			require.Contains(t, err.Error(), `is not a cone`, c.line) // the rest is measure's to say
			continue
		}
		require.Equal(t, c.say, err.Error(), c.line)
	}
}

func TestParseTellsEveryRow(t *testing.T) {
	rows, err := Parse("# October\n\n12 mugs 100 x 85\r\nvase\n6 mugs 90 x 80\n6 bowls 75 x 150, runy\nvase 220 x 110\n", measure.MM)
	require.Len(t, rows, 2)
	var found Complaints
	require.True(t, errors.As(err, &found))
	require.Equal(t, []string{
		`row 4: "vase" has no size; type height x across, like 12 mugs 100 x 85`,
		`row 5: row 3 is called "mug" already; give this one its own name, or make them one row`,
		`row 6: "runy" is not known here; the nearest is "runny"`,
	}, strings.Split(found.Error(), "\n"))
}

func TestParseCapsCounts(t *testing.T) {
	_, err := Parse("9000 mugs 100 x 85\n2000 bowls 75 x 150\n", measure.MM)
	require.EqualError(t, err, "row 2: with this row there are 11000 pots; at most 10000 can be planned")
	_, err = Parse(strings.Repeat(" ", mostBytes+1), measure.MM)
	require.ErrorContains(t, err, "larger than 4 MB")
	var many strings.Builder
	for i := range 2000 {
		many.WriteString(`"a` + strings.Repeat("i", i%50) + string(rune('a'+i/50%26)) + string(rune('a'+i/1300)) + "\" 100 x 85\n")
	}
	rows, err := Parse(many.String(), measure.MM)
	require.ErrorContains(t, err, "row 1001: there are more than 1000 rows; at most 1000 can be planned")
	require.Len(t, rows, 1000)
}

func TestFormatIsHowPeopleType(t *testing.T) {
	runny := mug(12, 100, 85)
	runny.Flags.Runny, runny.Clay = true, layout.Material{Name: "buff stoneware", Cone: "6"}
	for _, c := range []struct {
		w     layout.Ware
		units measure.Units
		want  string
	}{
		{mug(12, 100, 85), measure.MM, "12 mugs 100 x 85"},
		{mug(1, 114.3, 76.2), measure.Inches, "mug 4 1/2 x 3"},
		{mug(1, 100, 76.2), measure.Inches, "mug 100 mm x 3 in"},
		{layout.Ware{Name: "baker", Count: 2, Height: 60, Length: 260, Width: 160}, measure.MM, "2 bakers 60 x 260 x 160"},
		{layout.Ware{Name: "mugs, tall", Count: 2, Height: 60, Across: 70}, measure.MM, `2 "mugs, tall" 60 x 70`},
		{runny, measure.MM, "12 mugs 100 x 85, clay buff stoneware cone 6, runny"},
	} {
		require.Equal(t, c.want, Format(c.w, c.units))
	}
}

// Law: ParseLine(Format(w)) == w.
func TestFormatReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWare(t)
		units := rapid.SampledFrom([]measure.Units{measure.MM, measure.Inches}).Draw(t, "units")
		line := Format(w, units)
		back, err := ParseLine(line, units)
		if err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		if !reflect.DeepEqual(w, back) {
			t.Fatalf("%s:\n%+v\n%+v", line, w, back)
		}
		require.Equal(t, line, Format(back, units))
	})
}

func FuzzShortForm(f *testing.F) {
	f.Add("12 mugs 100 x 85, runny, owner Ida")
	f.Add(`"a ""b""" 4½ x 3 in; clay "c, d" cone 6 # e`)
	f.Add("2 bakers 60 x 260 x 160, handle 38 from 20 to 80 at 180, profile 0 x 1 > 2 x 3")
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := Parse(text, measure.MM)
		if err != nil {
			return
		}
		for _, w := range rows {
			line := Format(w, measure.MM)
			back, err := ParseLine(line, measure.MM)
			require.NoError(t, err, line)
			require.Equal(t, w, back, line)
		}
	})
}

// A file of the repository is read as it is pasted.
func TestSampleList(t *testing.T) {
	text, err := os.ReadFile("testdata/october.txt")
	require.NoError(t, err)
	rows, err := Parse(string(text), measure.MM)
	require.NoError(t, err)
	require.Len(t, rows, 6)
	data, err := os.ReadFile("testdata/october.csv")
	require.NoError(t, err)
	fromCSV, err := ReadCSV("october.csv", data, measure.MM)
	require.NoError(t, err)
	require.Equal(t, rows, fromCSV)
}
