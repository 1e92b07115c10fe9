package levels

import (
	"math"

	"threepost/geometry/plane"
	"threepost/render/drawing"
)

// cell is a tile of the grid, or a corner of it: x from the left, y from the
// back.
type cell struct{ x, y int }

// tiling divides a level among papers of one size.
//
//	a---b---c    corners of used tiles are lettered from the back,
//	| 1 | 2 |    left to right; tiles with nothing on them are left out
//	d---e---f
type tiling struct {
	wide, high   float64 // of a tile, mm
	left, top    float64 // x and y of the grid's back left corner in the kiln
	across, down int
	used         []cell
	cuts         int // pots and posts that a border runs through
	marksAt      map[cell]string
}

// tilingOf chooses the grid that uses the fewest tiles and, among those, cuts
// the fewest pots.
func tilingOf(p *plan, paper drawing.Paper) tiling {
	lo, hi := p.reach()
	t := tiling{wide: paper.Width - 2*tileLeft, high: paper.Height - tileOver - tileFoot}
	const rim = 1.5 // white round what lies on the shelf
	wide, high := hi[0]-lo[0]+2*rim, hi[1]-lo[1]+2*rim
	t.across = max(1, int(math.Ceil(wide/t.wide-1e-9)))
	t.down = max(1, int(math.Ceil(high/t.high-1e-9)))
	slackX, slackY := float64(t.wide*float64(t.across))-wide, float64(t.high*float64(t.down))-high
	best := t
	found := false
	const tries = 8
	for i := 0; i <= tries; i++ {
		for j := 0; j <= tries; j++ {
			try := t
			try.left = lo[0] - rim - float64(slackX*float64(i)/tries)
			try.top = hi[1] + rim + float64(slackY*float64(j)/tries)
			try.look(p)
			if !found || try.better(&best) {
				best, found = try, true
			}
		}
	}
	best.letter()
	return best
}

// better tells whether a tiling takes fewer papers, or as many and cuts less.
func (t *tiling) better(u *tiling) bool {
	if len(t.used) != len(u.used) {
		return len(t.used) < len(u.used)
	}
	return t.cuts < u.cuts
}

// reach is the upright box round all that lies on the plan's levels.
func (p *plan) reach() (lo, hi plane.Vec) {
	lo, hi = plane.Vec{math.Inf(1), math.Inf(1)}, plane.Vec{math.Inf(-1), math.Inf(-1)}
	grow := func(l, h plane.Vec) {
		lo = plane.Vec{math.Min(lo[0], l[0]), math.Min(lo[1], l[1])}
		hi = plane.Vec{math.Max(hi[0], h[0]), math.Max(hi[1], h[1])}
	}
	for _, l := range p.levels {
		for _, s := range p.b.Levels[l].Shelves {
			grow(p.b.Shelves[s].Outline.Bounds())
		}
	}
	for i := range p.pots {
		for _, q := range p.pots[i].parts() {
			grow(q.Bounds())
		}
	}
	for _, q := range p.posts {
		grow(q.Bounds())
	}
	return lo, hi
}

// box is a tile in the kiln.
func (t *tiling) box(c cell) (lo, hi plane.Vec) {
	x, y := t.left+float64(t.wide*float64(c.x)), t.top-float64(t.high*float64(c.y))
	return plane.Vec{x, y - t.high}, plane.Vec{x + t.wide, y}
}

// look finds the tiles with something on them and counts what is cut.
func (t *tiling) look(p *plan) {
	t.used, t.cuts = nil, 0
	seen := map[int]int{} // tiles that each pot and post lies on
	for y := range t.down {
		for x := range t.across {
			c := cell{x, y}
			lo, hi := t.box(c)
			tile := plane.Skeleton{lo, {hi[0], lo[1]}, hi, {lo[0], hi[1]}}
			any := false
			for i := range p.pots {
				if p.pots[i].far(tile, 0) {
					continue
				}
				for _, q := range p.pots[i].parts() {
					if tile.Distance(q.Skeleton) < q.Radius-0.2 {
						seen[i]++
						any = true
						break
					}
				}
			}
			for i, q := range p.posts {
				if tile.Distance(q.Skeleton) < q.Radius-0.2 {
					seen[-1-i]++
					any = true
				}
			}
			if any || t.edge(p, tile) {
				t.used = append(t.used, c)
			}
		}
	}
	for _, n := range seen {
		t.cuts += n - 1
	}
}

// edge tells whether the edge of a shelf runs through a tile.
func (t *tiling) edge(p *plan, tile plane.Skeleton) bool {
	for _, l := range p.levels {
		for _, s := range p.b.Levels[l].Shelves {
			o := &p.b.Shelves[s].Outline
			if o.Distance(tile) <= 0 && deep(tile, *o) < 0 {
				return true
			}
		}
	}
	return false
}

// letter names the corners of the used tiles.
func (t *tiling) letter() {
	t.marksAt = map[cell]string{}
	corner := map[cell]bool{}
	for _, c := range t.used {
		for dy := range 2 {
			for dx := range 2 {
				corner[cell{c.x + dx, c.y + dy}] = true
			}
		}
	}
	n := 0
	for y := 0; y <= t.down; y++ {
		for x := 0; x <= t.across; x++ {
			if c := (cell{x, y}); corner[c] {
				t.marksAt[c] = markLetter(n)
				n++
			}
		}
	}
}

// markLetter is the n-th mark from 0: a to z, then aa.
func markLetter(n int) string {
	word := ""
	for n++; n > 0; n = (n - 1) / 26 {
		word = string(rune('a'+(n-1)%26)) + word
	}
	return word
}

// numberOf is the sheet, from 1, that a tile is on; 0 for one left out.
func (t *tiling) numberOf(c cell) int {
	for i := range t.used {
		if t.used[i] == c {
			return i + 1
		}
	}
	return 0
}
