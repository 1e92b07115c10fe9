package drawing

import (
	"fmt"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"threepost/assets"
)

// unitsPerEm is the grid of the embedded fonts; LoadFonts refuses others,
// because a PDF states widths in thousandths.
const unitsPerEm = 1000

// Fonts are the embedded fonts with their measures and outlines. They are
// read-only and may be shared by goroutines.
type Fonts struct {
	faces [4]face // 400, 500, 600, 700
}

// face is one weight. Everything is in thousandths of the type size, y down
// from the baseline.
type face struct {
	weight  Weight
	data    []byte
	letters map[rune]letter
	unknown letter
}

// letter is one glyph.
type letter struct {
	advance int
	ink     box // empty for a space
	outline Path
}

// LoadFonts reads the embedded fonts. It costs some milliseconds: load them
// once and share them.
func LoadFonts() (*Fonts, error) {
	f := &Fonts{}
	for i, w := range []Weight{Regular, Medium, SemiBold, Bold} {
		one, err := loadFace(w, assets.Font(int(w)))
		if err != nil {
			return nil, fmt.Errorf("font weight %d: %w", w, err)
		}
		f.faces[i] = one
	}
	return f, nil
}

// face gives the weight that is nearest; no weight is Regular.
func (f *Fonts) face(w Weight) *face {
	switch {
	case w == 0 || w < 450:
		return &f.faces[0]
	case w < 550:
		return &f.faces[1]
	case w < 650:
		return &f.faces[2]
	}
	return &f.faces[3]
}

// HasGlyph says whether the fonts can show a letter. All weights have the
// same letters.
func (f *Fonts) HasGlyph(r rune) bool {
	_, ok := f.faces[0].letters[r]
	return ok
}

// letter gives a glyph, or the empty box for one that the font lacks.
func (f *face) letter(r rune) letter {
	if l, ok := f.letters[r]; ok {
		return l
	}
	return f.unknown
}

func loadFace(w Weight, data []byte) (face, error) {
	one := face{weight: w, data: data, letters: map[rune]letter{}}
	parsed, err := sfnt.Parse(data)
	if err != nil {
		return one, err
	}
	if u := parsed.UnitsPerEm(); u != unitsPerEm {
		return one, fmt.Errorf("%d units per em, %d wanted", u, unitsPerEm)
	}
	var buf sfnt.Buffer
	if one.unknown, err = loadLetter(parsed, &buf, 0); err != nil {
		return one, err
	}
	// The fonts hold nothing beyond the arrows.
	for r := rune(0x20); r <= 0x2215; r++ {
		g, err := parsed.GlyphIndex(&buf, r)
		if err != nil {
			return one, err
		}
		if g == 0 {
			continue
		}
		if one.letters[r], err = loadLetter(parsed, &buf, g); err != nil {
			return one, err
		}
	}
	return one, nil
}

func loadLetter(f *sfnt.Font, buf *sfnt.Buffer, g sfnt.GlyphIndex) (letter, error) {
	em := fixed.I(unitsPerEm)
	advance, err := f.GlyphAdvance(buf, g, em, font.HintingNone)
	if err != nil {
		return letter{}, err
	}
	segments, err := f.LoadGlyph(buf, g, em, nil)
	if err != nil {
		return letter{}, err
	}
	l := letter{advance: advance.Round(), outline: glyphPath(segments)}
	l.ink = bounds(flatten(l.outline, 1))
	return l, nil
}

// glyphPath turns a glyph's lines and quadratic curves into a Path.
func glyphPath(segments sfnt.Segments) Path {
	var p Path
	var at Point
	for _, s := range segments {
		a, b, c := unit(s.Args[0]), unit(s.Args[1]), unit(s.Args[2])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if len(p) > 0 {
				p.Close()
			}
			p.Move(a)
			at = a
		case sfnt.SegmentOpLineTo:
			p.Line(a)
			at = a
		case sfnt.SegmentOpQuadTo:
			p.Cubic(between(at, a, 2.0/3), between(b, a, 2.0/3), b)
			at = b
		case sfnt.SegmentOpCubeTo:
			p.Cubic(a, b, c)
			at = c
		}
	}
	if len(p) > 0 {
		p.Close()
	}
	return p
}

func unit(p fixed.Point26_6) Point { return Point{float64(p.X) / 64, float64(p.Y) / 64} }

// between is the point a share t of the way from a to b.
func between(a, b Point, t float64) Point {
	return Point{a.X + float64(t*(b.X-a.X)), a.Y + float64(t*(b.Y-a.Y))}
}
