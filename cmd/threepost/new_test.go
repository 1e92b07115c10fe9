package main

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/begin"
	"threepost/layout/measure"
)

func TestNewAssumesAndTells(t *testing.T) {
	path := filepath.Join(t.TempDir(), "october-glaze.toml")
	out := threepost(t, "new", path, "--kiln", "457 x 457", "--cone", "6")
	golden(t, "new.txt", out, path)
	golden(t, "new.toml", read(t, path), path)
	l := parsed(t, path)
	require.Equal(t, "October glaze", l.Title)
	require.Equal(t, layout.Top, l.Kiln.Opens)
	require.Contains(t, threepost(t, "check", path), "No problem. 0 of 0 pots set")
}

func TestNewTakesEveryFlag(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.toml")
	threepost(t, "new", path, "--kiln", "rectangle 520 x 550 x 710", "--cone", "04", "--stage", "bisque", "--front", "--title", "First of May",
		"--shelves", "1 round 410 x 16, 6 half round 410 x 16; 4 rectangle 460 x 500 x 18, 2 rectangle 300 x 200 x 15, 1 oval 500 x 400 x 19, 2 half oval 500 x 200 x 19",
		"--posts", "6 of 13, 25, 50; 12 spacers of 5")
	l := parsed(t, path)
	require.Equal(t, "First of May", l.Title)
	require.Equal(t, layout.Kiln{Chamber: layout.Shape{Kind: layout.Rectangle, Width: 520, Depth: 550}, Height: 710, Opens: layout.Front}, l.Kiln)
	require.Equal(t, layout.Stage("bisque"), l.Firing.Stage)
	require.Equal(t, "04", string(l.Firing.Cone))
	var names []string
	for _, s := range l.Furniture.Shelves {
		names = append(names, s.Name)
	}
	require.Equal(t, []string{"full", "half", "slab", "slab 2", "full 2", "half 2"}, names)
	require.Equal(t, 202.0, l.Furniture.Shelves[1].Shape.Depth, "half of 410 less the saw's cut of 3, common practice")
	require.Equal(t, 460.0, l.Furniture.Shelves[2].Shape.Width)
	require.Len(t, l.Furniture.Posts, 4)
	var spacers int
	for _, p := range l.Furniture.Posts {
		if p.Spacer {
			spacers++
			require.Equal(t, 5.0, p.Height)
			require.Equal(t, 12, p.Count)
		}
	}
	require.Equal(t, 1, spacers)
}

// TestNewKilns reads each form of a chamber. 1 in is 25.4 mm exactly
// (international yard and pound agreement, 1959).
func TestNewKilns(t *testing.T) {
	for text, want := range map[string]layout.Kiln{
		"457 x 457":               {Chamber: layout.Shape{Kind: layout.Round, Across: 457}, Height: 457},
		"round 457 × 500":         {Chamber: layout.Shape{Kind: layout.Round, Across: 457}, Height: 500},
		"18 in by 500":            {Chamber: layout.Shape{Kind: layout.Round, Across: 457.2}, Height: 500},
		"sided 12 28 in x 27 in":  {Chamber: layout.Shape{Kind: layout.Sided, Sides: 12, Across: 711.2}, Height: 685.8},
		"sided 8 712 x 686":       {Chamber: layout.Shape{Kind: layout.Sided, Sides: 8, Across: 712}, Height: 686},
		"oval 838 x 584 x 572":    {Chamber: layout.Shape{Kind: layout.Oval, Width: 838, Depth: 584}, Height: 572},
		"rectangle 520 x 550x710": {Chamber: layout.Shape{Kind: layout.Rectangle, Width: 520, Depth: 550}, Height: 710},
	} {
		k, err := begin.Kiln(text, measure.MM)
		require.NoError(t, err, text)
		require.Equal(t, want, k, text)
		path := filepath.Join(t.TempDir(), "x.toml")
		threepost(t, "new", path, "--kiln", text, "--cone", "6")
		got := parsed(t, path).Kiln
		require.InDelta(t, want.Height, got.Height, 0.05, text)
		require.Equal(t, want.Chamber.Kind, got.Chamber.Kind, text)
	}
}

func TestNewInInches(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.toml")
	out := threepost(t, "new", path, "--kiln", "18 x 18", "--cone", "6", "--units", "in")
	require.Contains(t, out, "cone 6 (2232 F)", "the makers' cone chart: cone 6 at 108 F (60 C) an hour bends at 2232 F, 1222 C")
	l := parsed(t, path)
	require.Equal(t, measure.Inches, l.Units)
	require.InDelta(t, 18*25.4, l.Kiln.Height, 1e-6)
}

func TestNewAsks(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ask.toml")
	e := typed("sided 12 712 x 686\n\n6 of 25, 100\n6", "new", path, "--ask")
	require.Equal(t, exitFine, e.code, e.errs)
	require.Equal(t, 4, strings.Count(e.out, "\n> "), "four questions")
	l := parsed(t, path)
	require.Equal(t, 12, l.Kiln.Chamber.Sides)
	require.Len(t, l.Furniture.Posts, 2)
	require.NotEmpty(t, l.Furniture.Shelves, "left empty, assumed")
	require.NotContains(t, e.out, "six each of posts")

	// What a flag answers is not asked.
	path = filepath.Join(t.TempDir(), "ask.toml")
	e = typed("\n\n", "new", path, "--ask", "--kiln", "457 x 457", "--cone", "6")
	require.Equal(t, exitFine, e.code, e.errs)
	require.Equal(t, 2, strings.Count(e.out, "\n> "))

	path = filepath.Join(t.TempDir(), "ask.toml")
	e = typed("457 x 457\n", "new", path, "--ask")
	require.Equal(t, exitUsage, e.code)
	require.Contains(t, e.errs, "nothing was written")
	require.Empty(t, inFolder(t, path))
}

func TestNewRefuses(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.toml")
	kiln := []string{"--kiln", "457 x 457"}
	cone := []string{"--cone", "6"}
	for _, c := range []struct {
		sentence string
		args     []string
	}{
		{"how large the kiln is", cone},
		{"which cone is fired", kiln},
		{`"457" gives 1 size, and 2 are wanted`, append([]string{"--kiln", "457"}, cone...)},
		{"number of sides", append([]string{"--kiln", "sided many 712 x 686"}, cone...)},
		{"number of sides", append([]string{"--kiln", "sided 1000000000 712 x 686"}, cone...)},
		{`"tall"`, append([]string{"--kiln", "457 x tall"}, cone...)},
		{"NaN", append([]string{"--kiln", "457 x NaN"}, cone...)},
		{"-457", append([]string{"--kiln", "457 x -457"}, cone...)},
		{`"warm"`, append([]string{"--cone", "warm"}, kiln...)},
		{`"some" is no row of shelves`, append(append([]string{"--shelves", "some"}, kiln...), cone...)},
		{`"many" is no list of posts`, append(append([]string{"--posts", "many"}, kiln...), cone...)},
		{"stage", append(append([]string{"--stage", "toast"}, kiln...), cone...)},
	} {
		refused(t, exitUsage, c.sentence, nil, append([]string{"new", path}, c.args...)...)
	}
	require.Empty(t, inFolder(t, path))
	write(t, path, "precious")
	refused(t, exitUnreadable, "is there already", []string{path}, append(append([]string{"new", path}, kiln...), cone...)...)
}

func TestTitleFromAFileName(t *testing.T) {
	for path, want := range map[string]string{
		"october-glaze.toml": "October glaze", "a/b/x_y.toml": "X y", "ölkrüge.toml": "Ölkrüge", "été.toml": "Été", ".toml": "A load", "窯.toml": "窯",
	} {
		require.Equal(t, want, titleFrom(path), path)
	}
}
