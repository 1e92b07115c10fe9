package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// kinds draws a page and lists what Check finds.
func kinds(fonts *Fonts, rules Rules, draw func(p *Pen)) []Kind {
	p := NewPen(fonts, A4())
	draw(p)
	var out []Kind
	for _, c := range Check(fonts, p.Page(), rules) {
		out = append(out, c.Kind)
	}
	return out
}

func TestCheckOnEachSideOfItsLimits(t *testing.T) {
	fonts := loadFonts(t)
	s := Type(12, Regular)
	black := Solid(Black)
	all := Rules{Covered: true, Struck: true}
	// An "H" stands on its baseline and is a capital high: 668/1000 of 12 pt.
	high := MM(12 * 0.668)
	for _, row := range []struct {
		what  string
		rules Rules
		want  []Kind
		draw  func(p *Pen)
	}{
		{"clear", all, nil, func(p *Pen) { p.Text(20, 20, "H", s); p.Text(20, 20+high+0.05, "H", s) }},
		{"overlap", all, []Kind{Overlap}, func(p *Pen) { p.Text(20, 20, "H", s); p.Text(20, 20+high-0.05, "H", s) }},
		{"apart", Rules{Apart: 1}, nil, func(p *Pen) { p.Text(20, 20, "H", s); p.Text(20, 20+high+1.05, "H", s) }},
		{"too near", Rules{Apart: 1}, []Kind{Overlap}, func(p *Pen) { p.Text(20, 20, "H", s); p.Text(20, 20+high+0.95, "H", s) }},
		{"turned past each other", all, nil, func(p *Pen) {
			p.Text(20, 20, "a long diagonal", s.Turned(45))
			p.Text(26, 20, "a long diagonal", s.Turned(45))
		}},
		{"turned across", all, []Kind{Overlap}, func(p *Pen) {
			p.Text(20, 20, "a long diagonal", s.Turned(45))
			p.Text(20, 32, "a long level line", s)
		}},
		{"a space only", all, nil, func(p *Pen) { p.Text(20, 20, "H", s); p.Text(20, 20, " ", s) }},
		{"in the margin", Rules{Margin: 10}, nil, func(p *Pen) { p.Text(20, 287, "H", s) }},
		{"below it", Rules{Margin: 10}, []Kind{Outside}, func(p *Pen) { p.Text(20, 287.1, "H", s) }},
		{"right of it", Rules{Margin: 10}, []Kind{Outside}, func(p *Pen) { p.Text(201, 100, "H", s.Held(Right)); p.Text(100, 100, "H", s) }},
		{"off the page", Rules{}, []Kind{Outside}, func(p *Pen) { p.Text(-1, 100, "H", s) }},
		{"large enough", Rules{Smallest: 12}, nil, func(p *Pen) { p.Text(20, 20, "H", s) }},
		{"too small", Rules{Smallest: 12}, []Kind{TooSmall}, func(p *Pen) { p.Text(20, 20, "H", Type(11.9, Regular)) }},
		{"no glyph", Rules{}, []Kind{NoGlyph}, func(p *Pen) { p.Text(20, 20, "a釉", s) }},
		{"whole in a clip", Rules{}, nil, func(p *Pen) { p.Clip(Rect(10, 10, 50, 20), func() { p.Text(20, 20, "Heron", s) }) }},
		{"cut", Rules{}, []Kind{CutOff}, func(p *Pen) { p.Clip(Rect(10, 10, 20, 20), func() { p.Text(20, 20, "Heron, twelve-sided", s) }) }},
		{"covered", all, []Kind{Covered}, func(p *Pen) { p.Text(20, 20, "Heron", s); p.Rect(15, 15, 7, 10, Solid(White)) }},
		{"beside", all, nil, func(p *Pen) { p.Text(20, 20, "Heron", s); p.Rect(10, 15, 9.9, 10, Solid(White)) }},
		{"on a ground", all, nil, func(p *Pen) { p.Rect(15, 15, 30, 10, black); p.Text(20, 20, "Heron", s.In(White)) }},
		{"covered beyond a clip", all, nil, func(p *Pen) {
			p.Text(20, 20, "Heron", s)
			p.Clip(Rect(80, 10, 20, 20), func() { p.Rect(15, 15, 70, 10, black) })
		}},
		{"struck before", all, []Kind{Struck}, func(p *Pen) { p.Line(10, 19, 60, 19, Outline(1)); p.Text(20, 20, "Heron", s) }},
		{"struck after", all, []Kind{Struck}, func(p *Pen) { p.Text(20, 20, "Heron", s); p.Line(10, 19, 60, 19, Outline(1)) }},
		{"underlined", all, nil, func(p *Pen) { p.Line(10, 20.6, 60, 20.6, Outline(1)); p.Text(20, 20, "Heron", s) }},
		{"under a halo", all, nil, func(p *Pen) { p.Line(10, 19, 60, 19, Outline(1)); p.Text(20, 20, "Heron", s.Haloed(2)) }},
		{"over a halo", all, []Kind{Struck}, func(p *Pen) { p.Text(20, 20, "Heron", s.Haloed(2)); p.Line(10, 19, 60, 19, Outline(1)) }},
		{"hidden line", all, nil, func(p *Pen) {
			p.Line(10, 19, 60, 19, Outline(1))
			p.Circle(25, 19, 14, Outline(1).Filled(White))
			p.Text(20, 20, "Heron", s)
		}},
		{"halo beside", all, nil, func(p *Pen) { p.Text(20, 20, "H", s); p.Text(20, 20+high+0.8, "H", s.Haloed(2)) }},
		{"halo over", all, []Kind{Covered}, func(p *Pen) { p.Text(20, 20, "H", s); p.Text(20, 20+high+0.6, "H", s.Haloed(2)) }},
		{"not asked", Rules{}, nil, func(p *Pen) { p.Text(20, 20, "Heron", s); p.Rect(10, 10, 50, 50, black) }},
	} {
		require.Equal(t, row.want, kinds(fonts, row.rules, row.draw), row.what)
	}
}

func TestComplaintTellsHaveAndNeed(t *testing.T) {
	fonts := loadFonts(t)
	p := NewPen(fonts, A4())
	p.Text(20, 20, "rim", Type(9, Regular))
	found := Check(fonts, p.Page(), Rules{Smallest: 12})
	require.Len(t, found, 1)
	require.Equal(t, `too small: "rim" at 20, 20 (have 9, need 12)`, found[0].String())
	p.Text(20, 20, "lid", Type(12, Regular))
	found = Check(fonts, p.Page(), Rules{})
	require.Len(t, found, 1)
	require.Equal(t, `"rim"`, found[0].Other)
	require.Negative(t, found[0].Have)
}

func TestOverlapSeesWhatSamplesSee(t *testing.T) {
	fonts := loadFonts(t)
	draw := func(rt *rapid.T, name string) printed {
		f := func(lo, hi float64, what string) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name+what) }
		text := Text{At: Point{f(0, 20, "x"), f(0, 20, "y")}, Words: "mug", Style: Type(14, Bold).Turned(f(0, 360, "turn"))}
		ink, _ := fonts.Ink(text)
		return printed{ink: ink, text: text}
	}
	seen := 0
	rapid.Check(t, func(rt *rapid.T) {
		a, b := draw(rt, "a"), draw(rt, "b")
		require.InDelta(rt, apart(a, b), apart(b, a), 1e-9)
		shared, nearest := false, math.Inf(1)
		for _, p := range samples(a.ink) {
			shared = shared || inside([]line{{at: b.ink[:], closed: true}}, p)
			for i := range 4 {
				nearest = min(nearest, toSegment(p, b.ink[i], b.ink[(i+1)%4]))
			}
		}
		if shared {
			seen++
			require.Negative(rt, apart(a, b))
		} else {
			require.LessOrEqual(rt, apart(a, b), nearest+1e-9)
		}
	})
	require.Positive(t, seen)
}
