package solid

import (
	"math"
	"math/rand/v2"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
)

// Makers of parts for the property tests. All randomness is seeded.

func chance(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 20)) }

func within(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// someSkeleton is a point, a segment or a polygon on an ellipse.
func someSkeleton(r *rand.Rand) plane.Skeleton {
	switch r.IntN(4) {
	case 0, 1:
		return plane.Skeleton{{within(r, -20, 20), within(r, -20, 20)}}
	case 2:
		return plane.Skeleton{{within(r, -80, 0), within(r, -20, 20)}, {within(r, 1, 90), within(r, -20, 20)}}
	}
	n := 3 + r.IntN(6)
	turns := make([]float64, n)
	for i := range turns {
		turns[i] = -(float64(i) + within(r, 0.1, 0.9)) * 360 / float64(n)
	}
	a, b := within(r, 10, 90), within(r, 10, 90)
	s := make(plane.Skeleton, n)
	for i, turn := range turns {
		p := plane.FromBearing(1, turn)
		s[i] = plane.Vec{a * p[0], b * p[1]}
	}
	return s
}

// someProfile has up to knots knots, sometimes with steps, flats and points.
func someProfile(r *rand.Rand, knots int) Profile {
	n := 2 + r.IntN(knots-1)
	zs := make([]float64, n)
	for i := range zs {
		zs[i] = within(r, 0, 150)
	}
	zs[0] = 0
	slices.Sort(zs)
	p := make(Profile, n)
	for i, z := range zs {
		p[i] = Knot{z, within(r, 2, 60)}
		if r.IntN(8) == 0 && i > 0 {
			p[i].R = p[i-1].R
		}
		if r.IntN(12) == 0 {
			p[i].R = 0
		}
		if i > 1 && i < n-1 && r.IntN(6) == 0 && p[i-2].Z < p[i-1].Z {
			p[i].Z = p[i-1].Z
		}
	}
	if p.Validate() != nil {
		return someProfile(r, knots)
	}
	return p
}

func somePart(r *rand.Rand, knots int) Part {
	return Part{Skeleton: someSkeleton(r), Profile: someProfile(r, knots)}
}

func someBody(r *rand.Rand, parts, knots int) Body {
	var b Body
	for range 1 + r.IntN(parts) {
		b.Parts = append(b.Parts, somePart(r, knots))
	}
	return b
}

func single(p Part) Body { return Body{Parts: []Part{p}} }

// nearContact places two bodies of one part so that their gap is likely near
// 0 or a few mm: the second is slid to a chosen planar distance.
func nearContact(r *rand.Rand, a, b Part) (pa, pb Placed) {
	pa = Place(single(a), Pose{At: plane.Vec{within(r, -50, 50), within(r, -50, 50)}, Turn: within(r, 0, 360), Z: within(r, 0, 50)})
	dz := within(r, -b.Profile.Top()-4, a.Profile.Top()+4)
	if r.IntN(3) == 0 {
		dz = 0
	}
	pb = Place(single(b), Pose{Turn: within(r, 0, 360), Z: pa.Pose.Z + dz})
	want := pair{a: a.Profile, b: b.Profile, dz: dz}.sum()
	if math.IsInf(want, -1) {
		want = within(r, 0, 60)
	}
	want += []float64{within(r, -1e-4, 1e-4), within(r, -0.5, 0.5), within(r, -5, 10), within(r, -60, 60)}[r.IntN(4)]
	dir := plane.FromBearing(1, within(r, 0, 360))
	lo, hi := 0.0, 1500.0
	for range 60 { // bisect the slide to the wanted planar distance
		mid := (lo + hi) / 2
		pb.Move(Pose{At: plane.Add(pa.Pose.At, plane.Scale(dir, mid)), Turn: pb.Pose.Turn, Z: pb.Pose.Z})
		if pa.Skeleton(0).Distance(pb.Skeleton(0)) < want {
			lo = mid
		} else {
			hi = mid
		}
	}
	return pa, pb
}

// shifted is w moved by v.
func shifted(w *Placed, v mgl64.Vec3) Placed {
	return Place(w.Body, Pose{At: plane.Add(w.Pose.At, plane.Vec{v[0], v[1]}), Turn: w.Pose.Turn, Z: w.Pose.Z + v[2]})
}

func cylinder(r, bottom, top float64) Part {
	return Part{Skeleton: plane.Skeleton{{0, 0}}, Profile: Profile{{bottom, r}, {top, r}}}
}

func at(b Body, x, y, z float64) Placed {
	return Place(b, Pose{At: plane.Vec{x, y}, Z: z})
}
