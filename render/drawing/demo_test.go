package drawing

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden files anew")

func loadFonts(t testing.TB) *Fonts {
	t.Helper()
	f, err := LoadFonts()
	require.NoError(t, err)
	return f
}

// golden compares with a file in testdata, or writes it with -update.
func golden(t *testing.T, name string, have []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, have, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, bytes.Equal(want, have), "%s differs; if the change is wanted, run the test with -update and look at it", name)
}

// demo draws one of everything: what the outputs are looked at with.
func demo(fonts *Fonts, paper Paper) Page {
	p := NewPen(fonts, paper).Titled("Everything < once & for all")
	right := paper.Width - 15
	p.Text(15, 22, "October glaze", Type(24, Bold))
	p.Text(right, 22, "Glaze · cone 6 · 1222 °C", Type(24, Bold).Held(Right))
	p.Line(15, 26, right, 26, Outline(1.7))
	p.Rect(15, 29, right-15, 10, Solid(Black))
	p.Text(paper.Width/2, 36, "Take this paper off before switching on", Type(16, SemiBold).Held(Middle).In(White))
	demoLetters(p, 48)
	demoLines(p, 90)
	demoPlan(p, Point{60, 190})
	demoElevation(p, 125, 140)
	y := 255.0
	for i, words := range []string{"1 full shelf", "6 half shelves", "3 posts 200"} {
		x := 15 + float64(i)*45
		p.Checkbox(x, y-3.4, 4)
		p.Text(x+6, y, words, Type(12, Regular))
	}
	return p.Page()
}

func demoLetters(p *Pen, y float64) {
	for i, w := range []Weight{Regular, Medium, SemiBold, Bold} {
		p.Text(15, y+6*float64(i), "0123456789 3×(100+10) ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ← ↑ → ↓ “a’s” – 4″ Łódź Žďár", Type(12, w))
	}
	p.TextWrapped(15, y+25, 80, 5.5, "Between 2 and post B, a pencil from each, handle to 1. Seven mugs round the edge clockwise from post A, handles inward.", Type(12, Regular))
	for i, turn := range []float64{0, 90, 200, 315} {
		x := 115 + 20*float64(i)
		p.Circle(x, y+30, 0.6, Solid(Black))
		p.Text(x, y+30, "turned", Type(12, Regular).Turned(turn))
	}
}

func demoLines(p *Pen, y float64) {
	styles := []Style{
		Outline(1.7), Outline(1.1), Outline(0.6), Outline(0.9).Dashed(5, 3), Outline(0.9).Dashed(2.5, 2.5),
		Outline(1.2).Dashed(0, 3).Rounded(), Outline(0.9).Dashed(6, 3).Coloured(RGB(0x25, 0x47, 0xB8)),
	}
	for i, s := range styles {
		p.Line(15, y+4*float64(i), 75, y+4*float64(i), s)
	}
	p.RoundedRect(85, y, 25, 12, 3, Outline(1.2).Filled(Grey(230)))
	p.Polygon([]Point{{120, y}, {145, y + 3}, {125, y + 14}}, Outline(3))
	p.Polygon([]Point{{150, y}, {175, y + 3}, {155, y + 14}}, Outline(3).Rounded())
	p.Polyline([]Point{{180, y}, {190, y + 14}, {183, y + 2}}, Outline(2))
	star := Polygon(At(97, y+16), At(91, y+33), At(106, y+22), At(88, y+22), At(103, y+33))
	p.Path(star, Outline(0.6))
	p.Hatch(star, 1.2, Outline(0.6))
	p.Arc(130, y+27, 8, 270, 450, Outline(1.2))
	p.Arc(130, y+29, 8, 90, -90, Outline(1.2).Dashed(3, 2))
	p.Clip(Circle(165, y+25, 9), func() {
		p.Rect(150, y+10, 30, 30, Solid(Grey(210)))
		for i := range 8 {
			p.Line(150, y+14+3*float64(i), 180, y+16+3*float64(i), Outline(1))
		}
		p.Clip(Rect(165, y+10, 20, 30), func() { p.Rect(150, y+22, 30, 5, Solid(Black)) })
	})
}

// demoPlan draws a small top view at 1 : 5 in the kiln's own frame.
func demoPlan(p *Pen, centre Point) {
	p.Group(Stretch(0.2, -0.2).Then(Move(centre.X, centre.Y)), func() {
		p.Circle(0, 0, 205, Outline(1.7).Filled(White))
		for i := range 6 {
			at := Point{}.Toward(180-float64(60*i), 130) // bearings run mirrored in here
			p.Circle(at.X, at.Y, 52, Outline(1.1).Filled(White))
			p.Circle(at.X, at.Y, 36, Outline(0.9).Dashed(0, 2.4).Rounded())
			p.Text(at.X, at.Y-5, fmt.Sprint(i+1), Type(16, Bold).Held(Middle))
			p.Text(at.X, at.Y-32, "m", Type(10, Regular).Held(Middle))
		}
		p.Line(-12, 0, 12, 0, Outline(0.9))
		p.Text(0, -7, "8", Type(12, Regular).Held(Middle).Haloed(2))
		p.Rect(-70, 175, 35, 35, Solid(Black))
		p.Text(-52, 185, "A", Type(12, Bold).Held(Middle).In(White))
	})
}

func demoElevation(p *Pen, x, y float64) {
	wall := Rect(x, y, 65, 90)
	var frame Path
	frame = append(frame, wall...)
	frame = append(frame, Polygon(At(x+4, y+4), At(x+4, y+86), At(x+61, y+86), At(x+61, y+4))...)
	p.Hatch(frame, 1.2, Outline(0.5).Coloured(Grey(120)))
	p.Path(wall, Outline(1.7))
	p.Rect(x+4, y+4, 57, 82, Outline(1.7))
	p.Rect(x+8, y+50, 49, 3, Solid(Black))
	p.Rect(x+15, y+53, 6, 33, Outline(0.9).Filled(White))
	p.Text(x+19.5, y+69, "150", Type(12, SemiBold).Held(Middle).Turned(270))
}

func TestDemoIsClean(t *testing.T) {
	fonts := loadFonts(t)
	for _, paper := range []Paper{A4(), Letter()} {
		rules := Rules{Margin: 10, Smallest: 10, Apart: 0.2, Covered: true, Struck: true}
		require.Empty(t, Check(fonts, demo(fonts, paper), rules), paper.Name)
	}
}

func TestDemoDump(t *testing.T) {
	golden(t, "demo.txt", []byte(Dump(demo(loadFonts(t), A4()))))
}
