package stacks

import (
	"math"
	"sort"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
)

// looks is how many places along each side of a shelf are looked up from to
// see what lies over it.
const looks = 11

// seam is how far beside a shelf a look up still ends at it, mm: nothing is
// set under the seam between two shelves because of what hangs above it.
const seam = 15

// ceilings finds what lies over every level: from places all over its shelves
// it looks straight up to the first shelf of another level, or to the lid.
func (m *mason) ceilings() {
	b := m.b
	room, lid := b.plan()
	for v := range b.Levels {
		level := &b.Levels[v]
		level.Ceiling, level.UnderLid = b.Height, true
		over := b.overlapping(v)
		if len(over) == 0 {
			level.Takes = math.Max(0, level.Ceiling-level.Top-lid)
			continue
		}
		level.UnderLid = false
		level.Above = b.seenFrom(level, over)
		for _, s := range over {
			sh := &b.Shelves[s]
			level.Ceiling = math.Min(level.Ceiling, sh.Bottom-sh.Kind.Bow)
		}
		level.Takes = math.Max(0, level.Ceiling-level.Top-room)
	}
}

// plan is the room above and the room to the lid that plans keep, mm.
func (b *Built) plan() (room, lid float64) {
	room = b.Load.Limits(layout.RoomAbove).Plan
	if b.Load.Wishes.RoomAbove > 0 {
		room = b.Load.Wishes.RoomAbove
	}
	return room, b.Load.Limits(layout.RoomToLid).Plan
}

// overlapping are the shelves of other levels that lie over a level's shelves,
// from the lowest.
func (b *Built) overlapping(v int) []int {
	level := &b.Levels[v]
	var over []int
	for s := range b.Shelves {
		sh := &b.Shelves[s]
		if sh.Level == v || sh.Bottom < level.Top-plane.Tolerance {
			continue
		}
		for _, own := range level.Shelves {
			if overlap(b.Shelves[own].Solid.Skeleton(0), b.Shelves[own].radius(), sh) {
				over = append(over, s)
				break
			}
		}
	}
	sort.SliceStable(over, func(i, j int) bool { return b.Shelves[over[i]].Bottom < b.Shelves[over[j]].Bottom })
	return over
}

func (s *Shelf) radius() float64 { return s.Solid.Body.Parts[0].Profile.Max() }

// overlap tells whether a shelf's plan shares more than a crumb with another.
// The plans of sawn halves are drawn a little too large, by less than 1 mm.
func overlap(s plane.Skeleton, r float64, sh *Shelf) bool {
	return sh.Outline.SignedDistance(s)-r < -1
}

// seenFrom are the levels of the shelves that are seen from a level, sorted.
func (b *Built) seenFrom(level *Level, over []int) []int {
	seen := map[int]bool{}
	for _, own := range level.Shelves {
		o := &b.Shelves[own].Outline
		lo, hi := o.Bounds()
		for i := 0; i < looks*looks; i++ {
			p := plane.Vec{
				along(0, lo[0], looks-1, hi[0], float64(i%looks)),
				along(0, lo[1], looks-1, hi[1], float64(i/looks)),
			}
			if !o.Contains(p) {
				continue
			}
			for _, s := range over {
				if b.Shelves[s].Outline.Depth(p) > -seam {
					seen[b.Shelves[s].Level] = true
					break
				}
			}
		}
	}
	var above []int
	for v := range seen {
		above = append(above, v)
	}
	if len(above) == 0 { // a sliver between the places looked from
		above = append(above, b.Shelves[over[0]].Level)
	}
	sort.Ints(above)
	return above
}

// TakesUnder is the tallest pot, mm, that stands on a level under the shelf of
// another level, or under the lid where above is -1, with the room that plans
// keep: a full shelf under two half towers has one figure for each side.
func (b *Built) TakesUnder(level, above int) float64 {
	room, lid := b.plan()
	top := b.Levels[level].Top
	if above < 0 || above >= len(b.Levels) {
		return math.Max(0, b.Height-top-lid)
	}
	low := math.Inf(1)
	for _, s := range b.Levels[above].Shelves {
		low = math.Min(low, b.Shelves[s].Bottom-b.Shelves[s].Kind.Bow)
	}
	return math.Max(0, low-top-room)
}

// TakesEach is the tallest pot, mm, that a level takes under each level that
// lies over it, and under the lid where nothing lies over part of it; the
// tallest last. Most levels have one figure.
func (b *Built) TakesEach(level int) []float64 {
	v := &b.Levels[level]
	var out []float64
	covered, own := 0.0, 0.0
	for _, s := range v.Shelves {
		own += b.Shelves[s].Outline.Area()
	}
	for _, a := range v.Above {
		out = append(out, b.TakesUnder(level, a))
		for _, s := range b.Levels[a].Shelves {
			covered += b.Shelves[s].Outline.Area()
		}
	}
	// Half shelves side by side cover nearly all of a full one; less than three
	// quarters means that the lid is over the rest.
	if len(v.Above) == 0 || covered < float64(0.75*own) {
		out = append(out, b.TakesUnder(level, -1))
	}
	sort.Float64s(out)
	return out
}

// TakesMost is the tallest pot, mm, that a level takes anywhere.
func (b *Built) TakesMost(level int) float64 {
	each := b.TakesEach(level)
	return each[len(each)-1]
}

func itoa(n int) string { return strconv.Itoa(n) }
