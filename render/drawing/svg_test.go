package drawing

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"io"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/sfnt"
)

func svgOf(t testing.TB, fonts *Fonts, page Page) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, SVG(&b, fonts, page))
	return b.Bytes()
}

// svgElement is enough of an SVG to read a page back by encoding/xml.
type svgElement struct {
	XMLName xml.Name
	Attrs   []xml.Attr   `xml:",any,attr"`
	Inside  []svgElement `xml:",any"`
	Words   string       `xml:",chardata"`
}

func (e svgElement) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (e svgElement) all(name string) []svgElement {
	var out []svgElement
	if e.XMLName.Local == name {
		out = append(out, e)
	}
	for _, i := range e.Inside {
		out = append(out, i.all(name)...)
	}
	return out
}

func TestSVGReadsBack(t *testing.T) {
	fonts := loadFonts(t)
	page := demo(fonts, Letter())
	b := svgOf(t, fonts, page)
	var root svgElement
	require.NoError(t, xml.Unmarshal(b, &root))
	require.Equal(t, "http://www.w3.org/2000/svg", root.XMLName.Space)
	require.Equal(t, "215.9mm", root.attr("width"))
	require.Equal(t, "279.4mm", root.attr("height"))
	require.Equal(t, "0 0 215.9 279.4", root.attr("viewBox"))
	require.Equal(t, "Everything < once & for all", root.all("title")[0].Words)
	var want, have []string
	for _, x := range root.all("text") {
		have = append(have, x.Words)
		size, err := strconv.ParseFloat(x.attr("font-size"), 64)
		require.NoError(t, err)
		require.Greater(t, size, 3.0)
	}
	for _, x := range Texts(page) {
		want = append(want, x.Words)
	}
	require.ElementsMatch(t, want, have)
	require.Len(t, root.all("clipPath"), 2)
}

func TestSVGIsWellFormedToTheEnd(t *testing.T) {
	fonts := loadFonts(t)
	p := NewPen(fonts, A4()).Titled("a\x00b <&>\"")
	p.Text(20, 20, "<script>&amp; \x02 \xff \"quoted\" ]]>", Type(12, Regular))
	d := xml.NewDecoder(bytes.NewReader(svgOf(t, fonts, p.Page())))
	for {
		_, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
	}
}

func TestSVGCarriesItsFonts(t *testing.T) {
	fonts := loadFonts(t)
	p := NewPen(fonts, A4())
	p.Text(20, 20, "posts", Type(12, SemiBold))
	b := svgOf(t, fonts, p.Page())
	found := regexp.MustCompile(`base64,([A-Za-z0-9+/=]+)\)`).FindAllSubmatch(b, -1)
	require.Len(t, found, 1)
	data, err := base64.StdEncoding.DecodeString(string(found[0][1]))
	require.NoError(t, err)
	font, err := sfnt.Parse(data)
	require.NoError(t, err)
	name, err := font.Name(nil, sfnt.NameIDFull)
	require.NoError(t, err)
	require.Equal(t, "Atkinson Hyperlegible Next SemiBold", name)
	p = NewPen(fonts, A4())
	p.Line(0, 0, 10, 10, Outline(1))
	require.NotContains(t, string(svgOf(t, fonts, p.Page())), "@font-face")
}

func TestSVGHasTheSameBytes(t *testing.T) {
	a, b := loadFonts(t), loadFonts(t)
	require.True(t, bytes.Equal(svgOf(t, a, demo(a, A4())), svgOf(t, b, demo(b, A4()))))
}

func TestSVGTextIsHeldAtItsLength(t *testing.T) {
	fonts := loadFonts(t)
	for anchor, wantX := range map[Anchor]float64{Left: 100, Middle: 100 - 8.0/2, Right: 100 - 8.0} {
		p := NewPen(fonts, A4())
		s := Type(12, Regular).Held(anchor)
		// A size that makes the line 8 mm long.
		s.Size *= 8 / fonts.Width(s, "mugs")
		p.Text(100, 50, "mugs", s)
		var root svgElement
		require.NoError(t, xml.Unmarshal(svgOf(t, fonts, p.Page()), &root))
		text := root.all("text")[0]
		x, err := strconv.ParseFloat(text.attr("x"), 64)
		require.NoError(t, err)
		require.InDelta(t, wantX, x, 0.002)
		require.Equal(t, "8", text.attr("textLength"))
	}
}
