package views

import (
	"fmt"
	"html"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/drawing"
)

// names are the samples that every picture is drawn of.
var names = [...]string{"studio", "newcomer", "small-round", "oval", "front-loader", "bisque"}

func easel(t testing.TB) *Easel {
	t.Helper()
	fonts, err := drawing.LoadFonts()
	require.NoError(t, err)
	return &Easel{Fonts: fonts, Units: measure.MM, Words: measure.US}
}

func sample(t testing.TB, name string) Subject {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "loads", "reference", name+".toml"))
	require.NoError(t, err)
	l, err := document.Parse(name+".toml", text)
	require.NoError(t, err)
	return subject(t, l)
}

func subject(t testing.TB, l *layout.Load) Subject {
	t.Helper()
	b, err := stacks.Build(l)
	require.NoError(t, err)
	o, _ := order.Of(b)
	return Subject{Built: b, Order: o, Findings: clearance.Check(b).Findings}
}

// svg writes a picture as the page does.
func svg(p Picture, class string) string {
	var w strings.Builder
	fmt.Fprintf(&w, "<svg class=\"picture %s\" width=\"%g\" height=\"%g\" viewBox=\"0 0 %g %g\">", class, p.W, p.H, p.W, p.H)
	for _, m := range p.Marks {
		mark(&w, m)
	}
	w.WriteString("</svg>")
	return w.String()
}

func mark(w *strings.Builder, m Mark) {
	switch m.Kind {
	case TextKind:
		turn := ""
		if m.Turn != 0 {
			turn = fmt.Sprintf(" transform=\"rotate(%g %g %g)\"", m.Turn, m.X, m.Y)
		}
		fmt.Fprintf(w, "<text x=\"%g\" y=\"%g\" font-size=\"%g\" text-anchor=\"%s\" class=\"%s\"%s>%s</text>\n",
			m.X, m.Y, m.Size, m.Anchor, m.Class, turn, html.EscapeString(m.Text))
	case GroupKind:
		fmt.Fprintf(w, "<g class=\"%s\">", m.Class)
		for _, c := range m.Marks {
			mark(w, c)
		}
		w.WriteString("</g>\n")
	default:
		fmt.Fprintf(w, "<path class=\"%s\" d=\"%s\"/>\n", m.Class, m.D)
	}
}

// look writes a picture as a page in the real styles, when THREEPOST_LOOK
// names a folder, to be opened in a browser.
func look(t testing.TB, name string, pictures ...Picture) {
	folder := os.Getenv("THREEPOST_LOOK")
	if folder == "" {
		return
	}
	web, err := filepath.Abs(filepath.Join("..", "..", "assets", "page", "web"))
	require.NoError(t, err)
	fonts, err := filepath.Abs(filepath.Join("..", "..", "assets", "fonts"))
	require.NoError(t, err)
	var w strings.Builder
	w.WriteString("<!doctype html><meta charset=utf-8><style>")
	for _, weight := range [...]int{400, 500, 600, 700} {
		fmt.Fprintf(&w, "@font-face{font-family:T;font-weight:%d;src:url(file://%s/AtkinsonHyperlegibleNext-%d.ttf)}", weight, fonts, weight)
	}
	fmt.Fprintf(&w, "</style><link rel=stylesheet href=\"file://%s/style.css\"><link rel=stylesheet href=\"file://%s/picture.css\">", web, web)
	w.WriteString("<style>html,body{font-family:T;margin:0;background:var(--bisque);height:auto;overflow:auto;display:block}svg.picture{margin:12px;outline:1px dotted #ccc;display:inline-block}</style>")
	w.WriteString("<svg class=hatches><defs>")
	for _, h := range []struct {
		id   string
		step int
	}{{"brick", 7}, {"watch", 8}, {"problem", 5}, {"cones", 6}} {
		fmt.Fprintf(&w, "<pattern id=\"hatch-%s\" width=\"%d\" height=\"%d\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path class=\"%s-line\" d=\"M0 0V%d\"/></pattern>", h.id, h.step, h.step, h.id, h.step)
	}
	w.WriteString("</defs></svg>")
	for _, p := range pictures {
		w.WriteString(svg(p, ""))
	}
	require.NoError(t, os.WriteFile(filepath.Join(folder, name+".html"), []byte(w.String()), 0o644))
}

func TestLookAtElevations(t *testing.T) {
	e := easel(t)
	for _, name := range names {
		s := sample(t, name)
		big := e.Elevation(s, ElevationOptions{W: 508, H: 440, Active: min(2, len(s.Built.Levels)-1), Chosen: s.Built.Pots[0].Pot.String()})
		small := e.Elevation(s, ElevationOptions{W: 344, H: 360, Active: 1})
		look(t, "elevation-"+name, big, small)
		require.NotEmpty(t, big.Marks)
		require.NotEmpty(t, small.Marks)
	}
}

func TestLookAtTops(t *testing.T) {
	e := easel(t)
	for _, name := range names {
		s := sample(t, name)
		var list []Picture
		for v := range s.Built.Levels {
			list = append(list, e.Top(s, TopOptions{W: 600, H: 560, Level: v}))
		}
		list = append(list, e.Top(s, TopOptions{W: 360, H: 420, Level: len(s.Built.Levels) - 1, Turn: 180}))
		look(t, "top-"+name, list...)
		require.NotEmpty(t, list)
	}
}

func BenchmarkTop(b *testing.B) {
	e, s := easel(b), sample(b, "studio")
	for b.Loop() {
		e.Top(s, TopOptions{W: 600, H: 560, Level: 5})
	}
}

func BenchmarkElevation(b *testing.B) {
	e, s := easel(b), sample(b, "studio")
	for b.Loop() {
		e.Elevation(s, ElevationOptions{W: 508, H: 440, Active: 2})
	}
}
