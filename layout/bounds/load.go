package bounds

import (
	"fmt"
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
	Thick    float64         // of the shelf, mm
	Columns  []int           // into Load.Columns
	Stock    int             // into Load.Stocks
	Shelves  int             // of that stock that one level takes
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
	Count  int     // pots
	Value  float64 // of the pots
	Reason string  // what binds, after "because"; empty when all may go in
}

// Most is the bound for a load over any mixture of its places.
func Most(l *Load) Bound {
	all := 0
	whole := 0.0
	for _, k := range l.Kinds {
		all += k.Count
		whole += float64(k.Value * float64(k.Count))
	}
	c := &counter{load: l, takes: l.heights()}
	c.classes()
	c.shares()
	count := int(math.Floor(c.most(func(Kind) float64 { return 1 }) + 1e-6))
	b := Bound{Count: min(all, count), Value: math.Min(whole, c.most(func(k Kind) float64 { return k.Value }))}
	if b.Count < all {
		b.Reason = c.reason(all - b.Count)
	}
	return b
}

// points is Points over the shelves of one level; -1 is no bound.
func (p *Place) points(room, apart float64) int {
	n := 0
	for _, o := range p.Outlines {
		each := Points(o, room, apart)
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

// most is the bound on a gain summed over the pots that are set.
func (c *counter) most(gain func(Kind) float64) float64 {
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
	var spots []spot
	for p := range l.Places {
		stock := float64(l.Stocks[l.Places[p].Stock]) / float64(l.Places[p].Shelves)
		for t := range c.takes {
			spots = append(spots, spot{p, t})
			add([3]int{p, t, shelf}, 0, stock)
			add([3]int{p, t, lid}, 0, stock)
			for _, k := range c.order {
				if l.Kinds[k].Height <= c.takes[t]+plane.Tolerance {
					add([3]int{p, t, k}, gain(l.Kinds[k]), float64(l.Kinds[k].Count))
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
	c.within(lp, func(p, t int, under bool) int {
		if under {
			return index[[3]int{p, t, shelf}]
		}
		return index[[3]int{p, t, lid}]
	})
	for _, s := range spots {
		levels := [2]int{index[[3]int{s.place, s.takes, shelf}], index[[3]int{s.place, s.takes, lid}]}
		for i := range c.order {
			row := map[int]float64{}
			for _, k := range c.order[i:] {
				if j, ok := index[[3]int{s.place, s.takes, k}]; ok {
					row[j] = 1
				}
			}
			c.onLevels(lp, row, levels, c.class[s.place][i])
		}
		area := map[int]float64{levels[0]: -c.area[s.place], levels[1]: -c.area[s.place]}
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
func (c *counter) onLevels(lp *program, row map[int]float64, levels [2]int, each int) {
	if len(row) == 0 || each < 0 {
		return
	}
	row[levels[0]], row[levels[1]] = -float64(each), -float64(each)
	lp.row(0, row)
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
		for p, place := range l.Places {
			if !holds(place.Columns, col) {
				continue
			}
			for t, takes := range c.takes {
				tall[level(p, t, true)] = place.Thick + l.Storey(takes)
				tall[level(p, t, false)] = place.Thick + takes + l.Lid
				last[level(p, t, false)] = 1
			}
		}
		lp.row(height, tall)
		lp.row(1, last)
	}
	for p, place := range l.Places {
		for t, takes := range c.takes {
			posts[level(p, t, true)] = 3 * l.Storey(takes)
			stocks[place.Stock][level(p, t, true)] = float64(place.Shelves)
			stocks[place.Stock][level(p, t, false)] = float64(place.Shelves)
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

// reason tells what binds: the height from which on the most pots stay out, or
// the kiln as a whole.
func (c *counter) reason(out int) string {
	best, says := 0, ""
	for _, from := range c.takes[1:] {
		tall := 0
		for _, k := range c.load.Kinds {
			if k.Height >= from-plane.Tolerance {
				tall += k.Count
			}
		}
		held := int(math.Floor(c.most(func(k Kind) float64 {
			if k.Height >= from-plane.Tolerance {
				return 1
			}
			return 0
		}) + 1e-6))
		if lack := tall - held; lack > best {
			best = lack
			says = fmt.Sprintf("%d pots need a level that takes %.0f or more, and all such levels hold %d at most", tall, from, held)
		}
	}
	if best*2 >= out {
		return says
	}
	return "the shelves and the height of the kiln hold no more at these distances"
}
