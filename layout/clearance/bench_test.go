package clearance

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
)

// wide is a front-loader of n pots: rows of mugs with handles, bowls and jars
// at plan distances on shelves of 10 x 10, level over level.
func wide(n int) *layout.Load {
	l := calm()
	l.Kiln = layout.Kiln{Chamber: layout.Shape{Kind: layout.Rectangle, Width: 1500, Depth: 1500}, Height: 4000, Opens: layout.Front}
	l.Furniture.Shelves[0].Shape = layout.Shape{Kind: layout.Rectangle, Width: 1440, Depth: 1440}
	l.Furniture.Shelves[0].Count = 40
	l.Furniture.Posts[3].Count, l.Furniture.Posts[2].Count = 99, 99
	mug := jar()
	mug.Name, mug.Count = "mug", n
	mug.Profile = []layout.Knot{{Height: 0, Diameter: 70}, {Height: 95, Diameter: 86}}
	mug.Measured = true
	mug.Handles = []layout.Handle{{Reach: 38, From: 20, To: 80, Thick: 14}}
	bowl := jar()
	bowl.Name, bowl.Count, bowl.Across, bowl.Height, bowl.Measured = "bowl", n, 120, 60, true
	bowl.Profile = []layout.Knot{{Height: 0, Diameter: 60}, {Height: 20, Diameter: 90}, {Height: 60, Diameter: 120}}
	l.Ware[0].Count = n
	l.Ware = append(l.Ware, mug, bowl)
	t := &l.Towers[0]
	t.Lines = []layout.Line{{At: plane.Vec{-680, -680}}, {At: plane.Vec{680, -680}}, {At: plane.Vec{0, 680}}}
	t.Levels = nil
	for i := 0; i < n; i++ {
		if i%100 == 0 {
			t.Levels = append(t.Levels, layout.Level{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: makeUps(150)})
		}
		row := l.Ware[i%3].Name
		x, y := float64(i%10)*127-571.5, float64(i/10%10)*127-571.5
		p := layout.Placement{Pot: layout.Pot{Ware: row, Number: i/3 + 1}, At: plane.Vec{x, y}, Turn: 45}
		v := &t.Levels[len(t.Levels)-1]
		v.Set = append(v.Set, p)
	}
	return l
}

func TestTheWideLoadIsCalm(t *testing.T) {
	require.Empty(t, open(check(t, wide(200))))
}

func BenchmarkCheck(b *testing.B) {
	for _, n := range []int{200, 1000} {
		load := built(b, wide(n))
		b.Run("first/"+strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Check(load)
			}
		})
		c := New(load)
		b.Run("again/"+strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				c.Check()
			}
		})
	}
}

func BenchmarkWatch(b *testing.B) {
	c := New(built(b, wide(200)))
	p := c.b.Pots[45]
	b.ReportAllocs()
	for b.Loop() {
		c.Watch(45, plane.Vec{p.At[0] + 1, p.At[1]}, p.Turn)
	}
}

func BenchmarkSnap(b *testing.B) {
	c := New(built(b, wide(200)))
	p := c.b.Pots[45]
	for b.Loop() {
		c.Snap(45, plane.Vec{p.At[0] + 9, p.At[1] + 5}, p.Turn, 100)
	}
}
