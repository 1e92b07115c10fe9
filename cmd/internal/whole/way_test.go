package whole

import (
	"maps"
	"math"
	"slices"
	"testing"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/order"
	"threepost/layout/stacks"
)

// kiln is what stands at one moment of loading.
type kiln struct {
	b       *stacks.Built
	hand    float64 // room for fingers, mm
	pots    []int
	posts   []int
	shelves []int
	least   float64 // the least gap met on any way, mm
	moments int     // gaps looked at
}

// handRoom is what design keeps for fingers: 3 mm, or the gap at which pots are
// planned where that is less, as it is for bisque that may touch.
func handRoom(l *layout.Load) float64 {
	return math.Min(l.Limits(layout.HandRoom).Plan, l.Limits(layout.PotToPot).Plan)
}

// beside tells whether the boxes of two things come within room in plan, the
// first swept from y lo on.
func beside(a, c *solid.Placed, lo, room float64) bool {
	return c.Min[0] <= a.Max[0]+room && c.Max[0] >= a.Min[0]-room &&
		c.Min[1] <= a.Max[1]+room && c.Max[1] >= math.Min(a.Min[1], lo)-room
}

// near gathers what stands beside a pot, or before it on its way from y lo.
func (k *kiln) near(p *solid.Placed, lo float64) *kiln {
	n := &kiln{b: k.b, hand: k.hand}
	for _, i := range k.pots {
		if beside(p, &k.b.Pots[i].Solid, lo, k.hand) {
			n.pots = append(n.pots, i)
		}
	}
	for _, i := range k.posts {
		if beside(p, &k.b.Posts[i].Solid, lo, k.hand) {
			n.posts = append(n.posts, i)
		}
	}
	for _, i := range k.shelves {
		if beside(p, &k.b.Shelves[i].Solid, lo, k.hand) {
			n.shelves = append(n.shelves, i)
		}
	}
	return n
}

// gap is the least gap of a pot to all that stands, but for the shelf that it
// is put on, and what that is.
func (k *kiln) gap(p *solid.Placed, own int) (float64, string) {
	least, what := math.Inf(1), "nothing"
	take := func(g float64, name string) {
		k.moments++
		if g < least {
			least, what = g, name
		}
	}
	far := func(c *solid.Placed) bool { // no nearer than the hand by its height alone
		return c.Min[2] > p.Max[2]+k.hand || c.Max[2] < p.Min[2]-k.hand
	}
	for _, i := range k.pots {
		if c := &k.b.Pots[i].Solid; !far(c) {
			g, _ := solid.Gap(c, p)
			take(g, k.b.Pots[i].Pot.String())
		}
	}
	for _, i := range k.posts {
		if c := &k.b.Posts[i].Solid; !far(c) {
			g, _ := solid.Gap(c, p)
			take(g, "post "+k.b.Posts[i].Letter)
		}
	}
	for _, i := range k.shelves {
		if s := &k.b.Shelves[i]; i != own && !far(&s.Solid) {
			take(solid.GapToSlab(p, s.Outline, s.Bottom, s.Top), "the shelf of "+k.b.Levels[s.Level].Name)
		}
	}
	for i := range k.b.Probes {
		if c := &k.b.Probes[i].Solid; !far(c) {
			g, _ := solid.Gap(c, p)
			take(g, "the probe")
		}
	}
	return least, what
}

// lifts are the heights over its place, mm, falling from top, at which a pot
// is looked at: every 5 mm, just before it stands, and where a step of its
// outline passes a step of another's.
func (k *kiln) lifts(pot *stacks.Pot, top float64) []float64 {
	at := map[float64]bool{top: true, 0: true, 0.1: true, 0.5: true, 1: true, 2: true}
	for z := 5.0; z < top; z += 5 {
		at[z] = true
	}
	knots := func(p *solid.Placed) (out []float64) {
		for _, part := range p.Body.Parts {
			for _, n := range part.Profile {
				out = append(out, p.Base()+n.Z)
			}
		}
		return out
	}
	mine := knots(&pot.Solid)
	for _, i := range k.pots {
		for _, z := range knots(&k.b.Pots[i].Solid) {
			for _, m := range mine {
				if s := math.Round((z-m)*1000) / 1000; s > 0 && s < top {
					at[s] = true
				}
			}
		}
	}
	return falling(at)
}

// falling are the heights from the top.
func falling(at map[float64]bool) []float64 {
	out := slices.Sorted(maps.Keys(at))
	slices.Reverse(out)
	return out
}

// letDown lets a pot down from a height over its place and tells the least gap
// on the way, with what, and how high.
func (k *kiln) letDown(pot *stacks.Pot, from float64) (least float64, what string, at float64) {
	return k.descend(pot, plane.Vec{}, from, 0)
}

// descend lets a pot down beside its place, from one height over it to another.
func (k *kiln) descend(pot *stacks.Pot, aside plane.Vec, from, to float64) (least float64, what string, at float64) {
	p := pot.Solid.Clone()
	pose := p.Pose
	pose.At = plane.Vec{pose.At[0] + aside[0], pose.At[1] + aside[1]}
	p.Move(pose)
	n := k.near(&p, math.Inf(1))
	least, what = math.Inf(1), "nothing"
	for _, s := range append(n.lifts(pot, from), to) {
		if s < to {
			continue
		}
		p.Move(solid.Pose{At: pose.At, Turn: pose.Turn, Z: pose.Z + s})
		if g, w := n.gap(&p, pot.Shelf); g < least {
			least, what, at = g, w, s
		}
	}
	k.moments += n.moments
	return least, what, at
}

// carryIn brings a pot straight in from before the kiln, lifted, and tells
// whether it keeps the hand's room all the way. Where the gap is wide it goes
// on by what is wider than the hand's room, so that nothing is jumped over.
func (k *kiln) carryIn(pot *stacks.Pot, lift, front float64) bool {
	p := pot.Solid.Clone()
	pose := p.Pose
	n := k.near(&p, front)
	out := pose.At[1] - front + (p.Max[1] - pose.At[1]) + 1
	for y := out; ; {
		p.Move(solid.Pose{At: plane.Vec{pose.At[0], pose.At[1] - y}, Turn: pose.Turn, Z: pose.Z + lift})
		g, _ := n.gap(&p, pot.Shelf)
		k.moments += n.moments
		n.moments = 0
		if g < k.hand-plane.Tolerance {
			return false
		}
		if y == 0 {
			return true
		}
		y = math.Max(0, y-math.Max(0.5, math.Min(20, g-k.hand)))
	}
}

// setFromAbove lets a pot straight down from over the rim.
func (k *kiln) setFromAbove(t *testing.T, pot *stacks.Pot) {
	from := math.Max(0, k.b.Height-pot.Solid.Bottom()) + 5
	g, what, at := k.letDown(pot, from)
	k.least = math.Min(k.least, g)
	if g < k.hand-plane.Tolerance {
		t.Errorf("%s on %s comes within %.3f of %s at %.1f over its place, hand room %.1f",
			pot.Pot, k.b.Levels[pot.Level].Name, g, what, at, k.hand)
	}
}

// setFromFront brings a pot in at the least height over its place at which the
// way in is free, under the ceiling, and lets it down from there. It tells
// that height.
func (k *kiln) setFromFront(t *testing.T, pot *stacks.Pot, front float64) float64 {
	room := k.b.Height - pot.Solid.Top()
	for lift := 2.0; lift <= room; lift = math.Min(lift*1.5, math.Max(room, lift+0.01)) {
		if k.carryIn(pot, lift, front) {
			g, what, at := k.letDown(pot, lift)
			k.least = math.Min(k.least, g)
			if g < k.hand-plane.Tolerance {
				t.Errorf("%s on %s comes within %.3f of %s at %.1f over its place, hand room %.1f",
					pot.Pot, k.b.Levels[pot.Level].Name, g, what, at, k.hand)
			}
			return lift
		}
		if lift == room {
			break
		}
	}
	t.Errorf("%s on %s finds no way in from the front", pot.Pot, k.b.Levels[pot.Level].Name)
	return math.Inf(1)
}

// lay lets a shelf down onto its posts and fails where it meets a pot, a post
// or another shelf.
func (k *kiln) lay(t *testing.T, shelf int) {
	s := &k.b.Shelves[shelf]
	n := k.near(&s.Solid, math.Inf(1))
	for lift := k.b.Height - s.Bottom; lift >= 0; lift -= 5 {
		for _, i := range n.pots {
			g := solid.GapToSlab(&k.b.Pots[i].Solid, s.Outline, s.Bottom+lift, s.Top+lift)
			k.moments++
			if g < -plane.Tolerance {
				t.Errorf("the shelf of %s meets %s at %.1f over its place: %.3f", k.b.Levels[s.Level].Name, k.b.Pots[i].Pot, lift, g)
				return
			}
		}
		for _, i := range n.posts {
			g := solid.GapToSlab(&k.b.Posts[i].Solid, s.Outline, s.Bottom+lift, s.Top+lift)
			k.moments++
			if g < -plane.Tolerance {
				t.Errorf("the shelf of %s meets post %s at %.1f over its place: %.3f", k.b.Levels[s.Level].Name, k.b.Posts[i].Letter, lift, g)
				return
			}
		}
	}
}

// potsOf are the pots that an act sets, in order.
func potsOf(o *order.Order, a order.Act) []int {
	switch a.Kind {
	case order.ActPot, order.ActCones:
		return []int{o.Levels[a.Order].Pots[a.Step].Pot}
	case order.ActPattern:
		l := &o.Levels[a.Order]
		var out []int
		for _, i := range l.Patterns[a.Pattern].Steps {
			out = append(out, l.Pots[i].Pot)
		}
		return out
	}
	return nil
}
