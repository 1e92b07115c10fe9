package stacks

import (
	"slices"
	"sort"

	"threepost/layout"
)

// Alike is how far the real heights of posts may lie apart to count as one
// height, mm: less than a hand or a shelf can tell.
const Alike = 0.1

// maxMakeUps is the most make-ups that a catalogue holds; those of fewest
// pieces come first.
const maxMakeUps = 20000

// Bounds limits what a catalogue holds.
type Bounds struct {
	Pieces  int     // most pieces in a post; 0 means 3, what no rule watches
	UpTo    float64 // tallest post, mm; 0 means 2000
	Slender float64 // height over width of a post at most; 0 means 10
}

// Catalogue is every post that can be put together from the furniture, by its
// real height: posts with the tallest at the bottom, spacers on top of them,
// at least one post that is no spacer. It is read only once made.
type Catalogue struct {
	of     *layout.Furniture
	groups []group // rising
}

// group is the make-ups of one height within Alike.
type group struct {
	lo, hi float64
	ways   []way // fewest pieces first, then tallest bottom piece
}

// way is one make-up with what it takes.
type way struct {
	make layout.MakeUp
	rows []int // furniture row of each piece
	real float64
}

// Height is a height that a number of posts can have together.
type Height struct {
	Real   float64         // mm, of the tallest of its posts
	Posts  []layout.MakeUp // one a post
	Pieces int             // in all posts
}

// Same tells whether all posts have one make-up.
func (h Height) Same() bool {
	for _, m := range h.Posts {
		if !slices.Equal(m, h.Posts[0]) {
			return false
		}
	}
	return true
}

// NewCatalogue lists the make-ups of the owned pieces within bounds.
func NewCatalogue(f *layout.Furniture, in Bounds) *Catalogue {
	if in.Pieces <= 0 {
		in.Pieces = 3
	}
	in.Pieces = min(in.Pieces, 8)
	if in.UpTo <= 0 {
		in.UpTo = 2000
	}
	if in.Slender <= 0 {
		in.Slender = 10
	}
	l := &lister{of: f, in: in, order: stackingOrder(f)}
	for n := 1; n <= in.Pieces && !l.full; n++ {
		l.extend(nil, 0, n, 0, 0)
	}
	c := &Catalogue{of: f}
	sort.SliceStable(l.ways, func(i, j int) bool { return l.ways[i].real < l.ways[j].real })
	for _, w := range l.ways {
		if n := len(c.groups); n > 0 && w.real <= c.groups[n-1].lo+Alike+1e-9 {
			g := &c.groups[n-1]
			g.hi = w.real
			g.ways = append(g.ways, w)
			continue
		}
		c.groups = append(c.groups, group{w.real, w.real, []way{w}})
	}
	for i := range c.groups {
		ways := c.groups[i].ways
		sort.SliceStable(ways, func(a, b int) bool { return l.before(ways[a], ways[b]) })
	}
	return c
}

// stackingOrder lists the rows that can be used, bottom pieces first: posts
// from the tallest, then spacers from the tallest. Of rows that cannot be told
// apart in a make-up only the first counts.
func stackingOrder(f *layout.Furniture) []int {
	var order []int
	for i := range f.Posts {
		k := &f.Posts[i]
		_, sound := sectionPlan(k.Section)
		if k.Count > 0 && sound && k.RealHeight() > 0 && k.RealHeight() <= 1e5 &&
			f.Post(layout.Piece{Height: k.Height, Name: k.Name}) == k {
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(a, b int) bool {
		p, q := &f.Posts[order[a]], &f.Posts[order[b]]
		if p.Spacer != q.Spacer {
			return q.Spacer
		}
		return p.RealHeight() > q.RealHeight()
	})
	return order
}

// lister walks all make-ups.
type lister struct {
	of    *layout.Furniture
	in    Bounds
	order []int
	ways  []way
	full  bool
}

// extend adds pieces from place from of the stacking order on until left are
// added. narrow is the narrowest section so far, 0 before the first piece.
func (l *lister) extend(rows []int, from, left int, sum, narrow float64) {
	if left == 0 {
		if len(l.ways) >= maxMakeUps {
			l.full = true
			return
		}
		w := way{rows: append([]int(nil), rows...), real: sum}
		for _, r := range rows {
			w.make = append(w.make, layout.Piece{Height: l.of.Posts[r].Height, Name: l.of.Posts[r].Name})
		}
		l.ways = append(l.ways, w)
		return
	}
	for at := from; at < len(l.order) && !l.full; at++ {
		r := l.order[at]
		k := &l.of.Posts[r]
		if len(rows) == 0 && k.Spacer {
			return // spacers come last, and one alone is no post
		}
		tall, thin := sum+k.RealHeight(), k.Section.Width
		if narrow > 0 && narrow < thin {
			thin = narrow
		}
		if tall > l.in.UpTo+1e-9 || tall > float64(thin*l.in.Slender)+1e-9 || count(rows, r) >= k.Count {
			continue
		}
		l.extend(append(rows, r), at, left-1, tall, thin)
	}
}

func count(rows []int, r int) int {
	n := 0
	for _, x := range rows {
		if x == r {
			n++
		}
	}
	return n
}

// before orders the ways of one height: fewest pieces, then the tallest piece
// lowest, then the order of the furniture.
func (l *lister) before(a, b way) bool {
	if len(a.rows) != len(b.rows) {
		return len(a.rows) < len(b.rows)
	}
	for i := range a.rows {
		p, q := &l.of.Posts[a.rows[i]], &l.of.Posts[b.rows[i]]
		if p.RealHeight() != q.RealHeight() {
			return p.RealHeight() > q.RealHeight()
		}
		if a.rows[i] != b.rows[i] {
			return a.rows[i] < b.rows[i]
		}
	}
	return false
}

// find is the group of a height, within 0.05 mm, or nil.
func (c *Catalogue) find(height float64) *group {
	i := sort.Search(len(c.groups), func(i int) bool { return c.groups[i].hi >= height-Alike/2 })
	if i < len(c.groups) && c.groups[i].lo <= height+Alike/2 {
		return &c.groups[i]
	}
	return nil
}

// MakeUps are the ways to make one post of a height, fewest pieces first;
// none when no owned pieces make it.
func (c *Catalogue) MakeUps(height float64) []layout.MakeUp {
	g := c.find(height)
	if g == nil {
		return nil
	}
	list := make([]layout.MakeUp, len(g.ways))
	for i := range g.ways {
		list[i] = append(layout.MakeUp(nil), g.ways[i].make...)
	}
	return list
}

// Heights are the heights, rising, that n posts can have together from the
// stock (nil: all that is owned), each with its posts of fewest pieces. The
// posts of one height may differ in their pieces, never in their real height
// by more than Alike.
func (c *Catalogue) Heights(n int, from *Stock) []Height {
	if n < 1 || n > maxLines {
		return nil
	}
	if from == nil {
		from = NewStock(c.of)
	}
	var list []Height
	for i := range c.groups {
		g := &c.groups[i]
		s := search{left: from.Posts, wants: []want{{group: g, posts: n}}}
		if h, ok := s.run(); ok {
			list = append(list, h[0])
		}
	}
	return list
}

// Heights is Catalogue.Heights of posts of at most the given pieces (0: 3) up
// to a height (0: 2000 mm).
func Heights(f *layout.Furniture, n, pieces int, upto float64) []Height {
	return NewCatalogue(f, Bounds{Pieces: pieces, UpTo: upto}).Heights(n, nil)
}

// Nearest are the heights of single posts just under and just over a height;
// 0 where there is none.
func (c *Catalogue) Nearest(height float64) (under, over float64) {
	for i := range c.groups {
		g := &c.groups[i]
		if g.hi < height-Alike/2 {
			under = g.hi
		} else if g.lo > height+Alike/2 {
			return under, g.lo
		}
	}
	return under, 0
}
