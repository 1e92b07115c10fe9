package frame

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/render/drawing"
)

func sheet(t testing.TB, paper drawing.Paper, units measure.Units) *Sheet {
	t.Helper()
	fonts, err := drawing.LoadFonts()
	require.NoError(t, err)
	load := &layout.Load{Title: "October glaze", Units: measure.MM}
	load.Kiln.Name = "Heron"
	load.Firing = layout.Firing{Stage: layout.Glaze, Cone: "6", Date: "14 October"}
	return New(fonts, paper, load, units, measure.US)
}

func words(page drawing.Page) string {
	var all []string
	for _, t := range drawing.Texts(page) {
		all = append(all, t.Words)
	}
	return strings.Join(all, "\n")
}

func TestFiguresRoundToTheSafeSide(t *testing.T) {
	mm, in := sheet(t, drawing.A4(), measure.MM), sheet(t, drawing.A4(), measure.Inches)
	require.Equal(t, "38", mm.Room(38.9), "room is never promised larger")
	require.Equal(t, "39", mm.Size(38.1), "a pot is never taken for smaller")
	require.Equal(t, "1\u00a01/2", in.Room(39.5), "39.5 mm is 1.555 in")
	require.Equal(t, "1\u00a05/8", in.Size(39.5))
	require.Equal(t, "12.5", mm.Post(12.5))
	require.Equal(t, "4", in.Post(101.6))
	require.Equal(t, "10\u00a01/4", in.Near(260))
	require.Equal(t, "1222\u00a0°C", mm.Heat(1222))
	require.Equal(t, "2232\u00a0°F", in.Heat(1222), "1222 C is 2231.6 F")
	require.Equal(t, "1 : 8.5", Scale(8.5))
	require.Equal(t, "1 : 8", Scale(8))
}

func TestMakeUps(t *testing.T) {
	mm, in := sheet(t, drawing.A4(), measure.MM), sheet(t, drawing.A4(), measure.Inches)
	two := layout.MakeUp{{Height: 100}, {Height: 10}}
	require.Equal(t, "3×(100+10)", mm.Posts(3, two))
	require.Equal(t, "6×25", mm.Posts(6, layout.MakeUp{{Height: 25}}))
	require.Equal(t, "3×(4\u00a0+\u00a01/2)", in.Posts(3, layout.MakeUp{{Height: 101.6}, {Height: 12.7}}))
}

func TestConeIsShownWithItsTemperature(t *testing.T) {
	s := sheet(t, drawing.A4(), measure.MM)
	require.Equal(t, "cone 6 · 1222\u00a0°C", s.Cone(layout.Firing{Cone: "6"}))
	require.Equal(t, "cone 05 · 1030\u00a0°C", s.Cone(layout.Firing{Cone: "05", Peak: 1030}))
}

func TestPagesAreNumbered(t *testing.T) {
	for _, paper := range []drawing.Paper{drawing.A4(), drawing.Letter()} {
		s := sheet(t, paper, measure.MM)
		first := s.Page(Head{Title: "October glaze", Right: "Glaze · cone 6 · 1222 °C", Sub: "Kiln Heron", SubRight: "86 pots, 7 levels"})
		first.Note = "elevation 1 : 8.5"
		bare := s.Bare("How wide, how high")
		second := s.Page(Head{Title: "Boards to carry out", Right: "86 pots · 8 boards of 1200", Sub: "Carry in this order."})
		pages := s.Assemble([]Draft{first.Draft(), bare.Draft(), second.Draft()})
		require.Len(t, pages, 3)
		require.Contains(t, words(pages[0]), "elevation 1 : 8.5 · sheet 1 of 2")
		require.Contains(t, words(pages[0]), "October glaze · kiln Heron · planned 14 October")
		require.Empty(t, pages[1].Items)
		require.Contains(t, words(pages[2]), "sheet 2 of 2")
		for _, page := range pages {
			require.Empty(t, drawing.Check(s.Fonts, page, drawing.Rules{Margin: Margin - 1, Smallest: TextSize, Apart: 0.3, Covered: true, Struck: true}))
		}
	}
}

func TestLongTitlesDoNotMeetTheRight(t *testing.T) {
	s := sheet(t, drawing.A4(), measure.MM)
	p := s.Page(Head{
		Title: "Autumn wood ash and celadon trial of the evening class", Right: "Glaze · cone 6 · 1222 °C",
		Sub: strings.Repeat("A subline that goes on. ", 9), SubRight: "86 pots, 7 levels",
	})
	require.Greater(t, p.Top, 40.0)
	page := s.Assemble([]Draft{p.Draft()})[0]
	require.Empty(t, drawing.Check(s.Fonts, page, drawing.Rules{Margin: Margin - 1, Smallest: TextSize, Apart: 0.3, Struck: true}))
}

func TestFitCutsLongWords(t *testing.T) {
	s := sheet(t, drawing.A4(), measure.MM)
	style := Text(TextSize)
	require.Equal(t, "short", s.Fit("short", style, 50))
	cut := s.Fit("a name that is longer than the place it has", style, 40)
	require.True(t, strings.HasSuffix(cut, "…"))
	require.LessOrEqual(t, s.Fonts.Width(style, cut), 40.0)
}

func TestRunsWrapAtSpacesAndKeepTheirWords(t *testing.T) {
	s := sheet(t, drawing.A4(), measure.MM)
	runs := []drawing.Run{{Words: "Stays on the shelf, waits: ", Style: Strong(TextSize)}, {Words: "2 mugs (Ida 31), 2 tumblers (Ida 32), 1 soup bowl (Bram 24)", Style: Text(TextSize)}}
	lines := s.WrapRuns(70, runs...)
	require.Greater(t, len(lines), 1)
	var back []string
	for _, line := range lines {
		require.LessOrEqual(t, s.RunsWidth(line...), 70.0)
		text := ""
		for _, r := range line {
			text += r.Words
		}
		back = append(back, strings.TrimSpace(text))
	}
	require.Equal(t, runs[0].Words+runs[1].Words, strings.Join(back, " "))
}

func TestWrapRunsKeepsWithinTheWidth(t *testing.T) {
	s := sheet(t, drawing.A4(), measure.MM)
	for _, words := range []string{
		"Bartholomea\u00a0Featherstone\u00a0of\u00a0the\u00a0evening\u00a0class\u00a0114",
		strings.Repeat("clay", 40), "", " ", "a " + strings.Repeat("w", 30) + " b",
	} {
		lines := s.WrapRuns(40, drawing.Run{Words: "9", Style: Strong(TextSize)}, drawing.Run{Words: " " + words, Style: Text(TextSize)})
		kept := ""
		for _, line := range lines {
			require.LessOrEqual(t, s.RunsWidth(line...), 40.0, words)
			for _, r := range line {
				kept += r.Words
			}
		}
		plain := strings.NewReplacer(" ", "", "\u00a0", "")
		require.Equal(t, plain.Replace("9"+words), plain.Replace(kept))
	}
}
