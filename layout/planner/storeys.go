package planner

import (
	"math"
	"slices"
	"sort"

	"threepost/geometry/plane"
	"threepost/layout"
)

// list is a way to divide the height of one tower: the post heights of all its
// storeys but the last, which has the rest up to the lid.
type list struct {
	heights []float64 // mm, tallest first
	rest    float64   // from the last shelf's top to the lid, mm
	first   int       // where posts stand already: 1 and more into the heights they may have, the first of heights
	low     bool      // over pots that stand the lowest storey that clears them comes first
}

// heightsFor are the post heights worth having with n posts: for every height
// of ware the least that the owned pieces make and that leave the plan room
// over it. Shelves that bow take their bow off the room.
func (c *context) heightsFor(n int, bow float64, others bool) []float64 {
	made := c.madeHeights(n)
	seen := map[float64]bool{}
	var out []float64
	for _, k := range c.kinds {
		if len(k.free) == 0 && k.cones == nil {
			continue
		}
		need := k.body.Height + c.room + bow
		add := func(h float64) {
			if !seen[h] {
				seen[h] = true
				out = append(out, h)
			}
		}
		from := sort.SearchFloat64s(made, need-plane.Tolerance)
		if from == len(made) {
			continue
		}
		add(made[from])
		if !others {
			continue
		}
		// Where the lowest is used up the next still stands: the lowest of fewer
		// pieces each, and the lowest of other pieces.
		pieces := c.piecesOf(made[from])
		for i := from + 1; i < len(made) && pieces > 1; i++ {
			if n := c.piecesOf(made[i]); n < pieces {
				pieces = n
				add(made[i])
			}
		}
		used := c.rowsOf(made[from])
		for i, more := from+1, 0; i < len(made) && more < mostOthers; i++ {
			if rows := c.rowsOf(made[i]); apart(used, rows) {
				used = append(used, rows...)
				more++
				add(made[i])
			}
		}
	}
	sort.Sort(sort.Reverse(sort.Float64Slice(out)))
	return thin(out, 16)
}

// mostOthers is how many heights of other pieces stand in for one.
const mostOthers = 3

// rowsOf are the rows of posts, by what they are called, that the best make-up
// of a height takes.
func (c *context) rowsOf(height float64) []layout.Piece {
	ways := c.catalogue.MakeUps(height)
	if len(ways) == 0 {
		return nil
	}
	var out []layout.Piece
	for _, p := range ways[0] {
		if !c.load.Furniture.Post(p).Spacer {
			out = append(out, p)
		}
	}
	return out
}

// apart says whether two lists have no piece in common.
func apart(a, b []layout.Piece) bool {
	for _, p := range b {
		if slices.Contains(a, p) {
			return false
		}
	}
	return true
}

// countedPosts is how many posts of one height are counted out before the
// stock is asked anyway.
const countedPosts = 12

// makes says whether n posts of a height can stand at once, as far as that is
// counted out: false is sure.
func (c *context) makes(height float64, n int) bool {
	made := c.madeHeights(min(n, countedPosts))
	i := sort.SearchFloat64s(made, height-plane.Tolerance)
	return i < len(made) && made[i] <= height+plane.Tolerance
}

// piecesOf is the fewest pieces of a post of that height.
func (c *context) piecesOf(height float64) int {
	if n, ok := c.pieces[height]; ok {
		return n
	}
	n := math.MaxInt
	for _, m := range c.catalogue.MakeUps(height) {
		n = min(n, len(m))
	}
	c.pieces[height] = n
	return n
}

// thin keeps at most n of the heights, dropping the lower of the closest two
// until they are few enough.
func thin(h []float64, n int) []float64 {
	h = append([]float64(nil), h...)
	for len(h) > n {
		at, least := 1, math.Inf(1)
		for i := 1; i < len(h); i++ {
			if d := h[i-1] - h[i]; d < least {
				at, least = i, d
			}
		}
		h = append(h[:at], h[at+1:]...)
	}
	return h
}

// madeHeights are the heights that n posts of the owned pieces make, ascending.
func (c *context) madeHeights(n int) []float64 {
	if h, ok := c.made[n]; ok {
		return h
	}
	var out []float64
	for _, h := range c.catalogue.Heights(n, c.left) {
		out = append(out, h.Real)
	}
	sort.Float64s(out)
	c.made[n] = out
	return out
}

// lists are the ways to divide the height above z, where a tower's first pots
// stand, with at most `shelves` further shelves of a site. They hold
// the tallest storey first; the last storey always has room for something.
func (c *context) lists(z float64, heights []float64, st *site, shelves int) []list {
	const most = 4000
	least := math.Inf(1)
	for _, k := range c.kinds {
		if len(k.free) > 0 {
			least = min(least, k.body.Height)
		}
	}
	if math.IsInf(least, 1) {
		least = 0
	}
	lid := c.limits[layout.RoomToLid].Plan
	var out []list
	var walk func(from int, rest float64, chosen []float64)
	walk = func(from int, rest float64, chosen []float64) {
		if len(out) >= most {
			return
		}
		out = append(out, list{heights: append([]float64(nil), chosen...), rest: rest})
		if len(chosen) == shelves {
			return
		}
		for i := from; i < len(heights); i++ {
			alike := 1
			for _, h := range chosen {
				if h == heights[i] {
					alike++
				}
			}
			if after := rest - heights[i] - st.kind.Thick; after >= least+lid-plane.Tolerance && c.makes(heights[i], alike*len(st.lines)) {
				walk(i, after, append(chosen, heights[i]))
			}
		}
	}
	walk(0, c.load.Kiln.Height-z, nil)
	return out
}
