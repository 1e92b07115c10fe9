package views

import (
	"math"

	"threepost/geometry/plane"
)

// passing draws the lines whose posts stand under a level but not on it,
// dashed, their letters between shelf and wall.
func (p *plan) passing() {
	for _, v := range p.levels {
		on := map[string]bool{}
		for _, i := range p.standing(v) {
			on[p.b.Posts[i].Letter] = true
		}
		for _, i := range p.b.Levels[v].Posts {
			post := &p.b.Posts[i]
			if on[post.Letter] {
				continue
			}
			t := new(trace)
			q := postPart(post)
			q.trace(t, p.f)
			p.path("passing", string(*t))
			p.posts = append(p.posts, q)
			p.outside(post.Letter, post.At)
		}
	}
}

// outside sets the letter of a line between its shelf and the wall.
func (p *plan) outside(letter string, at plane.Vec) {
	bearing := plane.Bearing(at)
	wx, wy := p.wallAt(bearing)
	wall := p.f.MM(wx, wy)
	dir := plane.Unit(plane.Sub(wall, at))
	far := plane.Distance(at, wall)
	out := 0.0
	for _, o := range p.edges {
		if !o.Contains(at) {
			continue
		}
		lo, hi := 0.0, far
		for range 20 {
			mid := (lo + hi) / 2
			if o.Contains(plane.Add(at, plane.Scale(dir, mid))) {
				lo = mid
			} else {
				hi = mid
			}
		}
		out = math.Max(out, lo)
	}
	// In a gap too narrow for it the letter stands outside the wall.
	if (far-out)*p.f.Per < p.e.capital(noteSize)+4 {
		out = far + 30/p.f.Per
	}
	// Lines that stand close together push their letters aside.
	x, y := p.f.Px(plane.Add(at, plane.Scale(dir, (out+far)/2)))
	sx, sy := p.f.Move(plane.Left(dir))
	n := math.Max(hypot(sx, sy), 1e-9)
	for _, aside := range [...]float64{0, 8, -8, 14, -14, 20, -20} {
		cx, cy := x+sx/n*aside, y+sy/n*aside
		if b := p.e.textBox(cx, cy+p.e.capital(noteSize)/2, letter, "", "middle", noteSize); !p.meets(b) {
			p.centred(cx, cy, letter, "letter quiet halo", noteSize)
			return
		}
	}
}

// centred sets a text with its middle at a point.
func (p *plan) centred(x, y float64, words, class string, size float64) {
	p.text(x, y+p.e.capital(size)/2, words, class, "middle", size)
}

// stand draws the posts that stand on the levels, solid, letters in white.
func (p *plan) stand() {
	for _, v := range p.levels {
		for _, i := range p.standing(v) {
			post := &p.b.Posts[i]
			q := postPart(post)
			p.posts = append(p.posts, q)
			p.group("post", postID(p.b, post), "Post "+post.Letter, func() {
				t := new(trace)
				q.trace(t, p.f)
				p.path("solid", string(*t))
				lo, hi := q.Bounds()
				least := math.Min(hi[0]-lo[0], hi[1]-lo[1]) * p.f.Per
				x, y := p.f.Px(post.At)
				size := float64(noteSize)
				if least > 24 {
					size = textSize
				}
				if p.e.width(size, heavy, post.Letter)+3 <= least && p.e.capital(size)+2 <= least {
					p.centred(x, y, post.Letter, "letter heavy on", size)
					return
				}
				// Beside it, where no other letter stands.
				step := least/2 + 8
				for _, to := range [...][2]float64{{0, 1}, {0, -1}, {1, 0}, {-1, 0}} {
					cx, cy := x+to[0]*step, y+to[1]*step
					if b := p.e.textBox(cx, cy+p.e.capital(noteSize)/2, post.Letter, heavy, "middle", noteSize); !p.meets(b) && !p.overPot(b) {
						p.centred(cx, cy, post.Letter, "letter heavy halo", noteSize)
						return
					}
				}
			})
		}
	}
}

// overPot tells whether a box reaches over a pot.
func (p *plan) overPot(b box) bool {
	sk := p.skeletonOf(b)
	for i := range p.pots {
		for _, q := range p.pots[i].all() {
			if q.Skeleton.Distance(sk) < q.Radius {
				return true
			}
		}
	}
	return false
}
