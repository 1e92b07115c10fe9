package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/render/drawing"
	"threepost/render/internal/sample"
)

// Law: every pot is carried once, for its own level, and no row is longer than
// the board.
func TestEveryPotIsCarriedOnce(t *testing.T) {
	for _, s := range samples() {
		m := makeUp(t, s.load)
		carried := map[string]int{}
		for _, b := range boardsOf(m.b, m.o) {
			front, behind := 0.0, 0.0
			for _, p := range b.parts {
				front += float64(p.front) * p.lot.wide
				behind += float64(p.behind) * p.lot.wide
				for _, i := range p.lot.pots {
					require.Equal(t, b.level, m.b.Pots[i].Level)
				}
				name := m.b.Levels[b.level].Name + " " + m.b.Pots[p.lot.pots[0]].Pot.Ware
				carried[name] += p.front + p.behind
			}
			require.LessOrEqual(t, max(front, behind), boardLong+1e-6, s.name)
		}
		set := map[string]int{}
		for i := range m.b.Pots {
			p := &m.b.Pots[i]
			set[m.b.Levels[p.Level].Name+" "+p.Pot.Ware]++
		}
		require.Equal(t, set, carried, s.name)
		require.Equal(t, sortedKeys(set), sortedKeys(carried))
	}
}

func TestBoardsFollowTheOrderOfLoading(t *testing.T) {
	m := makeUp(t, sample.October())
	var levels []int
	for _, b := range boardsOf(m.b, m.o) {
		if n := len(levels); n == 0 || levels[n-1] != b.level {
			levels = append(levels, b.level)
		}
	}
	var want []int
	for _, l := range m.o.Levels {
		if len(m.b.Levels[l.Level].Pots) > 0 {
			want = append(want, l.Level)
		}
	}
	require.Equal(t, want, levels)
}

func lotOf(n int, wide, deep float64) *lot {
	return &lot{ware: &layout.Ware{Name: "pot"}, pots: make([]int, n), wide: wide, deep: deep}
}

// Hand-worked: a board takes 12 pots of 100 in a row, 24 in two rows.
func TestSharing(t *testing.T) {
	for _, c := range []struct {
		name string
		lots []*lot
		want [][][2]int
	}{
		{"one row", []*lot{lotOf(12, 100, 100)}, [][][2]int{{{12, 0}}}},
		{"two rows", []*lot{lotOf(13, 100, 100)}, [][][2]int{{{7, 6}}}},
		{"full", []*lot{lotOf(24, 100, 100)}, [][][2]int{{{12, 12}}}},
		{"a second board", []*lot{lotOf(26, 100, 100)}, [][][2]int{{{12, 12}}, {{2, 0}}}},
		{"too deep for two rows", []*lot{lotOf(13, 100, 160)}, [][][2]int{{{12, 0}}, {{1, 0}}}},
		{"kinds stay together", []*lot{lotOf(12, 100, 160), lotOf(5, 200, 160)}, [][][2]int{{{12, 0}}, {{5, 0}}}},
		{"longer than a board", []*lot{lotOf(2, 1300, 160)}, [][][2]int{{{1, 0}}, {{1, 0}}}},
	} {
		var have [][][2]int
		for _, b := range share(0, c.lots) {
			var row [][2]int
			for _, p := range b.parts {
				row = append(row, [2]int{p.front, p.behind})
			}
			have = append(have, row)
		}
		require.Equal(t, c.want, have, c.name)
	}
}

func TestSharingLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var lots []*lot
		total := 0
		for range rapid.IntRange(1, 6).Draw(t, "kinds") {
			n := rapid.IntRange(1, 60).Draw(t, "n")
			lots = append(lots, lotOf(n, rapid.Float64Range(20, 700).Draw(t, "wide"), rapid.Float64Range(20, 400).Draw(t, "deep")))
			total += n
		}
		for _, b := range share(0, lots) {
			front, behind := 0.0, 0.0
			for _, p := range b.parts {
				total -= p.front + p.behind
				front += float64(p.front) * p.lot.wide
				behind += float64(p.behind) * p.lot.wide
				if p.behind > p.front || p.front < 1 {
					t.Fatalf("%d in front, %d behind", p.front, p.behind)
				}
			}
			if max(front, behind) > boardLong+1e-6 {
				t.Fatalf("rows of %v and %v", front, behind)
			}
		}
		if total != 0 {
			t.Fatalf("%d pots are left", total)
		}
	})
}

func TestBoardListNamesOwnersAndWhatWaits(t *testing.T) {
	text := running(makeUp(t, sample.October()).pages(t, Options{Parts: Parts{Boards: true}})...)
	for _, want := range []string{
		"Boards to carry out", "78 pots · 7 boards of 1200", "6 lidded jars · Wen 17", "cone pack 5 6 7", "1 cookie",
		"6 in front, 6 behind", "Stays on the shelf, waits: 4 mugs (Ida 31)",
	} {
		require.Contains(t, text, want)
	}
	inches := running(makeUp(t, sample.October()).pages(t, Options{Parts: Parts{Boards: true}, Units: measure.Inches})...)
	require.Contains(t, inches, "boards of 47 1/4")
}

// Thirty kinds with long names on one level: the list is divided, not cut.
func TestManyKindsOnOneLevel(t *testing.T) {
	l := sample.Attic()
	for i := range l.Towers[0].Levels {
		l.Towers[0].Levels[i].Set = nil
	}
	l.Ware = nil
	for i := range 30 {
		name := fmt.Sprintf("glaze trial with iron, rutile and ash number %d of", i)
		l.Ware = append(l.Ware, layout.Ware{Name: name, Count: 1, Height: 30, Across: 30, Owner: "Bartholomea Featherstone", Ticket: "9"})
		x, y := float64(i%6*40-100), float64(i/6*40-80)
		l.Towers[0].Levels[0].Set = append(l.Towers[0].Levels[0].Set, layout.Placement{Pot: layout.Pot{Ware: name}, At: plane.Vec{x, y}})
	}
	m := makeUp(t, l)
	fonts := fontsOf(t)
	pages := m.pages(t, Options{Fonts: fonts, Parts: own(), Paper: drawing.Letter()})
	for _, page := range pages {
		require.Empty(t, drawing.Check(fonts, page, rules()))
	}
	text := running(pages...)
	for i := range 30 {
		require.Contains(t, text, fmt.Sprintf("number %d", i))
	}
}

func TestALongListGoesOnWithItsNumbers(t *testing.T) {
	pages := makeUp(t, sample.Stack()).pages(t, Options{Parts: Parts{Boards: true}, Paper: drawing.Letter()})
	require.Greater(t, len(pages), 2)
	text := said(pages...)
	require.Equal(t, 1, strings.Count(text, "Stays on the shelf, waits: "))
	require.Contains(t, strings.Split(text, "\n"), "12")
}
