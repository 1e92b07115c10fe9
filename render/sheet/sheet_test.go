package sheet

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/layout/statics"
	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/internal/sample"
)

var update = flag.Bool("update", false, "write the golden files anew")

// made is a load with all that its paper is made of.
type made struct {
	b *stacks.Built
	r clearance.Report
	o *order.Order
	w *statics.Weights
}

func makeUp(t testing.TB, l *layout.Load) made {
	t.Helper()
	b, err := stacks.Build(l)
	require.NoError(t, err)
	o, _ := order.Of(b)
	return made{b, clearance.Check(b), o, statics.Weigh(b)}
}

func (m made) pages(t testing.TB, opt Options) []drawing.Page {
	t.Helper()
	if opt.Fonts == nil {
		opt.Fonts = fontsOf(t)
	}
	pages, err := Make(m.b, m.r, m.o, m.w, opt)
	require.NoError(t, err)
	return pages
}

// front is the maker of the front page, for looking inside.
func (m made) front(t testing.TB, units measure.Units) *front {
	t.Helper()
	s := frame.New(fontsOf(t), drawing.A4(), m.b.Load, units, measure.US)
	return &front{s: s, b: m.b, report: m.r, weights: m.w, columns: columnsOf(m.b)}
}

func fontsOf(t testing.TB) *drawing.Fonts {
	t.Helper()
	f, err := drawing.LoadFonts()
	require.NoError(t, err)
	return f
}

// own are the parts that this package draws itself.
func own() Parts { return Parts{Front: true, Boards: true, Measuring: true} }

type namedLoad struct {
	name string
	load *layout.Load
}

func samples() []namedLoad {
	empty := sample.October()
	empty.Towers, empty.Title, empty.Kiln.Name, empty.Firing.Date = nil, "", "", ""
	return []namedLoad{
		{"october", sample.October()}, {"attic", sample.Attic()}, {"stack", sample.Stack()}, {"barn", sample.Barn()}, {"empty", empty},
	}
}

// said is all that is written on pages, one text a line, no-break spaces as
// spaces.
func said(pages ...drawing.Page) string {
	var all []string
	for _, p := range pages {
		for _, t := range drawing.Texts(p) {
			all = append(all, t.Words)
		}
	}
	return strings.ReplaceAll(strings.Join(all, "\n"), "\u00a0", " ")
}

// running is said without line ends, for texts that wrap.
func running(pages ...drawing.Page) string {
	return strings.Join(strings.Fields(said(pages...)), " ")
}

// rules are those of the front page; boards and measuring sheet keep them too.
func rules() drawing.Rules {
	return drawing.Rules{Margin: 9.5, Smallest: 12, Apart: 0.25, Covered: true, Struck: true}
}

func TestPagesAreClean(t *testing.T) {
	fonts := fontsOf(t)
	for _, s := range samples() {
		m := makeUp(t, s.load)
		for _, paper := range []drawing.Paper{drawing.A4(), drawing.Letter()} {
			for _, units := range []measure.Units{measure.MM, measure.Inches} {
				for i, page := range m.pages(t, Options{Paper: paper, Units: units, Fonts: fonts, Parts: own()}) {
					require.Equal(t, [2]float64{paper.Width, paper.Height}, [2]float64{page.Width, page.Height})
					for _, c := range drawing.Check(fonts, page, rules()) {
						t.Errorf("%s %s %s page %d: %s", s.name, paper.Name, units, i+1, c)
					}
				}
			}
		}
	}
}

func TestSameBytesEveryTime(t *testing.T) {
	fonts := fontsOf(t)
	var first []byte
	for range 2 {
		m := makeUp(t, sample.October())
		var out bytes.Buffer
		require.NoError(t, drawing.PDF(&out, fonts, drawing.Document{Title: "October", Pages: m.pages(t, Options{Fonts: fonts, Parts: own()})}))
		if first == nil {
			first = out.Bytes()
		}
		require.True(t, bytes.Equal(first, out.Bytes()))
	}
}

func TestGolden(t *testing.T) {
	for _, s := range samples()[:2] {
		var out strings.Builder
		for _, page := range makeUp(t, s.load).pages(t, Options{Parts: own()}) {
			out.WriteString(drawing.Dump(textsOnly(page)))
		}
		path := filepath.Join("testdata", s.name+".txt")
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(path, []byte(out.String()), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(want), out.String(), "%s differs; if the change is wanted, run the test with -update and look at it", path)
	}
}

// textsOnly leaves the texts: the elevation has goldens of its own, and the
// silhouettes would make these unreadable.
func textsOnly(page drawing.Page) drawing.Page {
	out := drawing.Page{Width: page.Width, Height: page.Height, Title: page.Title}
	for _, t := range drawing.Texts(page) {
		out.Items = append(out.Items, t)
	}
	return out
}

func TestPartsAndNumbers(t *testing.T) {
	m := makeUp(t, sample.October())
	for _, c := range []struct {
		parts Parts
		want  string
	}{
		{Parts{Front: true}, "sheet 1 of 1"},
		{Parts{Boards: true}, "boards drawn 1 : 13 · sheet 1 of 1"},
		{Parts{Front: true, Boards: true}, "sheet 2 of 2"},
		{Parts{Measuring: true}, "How wide, how high"},
	} {
		require.Contains(t, said(m.pages(t, Options{Parts: c.parts})...), c.want)
	}
	require.NotContains(t, said(m.pages(t, Options{Parts: Parts{Measuring: true}})...), "sheet", "it is measured on, not counted")
	all := said(m.pages(t, Options{})...)
	require.Contains(t, all, "Boards to carry out", "the zero options make all sheets")
	require.NotContains(t, all, "How wide, how high")
}

func TestRefusals(t *testing.T) {
	m := makeUp(t, sample.October())
	_, err := Make(nil, m.r, m.o, m.w, Options{})
	require.ErrorContains(t, err, "no built load")
	_, err = Make(m.b, m.r, m.o, m.w, Options{Paper: drawing.Paper{Name: "A6", Width: 105, Height: 148}})
	require.ErrorContains(t, err, "too small")
}

// TestLook writes the pages as pictures to look at, into the folder that
// THREEPOST_LOOK names.
func TestLook(t *testing.T) {
	dir := os.Getenv("THREEPOST_LOOK")
	if dir == "" {
		t.Log("THREEPOST_LOOK is not set: no pictures are written")
		return
	}
	fonts := fontsOf(t)
	for _, s := range samples() {
		m := makeUp(t, s.load)
		for _, paper := range []drawing.Paper{drawing.A4(), drawing.Letter()} {
			for i, page := range m.pages(t, Options{Paper: paper, Fonts: fonts, Parts: Parts{true, true, true, false, true}}) {
				var out bytes.Buffer
				require.NoError(t, drawing.PNG(&out, fonts, page, 110))
				name := filepath.Join(dir, fmt.Sprintf("%s-%s-%d.png", s.name, paper.Name, i+1))
				require.NoError(t, os.WriteFile(name, out.Bytes(), 0o644))
			}
		}
	}
}

// The budget is 0.2 s for a sheet of 8 pages as PDF, fonts loaded.
func BenchmarkPDF(b *testing.B) {
	fonts := fontsOf(b)
	m := makeUp(b, sample.October())
	for b.Loop() {
		pages := m.pages(b, Options{Fonts: fonts, Parts: Parts{true, true, true, false, true}})
		var out bytes.Buffer
		require.NoError(b, drawing.PDF(&out, fonts, drawing.Document{Pages: pages}))
		b.ReportMetric(float64(len(pages)), "pages")
	}
}

func sortedKeys(m map[string]int) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}
