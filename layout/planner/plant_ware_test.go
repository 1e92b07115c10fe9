package planner

import (
	"math"

	"threepost/layout"
	"threepost/layout/stacks"
)

// ware is two to five kinds that a shelf takes, of one or two of the sorts that
// are harder than cylinders: handled, oblong, measured.
func (p planter) ware(widest float64) []layout.Ware {
	sorts := []func(name string, widest float64) []layout.Ware{p.round, p.handled, p.oblong, p.interlocking}
	var out []layout.Ware
	for n := 2 + p.rnd.IntN(3); len(out) < n; {
		sort := sorts[0]
		if len(out) == 0 || p.one(2) { // one of the harder sorts at least
			sort = sorts[1+p.rnd.IntN(3)]
		}
		out = append(out, sort(string(rune('a'+len(out))), math.Min(widest, 200))...)
	}
	clay := layout.Material{Name: "stoneware", Cone: "6"}
	for i := range out {
		out[i].Count, out[i].Clay, out[i].Glaze = 500, clay, layout.Material{Name: "white", Cone: "6"}
	}
	return out
}

// round is ware as a cylinder of its largest width.
func (p planter) round(name string, widest float64) []layout.Ware {
	w := layout.Ware{Name: "pot " + name, Silhouette: layout.Cylinder, Height: p.between(40, 220), Across: p.between(50, widest)}
	w.Height = math.Min(w.Height, 3.5*w.Across) // no tall narrow pots
	if p.one(8) {
		w.Flags.Refire = true // keeps twice as far apart
	}
	return []layout.Ware{w}
}

// handled is mugs or jugs, whose handles may be turned between others.
func (p planter) handled(name string, widest float64) []layout.Ware {
	w := layout.Ware{Name: "mug " + name, Silhouette: layout.Mug, Height: p.between(70, 120), Across: p.between(65, math.Min(100, widest))}
	if p.one(3) {
		w.Name, w.Silhouette, w.Height = "jug "+name, layout.Jug, p.between(120, 200)
	}
	return []layout.Ware{w}
}

// oblong is bakers and slab dishes.
func (p planter) oblong(name string, widest float64) []layout.Ware {
	w := layout.Ware{Name: "baker " + name, Silhouette: layout.OvalBaker, Height: p.between(40, 80),
		Length: p.between(140, math.Max(150, 1.5*widest))}
	w.Width = p.between(0.45*w.Length, 0.75*w.Length)
	if p.one(2) {
		w.Name, w.Silhouette = "dish "+name, layout.Box
	}
	return []layout.Ware{w}
}

// interlocking is a goblet or bowl, measured, whose rim reaches out high up,
// and something low that goes under it.
func (p planter) interlocking(name string, widest float64) []layout.Ware {
	rim := p.between(0.6*widest, widest)
	high := p.between(90, 160)
	foot := math.Max(math.Ceil((high+2)/4), math.Round(rim*(0.4+0.15*p.rnd.Float64()))) // no tall narrow pots
	under := math.Round(high * (0.5 + 0.2*p.rnd.Float64()))                             // where the rim begins
	wide := layout.Ware{Name: "goblet " + name, Height: high, Across: rim, Measured: true, Profile: []layout.Knot{
		{Height: 0, Diameter: foot}, {Height: under, Diameter: foot}, {Height: under + 10, Diameter: rim}, {Height: high, Diameter: rim}}}
	low := layout.Ware{Name: "cup " + name, Silhouette: layout.Cylinder, Across: p.between(45, 75), Height: p.between(25, under-14)}
	return []layout.Ware{wide, low}
}

// one is true once in n times.
func (p planter) one(n int) bool { return p.rnd.IntN(n) == 0 }

// traits are what a planted load has that others have not.
type traits struct{ probes, watched, unwatched, handled, oblong, refired, under, levels int }

// add counts another's.
func (x *traits) add(y traits) {
	x.probes += y.probes
	x.watched += y.watched
	x.unwatched += y.unwatched
	x.handled += y.handled
	x.oblong += y.oblong
	x.refired += y.refired
	x.under += y.under
	x.levels += y.levels
}

// traitsOf counts them in a full load.
func traitsOf(b *stacks.Built) traits {
	out := traits{probes: len(b.Probes), levels: len(b.Levels)}
	for i := range b.Pots {
		p := &b.Pots[i]
		switch {
		case p.Cones != nil && p.Cones.Watched:
			out.watched++
			continue
		case p.Cones != nil:
			out.unwatched++
			continue
		}
		w := b.Load.WareOf(p.Pot)
		if w.Length > 0 {
			out.oblong++
		} else if p.Body.Turns {
			out.handled++
		}
		if w.Flags.Refire {
			out.refired++
		}
		for j := range i { // pairs of which one stands under the rim of the other
			q := &b.Pots[j]
			if q.Level == p.Level && q.Cones == nil && awayFrom(&p.Solid, q.At) < q.Body.Solid.Parts[0].Profile.Max() && w.Measured != b.Load.WareOf(q.Pot).Measured {
				out.under++
			}
		}
	}
	return out
}
