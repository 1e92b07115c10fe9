package nearby

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
)

// Box is an upright box, mm.
type Box struct{ Min, Max mgl64.Vec3 }

// Apart is the distance of two boxes, mm, 0 when they meet.
func (b Box) Apart(c Box) float64 {
	sum := 0.0
	for i := range b.Min {
		if d := max(b.Min[i]-c.Max[i], c.Min[i]-b.Max[i]); !(d <= 0) {
			sum += float64(d * d)
		}
	}
	return math.Sqrt(sum)
}

// span is a block of cells, both ends included.
type span struct{ lo, hi [3]int32 }

// note says that a box touches a cell.
type note struct {
	cell [3]int32
	id   int32
}

// Grid holds boxes under ids. Make one with New.
type Grid struct {
	cell    float64
	boxes   []Box
	spans   []span
	state   []state
	buckets [][]note
	notes   int
	wide    []int32 // ids of boxes over too many cells, looked at every time
	count   int
}

type state uint8

const (
	absent state = iota
	gridded
	tooWide
)

const (
	maxCells = 1 << 12 // cells that one box is noted in
	farCell  = 1 << 20 // cells from the origin at which coordinates stop
)

// New is an empty grid with cells of the given size, mm. About the size of a
// pot with its reach is good; a size that is not over 0 gives 100.
func New(cell float64) *Grid {
	if !(cell > 0) || math.IsInf(cell, 0) {
		cell = 100
	}
	return &Grid{cell: cell, buckets: make([][]note, 64)}
}

// Len is the number of boxes in the grid.
func (g *Grid) Len() int { return g.count }

// Box is the box under an id, and whether there is one.
func (g *Grid) Box(id int) (Box, bool) {
	if !g.has(id) {
		return Box{}, false
	}
	return g.boxes[id], true
}

func (g *Grid) has(id int) bool { return id >= 0 && id < len(g.state) && g.state[id] != absent }

// Insert puts a box in under an id, or moves the one that has it. Ids are
// numbers from 0 that the caller keeps dense, such as places in a list; one
// below 0 is let be.
func (g *Grid) Insert(id int, b Box) {
	if id < 0 || id > math.MaxInt32 {
		return
	}
	if g.has(id) {
		g.Move(id, b)
		return
	}
	for len(g.state) <= id {
		g.state = append(g.state, absent)
		g.boxes = append(g.boxes, Box{})
		g.spans = append(g.spans, span{})
	}
	g.boxes[id] = b
	g.count++
	g.put(id)
}

// Move gives an id another box; an id that is not in the grid is put in.
func (g *Grid) Move(id int, b Box) {
	if !g.has(id) {
		g.Insert(id, b)
		return
	}
	if s, ok := g.spanOf(b, 0); ok && g.state[id] == gridded && s == g.spans[id] {
		g.boxes[id] = b
		return
	}
	g.take(id)
	g.boxes[id] = b
	g.put(id)
}

// Remove takes an id out, if it is in.
func (g *Grid) Remove(id int) {
	if !g.has(id) {
		return
	}
	g.take(id)
	g.state[id] = absent
	g.count--
}

func (g *Grid) put(id int) {
	s, ok := g.spanOf(g.boxes[id], 0)
	if !ok {
		g.state[id] = tooWide
		g.wide = append(g.wide, int32(id))
		return
	}
	g.state[id], g.spans[id] = gridded, s
	s.each(func(c [3]int32) {
		h := g.bucket(c)
		g.buckets[h] = append(g.buckets[h], note{c, int32(id)})
		g.notes++
	})
	if g.notes > 2*len(g.buckets) {
		g.spread()
	}
}

func (g *Grid) take(id int) {
	if g.state[id] == tooWide {
		g.wide = slices.DeleteFunc(g.wide, func(w int32) bool { return w == int32(id) })
		return
	}
	g.spans[id].each(func(c [3]int32) {
		list := g.buckets[g.bucket(c)]
		for i, n := range list {
			if n.id == int32(id) && n.cell == c {
				list[i] = list[len(list)-1]
				g.buckets[g.bucket(c)] = list[:len(list)-1]
				g.notes--
				return
			}
		}
	})
}

// spread doubles the buckets until they are wide enough.
func (g *Grid) spread() {
	old := g.buckets
	n := len(old)
	for g.notes > n {
		n *= 2
	}
	g.buckets = make([][]note, n)
	for _, list := range old {
		for _, x := range list {
			h := g.bucket(x.cell)
			g.buckets[h] = append(g.buckets[h], x)
		}
	}
}

// bucket mixes a cell's coordinates; the number of buckets is a power of two.
func (g *Grid) bucket(c [3]int32) int {
	h := uint32(c[0])*0x9E3779B1 ^ uint32(c[1])*0x85EBCA77 ^ uint32(c[2])*0xC2B2AE3D
	h ^= h >> 15
	return int(h & uint32(len(g.buckets)-1))
}

// spanOf is the block of cells that a box grown by reach touches; false when
// they are too many or the box is not made of numbers.
func (g *Grid) spanOf(b Box, reach float64) (s span, ok bool) {
	cells := 1.0
	for i := range b.Min {
		lo, hi := math.Floor((b.Min[i]-reach)/g.cell), math.Floor((b.Max[i]+reach)/g.cell)
		if !(lo >= -farCell && hi <= farCell && lo <= hi) {
			return span{}, false
		}
		s.lo[i], s.hi[i] = int32(lo), int32(hi)
		cells = float64(cells * (hi - lo + 1))
	}
	return s, cells <= maxCells
}

func (s span) each(f func(c [3]int32)) {
	for x := s.lo[0]; x <= s.hi[0]; x++ {
		for y := s.lo[1]; y <= s.hi[1]; y++ {
			for z := s.lo[2]; z <= s.hi[2]; z++ {
				f([3]int32{x, y, z})
			}
		}
	}
}

// Near appends to dst, rising, the ids of all boxes whose distance to b is at
// most reach (mm). A box that is in the grid is near itself.
//
// Law: it names the same ids as looking at every box.
func (g *Grid) Near(dst []int, b Box, reach float64) []int {
	from := len(dst)
	s, ok := g.spanOf(b, reach)
	if !ok {
		for id := range g.state {
			if g.state[id] != absent && !(g.boxes[id].Apart(b) > reach) {
				dst = append(dst, id)
			}
		}
		return dst
	}
	for x := s.lo[0]; x <= s.hi[0]; x++ {
		for y := s.lo[1]; y <= s.hi[1]; y++ {
			for z := s.lo[2]; z <= s.hi[2]; z++ {
				dst = g.nearIn(dst, [3]int32{x, y, z}, s.lo, b, reach)
			}
		}
	}
	for _, id := range g.wide {
		if !(g.boxes[id].Apart(b) > reach) {
			dst = append(dst, int(id))
		}
	}
	slices.Sort(dst[from:])
	return dst
}

// nearIn looks at one cell. A box that shares several cells with the question
// is named in the first of them only.
func (g *Grid) nearIn(dst []int, c, lo [3]int32, b Box, reach float64) []int {
	for _, n := range g.buckets[g.bucket(c)] {
		if n.cell != c {
			continue
		}
		first := &g.spans[n.id].lo
		if c[0] == max(first[0], lo[0]) && c[1] == max(first[1], lo[1]) && c[2] == max(first[2], lo[2]) &&
			!(g.boxes[n.id].Apart(b) > reach) {
			dst = append(dst, int(n.id))
		}
	}
	return dst
}

// Pairs calls f for every two ids a < b whose boxes lie within reach of each
// other, a rising, then b rising.
func (g *Grid) Pairs(reach float64, f func(a, b int)) {
	var near []int
	for a := range g.state {
		if g.state[a] == absent {
			continue
		}
		near = g.Near(near[:0], g.boxes[a], reach)
		i, found := slices.BinarySearch(near, a)
		if found {
			i++
		}
		for _, b := range near[i:] {
			f(a, b)
		}
	}
}
