package stacks

import (
	"fmt"
	"math"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/silhouette"
)

// maxNested is the most pieces of a bundle.
const maxNested = 200

// BodyOf is the body of each pot of a row of ware, by the load's rules of
// allowance and its cookies and stilts. A row that is not in the load is
// judged after all those that are. It refuses, with a sentence that names the
// row, measures that make no pot.
//
// The parts contain the ware (law): every pot that is up to the allowance
// higher and wider than written, with handles, lid and stand, lies within
// them. Only a measured profile is followed. All other ware is as wide over
// its whole height as at its widest, so that nothing is ever slid under a rim
// whose height was guessed.
//
// The first part is the pot itself, or its lowest slice; handles, spout and
// stand come after.
func BodyOf(l *layout.Load, w *layout.Ware) (*Body, error) {
	return newWardrobe(l).body(l, w)
}

// Bodies are the bodies of all rows of the load's ware, in order, and for each
// row that makes none the reason.
func Bodies(l *layout.Load) ([]*Body, []error) {
	d := newWardrobe(l)
	bodies, errs := make([]*Body, len(l.Ware)), make([]error, len(l.Ware))
	for i := range l.Ware {
		bodies[i], errs[i] = d.body(l, &l.Ware[i])
	}
	return bodies, errs
}

// potter makes one body.
type potter struct {
	w          layout.Ware // filled
	plan       footprint
	stand      chosenStand
	high, wide float64 // allowances; wide is of the radius
	body       float64 // height of the pot or bundle over its own foot
	knob       float64
	parts      []solid.Part
}

func makeBody(l *layout.Load, filled layout.Ware, assumed []string, stand chosenStand) (*Body, error) {
	p := &potter{w: filled, plan: footprintOf(&filled), stand: stand}
	if err := stand.check(filled.Name); err != nil {
		return nil, err
	}
	if err := p.sizes(l); err != nil {
		return nil, err
	}
	p.potParts()
	p.limbParts()
	foot := p.plan.at(p.footShare(), p.wide)
	if stand.Kind != layout.NoStand {
		on := p.standPlan()
		p.parts = append(p.parts, upright(on, 0, stand.Height))
		if stand.Kind != layout.Wads {
			foot = on
		}
	}
	s, err := solid.NewBody(p.parts...)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", filled.Name, err)
	}
	b := &Body{
		Solid: s, Foot: foot.Skeleton, FootR: foot.Radius, Height: s.Top(),
		Mass:    p.mass() + p.standMass(),
		Turns:   p.plan.kind != layout.Round || len(filled.Handles) > 0 || filled.Spout != nil,
		Value:   filled.Value,
		Stand:   stand.Stand,
		StandH:  stand.Height,
		Assumed: len(assumed) > 0,
		Drawn:   p.drawn(),
		owned:   stand.kind,
	}
	if b.Value == 0 {
		b.Value = p.litres()
	}
	return b, nil
}

// sizes works out the allowances and the heights.
func (p *potter) sizes(l *layout.Load) error {
	w := &p.w
	p.high, p.wide = l.Limits(layout.AllowHigh).Plan, l.Limits(layout.AllowWide).Plan
	if w.HighAllowance != nil {
		p.high = *w.HighAllowance
	}
	if w.WideAllowance != nil {
		p.wide = *w.WideAllowance
	}
	for _, mm := range [...]float64{p.high, p.wide} {
		if !(mm >= 0 && mm <= 1000) {
			return fmt.Errorf("%s: an allowance of %v mm; give 0 to 1000", w.Name, mm)
		}
	}
	p.wide /= 2
	if w.Nested < 0 || w.Nested > maxNested {
		return fmt.Errorf("%s: a bundle of %d; give 1 to %d", w.Name, w.Nested, maxNested)
	}
	p.body = w.Height
	if w.Nested > 1 {
		p.body += float64(float64(w.Nested-1) * w.Adds)
	}
	if w.Knob > 0 && (w.LidOn == nil || *w.LidOn) {
		p.knob = w.Knob
	}
	if top := p.body + p.knob; top > silhouette.Longest {
		return fmt.Errorf("%s: a bundle %.0f mm high, over 10 m; check the figures", w.Name, top)
	}
	return nil
}

// potParts are the pot or bundle and its lid.
func (p *potter) potParts() {
	up, top := p.stand.Height, p.stand.Height+p.body+p.knob+p.high
	prof := p.measured()
	if prof == nil {
		p.parts = append(p.parts, upright(p.plan.at(1, p.wide), up, top))
		return
	}
	switch p.plan.kind {
	case layout.Round:
		p.parts = append(p.parts, solid.Part{
			Skeleton: plane.Skeleton{{0, 0}},
			Profile:  widen(envelope(prof, p.high), up, p.wide),
		})
	case layout.Oval:
		// The skeleton of the whole stays and the radius shrinks with the width:
		// that contains the pot whether its slices keep their proportions or
		// keep an even distance from the rim.
		on := p.plan.at(1, 0)
		for i := range prof {
			prof[i].R = float64(on.Radius * (2 * prof[i].R / p.plan.length))
		}
		p.parts = append(p.parts, solid.Part{Skeleton: on.Skeleton, Profile: widen(envelope(prof, p.high), up, p.wide)})
	default:
		p.prisms(prof, up)
	}
	if p.knob > 0 {
		last := prof[len(prof)-1].R
		if p.plan.kind == layout.Oval {
			last = p.plan.length / 2
		}
		share := 2 * last / p.plan.length
		p.parts = append(p.parts, upright(p.plan.at(share, p.wide), up+p.body, top))
	}
}

// prisms are a measured rectangular pot as a stack of prisms, each as large as
// the pot is anywhere in it, so that the corners of a flaring rim are inside:
// a rectangle widened by a radius would round them off.
func (p *potter) prisms(prof solid.Profile, up float64) {
	for i := 1; i < len(prof); i++ {
		a, b := prof[i-1], prof[i]
		if b.Z <= a.Z {
			continue
		}
		n := int(math.Ceil(math.Abs(b.R-a.R) / 3))
		n = min(max(n, 1), 12)
		for k := 0; k < n; k++ {
			t0, t1 := float64(k)/float64(n), float64(k+1)/float64(n)
			r := math.Max(along(0, a.R, 1, b.R, t0), along(0, a.R, 1, b.R, t1))
			p.parts = append(p.parts, upright(p.plan.at(2*r/p.plan.length, p.wide),
				up+along(0, a.Z, 1, b.Z, t0), up+along(0, a.Z, 1, b.Z, t1)+p.high))
		}
	}
}

// measured is the profile that may be followed, from the foot to the full
// height, or nil: assumed, of a bundle, contradicting the width, or too long.
func (p *potter) measured() solid.Profile {
	w := &p.w
	if !w.Measured || w.Nested > 1 || len(w.Profile) < 2 || len(w.Profile) > maxEnvelope {
		return nil
	}
	widest := 0.0
	var prof solid.Profile
	for _, k := range w.Profile {
		widest = math.Max(widest, k.Diameter)
		prof = append(prof, solid.Knot{Z: k.Height, R: k.Diameter / 2})
	}
	if widest < p.plan.length || p.plan.width > p.plan.length {
		return nil
	}
	if prof[0].Z > 0 {
		prof = append(solid.Profile{{Z: 0, R: prof[0].R}}, prof...)
	}
	if last := prof[len(prof)-1]; last.Z < w.Height {
		prof = append(prof, solid.Knot{Z: w.Height, R: last.R})
	}
	if prof.Validate() != nil {
		return nil
	}
	return prof
}

// limbParts are the handles and the spout: from the body to their reach, as
// thick as they are, over their whole height.
func (p *potter) limbParts() {
	limbs := p.w.Handles
	if p.w.Spout != nil {
		limbs = append(limbs[:len(limbs):len(limbs)], *p.w.Spout)
	}
	prof := p.measured()
	for _, h := range limbs {
		edge := p.plan.exit(h.At)
		end := edge + h.Reach - float64(h.Thick/2)
		start := edge
		if prof != nil {
			start = edge * narrowest(prof, h.From, h.To) / (p.plan.length / 2)
		}
		start = math.Max(0, math.Min(start, end))
		p.parts = append(p.parts, upright(limb(h.At, start, math.Max(end, start), float64(h.Thick/2)+p.wide),
			p.stand.Height+h.From, p.stand.Height+h.To+p.high))
	}
}

// narrowest is the least radius of a profile between two heights, or 0 where
// it does not reach.
func narrowest(p solid.Profile, from, to float64) float64 {
	least := math.Min(p.R(from), p.R(to))
	for _, k := range p {
		if k.Z >= from && k.Z <= to {
			least = math.Min(least, k.R)
		}
	}
	return math.Max(0, least)
}

// limb is the plan of a handle from start to end on a bearing.
func limb(at, start, end, r float64) Widened {
	a, b := plane.FromBearing(start, at), plane.FromBearing(end, at)
	if plane.Distance(a, b) < 1e-6 {
		return Widened{plane.Skeleton{b}, r}
	}
	return Widened{plane.Skeleton{a, b}, r}
}

// footShare is the size of the foot as a share of the widest slice.
func (p *potter) footShare() float64 {
	return math.Min(1, p.w.Foot/p.plan.length)
}

// drawn is the pot as it is measured, for pictures.
func (p *potter) drawn() Drawn {
	d := Drawn{
		Body:   p.plan.at(1, 0),
		Foot:   p.plan.at(p.footShare(), 0),
		Knob:   p.knob,
		Oblong: p.plan.kind != layout.Round,
	}
	d.Profile = append(d.Profile, p.w.Profile...)
	if last := d.Profile[len(d.Profile)-1]; last.Height < p.body {
		d.Profile = append(d.Profile, layout.Knot{Height: p.body, Diameter: last.Diameter})
	}
	if p.stand.Kind == layout.Cookie {
		on := p.standPlan()
		d.Cookie = &on
	}
	for _, h := range p.w.Handles {
		d.Handles = append(d.Handles, p.drawnLimb(h))
	}
	if p.w.Spout != nil {
		d.Handles = append(d.Handles, p.drawnLimb(*p.w.Spout))
	}
	return d
}

func (p *potter) drawnLimb(h layout.Handle) Widened {
	edge := p.plan.exit(h.At)
	end := math.Max(0, edge+h.Reach-float64(h.Thick/2))
	return limb(h.At, math.Min(edge, end), end, h.Thick/2)
}

// upright is a part of one plan from bottom to top.
func upright(w Widened, bottom, top float64) solid.Part {
	return solid.Part{Skeleton: w.Skeleton, Profile: solid.Profile{{Z: bottom, R: w.Radius}, {Z: top, R: w.Radius}}}
}
