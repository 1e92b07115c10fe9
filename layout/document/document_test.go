package document

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
)

func example(t testing.TB) []byte {
	data, err := os.ReadFile("testdata/example.toml")
	require.NoError(t, err)
	return data
}

// The example of the file format says what this test expects.
func TestParseReadsTheExample(t *testing.T) {
	l, err := Parse("example.toml", example(t))
	require.NoError(t, err)
	require.Equal(t, layout.Firing{Stage: layout.Glaze, Cone: "6"}, l.Firing)
	require.Equal(t, layout.Kiln{
		Chamber: layout.Shape{Kind: layout.Sided, Sides: 12, Across: 712}, Height: 686, Opens: layout.Top,
		Probes:   []layout.Probe{{At: 315, Height: 343, Reach: 45, Diameter: 12}},
		Spyholes: []layout.Spyhole{{At: 180, Height: 260}},
	}, l.Kiln)
	require.Equal(t, layout.ShelfKind{Name: "half", Shape: layout.Shape{Kind: layout.HalfRound, Across: 660, Depth: 327}, Thick: 19, Mass: 6.9, Count: 6}, l.Furniture.Shelves[1])
	require.Equal(t, layout.PostKind{Height: 5, Section: layout.Section{Kind: layout.SquareSection, Width: 38}, Count: 12, Spacer: true}, l.Furniture.Posts[0])
	require.Equal(t, layout.Ware{
		Name: "mug", Count: 24, Height: 95, Across: 86, Profile: []layout.Knot{{Height: 0, Diameter: 76}, {Height: 95, Diameter: 86}},
		Handles: []layout.Handle{{Reach: 38, From: 20, To: 80, Thick: 14}}, Clay: layout.Material{Name: "buff stoneware", Cone: "6"},
	}, l.Ware[0])
	require.Equal(t, layout.Tower{
		Name: "left side", On: []layout.Support{{Tower: "base", Level: 1}},
		Lines: []layout.Line{{At: plane.Vec{-28, 270}}, {At: plane.Vec{-28, -270}}, {At: plane.Vec{-290, 0}}},
		Levels: []layout.Level{{
			Shelves: []layout.ShelfAt{{Kind: "half", At: plane.Vec{-3, 0}, Turn: 270}},
			Posts:   []layout.MakeUp{{{Height: 150}, {Height: 5}}},
			Set:     []layout.Placement{{Pot: layout.Pot{Ware: "mug", Number: 1}, At: plane.Vec{-205, 34.5}, Turn: 110}},
		}},
	}, l.Towers[1])
}

// Law: Parse(Format(l)) == l, and formatting that gives the same bytes.
func TestFormatReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLoad(t)
		data := Format(l)
		back, err := Parse("drawn.toml", data)
		if err != nil {
			t.Fatalf("%s\n%v", data, err)
		}
		if !reflect.DeepEqual(l, back) {
			t.Fatalf("%s\n%+v\n%+v", data, l, back)
		}
		require.Equal(t, string(data), string(Format(back)))
	})
}

// Lengths in inches are read correctly rounded and written so that they read
// back the same: 4 1/2 in are 114.3 mm by the agreement of 1959.
func TestInchLoads(t *testing.T) {
	text := strings.Replace(minimal, `"mm"`, `"in"`, 1)
	text = strings.Replace(text, "across = 457, height = 457", `across = 18, height = "18 1/2"`, 1) +
		"\n[[ware]]\nname = \"mug\"\nheight = \"4 1/2 in\"\nacross = \"8.5 cm\"\n"
	l, err := Parse("in.toml", []byte(text))
	require.NoError(t, err)
	require.Equal(t, 114.3, l.Ware[0].Height)
	require.Equal(t, 85.0, l.Ware[0].Across)
	require.Equal(t, 457.2, l.Kiln.Chamber.Across)
	out := string(Format(l))
	require.Contains(t, out, "height = \"4 1/2\"\n")
	require.Contains(t, out, "across = \"85 mm\"\n")
	require.Contains(t, out, `chamber = { shape = "round", across = 18, height = "18 1/2" }`)
}

// The ways to write one thing are read as the same load.
func TestParseReadsWhatMeansTheSame(t *testing.T) {
	want, err := Parse("", []byte(minimal))
	require.NoError(t, err)
	for name, text := range map[string]string{
		"dots":             strings.Replace(minimal, `firing = { stage = "glaze", cone = "6" }`, "firing.stage = \"glaze\"\nfiring.cone = \"cone 6\"", 1),
		"heading":          strings.Replace(minimal, `chamber = {`, "[kiln.chamber]\n#", 1) + "\nacross = \"45.7 cm\"\nheight = 457.0\n",
		"shape told":       minimal + `opens = "top"`,
		"carriage returns": strings.ReplaceAll(minimal, "\n", "\r\n"),
		"byte order mark":  "\ufeff" + minimal,
		"figures":          strings.Replace(minimal, "across = 457, height = 457", "across = 0x1C9, height = 4.57e2", 1),
	} {
		if name == "heading" {
			text = strings.Replace(text, `shape = "round", `, "", 1)
		}
		l, err := Parse("", []byte(text))
		require.NoError(t, err, name)
		require.Equal(t, want, l, name)
	}
}

// minimal is the least that can be planned for.
const minimal = `threepost = 1
units = "mm"
firing = { stage = "glaze", cone = "6" }

[kiln]
chamber = { shape = "round", across = 457, height = 457 }
`

// Every sample of the repository reads, and its canonical form stays as it is.
func TestSamplesHaveACanonicalForm(t *testing.T) {
	files, err := filepath.Glob("../../testdata/loads/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range append(files, "testdata/example.toml", "testdata/versions/1.toml") {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		l, err := Parse(file, data)
		require.NoError(t, err)
		canonical := Format(l)
		back, err := Parse(file, canonical)
		require.NoError(t, err)
		require.Equal(t, l, back, file)
		require.Equal(t, string(canonical), string(Format(back)), file)
		once, err := Update(data, l)
		require.NoError(t, err)
		twice, err := Update(once, l)
		require.NoError(t, err)
		require.Equal(t, string(once), string(twice), file)
		require.Equal(t, commentsOf(data), commentsOf(once), file)
	}
}

// Each version that there has been has a file that reads.
func TestVersionsRead(t *testing.T) {
	for v := 1; v <= layout.FormatVersion; v++ {
		file := fmt.Sprintf("testdata/versions/%d.toml", v)
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		l, err := Parse(file, data)
		require.NoError(t, err)
		require.Contains(t, string(Format(l)), fmt.Sprintf("threepost = %d\n", layout.FormatVersion))
	}
	require.Len(t, migrations(), layout.FormatVersion-1)
}

func TestParseCapsSize(t *testing.T) {
	_, err := Parse("big.toml", make([]byte, MostBytes+1))
	require.EqualError(t, err, "big.toml: the file is larger than 4 MB; a load is far smaller, so it is another kind of file")
	rows := strings.Repeat("[[ware]]\nname = \"a\"\nheight = 1\nacross = 1\n", MostRows+1)
	_, err = Parse("rows.toml", []byte(minimal+rows))
	require.EqualError(t, err, "rows.toml:4007:1: this is row 1001 of ware; at most 1000 can be read")
	deep := minimal + "title = " + strings.Repeat("[", 100000)
	_, err = Parse("deep.toml", []byte(deep))
	require.ErrorContains(t, err, "too deep")
}

func TestParseTellsEverythingByPlace(t *testing.T) {
	text := strings.Replace(minimal, "units", "unit", 1) + "opens = \"topp\"\nwall = -3\n\n[[ware]]\nname = \"mug\"\nheight = nan\nacross = 85\n[[ware]]\nname = \"mug\"\nheight = 90\nacross = true\n"
	_, err := Parse("many.toml", []byte(text))
	var found Complaints
	require.ErrorAs(t, err, &found)
	require.Equal(t, strings.Split(err.Error(), "\n"), []string{
		`many.toml:2:1: "unit" is not a key of a load; the nearest is "units"`,
		`many.toml:7:9: opens: "topp" is not a word for it; the nearest is "top"`,
		`many.toml:8:8: wall is -3; it is more than 0`,
		`many.toml:12:10: height is nan, which is not a measure; write a number like 115`,
		`many.toml:15:8: two rows of ware are called "mug"; give each its own name, or make them one row`,
		`many.toml:17:10: across is true here; write a number`,
	})
	require.Equal(t, Complaint{"many.toml", 8, 8, "wall is -3; it is more than 0"}, found[2])
}

func TestParseTellsAtMostFifty(t *testing.T) {
	var keys strings.Builder
	for i := range 80 {
		fmt.Fprintf(&keys, "qq%d = 1\n", i)
	}
	_, err := Parse("", []byte(minimal+keys.String()))
	var found Complaints
	require.ErrorAs(t, err, &found)
	require.Len(t, found, 51)
	require.Equal(t, "30 more like these are not listed; mend the first ones and read the file again", found[50].String())
}

// Columns count characters, not bytes: 31 characters, 33 bytes.
func TestColumnsCountCharacters(t *testing.T) {
	_, err := Parse("c.toml", []byte(strings.Replace(minimal, `{ stage`, `{ programme = "été", stge`, 1)))
	require.ErrorContains(t, err, `c.toml:3:31: "stge" is not a key of firing; the nearest is "stage"`)
}

func TestNearest(t *testing.T) {
	known := []string{"height", "across", "fume-sensitive", "pot to pot"}
	for typed, want := range map[string]string{
		"heigth": "height", "hight": "height", "Height": "height", "acros": "across", "axross": "across",
		"fume sensitive": "fume-sensitive", "pot_to_pot": "pot to pot", "xyzzy": "", "": "", "a": "",
		strings.Repeat("é", 500): "",
	} {
		got, ok := Nearest(typed, known)
		require.Equal(t, want, got, typed)
		require.Equal(t, want != "", ok, typed)
	}
}

func TestIsDate(t *testing.T) {
	for date, want := range map[string]bool{
		"2026-10-14": true, "2024-02-29": true, "2000-02-29": true, "2026-02-29": false, "1900-02-29": false, "2026-04-31": false,
		"2026-13-01": false, "2026-00-10": false, "2026-1-01": false, "14.10.2026": false, "+026-10-14": false, "": false,
	} {
		require.Equal(t, want, IsDate(date), date)
	}
}

// aLoad is a load of 250 pots on four levels.
func aLoad(t testing.TB) *layout.Load {
	l, err := Parse("", example(t))
	require.NoError(t, err)
	l.Ware[0].Count = 250
	level := &l.Towers[1].Levels[0]
	level.Set = nil
	for i := range 250 {
		level.Set = append(level.Set, layout.Placement{Pot: layout.Pot{Ware: "mug", Number: i + 1}, At: plane.Vec{float64(i) - 100.5, 34.5}, Turn: float64(i)})
	}
	return l
}

func BenchmarkParse250Pots(b *testing.B) {
	data := Format(aLoad(b))
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse("", data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkUpdate250Pots(b *testing.B) {
	l := aLoad(b)
	data := append([]byte("# by hand\n"), Format(l)...)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Update(data, l); err != nil {
			b.Fatal(err)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add(example(f))
	f.Add([]byte(minimal))
	f.Add([]byte(commented))
	files, err := filepath.Glob("../../testdata/*/*.toml")
	require.NoError(f, err)
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(f, err)
		if len(data) < 4000 {
			f.Add(data)
		}
	}
	f.Add([]byte("threepost = 1\nfiring.stage = \"glaze\"\nfiring.cone = \"6\"\n[kiln.chamber]\nsides = 8\nacross_flats = \"18 in\"\nheight = 1_0e1 # x\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := Parse("f.toml", data)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		once := Format(l)
		back, err := Parse("f.toml", once)
		require.NoError(t, err, string(once))
		require.Equal(t, l, back, string(once))
		require.Equal(t, string(once), string(Format(back)))
		kept, err := Update(data, l)
		require.NoError(t, err)
		require.Equal(t, commentsOf(data), commentsOf(kept), string(kept))
		again, err := Update(kept, l)
		require.NoError(t, err)
		require.Equal(t, string(kept), string(again))
	})
}

// A bare number of mm takes a short way that gives what the long one gives.
func TestMillimetresAreReadAsMeasureReadsThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(
			rapid.StringMatching(`-?(0|[1-9][0-9]{0,6})(\.[0-9]{1,12})?`),
			rapid.SampledFrom([]string{"0.0000009", "0.000001", "-0.0", "100000", "100000.1", "1e5"}),
		).Draw(t, "figure")
		n := &node{kind: floatKind, text: text}
		quick, ok := (&reader{tree: plant("", nil)}).millimetres("x", n, anySign)
		want, err := measure.ParseLength(text, measure.MM)
		if text == "1e5" { // TOML alone has exponents
			want, err = 1e5, nil
		}
		require.Equal(t, err == nil, ok, text)
		if ok {
			require.Equal(t, want, quick, text)
		}
	})
}
