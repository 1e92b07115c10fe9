package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
)

// plan is a ring of points, counter-clockwise from above, with the outward
// direction at each.
type plan struct {
	at, out []plane.Vec
	mid     plane.Vec // what it is drawn together to
	far     float64   // half its length along the longer axis
}

// roundPlan is a circle of radius r in n points.
func roundPlan(r float64, n int) plan {
	p := plan{far: r}
	for i := range n {
		d := plane.FromBearing(1, 90-360*float64(i)/float64(n))
		p.at = append(p.at, plane.Scale(d, r))
		p.out = append(p.out, d)
	}
	return p
}

// planOf is the ring round a widened skeleton. Sharp corners are rounded
// inwards by corner mm, since clay has none.
func planOf(w stacks.Widened, n int, corner float64) plan {
	s, r := w.Skeleton, w.Radius
	if len(s) == 1 {
		p := roundPlan(r, n)
		for i := range p.at {
			p.at[i] = plane.Add(p.at[i], s[0])
		}
		return p
	}
	if r < corner {
		s, r = shrunk(s, corner-r), corner
	}
	var p plan
	per := max(2, n/max(2, len(s)))
	for i := range s {
		before, after := s[(i+len(s)-1)%len(s)], s[(i+1)%len(s)]
		in, on := plane.Right(plane.Unit(plane.Sub(s[i], before))), plane.Right(plane.Unit(plane.Sub(after, s[i])))
		from, to := plane.Bearing(in), plane.Bearing(on)
		sweep := plane.NormalTurn(from - to)
		if len(s) == 2 {
			sweep = 180
		}
		k := max(2, int(math.Ceil(float64(per)*sweep*float64(len(s))/360)))
		for j := 0; j <= k; j++ {
			d := plane.FromBearing(1, from-sweep*float64(j)/float64(k))
			p.at = append(p.at, plane.Add(s[i], plane.Scale(d, r)))
			p.out = append(p.out, d)
		}
	}
	for _, v := range p.at {
		p.far = max(p.far, math.Abs(v[0]), math.Abs(v[1]))
	}
	return p
}

// shrunk is a polygon with each side moved inwards; one too thin for it keeps
// a hair.
func shrunk(s plane.Skeleton, by float64) plane.Skeleton {
	lo, hi := s.Bounds()
	by = math.Min(by, 0.45*math.Min(hi[0]-lo[0], hi[1]-lo[1]))
	out := make(plane.Skeleton, len(s))
	for i := range s {
		before, after := s[(i+len(s)-1)%len(s)], s[(i+1)%len(s)]
		a := plane.Left(plane.Unit(plane.Sub(s[i], before)))
		b := plane.Left(plane.Unit(plane.Sub(after, s[i])))
		k := 1 + plane.Dot(a, b)
		out[i] = plane.Add(s[i], plane.Scale(plane.Add(a, b), by/math.Max(k, 0.2)))
	}
	return out
}

// exit is how far the ring lies from the middle on a bearing, mm.
func (p plan) exit(bearing float64) float64 {
	d := plane.FromBearing(1, bearing)
	far := 0.0
	for i := range p.at {
		a, b := p.at[i], p.at[(i+1)%len(p.at)]
		ca, cb := plane.Cross(d, a), plane.Cross(d, b)
		if ca > 0 || cb < 0 || ca == cb {
			continue
		}
		if v := plane.Lerp(a, b, ca/(ca-cb)); plane.Dot(v, d) > 0 {
			far = max(far, plane.Dot(v, d))
		}
	}
	return far
}

// knot is a ring of a lathed wall: the plan at a share of its size, inset
// along its outward directions, at a height.
type knot struct{ share, inset, z, tone float64 }

// wall is a smooth run of rings; at its beginning there may be a crease.
type wall struct {
	knots  []knot
	crease bool
}

// lathe lays walls over a plan, from the middle of the bottom outwards, up
// and back to the middle: material lies to the left of the path.
func (f *form) lathe(p plan, c paint, walls ...wall) {
	for _, w := range walls {
		var below []uint32
		for i := range w.knots {
			row := f.ringOf(p, w.knots, i, c)
			if w.crease && i == 0 && len(row) > 1 {
				var points []mgl64.Vec3
				for _, v := range row {
					points = append(points, f.pos[v])
				}
				f.ring(points)
			}
			if i > 0 {
				f.between(below, row, len(p.at))
			}
			below = row
		}
	}
}

// between joins two rings; a ring of one vertex is a tip.
func (f *form) between(below, above []uint32, n int) {
	at := func(row []uint32, j int) uint32 { return row[j%len(row)] }
	for j := range n {
		f.quad(at(below, j), at(below, j+1), at(above, j+1), at(above, j))
	}
}

// ringOf adds the vertices of knot i of a wall.
func (f *form) ringOf(p plan, knots []knot, i int, c paint) []uint32 {
	k := knots[i]
	a, b := knots[max(0, i-1)], knots[min(len(knots)-1, i+1)]
	if k.share <= 0 {
		z := 1.0
		if o := a.share - b.share; o < 0 || (o == 0 && a.inset > b.inset) {
			z = -1
		}
		return []uint32{f.vertex(mgl64.Vec3{p.mid[0], p.mid[1], k.z}, mgl64.Vec3{0, 0, z}, k.tone, c)}
	}
	row := make([]uint32, len(p.at))
	for j := range p.at {
		h := plane.Dot(plane.Sub(p.at[j], p.mid), p.out[j])
		t := slope(a, k, h)
		u := slope(k, b, h)
		dh, dz := t[0]+u[0], t[1]+u[1]
		at := plane.Sub(plane.Lerp(p.mid, p.at[j], k.share), plane.Scale(p.out[j], k.inset))
		row[j] = f.vertex(mgl64.Vec3{at[0], at[1], k.z}, mgl64.Vec3{p.out[j][0] * dz, p.out[j][1] * dz, -dh}, k.tone, c)
	}
	return row
}

// slope is the unit direction from knot a to knot b where the plan's side lies
// h from the middle: outwards, up.
func slope(a, b knot, h float64) plane.Vec {
	d := plane.Vec{(b.share-a.share)*h - (b.inset - a.inset), b.z - a.z}
	l := plane.Length(d)
	if l < 1e-9 {
		return plane.Vec{}
	}
	return plane.Scale(d, 1/l)
}

// prism adds an upright slab over a plan with creases at its edges.
func (f *form) prism(p plan, bottom, top, edge float64, c paint, tones [3]float64) {
	edge = math.Min(edge, (top-bottom)/3)
	f.lathe(p, c,
		wall{knots: []knot{{0, 0, bottom, tones[0]}, {1, edge, bottom, tones[0]}}},
		wall{knots: []knot{{1, edge, bottom, tones[1]}, {1, 0, bottom + edge, tones[1]}, {1, 0, top - edge, tones[1]}}},
		wall{knots: []knot{{1, 0, top - edge, tones[1]}, {1, edge, top, tones[2]}}, crease: true},
		wall{knots: []knot{{1, edge, top, tones[2]}, {0, 0, top, tones[2]}}})
}
