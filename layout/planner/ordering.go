package planner

import (
	"encoding/binary"
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
)

// The order of a tower's storeys is found exactly, by dynamic programming over
// which heights are used up: how high a shelf lies depends on what is below it,
// not on the order of that. What an order costs, the first by far the most:
//
//	probe      shelves nearer to a probe than is planned
//	sight      watched cone packs that no storey brings before their spyholes
//	stagger    shelves level with a neighbour's, where that is wished against
//	tall ware  low, high, or taking turns with short, as wished
const (
	probeWeight   = 1e6
	sightWeight   = 1e4
	staggerWeight = 1e3
)

// ordering says what the order of a tower's post heights has to suit.
type ordering struct {
	site   *site
	start  float64            // z of the top of the shelf that the first post stands on
	wish   bool               // the wishes for tall ware count
	first  func(float64) bool // whether a height may come first; nil: any
	beside []float64          // z of the undersides of neighbours' shelves that these keep from
}

// staggerRoom is how much higher or lower than a neighbour's a staggered shelf
// lies at least, mm. Common practice names no figure: it is more than a shelf's
// thickness, so that no shelf is level with another.
const staggerRoom = 40

// levelWith is how much a shelf with its underside at z lacks to the room from
// the neighbours' shelves, mm.
func (o *ordering) levelWith(z float64) float64 {
	cost := 0.0
	for _, b := range o.beside {
		cost += max(0, staggerRoom-abs(z-b))
	}
	return cost
}

// orderer works out one order.
type orderer struct {
	c       *context
	o       ordering
	heights []float64 // different ones, as they came
	counts  []int
	stride  []int
	sights  []wantedSight
	memo    []float64 // least cost from a state on; NaN: not known yet
	whole   int
}

// arrange puts the post heights of a tower into the order that keeps its
// shelves off the probes, and as wished or tall ones low where all are alike.
// start is the z of the top of the shelf the first post stands on.
func (c *context) arrange(heights []float64, st *site, start float64, wish bool) []float64 {
	return c.arranged(heights, ordering{site: st, start: start, wish: wish})
}

// mostStates keeps the table of an order small; a list beyond it stays as it is.
const mostStates = 1 << 18

// arranged is heights in the best order; of orders that are as good the one
// nearest to the list's own.
func (c *context) arranged(heights []float64, o ordering) []float64 {
	if len(heights) < 2 {
		return heights
	}
	if o.first != nil {
		return c.arrangedAnew(heights, o)
	}
	key := o.key(heights)
	out, ok := c.ordered[key]
	if !ok {
		if len(c.ordered) >= mostOrdered {
			clear(c.ordered)
		}
		out = c.arrangedAnew(heights, o)
		c.ordered[key] = out
	}
	return out
}

// mostOrdered is how many orders are remembered: those of a survey recur.
const mostOrdered = 20000

// key tells orderings of heights apart.
func (o *ordering) key(heights []float64) string {
	b := append(make([]byte, 0, 256), o.site.mark()...)
	b = strconv.AppendBool(b, o.wish)
	for _, list := range [][]float64{{o.start}, heights, o.beside} {
		b = append(b, '|')
		for _, x := range list {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x))
		}
	}
	return string(b)
}

func (c *context) arrangedAnew(heights []float64, o ordering) []float64 {
	w := &orderer{c: c, o: o, sights: c.wantedSights()}
	for _, h := range heights {
		known := false
		for i := range w.heights {
			if w.heights[i] == h {
				w.counts[i]++
				known = true
			}
		}
		if !known {
			w.heights, w.counts = append(w.heights, h), append(w.counts, 1)
		}
	}
	states := 1
	for _, n := range w.counts {
		w.stride = append(w.stride, states)
		if states *= n + 1; states > mostStates {
			return heights
		}
	}
	w.whole = states - 1
	size := states * (len(w.heights) + 1) << len(w.sights)
	if size > mostStates {
		return heights
	}
	w.memo = make([]float64, size)
	for i := range w.memo {
		w.memo[i] = math.NaN()
	}
	if out := w.walked(len(heights)); out != nil {
		return out
	}
	return heights
}

// none is the last height of a tower on which nothing stands yet.
func (w *orderer) none() int { return len(w.heights) }

// walked follows the least cost from the bottom up; nil where no order may be.
func (w *orderer) walked(n int) []float64 {
	const crumb = 1e-7
	state, last, seen := 0, w.none(), 0
	if w.least(state, last, seen) >= math.MaxFloat64 {
		return nil
	}
	out := make([]float64, 0, n)
	for len(out) < n {
		best, at, sees := math.MaxFloat64, -1, 0
		w.moves(state, last, seen, func(i, now int, cost float64) {
			if cost < best-crumb {
				best, at, sees = cost, i, now
			}
		})
		out = append(out, w.heights[at])
		state, last, seen = state+w.stride[at], at, sees
	}
	return out
}

// least is the least cost of all that comes over a state.
func (w *orderer) least(state, last, seen int) float64 {
	key := (state*(len(w.heights)+1)+last)<<len(w.sights) | seen
	if v := w.memo[key]; !math.IsNaN(v) {
		return v
	}
	best := math.MaxFloat64
	if state == w.whole {
		best = w.under(w.z(state), w.lidTakes(w.z(state)), (1<<len(w.sights)-1)&^seen)
		best += w.turns(last, w.lidTakes(w.z(state)))
	} else {
		w.moves(state, last, seen, func(_, _ int, cost float64) { best = min(best, cost) })
	}
	w.memo[key] = best
	return best
}

// moves visits what may come next over a state: which height, which spyholes
// are then seen to, and the cost from here on.
func (w *orderer) moves(state, last, seen int, visit func(i, seen int, cost float64)) {
	z := w.z(state)
	used := 0
	for i := range w.heights {
		used += w.used(state, i)
	}
	for i, h := range w.heights {
		if w.used(state, i) == w.counts[i] || state == 0 && w.o.first != nil && !w.o.first(h) {
			continue
		}
		takes := h - w.c.room
		bottom := z + h
		own := float64(probeWeight*w.c.probeCost(w.o.site, bottom, bottom+w.o.site.kind.Thick)) +
			float64(staggerWeight*w.o.levelWith(bottom)) + w.likes(used, last, i)
		missing := (1<<len(w.sights) - 1) &^ seen
		for now := missing; ; now = (now - 1) & missing { // every choice of holes that this storey sees to
			if rest := w.least(state+w.stride[i], i, seen|now); rest < math.MaxFloat64 {
				visit(i, seen|now, own+w.under(z, takes, now)+rest)
			}
			if now == 0 {
				break
			}
		}
	}
}

// under is what it costs that the storey at z sees to some spyholes.
func (w *orderer) under(z, takes float64, holes int) float64 {
	cost := 0.0
	for i := range w.sights {
		if holes>>i&1 == 1 {
			cost += float64(sightWeight * max(0, w.sights[i].off(w.c, z, takes)-lean))
		}
	}
	return cost
}

// likes is what the person thinks of a height as the n-th from 0, over last.
func (w *orderer) likes(n, last, i int) float64 {
	at := float64(n)
	tall := layout.TallAnywhere
	if w.o.wish {
		tall = w.c.load.Wishes.Tall
	}
	switch tall {
	case layout.TallHigh:
		sum := 0
		for _, c := range w.counts {
			sum += c
		}
		at = float64(sum - n)
	case layout.TallAlternate:
		return w.turns(last, w.heights[i]-w.c.room) + float64(1e-3*float64(w.heights[i]*at))
	}
	return float64(w.heights[i] * at)
}

// turns is less than nothing where a storey differs from the one below, when
// tall and short are to take turns.
func (w *orderer) turns(last int, takes float64) float64 {
	if !w.o.wish || w.c.load.Wishes.Tall != layout.TallAlternate || last == w.none() {
		return 0
	}
	return -abs(w.heights[last] - w.c.room - takes)
}

// lidTakes is the tallest body under the lid, mm.
func (w *orderer) lidTakes(z float64) float64 {
	return w.c.load.Kiln.Height - z - w.c.limits[layout.RoomToLid].Plan
}

func (w *orderer) used(state, i int) int { return state / w.stride[i] % (w.counts[i] + 1) }

// z is the top of the shelf on which the next post stands.
func (w *orderer) z(state int) float64 {
	z := w.o.start
	for i, h := range w.heights {
		z += float64(float64(w.used(state, i)) * (h + w.o.site.kind.Thick))
	}
	return z
}

// inOrder is a design's post heights in their orders.
type inOrder struct {
	base   []float64   // between the levels of the base
	sites  [][]float64 // of each site
	starts []float64   // z of the top of the shelf that the first post of each site stands on
}

// orders are the heights of a design in their orders, from the floor up.
func (c *context) orders(d *design) inOrder {
	var o inOrder
	z := d.floor
	if b := d.division.base; b != nil {
		z += b.kind.Thick
		o.base = c.arrange(d.base, b, z, false)
		for _, h := range o.base {
			z += h + b.kind.Thick
		}
	}
	for _, st := range d.division.sites {
		start := z
		if d.division.base == nil {
			start += st.kind.Thick
		}
		o.starts = append(o.starts, start)
	}
	o.sites = make([][]float64, len(d.division.sites))
	rounds := 1
	if c.load.Wishes.Stagger && len(d.division.sites) > 1 {
		rounds = 3
	}
	for range rounds {
		for i, st := range d.division.sites {
			w := ordering{site: st, start: o.starts[i], wish: true}
			if rounds > 1 {
				w.beside = o.undersides(d, func(j int) bool { return j != i })
			}
			o.sites[i] = c.arranged(d.lists[i].heights, w)
		}
	}
	return o
}

// undersides are the z of the shelves of those sites of a design.
func (o *inOrder) undersides(d *design, of func(site int) bool) []float64 {
	var out []float64
	for i, heights := range o.sites {
		if !of(i) {
			continue
		}
		z := o.starts[i]
		for _, h := range heights {
			out = append(out, z+h)
			z += h + d.division.sites[i].kind.Thick
		}
	}
	return out
}

// unstaggered is how much a design's shelves lack to lie at different heights
// from side to side, mm, in the best order; 0 where that is not wished for.
func (c *context) unstaggered(d *design) float64 {
	if !c.load.Wishes.Stagger || len(d.division.sites) < 2 {
		return 0
	}
	o := c.orders(d)
	cost := 0.0
	for i := range d.division.sites {
		w := ordering{beside: o.undersides(d, func(j int) bool { return j < i })}
		for _, bottom := range o.undersides(d, func(j int) bool { return j == i }) {
			cost += w.levelWith(bottom)
		}
	}
	if cost < plane.Tolerance {
		return 0
	}
	return cost
}
