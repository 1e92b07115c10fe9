package statics

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

func TestWeighByHand(t *testing.T) {
	m := newMaker()
	tower := m.tower()
	low := m.level(tower, round(400), plane.Vec{}, 0, 6, 25, 0.1, thirds(170)...)
	high := m.level(tower, round(400), plane.Vec{}, 0, 6, 150, 0.3, thirds(170)...)
	m.pot(low, 1.2, 0, 0)
	m.pot(high, 3, 0, 170) // over post A
	w := Weigh(m.b)

	require.InDelta(t, 4.2, w.Ware, 1e-12)
	require.InDelta(t, 12+0.3+0.9, w.Furniture, 1e-12)
	require.Zero(t, w.Loose)

	top := w.Levels[high]
	require.InDelta(t, 9, top.Carried, 1e-9)
	require.InDelta(t, 170.0/3, top.Balance[1], 1e-9)
	// The triangle's inner circle is half of 170; 56.67 of it toward A: the
	// nearest sides are then those beside A.
	require.InDelta(t, 85-170.0/6, top.Margin, 1e-9)
	require.InDelta(t, 3/4.2, top.WareShare, 1e-12)
	require.InDelta(t, (3+6+0.9)/17.4, top.Share, 1e-12)
	require.InDelta(t, 6.9, top.Furniture(), 1e-12)

	upper, lower := m.b.Levels[high].Posts, m.b.Levels[low].Posts
	require.InDelta(t, 5, w.Posts[upper[0]].Carries, 1e-9)
	require.InDelta(t, 2, w.Posts[upper[1]].Carries, 1e-9)
	require.InDelta(t, 5.3, w.Posts[upper[0]].Foot, 1e-9)
	require.Equal(t, m.b.Levels[low].Shelves[0], w.Posts[upper[0]].Under)
	// Below: 7.2 shared by three, and what stands straight over each.
	require.InDelta(t, 2.4+5.3, w.Posts[lower[0]].Carries, 1e-9)
	require.InDelta(t, 2.4+2.3, w.Posts[lower[1]].Carries, 1e-9)
	require.True(t, w.Posts[lower[0]].Floor)
	require.Equal(t, "A", w.Floor[0].Letter)
	require.InDelta(t, 7.8, w.Floor[0].Mass, 1e-9)
	require.InDelta(t, 9.9, w.Shelves[m.b.Levels[low].Shelves[0]].Above, 1e-9)

	require.NotNil(t, w.Shelves[0].Plate)
	require.InDelta(t, 0.85, w.Shelves[0].Plate.Ratio, 1e-9)
	require.Positive(t, w.Shelves[0].Plate.Sag)
}

func TestWeighTwoHalvesOnAFullShelf(t *testing.T) {
	m := newMaker()
	left := []plane.Vec{{-28, 270}, {-28, -270}, {-290, 0}}
	right := []plane.Vec{{28, 270}, {28, -270}, {290, 0}}
	base := m.level(m.tower(), round(660), plane.Vec{}, 0, 13.9, 25, 0.1, append(left[:3:3], right...)...)
	l := m.level(m.tower(base), half(660), plane.Vec{-3, 0}, 270, 6.9, 150, 0.4, left...)
	r := m.level(m.tower(base), half(660), plane.Vec{3, 0}, 90, 6.9, 100, 0.3, right...)
	m.pot(l, 10, -130, 0)
	m.pot(r, 2, 130, 0)
	w := Weigh(m.b)
	require.Len(t, w.Floor, 6)
	require.InDelta(t, w.Towers[2].Balance[0], 140, 10)
	total := 0.0
	for _, f := range w.Floor {
		total += f.Mass
	}
	require.InDelta(t, w.Ware+w.Furniture, total, 1e-9)
	require.Less(t, w.Levels[base].Balance[0], -20.0, "the left side is the heavier")
	for _, i := range m.b.Levels[base].Posts {
		require.LessOrEqual(t, w.Posts[i].Min, w.Posts[i].Carries+1e-9)
		require.GreaterOrEqual(t, w.Posts[i].Max, w.Posts[i].Carries-1e-9)
	}
	require.Nil(t, w.Shelves[0].Plate, "six posts are not in the table")
	require.InDelta(t, 1, w.Towers[0].Share+w.Towers[1].Share+w.Towers[2].Share, 1e-12)
}

func TestTwoShelvesShareTheirLines(t *testing.T) {
	m := newMaker()
	tower := m.tower()
	at := []plane.Vec{{0, 180}, {0, -180}, {-180, 0}, {180, 0}}
	l := m.level(tower, half(440), plane.Vec{-3, 0}, 270, 4, 25, 0.1, at...)
	// Turn the level into two halves on the four posts: the middle ones carry both.
	ring, err := half(440).Outline()
	require.NoError(t, err)
	kind := m.b.Shelves[0].Kind
	m.b.Shelves = append(m.b.Shelves, stacks.Shelf{Level: l, Index: 1, Kind: kind, At: plane.Vec{3, 0}, Turn: 90, Mass: 4,
		Outline: ring.At(plane.Pose{At: plane.Vec{3, 0}, Turn: 90}), Bottom: 25, Top: 41})
	m.b.Levels[l].Shelves = []int{0, 1}
	for i, carried := range [][]int{{0, 1}, {0, 1}, {0}, {1}} {
		m.b.Posts[i].Shelves = carried
	}
	w := Weigh(m.b)
	require.Equal(t, []int{0, 1, 2}, w.Shelves[0].Posts)
	require.Equal(t, []int{0, 1, 3}, w.Shelves[1].Posts)
	require.InDelta(t, w.Posts[2].Carries, w.Posts[3].Carries, 1e-9, "the halves are alike")
	require.InDelta(t, w.Posts[0].Carries, w.Posts[1].Carries, 1e-9)
	require.InDelta(t, 8, w.Posts[0].Carries+w.Posts[1].Carries+w.Posts[2].Carries+w.Posts[3].Carries, 1e-9)
	require.InDelta(t, 8, w.Levels[l].Carried, 1e-9)
}

func TestWeighWithoutPosts(t *testing.T) {
	m := newMaker()
	l := m.level(m.tower(), round(400), plane.Vec{}, 0, 6, 25, 0.1)
	m.pot(l, 1, 0, 0)
	w := Weigh(m.b)
	require.True(t, w.Levels[l].Tips)
	require.InDelta(t, 7, w.Loose, 1e-12)
	require.Empty(t, w.Floor)
	require.NotPanics(t, func() { Weigh(&stacks.Built{Load: &layout.Load{}}) })
}

// randomLoad draws a full base and one to two towers of a few levels.
func randomLoad(t *rapid.T) *maker {
	m := newMaker()
	base := m.level(m.tower(), round(660), plane.Vec{}, 0, 13.9, 25, 0.1, append(thirds(290), plane.Vec{0, 0})...)
	for k := rapid.IntRange(0, 2).Draw(t, "towers"); k > 0; k-- {
		tower := m.tower(base)
		for n := rapid.IntRange(1, 4).Draw(t, "levels"); n > 0; n-- {
			m.level(tower, round(400), plane.Vec{float64(40 * k), 0}, 0, 5, 100, 0.3, thirds(rapid.Float64Range(120, 180).Draw(t, "r"))...)
		}
	}
	for n := rapid.IntRange(0, 30).Draw(t, "pots"); n > 0; n-- {
		l := rapid.IntRange(0, len(m.b.Levels)-1).Draw(t, "level")
		at := plane.FromBearing(rapid.Float64Range(0, 190).Draw(t, "out"), rapid.Float64Range(0, 360).Draw(t, "bearing"))
		m.pot(l, rapid.Float64Range(0.1, 5).Draw(t, "mass"), at[0], at[1])
	}
	return m
}

// Law: the masses on the posts of every level add up to the load above them,
// and the floor carries everything.
func TestLawMassesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := randomLoad(t)
		w := Weigh(m.b)
		floor := w.Loose
		for _, f := range w.Floor {
			floor += f.Mass
		}
		require.InDelta(t, w.Ware+w.Furniture, floor, 1e-6)
		for l := range m.b.Levels {
			carried := 0.0
			for _, i := range m.b.Levels[l].Posts {
				carried += w.Posts[i].Carries
			}
			require.InDelta(t, w.Levels[l].Carried, carried, 1e-6)
			above := w.Levels[l].Ware + w.Levels[l].Shelves
			for i := range m.b.Posts {
				if u := w.Posts[i].Under; u >= 0 && m.b.Shelves[u].Level == l {
					above += w.Posts[i].Foot
				}
			}
			require.InDelta(t, above, carried, 1e-6)
		}
		share := 0.0
		for _, v := range w.Levels {
			share += v.Share
		}
		require.InDelta(t, 1, share, 1e-9)
	})
}

// Law: the floor's loads balance about the load's own balance point.
func TestLawFloorBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := randomLoad(t)
		w := Weigh(m.b)
		var all, floor sum
		for i := range m.b.Pots {
			all.add(m.b.Pots[i].Body.Mass, m.b.Pots[i].At)
		}
		for i := range m.b.Shelves {
			all.add(m.b.Shelves[i].Mass, centroid(&m.b.Shelves[i]))
		}
		for i := range m.b.Posts {
			all.add(m.b.Posts[i].Mass, m.b.Posts[i].At)
		}
		for _, f := range w.Floor {
			floor.add(f.Mass, f.At)
		}
		require.InDelta(t, all.x, floor.x, 1e-3)
		require.InDelta(t, all.y, floor.y, 1e-3)
	})
}

func BenchmarkWeigh200Pots(b *testing.B) {
	m := newMaker()
	tower := m.tower()
	for k := 0; k < 8; k++ {
		m.level(tower, round(660), plane.Vec{}, 0, 13.9, 100, 0.3, thirds(280)...)
	}
	for i := 0; i < 200; i++ {
		at := plane.FromBearing(float64(i%10*28), float64(i*37))
		m.pot(i%8, 0.4, at[0], at[1])
	}
	for b.Loop() {
		Weigh(m.b)
	}
}
