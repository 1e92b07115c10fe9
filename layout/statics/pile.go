package statics

import (
	"threepost/geometry/plane"
	"threepost/layout/stacks"
)

// pile is a load as far as it has been put in: the masses on every shelf and
// what they bring to the posts below.
type pile struct {
	*footing
	own   []sum       // per shelf: the shelf and its ware
	here  []bool      // per shelf: it lies there
	stand []bool      // per post: it stands there
	bring [][]float64 // per shelf: what it brings to each of its posts
	carry []float64   // per post: on its head
	worst [][2]float64
	rests []Result // per shelf
}

// sum is a mass and its moments.
type sum struct{ mass, x, y float64 }

func (s *sum) add(mass float64, at plane.Vec) {
	s.mass += mass
	s.x += float64(mass * at[0])
	s.y += float64(mass * at[1])
}

// balance is the point about which the moments vanish.
func (s sum) balance() plane.Vec {
	if !(s.mass > 0) && !(s.mass < 0) {
		return plane.Vec{}
	}
	return plane.Vec{s.x / s.mass, s.y / s.mass}
}

func newPile(f *footing) *pile {
	return &pile{
		footing: f,
		own:     make([]sum, len(f.b.Shelves)),
		here:    make([]bool, len(f.b.Shelves)),
		stand:   make([]bool, len(f.b.Posts)),
		bring:   make([][]float64, len(f.b.Shelves)),
		carry:   make([]float64, len(f.b.Posts)),
		worst:   make([][2]float64, len(f.b.Posts)),
		rests:   make([]Result, len(f.b.Shelves)),
	}
}

// put sets a piece down without working out what follows, and gives the shelf
// whose load it changed, or -1.
func (p *pile) put(e Event) int {
	switch e.Kind {
	case SetShelf:
		if e.Index < 0 || e.Index >= len(p.here) || p.here[e.Index] {
			return -1
		}
		p.here[e.Index] = true
		s := &p.b.Shelves[e.Index]
		p.own[e.Index].add(s.Mass, centroid(s))
		return e.Index
	case SetPost:
		if e.Index < 0 || e.Index >= len(p.stand) || p.stand[e.Index] {
			return -1
		}
		p.stand[e.Index] = true
		return p.under[e.Index]
	case SetPot:
		if e.Index < 0 || e.Index >= len(p.pots) {
			return -1
		}
		s := p.pots[e.Index]
		if s >= 0 {
			pot := &p.b.Pots[e.Index]
			p.own[s].add(pot.Body.Mass, pot.At)
		}
		return s
	}
	return -1
}

// centroid is the middle of a shelf's area.
func centroid(s *stacks.Shelf) plane.Vec {
	if s.Outline.Empty() {
		return s.At
	}
	return s.Outline.Centroid()
}

// load is everything a shelf brings down: itself, its ware, the posts on it.
func (p *pile) load(s int) sum {
	total := p.own[s]
	for _, i := range p.standing[s] {
		if p.stand[i] {
			total.add(p.b.Posts[i].Mass+p.carry[i], p.b.Posts[i].At)
		}
	}
	return total
}

// settle rests a shelf on the posts that stand under it and brings the weight
// to them. It needs all above it settled.
func (p *pile) settle(s int) {
	total := p.load(s)
	under := make([]Support, 0, len(p.posts[s]))
	for _, i := range p.posts[s] {
		if p.stand[i] {
			under = append(under, Support{At: p.b.Posts[i].At, Top: p.b.Posts[i].Top})
		}
	}
	if len(under) < len(p.posts[s]) {
		under = nil // posts go in together; until then the shelf is in the hands
	}
	p.rests[s] = rest(under, total.mass, total.balance())
	old := p.bring[s]
	p.bring[s] = p.rests[s].Reactions
	for k, i := range p.posts[s] {
		if k < len(p.bring[s]) {
			p.carry[i] += p.bring[s][k]
		}
		if k < len(old) {
			p.carry[i] -= old[k]
		}
	}
}

// settleFrom settles a shelf and all that it stands on, and calls seen for
// each. No shelf (-1) settles nothing.
func (p *pile) settleFrom(s int, seen func(shelf int)) {
	if s < 0 {
		return
	}
	touched := make([]bool, len(p.b.Shelves))
	touched[s] = true
	for _, i := range p.down {
		if !touched[i] {
			continue
		}
		p.settle(i)
		if p.here[i] {
			seen(i)
		}
		for _, post := range p.posts[i] {
			if u := p.under[post]; u >= 0 && p.stand[post] && p.b.Shelves[u].Top < p.b.Shelves[i].Top {
				touched[u] = true
			}
		}
	}
}
