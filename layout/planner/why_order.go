package planner

import (
	"threepost/geometry/plane"
	"threepost/layout"
)

// Order is what a probe or a spyhole decided about the order of a tower's
// storeys: in the order that is wished or usual, tall ones low, a shelf would
// come too near a probe, or no level would bring the watched cones before their
// spyhole.
type Order struct {
	Tower   string
	Probe   *layout.Probe   // the probe that a shelf would be near; nil: it is for a spyhole
	Spyhole *layout.Spyhole // the spyhole that would show no cones; nil: it is for a probe
	Level   int             // number of the level whose shelf would be near the probe
	Gap     float64         // of that shelf, mm; 0 and less: level with it
	moved   map[int]bool    // numbers of the levels whose posts stand elsewhere for it
}

// moves says whether the posts under a level, by its number, stand where they
// do for the probe or the spyhole.
func (o *Order) moves(number int) bool { return o.moved[number] }

// orderOf is what a probe or a spyhole decided in a tower; nil when the order is
// the usual one, or another one that nothing of the two asks for.
func (w *why) orderOf(tower int) *Order {
	if o, known := w.orders[tower]; known {
		return o
	}
	o := w.order(tower)
	w.orders[tower] = o
	return o
}

func (w *why) order(tower int) *Order {
	t := &w.b.Towers[tower]
	if len(t.Levels) < 2 || w.b.Load.Wishes.Stagger { // what is staggered has yet another reason
		return nil
	}
	c, err := newContext(w.b.Load)
	if err != nil {
		return nil
	}
	first := &w.b.Levels[t.Levels[0]]
	from := 1 // the posts under the lowest shelf on the floor stay lowest
	if len(t.On) > 0 {
		from = 0
	}
	st := siteOf(w.b, first, len(w.b.Towers) > 1)
	start := first.Top
	if from == 0 {
		start = t.Base
	}
	var now []float64
	for _, v := range t.Levels[from:] {
		now = append(now, w.height(v))
	}
	// As the planner would stack it if there were no probe and no spyhole.
	free := *c
	free.probes, free.spies, free.ordered = nil, nil, map[string][]float64{}
	usual := free.arrange(now, st, start, t.Leaf)
	moved := map[int]bool{}
	for i := range now {
		if abs(now[i]-usual[i]) > 0.5 {
			moved[from+i+1] = true
		}
	}
	if len(moved) == 0 {
		return nil
	}
	o := &Order{Tower: t.Name, moved: moved}
	if c.nearProbe(st, now, start) == nil {
		if near := c.nearProbe(st, usual, start); near != nil {
			if near.probe < len(w.b.Probes) {
				o.Probe, o.Level, o.Gap = w.b.Probes[near.probe].Kiln, from+near.place+1, near.gap
				return o
			}
		}
	}
	if i := c.hidden(usual, st, start); i >= 0 && c.hidden(now, st, start) < 0 && i < len(w.b.Spies) {
		o.Spyhole = w.b.Spies[i].Kiln
		return o
	}
	return nil
}

// near is a shelf that lacks the plan distance to a probe.
type near struct {
	probe int // of the kiln's
	place int // of the shelf in the tower's heights
	gap   float64
}

// nearProbe is the first shelf of a tower, stacked at some heights from start
// on, that comes nearer to a probe than plans keep; nil when none does.
func (c *context) nearProbe(st *site, heights []float64, start float64) *near {
	z := start
	for i, h := range heights {
		z += h
		for j := range c.probes {
			one := *c
			one.probes = c.probes[j : j+1]
			if cost := one.probeCost(st, z, z+st.kind.Thick); cost > plane.Tolerance {
				return &near{j, i, c.limits[layout.ToProbe].Plan - cost}
			}
		}
		z += st.kind.Thick
	}
	return nil
}

// hidden is the first spyhole before which no level of a tower brings the cones
// that are watched through it, when it is stacked at some heights from start on;
// -1 when there is none.
func (c *context) hidden(heights []float64, st *site, start float64) int {
	tops := []float64{start}
	for _, h := range heights {
		tops = append(tops, tops[len(tops)-1]+h+st.kind.Thick)
	}
	for i := range c.spies {
		upTo := *c
		upTo.spies = c.spies[:i+1]
		if upTo.sightCost(heights, tops) > 0 {
			return i
		}
	}
	return -1
}
