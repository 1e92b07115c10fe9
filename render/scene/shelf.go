package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
)

// mostCells keeps the fine top of a shelf within a few thousand vertices.
const mostCells = 3600

// slab is the form of a shelf in the kiln's frame, its underside at z = 0:
// the top in cells fine enough to carry the contact shadows in its vertices.
func slab(ring []plane.Vec, thick float64, top func(plane.Vec) float64) *form {
	f := &form{}
	poly := plane.Skeleton(ring)
	f.cells(poly, thick, top)
	down := mgl64.Vec3{0, 0, -1}
	mid := middleOf(ring)
	c := f.vertex(mgl64.Vec3{mid[0], mid[1], 0}, down, 0.5, warePaint)
	row := make([]uint32, len(ring))
	for i, p := range ring {
		row[i] = f.vertex(mgl64.Vec3{p[0], p[1], 0}, down, 0.6, warePaint)
	}
	for i := range row {
		f.triangle(c, row[(i+1)%len(row)], row[i])
	}
	f.rim(ring, thick)
	return f.close()
}

// rim is the upright side of a slab with its creases.
func (f *form) rim(ring []plane.Vec, thick float64) {
	n := len(ring)
	lo, hi := make([]mgl64.Vec3, n), make([]mgl64.Vec3, n)
	for i, p := range ring {
		lo[i], hi[i] = mgl64.Vec3{p[0], p[1], 0}, mgl64.Vec3{p[0], p[1], thick}
	}
	for i := range ring {
		j := (i + 1) % n
		a, b := sideNormal(ring, i), sideNormal(ring, j)
		before, after := sideNormal(ring, (i+n-1)%n), b
		na, nb := a, a
		if plane.Dot(before, a) > 0.8 {
			na = plane.Unit(plane.Add(before, a))
		} else {
			f.line(lo[i], hi[i])
		}
		if plane.Dot(after, a) > 0.8 {
			nb = plane.Unit(plane.Add(after, a))
		}
		v0, v1 := mgl64.Vec3{na[0], na[1], 0}, mgl64.Vec3{nb[0], nb[1], 0}
		f.quad(f.vertex(lo[i], v0, 0.86, warePaint), f.vertex(lo[j], v1, 0.86, warePaint),
			f.vertex(hi[j], v1, 0.93, warePaint), f.vertex(hi[i], v0, 0.93, warePaint))
	}
	f.ring(lo)
	f.ring(hi)
}

// sideNormal is the outward normal of the side that begins at corner i.
func sideNormal(ring []plane.Vec, i int) plane.Vec {
	return plane.Right(plane.Unit(plane.Sub(ring[(i+1)%len(ring)], ring[i])))
}

func middleOf(ring []plane.Vec) plane.Vec {
	var sum plane.Vec
	for _, p := range ring {
		sum = plane.Add(sum, p)
	}
	return plane.Scale(sum, 1/float64(max(1, len(ring))))
}

// cells lays the top: squares, clipped where the ring cuts them.
func (f *form) cells(poly plane.Skeleton, z float64, tone func(plane.Vec) float64) {
	lo, hi := poly.Bounds()
	size := math.Max(11, math.Sqrt((hi[0]-lo[0])*(hi[1]-lo[1])/mostCells))
	nx, ny := int(math.Ceil((hi[0]-lo[0])/size)), int(math.Ceil((hi[1]-lo[1])/size))
	if nx < 1 || ny < 1 {
		return
	}
	type spot [2]int64
	seen := map[spot]uint32{}
	up := mgl64.Vec3{0, 0, 1}
	at := func(p plane.Vec) uint32 {
		k := spot{int64(math.Round(p[0] * 200)), int64(math.Round(p[1] * 200))}
		v, ok := seen[k]
		if !ok {
			v = f.vertex(mgl64.Vec3{p[0], p[1], z}, up, tone(p), warePaint)
			seen[k] = v
		}
		return v
	}
	x := func(i int) float64 { return lo[0] + (hi[0]-lo[0])*float64(i)/float64(nx) }
	y := func(j int) float64 { return lo[1] + (hi[1]-lo[1])*float64(j)/float64(ny) }
	from, to := chord(poly, y(0))
	for j := range ny {
		above, below := [2]float64{from, to}, [2]float64{}
		from, to = chord(poly, y(j+1))
		below[0], below[1] = from, to
		for i := range nx {
			cell := plane.Skeleton{{x(i), y(j)}, {x(i + 1), y(j)}, {x(i + 1), y(j + 1)}, {x(i), y(j + 1)}}
			piece := cell
			if x(i) < max(above[0], below[0]) || x(i+1) > min(above[1], below[1]) {
				piece = clipTo(cell, poly)
			}
			for k := 2; k < len(piece); k++ {
				f.triangle(at(piece[0]), at(piece[k-1]), at(piece[k]))
			}
		}
	}
}

// chord is where a convex polygon begins and ends on the line at y; empty,
// with its end before its beginning, where it does not reach.
func chord(poly plane.Skeleton, y float64) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for i := range poly {
		a, b := poly[i], poly[(i+1)%len(poly)]
		if (a[1] < y) == (b[1] < y) && a[1] != y && b[1] != y || a[1] == b[1] {
			continue
		}
		if t := (y - a[1]) / (b[1] - a[1]); t >= 0 && t <= 1 {
			x := a[0] + (b[0]-a[0])*t
			from, to = min(from, x), max(to, x)
		}
	}
	return from, to
}

// clipTo is the part of a cell inside a counter-clockwise convex polygon
// (Sutherland and Hodgman, CACM 17, 1974).
func clipTo(cell, poly plane.Skeleton) plane.Skeleton {
	for i := range poly {
		a, d := poly[i], plane.Sub(poly[(i+1)%len(poly)], poly[i])
		in, out := 0, plane.Skeleton(nil)
		for _, p := range cell {
			if plane.Cross(d, plane.Sub(p, a)) >= 0 {
				in++
			}
		}
		switch in {
		case len(cell):
			continue
		case 0:
			return nil
		}
		for k := range cell {
			p, q := cell[k], cell[(k+1)%len(cell)]
			dp, dq := plane.Cross(d, plane.Sub(p, a)), plane.Cross(d, plane.Sub(q, a))
			if dp >= 0 {
				out = append(out, p)
			}
			if dp > 0 && dq < 0 || dp < 0 && dq > 0 {
				out = append(out, plane.Lerp(p, q, dp/(dp-dq)))
			}
		}
		if cell = out; len(cell) < 3 {
			return nil
		}
	}
	return cell
}

// postForm is the form of a built post about its own place, z = 0 at its
// foot: its pieces with a crease at each joint.
func postForm(p *stacks.Post) *form {
	f := &form{}
	for k, part := range p.Solid.Body.Parts {
		lo, hi := part.Profile.Bottom(), part.Profile.Top()
		ring := planOf(stacks.Widened{Skeleton: part.Skeleton, Radius: part.Profile.Max()}, 20, 1.5)
		if len(part.Skeleton) > 2 {
			ring = sharp(part.Skeleton)
		}
		tones := [3]float64{0.7, 0.97 - 0.05*float64(k%2), 1}
		f.upright(ring, lo, hi, tones, len(part.Skeleton) > 2)
	}
	f.offShelf()
	return f.close()
}

// sharp is a polygon's own ring; upright splits its corners.
func sharp(s plane.Skeleton) plan {
	p := plan{at: append([]plane.Vec(nil), s...)}
	area := 0.0
	for i := range s {
		area += plane.Cross(s[i], s[(i+1)%len(s)])
	}
	if area < 0 {
		for i, j := 0, len(p.at)-1; i < j; i, j = i+1, j-1 {
			p.at[i], p.at[j] = p.at[j], p.at[i]
		}
	}
	return p
}

// upright is a prism with corners: flat sides, creases along all its edges.
func (f *form) upright(p plan, lo, hi float64, tones [3]float64, corners bool) {
	if !corners {
		f.prism(p, lo, hi, 0.8, warePaint, tones)
		return
	}
	n := len(p.at)
	at := func(i int, z float64) mgl64.Vec3 { return mgl64.Vec3{p.at[i%n][0], p.at[i%n][1], z} }
	up, down := mgl64.Vec3{0, 0, 1}, mgl64.Vec3{0, 0, -1}
	mid := middleOf(p.at)
	top, bottom := f.vertex(mgl64.Vec3{mid[0], mid[1], hi}, up, tones[2], warePaint), f.vertex(mgl64.Vec3{mid[0], mid[1], lo}, down, tones[0], warePaint)
	for i := range n {
		d := sideNormal(p.at, i)
		s := mgl64.Vec3{d[0], d[1], 0}
		f.quad(f.vertex(at(i, lo), s, tones[1], warePaint), f.vertex(at(i+1, lo), s, tones[1], warePaint),
			f.vertex(at(i+1, hi), s, tones[1], warePaint), f.vertex(at(i, hi), s, tones[1], warePaint))
		f.triangle(top, f.vertex(at(i, hi), up, tones[2], warePaint), f.vertex(at(i+1, hi), up, tones[2], warePaint))
		f.triangle(bottom, f.vertex(at(i+1, lo), down, tones[0], warePaint), f.vertex(at(i, lo), down, tones[0], warePaint))
		f.line(at(i, lo), at(i, hi))
		f.line(at(i, lo), at(i+1, lo))
		f.line(at(i, hi), at(i+1, hi))
	}
}
