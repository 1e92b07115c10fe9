package packing

import (
	"math/rand/v2"

	"threepost/geometry/plane"
)

// Insert looks for room for one more thing of a want beside everything that
// stands in r, none of which is moved. It reports the new arrangement and
// whether there is room. The want's count plays no part; a want of the problem
// that counts 0 will do. A no is sure for discs but for rooms narrower than the
// grid; for other things the more work, the surer.
func Insert(p Problem, r Result, want int, seed uint64, work int64) (Result, bool) {
	if p.Fault() != nil || want < 0 || want >= len(p.Wants) || !standsWell(&p, r.Set) {
		return r, false
	}
	g := newGround(&p)
	c := newCrowd(g, r.Set)
	kind := p.Wants[want].Kind
	rnd := rand.New(rand.NewPCG(seed, 0x696e73657274))
	b := newBuilder(c, snug, rnd)
	var s spot
	var ok bool
	for {
		if s, ok = b.room(kind); ok || g.kinds[kind].thin || c.work > Look*work || !p.goOn() {
			break
		}
	}
	one := g.round(Standing{Kind: kind, Want: want, At: plane.Vec{s.x, s.y}, Turn: s.turn})
	if !ok {
		one, ok = c.narrow(kind, want, rnd)
	}
	spent := c.work / Look
	if !ok {
		r = r.Clone()
		r.Work += spent
		return r, false
	}
	out := r.Clone()
	out.Set = append(out.Set, one)
	out.count(&p)
	out.Work += spent
	if !Valid(&p, []Standing{one}) || !Valid(&p, out.Set) {
		return r, false
	}
	return out, true
}

// narrow looks for a grid point where one more thing stands when there is no
// room to spare for rounding: the points round every corner of the exact room.
func (c *crowd) narrow(kind, want int, rnd *rand.Rand) (Standing, bool) {
	g := c.g
	b := newBuilderFor(c, asked{}, snug, rnd)
	class := c.table.find(class{kind: int32(kind)})
	var spots []spot
	if g.kinds[kind].thin {
		f := newFront(c, class)
		f.renew()
		spots = f.spots
	} else if s, ok := b.tuck(class, kind); ok {
		spots = []spot{s}
	}
	for _, s := range spots {
		for k := 0; k < 25; k++ {
			one := Standing{Kind: kind, Want: want, Turn: s.turn,
				At: plane.Vec{s.x + float64(k%5-2)/g.grid, s.y + float64(k/5-2)/g.grid}}
			if g.kinds[kind].thin {
				one.Turn = g.kinds[kind].turnOf()
			}
			one = g.round(one)
			at := spot{x: one.At[0], y: one.At[1], turn: one.Turn}
			if e, _, _, _ := c.alone(class, at, -1, 1e-13); e <= 1e-13 {
				return one, true
			}
		}
	}
	return Standing{}, false
}

// Squeeze looks for room for one more thing of a want and may move everything
// that is not Fixed. It tries Insert first.
func Squeeze(p Problem, r Result, want int, seed uint64, work int64) (Result, bool) {
	out, ok := Insert(p, r, want, seed, work/4)
	if ok || p.Fault() != nil || want < 0 || want >= len(p.Wants) || !standsWell(&p, r.Set) {
		return out, ok
	}
	g := newGround(&p)
	rnd := rand.New(rand.NewPCG(seed, 0x73717565657a65))
	c := crowdOf(g, r.Set)
	a := asked{crumbs: true}
	kind := p.Wants[want].Kind
	c.ask(a)
	at := c.vacancy(c.askAlso(a, kind), -1, 100, rnd)
	c.add(kind, want, plane.Vec{at.x, at.y}, at.turn, false)
	c.ask(a)
	h := newHopper(c, rnd)
	h.start()
	for h.bestE > 1e-10 && c.work < Look*work && p.goOn() {
		h.hop()
	}
	copy(c.x, h.best)
	spent := out.Work + c.work/Look
	set, ok := c.settle(c.x)
	if !ok {
		out = r.Clone()
		out.Work = spent
		return out, false
	}
	out = Result{Set: set}
	out.count(&p)
	out.Work = spent
	return out, true
}

// standsWell says whether an arrangement speaks of the problem's kinds and
// wants.
func standsWell(p *Problem, set []Standing) bool {
	if len(set) > MaxItems {
		return false
	}
	for _, s := range set {
		if s.Kind < 0 || s.Kind >= len(p.Kinds) || s.Want >= len(p.Wants) ||
			!finite(s.At[0]) || !finite(s.At[1]) || !finite(s.Turn) {
			return false
		}
	}
	return true
}

// crowdOf is the crowd of an arrangement, whose fixed things come first.
func crowdOf(g *ground, set []Standing) *crowd {
	var fixed []Standing
	for _, s := range set {
		if s.Fixed {
			fixed = append(fixed, s)
		}
	}
	c := newCrowd(g, fixed)
	for _, s := range set {
		if !s.Fixed {
			c.add(s.Kind, s.Want, s.At, s.Turn, false)
		}
	}
	return c
}
