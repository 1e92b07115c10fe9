package main

import (
	"bytes"
	"image/png"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestPictureIsThatLarge reads the file back with a general PNG reader.
func TestPictureIsThatLarge(t *testing.T) {
	path := reference(t, "studio")
	before := read(t, path)
	out := filepath.Join(filepath.Dir(path), "x.png")
	for _, from := range []string{"stand", "front", "left", "right", "top", "spyhole 1"} {
		a := asked[pictured](t, "picture", path, "--out", out, "--from", from, "--size", "200x120", "--json")
		require.Equal(t, pictured{File: out, Width: 200, Height: 120}, a)
		img, err := png.Decode(bytes.NewReader([]byte(read(t, out))))
		require.NoError(t, err)
		require.Equal(t, 200, img.Bounds().Dx())
		require.Equal(t, 120, img.Bounds().Dy())
		colours := map[[3]uint32]bool{}
		for y := range 120 {
			for x := range 200 {
				r, g, b, _ := img.At(x, y).RGBA()
				colours[[3]uint32{r >> 12, g >> 12, b >> 12}] = true
			}
		}
		require.Greater(t, len(colours), 8, "%s shows something", from)
	}
	require.Equal(t, before, read(t, path))
}

func TestPictureTakesTheNameOfTheLoad(t *testing.T) {
	path := reference(t, "newcomer")
	require.Regexp(t, `newcomer\.png written, 160 x 100 px\.\n$`, threepost(t, "picture", path, "--size", "160×100"))
	require.Equal(t, []string{"newcomer.png", "newcomer.toml"}, inFolder(t, path))
}

// TestPictureTellsItsColours: what a hatch means is said in words.
func TestPictureTellsItsColours(t *testing.T) {
	path := reference(t, "studio")
	a := asked[pictured](t, "picture", path, "--colour", "owner", "--size", "64x40", "--json")
	require.Greater(t, len(a.Legend), 1)
	hatches := map[string]bool{}
	for _, k := range a.Legend {
		require.Positive(t, k.Pots)
		require.NotEmpty(t, k.Means)
		hatches[k.Hatch] = true
	}
	require.Len(t, hatches, len(a.Legend))
	require.Contains(t, threepost(t, "picture", path, "--colour", "owner", "--size", "64x40"), "Ida: ")
}

func TestPictureOptionsChangeIt(t *testing.T) {
	path := reference(t, "studio")
	seen := map[string]string{}
	for name, words := range map[string][]string{
		"plain": nil, "dark": {"--dark"}, "cut": {"--cut"}, "level": {"--level", "left 2"}, "mass": {"--colour", "mass"},
	} {
		out := filepath.Join(t.TempDir(), "x.png")
		threepost(t, append([]string{"picture", path, "--out", out, "--size", "120x80"}, words...)...)
		data := read(t, out)
		require.Empty(t, seen[data], "%s looks like %s", name, seen[data])
		seen[data] = name
	}
}

func TestPictureRefuses(t *testing.T) {
	path := reference(t, "newcomer")
	all := []string{path}
	refused(t, exitUsage, `--from: "roof" is no place to stand; write stand, front, left, right, top or "spyhole 1"`, all, "picture", path, "--from", "roof")
	refused(t, exitUsage, `--from: there is no "spyhole 9"; the kiln has none`, all, "picture", path, "--from", "spyhole 9")
	refused(t, exitUsage, `--level: "attic" is no level of this load; write one of "bottom", `, all, "picture", path, "--level", "attic")
	refused(t, exitUsage, `--colour: "blue" is none; write clay, owner, glaze, mass, findings`, all, "picture", path, "--colour", "blue")
	refused(t, exitUsage, `--size: "big" is no size; write width x height in px, 16x16 to 8000x4000`, all, "picture", path, "--size", "big")
	refused(t, exitUsage, `--size: "1x1" is no size`, all, "picture", path, "--size", "1x1")
	refused(t, exitUsage, `--size: "8000x8000" is no size`, all, "picture", path, "--size", "8000x8000")
	refused(t, exitUsage, `x.pdf: a picture is written as .png`, all, "picture", path, "--out", "x.pdf")
	refused(t, exitUnreadable, "nowhere.toml", nil, "picture", filepath.Join(t.TempDir(), "nowhere.toml"))
	require.Equal(t, []string{"newcomer.toml"}, inFolder(t, path))
}

// TestPictureOfAnEmptyKiln: a load without levels shows the kiln.
func TestPictureOfAnEmptyKiln(t *testing.T) {
	path := sample(t, "newcomer")
	require.Contains(t, threepost(t, "picture", path, "--size", "120x80"), "written")
	refused(t, exitUsage, "--level: the load has no levels yet", []string{path}, "picture", path, "--level", "left 1")
}
