package scene

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/interp"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
)

func anyCamera(t *rapid.T) (Camera, Screen) {
	c := Camera{
		Target:    mgl64.Vec3{rapid.Float64Range(-300, 300).Draw(t, "x"), rapid.Float64Range(-300, 300).Draw(t, "y"), rapid.Float64Range(0, 700).Draw(t, "z")},
		Azimuth:   rapid.Float64Range(0, 360).Draw(t, "azimuth"),
		Elevation: rapid.Float64Range(-20, 85).Draw(t, "elevation"),
		Distance:  rapid.Float64Range(600, 5000).Draw(t, "distance"),
		Angle:     rapid.Float64Range(10, 60).Draw(t, "angle"),
	}
	if rapid.Bool().Draw(t, "parallel") {
		c.Angle, c.Span = 0, rapid.Float64Range(100, 2000).Draw(t, "span")
	}
	return c, Screen{rapid.Float64Range(200, 2000).Draw(t, "w"), rapid.Float64Range(200, 2000).Draw(t, "h")}
}

func anyPoint(t *rapid.T) mgl64.Vec3 {
	return mgl64.Vec3{rapid.Float64Range(-300, 300).Draw(t, "px"), rapid.Float64Range(-300, 300).Draw(t, "py"), rapid.Float64Range(0, 700).Draw(t, "pz")}
}

// TestCameraAgainstLibrary holds the matrices and the projection against
// mathgl's LookAtV and Project.
func TestCameraAgainstLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := anyCamera(t)
		p := anyPoint(t)
		want := mgl64.LookAtV(c.Eye(), c.Target, mgl64.Vec3{0, 0, 1})
		for k, v := range c.View() {
			if math.Abs(v-want[k]) > 1e-6 {
				t.Fatalf("view %v, library %v", c.View(), want)
			}
		}
		at, _, ok := c.Project(p, s)
		if !ok {
			return
		}
		win := mgl64.Project(p, want, c.Projection(s), 0, 0, int(s.W), int(s.H))
		k := s.W / float64(int(s.W))
		if math.Abs(win[0]*k-at[0]) > 0.02*math.Abs(at[0])+1 || math.Abs(s.H-win[1]*s.H/float64(int(s.H))-at[1]) > 0.02*math.Abs(at[1])+1 {
			t.Fatalf("projected to %v, library %v", at, win)
		}
	})
}

// TestLawRayGoesThroughWhatIsSeen: the ray through the px of a point passes
// the point.
func TestLawRayGoesThroughWhatIsSeen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := anyCamera(t)
		p := anyPoint(t)
		at, _, ok := c.Project(p, s)
		if !ok {
			return
		}
		r := c.Ray(at[0], at[1], s)
		d := p.Sub(r.Origin)
		off := d.Sub(r.Dir.Mul(dot(d, r.Dir)))
		if l := off.Len(); l > 1e-6*c.Distance+1e-6 {
			t.Fatalf("the ray passes %v mm off", l)
		}
		if q, ok := r.OnLevel(p[2]); ok && math.Abs(r.Dir[2]) > 0.05 {
			if plane.Distance(q, plane.Vec{p[0], p[1]}) > 1e-4 {
				t.Fatalf("meets the level at %v, not %v", q, p)
			}
		}
	})
}

// TestLawZoomKeepsThePlace: what lies under the pointer in the target's plane
// stays there.
func TestLawZoomKeepsThePlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := anyCamera(t)
		x, y := rapid.Float64Range(0, s.W).Draw(t, "sx"), rapid.Float64Range(0, s.H).Draw(t, "sy")
		r := c.Ray(x, y, s)
		_, _, back := c.axes()
		t0 := dot(back, c.Target.Sub(r.Origin)) / dot(back, r.Dir)
		p := r.At(t0)
		z := c.Zoom(rapid.Float64Range(0.5, 2).Draw(t, "factor"), x, y, s)
		at, _, ok := z.Project(p, s)
		if !ok || math.Abs(at[0]-x) > 1e-3 || math.Abs(at[1]-y) > 1e-3 {
			t.Fatalf("moved from %v, %v to %v", x, y, at)
		}
	})
}

func TestLawFitShowsTheBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := anyCamera(t)
		b := Box{mgl64.Vec3{-300, -200, 0}, mgl64.Vec3{rapid.Float64Range(-200, 300).Draw(t, "bx"), 300, rapid.Float64Range(200, 700).Draw(t, "bz")}}
		f := c.Fit(b, s, 0.05)
		lo, hi := mgl64.Vec2{1e9, 1e9}, mgl64.Vec2{-1e9, -1e9}
		for _, p := range b.Corners() {
			at, _, ok := f.Project(p, s)
			if !ok || at[0] < 0.02*s.W || at[1] < 0.02*s.H || at[0] > 0.98*s.W || at[1] > 0.98*s.H {
				t.Fatalf("corner %v falls to %v of %v", p, at, s)
			}
			for k := range 2 {
				lo[k], hi[k] = min(lo[k], at[k]), max(hi[k], at[k])
			}
		}
		if fill := max((hi[0]-lo[0])/s.W, (hi[1]-lo[1])/s.H); fill < 0.6 && s.W < 4*s.H && s.H < 4*s.W {
			t.Fatalf("fills only %v", fill)
		}
	})
}

func TestBlendBeginsAndEnds(t *testing.T) {
	a := Camera{Azimuth: 350, Elevation: 20, Distance: 2000, Angle: 26}
	b := Camera{Azimuth: 10, Elevation: 90, Distance: 4000, Span: 800}
	require.Equal(t, a, Blend(a, b, 0))
	require.Equal(t, b, Blend(a, b, 1))
	mid := Blend(a, b, 0.5)
	require.True(t, mid.Azimuth > 350 || mid.Azimuth < 10, "the short way round: %v", mid.Azimuth)
	s := Screen{800, 600}
	last, _, _ := Blend(a, b, 1-1e-9).Project(mgl64.Vec3{100, 50, 0}, s)
	want, _, _ := b.Project(mgl64.Vec3{100, 50, 0}, s)
	require.InDelta(t, want[0], last[0], 1)
	require.InDelta(t, want[1], last[1], 1)
}

func TestPresets(t *testing.T) {
	b := reference(t, "studio")
	sc := Build(b, Options{})
	s := Screen{1280, 800}
	right, _, ok := Top(sc.Box, s).Project(mgl64.Vec3{100, 0, 0}, s)
	require.True(t, ok)
	back, _, _ := Top(sc.Box, s).Project(mgl64.Vec3{0, 100, 0}, s)
	mid, _, _ := Top(sc.Box, s).Project(mgl64.Vec3{}, s)
	require.Greater(t, right[0], mid[0], "x runs right")
	require.Less(t, back[1], mid[1], "12 o'clock is up")
	left, _, _ := Side(90, sc.Box, s).Project(mgl64.Vec3{0, 100, 0}, s)
	from, _, _ := Side(90, sc.Box, s).Project(mgl64.Vec3{0, -100, 0}, s)
	require.Greater(t, left[0], from[0], "from the right side the back lies right")
	eye := Stand(b, sc.Box, s).Eye()
	require.Less(t, eye[1], -700.0, "in front of the kiln")
	spy, ok := Through(b, 0)
	require.True(t, ok)
	axis, _, ok := spy.Project(mgl64.Vec3{b.Spies[0].Mouth[0] + b.Spies[0].Inward[0]*200, b.Spies[0].Mouth[1] + b.Spies[0].Inward[1]*200, b.Spies[0].Height}, s)
	require.True(t, ok)
	require.InDelta(t, 640, axis[0], 1e-6)
	require.InDelta(t, 400, axis[1], 1e-6)
	_, ok = Through(b, 7)
	require.False(t, ok)
}

// TestPickAgainstMarching walks rays in small steps and asks the parts.
func TestPickAgainstMarching(t *testing.T) {
	b := reference(t, "studio")
	sc := Build(b, Options{})
	s := Screen{640, 400}
	cam := Stand(b, sc.Box, s)
	hits := 0
	for y := 15.0; y < s.H; y += 61 {
		for x := 13.0; x < s.W; x += 57 {
			r := cam.Ray(x, y, s)
			hit, ok := sc.Pick(b, r, nil)
			piece, far := march(sc, r, func(id int) *solid.Placed { return solidOf(b, &sc.Pieces[id]) })
			if piece == 0 {
				continue // grazed more finely than the steps
			}
			hits++
			require.True(t, ok)
			require.LessOrEqual(t, hit.Far, far+1e-6)
			if far-hit.Far < 0.5 {
				require.Equal(t, sc.Pieces[piece].Name, sc.Pieces[hit.Piece].Name)
			}
		}
	}
	require.Greater(t, hits, 20)
}

// march finds the first solid along a ray in steps of 0.5 mm.
func march(sc *Scene, r Ray, body func(int) *solid.Placed) (piece int, far float64) {
	var near []int
	for id := 1; id < len(sc.Pieces); id++ {
		w := body(id)
		if w == nil {
			continue
		}
		mid := w.Min.Add(w.Max).Mul(0.5)
		d := mid.Sub(r.Origin)
		if d.Sub(r.Dir.Mul(dot(d, r.Dir))).Len() < w.Max.Sub(w.Min).Len()/2 {
			near = append(near, id)
		}
	}
	for far = 1000; far < 3500; far += 0.5 {
		p := r.At(far)
		for _, id := range near {
			w := body(id)
			for k := range w.Body.Parts {
				prof, z := w.Body.Parts[k].Profile, p[2]-w.Pose.Z
				if z < prof.Bottom() || z > prof.Top() {
					continue
				}
				if _, d := w.Skeleton(k).Nearest(plane.Vec{p[0], p[1]}); d <= prof.R(z) {
					return id, far
				}
			}
		}
	}
	return 0, far
}

func TestPickBehindACut(t *testing.T) {
	b := reference(t, "studio")
	sc := Build(b, Options{})
	s := Screen{640, 400}
	cut := CutBefore(180)
	cam := Side(180, sc.Box, s)
	for x := 5.0; x < s.W; x += 23 {
		if hit, ok := sc.Pick(b, cam.Ray(x, 200, s), &cut); ok {
			require.False(t, cut.Cuts(hit.At.Sub(mgl64.Vec3{0, -1e-6, 0})), "%v", hit.At)
		}
	}
}

// TestCurveAgainstGonum: between evenly spaced knots our slopes are those of
// Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984), as gonum has
// them; the ends differ.
func TestCurveAgainstGonum(t *testing.T) {
	z := []float64{0, 20, 40, 60, 80, 100}
	r := []float64{30, 42, 50, 48, 40, 36}
	var p []layout.Knot
	for i := range z {
		p = append(p, layout.Knot{Height: z[i], Diameter: 2 * r[i]})
	}
	var fb interp.FritschButland
	require.NoError(t, fb.Fit(z, r))
	c := newCurve(p)
	for h := 20.0; h <= 80; h += 2.5 {
		require.InDelta(t, fb.Predict(h), c.at(h), 1e-9, "at %v", h)
	}
}

// TestLawCurveStaysBetweenKnots: a drawn pot is never wider than its widest
// measure.
func TestLawCurveStaysBetweenKnots(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "n")
		h := 0.0
		var p []layout.Knot
		for range n {
			p = append(p, layout.Knot{Height: h, Diameter: rapid.Float64Range(10, 300).Draw(t, "d")})
			h += rapid.Float64Range(0, 60).Draw(t, "h")
		}
		c := newCurve(p)
		for i := 1; i < n; i++ {
			a, b := p[i-1], p[i]
			if b.Height-a.Height < 1e-3 {
				continue
			}
			for k := 1; k < 10; k++ {
				r := c.at(a.Height + (b.Height-a.Height)*float64(k)/10)
				lo, hi := math.Min(a.Diameter, b.Diameter)/2, math.Max(a.Diameter, b.Diameter)/2
				if r < lo-1e-9 || r > hi+1e-9 {
					t.Fatalf("%v lies outside %v to %v", r, lo, hi)
				}
			}
		}
	})
}

func TestLabelsHangOnTheirSide(t *testing.T) {
	b := reference(t, "studio")
	sc := Build(b, Options{})
	s := Screen{1280, 800}
	for bearing, flip := range map[float64]int{180: 1, 0: -1} {
		cam := Side(bearing, sc.Box, s)
		for _, l := range sc.Labels {
			if l.Kind != MassLabel {
				continue
			}
			at, side, ok := sc.Hang(l, cam, s)
			require.True(t, ok)
			switch name := b.Levels[l.Level].Name; {
			case name == "left 1":
				require.Equal(t, -flip, side)
			case name == "right 1":
				require.Equal(t, flip, side)
			}
			require.True(t, side < 0 == (at[0] < s.W/2), "%s hangs at %v on side %d", l.Name, at, side)
		}
	}
}

func BenchmarkBuildStudio(b *testing.B) {
	built := reference(b, "studio")
	for b.Loop() {
		Build(built, Options{})
	}
}

func BenchmarkPick(b *testing.B) {
	built := reference(b, "front-loader")
	sc := Build(built, Options{})
	s := Screen{1280, 800}
	cam := Stand(built, sc.Box, s)
	i := 0
	for b.Loop() {
		i++
		sc.Pick(built, cam.Ray(float64(200+i*37%900), float64(100+i*53%600), s), nil)
	}
	b.ReportMetric(float64(len(sc.Pieces)), "pieces")
}
