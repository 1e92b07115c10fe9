package warelist

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
	"threepost/layout/measure"
)

func TestCSVReadsWhatSpreadsheetsWrite(t *testing.T) {
	want := []layout.Ware{mug(12, 100, 85), {Name: "bowl", Count: 6, Height: 75.5, Across: 150}}
	for name, text := range map[string]string{
		"commas":            "count,name,height,across\n12,mug,100,85\n6,bowl,75.5,150\n",
		"any order":         "across,height,count,name\n85,100,12,mug\n150,75.5,6,bowl\n",
		"any case":          "COUNT,Name,HeIGHT,Across\n12,mug,100,85\n6,bowl,75.5,150\n",
		"other words":       "Qty,Pot,High,Diameter\n12,mug,100,85\n6,bowl,75.5,150\n",
		"underscores":       "how_many,ware,h,dia\n12,mug,100,85\n6,bowl,75.5,150\n",
		"semicolons":        "count;name;height;across\n12;mug;100;85\n6;bowl;75,5;150\n",
		"tabs":              "count\tname\theight\tacross\n12\tmug\t100\t85\n6\tbowl\t75,5\t150\n",
		"quoted":            "\"count\",\"name\",\"height\",\"across\"\n\"12\",\"mug\",\"100\",\"85\"\n\"6\",\"bowl\",\"75,5\",\"150\"\n",
		"byte order mark":   "\ufeffcount,name,height,across\n12,mug,100,85\n6,bowl,75.5,150\n",
		"sep line":          "sep=;\r\ncount;name;height;across\r\n12;mug;100;85\r\n6;bowl;75,5;150\r\n",
		"carriage returns":  "count,name,height,across\r\n12,mug,100,85\r\n6,bowl,75.5,150\r\n",
		"units in headings": "count,name,height (cm),across in mm\n12,mug,10,85\n6,bowl,7.55,150\n",
		"units in cells":    "count,name,height,across\n12,mug,10 cm,85 mm\n6,bowl,75.5,15 cm\n",
		"empty rows":        "\ncount,name,height,across\n\n12,mug,100,85\n,,,\n6,bowl,75.5,150,,\n",
		"notes":             "count,name,height,across,notes\n12,mug,100,85,blue\n6,bowl,75.5,150,\n",
		"spaces":            " count , name , height , across \n 12 , mug , 100 , 85 \n 6 , bowl , 75.5 , 150 \n",
	} {
		got, err := ReadCSV("pots.csv", []byte(text), measure.MM)
		require.NoError(t, err, name)
		require.Equal(t, want, got, name)
	}
}

// 4.5 in are 114.3 mm: the inch is 25.4 mm by the agreement of 1959.
func TestCSVReadsInches(t *testing.T) {
	for _, text := range []string{
		"name,height,across\nmug,4 1/2,3\n",
		"name,height (in),across (in)\nmug,4.5,3\n",
		"name,height (mm),across\nmug,114.3,3\n",
		"name,height (mm),across\nmug,\"4.5\"\"\",3 in\n",
	} {
		got, err := ReadCSV("", []byte(text), measure.Inches)
		require.NoError(t, err, text)
		require.Equal(t, []layout.Ware{mug(1, 114.3, 76.2)}, got, text)
	}
}

func TestCSVTellsTheRow(t *testing.T) {
	const head = "count,name,height,across,owner\n"
	for _, c := range []struct{ text, say string }{
		{"", "pots.csv: row 1: the file is empty; its first row names the columns: count, name, height, across"},
		{"count,name,heigth,across\n", `pots.csv: row 1: "heigth" is not a column here; the nearest is "height"`},
		{"count,name,height,across,price\n", `pots.csv: row 1: "price" is not a column here; the nearest is "piece"`},
		{"count,name,height,across,shop of origin\n", `pots.csv: row 1: "shop of origin" is not a column here; a column of your own is left alone when it is called note`},
		{"count,name,high,height,across\n", "pots.csv: row 1: two columns mean height; keep one"},
		{"count,name,across\n", "pots.csv: row 1: there is no column height; the first row names the columns: count, name, height, across"},
		{"count,name,height,length\n", "pots.csv: row 1: there is no column across; the first row names the columns: count, name, height, across"},
		{head + "\n12,mug,100,85,Ida\nx,cup,90,80\n", `pots.csv: row 4: count: the count is "x"; type a whole number, like 12`},
		{head + "1000000000,mug,100,85\n", "pots.csv: row 2: count: the count is 1000000000; at most 10000 can be planned"},
		{head + "12,mug,-100,85\n", `pots.csv: row 2: height: "-100" is not more than 0; type a length like 115, 11.5 cm or 4 1/2 in`},
		{head + "12,mug,NaN,85\n", `pots.csv: row 2: height: "NaN" is not a length; type one like 115, 11.5 cm or 4 1/2 in`},
		{head + "12,,100,85\n", "pots.csv: row 2: there is no name; type one like mug"},
		{head + "12,mug,,85\n", `pots.csv: row 2: "mug" has no height; type one like 100`},
		{head + "12,mug,100,\n", `pots.csv: row 2: "mug" has no width; type across, like 85, or length and width`},
		{"name,height,across,length,width\nmug,1,2,3,4\n", `pots.csv: row 2: "mug" has across as well as length and width; round ware has across, oblong ware the other two`},
		{head + "12,mug,100,85,Ida,9\n", `pots.csv: row 2: "9" stands in column 6, which has no heading; take it out or name the column`},
		{head + "12,mug,100,85,\"a\nb\"\n", "pots.csv: row 2: owner: it holds a line break or another control character; type it on one line"},
		{head + "12,mug,100,85\n1,mug,90,80\n", `pots.csv: row 3: row 2 is called "mug" already; give this one its own name, or make them one row`},
	} {
		_, err := ReadCSV("pots.csv", []byte(c.text), measure.MM)
		require.EqualError(t, err, c.say, c.text)
	}
}

func TestCSVTellsAllRowsAndKeepsTheOthers(t *testing.T) {
	rows, err := ReadCSV("", []byte("name,height,across\nmug,x,85\nbowl,75,150\nvase,220,y\n"), measure.MM)
	var found Complaints
	require.True(t, errors.As(err, &found))
	require.Equal(t, []int{2, 4}, []int{found[0].Row, found[1].Row})
	require.Len(t, rows, 1)
}

// A spreadsheet takes a cell that begins with = + - or @ for a formula (OWASP,
// "CSV Injection"); an apostrophe in front keeps it a text.
func TestCSVKeepsTextsFromBeingFormulas(t *testing.T) {
	for _, name := range []string{"=SUM(A1:A9)", "+1", "-1", "@cmd", "'=x", "''-", "'tis", "a=b"} {
		l := &layout.Load{Ware: []layout.Ware{{Name: name, Count: 1, Height: 100, Across: 85, Owner: name}}}
		data := WriteCSV(l)
		cells := strings.Split(strings.Split(string(data), "\n")[1], ",")
		require.NotContains(t, "=+-@", cells[1][:1], name)
		back, err := ReadCSV("", data, measure.MM)
		require.NoError(t, err)
		require.Equal(t, l.Ware, back)
	}
}

// Law: ReadCSV(WriteCSV(rows)) == rows, and writing that gives the same bytes.
func TestCSVReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := &layout.Load{Units: rapid.SampledFrom([]measure.Units{measure.MM, measure.Inches}).Draw(t, "units")}
		seen := map[string]bool{}
		for i := rapid.IntRange(0, 4).Draw(t, "rows"); i > 0; i-- {
			w := drawWare(t)
			if !seen[w.Name] {
				l.Ware = append(l.Ware, w)
			}
			seen[w.Name] = true
		}
		data := WriteCSV(l)
		back, err := ReadCSV("", data, l.Units)
		if err != nil {
			t.Fatalf("%s\n%v", data, err)
		}
		if !reflect.DeepEqual(l.Ware, back) {
			t.Fatalf("%s\n%+v\n%+v", data, l.Ware, back)
		}
		require.Equal(t, string(data), string(WriteCSV(&layout.Load{Units: l.Units, Ware: back})))
	})
}

// Every column can be read and written, and no heading means two columns.
func TestEveryColumnHasItsOwnHeadings(t *testing.T) {
	seen := map[string]string{}
	for _, c := range columns() {
		for _, h := range append([]string{c.name}, c.also...) {
			require.Equal(t, h, plainHeading(h))
			require.Empty(t, seen[h], "%s means %s and %s", h, seen[h], c.name)
			seen[h] = c.name
		}
	}
	for _, w := range append(tagWords(), loneWords()...) {
		require.NotNil(t, columnNamed(columns(), w.column), w.word)
	}
}

func FuzzCSV(f *testing.F) {
	f.Add([]byte("count,name,height,across\n12,mug,100,85\n"))
	f.Add([]byte("\ufeffsep=;\nName;Height (in);Across;Clay;Flags\n'=a;4 1/2;8,5;buff cone 6;runny + refire\n"))
	f.Add([]byte("name\theight\tlength\twidth\thandles\na\t1\t2\t3\t38 from 20 to 80 | 9 from 1 to 2 at 180\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := ReadCSV("f", data, measure.MM)
		if err != nil {
			return
		}
		l := &layout.Load{Ware: rows}
		once := WriteCSV(l)
		back, err := ReadCSV("f", once, measure.MM)
		require.NoError(t, err, string(once))
		require.Equal(t, rows, back, string(once))
		require.Equal(t, string(once), string(WriteCSV(&layout.Load{Ware: back})))
	})
}

func BenchmarkReadCSV(b *testing.B) {
	l := &layout.Load{}
	for i := range 250 {
		l.Ware = append(l.Ware, layout.Ware{Name: "pot " + string(rune('a'+i%26)) + string(rune('a'+i/26)), Count: 1, Height: 100, Across: 85})
	}
	data := WriteCSV(l)
	for b.Loop() {
		if _, err := ReadCSV("", data, measure.MM); err != nil {
			b.Fatal(err)
		}
	}
}
