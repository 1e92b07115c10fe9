package nearby

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func box(x, y, z, dx, dy, dz float64) Box {
	return Box{Min: mgl64.Vec3{x, y, z}, Max: mgl64.Vec3{x + dx, y + dy, z + dz}}
}

func drawBox(t *rapid.T) Box {
	// whole figures, so that boxes often touch and lie at just the reach
	at := func(name string, lo, hi int) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, name)) }
	size := 60
	if rapid.IntRange(0, 9).Draw(t, "kind") == 0 {
		size = 2000 // a shelf among pots
	}
	return box(at("x", -300, 300), at("y", -300, 300), at("z", 0, 400),
		at("dx", 0, size), at("dy", 0, size), at("dz", 0, 60))
}

func TestNearNamesTheSameAsLookingAtEveryBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := New(float64(rapid.SampledFrom([]int{7, 50, 130}).Draw(t, "cell")))
		held := map[int]Box{}
		for range rapid.IntRange(1, 60).Draw(t, "acts") {
			id := rapid.IntRange(0, 30).Draw(t, "id")
			switch rapid.IntRange(0, 3).Draw(t, "act") {
			case 0:
				g.Remove(id)
				delete(held, id)
			case 1:
				b := drawBox(t)
				g.Move(id, b)
				held[id] = b
			default:
				b := drawBox(t)
				g.Insert(id, b)
				held[id] = b
			}
		}
		require.Equal(t, len(held), g.Len())
		reach := float64(rapid.IntRange(0, 80).Draw(t, "reach"))
		q := drawBox(t)
		var want []int
		for id := range 31 {
			if b, ok := held[id]; ok && b.Apart(q) <= reach {
				want = append(want, id)
			}
		}
		require.Equal(t, want, g.Near(nil, q, reach))

		var pairs, wantPairs [][2]int
		g.Pairs(reach, func(a, b int) { pairs = append(pairs, [2]int{a, b}) })
		for a := range 31 {
			for b := a + 1; b < 31; b++ {
				ba, okA := held[a]
				bb, okB := held[b]
				if okA && okB && ba.Apart(bb) <= reach {
					wantPairs = append(wantPairs, [2]int{a, b})
				}
			}
		}
		require.Equal(t, wantPairs, pairs)
	})
}

func TestApartOfBoxes(t *testing.T) {
	unit := box(0, 0, 0, 1, 1, 1)
	for name, c := range map[string]struct {
		b    Box
		want float64
	}{
		"the same":              {unit, 0},
		"touching":              {box(1, 0, 0, 1, 1, 1), 0},
		"beside":                {box(3, 0, 0, 1, 1, 1), 2},
		"across an edge, 3-4-5": {box(4, 5, 0, 1, 1, 1), 5},
		"across a corner":       {box(3, 4, 5, 1, 1, 1), math.Sqrt(4 + 9 + 16)},
		"inside":                {box(.2, .2, .2, .1, .1, .1), 0},
	} {
		require.Equal(t, c.want, unit.Apart(c.b), name)
		require.Equal(t, c.want, c.b.Apart(unit), name+", flipped")
	}
}

func TestDoubtfulBoxesAreNear(t *testing.T) {
	g := New(50)
	g.Insert(0, box(0, 0, 0, 10, 10, 10))
	g.Insert(1, Box{Min: mgl64.Vec3{math.NaN(), 0, 0}, Max: mgl64.Vec3{1, 1, 1}})
	g.Insert(2, box(-1e12, -1e12, -1e12, 2e12, 2e12, 2e12))
	g.Insert(3, box(5000, 0, 0, 10, 10, 10))
	g.Insert(-1, box(0, 0, 0, 10, 10, 10))
	require.Equal(t, []int{0, 1, 2}, g.Near(nil, box(5, 5, 5, 1, 1, 1), 6))
	require.Equal(t, []int{0, 1, 2, 3}, g.Near(nil, box(5, 5, 5, 1, 1, 1), 1e9))
	g.Move(2, box(100, 0, 0, 10, 10, 10))
	g.Remove(1)
	g.Remove(1)
	g.Remove(99)
	require.Equal(t, []int{7, 0}, g.Near([]int{7}, box(5, 5, 5, 1, 1, 1), 6))
	_, ok := g.Box(1)
	require.False(t, ok)
	b, ok := g.Box(2)
	require.True(t, ok)
	require.Equal(t, 100.0, b.Min[0])
	require.Equal(t, 3, g.Len())
	require.NotPanics(t, func() { New(math.NaN()).Near(nil, Box{}, 1) })
}

func field(n int) *Grid {
	g := New(120)
	for i := range n {
		g.Insert(i, box(float64(i%10)*100, float64(i/10%10)*100, float64(i/100)*150, 85, 85, 100))
	}
	return g
}

func TestAskingDoesNotAllocate(t *testing.T) {
	g := field(200)
	dst := make([]int, 0, 64)
	b, _ := g.Box(55)
	require.Zero(t, testing.AllocsPerRun(100, func() { dst = g.Near(dst[:0], b, 9) }))
	require.Zero(t, testing.AllocsPerRun(100, func() {
		g.Move(55, box(b.Min[0]+1, b.Min[1], b.Min[2], 85, 85, 100))
		g.Move(55, b)
	}))
}

func BenchmarkNear(b *testing.B) {
	g := field(1000)
	dst := make([]int, 0, 64)
	q, _ := g.Box(455)
	for b.Loop() {
		dst = g.Near(dst[:0], q, 9)
	}
}

func BenchmarkMove(b *testing.B) {
	g := field(1000)
	q, _ := g.Box(455)
	r := box(q.Min[0]+60, q.Min[1]+60, q.Min[2], 85, 85, 100)
	for b.Loop() {
		g.Move(455, r)
		g.Move(455, q)
	}
}

func BenchmarkPairs(b *testing.B) {
	for _, n := range []int{200, 1000} {
		b.Run(map[int]string{200: "200", 1000: "1000"}[n], func(b *testing.B) {
			g := field(n)
			count := 0
			for b.Loop() {
				g.Pairs(9, func(x, y int) { count++ })
			}
		})
	}
}
