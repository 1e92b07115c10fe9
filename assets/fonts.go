package assets

import "embed"

//go:embed fonts/*.ttf
var fonts embed.FS

// Font gives the bytes of Atkinson Hyperlegible Next, upright, in a weight of
// 400, 500, 600 or 700, as TrueType. fonts/README.md tells how the files were
// made. It answers nil for a weight that is not embedded.
func Font(weight int) []byte {
	name, ok := map[int]string{400: "400", 500: "500", 600: "600", 700: "700"}[weight]
	if !ok {
		return nil
	}
	data, err := fonts.ReadFile("fonts/AtkinsonHyperlegibleNext-" + name + ".ttf")
	if err != nil {
		return nil
	}
	return data
}
