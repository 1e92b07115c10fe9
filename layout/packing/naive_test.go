package packing

import (
	"fmt"
	"math"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// What people do without a search, measured as the records are: how far over
// the record's radius the container has to be, %.

// naive is the two of them for a record's row; the front has no half disc.
type naive struct{ rows, front float64 }

// least is the better of the two.
func (n naive) least() float64 {
	if math.IsNaN(n.front) {
		return n.rows
	}
	return min(n.rows, n.front)
}

func (n naive) String() string {
	text := fmt.Sprintf("row by row %.1f %%", n.rows)
	if !math.IsNaN(n.front) {
		text += fmt.Sprintf(", about the middle %.1f %%", n.front)
	}
	return text
}

// naively packs a record's discs row by row and about the middle.
func naively(rec record) naive {
	radii := append([]float64(nil), rec.radii...)
	sort.Sort(sort.Reverse(sort.Float64Slice(radii)))
	n := naive{rows: math.NaN(), front: math.NaN()}
	for R := rec.best; R < 4*rec.best; R *= 1.001 {
		if inRows(radii, R, rec.container == "halfdisc") {
			n.rows = 100 * (R/rec.best - 1)
			break
		}
	}
	if rec.container == "circle" {
		n.front = 100 * (enclosing(aboutTheMiddle(radii), radii)/rec.best - 1)
	}
	return n
}

// inRows sets discs, the largest first, in rows from the straight or upper end
// of a disc or half disc of radius R: each beside the last one in its row, a
// row as deep as its first.
func inRows(radii []float64, R float64, half bool) bool {
	y, deep := float64(1.002*R), 0.0
	if half {
		y = 0.002 * R
	}
	x := math.Inf(1)
	for _, r := range radii {
		for {
			if x < math.Inf(1) { // this row
				// the row's discs hang from its upper edge
				at := y - r
				reach := R - r
				if d := reach*reach - at*at; d >= 0 {
					left := max(x+r, -math.Sqrt(d))
					if left <= math.Sqrt(d)+1e-12 {
						x = left + r
						break
					}
				}
			}
			y -= max(deep, 0.002*R)
			if y-2*r < -R {
				return false
			}
			x, deep = math.Inf(-1), 2*r
			if d := (R-r)*(R-r) - (y-r)*(y-r); d < 0 {
				deep = 0 // too narrow here for even one
			}
		}
	}
	return true
}

// aboutTheMiddle sets each disc where it touches two that stand, nearest to the
// first: the greedy front chain of Wang, Wang, Dai and Wang, "Visualization of
// large hierarchical data by circle packing" (2006; from memory).
func aboutTheMiddle(radii []float64) []plane.Vec {
	at := []plane.Vec{{}}
	if len(radii) > 1 {
		at = append(at, plane.Vec{radii[0] + radii[1], 0})
	}
	for i := 2; i < len(radii); i++ {
		best, nearest := plane.Vec{}, math.Inf(1)
		for a := range at {
			for b := range at[:a] {
				for _, q := range besides(at[a], radii[a]+radii[i], at[b], radii[b]+radii[i]) {
					if d := plane.Length(q); d < nearest-1e-9 && apart(at, radii, q, radii[i]) {
						best, nearest = q, d
					}
				}
			}
		}
		at = append(at, best)
	}
	return at
}

// besides are the places at distance d from a and e from b.
func besides(a plane.Vec, d float64, b plane.Vec, e float64) []plane.Vec {
	c := plane.Distance(a, b)
	if c > d+e || c < math.Abs(d-e) {
		return nil
	}
	along := (c*c + d*d - e*e) / (2 * c)
	off := math.Sqrt(max(0, d*d-along*along))
	u := plane.Scale(plane.Sub(b, a), 1/c)
	foot := plane.Add(a, plane.Scale(u, along))
	return []plane.Vec{plane.Add(foot, plane.Scale(plane.Right(u), off)), plane.Add(foot, plane.Scale(plane.Right(u), -off))}
}

func apart(at []plane.Vec, radii []float64, q plane.Vec, r float64) bool {
	for i, p := range at {
		if plane.Distance(p, q) < radii[i]+r-1e-9 {
			return false
		}
	}
	return true
}

// enclosing is the radius of a circle round discs, as small as a walk toward
// the farthest, by ever smaller steps, finds (Badoiu and Clarkson 2003).
func enclosing(at []plane.Vec, radii []float64) float64 {
	var middle plane.Vec
	least := math.Inf(1)
	for k := range 20000 {
		far, to := 0.0, plane.Vec{}
		for i, p := range at {
			if d := plane.Distance(middle, p) + radii[i]; d > far {
				far, to = d, p
			}
		}
		least = min(least, far)
		middle = plane.Add(middle, plane.Scale(plane.Sub(to, middle), 1/float64(k+2)))
	}
	return least
}

// The naive packers do what they say: all discs apart and inside.
func TestNaivePackersPack(t *testing.T) {
	one := repeat(1, 7)
	require.InDelta(t, 3, enclosing(aboutTheMiddle(one), one), 2e-3, "six about one")
	two := []float64{2, 1}
	require.InDelta(t, 3, enclosing(aboutTheMiddle(two), two), 2e-3)
	require.True(t, inRows(repeat(1, 2), 2.001, false))
	require.False(t, inRows(repeat(1, 2), 1.99, false))
	require.True(t, inRows(repeat(1, 3), 2.251, false), "one above two: 1 + (R-3)^2 = (R-1)^2")
	require.False(t, inRows(repeat(1, 3), 2.24, false))
	require.True(t, inRows([]float64{1}, 2.001, true), "a half disc holds one of half its radius")
	require.False(t, inRows([]float64{1}, 1.99, true))
	for _, rec := range readRecords(t) {
		if rec.container != "circle" {
			continue
		}
		at := aboutTheMiddle(rec.radii)
		for i := range at {
			require.True(t, apart(at[:i], rec.radii, at[i], rec.radii[i]), "%s %d", rec.family, rec.n)
		}
	}
}
