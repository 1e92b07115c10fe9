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
// there. A pot or two of a kind of which no more are set are no strays. A kind
// that stands low among tall ones counts once more.
func (s *Search) scatter(f *frame) int {
	tally := s.tally(f)
	sum := 0
	for k := range s.context.kinds {
		sum += scatterOf(tally, k)
		for i, st := range f.storeys {
			if tally[i][k] > 0 && s.low(st, k) {
				sum++
			}
		}
	}
	return sum
}

// low says whether a kind is less than half as high as the tallest that fits a
// storey: there it takes the room of what needs the height.
func (s *Search) low(st *storey, k int) bool {
	tall := 0.0
	for q, kd := range s.context.kinds {
		if kd.cones == nil && len(kd.free) > 0 && s.context.takes(st, q) {
			tall = max(tall, kd.body.Height)
		}
	}
	return s.context.kinds[k].body.Height < tall/2
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
	low                [][]bool
	ground, room, held []float64
}

func (s *Search) measured(f *frame) ledger {
	m := ledger{tally: s.tally(f)}
	for k := range s.context.kinds {
		m.ground = append(m.ground, s.ground(k))
	}
	for i, st := range f.storeys {
		held := 0.0
		low := make([]bool, len(m.ground))
		for k := range low {
			low[k] = s.low(st, k)
		}
		m.low = append(m.low, low)
		for k, n := range m.tally[i] {
			held += float64(float64(n) * m.ground[k])
		}
		m.room = append(m.room, math.Max(st.site.area(), 1))
		m.held = append(m.held, held)
	}
	return m
}

// column is how many of one kind stand on each storey.
func (m *ledger) column(k int) [][]int {
	out := make([][]int, len(m.tally))
	for i := range m.tally {
		out[i] = []int{m.tally[i][k]}
	}
	return out
}

// rated is what a kind that stands so adds to the scatter.
func (m *ledger) rated(k int, column [][]int) int {
	sum := scatterOf(column, 0)
	for i := range column {
		if column[i][0] > 0 && m.low[i][k] {
			sum++
		}
	}
	return sum
}

// moved is how much more scattered a kind is once some of it have gone from one
// storey to another.
func (m *ledger) moved(k, from, to, amount int) int {
	column := m.column(k)
	before := m.rated(k, column)
	column[from][0] -= amount
	column[to][0] += amount
	return m.rated(k, column) - before
}

// promise is what a gathering would bring; ok is false where nothing moves or
// the area does not do.
func (m *ledger) promise(g gathering) (p promised, ok bool) {
	const most = 0.93 // of a shelf, half a gap round every pot
	own := m.column(g.kind)
	before, n := m.rated(g.kind, own), 0
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
	p = promised{gathering: g, gain: before - m.rated(g.kind, own)}
	back := 0.0
	if g.back >= 0 {
		i := bits.TrailingZeros64(g.from)
		other := m.column(g.back)
		before = m.rated(g.back, other)
		other[g.to][0] -= g.amount
		other[i][0] += g.amount
		p.gain += before - m.rated(g.back, other)
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
	half := float64(s.context.limits[layout.PotToPot].Plan / 2)
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
