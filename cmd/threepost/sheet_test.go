package main

import (
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/stretchr/testify/require"
)

// papers in mm: A4 of ISO 216, Letter (8 1/2 x 11 in) of ANSI/ASME Y14.1.
var papers = map[string][2]float64{"A4": {210, 297}, "Letter": {215.9, 279.4}}

// TestSheetPDF reads the pages back with a general PDF library: it finds
// nothing against them, and they are as large as the standards say, in points
// of 1/72 in (ISO 32000).
func TestSheetPDF(t *testing.T) {
	path := reference(t, "newcomer")
	before := read(t, path)
	for paper, size := range papers {
		for _, verb := range []string{"sheet", "papers"} {
			out := filepath.Join(t.TempDir(), "x.pdf")
			a := asked[written](t, verb, path, "--out", out, "--paper", paper, "--json")
			require.Equal(t, []string{out}, a.Files)
			require.NoError(t, api.ValidateFile(out, nil))
			dims, err := api.PageDimsFile(out)
			require.NoError(t, err)
			require.Len(t, dims, a.Pages)
			for _, d := range dims {
				w, h := d.Width*25.4/72, d.Height*25.4/72
				if verb == "papers" && w > h {
					w, h = h, w // shelf papers may lie
				}
				require.InDelta(t, size[0], w, 0.02, "%s %s", verb, paper)
				require.InDelta(t, size[1], h, 0.02, "%s %s", verb, paper)
			}
		}
	}
	require.Equal(t, before, read(t, path))
}

func TestSheetTakesTheNameOfTheLoad(t *testing.T) {
	path := reference(t, "newcomer")
	require.Regexp(t, `^\d pages written to .*newcomer\.pdf\.\n$`, threepost(t, "sheet", path))
	threepost(t, "papers", path)
	require.Regexp(t, `^1 page written to `, threepost(t, "papers", path, "--measuring"))
	require.Equal(t, []string{"newcomer.measuring.pdf", "newcomer.papers.pdf", "newcomer.pdf", "newcomer.toml"}, inFolder(t, path))
}

// textOf reads an SVG with a general XML reader, to the end, and gives its texts.
func textOf(t *testing.T, path string) string {
	t.Helper()
	dec := xml.NewDecoder(strings.NewReader(read(t, path)))
	var text strings.Builder
	depth := 0
	for {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return text.String()
		}
		require.NoError(t, err, path)
		switch e := token.(type) {
		case xml.StartElement:
			if e.Name.Local == "text" {
				depth++
			}
		case xml.EndElement:
			if e.Name.Local == "text" {
				depth--
				text.WriteByte('\n')
			}
		case xml.CharData:
			if depth > 0 {
				text.Write(e)
			}
		}
	}
}

func TestSheetSVGInInchesOnLetter(t *testing.T) {
	path := reference(t, "newcomer")
	dir := t.TempDir()
	mm := asked[written](t, "sheet", path, "--out", filepath.Join(dir, "mm.svg"), "--json")
	in := asked[written](t, "sheet", path, "--out", filepath.Join(dir, "in.svg"), "--paper", "Letter", "--units", "in", "--json")
	require.Len(t, mm.Files, mm.Pages)
	require.Equal(t, filepath.Join(dir, "mm-1.svg"), mm.Files[0])
	require.Contains(t, read(t, mm.Files[0]), `width="210mm" height="297mm"`)
	require.Contains(t, read(t, in.Files[0]), `width="215.9mm" height="279.4mm"`)
	all := func(a written) string {
		text := ""
		for _, f := range a.Files {
			text += textOf(t, f)
		}
		return text
	}
	require.Contains(t, all(mm), "First glaze")
	require.Contains(t, all(in), "First glaze")
	// 457 mm are 17.99 in, 18 to a sixteenth (1 in is 25.4 mm exactly).
	require.Contains(t, all(in), "18 across, 18 deep, in inches")
	require.Contains(t, all(mm), "457 across, 457 deep")
	require.Regexp(t, `\d\x{a0}\d+/16`, all(in), "inches are written in fractions")
	require.NotRegexp(t, `\d/16`, all(mm))
	front := asked[written](t, "sheet", path, "--out", filepath.Join(dir, "front.svg"), "--parts", "front", "--json")
	require.Equal(t, []string{filepath.Join(dir, "front.svg")}, front.Files, "one page, one file, no number")
}

// TestSheetPNG has the pixels of its paper: 210 mm at 40 dots an inch are
// 330.7, 297 mm are 467.7.
func TestSheetPNG(t *testing.T) {
	path := reference(t, "newcomer")
	a := asked[written](t, "sheet", path, "--out", filepath.Join(t.TempDir(), "x.PNG"), "--parts", "front,boards", "--dpi", "40", "--json")
	for _, name := range a.Files {
		f, err := os.Open(name)
		require.NoError(t, err)
		img, err := png.Decode(f)
		require.NoError(t, err)
		require.NoError(t, f.Close())
		require.InDelta(t, 330.7, img.Bounds().Dx(), 1)
		require.InDelta(t, 467.7, img.Bounds().Dy(), 1)
	}
}

func TestSheetOfALoadWithoutLevels(t *testing.T) {
	path := sample(t, "newcomer")
	refused(t, exitUsage, "has no levels yet; plan it first", []string{path}, "sheet", path)
	refused(t, exitUsage, "has no levels yet; plan it first", []string{path}, "papers", path)
	require.Equal(t, []string{"newcomer.toml"}, inFolder(t, path))
	threepost(t, "papers", path, "--measuring")
}

func TestSheetTellsOfProblems(t *testing.T) {
	path := leaning(t)
	out := threepost(t, "sheet", path)
	require.Contains(t, out, "in this load; see `threepost check "+path+"`.")
}
