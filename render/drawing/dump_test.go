package drawing

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestDumpRows(t *testing.T) {
	fonts := loadFonts(t)
	for _, row := range []struct {
		draw func(p *Pen)
		want string
	}{
		{func(p *Pen) { p.Line(1, 2, 3.456, -0.001, Outline(0.9)) }, "path M 1 2 L 3.46 0 line 0.9 #000000"},
		{func(p *Pen) { p.Rect(1, 2, 3, 4, Solid(Grey(16))) }, "path M 1 2 L 4 2 L 4 6 L 1 6 Z fill #101010"},
		{func(p *Pen) { p.Line(0, 0, 1, 0, Outline(1).Dashed(0, 2.5).Rounded().Coloured(RGB(255, 0, 10))) },
			"path M 0 0 L 1 0 line 1 #ff000a dash 0 2.5 round"},
		{func(p *Pen) { p.Path(LinePath(At(0, 0), At(1, 1)), Style{}) }, "path M 0 0 L 1 1"},
		{func(p *Pen) { p.Text(1, 2, `a "b"`, Type(12, Bold).Turned(-90).In(White).Haloed(1.5).Held(Right)) },
			`text 1 2 right 12 pt 700 "a \"b\"" wide 9.48 turn -90 #ffffff halo 1.5`},
		{func(p *Pen) { p.Clip(Rect(0, 0, 1, 1), func() { p.Line(0, 0, 1, 0, Outline(1)) }) },
			"clip M 0 0 L 1 0 L 1 1 L 0 1 Z\n  path M 0 0 L 1 0 line 1 #000000"},
		{func(p *Pen) { p.Titled("Level 2") }, ""},
	} {
		p := NewPen(fonts, Paper{"card", 50, 40})
		row.draw(p)
		head, rest, _ := strings.Cut(Dump(p.Page()), "\n")
		require.True(t, strings.HasPrefix(head, "page 50 x 40"))
		require.Equal(t, row.want, strings.TrimSuffix(rest, "\n"))
	}
	require.Equal(t, "page 50 x 40 \"Level 2\"\n", Dump(NewPen(fonts, Paper{"card", 50, 40}).Titled("Level 2").Page()))
}

func TestDumpSeesEveryHundredth(t *testing.T) {
	fonts := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.IntRange(-9999, 29999).Draw(t, "x"), rapid.IntRange(-9999, 29999).Draw(t, "y")
		draw := func(x, y int) string {
			p := NewPen(fonts, A4())
			p.Line(float64(x)/100, float64(y)/100, 0, 0, Outline(1))
			return Dump(p.Page())
		}
		require.Equal(t, draw(x, y), draw(x, y))
		require.NotEqual(t, draw(x, y), draw(x+1, y))
		require.NotEqual(t, draw(x, y), draw(x, y+1))
	})
}

func TestDecimal(t *testing.T) {
	for _, row := range []struct {
		v      float64
		places int
		want   string
	}{
		{0, 2, "0"}, {-0.001, 2, "0"}, {1, 2, "1"}, {100, 0, "100"}, {1.5, 2, "1.5"}, {1.006, 2, "1.01"},
		{-2.25, 1, "-2.2"}, {1e-9, 3, "0"}, {-120, 2, "-120"},
	} {
		require.Equal(t, row.want, decimal(row.v, row.places))
	}
}
