package sheet

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/layout/statics"
	"threepost/render/drawing"
	"threepost/render/internal/sample"
)

// made is a load with all that its paper is made of.
type made struct {
	b *stacks.Built
	r clearance.Report
	o *order.Order
	w *statics.Weights
}

func make1(t testing.TB, l *layout.Load) made {
	t.Helper()
	b, err := stacks.Build(l)
	require.NoError(t, err)
	o, _ := order.Of(b)
	return made{b, clearance.Check(b), o, statics.Weigh(b)}
}

func fontsOf(t testing.TB) *drawing.Fonts {
	t.Helper()
	f, err := drawing.LoadFonts()
	require.NoError(t, err)
	return f
}

func all() Parts { return Parts{Front: true, Boards: true, Measuring: true} }

func samples() map[string]func() *layout.Load {
	return map[string]func() *layout.Load{"october": sample.October, "attic": sample.Attic, "stack": sample.Stack, "barn": sample.Barn}
}

func TestLook(t *testing.T) {
	dir := os.Getenv("THREEPOST_LOOK")
	if dir == "" {
		return
	}
	fonts := fontsOf(t)
	for name, load := range samples() {
		m := make1(t, load())
		for _, paper := range []drawing.Paper{drawing.A4(), drawing.Letter()} {
			pages, err := Make(m.b, m.r, m.o, m.w, Options{Paper: paper, Fonts: fonts, Parts: all()})
			require.NoError(t, err)
			for i, page := range pages {
				f, err := os.Create(filepath.Join(dir, fmt.Sprintf("%s-%s-%d.png", name, paper.Name, i+1)))
				require.NoError(t, err)
				require.NoError(t, drawing.PNG(f, fonts, page, 110))
				require.NoError(t, f.Close())
			}
		}
	}
}

func rules(front bool) drawing.Rules {
	return drawing.Rules{Margin: 9.5, Smallest: 12, Apart: 0.25, Covered: true, Struck: true}
}

func TestPagesAreClean(t *testing.T) {
	fonts := fontsOf(t)
	for name, load := range samples() {
		m := make1(t, load())
		for _, paper := range []drawing.Paper{drawing.A4(), drawing.Letter()} {
			for _, units := range []measure.Units{measure.MM, measure.Inches} {
				pages, err := Make(m.b, m.r, m.o, m.w, Options{Paper: paper, Units: units, Fonts: fonts, Parts: all()})
				require.NoError(t, err)
				for i, page := range pages {
					for _, c := range drawing.Check(fonts, page, rules(true)) {
						t.Errorf("%s %s %s page %d: %s", name, paper.Name, units, i+1, c)
					}
				}
			}
		}
	}
}
