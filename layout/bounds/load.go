package bounds

import (
	"math"
	"sort"

	"threepost/geometry/plane"
)

// Kind is a row of ware as a bound sees it.
type Kind struct {
	Name   string
	Count  int
	Height float64 // over its shelf, allowance included, mm
	Value  float64 // of one pot
	Room   float64 // least depth of its middle inside the shelf's edge, mm
	Size   float64 // least radius of its body, mm
}

// Place is somewhere a level can be: its shelves, the columns of the kiln that
// it fills, and the owned shelves it draws on.
type Place struct {
	Name     string
	Outlines []plane.Outline // side by side; the room for middles adds up
	Sides    []Side          // of lines on which all middles lie
	Thick    float64         // of the shelf, mm
	Columns  []int           // into Load.Columns
	Stock    int             // into Load.Stocks
	Shelves  float64         // of that stock that one level takes; part of one where a shelf has several rooms over it
}

// Side is a half plane: the points p with Dot(p, Out) at most At mm.
type Side struct {
	Out plane.Vec // of length 1
	At  float64
}

// Load is what there is. All lengths are mm.
type Load struct {
	Kinds   []Kind
	Places  []Place
	Columns []float64 // height from the lowest shelf's underside to the lid
	Stocks  []int     // owned shelves, as many as there are sorts
	Posts   float64   // heights of all owned posts and spacers together
	// Apart is the least distance of the middles of two kinds on one level.
	Apart func(i, j int) float64
	// Storey is the least post height of a level that takes a pot of the height.
	Storey func(height float64) float64
	Lid    float64 // room to the lid over the highest level
}

// Bound is what nobody can exceed.
type Bound struct {
	Count int     // pots
	Value float64 // of the pots
	Tall  Tall    // the height class that binds; its Count is 0 where the kiln as a whole does
	Short Scarce  // then: what, had there been more of it, would let in most
}

// Scarce names what there is too little of.
type Scarce string

// What a kiln can be short of.
const (
	Nothing Scarce = ""
	Height  Scarce = "height"
	Shelves Scarce = "shelves"
	Posts   Scarce = "posts"
)

// Tall is a height class of which more pots are asked than levels hold.
type Tall struct {
	From   float64 // height of its lowest pot, mm
	Count  int     // pots so high or higher
	Levels int     // that take them, at most
	Hold   int     // such pots on those levels, at most
}

// Most is the bound for a load over any mixture of its places.
func Most(l *Load) Bound {
	all := 0
	value := 0.0
	for _, k := range l.Kinds {
		all += k.Count
		value += float64(k.Value * float64(k.Count))
	}
	c := newCounter(l)
	count := whole(c.most(func(Kind) float64 { return 1 }, nil))
	b := Bound{Count: min(all, count), Value: math.Min(value, c.most(func(k Kind) float64 { return k.Value }, nil))}
	if b.Count < all {
		if b.Tall = c.tall(all - b.Count); b.Tall.Count == 0 {
			b.Short = l.scarce()
		}
	}
	return b
}

// scarce is what the bound grows by most when there is twice as much of it.
func (l *Load) scarce() Scarce {
	best, most := Nothing, 0.0
	for _, what := range []Scarce{Height, Shelves, Posts} {
		twice := *l
		twice.Columns = append([]float64(nil), l.Columns...)
		twice.Stocks = append([]int(nil), l.Stocks...)
		switch what {
		case Height:
			for i := range twice.Columns {
				twice.Columns[i] *= 2
			}
		case Shelves:
			for i := range twice.Stocks {
				twice.Stocks[i] *= 2
			}
		case Posts:
			twice.Posts *= 2
		}
		if n := newCounter(&twice).most(func(Kind) float64 { return 1 }, nil); n > most+1e-6 {
			best, most = what, n
		}
	}
	return best
}

// points is Points over the shelves of one level; -1 is no bound.
func (p *Place) points(room, apart float64) int {
	n := 0
	for _, o := range p.Outlines {
		each := Points(o, room, apart, p.Sides...)
		if each < 0 {
			return -1
		}
		n += each
	}
	return n
}

// heights are the distinct heights of the ware, rising.
func (l *Load) heights() []float64 {
	var out []float64
	for _, k := range l.Kinds {
		if k.Count > 0 {
			out = append(out, k.Height)
		}
	}
	sort.Float64s(out)
	n := 0
	for i, h := range out {
		if i == 0 || h > out[n-1]+plane.Tolerance {
			out[n] = h
			n++
		}
	}
	return out[:n]
}

// counter makes programs of one load.
type counter struct {
	load  *Load
	takes []float64
	// order is the kinds from the smallest; class[p][i] is how many of
	// order[i:] go on one level of place p at most.
	order []int
	class [][]int
	alone [][]int   // of one kind of order alone
	share []float64 // per kind: a radius; any two pots keep the sum of theirs
	area  []float64 // per place: holds the discs of those radii
}

func newCounter(l *Load) *counter {
	c := &counter{load: l, takes: l.heights()}
	c.classes()
	c.shares()
	return c
}

// classes tables Oler's counts for the kinds from each size up.
func (c *counter) classes() {
	for i := range c.load.Kinds {
		if c.load.Kinds[i].Count > 0 {
			c.order = append(c.order, i)
		}
	}
	sort.SliceStable(c.order, func(a, b int) bool { return c.load.Kinds[c.order[a]].Size < c.load.Kinds[c.order[b]].Size })
	for _, p := range c.load.Places {
		var counts, alone []int
		for i, k := range c.order {
			alone = append(alone, p.points(c.load.Kinds[k].Room, c.load.Apart(k, k)))
			apart, room := math.Inf(1), math.Inf(1)
			for _, a := range c.order[i:] {
				room = math.Min(room, c.load.Kinds[a].Room)
				for _, b := range c.order[i:] {
					apart = math.Min(apart, c.load.Apart(a, b))
				}
			}
			counts = append(counts, p.points(room, apart))
		}
		c.class = append(c.class, counts)
		c.alone = append(c.alone, alone)
	}
}

// shares finds, for each kind, a radius such that the middles of any two pots
// keep at least the sum of theirs, and the area that all such discs on one
// level share: they lie within the shelf grown by what they stand out over it.
func (c *counter) shares() {
	l := c.load
	c.share = make([]float64, len(l.Kinds))
	for _, k := range c.order {
		c.share[k] = l.Apart(k, k) / 2
	}
	fit := 1.0
	for _, a := range c.order {
		for _, b := range c.order {
			fit = math.Min(fit, l.Apart(a, b)/(c.share[a]+c.share[b]))
		}
	}
	over := 0.0
	for _, k := range c.order {
		c.share[k] = float64(c.share[k] * fit)
		over = math.Max(over, c.share[k]-l.Kinds[k].Room)
	}
	for _, p := range l.Places {
		area := 0.0
		for _, o := range p.Outlines {
			area += o.Area() + float64(o.Perimeter()*over) + disc(over)
		}
		c.area = append(c.area, area)
	}
}

func disc(r float64) float64 { return float64(math.Pi * r * r) }

// most is the bound on a gain summed over the pots that are set and the levels
// they stand on, by what those take; nil is no gain.
func (c *counter) most(gain func(Kind) float64, level func(takes float64) float64) float64 {
	l := c.load
	// Variables: levels of place p that take t, under a shelf and under the
	// lid, then pots of kind k on such levels.
	type spot struct{ place, takes int }
	index := map[[3]int]int{}
	var gains, caps []float64
	add := func(key [3]int, g, cap float64) {
		index[key] = len(gains)
		gains = append(gains, g)
		caps = append(caps, cap)
	}
	const shelf, lid = -1, -2
	gainOf := func(k int) float64 {
		if gain == nil {
			return 0
		}
		return gain(l.Kinds[k])
	}
	var spots []spot
	for p := range l.Places {
		stock := float64(l.Stocks[l.Places[p].Stock]) / l.Places[p].Shelves
		for t := range c.takes {
			under, top := c.goesIn(&l.Places[p], c.takes[t])
			if !under && !top {
				continue
			}
			spots = append(spots, spot{p, t})
			each := 0.0
			if level != nil {
				each = level(c.takes[t])
			}
			if under {
				add([3]int{p, t, shelf}, each, stock)
			}
			if top {
				add([3]int{p, t, lid}, each, stock)
			}
			for _, k := range c.order {
				if l.Kinds[k].Height <= c.takes[t]+plane.Tolerance {
					add([3]int{p, t, k}, gainOf(k), float64(l.Kinds[k].Count))
				}
			}
		}
	}
	lp := &program{gain: gains}
	for _, k := range c.order {
		row := map[int]float64{}
		for _, s := range spots {
			if i, ok := index[[3]int{s.place, s.takes, k}]; ok {
				row[i] = 1
			}
		}
		lp.row(float64(l.Kinds[k].Count), row)
	}
	at := func(p, t int, under bool) int {
		which := lid
		if under {
			which = shelf
		}
		if i, ok := index[[3]int{p, t, which}]; ok {
			return i
		}
		return -1
	}
	c.within(lp, at)
	for _, s := range spots {
		levels := pair{at(s.place, s.takes, true), at(s.place, s.takes, false)}
		for i := range c.order {
			row := map[int]float64{}
			for _, k := range c.order[i:] {
				if j, ok := index[[3]int{s.place, s.takes, k}]; ok {
					row[j] = 1
				}
			}
			c.onLevels(lp, row, levels, c.class[s.place][i])
		}
		area := map[int]float64{}
		levels.each(func(i int) { area[i] = -c.area[s.place] })
		for i, k := range c.order {
			if j, ok := index[[3]int{s.place, s.takes, k}]; ok {
				c.onLevels(lp, map[int]float64{j: 1}, levels, c.alone[s.place][i])
				area[j] = disc(c.share[k])
			}
		}
		lp.row(0, area)
	}
	return lp.bound(lp.solve(), caps)
}

// onLevels says that what a row counts goes so often on each of the levels.
func (c *counter) onLevels(lp *program, row map[int]float64, levels pair, each int) {
	if len(row) == 0 || each < 0 {
		return
	}
	levels.each(func(i int) { row[i] = -float64(each) })
	lp.row(0, row)
}

// pair is a level under a shelf and one under the lid, as variables; -1 where
// there is none.
type pair [2]int

func (p pair) each(visit func(i int)) {
	for _, i := range p {
		if i >= 0 {
			visit(i)
		}
	}
}

// thinnest is the least shelf of a column.
func (c *counter) thinnest(column int) float64 {
	least := math.Inf(1)
	for i := range c.load.Places {
		if p := &c.load.Places[i]; holds(p.Columns, column) {
			least = math.Min(least, p.Thick)
		}
	}
	return least
}

// goesIn says whether one level of a place that takes so much goes into its
// columns at all, under a shelf and under the lid.
func (c *counter) goesIn(p *Place, takes float64) (under, lid bool) {
	under, lid = len(p.Columns) > 0, len(p.Columns) > 0
	for _, col := range p.Columns {
		room := c.load.Columns[col]
		thin := c.thinnest(col)
		under = under && p.Thick+c.load.Storey(takes) <= room-thin+plane.Tolerance
		lid = lid && p.Thick+takes+c.load.Lid <= room+plane.Tolerance
	}
	return under, lid
}

// within adds what levels are bound by: the height of every column, one level
// under the lid in each, the owned shelves, the owned posts.
func (c *counter) within(lp *program, level func(p, t int, under bool) int) {
	l := c.load
	posts := map[int]float64{}
	stocks := make([]map[int]float64, len(l.Stocks))
	for s := range stocks {
		stocks[s] = map[int]float64{}
	}
	for col, height := range l.Columns {
		tall, last := map[int]float64{}, map[int]float64{}
		thin := c.thinnest(col)
		for p, place := range l.Places {
			if !holds(place.Columns, col) {
				continue
			}
			for t, takes := range c.takes {
				// The column's last shelf is taken off the column itself, since
				// there always is one, be it empty.
				if i := level(p, t, true); i >= 0 {
					tall[i] = place.Thick + l.Storey(takes)
				}
				if i := level(p, t, false); i >= 0 {
					tall[i] = place.Thick - thin + takes + l.Lid
					last[i] = 1
				}
			}
		}
		lp.row(math.Max(0, height-thin), tall)
		lp.row(1, last)
	}
	for p, place := range l.Places {
		for t, takes := range c.takes {
			if i := level(p, t, true); i >= 0 {
				posts[i] = 3 * l.Storey(takes)
				stocks[place.Stock][i] = place.Shelves
			}
			if i := level(p, t, false); i >= 0 {
				stocks[place.Stock][i] = place.Shelves
			}
		}
	}
	lp.row(l.Posts, posts)
	for s, owned := range l.Stocks {
		lp.row(float64(owned), stocks[s])
	}
}

func holds(of []int, x int) bool {
	for _, y := range of {
		if x == y {
			return true
		}
	}
	return false
}

// tall is the height class of which the most pots stay out, when that is half
// of all that do.
func (c *counter) tall(out int) Tall {
	var most Tall
	for _, from := range c.takes[1:] {
		t := Tall{From: from}
		is := func(h float64) float64 {
			if h >= from-plane.Tolerance {
				return 1
			}
			return 0
		}
		for _, k := range c.load.Kinds {
			if is(k.Height) > 0 {
				t.Count += k.Count
			}
		}
		t.Hold = whole(c.most(func(k Kind) float64 { return is(k.Height) }, nil))
		if t.Count-t.Hold > most.Count-most.Hold {
			t.Levels = whole(c.most(nil, is))
			most = t
		}
	}
	if 2*(most.Count-most.Hold) >= out {
		return most
	}
	return Tall{}
}

// whole is the greatest count that a bound allows.
func whole(x float64) int { return int(math.Floor(x + 1e-6)) }
