package packing

import (
	"math"
	"math/rand/v2"
	"sort"

	"threepost/geometry/plane"
)

// leaning is the taste by which a builder chooses among the corners.
type leaning int

const (
	outward leaning = iota // far from the middle
	snug                   // where the third neighbour is near too
	aside                  // toward one side
	leanings
)

// builder places one thing after the other, each where it touches two others.
type builder struct {
	c      *crowd
	a      asked
	rnd    *rand.Rand
	lean   leaning
	side   plane.Vec
	fronts map[int]*front // by kind
	full   []bool         // kinds that have no room
	tries  int            // spots tried for a thick thing
}

// newBuilder builds on what stands in the crowd.
func newBuilder(c *crowd, lean leaning, rnd *rand.Rand) *builder {
	return newBuilderFor(c, asked{crumbs: true}, lean, rnd)
}

// newBuilderFor builds what is asked.
func newBuilderFor(c *crowd, a asked, lean leaning, rnd *rand.Rand) *builder {
	b := &builder{c: c, a: a, rnd: rnd, lean: lean, tries: 24,
		fronts: map[int]*front{}, full: make([]bool, len(c.g.kinds))}
	b.side = plane.FromBearing(1, 90*float64(rnd.IntN(4)))
	c.ask(b.a)
	for k := range c.g.kinds {
		c.askAlso(b.a, k)
	}
	c.place(c.x)
	return b
}

// put places one thing of a want, or says that it found no room.
func (b *builder) put(want int) bool {
	kind := b.c.g.p.Wants[want].Kind
	if b.full[kind] {
		return false
	}
	s, ok := b.room(kind)
	if !ok {
		b.full[kind] = true
		return false
	}
	b.set(kind, want, s)
	return true
}

// set stands a thing at a spot.
func (b *builder) set(kind, want int, s spot) {
	c := b.c
	class := c.table.find(class{kind: int32(kind)})
	c.add(kind, want, plane.Vec{s.x, s.y}, s.turn, false)
	c.class = append(c.class, int32(class))
	c.place(c.x)
}

// room is a spot for one more thing of a kind.
func (b *builder) room(kind int) (spot, bool) {
	class := b.c.table.find(class{kind: int32(kind)})
	if !b.c.g.kinds[kind].thin {
		return b.tuck(class, kind)
	}
	f := b.fronts[kind]
	if f == nil {
		f = newFront(b.c, class)
		b.fronts[kind] = f
	}
	f.renew()
	if len(f.spots) == 0 {
		f.along()
	}
	best, at := math.Inf(-1), spot{}
	for _, s := range f.spots {
		if v := b.liking(class, s); v > best {
			best, at = v, s
		}
	}
	at.turn = b.c.g.kinds[kind].turnOf()
	return at, len(f.spots) > 0
}

// liking is how much the builder likes a spot where nothing is missing.
func (b *builder) liking(class int, s spot) float64 {
	dx, dy := s.x-b.c.middle[0], s.y-b.c.middle[1]
	switch b.lean {
	case outward:
		return float64(dx*dx) + float64(dy*dy)
	case aside:
		return float64(dx*b.side[0]) + float64(dy*b.side[1]) + float64(0.01*dx*b.side[1])
	}
	return -b.third(class, s)
}

// third is the slack of a disc at a spot to its third nearest neighbour or
// edge, mm.
func (b *builder) third(class int, s spot) float64 {
	const far = 1e6 // there may be no third
	c := b.c
	t := &c.table
	near := [3]float64{far, far, far}
	note := func(v float64) {
		for i := range near {
			if v < near[i] {
				near[i], v = v, near[i]
			}
		}
	}
	nc := len(t.classes)
	for j, k := range c.class {
		note(plane.Hypot(s.x-c.x[2*j], s.y-c.x[2*j+1]) - t.touch[class*nc+int(k)])
	}
	for o := range c.g.blocks {
		m := c.g.blocks[o].mid
		note(plane.Hypot(s.x-m[0], s.y-m[1]) - t.oTouch[o*nc+class])
	}
	kind := &c.g.kinds[t.classes[class].kind]
	for m, l := range kind.limits {
		sk := [1]plane.Vec{{s.x, s.y}}
		note(c.g.home(l.Area, sk[:]).depth(s.x, s.y) - t.depth[class][m])
	}
	c.work += int64(c.n)
	return near[2]
}

// tuck finds a spot for a thing that is no disc: random spots, eased until
// nothing is missing, then pressed the way the builder leans.
func (b *builder) tuck(class, kind int) (spot, bool) {
	best, at, found := math.Inf(-1), spot{}, 0
	for t := 0; t < b.tries && found < 6; t++ {
		s := b.c.ease(class, b.c.anywhere(kind, b.rnd), -1, 25)
		if s.e > 1e-12 {
			continue
		}
		found++
		s = b.press(class, s)
		v := b.liking(class, s)
		if b.lean == snug { // third neighbours mean little to long things
			v = b.outwardOf(s)
		}
		if v > best {
			best, at = v, s
		}
	}
	return at, found > 0
}

func (b *builder) outwardOf(s spot) float64 {
	dx, dy := s.x-b.c.middle[0], s.y-b.c.middle[1]
	return float64(dx*dx) + float64(dy*dy)
}

// press moves a thing by ever smaller steps the way the builder leans.
func (b *builder) press(class int, s spot) spot {
	like := func(s spot) float64 {
		if b.lean == aside {
			return b.liking(class, s)
		}
		return b.outwardOf(s)
	}
	v := like(s)
	for step := 32.0; step > 0.4; step /= 2 {
		for again := 0; again < 6; again++ {
			moved := false
			for k := 0; k < 8; k++ {
				d := plane.FromBearing(step, 45*float64(k))
				n := s
				n.x += d[0]
				n.y += d[1]
				w := like(n)
				if w <= v {
					continue
				}
				if e, _, _, _ := b.c.alone(class, n, -1, 1e-12); e > 1e-12 {
					continue
				}
				s, v, moved = n, w, true
				break
			}
			if !moved {
				break
			}
		}
	}
	return s
}

// order is the wants in an order of placing, each as often as it counts.
// Musts go first; then what is worth most for the area it takes, or the
// largest. wild, from 0 to 1, mixes the order.
func (g *ground) order(left []int, largest bool, wild float64, rnd *rand.Rand) []int {
	type turn struct {
		want int
		must bool
		key  float64
		size float64
	}
	var list []turn
	for w, n := range left {
		want := &g.p.Wants[w]
		f := &g.kinds[want.Kind]
		key := want.Value / math.Max(f.area, 1)
		if largest {
			key = f.size
		}
		for i := 0; i < n; i++ {
			k := key
			if wild > 0 {
				k *= 1 + float64(wild*(spanned(rnd)))
			}
			list = append(list, turn{w, want.Must, k, f.size})
		}
	}
	sort.SliceStable(list, func(i, j int) bool {
		a, b := &list[i], &list[j]
		if a.must != b.must {
			return a.must
		}
		if a.key != b.key {
			return a.key > b.key
		}
		return a.size > b.size
	})
	order := make([]int, len(list))
	for i, t := range list {
		order[i] = t.want
	}
	return order
}
