package bounds

import (
	"math"
	"sort"

	"threepost/geometry/plane"
)

// cut says of one ground that its pots from a height up, weighed, are no more
// than its levels that take so much hold.
type cut struct {
	ground, from int // into counter.floor and counter.takes
	weights      []float64
	under, lid   float64 // a level holds, under a shelf and under the lid
	shelf        float64 // where several rooms share a shelf: it holds; then under is what a level under a shelf takes off
}

// cellKey names a weight that was worked out.
type cellKey struct {
	round, r, deep, side, mm, area float64
}

// over is by how much a solution breaks a cut, as a share of what it holds.
func (c *counter) over(v *variables, x []float64, k *cut) float64 {
	g := &c.floor[k.ground]
	have, hold := 0.0, 0.0
	for _, p := range g.places {
		for kind, w := range k.weights {
			if i := v.pots[p][kind]; i >= 0 && w > 0 {
				have += float64(w * x[i])
			}
		}
		for t := k.from; t < len(c.takes); t++ {
			if i := v.under[p][t]; i >= 0 {
				hold += float64(k.under * x[i])
			}
			if i := v.lid[p][t]; i >= 0 {
				hold += float64(k.lid * x[i])
			}
		}
	}
	if at := v.shelf[k.ground]; at >= 0 {
		hold += float64(k.shelf * x[at])
	}
	return (have - hold) / math.Max(1, math.Max(k.lid, k.shelf))
}

// row is a cut as a condition of a program.
func (c *counter) row(v *variables, k *cut) []float64 {
	row := make([]float64, len(v.program.gain))
	for _, p := range c.floor[k.ground].places {
		for kind, w := range k.weights {
			if i := v.pots[p][kind]; i >= 0 {
				row[i] = w
			}
		}
		for t := k.from; t < len(c.takes); t++ {
			if i := v.under[p][t]; i >= 0 {
				row[i] = -k.under
			}
			if i := v.lid[p][t]; i >= 0 {
				row[i] = -k.lid
			}
		}
	}
	if at := v.shelf[k.ground]; at >= 0 {
		row[at] = -k.shelf
	}
	return row
}

// broken is the least by which a cut is broken to be worth a condition.
const broken = 1e-4

// find makes cuts that a solution breaks, and says whether there are any.
func (c *counter) find(v *variables, x []float64) bool {
	before := len(c.cuts)
	offer := func(k cut) {
		if c.over(v, x, &k) > broken {
			c.cuts = append(c.cuts, k)
		}
	}
	c.turn++
	for g := range c.floor {
		last := len(c.takes)
		if v.shelf[g] >= 0 {
			last = 1 // high pots on one side have its levels' cuts
		}
		for from := range last {
			some := false
			for _, p := range c.floor[g].places {
				for _, k := range c.order {
					if i := v.pots[p][k]; i >= 0 && x[i] > 1e-6 && c.load.Kinds[k].Height >= c.takes[from]-plane.Tolerance {
						some = true
					}
				}
			}
			if some {
				c.counted(g, from, offer)
				c.sliced(g, from, offer)
				c.celled(v, x, g, from, offer)
			}
		}
	}
	return len(c.cuts) > before
}

// place is the first place of a ground.
func (c *counter) place(g int) *Place { return &c.load.Places[c.floor[g].places[0]] }

func (c *counter) deep(g int) bool { return c.place(g).Deep }

// of are weights of the kinds that reach a height, 0 for others.
func (c *counter) of(from int, weight func(kind int) float64) []float64 {
	w := make([]float64, len(c.load.Kinds))
	for _, k := range c.order {
		if c.load.Kinds[k].Height >= c.takes[from]-plane.Tolerance {
			w[k] = weight(k)
		}
	}
	return w
}

// cut is one of a ground, of which a level holds so much less what the posts
// on it take.
func (c *counter) cut(g, from int, weights []float64, hold, post float64) cut {
	k := cut{ground: g, from: from, weights: weights, lid: hold, under: hold - float64(3*post)}
	if len(c.floor[g].places) > 1 {
		k.shelf, k.lid, k.under = hold, 0, -3*post
	}
	return k
}

// counted are Oler's counts: of the kinds from each size up, and of each.
func (c *counter) counted(g, from int, offer func(cut)) {
	for i, k := range c.order {
		if n := c.floor[g].class[i]; n >= 0 {
			bigger := map[int]bool{}
			for _, b := range c.order[i:] {
				bigger[b] = true
			}
			offer(c.cut(g, from, c.of(from, func(b int) float64 {
				if bigger[b] {
					return 1
				}
				return 0
			}), float64(n), 0))
		}
		if n := c.floor[g].alone[i]; n >= 0 {
			offer(c.cut(g, from, c.of(from, func(b int) float64 {
				if b == k {
					return 1
				}
				return 0
			}), float64(n), 0))
		}
		if posted := c.floor[g].posted; posted != nil && c.load.Kinds[k].Height >= c.takes[from]-plane.Tolerance {
			one := c.cut(g, from, c.of(from, func(b int) float64 {
				if b == k {
					return 1
				}
				return 0
			}), float64(c.floor[g].alone[i]), 0)
			one.under = float64(posted[i])
			offer(one)
		}
	}
}

// beside counts how many pots of a kind go on one shelf with three posts among
// them: by the cells of both, at the prices of a few that tell most.
func (c *counter) beside(g *ground) {
	if c.load.Post.Radius <= 0 || len(g.walls) != 1 {
		return
	}
	w := g.walls[0]
	apart := c.load.apart(&c.load.Places[g.places[0]])
	for i, k := range c.order {
		r := float64(apart(k, k) / 2)
		post := math.Max(0, c.load.Post.Apart[k]-r)
		most := math.Inf(1)
		if g.alone[i] >= 0 {
			most = float64(g.alone[i])
		}
		bare := most
		for _, side := range []float64{0.1, 0.14, 0.18, 0.22} {
			for _, mm := range []float64{0.06, 0.08, 0.1} {
				p := price{side: float64(side*r) * r, mm: float64(mm * r)}
				hold := w.holds(p)
				if each := c.weight(w, r, c.load.Kinds[k].Room, p); each > 0 {
					bare = math.Min(bare, math.Max(0, math.Floor(hold/each+1e-9)))
					hold -= float64(3 * c.weight(w, post, c.load.Post.Radius, p))
					most = math.Min(most, math.Max(0, math.Floor(hold/each+1e-9)))
				}
			}
		}
		if math.IsInf(most, 1) || most > mostPoints {
			most, bare = mostPoints, mostPoints
		}
		g.alone[i] = int(bare)
		g.posted = append(g.posted, int(most))
	}
}

// sliced are the areas at one height over the shelf: what no two pots share
// lies within the shelf grown by what stands out over it.
func (c *counter) sliced(g, from int, offer func(cut)) {
	for _, s := range c.load.Slices {
		if s.Deep != c.deep(g) {
			continue
		}
		hold := 0.0
		for _, w := range c.floor[g].walls {
			hold += w.area + float64(w.around*(1+1e-3)*s.Over) + disc(s.Over)
		}
		offer(c.cut(g, from, c.of(from, func(k int) float64 { return s.Areas[k] }), hold, s.Post))
	}
}

func disc(r float64) float64 { return float64(math.Pi * r * r) }

// celled are the cells of discs (cells.go), whose radii and prices are chosen
// to weigh a solution most.
func (c *counter) celled(v *variables, x []float64, g, from int, offer func(cut)) {
	pots := make([]float64, len(c.load.Kinds))
	for _, k := range c.order {
		if c.load.Kinds[k].Height >= c.takes[from]-plane.Tolerance {
			for _, p := range c.floor[g].places {
				if i := v.pots[p][k]; i >= 0 {
					pots[k] += x[i]
				}
			}
		}
	}
	radii, post := c.radii(c.load.apart(c.place(g)), pots, c.turn%3)
	mass, mean := 0.0, 0.0
	for _, k := range c.order {
		if c.load.Kinds[k].Height >= c.takes[from]-plane.Tolerance {
			r2 := float64(radii[k] * radii[k])
			mass += float64(pots[k] * r2)
			mean += float64(float64(pots[k]*r2) * r2)
		}
	}
	if mass <= 0 {
		return
	}
	size := step(float64(math.Sqrt(mean/mass)*[]float64{1, 1, 1, 0.7, 1.25, 0.85}[c.turn%6]), 6)
	tries := []price{{0.12, 0.08}, {0.2, 0.09}, {0.16, 0}, {0.24, 0.1}, {0.07, 0.06}}
	for _, t := range tries {
		p := price{side: float64(t.side*size) * size, mm: float64(t.mm * size)}
		hold, weights, least := 0.0, c.of(from, func(int) float64 { return math.Inf(1) }), math.Inf(1)
		for _, w := range c.floor[g].walls {
			hold += math.Max(0, w.holds(p))
			for k := range weights {
				if weights[k] > 0 {
					weights[k] = math.Min(weights[k], c.weight(w, radii[k], c.load.Kinds[k].Room, p))
				}
			}
			least = math.Min(least, c.weight(w, post, c.load.Post.Radius, p))
		}
		if len(c.floor[g].walls) != 1 || c.load.Post.Radius <= 0 {
			least = 0
		}
		k := c.cut(g, from, weights, hold, least)
		offer(k)
		if v.shelf[g] < 0 {
			c.rounded(k, offer)
		}
	}
}

// step rounds up to few figures, so that few weights are worked out.
func step(x, by float64) float64 { return float64(math.Ceil(x/by) * by) }

func (c *counter) weight(w wall, r, deep float64, p price) float64 {
	key := cellKey{w.round, r, deep, p.side, p.mm, w.area}
	if w, ok := c.cells[key]; ok {
		return w
	}
	out := w.weight(r, deep, p)
	c.cells[key] = out
	return out
}

// rounded are the cuts that follow for whole numbers of pots: on one level
// sum of floor(w/d) n <= floor(hold/d), for the weight d of each kind.
func (c *counter) rounded(k cut, offer func(cut)) {
	for _, d := range c.order {
		by := k.weights[d]
		if by <= 0 || k.under < 0 {
			continue
		}
		r := cut{ground: k.ground, from: k.from, weights: make([]float64, len(k.weights)),
			under: math.Floor(k.under/by + 1e-9), lid: math.Floor(k.lid/by + 1e-9)}
		for i, w := range k.weights {
			r.weights[i] = math.Floor(w/by + 1e-12)
		}
		offer(r)
	}
}

// radii are radii of discs about the middles of the kinds and of a post that do
// not overlap: any two keep the sum of theirs. They are given out in turn, each
// as large as those before leave it, half of what two alike keep at most: to
// the kinds that cover most, or to the largest or smallest first, and to those
// of which a level holds none after the posts.
func (c *counter) radii(apart func(i, j int) float64, pots []float64, turn int) (radii []float64, post float64) {
	l := c.load
	radii = make([]float64, len(l.Kinds))
	order := append([]int(nil), c.order...)
	rank := func(k int) float64 {
		own := apart(k, k)
		switch {
		case pots[k] <= 1e-6:
			return -1 - own
		case turn == 1:
			return own
		case turn == 2:
			return 1 / math.Max(1, own)
		}
		return float64(pots[k] * float64(own*own))
	}
	sort.SliceStable(order, func(a, b int) bool { return rank(order[a]) > rank(order[b]) })
	var given []int
	posted := l.Post.Radius <= 0
	set := func() {
		post = math.Inf(1)
		for _, k := range given {
			post = math.Min(post, l.Post.Apart[k]-radii[k])
		}
		if math.IsInf(post, 1) {
			post = l.Post.Radius
		}
		post = math.Max(0, post)
		posted = true
	}
	for _, k := range order {
		if !posted && pots[k] <= 1e-6 {
			set()
		}
		r := apart(k, k) / 2
		for _, j := range given {
			r = math.Min(r, apart(j, k)-radii[j])
		}
		if posted && l.Post.Radius > 0 {
			r = math.Min(r, l.Post.Apart[k]-post)
		}
		radii[k] = math.Max(0, r)
		given = append(given, k)
	}
	if !posted {
		set()
	}
	return radii, post
}
