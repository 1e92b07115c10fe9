package elevation

import (
	"bytes"
	"flag"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/internal/sample"
)

var update = flag.Bool("update", false, "write the golden files anew")

func built(t testing.TB, l *layout.Load) *stacks.Built {
	t.Helper()
	b, err := stacks.Build(l)
	require.NoError(t, err)
	return b
}

func drawn(t testing.TB, b *stacks.Built, o Options) (drawing.Page, View) {
	t.Helper()
	fonts, err := drawing.LoadFonts()
	require.NoError(t, err)
	pen := drawing.NewPen(fonts, drawing.A4())
	v := NewView(b, Fit(b, 88, 100), 105, 40)
	Draw(pen, v, b, o)
	return pen.Page(), v
}

func writing() Options { return Options{Figure: measure.FormatFile, Letters: true} }

// rects are the black rectangles of a page.
func blackRects(page drawing.Page) [][4]float64 {
	var list [][4]float64
	for _, item := range page.Items {
		s, ok := item.(drawing.Shape)
		if !ok || s.Style.Fill != drawing.Black || len(s.Path) != 5 {
			continue
		}
		a, c := s.Path[0].P[0], s.Path[2].P[0]
		list = append(list, [4]float64{a.X, a.Y, c.X, c.Y})
	}
	return list
}

// The figures are those of the load, taken to paper by hand: the kiln is 712
// across and 686 high; at 1 : 8.5 a mm of paper is 8.5 mm of kiln.
func TestShelvesAreToScale(t *testing.T) {
	b := built(t, sample.October())
	page, v := drawn(t, b, writing())
	require.InDelta(t, 9, v.Per, 1e-9, "712 / (88 - 2 x 2.8) is 8.64, the next half is 9")
	require.InDelta(t, 686.0/9, v.Floor-v.Y(686), 1e-9)
	require.InDelta(t, 712.0/9+2*wallShown, v.Right()-v.Left(), 1e-9)
	rects := blackRects(page)
	for i := range b.Shelves {
		s := &b.Shelves[i]
		lo, hi := s.Outline.Bounds()
		want := [4]float64{v.X(lo[0]), v.Y(s.Top), v.X(hi[0]), v.Y(s.Bottom)}
		found := false
		for _, r := range rects {
			near := true
			for k := range r {
				near = near && math.Abs(r[k]-want[k]) < 0.001
			}
			found = found || near
		}
		require.True(t, found, "shelf %d at %v", i, want)
	}
}

func TestOnlyFrontLinesAreShown(t *testing.T) {
	var names []string
	for _, l := range Shown(built(t, sample.October())) {
		names = append(names, l.Name)
	}
	require.Equal(t, []string{"B", "A", "F", "E"}, names, "C and D stand behind A and F")
}

func TestFiguresStandOnTheirPosts(t *testing.T) {
	b := built(t, sample.October())
	page, v := drawn(t, b, writing())
	count := map[string]int{}
	for _, text := range drawing.Texts(page) {
		count[text.Words]++
		if text.Words == "125" {
			require.Equal(t, 270.0, text.Style.Turn)
			z := (v.Floor - text.At.Y) * v.Per
			require.True(t, z > 44 && z < 169, "the post of 125 stands from 44 to 169, its figure at %.0f", z)
		}
	}
	require.Equal(t, map[string]int{"A": 1, "B": 1, "E": 1, "F": 1, "125": 2, "200": 2, "100": 2, "150": 2, "75": 4}, count,
		"25 and 50 are too short for 12 pt, spacers are ink")
	bare, _ := drawn(t, b, Options{})
	require.Empty(t, drawing.Texts(bare))
}

func TestFarWareIsGrey(t *testing.T) {
	b := built(t, sample.October())
	page, _ := drawn(t, b, Options{})
	grey, ink := 0, 0
	for _, item := range page.Items {
		if s, ok := item.(drawing.Shape); ok && s.Style.Fill == drawing.White {
			switch s.Style.Stroke {
			case frame.FarInk:
				grey++
			case drawing.Black:
				ink++
			}
		}
	}
	require.Greater(t, grey, 20)
	require.Greater(t, ink, 20)
}

func TestSilhouettesAreAsHighAndWideAsTheWare(t *testing.T) {
	for _, load := range []*layout.Load{sample.October(), sample.Attic(), sample.Barn()} {
		b := built(t, load)
		for i := range b.Pots {
			p := &b.Pots[i]
			s := Of(p)
			if p.Ware == nil {
				require.InDelta(t, p.Body.Height, s.Top, 1e-6)
				continue
			}
			allow := 2.0 // high
			require.InDelta(t, p.Body.Height-allow, s.Top, 0.01, p.Pot.String())
			require.GreaterOrEqual(t, p.At[0]+s.Min, p.Solid.Min[0]-0.01, p.Pot.String())
			require.LessOrEqual(t, p.At[0]+s.Max, p.Solid.Max[0]+0.01, p.Pot.String())
		}
	}
}

func TestHandleReachesWhereItPoints(t *testing.T) {
	b := built(t, sample.October())
	for i := range b.Pots {
		p := &b.Pots[i]
		if p.Ware == nil || p.Ware.Name != "mug" {
			continue
		}
		s := Aside(p) // body 86 across, the handle of a mug reaches 0.44 of it
		require.InDelta(t, -43, s.Min, 0.01)
		require.InDelta(t, 43+38, s.Max, 0.6)
		left := kindOf(p.Body, p.Ware, nil, 270)
		require.InDelta(t, -s.Max, left.Min, 0.01)
		toward := kindOf(p.Body, p.Ware, nil, 180)
		require.InDelta(t, 43, toward.Max, 0.01)
		return
	}
	t.Fatal("no mug is set")
}

// Law: the drawn side passes through every knot and leaves no interval of two.
func TestProfileStaysBetweenItsKnots(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(t, "n")
		z := 0.0
		var knots []layout.Knot
		for i := range n {
			if i > 0 {
				z += rapid.Float64Range(0, 60).Draw(t, "dz")
			}
			knots = append(knots, layout.Knot{Height: z, Diameter: rapid.Float64Range(0, 300).Draw(t, "d")})
		}
		s := newSide(knots, 0.5)
		path := s.outline(0)
		at := path[0].P[0]
		for i := 1; i < n; i++ {
			seg := path[i]
			lo, hi := math.Min(s.r[i-1], s.r[i])-1e-6, math.Max(s.r[i-1], s.r[i])+1e-6
			end := seg.P[0]
			if seg.Op == drawing.CubicTo {
				end = seg.P[2]
				for k := 0; k <= 10; k++ {
					u := float64(k) / 10
					w := 1 - u
					x := w*w*w*at.X + 3*w*w*u*seg.P[0].X + 3*w*u*u*seg.P[1].X + u*u*u*seg.P[2].X
					if x < lo || x > hi {
						t.Fatalf("piece %d leaves %v to %v: %v", i, lo, hi, x)
					}
				}
			}
			if math.Abs(end.X-s.r[i]) > 1e-9 || math.Abs(end.Y-s.z[i]) > 1e-9 {
				t.Fatalf("knot %d is missed", i)
			}
			at = end
		}
	})
}

func TestFitIsTheLargestScaleThatGoes(t *testing.T) {
	b := built(t, sample.October())
	for _, size := range [][2]float64{{88, 100}, {50, 300}, {300, 60}, {20, 20}, {2000, 2000}} {
		per := Fit(b, size[0], size[1])
		w, h := Size(b, per)
		require.LessOrEqual(t, w, size[0])
		require.LessOrEqual(t, h, size[1])
		if per > 1 {
			w, h = Size(b, per-0.5)
			require.True(t, w > size[0] || h > size[1])
		}
	}
}

func TestAnEmptyKilnIsDrawn(t *testing.T) {
	l := sample.October()
	l.Towers = nil
	page, _ := drawn(t, built(t, l), writing())
	require.NotEmpty(t, page.Items)
}

func TestGolden(t *testing.T) {
	for name, load := range map[string]*layout.Load{"october": sample.October(), "attic": sample.Attic(), "barn": sample.Barn()} {
		page, _ := drawn(t, built(t, load), writing())
		have := []byte(drawing.Dump(page))
		path := filepath.Join("testdata", name+".txt")
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(path, have, 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.True(t, bytes.Equal(want, have), "%s differs; if the change is wanted, run the test with -update and look at it", path)
	}
}

func BenchmarkDraw(b *testing.B) {
	fonts, err := drawing.LoadFonts()
	require.NoError(b, err)
	load := built(b, sample.October())
	v := NewView(load, 9, 105, 40)
	for b.Loop() {
		Draw(drawing.NewPen(fonts, drawing.A4()), v, load, writing())
	}
}
