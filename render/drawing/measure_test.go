package drawing

import (
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"pgregory.net/rapid"

	"threepost/assets"
)

// faceAt is the general library's own face, one point a dot.
func faceAt(t testing.TB, w Weight, size float64) font.Face {
	t.Helper()
	f, err := opentype.Parse(assets.Font(int(w)))
	require.NoError(t, err)
	face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
	require.NoError(t, err)
	return face
}

var sentences = []string{
	"Take this paper off before switching on", "3×(100+10)", "1222 °C", "“Fired here in June”, Wen.",
	"½ ¼ ¾ ⅛ ⅜ ⅝ ⅞", "left 2 takes 98 · 224 down", "Großer Krug für Çelik",
}

func TestWidthAgainstTheFontLibrary(t *testing.T) {
	fonts := loadFonts(t)
	for _, w := range []Weight{Regular, Medium, SemiBold, Bold} {
		face := faceAt(t, w, 1000) // so large that 1/64 of a dot does not matter
		for _, words := range sentences {
			want := float64(font.MeasureString(face, words)) / 64 / 1000 * 20 // golang.org/x/image/font, 20 pt
			require.InDelta(t, want, PT(fonts.Width(Type(20, w), words)), 0.001, "%d %s", w, words)
		}
	}
}

func TestInkAgainstTheFontLibrary(t *testing.T) {
	fonts := loadFonts(t)
	face := faceAt(t, Bold, 1000)
	for _, words := range sentences {
		want, _ := font.BoundString(face, words)
		have, ok := fonts.Ink(Text{Words: words, Style: Type(PT(1000), Bold)}) // one mm a unit
		require.True(t, ok)
		require.InDelta(t, float64(want.Min.X)/64, have[0].X, 1.5, words)
		require.InDelta(t, float64(want.Min.Y)/64, have[0].Y, 1.5, words)
		require.InDelta(t, float64(want.Max.X)/64, have[2].X, 1.5, words)
		require.InDelta(t, float64(want.Max.Y)/64, have[2].Y, 1.5, words)
	}
}

func TestFiguresAreTabular(t *testing.T) {
	fonts := loadFonts(t)
	for _, w := range []Weight{Regular, Medium, SemiBold, Bold} {
		s := Type(12, w)
		for _, digit := range "123456789" {
			require.Equal(t, fonts.Width(s, "0"), fonts.Width(s, string(digit)), "%d %c", w, digit)
		}
	}
}

func TestWidthAddsUp(t *testing.T) {
	fonts := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.StringN(0, 20, 80).Draw(t, "a"), rapid.StringN(0, 20, 80).Draw(t, "b")
		s := Type(rapid.Float64Range(4, 60).Draw(t, "size"), Weight(rapid.SampledFrom([]int{400, 500, 600, 700}).Draw(t, "weight")))
		require.InDelta(t, fonts.Width(s, a)+fonts.Width(s, b), fonts.Width(s, a+b), 2e-4)
	})
}

func TestTheSheetsLettersAreThere(t *testing.T) {
	fonts := loadFonts(t)
	for r := rune(' '); r < 0x7f; r++ {
		require.True(t, fonts.HasGlyph(r), "%q", r)
	}
	for _, r := range "·×°‘’“”–—…½¼¾⅛⅜⅝⅞←↑→↓−±″′ÄÖÜäöüßÅåÆæØøÇçÉéÈèÊêËëÎîÏïÑñÔôÕõÛûÝýÿŁłŽžČčĎďĚěŇňŘřŠšŤťŮůĄąĘęŚśŻżŹźĞğİıŞşŐőŰű" {
		require.True(t, fonts.HasGlyph(r), "%q", r)
	}
	require.False(t, fonts.HasGlyph('釉'))
}

func TestNoInkInASpace(t *testing.T) {
	_, ok := loadFonts(t).Ink(Text{Words: "  ", Style: Type(12, Regular)})
	require.False(t, ok)
}

func TestInkTurnsWithTheText(t *testing.T) {
	fonts := loadFonts(t)
	upright, _ := fonts.Ink(Text{Words: "150", Style: Type(12, Bold), Width: 5})
	turned, _ := fonts.Ink(Text{Words: "150", Style: Type(12, Bold).Turned(90), Width: 5})
	for i := range upright { // a quarter clockwise takes (x, y) to (-y, x), y down
		require.InDelta(t, -upright[i].Y, turned[i].X, 1e-9)
		require.InDelta(t, upright[i].X, turned[i].Y, 1e-9)
	}
}

func TestCapHeight(t *testing.T) {
	// The font's own OS/2 table says 668 thousandths.
	require.InDelta(t, 0.668, PT(loadFonts(t).CapHeight(Type(1, Regular))), 0.001)
}
