package packing

import (
	"math/rand/v2"

	"threepost/geometry/plane"
)

// Insert looks for room for one more thing of a want beside everything that
// stands in r, none of which is moved. It reports the new arrangement and
// whether there is room. The want's count plays no part; a want of the problem
// that counts 0 will do. For discs it overlooks room only where rounding leaves
// hardly any; for other things the more work, the surer a no.
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
		if s, ok = b.room(kind); ok || g.kinds[kind].thin || c.work > Look*work {
			break
		}
	}
	spent := c.work / Look
	if !ok {
		r = r.Clone()
		r.Work += spent
		return r, false
	}
	one := g.round(Standing{Kind: kind, Want: want, At: plane.Vec{s.x, s.y}, Turn: s.turn})
	out := r.Clone()
	out.Set = append(out.Set, one)
	out.count(&p)
	out.Work += spent
	if !Valid(&p, []Standing{one}) || !Valid(&p, out.Set) {
		return r, false
	}
	return out, true
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
	for h.bestE > 1e-10 && c.work < Look*work {
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
