package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// few is a table of pots for two cones and a raw one, and a kiln for few.
const few = `threepost = 1
title = "Table"
units = "mm"
firing = { stage = "glaze", cone = "6", date = "2026-11-10" }

[kiln]
name = "Heron"
chamber = { shape = "round", across = 400, height = 300 }
opens = "top"

[furniture]
shelves = [{ name = "full", shape = "round", across = 340, thick = 14, count = 2 }]
posts = [
  { height = 25, section = "square 30", count = 3 },
  { height = 125, section = "square 30", count = 3 },
]

# Ida's
[[ware]]
name = "mug"
count = 12
height = 90
across = 80
clay = { cone = "6" }
glaze = { name = "oat", cone = "6" }  # two coats

[[ware]]
name = "dish"
count = 2
height = 40
across = 150
clay = { cone = "04" }
glaze = { name = "honey", cone = "04" }  # by brush

[[ware]]
name = "tower"
height = 400
across = 80
clay = { cone = "6" }
glaze = { name = "oat", cone = "6" }
`

func fewTable(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "few.toml")
	write(t, path, few)
	return path
}

func TestFiringsTells(t *testing.T) {
	path := fewTable(t)
	out := threepost(t, "firings", path, "--work", "3000")
	golden(t, "firings.txt", out, path)
	plainWords(t, out)
	require.Equal(t, few, read(t, path), "the load stays as it is")
	require.Equal(t, out, threepost(t, "firings", path, "--work", "3000"), "the same seed and work")
}

func TestFiringsWritesLoads(t *testing.T) {
	path := fewTable(t)
	folder := filepath.Join(filepath.Dir(path), "november")
	args := []string{"firings", path, "--work", "3000", "--write", folder, "--json"}
	var a splitJSON
	require.NoError(t, json.Unmarshal([]byte(threepost(t, args...)), &a))
	require.Equal(t, 15, a.Of)
	require.Equal(t, 14, a.Set)
	require.Equal(t, filepath.Join(folder, "waits.toml"), a.Written)
	all := ""
	for _, f := range a.Firings {
		out := threepost(t, "check", f.Written)
		require.Contains(t, out, "No problem")
		require.NotContains(t, out, "wait", "what is in the firing is set in it")
		n := 0
		for _, w := range parsed(t, f.Written).Ware {
			require.Equal(t, f.Ware[w.Name], w.Count)
			n += w.Count
		}
		require.Equal(t, f.Set, n)
		all += read(t, f.Written)
		threepost(t, "sheet", f.Written, "--out", filepath.Join(t.TempDir(), "f.pdf"))
	}
	require.Contains(t, all, "# Ida's\n[[ware]]\nname = \"mug\"\n")
	require.Contains(t, all, `glaze = { name = "honey", cone = "04" }  # by brush`)
	rest := parsed(t, a.Written)
	require.Len(t, rest.Ware, 1)
	require.Equal(t, "tower", rest.Ware[0].Name)
	require.Equal(t, few, read(t, path))

	// Nothing is written over without being told.
	first := a.Firings[0].Written
	write(t, first, "# mine\n"+read(t, first))
	refused(t, exitUnreadable, first+" is there already; choose another folder, or say --replace", []string{first}, args...)
	write(t, filepath.Join(folder, "firing-7.toml"), "old")
	out := threepost(t, "firings", path, "--work", "3000", "--write", folder, "--replace")
	require.NotContains(t, read(t, first), "# mine")
	require.Contains(t, out, "firing-7.toml is of an earlier split and was left as it is.")
	require.Equal(t, "old", read(t, filepath.Join(folder, "firing-7.toml")))
}

// TestFiringsOfTwoKilns: rows of one name in two loads are different rows, and
// each goes with its own comments.
func TestFiringsOfTwoKilns(t *testing.T) {
	path := fewTable(t)
	other := filepath.Join(filepath.Dir(path), "wren.toml")
	write(t, other, strings.NewReplacer("count = 12", "count = 3", "Heron", "Wren", "# Ida's", "# Runa's", "  # two coats", "").Replace(few))
	folder := filepath.Join(filepath.Dir(path), "both")
	out := threepost(t, "firings", path, other, "--work", "3000", "--together", "--share-furniture", "--write", folder)
	require.Contains(t, out, "Round 1, ")
	require.Contains(t, out, `"mug" of Wren is called "wren mug": another load has that name.`)
	names, err := filepath.Glob(filepath.Join(folder, "firing-*.toml"))
	require.NoError(t, err)
	mugs, wrens := 0, 0
	for _, name := range names {
		require.Contains(t, threepost(t, "check", name), "No problem")
		for _, w := range parsed(t, name).Ware {
			switch w.Name {
			case "mug":
				mugs += w.Count
				require.Contains(t, read(t, name), "# Ida's\n[[ware]]\nname = \"mug\"\n")
			case "wren mug":
				wrens += w.Count
				require.Contains(t, read(t, name), "# Runa's\n[[ware]]\nname = \"wren mug\"\n")
			}
		}
	}
	require.Equal(t, []int{12, 3}, []int{mugs, wrens})
}

func TestFiringsThatCannotBe(t *testing.T) {
	path := fewTable(t)
	files := []string{path}
	refused(t, exitUsage, "firings takes a load or more; write threepost firings table.toml", nil, "firings")
	refused(t, exitUsage, "--up-to: ", files, "firings", path, "--up-to", "66")
	refused(t, exitUsage, "is named twice; its pots are on the table once", files, "firings", path, path)
	refused(t, exitUsage, "--work is 1 to 1000000000, --most 1 to 60", files, "firings", path, "--work", "0")
	refused(t, exitUsage, "--work is 1 to 1000000000, --most 1 to 60", files, "firings", path, "--most", "61")
	refused(t, exitUnreadable, "is not there", files, "firings", filepath.Join(t.TempDir(), "none.toml"))
	refused(t, exitUnreadable, "cannot be made; check the name", files, "firings", path, "--write", path+"/x")

	odd := filepath.Join(t.TempDir(), "odd.toml")
	write(t, odd, strings.Replace(few, `cone = "04" }  # by`, `cone = "44" }  # by`, 1))
	refused(t, exitUnreadable, "is not a cone", []string{odd}, "firings", odd)
	write(t, odd, strings.Replace(few, `firing = {`, `# firing = {`, 1))
	refused(t, exitUnreadable, "firing", []string{odd}, "firings", odd)
}

// TestFiringsTooHot: a kiln goes as hot as its load says unless told otherwise.
func TestFiringsTooHot(t *testing.T) {
	path := fewTable(t)
	write(t, path, strings.Replace(few, `cone = "6", date`, `cone = "04", date`, 1))
	out := threepost(t, "firings", path, "--work", "3000")
	require.Contains(t, out, "They ask for glaze cone 6 (1222 C); no load here is fired\n          so hot.")
	require.Contains(t, out, "A kiln goes as hot as its load says; --up-to tells when it goes hotter.")
	out = threepost(t, "firings", path, "--work", "3000", "--up-to", "6")
	require.NotContains(t, out, "They ask for")
}

// TestFiringsOfTheTable plans the sample: no problem in any firing.
func TestFiringsOfTheTable(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "out")
	threepost(t, "firings", "../../testdata/firings/table.toml", "--work", "6000", "--write", folder)
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Greater(t, len(entries), 3)
	for _, e := range entries {
		require.Contains(t, threepost(t, "check", filepath.Join(folder, e.Name())), "No problem")
	}
}
