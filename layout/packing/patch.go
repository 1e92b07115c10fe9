package packing

import (
	"math"
	"sort"

	"threepost/geometry/plane"
)

// patch is n points of the triangular lattice, the pattern in which alike
// discs lie closest, inside the ground: those that lie deepest. The lattice is
// turned by turn degrees and has off, in parts of its spacing along x and y, in
// the middle of the ground. Nil where the ground is too narrow for any.
func (c *crowd) patch(n int, off plane.Vec, turn float64) []plane.Vec {
	g := c.g
	room := 0.0
	for i := range g.fences {
		room += g.fences[i].outline.Area()
	}
	// the widest lattice of which n discs lie inside, to a part in a thousand
	wide := float64(2 * math.Sqrt(room/float64(float64(n)*rootThree/2)))
	for ; len(c.patchApart(wide, off, turn)) < n; wide *= 0.9 {
		if wide < g.step || plane.Distance(g.low, g.up) > float64(patchRows*wide) {
			return nil
		}
	}
	for part := 1.1 * wide; part > float64(1.001*wide); {
		mid := (wide + part) / 2
		if len(c.patchApart(mid, off, turn)) >= n {
			wide = mid
		} else {
			part = mid
		}
	}
	return c.patchApart(wide, off, turn)[:n]
}

// patchMiddles are what may lie in the middle of the ground, as parts of the
// lattice's spacing: a disc, the middle of two, of three, and a spot between.
func patchMiddles() []plane.Vec {
	return []plane.Vec{{0, 0}, {0.5, 0}, {0.5, rootThree / 6}, {0.25, 0}}
}

// patchRows is how many rows of a lattice may lie across the ground: many more
// are of a ground so narrow that no patch is of use in it.
const patchRows = 200

const rootThree = 1.7320508075688772

// patchApart is the points of a lattice of this spacing, mm, inside the ground,
// the deepest first.
func (c *crowd) patchApart(apart float64, off plane.Vec, turn float64) []plane.Vec {
	type point struct {
		at   plane.Vec
		deep float64
	}
	g := c.g
	sin, cos := plane.SinCos(turn)
	middle := plane.Lerp(g.low, g.up, 0.5)
	rows := int(plane.Distance(g.low, g.up)/apart) + 2
	c.work += int64(rows * rows * len(g.fences))
	var list []point
	for a := -rows; a <= rows; a++ {
		for b := -rows; b <= rows; b++ {
			x := float64(apart * (float64(a) + float64(0.5*float64(b)) + off[0]))
			y := float64(apart * (float64(float64(b)*rootThree/2) + off[1]))
			at := plane.Vec{middle[0] + float64(x*cos) + float64(y*sin), middle[1] + float64(y*cos) - float64(x*sin)}
			deep := math.Inf(-1)
			for i := range g.fences {
				deep = math.Max(deep, g.fences[i].depth(at[0], at[1]))
			}
			if deep >= apart/2 {
				list = append(list, point{at, deep})
			}
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].deep > list[j].deep+1e-9 })
	at := make([]plane.Vec, len(list))
	for i, p := range list {
		at[i] = p.at
	}
	return at
}
