package packing

import (
	"math"
	"math/rand/v2"
	"sort"

	"threepost/geometry/plane"
)

// hopper looks for a layout of low energy by hops between minima: it changes
// one thing about the layout, lowers the energy again and keeps what is not
// much worse.
//
// Sources of the moves: swaps of two of like size and shifts, Ye, Huang, Lu,
// arXiv:1306.0694; displacement, Grosso, Jamali, Locatelli, Schoen, J. Global
// Optimization 47 (2010); threshold acceptance, Lai, Hao, Yue, Lu, Fu, EJOR
// 299 (2022).
type hopper struct {
	c     *crowd
	d     descent
	rnd   *rand.Rand
	e     float64   // of c.x
	best  []float64 // the variables of the lowest energy met
	bestE float64
	stale int // hops since the best was met

	trial  []float64
	lost   []float64
	groups [][]int32 // unfixed things, by kind, smallest first
	group  []int32   // of a thing
	swings []int32   // things that turn
	habit  habit
}

// habit is how a hopper hops. The figures were found by trial against the
// records of testdata/packing.
type habit struct {
	screen   float64 // a hop is given up when its energy is still so many times that of where it began
	swap     float64 // share of hops that change two sizes about, when there are several
	relocate float64 // up to here: into a vacancy; the rest: shakes
	alone    float64 // share of hops into a vacancy where there is one size; the rest: shakes
	// While a crowd is stretched it is asked so much more than it bears, as a
	// share: at least ahead, and up to farther more, small shares oftener.
	ahead, farther float64
}

// everyday is the habit of filling shelves.
func everyday() habit {
	return habit{screen: 1.6, swap: 0.55, relocate: 0.8, alone: 0.5, ahead: 0.008, farther: 0.016}
}

// oneSize is the habit where all are alike: what is left to win is small.
func oneSize() habit { return habit{screen: 1.6, alone: 0.75, ahead: 0.002, farther: 0.024} }

// manySizes is the habit where nearly all sizes differ: swaps tell most.
func manySizes() habit {
	return habit{screen: 1.3, swap: 0.75, relocate: 0.92, alone: 0.5, ahead: 0.01, farther: 0.016}
}

func newHopper(c *crowd, rnd *rand.Rand) *hopper {
	h := &hopper{c: c, rnd: rnd, habit: everyday()}
	h.sort()
	return h
}

// sort groups the things by kind, in order of size.
func (h *hopper) sort() {
	c := h.c
	byKind := map[int32][]int32{}
	var kinds []int32
	h.swings = h.swings[:0]
	for i := c.fixed; i < c.n; i++ {
		k := c.kind[i]
		if byKind[k] == nil {
			kinds = append(kinds, k)
		}
		byKind[k] = append(byKind[k], int32(i))
		if c.swing[i] >= 0 {
			h.swings = append(h.swings, int32(i))
		}
	}
	sort.Slice(kinds, func(i, j int) bool {
		a, b := c.g.kinds[kinds[i]].size, c.g.kinds[kinds[j]].size
		if a != b {
			return a < b
		}
		return kinds[i] < kinds[j]
	})
	h.groups = h.groups[:0]
	h.group = make([]int32, c.n)
	for _, k := range kinds {
		for _, i := range byKind[k] {
			h.group[i] = int32(len(h.groups))
		}
		h.groups = append(h.groups, byKind[k])
	}
}

// enough is an energy that is as good as nothing, mm2: rounding has room for
// it, or the slack is found exactly afterwards.
const enough = 1e-13

// start lowers the crowd where it stands and forgets what was met before.
func (h *hopper) start() {
	h.e = h.d.lower(h.c, h.c.x, stop{rounds: 200, slow: 1e-3, enough: enough})
	h.best = append(h.best[:0], h.c.x...)
	h.bestE = h.e
	h.stale = 0
}

// hop makes one hop and says whether a lower energy than ever was met.
func (h *hopper) hop() bool {
	c := h.c
	if c.n == c.fixed {
		return false
	}
	h.trial = append(h.trial[:0], c.x...)
	h.move()
	screen := math.Max(h.habit.screen*h.e, 1e-6)
	e := h.d.lower(c, c.x, stop{rounds: 120, screen: screen, slow: 2e-3, enough: enough})
	u := unit(h.rnd)
	if e <= h.e*(1+float64(0.15*u*u*u)) {
		h.e = e
	} else {
		c.x, h.trial = h.trial, c.x
	}
	h.stale++
	if e < h.bestE*(1-1e-6) {
		h.bestE = e
		h.best = append(h.best[:0], c.x...)
		h.stale = 0
		return true
	}
	if h.stale%(6*(c.n-c.fixed)+20) == 0 {
		h.again()
	}
	return false
}

// again starts anew from the best, some things of it thrown about.
func (h *hopper) again() {
	c := h.c
	copy(c.x, h.best)
	n := c.n - c.fixed
	for k := 1 + h.rnd.IntN(1+n/8); k > 0; k-- {
		i := c.fixed + h.rnd.IntN(n)
		h.stand(i, c.anywhere(int(c.kind[i]), h.rnd))
	}
	h.e = h.d.lower(c, c.x, stop{rounds: 120, slow: 1e-3, enough: enough})
	if h.e < h.bestE {
		h.bestE = h.e
		h.best = append(h.best[:0], c.x...)
		h.stale = 0
	}
}

// stand puts thing i at a spot.
func (h *hopper) stand(i int, s spot) {
	h.c.x[2*i], h.c.x[2*i+1] = s.x, s.y
	if w := h.c.swing[i]; w >= 0 {
		h.c.x[w] = s.turn / h.c.g.kinds[h.c.kind[i]].degrees()
	}
}

// move changes something about the layout.
func (h *hopper) move() {
	u := unit(h.rnd)
	if len(h.swings) > 0 {
		if u < 0.25 {
			h.flip()
			return
		}
		u = (u - 0.25) / 0.75
	}
	if len(h.groups) > 1 {
		switch {
		case u < h.habit.swap:
			h.swap()
		case u < h.habit.relocate:
			h.relocate()
		default:
			h.shake()
		}
		return
	}
	if u < h.habit.alone {
		h.relocate()
	} else {
		h.shake()
	}
}

// unit is a random number from 0 to 1; the conversions keep it from being fused
// with what is done to it.
func unit(rnd *rand.Rand) float64 { return float64(rnd.Float64()) }

// spanned is a random number from -1 to 1.
func spanned(rnd *rand.Rand) float64 { return float64(2*unit(rnd)) - 1 }

// swap changes the places of two things next to each other in size.
func (h *hopper) swap() {
	c := h.c
	i := c.fixed + h.rnd.IntN(c.n-c.fixed)
	k := int(h.group[i])
	d := 1
	if h.rnd.IntN(5) == 0 {
		d = 2
	}
	if h.rnd.IntN(2) == 0 {
		d = -d
	}
	if k+d < 0 || k+d >= len(h.groups) {
		d = -d
	}
	if k+d < 0 || k+d >= len(h.groups) {
		if d /= 2; k+d < 0 || k+d >= len(h.groups) {
			d = -d
		}
	}
	g := h.groups[k+d]
	j := int(g[h.rnd.IntN(len(g))])
	x := c.x
	x[2*i], x[2*j] = x[2*j], x[2*i]
	x[2*i+1], x[2*j+1] = x[2*j+1], x[2*i+1]
}

// relocate moves the thing that lacks most, or any, into a vacancy.
func (h *hopper) relocate() {
	c := h.c
	i := c.fixed + h.rnd.IntN(c.n-c.fixed)
	if h.rnd.IntN(2) == 0 {
		h.lost = c.missing(h.lost)
		// one of three of the worst, so that it is not the same ever again
		for try := h.rnd.IntN(3); try >= 0; try-- {
			worst := c.fixed
			for k := c.fixed; k < c.n; k++ {
				if h.lost[k] > h.lost[worst] {
					worst = k
				}
			}
			i = worst
			h.lost[worst] = -1
		}
	}
	h.stand(i, c.vacancy(int(c.class[i]), i, 24, h.rnd))
}

// shake displaces all things round one, or all.
func (h *hopper) shake() {
	c := h.c
	m := c.fixed + h.rnd.IntN(c.n-c.fixed)
	all := h.rnd.IntN(3) == 0
	k := 0.3 + float64(0.6*unit(h.rnd))
	mx, my := c.x[2*m], c.x[2*m+1]
	sm := c.g.kinds[c.kind[m]].size
	for i := c.fixed; i < c.n; i++ {
		s := c.g.kinds[c.kind[i]].size
		if !all && plane.Hypot(c.x[2*i]-mx, c.x[2*i+1]-my) > float64(1.6*(s+sm)) {
			continue
		}
		c.x[2*i] += float64(k * s * (spanned(h.rnd)))
		c.x[2*i+1] += float64(k * s * (spanned(h.rnd)))
	}
}

// flip turns one thing about: end for end, a quarter, or to any of its turns.
func (h *hopper) flip() {
	c := h.c
	i := int(h.swings[h.rnd.IntN(len(h.swings))])
	f := &c.g.kinds[c.kind[i]]
	t := c.turnAt(c.x, i)
	switch h.rnd.IntN(4) {
	case 0:
		t += 180
	case 1:
		t += 90
	default:
		t = f.tried[h.rnd.IntN(len(f.tried))]
	}
	c.x[c.swing[i]] = t / f.degrees()
	if h.rnd.IntN(3) == 0 { // and its neighbour with it
		j := int(h.swings[h.rnd.IntN(len(h.swings))])
		c.x[c.swing[j]] = c.turnAt(c.x, j)/c.g.kinds[c.kind[j]].degrees() + float64(90/c.g.kinds[c.kind[j]].degrees())
	}
}
