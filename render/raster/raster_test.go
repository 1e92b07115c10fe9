package raster

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"threepost/layout/document"
	"threepost/layout/stacks"
	"threepost/render/scene"
)

var update = flag.Bool("update", false, "write the goldens anew")

func reference(t testing.TB, name string) *stacks.Built {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "loads", "reference", name+".toml")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	l, err := document.Parse(path, text)
	require.NoError(t, err)
	b, err := stacks.Build(l)
	require.NoError(t, err)
	return b
}

// sheet is a scene of level square plates, each at a height and in a colour of
// its own, side mm wide about the middle.
func sheet(plates ...plate) *scene.Scene {
	s := &scene.Scene{Look: scene.LookOf(false), Pieces: make([]scene.Piece, len(plates)+1)}
	g := scene.Group{Name: "plates", Shown: true}
	for i, p := range plates {
		h := float32(p.side / 2)
		first := uint32(g.Mesh.Vertices())
		for _, c := range [][2]float32{{-h, -h}, {h, -h}, {h, h}, {-h, h}} {
			g.Mesh.Positions = append(g.Mesh.Positions, c[0], c[1], float32(p.z))
			g.Mesh.Normals = append(g.Mesh.Normals, 0, 0, 1)
			g.Mesh.Outward = append(g.Mesh.Outward, 0, 0, 1)
			g.Mesh.Colours = append(g.Mesh.Colours, p.colour[0], p.colour[1], p.colour[2], float32(p.hatch))
			g.Mesh.Pieces = append(g.Mesh.Pieces, uint32(i+1))
		}
		ix := []uint32{first, first + 1, first + 2, first, first + 2, first + 3}
		if p.down {
			ix = []uint32{first, first + 2, first + 1, first, first + 3, first + 2}
		}
		g.Mesh.Indexes = append(g.Mesh.Indexes, ix...)
	}
	s.Groups = []scene.Group{g}
	return s
}

type plate struct {
	side, z float64
	colour  scene.Colour
	hatch   scene.Hatch
	down    bool
}

func above() scene.Camera {
	return scene.Camera{Azimuth: 180, Elevation: 90, Distance: 1000, Span: 100}
}

func near(t *testing.T, want, got color.Color) {
	t.Helper()
	wr, wg, wb, _ := want.RGBA()
	r, g, b, _ := got.RGBA()
	for _, d := range [][2]uint32{{wr, r}, {wg, g}, {wb, b}} {
		require.InDelta(t, float64(d[0]>>8), float64(d[1]>>8), 3)
	}
}

// TestPlateCoversItsPixels: 50 mm at 100 mm to 100 px is the middle 50 px, and
// nothing outside but the outline's share of a px.
func TestPlateCoversItsPixels(t *testing.T) {
	s := sheet(plate{side: 50, colour: scene.Hex(0xA07E63)})
	img, err := Draw(s, above(), Options{Width: 100, Height: 100})
	require.NoError(t, err)
	ground := img.At(2, 2)
	near(t, color.RGBA{0xF7, 0xF3, 0xEB, 255}, ground)
	inside := img.At(50, 50)
	for y := range 100 {
		for x := range 100 {
			in := x >= 27 && x < 73 && y >= 27 && y < 73
			out := x < 23 || x >= 77 || y < 23 || y >= 77
			if in {
				near(t, inside, img.At(x, y))
			}
			if out {
				require.Equal(t, ground, img.At(x, y))
			}
		}
	}
	r, _, _, _ := darkest(img, 22, 28, 50).RGBA()
	require.Less(t, r>>8, uint32(0x60), "an outline of ink, 1.25 px over two px")
}

// darkest is the darkest px of a stretch of a row.
func darkest(img *image.RGBA, from, to, y int) color.Color {
	best, least := img.At(from, y), math.Inf(1)
	for x := from; x < to; x++ {
		r, g, b, _ := img.At(x, y).RGBA()
		if l := float64(r + g + b); l < least {
			best, least = img.At(x, y), l
		}
	}
	return best
}

// TestNearerHides: the higher plate hides the lower in whatever order.
func TestNearerHides(t *testing.T) {
	high, low := plate{side: 30, z: 40, colour: scene.Hex(0x800000)}, plate{side: 60, z: 0, colour: scene.Hex(0x008000)}
	a, err := Draw(sheet(high, low), above(), Options{Width: 80, Height: 80})
	require.NoError(t, err)
	b, err := Draw(sheet(low, high), above(), Options{Width: 80, Height: 80})
	require.NoError(t, err)
	require.Equal(t, a.Pix, b.Pix)
	r, g, _, _ := a.At(40, 40).RGBA()
	require.Greater(t, r, g)
	r, g, _, _ = a.At(22, 40).RGBA()
	require.Greater(t, g, r)
}

func TestBacksAreSeenOnlyWhereACutShowsThem(t *testing.T) {
	s := sheet(plate{side: 60, colour: scene.Hex(0x800000), down: true})
	whole, err := Draw(s, above(), Options{Width: 60, Height: 60})
	require.NoError(t, err)
	near(t, color.RGBA{0xF7, 0xF3, 0xEB, 255}, whole.At(30, 30))
	cut, err := Draw(s, above(), Options{Width: 60, Height: 60, Cut: &scene.Plane{Normal: mgl64.Vec3{1, 0, 0}, Offset: 0}})
	require.NoError(t, err)
	near(t, color.RGBA{0xF7, 0xF3, 0xEB, 255}, cut.At(40, 30))
	require.NotEqual(t, cut.At(40, 30), cut.At(20, 30), "the left half stays, and shows its back")
}

// TestHatchesDiffer: every pattern puts another picture on the same plate,
// and grey alone tells it.
func TestHatchesDiffer(t *testing.T) {
	seen := map[string]scene.Hatch{}
	for h := scene.Plain; h < scene.HatchCount; h++ {
		img, err := Draw(sheet(plate{side: 90, colour: scene.Hex(0xD6BD9F), hatch: h}), above(), Options{Width: 90, Height: 90})
		require.NoError(t, err)
		var grey []byte
		for y := 20; y < 70; y++ {
			for x := 20; x < 70; x++ {
				c := color.GrayModel.Convert(img.At(x, y)).(color.Gray)
				grey = append(grey, c.Y/24)
			}
		}
		other, twice := seen[string(grey)]
		require.False(t, twice, "%s looks like %s in grey", h.Words(), other.Words())
		seen[string(grey)] = h
	}
}

// TestGoldenPictures compares small pictures with those that were looked at,
// within what rounding on other processors may change.
func TestGoldenPictures(t *testing.T) {
	for name, make := range map[string]func(b *stacks.Built) (*scene.Scene, scene.Camera, *scene.Plane){
		"newcomer-stand": func(b *stacks.Built) (*scene.Scene, scene.Camera, *scene.Plane) {
			s := scene.Build(b, scene.Options{})
			return s, scene.Stand(b, s.Box, scene.Screen{W: 320, H: 200}), nil
		},
		"newcomer-cut-dark": func(b *stacks.Built) (*scene.Scene, scene.Camera, *scene.Plane) {
			s := scene.Build(b, scene.Options{Kiln: true, Dark: true})
			cut := scene.CutBefore(180)
			return s, scene.Stand(b, s.Kiln, scene.Screen{W: 320, H: 200}), &cut
		},
		"newcomer-top-mass": func(b *stacks.Built) (*scene.Scene, scene.Camera, *scene.Plane) {
			s := scene.Build(b, scene.Options{Up: 1, Colour: scene.ByMass})
			return s, scene.Top(s.Box, scene.Screen{W: 320, H: 200}), nil
		},
	} {
		s, c, cut := make(reference(t, "newcomer"))
		img, err := Draw(s, c, Options{Width: 320, Height: 200, Cut: cut})
		require.NoError(t, err)
		path := filepath.Join("testdata", name+".png")
		if *update {
			var buf bytes.Buffer
			require.NoError(t, PNG(&buf, img))
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(path, buf.Bytes(), 0o644))
		}
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		want, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		far := 0
		for y := range 200 {
			for x := range 320 {
				if apartness(want.At(x, y), img.At(x, y)) > 12 {
					far++
				}
			}
		}
		require.Less(t, far, 320*200/200, "%s: %d px differ", name, far)
	}
}

func apartness(a, b color.Color) int {
	ar, ag, ab, _ := a.RGBA()
	br, bg, bb, _ := b.RGBA()
	most := 0
	for _, d := range []int{int(ar) - int(br), int(ag) - int(bg), int(ab) - int(bb)} {
		most = max(most, d>>8, -d>>8)
	}
	return most
}

func TestPicturesOfNoSizeAreRefused(t *testing.T) {
	for _, o := range []Options{{}, {Width: 100}, {Width: 1 << 20, Height: 1 << 20}, {Width: 10, Height: 10, Samples: 9}} {
		_, err := Draw(sheet(), above(), o)
		require.Error(t, err)
	}
}

func BenchmarkDrawStudio(b *testing.B) {
	built := reference(b, "studio")
	s := scene.Build(built, scene.Options{})
	c := scene.Stand(built, s.Box, scene.Screen{W: 1280, H: 800})
	for b.Loop() {
		if _, err := Draw(s, c, Options{Width: 1280, Height: 800}); err != nil {
			b.Fatal(err)
		}
	}
}
