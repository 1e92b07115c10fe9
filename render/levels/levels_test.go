package levels

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/internal/sample"
)

var update = flag.Bool("update", false, "write the golden files anew")

// dump is a set of pages as text.
func dump(s *frame.Sheet, drafts []frame.Draft) string {
	var all strings.Builder
	for _, page := range s.Assemble(drafts) {
		all.WriteString(drawing.Dump(page))
		all.WriteString("\n")
	}
	return all.String()
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "run go test -update")
	require.Equal(t, string(want), got)
}

func TestPagesOfTheAtticAreAsDrawnBefore(t *testing.T) {
	s, b, o := set(t, sample.Attic(), drawing.Letter(), "")
	golden(t, "attic-pages.txt", dump(s, Pages(s, b, o, nil)))
}

func TestPapersOfAFrontLoaderAreAsDrawnBefore(t *testing.T) {
	s, b, o := set(t, frontLoader(), drawing.A4(), measure.MM)
	golden(t, "front-papers.txt", dump(s, Papers(s, b, o, 1)))
}

func TestSameBytesTwice(t *testing.T) {
	s, b, o := set(t, sample.October(), drawing.A4(), measure.MM)
	one := dump(s, Pages(s, b, o, nil)) + dump(s, Papers(s, b, o))
	s, b, o = set(t, sample.October(), drawing.A4(), measure.MM)
	require.Equal(t, one, dump(s, Pages(s, b, o, nil))+dump(s, Papers(s, b, o)))
}

// Nothing overlaps, is cut, covered or struck through, and no type is below
// the sizes of the look: 10 pt for kind letters and gap figures, 11 pt for
// legends, 16 pt for order numbers.
func TestPagesAreFitToRead(t *testing.T) {
	eachWay(t, func(t *testing.T, name string, s *frame.Sheet, b *stacks.Built, o *order.Order) {
		for i, page := range s.Assemble(Pages(s, b, o, nil)) {
			rules := drawing.Rules{Margin: 6, Smallest: frame.SmallSize, Apart: 0.2, Covered: true, Struck: true}
			fit(t, drawing.Check(s.Fonts, page, rules), "%s page %d", name, i+1)
		}
		for i, page := range s.Assemble(Papers(s, b, o)) {
			rules := drawing.Rules{Margin: 4, Smallest: frame.SmallSize, Apart: 0.2, Covered: true, Struck: true}
			fit(t, drawing.Check(s.Fonts, page, rules), "%s paper %d", name, i+1)
		}
	})
}

// fit fails with the first few complaints only.
func fit(t *testing.T, found []drawing.Complaint, form string, of ...any) {
	t.Helper()
	for i, c := range found {
		if i < 4 {
			t.Errorf(form+": %s", append(of, c)...)
		}
	}
}

// numbersDrawn counts the order numbers of a plan: bold type of their size,
// or of the least size in a crowd.
func numbersDrawn(page drawing.Page) map[int]int {
	count := map[int]int{}
	for _, text := range drawing.Texts(page) {
		if text.Style.Weight == drawing.Bold && (text.Style.Size == numberSize || text.Style.Size == frame.SmallSize ||
			text.Style.Size == lesserSize && text.Style.Halo > 0) { // hours have no halo
			if n, err := strconv.Atoi(text.Words); err == nil {
				count[n]++
			}
		}
	}
	return count
}

// Law: every pot of the load stands exactly once, by its number, in the
// drawing of its level, and exactly once in its legend.
func TestEveryPotStandsOnceInDrawingAndLegend(t *testing.T) {
	eachWay(t, func(t *testing.T, name string, s *frame.Sheet, b *stacks.Built, o *order.Order) {
		m := &maker{s: s, b: b, o: o, kinds: kindsOf(b)}
		m.list = listOf(s, b, o)
		drawn := 0
		onPages := map[int]int{}
		for _, g := range m.groups() {
			want := map[int]int{}
			for _, v := range g.levels() {
				onPages[v]++
				for _, i := range b.Levels[v].Pots {
					if b.Pots[i].Ware != nil {
						want[o.Number(i)]++
						drawn++
					}
				}
				inLegend(t, name, b, m, v)
			}
			got := map[int]int{}
			rows := ""
			for _, d := range m.pages(g) {
				for n, k := range numbersDrawn(d.Page) {
					got[n] += k
				}
				for _, text := range drawing.Texts(d.Page) {
					rows += text.Words + "\n"
				}
			}
			require.Equal(t, want, got, "%s, levels %v", name, g.levels())
			for _, v := range g.levels() {
				for _, step := range m.list.LevelOf(v).Steps {
					require.Contains(t, rows, strings.Fields(step.Label)[0], "%s: the legend keeps every row", name)
				}
			}
		}
		require.Len(t, onPages, len(b.Levels))
		for v, n := range onPages {
			require.Equal(t, 1, n, "%s has a page", b.Levels[v].Name)
		}
		all := 0
		for i := range b.Pots {
			if b.Pots[i].Ware != nil {
				all++
			}
		}
		require.Equal(t, all, drawn, name)
	})
}

var label = regexp.MustCompile(`^(\d+)(?:-(\d+))?$`)

// inLegend checks that a level's legend names the numbers 1 to n once each.
func inLegend(t *testing.T, name string, b *stacks.Built, m *maker, v int) {
	t.Helper()
	var told []int
	for _, step := range m.list.LevelOf(v).Steps {
		if at := label.FindStringSubmatch(step.Label); at != nil {
			from, _ := strconv.Atoi(at[1])
			to := from
			if at[2] != "" {
				to, _ = strconv.Atoi(at[2])
			}
			for n := from; n <= to; n++ {
				told = append(told, n)
			}
		}
	}
	require.Len(t, told, m.count(v), name)
	for i, n := range told {
		require.Equal(t, i+1, n, "%s %s", name, b.Levels[v].Name)
	}
}

// Shelves are at least 100 mm across on paper, and the scale in the footer is
// the one drawn.
func TestShelvesAreLargeEnough(t *testing.T) {
	eachWay(t, func(t *testing.T, name string, s *frame.Sheet, b *stacks.Built, o *order.Order) {
		m := &maker{s: s, b: b, o: o, kinds: kindsOf(b), list: listOf(s, b, o)}
		for _, g := range m.groups() {
			first := m.pages(g)[0]
			require.NotEmpty(t, first.Note)
			per, err := strconv.ParseFloat(strings.TrimPrefix(first.Note, "1 : "), 64)
			require.NoError(t, err)
			for _, plan := range g.plans {
				require.GreaterOrEqual(t, m.across(plan)/per, 99.0, "%s %v", name, plan)
			}
			lo, hi := b.Chamber.Bounds()
			require.True(t, hasWidth(first.Page, (hi[0]-lo[0])/per), "%s: a chamber %v mm wide at %s", name, hi[0]-lo[0], first.Note)
		}
	})
}

// hasWidth tells whether a page has a shape so wide.
func hasWidth(page drawing.Page, want float64) bool {
	for _, item := range page.Items {
		if shape, ok := item.(drawing.Shape); ok {
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, seg := range shape.Path {
				for _, p := range seg.P {
					if p.X != 0 {
						lo, hi = math.Min(lo, p.X), math.Max(hi, p.X)
					}
				}
			}
			if math.Abs(hi-lo-want) < 0.6 {
				return true
			}
		}
	}
	return false
}

func TestTwoHalvesShareAPlan(t *testing.T) {
	s, b, o := set(t, sample.October(), drawing.A4(), measure.MM)
	m := &maker{s: s, b: b, o: o, kinds: kindsOf(b), list: listOf(s, b, o)}
	shared := 0
	for _, g := range m.groups() {
		for _, plan := range g.plans {
			if len(plan) == 2 {
				shared++
				require.True(t, m.sideBySide(plan[0], plan[1]))
				head := m.headOf(g)
				require.Regexp(t, `^Left \d and right \d$`, head.Title)
				require.Contains(t, head.Sub, ", then ")
			}
		}
	}
	require.GreaterOrEqual(t, shared, 2)
}

func TestTwoSmallLevelsShareAPage(t *testing.T) {
	s, b, o := set(t, frontLoader(), drawing.A4(), measure.MM)
	pages := s.Assemble(Pages(s, b, o, nil))
	require.Len(t, s.Assemble(Pages(s, b, o, nil)), 1, "one page for both")
	require.Contains(t, words(pages[0]), "Level 1 and level 2\n")
}

func words(page drawing.Page) string {
	var all strings.Builder
	for _, text := range drawing.Texts(page) {
		all.WriteString(text.Words)
		all.WriteString("\n")
	}
	return all.String()
}

func TestClockHingeAndDoor(t *testing.T) {
	s, b, o := set(t, sample.October(), drawing.A4(), measure.MM)
	top := words(s.Assemble(Pages(s, b, o, nil))[0])
	require.Contains(t, top, " hinge\n")
	require.Contains(t, top, " you stand here\n")
	s, b, o = set(t, frontLoader(), drawing.A4(), measure.MM)
	front := words(s.Assemble(Pages(s, b, o, nil))[0])
	require.Contains(t, front, " door, you stand here\n")
	require.Contains(t, front, " probe\n")
	require.Contains(t, front, " spyhole\n")
	s.Words = measure.UK
	require.Contains(t, words(s.Assemble(Pages(s, b, o, nil))[0]), " peephole\n")
}

func TestKeyTellsWhatIsDrawn(t *testing.T) {
	s, b, o := set(t, frontLoader(), drawing.A4(), measure.MM)
	front := words(s.Assemble(Pages(s, b, o, nil))[0])
	for _, say := range []string{"dotted: foot", "long dashes: cookie", "hatched: cones", "dashed post: under the shelf only"} {
		require.Contains(t, strings.ReplaceAll(front, "\n", " "), say)
	}
	s, b, o = set(t, nested(), drawing.A4(), measure.MM)
	low := words(s.Assemble(Pages(s, b, o, nil))[0])
	require.Contains(t, low, "dashed: under a rim")
	require.NotContains(t, low, "cookie")
}

func TestKindLettersSkipTheLines(t *testing.T) {
	_, b, _ := set(t, sample.October(), drawing.A4(), measure.MM)
	seen := map[string]bool{}
	for _, k := range kindsOf(b) {
		require.Regexp(t, `^[g-z]$`, k.letter, "six lines take A to F")
		require.False(t, seen[k.letter])
		seen[k.letter] = true
	}
}

func TestNumbersOfSmallPotsStandOnLeaders(t *testing.T) {
	s, b, o := set(t, crowd(), drawing.A4(), measure.MM)
	pages := s.Assemble(Pages(s, b, o, nil))
	rings := 0
	for _, item := range pages[0].Items {
		if shape, ok := item.(drawing.Shape); ok && shape.Style.Fill == drawing.White && shape.Style.Width == frame.Hair().Width {
			rings++
		}
	}
	require.Equal(t, 81, rings, "no number fits into a pot of 14 mm at this scale")
}

// A pot of 8 mm on paper and more has its number in it, in smaller type if need
// be, and no leader out of the crowd.
func TestNumbersStayInTheirPots(t *testing.T) {
	least := math.Inf(1)
	eachWay(t, func(t *testing.T, name string, s *frame.Sheet, b *stacks.Built, o *order.Order) {
		m := &maker{s: s, b: b, o: o, kinds: kindsOf(b), list: listOf(s, b, o)}
		for _, g := range m.groups() {
			for _, levels := range g.plans {
				for _, scale := range []float64{1.0 / 5, 1.0 / 8} {
					p := newPlan(s.Page(m.headOf(g)), b, o, m.kinds, levels, view{scale: scale})
					for i := range p.pots {
						f := &p.pots[i]
						lo, hi := f.body.Bounds()
						across := math.Min(hi[0]-lo[0], hi[1]-lo[1]) * scale
						under := false // another's rim
						for j := range p.pots {
							mm, _, _ := f.body.Gap(p.pots[j].body.Part)
							under = under || j != i && mm < 0
						}
						if f.cones || under || across < 8 || b.Pots[f.pot].Body.Drawn.Oblong {
							continue
						}
						least = math.Min(least, across)
						fits := p.inside(f, numberSize, true) || p.inside(f, numberSize, false) || p.inside(f, lesserSize, false)
						require.True(t, fits, "%s: %d of %g mm", name, f.number, across)
					}
				}
			}
		}
	})
	t.Logf("the smallest is %.1f mm across", least)
	require.Less(t, least, 10.0)
}

func TestALevelWithoutPotsHasAPage(t *testing.T) {
	l := sample.Attic()
	for i := range l.Towers[0].Levels {
		l.Towers[0].Levels[i].Set = nil
	}
	s, b, o := set(t, l, drawing.A4(), measure.MM)
	all := ""
	for _, p := range s.Assemble(Pages(s, b, o, nil)) {
		all += words(p)
	}
	require.Contains(t, all, "empty")
	require.Contains(t, all, "it rests on every post")
	require.Empty(t, Papers(s, b, o), "papers are of levels with pots")
	require.NotEmpty(t, Papers(s, b, o, 0), "but a named level has its papers")
	require.Empty(t, Papers(s, b, o, -1, 99), "levels that are none have none")
}

// Law: a label's box, once set, meets no other.
func TestBoxGapAgreesWithSkeletons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := &plan{view: view{scale: 1}}
		draw := func(name string) plane.Skeleton {
			x, y := rapid.Float64Range(-20, 20).Draw(t, name+"x"), rapid.Float64Range(-20, 20).Draw(t, name+"y")
			return p.box(plane.Vec{x, y}, rapid.Float64Range(0.5, 15).Draw(t, name+"w"), rapid.Float64Range(0.5, 15).Draw(t, name+"h"))
		}
		a, b := draw("a"), draw("b")
		require.InDelta(t, a.Distance(b), boxGap(a, b), 1e-9)
	})
}
