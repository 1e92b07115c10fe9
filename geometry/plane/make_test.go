package plane

import (
	"math/rand/v2"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"
)

// Makers of shapes for the property tests. All randomness is seeded.

func chance(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 2)) }

func within(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// someSkeleton is a point, a segment or a polygon on an ellipse, turned.
func someSkeleton(r *rand.Rand, kinds int) Skeleton {
	pose := Pose{At: Vec{within(r, -100, 100), within(r, -100, 100)}, Turn: within(r, 0, 360)}
	kind := r.IntN(kinds)
	if kind < 2 {
		s := Skeleton{{within(r, -60, 0), 0}, {within(r, 1, 60), 0}}
		return s[:kind+1].At(pose)
	}
	n := 3 + r.IntN(8)
	s := make(Skeleton, n)
	a, b := within(r, 5, 90), within(r, 5, 90)
	for i := range s {
		p := FromBearing(1, -(float64(i)+within(r, 0.1, 0.9))*360/float64(n))
		s[i] = Vec{a * p[0], b * p[1]}
	}
	return s.At(pose)
}

// feature is a skeleton as a shape of simplefeatures, which is an independent
// library of planar geometry.
func feature(s Skeleton) geom.Geometry {
	var seq []float64
	for _, v := range s {
		seq = append(seq, v[0], v[1])
	}
	switch len(s) {
	case 1:
		return geom.NewPoint(geom.Coordinates{XY: geom.XY{X: s[0][0], Y: s[0][1]}, Type: geom.DimXY}).AsGeometry()
	case 2:
		return geom.NewLineString(geom.NewSequence(seq, geom.DimXY)).AsGeometry()
	}
	seq = append(seq, s[0][0], s[0][1])
	return geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(seq, geom.DimXY))}).AsGeometry()
}

func featureDistance(t testing.TB, a, b geom.Geometry) float64 {
	d, ok := geom.Distance(a, b)
	require.True(t, ok)
	return d
}

// some outlines of every kind, by name
type named struct {
	name string
	o    Outline
}

func outlines(t testing.TB) []named {
	var list []named
	add := func(name string, o Outline, err error) {
		t.Helper()
		require.NoError(t, err, name)
		list = append(list, named{name, o})
	}
	o, err := Round(660)
	add("round", o, err)
	o, err = Rectangle(400, 250)
	add("rectangle", o, err)
	o, err = Sided(12, 712, 0)
	add("12-sided", o, err)
	o, err = Sided(5, 300, 77)
	add("5-sided", o, err)
	o, err = HalfRound(660, 327)
	add("half round", o, err)
	o, err = HalfRound(660, 330)
	add("just half round", o, err)
	o, err = HalfRound(660, 60)
	add("a slice of a round", o, err)
	o, err = HalfRound(660, 500)
	add("most of a round", o, err)
	o, err = HalfSided(10, 500, 246)
	add("sawn 10-sided", o, err)
	o, err = HalfSided(7, 500, 400)
	add("most of a 7-sided", o, err)
	o, err = Oval(700, 450)
	add("oval", o, err)
	o, err = Oval(300, 460)
	add("oval, upright", o, err)
	o, err = HalfOval(700, 222)
	add("half oval", o, err)
	o, err = HalfOval(444, 222)
	add("half oval without a straight", o, err)
	o, err = RoundedRectangle(400, 300, 40)
	add("rounded rectangle", o, err)
	o, err = Widened(Skeleton{{0, 0}, {200, 30}, {50, 150}}, 25)
	add("widened triangle", o, err)
	return list
}

// somewhere is a point in or about an outline.
func somewhere(r *rand.Rand, o Outline) Vec {
	lo, hi := o.Bounds()
	w := 0.4 * (hi[0] - lo[0])
	p := Vec{within(r, lo[0]-w, hi[0]+w), within(r, lo[1]-w, hi[1]+w)}
	if r.IntN(2) == 0 { // near the ring
		q := o.NearestEdge(p)
		p = Add(q, FromBearing(within(r, 0, 3), within(r, 0, 360)))
	}
	return p
}
