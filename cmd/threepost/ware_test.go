package main

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

// begun is a new load with an empty ware list.
func begun(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "load.toml")
	threepost(t, "new", path, "--kiln", "457 x 457", "--cone", "6")
	return path
}

func TestAddTellsWhatItAssumes(t *testing.T) {
	path := begun(t)
	out := threepost(t, "add", path, "12 mugs 100 x 85", "vase 220 x 110, runny, owner Ida, ticket 18", "2 bakers 60 x 260 x 160")
	golden(t, "add.txt", out, path)
	l := parsed(t, path)
	require.Len(t, l.Ware, 3)
	require.Equal(t, "mug", l.Ware[0].Name)
	require.Equal(t, 12, l.Ware[0].Count)
	require.Equal(t, 100.0, l.Ware[0].Height)
	require.True(t, l.Ware[1].Flags.Runny)
	require.Equal(t, "Ida", l.Ware[1].Owner)
}

func TestAddReadsStandardInput(t *testing.T) {
	path := begun(t)
	e := typed("12 mugs 100 x 85\n\n6 bowls 75 x 150\n", "add", path, "-", "--json")
	require.Equal(t, exitFine, e.code, e.errs)
	require.JSONEq(t, `{"rows": 2, "pots": 18, "total": 18}`, e.out)
	require.Len(t, parsed(t, path).Ware, 2)
}

func TestAddTheSameRowAddsToItsCount(t *testing.T) {
	path := begun(t)
	threepost(t, "add", path, "12 mugs 100 x 85")
	require.Contains(t, threepost(t, "add", path, "3 mugs 100 x 85"), "15 pots in the list.")
	l := parsed(t, path)
	require.Len(t, l.Ware, 1)
	require.Equal(t, 15, l.Ware[0].Count)
}

// TestAddNumbersALonePot adds a second vase where the first one, which needed
// no number, is set: it is vase 1 from then on, and stands where it stood.
func TestAddNumbersALonePot(t *testing.T) {
	path := begun(t)
	threepost(t, "add", path, "vase 220 x 110")
	threepost(t, "plan", path, "--work", "2500")
	place := func() (found []layout.Placement) {
		for _, tower := range parsed(t, path).Towers {
			for _, v := range tower.Levels {
				found = append(found, v.Set...)
			}
		}
		return found
	}
	before := place()
	require.Len(t, before, 1)
	threepost(t, "add", path, "vase 220 x 110")
	after := place()
	require.Len(t, after, 1)
	require.Equal(t, layout.Pot{Ware: "vase", Number: 1}, after[0].Pot)
	require.Equal(t, before[0].At, after[0].At)
	require.Contains(t, threepost(t, "check", path), "1 of 2 pots set")
}

func TestAddRefusesAndWritesNothing(t *testing.T) {
	path := sample(t, "studio")
	keep := []string{path}
	row := parsed(t, path).Ware[0].Name
	refused(t, exitUnreadable, "there is a row", keep, "add", path, row+" 33 x 44")
	refused(t, exitUnreadable, "is a cone pack already", keep, "add", path, `cones at 5 60 x 50`)
	refused(t, exitUnreadable, "", keep, "add", path, "12 tumblers")
	refused(t, exitUnreadable, "", keep, "add", path, "12 tumblers 100 x NaN")
	refused(t, exitUnreadable, "", keep, "add", path, "1000000000 tumblers 100 x 85")
	refused(t, exitUnreadable, "", keep, "add", path, "3 cups 70 x 60", "oops")
	// Each row is small enough; together they are more than a load holds.
	many := []string{"add", path}
	for _, name := range strings.Split("abcdefghijklmnopqrst", "") {
		many = append(many, "1000 cup "+name+" 70 x 60")
	}
	refused(t, exitUnreadable, "pots", keep, many...)
}

// TestCSVRoundTrip exports every sample and imports it into an empty load: the
// list that comes out again is the same, to the byte.
func TestCSVRoundTrip(t *testing.T) {
	for _, name := range []string{"newcomer", "small-round", "studio", "oval", "front-loader", "bisque"} {
		t.Run(name, func(t *testing.T) {
			from := sample(t, name)
			list := filepath.Join(t.TempDir(), "pots.csv")
			require.Contains(t, threepost(t, "export", from, "--out", list), "Written to "+list)
			require.Equal(t, read(t, list), threepost(t, "export", from))
			into := begun(t)
			threepost(t, "import", into, list)
			require.Equal(t, read(t, list), threepost(t, "export", into))
			was, is := parsed(t, from).Ware, parsed(t, into).Ware
			require.Len(t, is, len(was))
			for i := range was {
				require.Equal(t, was[i].Name, is[i].Name)
				require.Equal(t, was[i].Count, is[i].Count)
				require.InDelta(t, was[i].Height, is[i].Height, 1e-6)
				require.Equal(t, was[i].Flags, is[i].Flags)
			}
		})
	}
}

func TestImportReadsListsOfOthers(t *testing.T) {
	path := begun(t)
	a, b := filepath.Join(t.TempDir(), "a.csv"), filepath.Join(t.TempDir(), "b.csv")
	write(t, a, "Across;NAME;height;Count\n85,5;mug;100;12\n")
	write(t, b, "name\tcount\theight\tacross\nbowl\t6\t75\t150\n")
	require.JSONEq(t, `{"rows": 2, "pots": 18, "total": 18}`, threepost(t, "import", path, a, b, "--json"))
	l := parsed(t, path)
	require.Equal(t, 85.5, l.Ware[0].Across)
	require.Equal(t, 150.0, l.Ware[1].Across)
}

func TestImportRefusesAndWritesNothing(t *testing.T) {
	path := begun(t)
	list := filepath.Join(t.TempDir(), "pots.csv")
	write(t, list, "name,count,height,across\nmug,12,100,85\nbowl,6,tall,150\n")
	refused(t, exitUnreadable, "pots.csv", []string{path, list}, "import", path, list)
	refused(t, exitUnreadable, "3", []string{path, list}, "import", path, list) // the row's number
	refused(t, exitUnreadable, "is not there", []string{path}, "import", path, list+".gone")
	write(t, list, "name,count,height,across\n")
	require.NotEqual(t, exitFine, typed("", "import", path, list).code, "a list of no rows")
}
