package planner

import (
	"math"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/bounds"
)

// apartOf is the least distance of the middles of two rows' pots on one level,
// however they are turned: the gap, and one of them is let down beside the
// other with room for a hand.
func (c *context) apartOf(gap float64) func(i, j int) float64 {
	var rows []*kind
	var parts [][]solid.Part
	for _, k := range c.kinds {
		if k.ware != nil {
			rows = append(rows, k)
			parts = append(parts, central(k))
		}
	}
	hand := c.handRoom()
	apart := make([][]float64, len(parts))
	for i := range parts {
		apart[i] = make([]float64, len(parts))
		for j := range parts {
			own := gap * math.Max(rows[i].apart, rows[j].apart)
			for _, a := range parts[i] {
				for _, b := range parts[j] {
					need := math.Max(solid.Need(a, b, own, 0), math.Min(solid.NeedLower(a, b, 0), solid.NeedLower(b, a, 0))+hand)
					apart[i][j] = math.Max(apart[i][j], need+middle(a.Skeleton)+middle(b.Skeleton))
				}
			}
		}
	}
	return func(i, j int) float64 { return apart[i][j] }
}

// boundPost is the least that one post takes of the level it stands on.
func (c *context) boundPost() bounds.Post {
	p := bounds.Post{Radius: math.Inf(1)}
	for i := range c.load.Furniture.Posts {
		k := &c.load.Furniture.Posts[i]
		if k.Count == 0 || k.Spacer {
			continue
		}
		r, _, _ := inscribed(k.Section)
		p.Radius = math.Min(p.Radius, r)
	}
	if math.IsInf(p.Radius, 1) {
		return bounds.Post{Apart: make([]float64, len(c.kinds))}
	}
	for _, k := range c.kinds {
		if k.ware == nil {
			continue
		}
		p.Apart = append(p.Apart, widest(k)+p.Radius+c.limits[layout.PotToPost].Plan)
	}
	return p
}

// postArea is the least area of a post grown so that it meets no pot that is
// grown by half, mm2: pots keep their distance from posts on every level, be the
// gap of two pots what it is. It is 0 where that half is more.
func (c *context) postArea(half float64) float64 {
	grown := c.limits[layout.PotToPost].Plan - half
	if grown < 0 {
		return 0
	}
	least := math.Inf(1)
	for i := range c.load.Furniture.Posts {
		if k := &c.load.Furniture.Posts[i]; k.Count > 0 && !k.Spacer {
			_, area, around := inscribed(k.Section)
			least = math.Min(least, area+float64(around*grown)+float64(math.Pi*float64(grown*grown)))
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// inscribed is the radius of the disc about the middle of a section, its area
// and perimeter, each at most.
func inscribed(s layout.Section) (r, area, around float64) {
	half := float64(s.Width / 2)
	switch s.Kind {
	case layout.SquareSection:
		return half, float64(s.Width * s.Width), 4 * s.Width
	case layout.TriangleSection: // whether the width is a side or a height
		half *= 0.57
	case layout.HexagonSection: // or flat to flat, or corner to corner
		half *= 0.86
	}
	return half, float64(math.Pi * float64(half*half)), float64(2 * math.Pi * half)
}

// boundSlices are what the rows of ware cover, grown by half the gap, at the
// heights where one of them is widest. Solids that keep a gap keep it at every
// height, so that no two share any of that.
func (c *context) boundSlices(gap float64) []bounds.Slice {
	half := float64(gap / 2)
	var heights []float64
	for _, k := range c.kinds {
		if k.ware == nil || len(k.free) == 0 {
			continue
		}
		for _, p := range k.body.Solid.Parts {
			for _, v := range p.Profile {
				if v.R >= p.Profile.Max()-plane.Tolerance {
					heights = append(heights, v.Z)
				}
			}
		}
	}
	heights = spaced(heights, mostSlices)
	var out []bounds.Slice
	for _, z := range heights {
		s := bounds.Slice{Over: half + math.Max(0, c.limits[layout.RimPastEdge].Plan), Post: c.postArea(half)}
		for _, k := range c.kinds {
			if k.ware != nil {
				s.Areas = append(s.Areas, sliceArea(k.body.Solid.Parts, z, half))
			}
		}
		out = append(out, s)
	}
	return out
}

// mostSlices is how many heights over a shelf are looked at.
const mostSlices = 8
