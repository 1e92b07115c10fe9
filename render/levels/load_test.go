package levels

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/internal/sample"
)

// set builds a load with its order and a sheet to draw it on.
func set(t testing.TB, l *layout.Load, paper drawing.Paper, units measure.Units) (*frame.Sheet, *stacks.Built, *order.Order) {
	t.Helper()
	fonts, err := drawing.LoadFonts()
	require.NoError(t, err)
	b, err := stacks.Build(l)
	require.NoError(t, err)
	o, _ := order.Of(b)
	return frame.New(fonts, paper, l, units, measure.US), b, o
}

// loads are the loads the tests draw, by name: invented ones set by first
// fit, small ones made for what those lack, and the references of the samples
// that lie in testdata.
func loads(t testing.TB) map[string]*layout.Load {
	t.Helper()
	all := map[string]*layout.Load{
		"october": sample.October(), "attic": sample.Attic(),
		"front": frontLoader(), "nested": nested(), "crowd": crowd(),
	}
	files, err := filepath.Glob("../../testdata/loads/reference/*.toml")
	require.NoError(t, err)
	for _, f := range files {
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		l, err := document.Parse(f, data)
		require.NoError(t, err)
		all[strings.TrimSuffix(filepath.Base(f), ".toml")] = l
	}
	return all
}

// eachWay draws every load on both papers in both units.
func eachWay(t *testing.T, check func(t *testing.T, name string, s *frame.Sheet, b *stacks.Built, o *order.Order)) {
	t.Helper()
	for name, l := range loads(t) {
		t.Run(name, func(t *testing.T) {
			for _, paper := range []drawing.Paper{drawing.A4(), drawing.Letter()} {
				for _, units := range []measure.Units{measure.MM, measure.Inches} {
					s, b, o := set(t, l, paper, units)
					check(t, name+" "+paper.Name+" "+string(units), s, b, o)
				}
			}
		})
	}
}

// parse reads a load of a test.
func parse(text string) *layout.Load {
	l, err := document.Parse("test", []byte(text))
	if err != nil {
		panic(err)
	}
	return l
}

// frontLoader has two small levels on one tower, a probe and a hole, thin posts, oblong ware and a runny pot.
func frontLoader() *layout.Load {
	return parse(`threepost = 1
title = "End of term"
units = "mm"
firing = { stage = "glaze", cone = "6" }
[kiln]
name = "Bittern"
chamber = { shape = "rectangle", width = 460, depth = 330, height = 500 }
opens = "front"
probes = [{ at = "11:00", height = 120, reach = 30, diameter = 10 }]
spyholes = [{ at = "7:00", height = 120 }]
[furniture]
shelves = [{ name = "slab", shape = "rectangle", width = 400, depth = 270, thick = 20, count = 2 }]
posts = [
  { height = 25, section = "round 40", count = 4 },
  { height = 150, section = "round 12", count = 4 },
]
cookies = [{ across = 140, thick = 10, count = 1 }]
[[ware]]
name = "oval dish"
count = 2
height = 60
length = 180
width = 110
clay = { name = "buff", cone = "6" }
[[ware]]
name = "jar"
height = 90
across = 90
flags = ["runny"]
clay = { name = "buff", cone = "6" }
[[ware]]
name = "tile"
count = 4
height = 60
length = 40
width = 15
clay = { name = "buff", cone = "6" }
[[cones]]
name = "cones"
pack = ["5", "6", "7"]
watched = true
spyhole = 1
[[tower]]
name = "stack"
on = ["floor"]
lines = [[-160, -100], [160, -100], [0, 105]]
[[tower.level]]
shelves = [{ kind = "slab" }]
posts = "25"
[tower.level.set]
"oval dish 1" = [-95, 50, 0]
"oval dish 2" = [95, 20, 90]
jar = [-70, -75, 0]
cones = [20, -110, 0]
[[tower.level]]
shelves = [{ kind = "slab" }]
posts = "150"
[tower.level.set]
"tile 1" = [-60, 0, 0]
"tile 2" = [0, 0, 30]
"tile 3" = [60, 0, 90]
"tile 4" = [0, -80, 0]
`)
}

// nested has a cup that stands partly under a bowl's rim.
func nested() *layout.Load {
	return parse(`threepost = 1
units = "mm"
firing = { stage = "bisque", cone = "06" }
[kiln]
chamber = { shape = "round", across = 450, height = 450 }
[furniture]
shelves = [{ name = "full", shape = "round", across = 400, thick = 16, count = 1 }]
posts = [{ height = 25, section = "triangle 30", count = 3 }]
[[ware]]
name = "wide bowl"
count = 2
profile = [[0, 60], [40, 70], [90, 220]]
[[ware]]
name = "cup"
profile = [[0, 50], [30, 50]]
[[tower]]
name = "stack"
on = ["floor"]
lines = [[-120, -70], [120, -70], [0, 140]]
[[tower.level]]
shelves = [{ kind = "full" }]
posts = "25"
[tower.level.set]
"wide bowl 1" = [-85, 0, 0]
cup = [-20, -10, 0]
"wide bowl 2" = [85, 0, 0]
`)
}

// crowd is a shelf full of pots so small that their numbers stand outside.
func crowd() *layout.Load {
	text := `threepost = 1
units = "mm"
firing = { stage = "glaze", cone = "6" }
[kiln]
chamber = { shape = "round", across = 700, height = 450 }
[furniture]
shelves = [{ name = "full", shape = "round", across = 640, thick = 16, count = 1 }]
posts = [{ height = 25, section = "square 30", count = 3 }]
[[ware]]
name = "thimble"
count = 81
height = 25
across = 14
[[tower]]
name = "stack"
on = ["floor"]
lines = [[-220, -130], [220, -130], [0, 270]]
[[tower.level]]
shelves = [{ kind = "full" }]
posts = "25"
[tower.level.set]
`
	n := 0
	for y := range 9 {
		for x := range 9 {
			n++
			text += `"thimble ` + digits(n) + `" = [` + digits(42*x-168) + `, ` + digits(42*y-168) + ", 0]\n"
		}
	}
	return parse(text)
}
