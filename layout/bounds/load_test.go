package bounds

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

// kiln is a kiln of one column with shelves 300 across, with that many alike
// pots 100 high and 94 wide, planned 6 apart and 6 inside the edge.
func kiln(t require.TestingT, height float64, pots int) *Load {
	o := outline(t)(plane.Round(312))
	return &Load{
		Kinds:   []Kind{{Name: "pot", Count: pots, Height: 100, Value: 1, Room: 56, Size: 47}},
		Places:  []Place{{Name: "stack", Outlines: []plane.Outline{o}, Thick: 10, Columns: []int{0}, Stock: 0, Shelves: 1}},
		Columns: []float64{height},
		Stocks:  []int{4},
		Posts:   1e6,
		Apart:   func(i, j int) float64 { return 100 },
		Storey:  func(h float64) float64 { return h + 12 },
		Lid:     25,
	}
}

// Seven to a level, as many levels as the height takes: 122 for each under a
// shelf, and the last shelf, empty or with 125 over it. Half a level holds
// nothing.
func TestMostOfAlikePots(t *testing.T) {
	for _, tt := range []struct {
		height float64
		want   int
	}{{131, 0}, {132, 7}, {253.9, 7}, {254, 14}, {257, 14}, {379, 21}, {1e6, 28}} {
		b := Most(kiln(t, tt.height, 100))
		require.Equal(t, tt.want, b.Count, "height %g", tt.height)
		require.InDelta(t, float64(tt.want), b.Value, 1)
	}
	b := Most(kiln(t, 1e6, 100))
	require.Equal(t, Shelves, b.Short)
	require.Equal(t, 28.0, math.Round(b.Value))
	l := kiln(t, 379, 100)
	require.Equal(t, Height, Most(l).Short)
	l = kiln(t, 1e6, 100)
	l.Posts = 3 * 112
	b = Most(l)
	require.Equal(t, 14, b.Count)
	require.Equal(t, Posts, b.Short)
}

// When all may go in, that is the bound, and nothing binds.
func TestMostIsNoMoreThanThereAre(t *testing.T) {
	b := Most(kiln(t, 379, 5))
	require.Equal(t, Bound{Count: 5, Value: 5}, b)
	require.Equal(t, Bound{}, Most(kiln(t, 379, 0)))
	l := kiln(t, 379, 5)
	l.Kinds = nil
	require.Equal(t, Bound{}, Most(l))
	l = kiln(t, 379, 5)
	l.Places = nil
	require.Zero(t, Most(l).Count)
}

// Of twenty tall pots one level's worth goes in, and the reason says so.
func TestMostNamesTheHeightThatBinds(t *testing.T) {
	l := kiln(t, 360, 7)
	l.Kinds = append(l.Kinds, Kind{Name: "tall", Count: 20, Height: 200, Value: 3, Room: 56, Size: 47})
	b := Most(l)
	require.Equal(t, Tall{From: 200, Count: 20, Levels: 1, Hold: b.Tall.Hold}, b.Tall)
	require.GreaterOrEqual(t, b.Tall.Hold, 7)
	require.Less(t, b.Tall.Hold, 14)
	require.Less(t, b.Count, 27)
}

// A shelf with two rooms over it holds on each side what its side holds, and
// each side has a height of its own.
func TestMostOfAShelfWithTwoRooms(t *testing.T) {
	l := kiln(t, 400, 7)
	l.Columns = []float64{400, 140}
	l.Kinds = append(l.Kinds, Kind{Name: "vase", Count: 2, Height: 330, Value: 3, Room: 56, Size: 47})
	base := l.Places[0]
	base.Shelves = 0.5
	l.Places[0].Columns = []int{0, 1}
	require.Equal(t, 7, Most(l).Count, "no whole level takes a vase")
	for i, out := range []plane.Vec{{1, 0}, {-1, 0}} {
		p := base
		p.Columns, p.Sides = []int{i}, []Side{{Out: out}}
		l.Places = append(l.Places, p)
	}
	require.Equal(t, 9, Most(l).Count, "the vases stand on one side, as high as that goes")
}

// The program's bound is never below an arrangement: levels of a random list of
// heights, each filled with a lattice of the pots it takes.
func TestLawMostIsNeverBelowAnArrangement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		across := rapid.Float64Range(200, 600).Draw(t, "across")
		o := outline(t)(plane.Round(across))
		l := &Load{Stocks: []int{20}, Posts: 1e9, Lid: 25,
			Places: []Place{{Outlines: []plane.Outline{o}, Thick: 15, Columns: []int{0}, Shelves: 1}},
			Storey: func(h float64) float64 { return math.Ceil((h+12)/5) * 5 }}
		levels := rapid.IntRange(1, 4).Draw(t, "levels")
		height, value, set := 0.0, 0.0, 0
		for i := 0; i < levels; i++ {
			size := rapid.Float64Range(20, 90).Draw(t, "size")
			k := Kind{Height: rapid.Float64Range(30, 200).Draw(t, "height"), Size: size, Room: size + 6,
				Value: rapid.Float64Range(0.1, 5).Draw(t, "value")}
			d := 2*size + 6
			for y := -across; y < across; y += d * math.Sqrt(3) / 2 {
				odd := float64(int(math.Round((y+across)/(d*math.Sqrt(3)/2)))%2) * d / 2
				for x := -across + odd; x < across; x += d {
					if o.Depth(plane.Vec{x, y}) >= k.Room {
						k.Count++
					}
				}
			}
			set += k.Count
			value += float64(k.Count) * k.Value
			k.Count += rapid.IntRange(0, 5).Draw(t, "more")
			l.Kinds = append(l.Kinds, k)
			if i < levels-1 {
				height += 15 + l.Storey(k.Height)
			} else {
				height += 15 + k.Height + 25
			}
		}
		l.Columns = []float64{height}
		l.Apart = func(i, j int) float64 { return l.Kinds[i].Size + l.Kinds[j].Size + 6 - 1e-9 }
		b := Most(l)
		require.GreaterOrEqual(t, b.Count, set)
		require.GreaterOrEqual(t, b.Value, value-1e-6)
	})
}
