package stacks

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
)

func glaze(rows ...layout.Ware) *layout.Load {
	return &layout.Load{Firing: layout.Firing{Stage: layout.Glaze}, Ware: rows}
}

func mustBody(t require.TestingT, w layout.Ware) *Body {
	l := glaze(w)
	b, err := BodyOf(l, &l.Ware[0])
	require.NoError(t, err)
	return b
}

// depthIn is how deep a point lies in a body: 0 or more inside.
func depthIn(b *Body, p plane.Vec, z float64) float64 {
	best := math.Inf(-1)
	for _, part := range b.Solid.Parts {
		if r := part.Profile.R(z); !math.IsInf(r, -1) {
			d, _, _ := plane.SignedDistance(part.Skeleton, plane.Skeleton{p})
			best = math.Max(best, r-d)
		}
	}
	return best
}

// profileGen draws a measured profile with 2 to 7 entries.
func profileGen(t *rapid.T, widest float64) []layout.Knot {
	n := rapid.IntRange(2, 7).Draw(t, "entries")
	peak := rapid.IntRange(0, n-1).Draw(t, "widest")
	z := 0.0
	var knots []layout.Knot
	for i := 0; i < n; i++ {
		d := widest * rapid.Float64Range(0.2, 1).Draw(t, "share")
		if i == peak {
			d = widest
		}
		knots = append(knots, layout.Knot{Height: z, Diameter: d})
		z += rapid.Float64Range(1, 60).Draw(t, "rise")
	}
	return knots
}

func diameterAt(knots []layout.Knot, z float64) float64 {
	for i := 1; i < len(knots); i++ {
		if a, b := knots[i-1], knots[i]; z <= b.Height {
			return a.Diameter + (b.Diameter-a.Diameter)*(z-a.Height)/(b.Height-a.Height)
		}
	}
	return knots[len(knots)-1].Diameter
}

// The law of package solid's parts: a pot that is up to the allowance higher
// and wider than written lies within the parts, whatever its form. Points are
// sampled on its surface, corners included.
func TestThePartsContainTheWare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(30, 400).Draw(t, "length")
		w := layout.Ware{
			Name: "thing", Count: 1, Silhouette: layout.Cylinder, Measured: rapid.Bool().Draw(t, "measured"),
			Profile: profileGen(t, length),
		}
		form := rapid.SampledFrom([]string{"round", "oval", "rectangle"}).Draw(t, "form")
		width := length
		if form != "round" {
			width = length * rapid.Float64Range(0.3, 1).Draw(t, "narrower")
			w.Length, w.Width, w.Plan = length, width, layout.Rectangle
			if form == "oval" {
				w.Plan = layout.Oval
			}
		}
		if rapid.Bool().Draw(t, "runny") {
			w.Flags.Runny = true
		}
		if rapid.Bool().Draw(t, "lid") {
			w.Knob = rapid.Float64Range(5, 40).Draw(t, "knob")
		}
		b := mustBody(t, w)
		high := w.Profile[len(w.Profile)-1].Height
		for i := 0; i < 40; i++ {
			taller := rapid.Float64Range(0, 2).Draw(t, "taller")
			wider := rapid.Float64Range(0, 1.5).Draw(t, "wider")
			h := rapid.Float64Range(0, high).Draw(t, "height")
			d := diameterAt(w.Profile, h)
			z := math.Min(h*(high+taller)/high+b.StandH, b.StandH+high+2) // but for rounding
			x := d / 2
			y := d / 2 * width / length // slices keep their proportions
			if rapid.Bool().Draw(t, "even inset") {
				y = math.Max(0, (width-(length-d))/2) // or an even distance from the rim
			}
			if form == "round" {
				y = x
			}
			p := surface(t, form, x+wider, y+wider)
			require.GreaterOrEqual(t, depthIn(b, p, z), -1e-6, "point %v at %v", p, z)
		}
		if w.Knob > 0 {
			top := w.Profile[len(w.Profile)-1].Diameter
			p := surface(t, form, top/2, top/2*width/length)
			require.GreaterOrEqual(t, depthIn(b, p, b.StandH+high+w.Knob+1.9), -1e-6)
		}
	})
}

// surface is a point on the edge of a slice with half measures x and y.
func surface(t *rapid.T, form string, x, y float64) plane.Vec {
	if form == "rectangle" {
		s := rapid.Float64Range(-1, 1).Draw(t, "side")
		switch rapid.IntRange(0, 4).Draw(t, "edge") {
		case 0:
			return plane.Vec{x, s * y}
		case 1:
			return plane.Vec{-x, s * y}
		case 2:
			return plane.Vec{s * x, y}
		case 3:
			return plane.Vec{s * x, -y}
		}
		return plane.Vec{x, y} // the corner
	}
	a := rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle")
	return plane.Vec{x * math.Cos(a), y * math.Sin(a)} // an ellipse lies in the oval
}

// A handle is sampled as a bent rod: from the wall out to its reach and down.
func TestThePartsContainHandles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		across := rapid.Float64Range(50, 200).Draw(t, "across")
		h := layout.Handle{
			At:    rapid.Float64Range(0, 359).Draw(t, "at"),
			Reach: rapid.Float64Range(10, 80).Draw(t, "reach"),
			From:  rapid.Float64Range(0, 40).Draw(t, "from"),
			Thick: rapid.Float64Range(6, 20).Draw(t, "thick"),
		}
		w := layout.Ware{Name: "pot", Count: 1, Silhouette: layout.Cylinder, Profile: profileGen(t, across), Measured: true}
		top := w.Profile[len(w.Profile)-1].Height
		h.To = h.From + rapid.Float64Range(5, 60).Draw(t, "tall")
		if h.To > top {
			h.From, h.To = 0, top
		}
		w.Handles = []layout.Handle{h}
		b := mustBody(t, w)
		require.True(t, b.Turns)
		for i := 0; i < 20; i++ {
			z := rapid.Float64Range(h.From, h.To).Draw(t, "z")
			wall := diameterAt(w.Profile, z) / 2
			end := across/2 + h.Reach - h.Thick/2
			axis := wall + (end-wall)*rapid.Float64Range(0, 1).Draw(t, "out")
			if end < wall {
				axis = end
			}
			round := plane.FromBearing(h.Thick/2*rapid.Float64Range(0, 1).Draw(t, "thick"), rapid.Float64Range(0, 360).Draw(t, "round"))
			p := plane.Add(plane.FromBearing(axis, h.At), round)
			require.GreaterOrEqual(t, depthIn(b, p, z+rapid.Float64Range(0, 2).Draw(t, "higher")), -1e-6)
		}
	})
}

// The envelope of a profile is the greatest radius over the window below a
// height: no less (it contains) and no more (it wastes nothing).
func TestEnvelopeIsTheGreatestRadiusOfTheWindow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		high := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0.1, 12)).Draw(t, "high")
		var p solid.Profile
		for _, k := range profileGen(t, 100) {
			p = append(p, solid.Knot{Z: k.Height, R: k.Diameter / 2})
		}
		e := envelope(p, high)
		require.NoError(t, e.Validate())
		require.InDelta(t, p.Top()+high, e.Top(), 1e-9)
		for i := 0; i < 30; i++ {
			z := rapid.Float64Range(0, p.Top()+high).Draw(t, "z")
			want := 0.0
			for k := 0; k <= 400; k++ {
				if at := z - high*float64(k)/400; at >= 0 && at <= p.Top()+1e-9 {
					want = math.Max(want, p.R(math.Min(at, p.Top())))
				}
			}
			require.GreaterOrEqual(t, e.R(z), want-1e-9)
			for _, k := range p {
				if k.Z >= z-high && k.Z <= z {
					want = math.Max(want, k.R)
				}
			}
			require.InDelta(t, want, e.R(z), 0.5*high/400*100+1e-6)
		}
	})
}

func TestBodyFiguresByHand(t *testing.T) {
	// An unmeasured mug 95 x 86: as wide as at its widest over its whole height.
	mug := mustBody(t, layout.Ware{Name: "mug", Count: 1, Height: 95, Across: 86})
	require.InDelta(t, 97, mug.Height, 1e-9, "95 and 2 allowance")
	require.InDelta(t, 44.5, mug.Solid.Parts[0].Profile.R(0), 1e-9, "43 and 1.5 allowance")
	require.InDelta(t, 43+38+1.5, mug.Solid.Reach(), 1e-9, "handle reach 38")
	require.True(t, mug.Assumed)
	require.True(t, mug.Turns)

	// A runny vase on a cookie 10 wider than its foot all round.
	vase := mustBody(t, layout.Ware{Name: "vase", Count: 1, Height: 230, Across: 120, Foot: 70, Flags: layout.Flags{Runny: true}})
	require.Equal(t, layout.Stand{Kind: layout.Cookie, Across: 90, Height: 10}, vase.Stand)
	require.InDelta(t, 242, vase.Height, 1e-9)
	require.InDelta(t, 45, vase.FootR, 1e-9)
	require.InDelta(t, 10, vase.StandH, 1e-9)
	require.NotNil(t, vase.Drawn.Cookie)
	require.False(t, vase.Turns)

	// Three nested bowls, each adds 25; the lid of a jar adds its knob.
	bowls := mustBody(t, layout.Ware{Name: "bowl", Count: 2, Height: 75, Across: 150, Nested: 3, Adds: 25})
	require.InDelta(t, 75+50+2, bowls.Height, 1e-9)
	off := false
	jar := layout.Ware{Name: "lidded jar", Count: 1, Height: 120, Across: 110, Knob: 22}
	require.InDelta(t, 144, mustBody(t, jar).Height, 1e-9)
	jar.LidOn = &off
	require.InDelta(t, 122, mustBody(t, jar).Height, 1e-9)

	// Allowances of the row win over the rule's.
	high, wide := 5.0, 8.0
	exact := mustBody(t, layout.Ware{Name: "tumbler", Count: 1, Height: 100, Across: 80, HighAllowance: &high, WideAllowance: &wide})
	require.InDelta(t, 105, exact.Height, 1e-9)
	require.InDelta(t, 44, exact.Solid.Reach(), 1e-9)

	// Kiln space: 80 across and 100 high is pi/4 x 80^2 x 100 = 0.5027 litres.
	require.InDelta(t, 0.50265, exact.Value, 1e-5)
}

// A pot's mass against the frustum formula of any handbook,
// V = pi h / 3 (R^2 + R r + r^2), outside less inside.
func TestMassIsThatOfAWallOfEvenThickness(t *testing.T) {
	frustum := func(h, r1, r2 float64) float64 { return math.Pi * h / 3 * (r1*r1 + r1*r2 + r2*r2) }
	w := layout.Ware{
		Name: "planter", Count: 1, Silhouette: layout.Cylinder, Wall: 8,
		Profile: []layout.Knot{{Height: 0, Diameter: 120}, {Height: 200, Diameter: 180}},
	}
	outside := frustum(200, 60, 90)
	inside := frustum(192, 60+30*8.0/200-8, 82)
	require.InDelta(t, (outside-inside)*2200/1e9, mustBody(t, w).Mass, 1e-9)

	w.Clay.Name = "white porcelain"
	require.InDelta(t, (outside-inside)*2400/1e9, mustBody(t, w).Mass, 1e-9)
	w.Mass = 1.5
	require.Equal(t, 1.5, mustBody(t, w).Mass)

	// A box 200 x 100 x 80 of 6: outside less inside of a box.
	box := layout.Ware{Name: "box", Count: 1, Height: 80, Length: 200, Width: 100}
	require.InDelta(t, (200*100*80-188*88*74)*2200.0/1e9, mustBody(t, box).Mass, 1e-9)

	// A tile 100 x 100 x 6 is solid.
	tile := layout.Ware{Name: "tile", Count: 1, Height: 6, Length: 100, Width: 100}
	require.InDelta(t, 100*100*6*2200.0/1e9, mustBody(t, tile).Mass, 1e-9)

	// A cookie 90 across and 10 thick under a cylinder 70 x 100 of 5.
	runny := layout.Ware{Name: "x", Count: 1, Height: 100, Across: 70, Mass: 0.4, Flags: layout.Flags{Runny: true}}
	require.InDelta(t, 0.4+math.Pi/4*90*90*10*2200/1e9, mustBody(t, runny).Mass, 1e-9)
}

func TestOnlyMeasuredProfilesAreFollowed(t *testing.T) {
	w := layout.Ware{Name: "bowl", Count: 1, Profile: []layout.Knot{{Height: 0, Diameter: 70}, {Height: 70, Diameter: 150}}}
	require.InDelta(t, 76.5, mustBody(t, w).Solid.Parts[0].Profile.R(0), 1e-9)
	w.Measured = true
	require.InDelta(t, 36.5, mustBody(t, w).Solid.Parts[0].Profile.R(0), 1e-9)
	w.Across = 160 // contradicts the profile: the wider of the two is safe
	require.InDelta(t, 81.5, mustBody(t, w).Solid.Parts[0].Profile.R(0), 1e-9)
	w.Across, w.Nested, w.Adds = 0, 2, 20
	require.InDelta(t, 76.5, mustBody(t, w).Solid.Parts[0].Profile.R(0), 1e-9, "a bundle is a cylinder")
}

func TestFlaringRectanglesKeepTheirCorners(t *testing.T) {
	w := layout.Ware{
		Name: "dish", Silhouette: layout.Box, Count: 1, Length: 260, Width: 160, Plan: layout.Rectangle, Measured: true,
		Profile: []layout.Knot{{Height: 0, Diameter: 200}, {Height: 60, Diameter: 260}},
	}
	b := mustBody(t, w)
	require.Greater(t, len(b.Solid.Parts), 5)
	require.GreaterOrEqual(t, depthIn(b, plane.Vec{130 + 1.5, 80 + 1.5}, 60), -1e-9, "the corner of the rim")
	require.Less(t, depthIn(b, plane.Vec{130, 80}, 5), -10.0, "the foot is smaller")
}

func TestCookiesComeFromTheList(t *testing.T) {
	runny := func(name string, count int, foot float64) layout.Ware {
		return layout.Ware{Name: name, Count: count, Height: 100, Across: 120, Foot: foot, Flags: layout.Flags{Runny: true}}
	}
	l := glaze(runny("a", 2, 60), runny("b", 2, 60), runny("c", 1, 110))
	l.Furniture.Cookies = []layout.CookieKind{{Across: 120, Thick: 9, Count: 5}, {Across: 90, Thick: 8, Count: 3}}
	bodies, errs := Bodies(l)
	require.Equal(t, []error{nil, nil, nil}, errs)
	require.Equal(t, layout.Stand{Kind: layout.Cookie, Across: 90, Height: 8}, bodies[0].Stand, "the smallest that is wide enough")
	require.Equal(t, layout.Stand{Kind: layout.Cookie, Across: 120, Height: 9}, bodies[1].Stand, "one of 90 is left, two are needed")
	require.Equal(t, layout.Stand{Kind: layout.Cookie, Across: 130, Height: 10}, bodies[2].Stand, "none is wide enough")
	s := NewStock(&l.Furniture)
	for i, n := range []int{2, 2, 1} {
		for ; n > 0; n-- {
			s.takeStand(bodies[i])
		}
	}
	require.Equal(t, []int{3, 1}, s.Cookies)
	require.Len(t, s.Missing(), 1)
	require.Equal(t, "The load takes 1 cookie that no listed one is wide enough for.", SayShort(s.Missing()[0], ""))
}

func TestStiltsStandWithinTheFoot(t *testing.T) {
	l := glaze(layout.Ware{Name: "dish", Count: 1, Height: 40, Across: 120, Foot: 70, Stand: layout.Stand{Kind: layout.Stilt}})
	l.Furniture.Stilts = []layout.StiltKind{{Across: 80, Height: 14, Count: 3}, {Across: 60, Height: 13, Count: 3}, {Across: 40, Height: 10, Count: 3}}
	b, err := BodyOf(l, &l.Ware[0])
	require.NoError(t, err)
	require.Equal(t, layout.Stand{Kind: layout.Stilt, Across: 60, Height: 13}, b.Stand)
	require.InDelta(t, 55, b.Height, 1e-9)
	require.InDelta(t, 30, b.FootR, 1e-9)
}

func TestConePackIsABox(t *testing.T) {
	l := glaze()
	b, err := ConeBody(l, &layout.ConePack{Name: "cones"})
	require.NoError(t, err)
	lo, hi := b.Solid.Bounds()
	require.Equal(t, [3]float64{75, 28, 70}, [3]float64(hi.Sub(lo)))
	_, err = ConeBody(l, &layout.ConePack{Name: "cones", Height: -4})
	require.EqualError(t, err, "cones: a cone pack of -4 mm; give length, width and height up to 1000")
}

func TestWareThatIsNoneIsRefused(t *testing.T) {
	nan, minus := math.NaN(), -1.0
	for _, c := range []struct {
		w    layout.Ware
		want string
	}{
		{layout.Ware{Name: "a", Across: 80}, "a: the height is missing"},
		{layout.Ware{Name: "a", Height: 80}, "a: the width is missing"},
		{layout.Ware{Name: "a", Height: nan, Across: 80}, "a: the height is not a number"},
		{layout.Ware{Name: "a", Height: -8, Across: 80}, "a: the height is -8, less than 0"},
		{layout.Ware{Name: "a", Height: 80, Across: 1e9}, "over 10 m"},
		{layout.Ware{Name: "a", Height: 80, Across: 80, Foot: 90}, "the foot is 90 and the pot only 80 across"},
		{layout.Ware{Name: "a", Height: 80, Across: 80, HighAllowance: &minus}, "an allowance of -1 mm"},
		{layout.Ware{Name: "a", Height: 80, Across: 80, WideAllowance: &nan}, "an allowance of NaN mm"},
		{layout.Ware{Name: "a", Height: 80, Across: 80, Nested: 100000}, "a bundle of 100000"},
		{layout.Ware{Name: "a", Height: 80, Across: 80, Stand: layout.Stand{Kind: layout.Cookie, Across: -5}}, "what it stands on measures -5 mm"},
		{layout.Ware{Name: "a", Height: 80, Across: 80, Handles: []layout.Handle{{Reach: 20, From: 60, To: 30}}}, "a handle runs from 60 up to 30"},
		{layout.Ware{Name: "a", Profile: []layout.Knot{{Height: 5, Diameter: 40}, {Height: 1, Diameter: 40}}}, "profile entry 2 lies at 1"},
	} {
		l := glaze(c.w)
		_, err := BodyOf(l, &l.Ware[0])
		require.ErrorContains(t, err, c.want)
	}
}

func TestBeforeIsWhoGoesFirst(t *testing.T) {
	must := &layout.Ware{Must: layout.MustGo}
	old := &layout.Ware{Since: "2026-03-01"}
	young := &layout.Ware{Since: "2026-09-01"}
	undated := &layout.Ware{}
	filler := &layout.Ware{Must: layout.Filler, Since: "2020-01-01"}
	order := []*layout.Ware{must, old, young, undated, filler}
	for i := range order {
		for j := range order {
			switch got := Before(order[i], order[j]); {
			case i < j:
				require.Negative(t, got)
			case i > j:
				require.Positive(t, got)
			default:
				require.Zero(t, got)
			}
		}
	}
}
