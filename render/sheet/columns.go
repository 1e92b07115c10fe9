package sheet

import (
	"math"
	"sort"

	"threepost/layout"
	"threepost/layout/stacks"
)

// column is a side of the kiln whose levels are told under each other.
type column struct {
	lo, hi float64  // from left to right in the kiln, mm
	names  []string // of its towers
	labels []label  // from the bottom
}

// label is what is told of a level at one side.
type label struct {
	level   int     // into Built.Levels
	z       float64 // top of the shelf
	posts   []group // that stand on it at this side
	room    float64 // to the lid, where nothing else is over it
	lid     bool    // whether room counts
	takes   float64
	pots    []int // into Built.Pots, at this side
	tallest int   // pot with the highest top, or -1
}

// group is so many posts of one make-up.
type group struct {
	count  int
	makeUp layout.MakeUp
}

// columnsOf divides the towers into sides from left to right. A tower that
// lies over or under two sides, such as a full shelf below, is told at each.
func columnsOf(b *stacks.Built) []column {
	spans := make([]span, len(b.Towers))
	for t := range b.Towers {
		spans[t] = spanOf(b, t)
	}
	var columns []column
	var wide []int
	for t := range spans {
		if isWide(spans, t) {
			wide = append(wide, t)
			continue
		}
		columns = join(columns, spans[t], b.Towers[t].Name)
	}
	sort.SliceStable(columns, func(i, j int) bool { return columns[i].lo+columns[i].hi < columns[j].lo+columns[j].hi })
	side := make([]int, len(b.Towers)) // of each tower; -1: all
	for t := range spans {
		side[t] = nearest(columns, spans[t].middle())
	}
	for _, t := range wide {
		side[t] = -1
	}
	for v := range b.Levels {
		for c := range columns {
			if s := side[b.Levels[v].Tower]; s == c || s < 0 {
				if l, told := labelOf(b, columns, v, c, s < 0); told {
					columns[c].labels = append(columns[c].labels, l)
				}
			}
		}
	}
	for c := range columns {
		labels := columns[c].labels
		sort.SliceStable(labels, func(i, j int) bool { return labels[i].z < labels[j].z })
	}
	return columns
}

// span is from where to where a tower's shelves reach.
type span struct{ lo, hi float64 }

func (s span) middle() float64 { return (s.lo + s.hi) / 2 }

func spanOf(b *stacks.Built, t int) span {
	s := span{math.Inf(1), math.Inf(-1)}
	for _, v := range b.Towers[t].Levels {
		for _, i := range b.Levels[v].Shelves {
			lo, hi := b.Shelves[i].Outline.Bounds()
			s.lo, s.hi = math.Min(s.lo, lo[0]), math.Max(s.hi, hi[0])
		}
	}
	if s.lo > s.hi {
		return span{}
	}
	return s
}

// shared is how much of the narrower of two spans lies in the other, 0 to 1.
func shared(a, b span) float64 {
	least := math.Min(a.hi-a.lo, b.hi-b.lo)
	if least <= 0 {
		return 0
	}
	return math.Max(0, math.Min(a.hi, b.hi)-math.Max(a.lo, b.lo)) / least
}

// isWide tells whether a tower shares its width with two that stand beside
// each other.
func isWide(spans []span, t int) bool {
	for i := range spans {
		for j := range i {
			if i != t && j != t && shared(spans[i], spans[j]) < 0.3 && shared(spans[i], spans[t]) > 0.6 && shared(spans[j], spans[t]) > 0.6 {
				return true
			}
		}
	}
	return false
}

// join adds a tower to the side it shares most of its width with, or makes a
// new one.
func join(columns []column, s span, name string) []column {
	for i := range columns {
		c := &columns[i]
		if shared(s, span{c.lo, c.hi}) > 0.5 {
			c.lo, c.hi = math.Min(c.lo, s.lo), math.Max(c.hi, s.hi)
			c.names = append(c.names, name)
			return columns
		}
	}
	return append(columns, column{lo: s.lo, hi: s.hi, names: []string{name}})
}

// nearest is the side that a place belongs to.
func nearest(columns []column, x float64) int {
	best, at := math.Inf(1), 0
	for i, c := range columns {
		if d := math.Max(0, math.Max(c.lo-x, x-c.hi)) + math.Abs(x-(c.lo+c.hi)/2)*1e-6; d < best {
			best, at = d, i
		}
	}
	return at
}

// labelOf is what is told of level v at side c. A wide level is told at the
// first side, and at another only if something stands there.
func labelOf(b *stacks.Built, columns []column, v, c int, wide bool) (label, bool) {
	level := &b.Levels[v]
	here := func(x float64) bool { return !wide || nearest(columns, x) == c }
	l := label{level: v, z: level.Top, tallest: -1}
	top := level.Top
	for _, i := range level.Pots {
		if p := &b.Pots[i]; here(p.At[0]) {
			l.pots = append(l.pots, i)
			if p.Solid.Top() > top || l.tallest < 0 {
				top, l.tallest = p.Solid.Top(), i
			}
		}
	}
	for _, i := range standingOn(b, v) {
		if here(b.Posts[i].At[0]) {
			l.posts = addPost(l.posts, b.Posts[i].MakeUp)
		}
	}
	above := aboveAt(b, columns, v, c)
	l.takes = b.TakesUnder(v, above)
	l.lid = above < 0
	l.room = b.Height - top
	return l, !wide || c == 0 || len(l.pots) > 0 || len(l.posts) > 0 || l.lid
}

// aboveAt is the lowest level over level v at side c, or -1 under the lid.
func aboveAt(b *stacks.Built, columns []column, v, c int) int {
	best := -1
	for _, a := range b.Levels[v].Above {
		s := spanOf(b, b.Levels[a].Tower)
		if shared(s, span{columns[c].lo, columns[c].hi}) < 0.3 {
			continue
		}
		if best < 0 || b.Levels[a].Bottom < b.Levels[best].Bottom {
			best = a
		}
	}
	return best
}

// standingOn are the posts that stand on a level.
func standingOn(b *stacks.Built, v int) []int {
	level := &b.Levels[v]
	var list []int
	for i := range b.Posts {
		p := &b.Posts[i]
		if math.Abs(p.Bottom-level.Top) > 1e-6 {
			continue
		}
		for _, s := range level.Shelves {
			if b.Shelves[s].Outline.Depth(p.At) > 0 {
				list = append(list, i)
				break
			}
		}
	}
	return list
}

func addPost(groups []group, m layout.MakeUp) []group {
	for i := range groups {
		if same(groups[i].makeUp, m) {
			groups[i].count++
			return groups
		}
	}
	return append(groups, group{1, m})
}

func same(a, b layout.MakeUp) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}
