package views

import (
	"fmt"
	"html"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/render/drawing"
)

type vec = plane.Vec

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

// BenchmarkTopCrowded is the most crowded level of the front-loader.
func BenchmarkTopCrowded(b *testing.B) {
	e, s := easel(b), sample(b, "front-loader")
	most, level := 0, 0
	for v := range s.Built.Levels {
		n := len(s.Built.Levels[v].Pots)
		for _, u := range Beside(s.Built, v) {
			n += len(s.Built.Levels[u].Pots)
		}
		if n > most {
			most, level = n, v
		}
	}
	for b.Loop() {
		e.Top(s, TopOptions{W: 900, H: 700, Level: level})
	}
	b.ReportMetric(float64(most), "pots")
}

func BenchmarkElevation(b *testing.B) {
	e, s := easel(b), sample(b, "studio")
	for b.Loop() {
		e.Elevation(s, ElevationOptions{W: 508, H: 440, Active: 2})
	}
}

// waiting are plank items of a load: every other row waits.
func waiting(t testing.TB, s Subject) []PlankItem {
	bodies, _ := stacks.Bodies(s.Built.Load)
	var list []PlankItem
	for i := range s.Built.Load.Ware {
		w := &s.Built.Load.Ware[i]
		it := PlankItem{Ware: w, Body: bodies[i], Count: min(w.Count, 3), Set: i%2 == 1, Chosen: i == 2}
		it.Title, it.Note = fmt.Sprintf("%d %s", it.Count, w.Name), strings.Trim(w.Owner+" "+w.Ticket+" · left 2 is full", " ·")
		if it.Set {
			it.Title, it.Note = w.Name, fmt.Sprintf("all %d set", w.Count)
		}
		list = append(list, it)
	}
	return list
}

func boxOf(s Subject) []BoxPost {
	var list []BoxPost
	for i, p := range s.Built.Load.Furniture.Posts {
		list = append(list, BoxPost{Height: p.Height, Said: measure.FormatFile(p.Height), Left: (i * 3) % 5, Spacer: p.Spacer})
	}
	return list
}

func TestLookAtTheRest(t *testing.T) {
	e, s := easel(t), sample(t, "studio")
	b := s.Built
	find := func(name string) int {
		for i := range b.Pots {
			if b.Pots[i].Pot.String() == name {
				return i
			}
		}
		t.Fatal(name)
		return -1
	}
	lift := 7
	for v := range b.Levels {
		if b.Levels[v].Name == "left 3" {
			lift = v
		}
	}
	z := b.Levels[lift].Bottom
	lifted := e.Lifted(s, LiftedOptions{W: 660, H: 540, Level: lift, Hung: z - 15, Stops: []Stop{
		{z + 35, "150", layout.Problem, false}, {z + 5, "100+10+10", layout.Note, false}, {z, "75+10", layout.Note, true},
		{z - 5, "75+5", layout.Note, false}, {z - 10, "75", layout.Watch, false}, {z - 35, "50", layout.Problem, false}}})
	look(t, "lifted", lifted)

	pot, pair := find("mug 4"), find("mug 7")
	top := TopOptions{W: 616, H: 560, Level: b.Pots[pot].Level, Held: "mug 4"}
	p := e.Top(s, top)
	at := b.Pots[pot].At
	at[0] += 3
	at[1] += 5
	ring := b.Pots[pot].At
	ring[1] += 14
	bar := [2]vec{{at[0], at[1] + 43}, {b.Pots[pair].At[0], b.Pots[pair].At[1] - 43}}
	held := HeldOptions{Pot: pot, At: at, Turn: 30, Drawn: true, Ring: &ring, Flag: "2 mm, too close", Grade: layout.Problem, Pair: pair,
		Leader: &Leader{To: pair, Says: "4 goes in before 7", After: "after 4"}}
	held.Bar = &bar
	p.Marks = append(p.Marks, e.Held(s, top, held)...)
	look(t, "held", p)

	bodies, _ := stacks.Bodies(b.Load)
	filled, _, err := silhouette.Fill(b.Load.Ware[3])
	require.NoError(t, err)
	var asides []Picture
	for i := range b.Load.Ware {
		asides = append(asides, e.Aside(AsideOptions{W: 64, H: 48, Ware: &b.Load.Ware[i], Body: bodies[i], Chosen: i == 0, Per: 0.2}))
	}
	posts := []BalancePost{{"A", vec{-29, -303}, "3.1 kg"}, {"B", vec{-300, -50}, "4.0 kg"}, {"C", vec{-29, 303}, "2.2 kg"}}
	pictures := append([]Picture{
		e.Plank(PlankOptions{W: 1232, H: 136, Items: waiting(t, s)}),
		e.Box(BoxOptions{W: 508, H: 110, Posts: boxOf(s)}),
		e.Box(BoxOptions{W: 300, Posts: boxOf(s), Bare: true}),
		e.Profile(ProfileOptions{W: 330, H: 390, Ware: &filled, Body: bodies[3], Knot: 2, Flag: "92 wide at 76"}),
		e.Balance(BalanceOptions{W: 28, H: 34, Posts: posts, Point: vec{-110, 10}}),
		e.Balance(BalanceOptions{W: 240, H: 260, Posts: posts, Point: vec{-110, 10}, Large: true}),
		e.First(FirstOptions{W: 360, H: 540, Chamber: layout.Shape{Kind: layout.Sided, Sides: 12, Across: 580}, Height: 685, Across: 540, Thick: 18, Under: 50}),
		e.Small(s, SmallOptions{W: 130, H: 124, Done: []int{0, 1, 2, 5, 6}, Active: 3}),
		e.Act(s, ActOptions{W: 190, H: 380, Level: 5, Now: b.Levels[5].Pots[6:10], Stand: b.Levels[5].Pots[:6]}),
		e.Act(s, ActOptions{W: 360, H: 380, Level: 0, Now: b.Levels[0].Pots[6:10], Stand: b.Levels[0].Pots[:6]}),
	}, asides...)
	look(t, "rest", pictures...)
	for _, p := range pictures {
		require.NotEmpty(t, p.Marks)
	}
}
