package stacks

import (
	"math"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/silhouette"
)

// footprint is the plan of a pot at its widest: a disc, an oval of two half
// circles and straights, or a rectangle. At turn 0 length lies along x. Lower
// slices are the same shape at a share of its size.
type footprint struct {
	kind          layout.ShapeKind // Round, Oval or Rectangle
	length, width float64          // mm; of a disc, both the diameter
}

// footprintOf is the plan of a filled row of ware.
func footprintOf(w *layout.Ware) footprint {
	if !silhouette.Oblong(w) {
		return footprint{layout.Round, w.Across, w.Across}
	}
	if w.Plan == layout.Oval {
		if w.Length == w.Width {
			return footprint{layout.Round, w.Length, w.Width}
		}
		return footprint{layout.Oval, w.Length, w.Width}
	}
	return footprint{layout.Rectangle, w.Length, w.Width}
}

// at is the plan at a share of its size, grown by more mm all round. A grown
// rectangle keeps its corners sharp.
func (f footprint) at(share, more float64) Widened {
	x, y := float64(share*f.length/2), float64(share*f.width/2)
	switch f.kind {
	case layout.Oval:
		if x > y {
			return Widened{plane.Skeleton{{y - x, 0}, {x - y, 0}}, y + more}
		}
		return Widened{plane.Skeleton{{0, x - y}, {0, y - x}}, x + more}
	case layout.Rectangle:
		x, y = x+more, y+more
		return Widened{plane.Skeleton{{-x, -y}, {x, -y}, {x, y}, {-x, y}}, 0}
	}
	return Widened{plane.Skeleton{{0, 0}}, x + more}
}

// exit is how far the edge of the plan lies from its middle on a bearing, mm.
func (f footprint) exit(bearing float64) float64 {
	s, c := plane.SinCos(bearing)
	s, c = math.Abs(s), math.Abs(c)
	x, y := float64(f.length/2), float64(f.width/2)
	switch f.kind {
	case layout.Round:
		return x
	case layout.Rectangle:
		t := math.Inf(1)
		if s > 0 {
			t = x / s
		}
		if c > 0 {
			t = math.Min(t, y/c)
		}
		return t
	}
	if x < y {
		x, y, s, c = y, x, c, s
	}
	// Now the straights run along s. They end h from the middle, r from the axis.
	h, r := x-y, y
	if c > 0 && float64(r*s) <= float64(h*c) {
		return r / c
	}
	across := float64(h * c)
	return float64(h*s) + math.Sqrt(math.Max(0, float64(r*r)-float64(across*across)))
}

// area is the area of the plan at a share of its size less a wall of t mm all
// round, mm2.
func (f footprint) area(share, t float64) float64 {
	x := math.Max(0, float64(share*f.length)-float64(2*t))
	y := math.Max(0, float64(share*f.width)-float64(2*t))
	switch f.kind {
	case layout.Rectangle:
		return x * y
	case layout.Oval:
		if y > x {
			x, y = y, x
		}
		return float64((x-y)*y) + float64(float64(math.Pi/4*y)*y)
	}
	return float64(math.Pi/4*x) * x
}
