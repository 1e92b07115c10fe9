package stacks

import (
	"math"
	"strings"

	"threepost/layout"
)

// usualWall is the wall thickness of ware that says none, mm (common practice).
const usualWall = 6

// Densities of fired bodies, kg/m3; from memory, with usual ranges of
// 2000-2400, 2300-2500 and 1700-2100.
const (
	stoneware   = 2200
	porcelain   = 2400
	earthenware = 1900
)

// density is that of a row's clay by its name, stoneware where nothing tells.
func density(clay string) float64 {
	name := strings.ToLower(clay)
	switch {
	case strings.Contains(name, "porcelain"):
		return porcelain
	case strings.Contains(name, "earthenware"), strings.Contains(name, "terracotta"):
		return earthenware
	}
	return stoneware
}

// mass is that of the pot or bundle in kg: as given for each piece, or of a
// wall of even thickness over the profile and the foot.
func (p *potter) mass() float64 {
	pieces := float64(max(1, p.w.Nested))
	if p.w.Mass > 0 {
		return pieces * p.w.Mass
	}
	t := p.w.Wall
	if t <= 0 {
		t = usualWall
	}
	mm3 := float64(pieces * (p.volume(0, 0) - p.volume(t, t)))
	if p.knob > 0 {
		top := p.w.Profile[len(p.w.Profile)-1].Diameter / p.plan.length
		mm3 += float64(p.plan.area(top, 0) * t)
		mm3 += float64(math.Pi * 100 * p.knob) // a knob 20 across
	}
	for _, h := range p.w.Handles {
		mm3 += float64(strap(h, t))
	}
	if p.w.Spout != nil {
		mm3 += float64(strap(*p.w.Spout, t))
	}
	return float64(mm3*density(p.w.Clay.Name)) / 1e9
}

// strap is the volume of a handle as a strap as thick as the wall, mm3.
func strap(h layout.Handle, wall float64) float64 {
	return float64(h.Thick*wall) * (h.To - h.From + float64(2*h.Reach))
}

// volume is that of the piece's profile from height from up, less a wall of t
// mm all round, mm3. The area of a slice is a quadratic in height between two
// entries, so Simpson's rule is exact; on a cone it is the handbook's frustum.
func (p *potter) volume(t, from float64) float64 {
	sum := 0.0
	knots := p.w.Profile
	if last := knots[len(knots)-1]; last.Height < p.w.Height {
		knots = append(knots[:len(knots):len(knots)], layout.Knot{Height: p.w.Height, Diameter: last.Diameter})
	}
	if knots[0].Height > 0 {
		knots = append([]layout.Knot{{Height: 0, Diameter: knots[0].Diameter}}, knots...)
	}
	for i := 1; i < len(knots); i++ {
		a, b := knots[i-1], knots[i]
		if b.Height <= from || b.Height <= a.Height {
			continue
		}
		z0 := math.Max(a.Height, from)
		d0 := along(a.Height, a.Diameter, b.Height, b.Diameter, z0)
		lo := p.plan.area(d0/p.plan.length, t)
		mid := p.plan.area((d0+b.Diameter)/2/p.plan.length, t)
		hi := p.plan.area(b.Diameter/p.plan.length, t)
		sum += float64((b.Height - z0) * (lo + float64(4*mid) + hi) / 6)
	}
	return sum
}

// litres is the kiln space that a pot takes: the area of its plan, handles
// included, times its height.
func (p *potter) litres() float64 {
	area := p.plan.area(1, 0)
	for _, h := range p.w.Handles {
		area += float64(h.Reach * h.Thick)
	}
	if p.w.Spout != nil {
		area += float64(p.w.Spout.Reach * p.w.Spout.Thick)
	}
	return area * (p.body + p.knob) / 1e6
}
