package bounds

import (
	"math"
	"sort"

	"threepost/geometry/plane"
)

// counter makes programs of one load. What its shelves hold is found as the
// programs ask for it and kept for the next.
type counter struct {
	load  *Load
	takes []float64
	order []int // the kinds there are pots of, from the smallest
	floor []ground
	cuts  []cut
	cells map[cellKey]float64
	turn  int // counts the choices of discs and prices, to vary them
}

// ground is what one level's worth of pots shares: the shelves of a place, or a
// shelf under several rooms.
type ground struct {
	places []int
	walls  []wall
	class  []int // how many of order[i:] go on it at most, for a single place
	alone  []int // how many of order[i] alone
	posted []int // and with three posts among them; nil where that is not known
}

// layout of the variables of a program: levels of a place that take t, under a
// shelf and under the lid, and pots of a kind on levels of a place; -1 where
// there are none. A shelf under several rooms is a variable of its own.
type variables struct {
	under, lid [][]int // [place][takes]
	pots       [][]int // [place][kind]
	shelf      []int   // [ground]: shelves under several rooms
	program    *program
}

func newCounter(l *Load) *counter {
	c := &counter{load: l, takes: l.heights(), cells: map[cellKey]float64{}}
	for i := range l.Kinds {
		if l.Kinds[i].Count > 0 {
			c.order = append(c.order, i)
		}
	}
	sort.SliceStable(c.order, func(a, b int) bool { return l.Kinds[c.order[a]].Size < l.Kinds[c.order[b]].Size })
	c.grounds()
	return c
}

// grounds lists what levels share: each place, and each shelf under several.
func (c *counter) grounds() {
	for i := range c.load.Places {
		p := &c.load.Places[i]
		g := ground{places: []int{i}}
		for _, o := range p.Outlines {
			g.walls = append(g.walls, wallOf(o, c.wider(p)))
		}
		c.classes(p, &g)
		c.beside(&g)
		c.floor = append(c.floor, g)
	}
	for i := range c.load.Places {
		p := &c.load.Places[i]
		if len(p.Beside) == 0 || p.Beside[0] < i {
			continue
		}
		g := ground{places: append([]int{i}, p.Beside...)}
		for _, o := range p.Outlines {
			g.walls = append(g.walls, wallOf(o, nil))
		}
		whole := *p
		whole.Sides = nil
		c.classes(&whole, &g)
		c.floor = append(c.floor, g)
	}
}

// wider are the sides of a place moved out by the most that a pot needs round
// its middle: those that stand on it keep so much from them.
func (c *counter) wider(p *Place) []Side {
	out := append([]Side(nil), p.Sides...)
	for i := range out {
		for _, k := range c.order {
			out[i].At = math.Max(out[i].At, p.Sides[i].At+c.load.Kinds[k].Room)
		}
	}
	return out
}

// classes tables Oler's counts for the kinds from each size up, and for each.
func (c *counter) classes(p *Place, g *ground) {
	between := c.load.apart(p)
	for i, k := range c.order {
		g.alone = append(g.alone, p.points(c.load.Kinds[k].Room, between(k, k)))
		apart, room := math.Inf(1), math.Inf(1)
		for _, a := range c.order[i:] {
			room = math.Min(room, c.load.Kinds[a].Room)
			for _, b := range c.order[i:] {
				apart = math.Min(apart, between(a, b))
			}
		}
		g.class = append(g.class, p.points(room, apart))
	}
}

// start is the program of a gain summed over the pots that are set and the
// levels they stand on, by what those take (nil is no gain), bound by the
// furniture, the heights and how many pots there are, but by no shelf yet.
func (c *counter) start(gain func(Kind) float64, level func(takes float64) float64) *variables {
	l := c.load
	v := &variables{program: &program{}}
	lp := v.program
	add := func(g, cap float64) int {
		lp.gain = append(lp.gain, g)
		lp.caps = append(lp.caps, cap)
		return len(lp.gain) - 1
	}
	for i := range l.Places {
		p := &l.Places[i]
		stock := float64(l.Stocks[p.Stock]) / p.Shelves
		under, lid, pots := filled(len(c.takes), -1), filled(len(c.takes), -1), filled(len(l.Kinds), -1)
		highest := math.Inf(-1)
		for t, takes := range c.takes {
			each := 0.0
			if level != nil {
				each = level(takes)
			}
			u, top := l.goesIn(p, takes)
			if u {
				under[t] = add(each, stock)
			}
			if top {
				lid[t] = add(each, stock)
			}
			if u || top {
				highest = takes
			}
		}
		for _, k := range c.order {
			if l.Kinds[k].Height <= highest+plane.Tolerance {
				g := 0.0
				if gain != nil {
					g = gain(l.Kinds[k])
				}
				pots[k] = add(g, float64(l.Kinds[k].Count))
			}
		}
		v.under, v.lid, v.pots = append(v.under, under), append(v.lid, lid), append(v.pots, pots)
	}
	for _, g := range c.floor {
		at := -1
		if len(g.places) > 1 {
			at = add(0, float64(l.Stocks[l.Places[g.places[0]].Stock]))
		}
		v.shelf = append(v.shelf, at)
	}
	for _, k := range c.order {
		row := make([]float64, len(lp.gain))
		for p := range l.Places {
			if i := v.pots[p][k]; i >= 0 {
				row[i] = 1
			}
		}
		lp.add(float64(l.Kinds[k].Count), row)
	}
	c.within(v)
	return v
}

func filled(n, with int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = with
	}
	return out
}

// within adds what levels are bound by: the height of every column, one level
// under the lid in each, the owned shelves, the owned posts; and that every
// room over a shelf has one.
func (c *counter) within(v *variables) {
	l, lp := c.load, v.program
	for col, height := range l.Columns {
		tall, last := make([]float64, len(lp.gain)), make([]float64, len(lp.gain))
		thin := l.thinnest(col)
		for p, place := range l.Places {
			if !holds(place.Columns, col) {
				continue
			}
			for t, takes := range c.takes {
				// The column's last shelf is taken off the column itself, since
				// there always is one, be it empty.
				if i := v.under[p][t]; i >= 0 {
					tall[i] = place.Thick + l.Storey(takes)
				}
				if i := v.lid[p][t]; i >= 0 {
					tall[i] = place.Thick - thin + takes + l.Lid
					last[i] = 1
				}
			}
		}
		lp.add(math.Max(0, height-thin), tall)
		lp.add(1, last)
		if l.DeepFrom > 0 {
			lp.add(l.DeepFrom, c.shallow(v, col, thin))
		}
	}
	posts := make([]float64, len(lp.gain))
	stocks := make([][]float64, len(l.Stocks))
	for s := range stocks {
		stocks[s] = make([]float64, len(lp.gain))
	}
	for p, place := range l.Places {
		for t, takes := range c.takes {
			if i := v.under[p][t]; i >= 0 {
				posts[i] = 3 * l.Storey(takes)
			}
		}
		if len(place.Beside) == 0 {
			v.levels(p, 0, func(i int) { stocks[place.Stock][i] = place.Shelves })
		}
	}
	for i, g := range c.floor {
		if at := v.shelf[i]; at >= 0 {
			stocks[l.Places[g.places[0]].Stock][at] = 1
			for _, p := range g.places {
				over := make([]float64, len(lp.gain))
				v.levels(p, 0, func(i int) { over[i] = 1 })
				over[at] = -1
				lp.add(0, over)
			}
		}
	}
	lp.add(l.Posts, posts)
	for s, owned := range l.Stocks {
		lp.add(float64(owned), stocks[s])
	}
}

// shallow is the height of all levels of a column that are not deep, from where
// the pots of the lowest stand to the rim: at most Load.DeepFrom.
func (c *counter) shallow(v *variables, col int, thin float64) []float64 {
	row := make([]float64, len(v.program.gain))
	for p, place := range c.load.Places {
		if place.Deep || !holds(place.Columns, col) {
			continue
		}
		for t, takes := range c.takes {
			if i := v.under[p][t]; i >= 0 {
				row[i] = thin + c.load.Storey(takes)
			}
			if i := v.lid[p][t]; i >= 0 {
				row[i] = takes + c.load.Lid
			}
		}
	}
	return row
}

// levels visits the levels of a place that take c.takes[from] or more.
func (v *variables) levels(place, from int, visit func(int)) {
	for t := from; t < len(v.under[place]); t++ {
		for _, i := range []int{v.under[place][t], v.lid[place][t]} {
			if i >= 0 {
				visit(i)
			}
		}
	}
}
