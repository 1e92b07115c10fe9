package drawing

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"pgregory.net/rapid"
)

// tenthMM is the dots per inch that make a dot a tenth of a mm.
const tenthMM = 254

func pngOf(t testing.TB, fonts *Fonts, page Page, dpi float64) ([]byte, image.Image) {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, PNG(&b, fonts, page, dpi))
	m, err := png.Decode(bytes.NewReader(b.Bytes()))
	require.NoError(t, err)
	return b.Bytes(), m
}

func greyAt(m image.Image, x, y int) uint8 { return color.GrayModel.Convert(m.At(x, y)).(color.Gray).Y }

// blackOf is the blackened area in dots.
func blackOf(m image.Image) float64 {
	sum := 0
	for y := m.Bounds().Min.Y; y < m.Bounds().Max.Y; y++ {
		for x := m.Bounds().Min.X; x < m.Bounds().Max.X; x++ {
			sum += 255 - int(greyAt(m, x, y))
		}
	}
	return float64(sum) / 255
}

func TestPNGSize(t *testing.T) {
	fonts := loadFonts(t)
	for _, row := range []struct {
		paper         Paper
		dpi           float64
		width, height int
	}{
		{A4(), 100, 827, 1169},      // 210/25.4 x 100 = 826.8, 297/25.4 x 100 = 1169.3
		{Letter(), 100, 850, 1100},  // 8.5 x 11 in
		{Letter(), 300, 2550, 3300}, // 8.5 x 11 in
	} {
		_, m := pngOf(t, fonts, NewPen(fonts, row.paper).Page(), row.dpi)
		require.Equal(t, image.Pt(row.width, row.height), m.Bounds().Size())
	}
}

func TestPNGHasTheSameBytes(t *testing.T) {
	a, b := loadFonts(t), loadFonts(t)
	first, _ := pngOf(t, a, demo(a, A4()), 80)
	second, _ := pngOf(t, b, demo(b, A4()), 80)
	require.True(t, bytes.Equal(first, second))
}

func TestPictureHasTheSameDots(t *testing.T) {
	fonts := loadFonts(t)
	m, err := Picture(fonts, demo(fonts, A4()), 100)
	require.NoError(t, err)
	golden(t, "demo.dots.sha256", fmt.Appendf(nil, "%x\n", sha256.Sum256(m.Pix)))
}

func TestPNGIsGreyWhereThePageIs(t *testing.T) {
	fonts := loadFonts(t)
	p := NewPen(fonts, A4())
	p.Circle(50, 50, 20, Solid(Grey(100)))
	_, m := pngOf(t, fonts, p.Page(), 50)
	require.IsType(t, &image.Gray{}, m)
	p.Circle(50, 50, 10, Solid(RGB(0x25, 0x47, 0xB8)))
	_, m = pngOf(t, fonts, p.Page(), 50)
	require.NotEqual(t, color.GrayModel, m.ColorModel())
	r, g, b, _ := m.At(98, 98).RGBA()
	require.Equal(t, [3]uint32{0x25, 0x47, 0xB8}, [3]uint32{r >> 8, g >> 8, b >> 8})
}

func TestPNGDots(t *testing.T) {
	fonts := loadFonts(t)
	p := NewPen(fonts, Paper{"card", 20, 20})
	p.Rect(2, 2, 6, 6, Solid(Black))
	p.Rect(10.05, 2, 2, 6, Solid(Black)) // its sides halve dots
	p.Clip(Rect(2, 10, 3, 6), func() {
		p.Clip(Rect(3, 10, 10, 3), func() { p.Rect(0, 0, 20, 20, Solid(Black)) })
	})
	p.Rect(12, 12, 4, 4, Outline(PT(1)).Filled(Grey(200)))
	_, m := pngOf(t, fonts, p.Page(), tenthMM)
	for _, row := range []struct {
		x, y int
		want uint8
		what string
	}{
		{0, 0, 255, "paper"}, {50, 50, 0, "inside"}, {20, 20, 0, "first dot"}, {19, 20, 255, "left of it"},
		{79, 79, 0, "last dot"}, {80, 79, 255, "right of it"},
		{100, 40, 128, "half a dot"}, {110, 40, 0, "whole dot"}, {120, 40, 128, "half a dot"},
		{35, 115, 0, "in both clips"}, {25, 115, 255, "in the outer only"}, {55, 115, 255, "in the inner only"}, {35, 145, 255, "below the inner"},
		{115, 140, 0, "line, outer half"}, {124, 140, 0, "line, inner half"}, {130, 140, 200, "fill"}, {114, 140, 255, "outside"},
		{115, 115, 0, "pointed corner"},
	} {
		require.InDelta(t, row.want, greyAt(m, row.x, row.y), 1, row.what)
	}
}

func TestPNGAreas(t *testing.T) {
	fonts := loadFonts(t)
	for name, row := range map[string]struct {
		draw func(p *Pen)
		want float64 // mm2
	}{
		"disc":           {func(p *Pen) { p.Circle(40.03, 40.07, 30, Solid(Black)) }, math.Pi * 900},
		"ring":           {func(p *Pen) { p.Circle(40, 40, 30, Outline(PT(2))) }, math.Pi * (31*31 - 29*29)},
		"slanted line":   {func(p *Pen) { p.Line(5, 5, 65, 75, Outline(PT(1.5))) }, 1.5 * math.Hypot(60, 70)},
		"round line":     {func(p *Pen) { p.Line(5, 5, 65, 75, Outline(PT(4)).Rounded()) }, 4*math.Hypot(60, 70) + math.Pi*4},
		"off the page":   {func(p *Pen) { p.Rect(-50, -50, 60, 60, Solid(Black)) }, 100},
		"wider than all": {func(p *Pen) { p.Rect(-500, 20, 9000, 3, Solid(Black)) }, 80 * 3},
		"huge disc":      {func(p *Pen) { p.Circle(40, 40, 5000, Solid(Black)) }, 6400},
	} {
		p := NewPen(fonts, Paper{"card", 80, 80})
		row.draw(p)
		_, m := pngOf(t, fonts, p.Page(), tenthMM) // 800 dots: more than one tile
		require.InEpsilon(t, row.want, blackOf(m)/100, 0.004, name)
	}
}

func TestPNGTilesHaveNoSeams(t *testing.T) {
	fonts := loadFonts(t)
	rapid.Check(t, func(rt *rapid.T) {
		var at []Point
		for range 3 {
			at = append(at, Point{rapid.Float64Range(-30, 110).Draw(rt, "x"), rapid.Float64Range(-30, 110).Draw(rt, "y")})
		}
		p := NewPen(fonts, Paper{"card", 80, 80})
		p.Polygon(at, Solid(Black))
		m, err := Picture(fonts, p.Page(), tenthMM)
		require.NoError(rt, err)
		for _, x := range []int{510, 511, 512, 513} {
			for y := 0; y < 800; y += 7 {
				c := Point{(float64(x) + 0.5) / 10, (float64(y) + 0.5) / 10}
				near := false
				for i := range at {
					near = near || toSegment(c, at[i], at[(i+1)%3]) < 0.15
				}
				if near {
					continue
				}
				want := uint8(255)
				if inside([]line{{at: at, closed: true}}, c) {
					want = 0
				}
				require.InDelta(rt, want, m.RGBAAt(x, y).R, 1, "%d %d", x, y)
			}
		}
	})
}

func TestPNGTextAgainstTheFontLibrary(t *testing.T) {
	fonts := loadFonts(t)
	const size, baseline = 40, 60
	face := faceAt(t, Bold, size)
	for _, words := range []string{"3×(100+10)", "right 2", "Żółw & Ölkrug"} {
		p := NewPen(fonts, Paper{"card", MM(400), MM(80)})
		p.Text(MM(10), MM(baseline), words, Type(size, Bold))
		_, have := pngOf(t, fonts, p.Page(), 72)
		want := image.NewGray(have.Bounds())
		for i := range want.Pix {
			want.Pix[i] = 255
		}
		d := font.Drawer{Dst: want, Src: image.Black, Face: face, Dot: fixed.P(10, baseline)}
		d.DrawString(words)
		require.InEpsilon(t, blackOf(want), blackOf(have), 0.02, words)
		far := 0
		for y := range 80 {
			for x := range 400 {
				if a, b := int(greyAt(want, x, y)), int(greyAt(have, x, y)); a-b > 60 || b-a > 60 {
					far++
				}
			}
		}
		require.Less(t, far, 30, words) // the library sets each letter on quarter dots
	}
}

func TestHaloClearsTheGround(t *testing.T) {
	fonts := loadFonts(t)
	p := NewPen(fonts, Paper{"card", 30, 30})
	p.Rect(0, 0, 30, 30, Solid(Black))
	p.Text(15, 20, "8", Type(24, Regular).Held(Middle).In(Black).Haloed(3))
	_, m := pngOf(t, fonts, p.Page(), tenthMM)
	ink, _ := fonts.Ink(Texts(p.Page())[0])
	// The lower bowl of the figure is its widest part.
	left, bowl := ink[0].X, between(ink[0], ink[3], 0.72).Y
	require.EqualValues(t, 255, greyAt(m, int(left*10)-6, int(bowl*10)))
	require.EqualValues(t, 0, greyAt(m, int((left-MM(3))*10)-3, int(bowl*10)))
	require.Less(t, greyAt(m, int(left*10)+3, int(bowl*10)), uint8(5))
}

func TestPNGRefusesSizesBeyondReason(t *testing.T) {
	fonts := loadFonts(t)
	for _, dpi := range []float64{0, -100, math.NaN(), math.Inf(1), 1e6, 0.01} {
		require.Error(t, PNG(&bytes.Buffer{}, fonts, NewPen(fonts, A4()).Page(), dpi), "%g", dpi)
	}
}
