package planner

import (
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
)

// sliceArea is at most the area that parts cover together at a height, each
// grown by so much, mm2: the largest of them, and of the others the squares of
// a grid that lie in one of them whole and outside the largest.
func sliceArea(parts []solid.Part, z, grown float64) float64 {
	var radii []float64
	var at []solid.Part
	best, most := -1, 0.0
	for _, p := range parts {
		r := p.Profile.R(z)
		if !(r >= 0) {
			continue
		}
		r += grown
		area := math.Abs(p.Skeleton.Area()) + float64(p.Skeleton.Perimeter()*r) + float64(math.Pi*float64(r*r))
		at, radii = append(at, p), append(radii, r)
		if best < 0 || area > most {
			best, most = len(at)-1, area
		}
	}
	if best < 0 || len(at) == 1 {
		return most
	}
	return most + beyond(at, radii, best)
}

// beyond is what the parts other than one cover outside that one, at most.
func beyond(parts []solid.Part, radii []float64, but int) float64 {
	lo, hi := plane.Vec{math.Inf(1), math.Inf(1)}, plane.Vec{math.Inf(-1), math.Inf(-1)}
	for i, p := range parts {
		if i == but {
			continue
		}
		for _, v := range p.Skeleton {
			for a := range 2 {
				lo[a], hi[a] = math.Min(lo[a], v[a]-radii[i]), math.Max(hi[a], v[a]+radii[i])
			}
		}
	}
	const squares = 48
	side := math.Max(hi[0]-lo[0], hi[1]-lo[1]) / squares
	half := float64(side * math.Sqrt2 / 2) // from a square's middle to its corner
	count := 0
	for x := lo[0] + float64(side/2); x < hi[0]; x += side {
		for y := lo[1] + float64(side/2); y < hi[1]; y += side {
			q := plane.Skeleton{{x, y}}
			if d, _, _ := plane.SignedDistance(parts[but].Skeleton, q); d < radii[but]+half {
				continue
			}
			for i, p := range parts {
				if i == but {
					continue
				}
				if d, _, _ := plane.SignedDistance(p.Skeleton, q); d <= radii[i]-half {
					count++
					break
				}
			}
		}
	}
	return float64(float64(count)*side) * side
}

// spaced are at most n of the numbers, rising and different, the ends kept.
func spaced(x []float64, n int) []float64 {
	x = append([]float64(nil), x...)
	sort.Float64s(x)
	var out []float64
	for _, v := range x {
		if len(out) == 0 || v > out[len(out)-1]+1 {
			out = append(out, v)
		}
	}
	if len(out) <= n {
		return out
	}
	few := make([]float64, n)
	for i := range few {
		few[i] = out[i*(len(out)-1)/(n-1)]
	}
	return few
}
