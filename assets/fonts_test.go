package assets

import (
	"encoding/binary"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/sfnt"
)

func TestFontsAreTheOnesThatTheReadmeTells(t *testing.T) {
	for weight, style := range map[int]string{400: "Regular", 500: "Medium", 600: "SemiBold", 700: "Bold"} {
		f, err := sfnt.Parse(Font(weight))
		require.NoError(t, err)
		name, err := f.Name(nil, sfnt.NameIDFull)
		require.NoError(t, err)
		require.Equal(t, "Atkinson Hyperlegible Next "+style, name)
		copyright, err := f.Name(nil, sfnt.NameIDCopyright)
		require.NoError(t, err)
		require.Contains(t, copyright, "Atkinson Hyperlegible Next Project Authors")
		// OS/2 usWeightClass, OpenType specification: uint16 at offset 4.
		require.EqualValues(t, weight, binary.BigEndian.Uint16(table(t, Font(weight), "OS/2")[4:]))
		require.Nil(t, table(t, Font(weight), "GPOS"))
		require.Nil(t, table(t, Font(weight), "GSUB"))
	}
	for _, weight := range []int{0, 300, 450, 800} {
		require.Nil(t, Font(weight))
	}
}

// table finds a table by the directory of the OpenType specification: 16
// bytes each from offset 12, tag, checksum, offset, length.
func table(t *testing.T, font []byte, tag string) []byte {
	t.Helper()
	for i := range int(binary.BigEndian.Uint16(font[4:])) {
		row := font[12+16*i:]
		if string(row[:4]) == tag {
			at, length := binary.BigEndian.Uint32(row[8:]), binary.BigEndian.Uint32(row[12:])
			return font[at : at+length]
		}
	}
	return nil
}

func TestTheLicenceLiesBesideTheFonts(t *testing.T) {
	text, err := os.ReadFile("fonts/OFL.txt")
	require.NoError(t, err)
	require.Contains(t, string(text), "SIL OPEN FONT LICENSE Version 1.1")
	// The names may stay on changed fonts only while none is reserved.
	require.NotContains(t, string(text), "with Reserved Font Name")
}
