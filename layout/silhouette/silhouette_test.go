package silhouette

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
)

// The forms that names mean are common practice.
func TestGuess(t *testing.T) {
	for name, want := range map[string]layout.Silhouette{
		"mug": layout.Mug, "12 mugs": layout.Mug, "Coffee Cups": layout.Mug, "espresso cup": layout.Mug,
		"soup bowl": layout.Bowl, "rice bowls": layout.Bowl, "bowl vase": layout.Vase, "mixing bowl (large)": layout.Bowl,
		"water bottle": layout.Bottle, "test tile": layout.Tile, "platter": layout.Plate, "butter dish": layout.OvalBaker,
		"serving dishes": layout.Plate, "saucer": layout.Plate, "pinch pot": layout.Tumbler, "tumbler": layout.Tumbler,
		"teapot": layout.Teapot, "tea pot": layout.Teapot, "coffee pot": layout.Teapot, "pot": layout.Cylinder,
		"lidded jar": layout.LiddedJar, "jars": layout.LiddedJar, "bowl with lid": layout.LiddedJar, "lidded bowls": layout.LiddedJar,
		"casserole": layout.LiddedJar, "oval baker": layout.OvalBaker, "bakers": layout.OvalBaker, "box": layout.Box, "lidded box": layout.Box,
		"vase": layout.Vase, "vase for a jug": layout.Vase, "jug": layout.Jug, "pitcher": layout.Jug,
		"sculpture": layout.Cylinder, "": layout.Cylinder, "Вася": layout.Cylinder, "mug 3": layout.Mug, "lid": layout.Cylinder,
		"egg cup": layout.Mug, "sugar pot": layout.LiddedJar,
	} {
		require.Equal(t, want, Guess(name), "%q", name)
	}
}

// A name of somebody stays; what it names has the number.
func TestNamesOfPeopleStay(t *testing.T) {
	require.Equal(t, "pot Thomas", Singular("pot Thomas"))
	require.Equal(t, "pots Thomas", Plural("pot Thomas"))
	require.Equal(t, "pot Thomas", Singular("pots Thomas"))
	require.Equal(t, "Soup Bowl", Singular("Soup Bowls"), "all words written large")
	require.Equal(t, "Mug", Singular("Mugs"))
	require.NotPanics(t, func() { Singular("a  B"); Singular(" B"); Plural("ab  Cd") })
}

func TestPluralAndSingular(t *testing.T) {
	for _, c := range [][2]string{
		{"mug", "mugs"}, {"box", "boxes"}, {"dish", "dishes"}, {"vase", "vases"}, {"lidded jar", "lidded jars"},
		{"butter dish", "butter dishes"}, {"water bottle", "water bottles"}, {"tray", "trays"}, {"glass", "glasses"},
		{"half shelf", "half shelves"}, {"loaf", "loaves"}, {"cookie", "cookies"}, {"pie plate", "pie plates"},
		{"quiche dish", "quiche dishes"}, {"quiche", "quiches"}, {"case", "cases"}, {"chalice", "chalices"},
		{"berry", "berries"}, {"bowl with lid", "bowls with lid"}, {"vase for Ida", "vases for Ida"}, {"mug A", "mugs A"},
		{"plate 27", "plates 27"}, {"MUG", "MUGS"}, {"Box", "Boxes"}, {"BOX", "BOXES"}, {"oval baker", "oval bakers"},
		{"crucible", "crucibles"}, {"torus", "toruses"}, {"box of tile", "boxes of tile"}, {"pinch pot", "pinch pots"},
		{"vase ", "vases "},
	} {
		one, many := c[0], c[1]
		require.Equal(t, many, Plural(one))
		require.Equal(t, one, Singular(many))
		require.Equal(t, many, Plural(many), "plural already")
		require.Equal(t, one, Singular(one), "singular already")
		require.Equal(t, one, Named(1, many))
		require.Equal(t, many, Named(2, one))
		require.Equal(t, many, Named(0, one))
	}
	for _, name := range []string{"", " ", "7", "A", "raku", "with lid"} {
		require.NotPanics(t, func() { Plural(name); Singular(name) })
	}
	require.Equal(t, "7", Plural("7"))
	require.Equal(t, "stoneware", Plural("stoneware"))
}

// Worked by hand from the shares: a mug of 95 x 86 has a handle that reaches
// 0.44 x 86 = 38, from 0.2 x 95 = 19 to 0.85 x 95 = 81.
func TestFillsWhatIsEmpty(t *testing.T) {
	w, assumed, err := Fill(layout.Ware{Name: "mug", Count: 12, Height: 95, Across: 86})
	require.NoError(t, err)
	require.Equal(t, []string{"foot", "profile", "handle"}, assumed)
	require.Equal(t, layout.Mug, w.Silhouette)
	require.Equal(t, []layout.Handle{{Reach: 38, From: 19, To: 81, Thick: 14}}, w.Handles)
	require.Equal(t, 71.0, w.Foot)

	for _, c := range []struct {
		name         string
		high, across float64
		foot         float64
		assumed      []string
	}{
		{"dinner plate", 25, 270, 162, []string{"foot", "profile"}}, // 60 %
		{"bowl", 75, 150, 75, []string{"foot", "profile"}},          // 50 %
		{"teapot", 130, 150, 90, []string{"foot", "profile", "handle", "spout", "knob"}},
		{"lidded jar", 120, 110, 79, []string{"foot", "profile", "knob"}},
		{"thing", 120, 110, 110, []string{"foot", "profile"}},
	} {
		w, assumed, err := Fill(layout.Ware{Name: c.name, Height: c.high, Across: c.across})
		require.NoError(t, err)
		require.Equal(t, c.foot, w.Foot, c.name)
		require.Equal(t, c.assumed, assumed, c.name)
	}
}

func TestSpoutStandsOppositeTheHandle(t *testing.T) {
	w, _, err := Fill(layout.Ware{Name: "teapot", Height: 130, Across: 150})
	require.NoError(t, err)
	require.Zero(t, w.Handles[0].At)
	require.Equal(t, 180.0, w.Spout.At)
	given := layout.Handle{Reach: 50}
	w, _, err = Fill(layout.Ware{Name: "teapot", Height: 130, Across: 150, Spout: &given})
	require.NoError(t, err)
	require.Equal(t, layout.Handle{At: 180, Reach: 50, To: 130, Thick: 14}, *w.Spout)
	require.Zero(t, given.At, "the person's own is not written on")
}

func TestWhatIsGivenStays(t *testing.T) {
	off := false
	in := layout.Ware{
		Name: "mug", Silhouette: layout.Tumbler, Foot: 60, Measured: true, Knob: 0, LidOn: &off,
		Profile: []layout.Knot{{Height: 0, Diameter: 76}, {Height: 95, Diameter: 86}},
		Handles: []layout.Handle{{Reach: 30, From: 10, To: 60, Thick: 9}},
	}
	w, assumed, err := Fill(in)
	require.NoError(t, err)
	require.Empty(t, assumed)
	in.Height, in.Across = 95, 86 // follow from the profile
	require.Equal(t, in, w)

	jar, assumed, err := Fill(layout.Ware{Name: "lidded jar", Height: 100, Across: 100, LidOn: &off})
	require.NoError(t, err)
	require.Zero(t, jar.Knob, "the lid lies beside it")
	require.NotContains(t, assumed, "knob")
}

func TestOblongWare(t *testing.T) {
	baker, assumed, err := Fill(layout.Ware{Name: "bakers", Height: 60, Length: 260, Width: 160})
	require.NoError(t, err)
	require.Equal(t, layout.Oval, baker.Plan)
	require.Equal(t, 224.0, baker.Foot) // 86 % of its length
	require.Empty(t, baker.Handles)
	require.NotContains(t, assumed, "handle")
	box, _, err := Fill(layout.Ware{Name: "box", Height: 60, Length: 200})
	require.NoError(t, err)
	require.Equal(t, layout.Rectangle, box.Plan)
	require.Equal(t, 200.0, box.Width)
	tile, assumed, err := Fill(layout.Ware{Name: "test tile", Height: 8, Across: 60})
	require.NoError(t, err)
	require.Equal(t, [3]float64{60, 60, 0}, [3]float64{tile.Length, tile.Width, tile.Across})
	require.Contains(t, assumed, "plan")
	thing, _, err := Fill(layout.Ware{Name: "thing", Height: 60, Width: 80})
	require.NoError(t, err)
	require.Equal(t, layout.Rectangle, thing.Plan, "what contains every plan of that length and width")
}

// Every filled profile starts at the foot, ends at the height, never falls,
// and is widest at the width: on all forms and sizes.
func TestProfilesFitTheirMeasures(t *testing.T) {
	forms := []layout.Silhouette{layout.Mug, layout.Tumbler, layout.Bowl, layout.Plate, layout.Vase, layout.Bottle,
		layout.Jug, layout.Teapot, layout.LiddedJar, layout.OvalBaker, layout.Box, layout.Tile, layout.Cylinder}
	rapid.Check(t, func(t *rapid.T) {
		in := layout.Ware{
			Name: "x", Silhouette: rapid.SampledFrom(forms).Draw(t, "form"),
			Height: rapid.Float64Range(3, 600).Draw(t, "height"), Across: rapid.Float64Range(20, 600).Draw(t, "across"),
		}
		full := in.Across
		if rapid.Bool().Draw(t, "oblong") {
			in.Length, in.Width = in.Across, rapid.Float64Range(20, in.Across).Draw(t, "width")
		}
		if rapid.Bool().Draw(t, "foot known") {
			in.Foot = full * rapid.Float64Range(0.1, 1).Draw(t, "foot")
		}
		w, _, err := Fill(in)
		require.NoError(t, err)
		last := w.Profile[len(w.Profile)-1]
		require.Zero(t, w.Profile[0].Height)
		require.Equal(t, w.Foot, w.Profile[0].Diameter)
		require.InDelta(t, in.Height, last.Height, 1e-9)
		widest := 0.0
		for i, k := range w.Profile {
			widest = math.Max(widest, k.Diameter)
			require.Positive(t, k.Diameter)
			if i > 0 {
				require.Greater(t, k.Height, w.Profile[i-1].Height)
			}
		}
		require.InDelta(t, full, widest, 0.5+1e-9, "the foot is rounded to a whole mm")
		for _, h := range w.Handles {
			require.Positive(t, h.Reach)
			require.Less(t, h.From, h.To)
		}
		again, assumed, err := Fill(w)
		require.NoError(t, err)
		require.Empty(t, assumed, "filling twice changes nothing")
		require.Equal(t, w, again)
	})
}

func TestMeasuresThatMakeNoPot(t *testing.T) {
	for want, w := range map[string]layout.Ware{
		"a: the height is missing; measure from the table to the highest point": {Across: 80},
		"a: the width is missing; measure across the widest place":              {Height: 80},
		"a: the height is not a number; give it in mm":                          {Height: math.NaN(), Across: 80},
		"a: the width across is -3, less than 0; give it in mm":                 {Height: 80, Across: -3},
		"a: the length is 20000 mm, over 10 m; check the figure and its unit":   {Height: 80, Length: 20000},
		"a: the foot is 90 and the pot only 80 across; check the two figures":   {Height: 80, Across: 80, Foot: 90},
		"a: a handle runs from 70 up to 30; its top lies over its foot":         {Height: 80, Across: 80, Handles: []layout.Handle{{From: 70, To: 30}}},
		"a: the reach of a spout is not a number; give it in mm":                {Height: 80, Across: 80, Spout: &layout.Handle{Reach: math.Inf(1)}},
	} {
		w.Name = "a"
		_, _, err := Fill(w)
		require.EqualError(t, err, want)
	}
}
