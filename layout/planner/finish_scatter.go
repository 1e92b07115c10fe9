package planner

import (
	"math"
	"math/bits"

	"threepost/layout"
)

// tally is how many loose pots of each kind stand on each storey of a frame.
func (s *Search) tally(f *frame) [][]int {
	out := make([][]int, len(f.storeys))
	for i, st := range f.storeys {
		out[i] = make([]int, len(s.context.kinds))
		for _, p := range st.set {
			out[i][p.kind]++
		}
	}
	return out
}

// scatter counts the kinds on every storey, and twice those that are strays
// there. A pot or two of a kind of which no more are set are no strays.
func (s *Search) scatter(tally [][]int) int {
	sum := 0
	for k := range s.context.kinds {
		sum += scatterOf(tally, k)
	}
	return sum
}

// scatterOf is what one kind adds to the scatter.
func scatterOf(tally [][]int, k int) int {
	sum, all := 0, 0
	for i := range tally {
		all += tally[i][k]
	}
	for i := range tally {
		if n := tally[i][k]; n > 0 {
			sum++
			if n <= fewPots && n < all {
				sum++
			}
		}
	}
	return sum
}

// promised is a gathering and what it would bring if its pots find room.
type promised struct {
	gathering
	gain int     // so much less scatter
	full float64 // share of its shelf that is taken, of the fullest storey that gains
}

// ledger is what promises are reckoned from: who stands where in a frame, what
// each kind takes, what each storey has and holds, mm2.
type ledger struct {
	tally              [][]int
	ground, room, held []float64
}

func (s *Search) measured(f *frame) ledger {
	m := ledger{tally: s.tally(f)}
	for k := range s.context.kinds {
		m.ground = append(m.ground, s.ground(k))
	}
	for i, st := range f.storeys {
		held := 0.0
		for k, n := range m.tally[i] {
			held += float64(float64(n) * m.ground[k])
		}
		m.room = append(m.room, math.Max(st.site.area(), 1))
		m.held = append(m.held, held)
	}
	return m
}

// promise is what a gathering would bring; ok is false where nothing moves or
// the area does not do.
func (m *ledger) promise(g gathering) (p promised, ok bool) {
	const most = 0.93 // of a shelf, half a gap round every pot
	column := func(k int) [][]int {
		out := make([][]int, len(m.tally))
		for i := range m.tally {
			out[i] = []int{m.tally[i][k]}
		}
		return out
	}
	own := column(g.kind)
	before, n := scatterOf(own, 0), 0
	for i := range own {
		if g.from>>i&1 == 1 {
			n += own[i][0]
			own[i][0] = 0
		}
	}
	if n == 0 {
		return p, false
	}
	own[g.to][0] += n
	p = promised{gathering: g, gain: before - scatterOf(own, 0)}
	back := 0.0
	if g.back >= 0 {
		i := bits.TrailingZeros64(g.from)
		other := column(g.back)
		before = scatterOf(other, 0)
		other[g.to][0] -= g.amount
		other[i][0] += g.amount
		p.gain += before - scatterOf(other, 0)
		back = float64(float64(g.amount) * m.ground[g.back])
		p.full = (m.held[i] + back - float64(float64(n)*m.ground[g.kind])) / m.room[i]
		if p.full > most && back > float64(float64(n)*m.ground[g.kind]) {
			return p, false
		}
	}
	share := (m.held[g.to] + float64(float64(n)*m.ground[g.kind]) - back) / m.room[g.to]
	if share > most && !g.spill {
		return p, false
	}
	p.full = math.Max(p.full, share)
	return p, true
}

// ground is about what a pot of a kind takes of a shelf among others, mm2: half
// the gap lies round it, and half of what its handles sweep counts.
func (s *Search) ground(k int) float64 {
	half := s.context.limits[layout.PotToPot].Plan / 2
	area := 1.0
	for i, part := range s.context.kinds[k].body.Solid.Parts {
		r := part.Profile.Max() + half
		a := part.Skeleton.Area() + float64(part.Skeleton.Perimeter()*r) + float64(math.Pi*float64(r*r))
		if i > 0 {
			a /= 2
		}
		area += a
	}
	return area
}
