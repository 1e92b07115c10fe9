package order

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
)

// sampleLeft2 is the left half of the look's level page: a ring of six mugs
// from post C by B to A, the handle of each to the one before, and two more.
func sampleLeft2() *layout.Load {
	l := october()
	none := 0.0
	l.Ware = []layout.Ware{{Name: "mug", Count: 14, Height: 95, Across: 86, Measured: true, HighAllowance: &none, WideAllowance: &none,
		Profile: []layout.Knot{{Height: 0, Diameter: 76}, {Height: 95, Diameter: 86}},
		Handles: []layout.Handle{{Reach: 30, From: 20, To: 80, Thick: 14}}}}
	l.Cones = []layout.ConePack{{Name: "cones"}}
	before := plane.Vec{-20, 230}
	for _, bearing := range []float64{338, 311, 284, 256, 229, 202} {
		out := 275.0
		if bearing == 284 || bearing == 256 {
			out = 255 // so that a handle passes post B
		}
		at := plane.FromBearing(out, bearing)
		at = plane.Vec{math.Round(at[0]*10) / 10, math.Round(at[1]*10) / 10}
		turn := plane.Bearing(plane.Sub(before, at))
		if bearing == 338 {
			turn = 150
		}
		set(l, 1, 2, "mug", at[0], at[1], turn)
		before = at
	}
	set(l, 1, 2, "mug", -60, 120, 230)
	set(l, 1, 2, "mug", -60, 10, 300)
	set(l, 1, 2, "mug", -60, -100, 180)
	set(l, 1, 2, "cones", -140, -60, 0)
	return l
}

// TestRingOfTheSample reads the sample's legend back: "1-6 mugs round the edge
// C-B-A, handle to the one before".
func TestRingOfTheSample(t *testing.T) {
	b := build(t, sampleLeft2())
	o, cycles := Of(b)
	require.Empty(t, cycles)
	lawSetting(t, b, o)
	lawSequence(t, b, o)
	level := -1
	for i := range b.Levels {
		if b.Levels[i].Name == "left 2" {
			level = i
		}
	}
	l := o.LevelOf(level)
	require.Len(t, l.Patterns, 2)
	ring := l.Patterns[0]
	require.Equal(t, [2]int{1, 6}, [2]int{ring.First, ring.Last})
	require.Equal(t, Ring, ring.Zone)
	require.False(t, ring.Clockwise)
	require.Equal(t, "C", ring.From)
	require.Equal(t, []string{"B"}, ring.By)
	require.Equal(t, "A", ring.To)
	require.Equal(t, HandlesToBefore, ring.Handles)
	require.Equal(t, 6, ring.Count())
	require.LessOrEqual(t, ring.GapMin, ring.GapMax)
	require.Greater(t, ring.GapMin, 3.0)
	rest := l.Patterns[1]
	require.Equal(t, Middle, rest.Zone)
	require.Equal(t, [2]int{7, 9}, [2]int{rest.First, rest.Last})
	require.Equal(t, HandlesAsDrawn, rest.Handles)

	second := l.Pots[1]
	require.Equal(t, l.Pots[0].Pot, second.HandleTo)
	require.True(t, second.HasHandle)
	require.InDelta(t, b.Pots[second.Pot].Turn, second.Handle, 1e-9)
	require.Equal(t, l.Pots[0].Pot, second.Neighbours[0].Pot)
	require.Equal(t, 1, second.Neighbours[0].Number)
	// The mug reaches 275 + 43 out, the shelf's round to 330 about (-3, 0).
	require.InDelta(t, 12, second.EdgeGap, 3)
	require.InDelta(t, second.EdgeGap, second.Out, 1)
	third := l.Pots[2]
	require.Len(t, third.Neighbours, 2)
	require.ElementsMatch(t, []NeighbourKind{NearPot, NearPost}, []NeighbourKind{third.Neighbours[0].Kind, third.Neighbours[1].Kind},
		"3: between 2 and post B, as on the sample step")
	require.True(t, l.Pots[9].Cones)

	var letters []string
	for _, p := range l.PostsOn {
		letters = append(letters, p.Letter)
		switch p.Letter {
		case "A", "C":
			require.InDelta(t, 59, p.Inset, 1.5, "A at 6, C at 12: 59 from the edge")
		case "B":
			require.InDelta(t, 40, p.Inset, 3.1, "B at 9: 40")
		}
	}
	require.Equal(t, []string{"A", "B", "C"}, letters)
}

func TestHandlesOfASeries(t *testing.T) {
	for name, c := range map[string]struct {
		turn func(bearing float64) float64
		want HandleWay
	}{
		"inward":  {func(b float64) float64 { return b + 180 }, HandlesInward},
		"outward": {func(b float64) float64 { return b }, HandlesOutward},
		"one way": {func(b float64) float64 { return 45 }, HandlesOneWay},
		"before":  {func(b float64) float64 { return b - 90 - 18 }, HandlesToBefore},
		"after":   {func(b float64) float64 { return b + 90 + 18 }, HandlesToAfter},
		"any how": {func(b float64) float64 { return 3 * b }, HandlesAsDrawn},
	} {
		t.Run(name, func(t *testing.T) {
			l := oneShelf()
			w := cylinder("mug", 12, 90, 70)
			w.Handles = []layout.Handle{{Reach: 20, From: 20, To: 70}}
			l.Ware = []layout.Ware{w}
			for k := 0; k < 10; k++ {
				at := plane.FromBearing(260, float64(36*k))
				set(l, 0, 1, "mug", at[0], at[1], plane.NormalTurn(c.turn(float64(36*k))))
			}
			o, _ := Of(build(t, l))
			require.Len(t, o.Levels[0].Patterns, 1)
			require.Equal(t, c.want, o.Levels[0].Patterns[0].Handles)
			if c.want == HandlesOneWay {
				require.Equal(t, 45.0, o.Levels[0].Patterns[0].Clock)
			}
		})
	}
}

func TestSeriesEndsWithItsWare(t *testing.T) {
	l := oneShelf()
	l.Ware = []layout.Ware{cylinder("cup", 20, 80, 80), cylinder("jar", 20, 80, 80)}
	for k := 0; k < 10; k++ {
		at := plane.FromBearing(280, float64(36*k))
		set(l, 0, 1, map[bool]string{true: "cup", false: "jar"}[k < 4 || k == 8], at[0], at[1], 0)
	}
	o, _ := Of(build(t, l))
	var runs [][2]int
	for _, p := range o.Levels[0].Patterns {
		runs = append(runs, [2]int{p.First, p.Last})
	}
	require.Equal(t, [][2]int{{1, 4}, {5, 8}}, runs)
	require.Equal(t, -1, o.Levels[0].Pots[8].Pattern)
	require.Equal(t, -1, o.Levels[0].Pots[9].Pattern)
}

// TestGapOfFarPots: pots that stand farther from each other than a hand feels
// are a series all the same, told with the gap they really have.
func TestGapOfFarPots(t *testing.T) {
	l := oneShelf()
	none := 0.0
	cup := cylinder("cup", 4, 80, 40)
	cup.HighAllowance, cup.WideAllowance = &none, &none
	l.Ware = []layout.Ware{cup}
	for _, at := range []plane.Vec{{0, 90}, {-90, -60}, {90, -60}} {
		set(l, 0, 1, "cup", at[0], at[1], 0)
	}
	o, _ := Of(build(t, l))
	require.Len(t, o.Levels[0].Patterns, 1)
	p := o.Levels[0].Patterns[0]
	require.InDelta(t, math.Hypot(90, 150)-40, p.GapMin, 1e-6, "the second to the first")
	require.InDelta(t, math.Hypot(90, 150)-40, p.GapMax, 1e-6, "the third to the first, which is nearer than the second")
}
