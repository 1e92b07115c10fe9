package session

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestRows(t *testing.T) {
	for _, c := range []struct {
		name, text string
		said       []string
		refused    []int
	}{
		{"short form", "3 cups 80 x 70\n# a word\n\nvase 220 x 110, runny", []string{"3 cups 80 × 70", "1 vase 220 × 110"}, nil},
		{"joins the row that says as much", "4 mugs 95 x 86", []string{"4 mugs 95 × 86, added to 16"}, nil},
		{"another size is another row", "4 mugs 120 x 86", []string{`4 mugs b 120 × 86, since "mug" is another row`}, nil},
		{"twice in one paste", "3 cups 80 x 70\n2 cups 80 x 70", []string{"3 cups 80 × 70", "2 cups 80 × 70, added to 3"}, nil},
		{"tabs without a heading", "4\tcup\t90\t80\nvase\t1\t220\t110\trunny", []string{"4 cups 90 × 80", "1 vase 220 × 110"}, nil},
		{"tabs with a heading", "count\tname\theight\tacross\n4\tcup\t90\t80", []string{"4 cups 90 × 80"}, nil},
		{"semicolons, a bad row between", "count;name;height;across\n4;cup;90;80\nx;jar;110;90\n6;pot;100;90", []string{"4 cups 90 × 80", "6 pots 100 × 90"}, []int{3}},
		{"what is no row", "nonsense\n0 mugs 95 x 86", nil, []int{1, 2}},
		{"more than can be planned", "9999 mugs 95 x 86", nil, []int{1}},
		{"nothing", "", nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := bareSample(t, "studio")
			before := textOf(t, s)
			r := s.Rows(c.text)
			var said []string
			for _, row := range r.Rows {
				said = append(said, row.Said)
			}
			require.Equal(t, c.said, said)
			var refused []int
			for _, f := range r.Refusals {
				refused = append(refused, f.Line)
				require.NotEmpty(t, f.Say)
			}
			require.Equal(t, c.refused, refused)
			require.Equal(t, before, textOf(t, s), "reading changes nothing")
			if len(r.Edits) > 0 {
				_, err := s.Apply(r.Edits, "")
				require.NoError(t, err)
			}
		})
	}
}

// TestCSVComesBack: the exported list pasted into an empty table is the list.
func TestCSVComesBack(t *testing.T) {
	s := bareSample(t, "studio")
	csv, names := s.CSV(), []string{}
	for _, w := range s.State().Ware {
		names = append(names, w.Name)
	}
	for _, n := range names {
		_, err := s.Remove(n)
		require.NoError(t, err)
	}
	r := s.Rows(csv)
	require.Empty(t, r.Refusals)
	_, err := s.Apply(r.Edits, "")
	require.NoError(t, err)
	require.Equal(t, csv, s.CSV())
}

func TestRowFields(t *testing.T) {
	s := sample(t, "studio")
	f := s.State().Ware[0].Fields
	require.Equal(t, "mug", f.Name)
	require.Equal(t, "buff stoneware, cone 6", f.Clay)
	st, err := s.Row("mug", f)
	require.NoError(t, err)
	require.Equal(t, "95 × 86", st.Ware[0].Size, "cells that did not change change nothing")
	f.Name, f.Height, f.Owner = "coffee mug", "100", "Wen"
	set := st.Ware[0].Set
	st, err = s.Row("mug", f)
	require.NoError(t, err)
	require.Equal(t, "coffee mug", st.Ware[0].Name)
	require.Equal(t, set, st.Ware[0].Set, "a renamed row keeps its places")
	require.Equal(t, "rename mugs to coffee mugs", st.Undo)
	require.Equal(t, "100 × 86", st.Ware[0].Size, "the profile grows with the height")
	for _, c := range []struct {
		change func(*Fields)
		want   string
	}{
		{func(f *Fields) { f.Count = "many" }, `the count is "many"`},
		{func(f *Fields) { f.Height = "-3" }, "height: "},
		{func(f *Fields) { f.Across = "x" }, "across: "},
		{func(f *Fields) { f.Since = "last week" }, "write a date like 2026-10-14"},
		{func(f *Fields) { f.Must = "maybe" }, "write must, filler, or nothing"},
		{func(f *Fields) { f.Glaze = "oat cone 66" }, "glaze: "},
		{func(f *Fields) { f.Flags = []string{"sings"} }, `"sings" says nothing about a pot`},
		{func(f *Fields) { f.Name = "tumbler" }, `there is a row "tumbler" already`},
		{func(f *Fields) { f.Stand = "sand" }, "write cookie, stilt, wads, or nothing"},
	} {
		g := st.Ware[0].Fields
		c.change(&g)
		_, err := s.Row("coffee mug", g)
		require.ErrorContains(t, err, c.want)
	}
	_, err = s.Row("nothing", f)
	require.EqualError(t, err, `there is no ware "nothing" on the list`)
	st, err = s.Row("", Fields{Name: "pinch pot", Count: "8", Height: "45", Across: "70"})
	require.NoError(t, err)
	require.Equal(t, 8, st.Ware[len(st.Ware)-1].Count)
}

// TestCountTellsWhoGoes: fewer than are set: those that leave are named.
func TestCountTellsWhoGoes(t *testing.T) {
	s := sample(t, "studio")
	require.Equal(t, []string{"mug 15", "mug 16"}, s.GoneBy("mug", 14))
	st, err := s.Count("mug", 14)
	require.NoError(t, err)
	require.Equal(t, "count 14 mugs; mug 15 and mug 16 leave the kiln", st.Undo)
	require.Equal(t, 89, st.Set)
	st, err = s.Count("mug", 20)
	require.NoError(t, err)
	require.Equal(t, 6, st.Ware[0].Waits)
	require.Equal(t, []string{"mug 15", "mug 16", "mug 17", "mug 18", "mug 19", "mug 20"}, st.Ware[0].WaitIDs)
	_, err = s.Count("mug", 0)
	require.ErrorContains(t, err, "give 1 to 10000")
	st, err = s.Duplicate("mug")
	require.NoError(t, err)
	require.Equal(t, "mug b", st.Ware[len(st.Ware)-1].Name)
	st, err = s.Remove("mug b")
	require.NoError(t, err)
	require.Equal(t, "take mug b off the list", st.Undo)
}

func TestFind(t *testing.T) {
	s := sample(t, "studio")
	for _, c := range []struct {
		text string
		ware string
		pots int
	}{
		{"oat", "mug, tumbler, lidded jar, dinner plate", 42},
		{"Ida 31", "mug", 16},
		{"bottle", "water bottle", 9},
		{"mug 3", "mug", 1},
		{"running ash", "floor vase", 1},
		{"nobody", "", 0},
		{"", "", 0},
	} {
		f := s.Find(c.text)
		require.Equal(t, c.ware, strings.Join(f.Ware, ", "), c.text)
		require.Len(t, f.Pots, c.pots, c.text)
	}
	require.Equal(t, "nothing of that name, glaze, owner or ticket", s.Find("nobody").Says)
}

// TestColours: every pot has one key, every key a mark of its own.
func TestColours(t *testing.T) {
	s := sample(t, "studio")
	for by, pots := range map[string]int{"owner": 91, "glaze": 91, "mass": 91, "finding": len(s.State().Pots)} {
		seen, marks := map[string]bool{}, map[string]bool{}
		for _, k := range s.Colours(by) {
			require.NotEmpty(t, k.Said)
			require.False(t, marks[k.Mark], by)
			marks[k.Mark] = true
			for _, p := range k.Pots {
				require.False(t, seen[p])
				seen[p] = true
			}
		}
		require.Len(t, seen, pots, by)
	}
}

func TestProfileForm(t *testing.T) {
	s := sample(t, "studio")
	f, err := s.Profile("water bottle")
	require.NoError(t, err)
	require.Equal(t, "foot and profile assumed", f.Assumed)
	require.Equal(t, "Needs a level of 239: 227 and 12 above it. Left 1 has 255.", f.Needs)
	n := len(f.Knots)
	f, err = s.Knot(1, 9999, 80.4) // it stays under its neighbour
	require.NoError(t, err)
	require.Equal(t, f.Knots[2].Height-1, f.Knots[1].Height)
	require.Equal(t, 80.0, f.Knots[1].Diameter)
	_, err = s.Knot(n, 1, 1)
	require.ErrorContains(t, err, "the profile has ")
	f, err = s.Measure("height", "300")
	require.NoError(t, err)
	require.False(t, f.Fits)
	require.Equal(t, "Needs a level of 314: 302 and 12 above it. The tallest now has 255.", f.Needs)
	_, err = s.Measure("height", "tall")
	require.ErrorContains(t, err, "height: ")
	st, err := s.Keep()
	require.NoError(t, err)
	require.Equal(t, "draw the profile of water bottle", st.Undo)
	_, err = s.Keep()
	require.EqualError(t, err, "no profile is open")
}

// TestEstimate: a cylinder 100 wide and 100 high with walls and floor of 5 has
// pi (50^2 100 - 45^2 95) mm3 of clay (solid of revolution) and holds
// pi 45^2 95 mm3.
func TestEstimate(t *testing.T) {
	s := sample(t, "studio")
	_, err := s.Row("", Fields{Name: "can", Count: "1", Height: "100", Across: "100", Form: "cylinder"})
	require.NoError(t, err)
	w := *s.Load().WareOf(s.mustFind("can"))
	w.Profile = nil
	w.Wall = 5
	w.Profile = append(w.Profile, s.cylinder(100, 100)...)
	kg, litres := estimate(&w)
	require.InDelta(t, 3.14159265*(50*50*100-45*45*95)*2.2e-6, kg, 1e-6)
	require.InDelta(t, 3.14159265*45*45*95*1e-6, litres, 1e-6)
}

// TestInchesAreShownInHundredths: an inch is 25.4 mm (International Yard and
// Pound, 1959). A row of mm reads well in inches, and a change of another cell
// leaves its lengths as they were, to the bit.
func TestInchesAreShownInHundredths(t *testing.T) {
	s := sample(t, "newcomer")
	_, err := s.SetUnits("in")
	require.NoError(t, err)
	row := s.State().Ware[0]
	require.Equal(t, [2]string{"3.94", "3.35"}, [2]string{row.Fields.Height, row.Fields.Across}, "100 and 85 mm")
	f := row.Fields
	f.Owner = "Ida"
	_, err = s.Row(row.Name, f)
	require.NoError(t, err)
	require.Equal(t, [2]float64{100, 85}, [2]float64{s.Load().Ware[0].Height, s.Load().Ware[0].Across})
	f.Height = "4 1/4"
	_, err = s.Row(row.Name, f)
	require.NoError(t, err)
	require.InDelta(t, 107.95, s.Load().Ware[0].Height, 1e-9)
	require.Equal(t, 85.0, s.Load().Ware[0].Across)
	require.Regexp(t, `^4( 1/4|\.25)$`, s.State().Ware[0].Fields.Height)
}
