package bounds

import (
	"math"
	"sort"

	"threepost/geometry/plane"
)

// Most is the bound for a load over any mixture of its places.
func Most(l *Load) Bound {
	all := 0
	value := 0.0
	for _, k := range l.Kinds {
		all += k.Count
		value += float64(k.Value * float64(k.Count))
	}
	c := newCounter(l)
	b := Bound{Count: min(all, whole(c.most(one, nil, mostNodes))), Value: math.Min(value, c.most(worth, nil, mostNodes))}
	switch {
	case b.Count < all:
		if b.Tall = c.tall(b.Count, all-b.Count); b.Tall.Count == 0 {
			b.Short = c.scarce(one)
		}
	case b.Value < value*(1-1e-9):
		b.Short = c.scarce(worth)
	}
	return b
}

func one(Kind) float64     { return 1 }
func worth(k Kind) float64 { return k.Value }

// scarce is what the bound of a gain grows by most when there is twice as much
// of it.
func (c *counter) scarce(gain func(Kind) float64) Scarce {
	best, most := Nothing, 0.0
	for _, what := range []Scarce{Height, Shelves, Posts} {
		twice := *c.load
		twice.Columns = append([]float64(nil), c.load.Columns...)
		twice.Stocks = append([]int(nil), c.load.Stocks...)
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
		other := *c
		other.load = &twice
		if n := other.most(gain, nil, 0); n > most+1e-6 {
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

// thinnest is the least shelf of a column.
func (l *Load) thinnest(column int) float64 {
	least := math.Inf(1)
	for i := range l.Places {
		if p := &l.Places[i]; holds(p.Columns, column) {
			least = math.Min(least, p.Thick)
		}
	}
	return least
}

// goesIn says whether one level of a place that takes so much goes into its
// columns at all, under a shelf and under the lid.
func (l *Load) goesIn(p *Place, takes float64) (under, lid bool) {
	under, lid = len(p.Columns) > 0, len(p.Columns) > 0
	for _, col := range p.Columns {
		room := l.Columns[col]
		under = under && p.Thick+l.Storey(takes) <= room-l.thinnest(col)+plane.Tolerance
		lid = lid && p.Thick+takes+l.Lid <= room+plane.Tolerance
	}
	// Under the lid the pots of a level may stand higher than they do.
	if p.Deep && takes+l.Lid <= l.DeepFrom {
		lid = false
	}
	if !p.Deep && l.DeepFrom > 0 && takes+l.Lid > l.DeepFrom {
		lid = false
	}
	return under, lid
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
// of all that do; count is the bound for pots of any height.
func (c *counter) tall(count, out int) Tall {
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
		t.Hold = min(count, whole(c.most(func(k Kind) float64 { return is(k.Height) }, nil, 0)))
		if t.Count-t.Hold > most.Count-most.Hold {
			t.Levels = whole(c.most(nil, is, 0))
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
