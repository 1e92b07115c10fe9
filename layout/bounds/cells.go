package bounds

import (
	"math"

	"threepost/geometry/plane"
)

// wall is the inside of a shelf as the cells of its pots divide it.
type wall struct {
	area   float64 // at least that of the shape, mm2
	around float64 // at most its perimeter, mm
	// corners are the places where its edge turns; 1 where it has none, which
	// covers a single cell too.
	corners int
	round   float64 // least radius of its curved edges, mm; infinite where all are straight
}

// wallOf is the wall of a shelf, or of the part of it on the given sides.
func wallOf(o plane.Outline, sides []Side) wall {
	w := wall{area: o.Area(), around: o.Perimeter(), round: math.Inf(1)}
	edges := o.Edges()
	for i, e := range edges {
		if e.Kind == plane.Arc {
			w.round = math.Min(w.round, e.Radius)
		}
		next := edges[(i+1)%len(edges)]
		if len(edges) > 1 && math.Abs(plane.Cross(leaves(e), comes(next))) > 1e-6 {
			w.corners++
		}
	}
	if len(sides) > 0 {
		area, around, ok := inner(o, 0, sides)
		if !ok {
			return wall{round: w.round, corners: 1}
		}
		// The tangents stand out over the shape by less than 1 in 4,000.
		w.area, w.around = area, around*(1-2.5e-4)
		w.corners += 2 * len(sides)
	}
	w.corners = max(1, w.corners)
	return w
}

// comes is the direction of an edge where it begins.
func comes(e plane.Edge) plane.Vec {
	if e.Kind == plane.Arc {
		return plane.Unit(plane.Left(plane.Sub(e.From, e.Center)))
	}
	return plane.Unit(plane.Sub(e.To, e.From))
}

// leaves is the direction of an edge where it ends.
func leaves(e plane.Edge) plane.Vec {
	if e.Kind == plane.Arc {
		return plane.Unit(plane.Left(plane.Sub(e.To, e.Center)))
	}
	return plane.Unit(plane.Sub(e.To, e.From))
}

// price is what a side of a cell and a mm of wall cost: any two prices that are
// not negative give a bound.
type price struct{ side, mm float64 }

// holds is the most that the weights of the cells on one shelf add up to.
//
// Discs that do not overlap, with their middles in a convex shape, have cells
// (of the power diagram of the discs) that are convex, divide the shape and each
// keep every line between two discs off both. By Euler's formula N cells have
// at most
//
//	6 N - 6 + 2 corners - (sides on the wall)
//
// sides together, those on the wall included: at the walls' joints with lines
// between cells three edges meet, as everywhere. So with a price for every side,
// twice for one on the wall, and a price for every mm of wall, a cell of area a
// with n sides, s of them and l mm on the wall, has
//
//	sum of (a + side (n + s - 6) - mm l)  <=  area + side (2 corners - 6) - mm around
//
// and the weight of a disc is the least that a cell round it can have of what
// stands on the left (weight). This is L. Fejes Toth's argument for the density
// of discs, by the number of sides of their cells, Lagerungen in der Ebene, auf
// der Kugel und im Raum, 1953, chapter III, with the sides on the wall counted.
func (w wall) holds(p price) float64 {
	return w.area + float64(p.side*float64(2*w.corners-6)) - float64(p.mm*w.around)
}

// Most sides of a cell that are looked at one by one, and of them on the wall.
const (
	mostSides = 9
	mostWalls = 4
)

// weight is the least of area + side (n + s - 6) - mm l of a cell of n sides, s
// of them and l mm on a wall: its sides lie at least r mm from its middle, those
// on the wall at least deep mm. Over an angle of t a side has at least the area
// r r tan(t/2), a wall w.under(t), and a mm of wall at least deep/2 of area.
func (w wall) weight(r, deep float64, p price) float64 {
	if r <= 0 || deep <= 0 {
		return 0
	}
	share := 1 - 2*p.mm/deep
	if share < 0 {
		return 0
	}
	least := math.Inf(1)
	for n := 3; n <= mostSides; n++ {
		a := float64(float64(float64(r*r)*float64(n)) * tangent(180/float64(n)))
		least = math.Min(least, a+float64(p.side*float64(n-6)))
	}
	// What a cell costs is convex in n and s together, so that the first rise
	// ends the search.
	before := math.Inf(1)
	for s := 1; s <= mostWalls; s++ {
		best := math.Inf(1)
		for n := s + 1; n <= mostSides; n++ {
			a := w.beside(r, deep, share, n, s) + float64(p.side*float64(n+s-6))
			if a > best*(1+1e-4) {
				break
			}
			best = math.Min(best, a)
		}
		least = math.Min(least, best)
		if best > before*(1+1e-4) {
			break
		}
		before = best
	}
	// Beyond: a cell has at least the area of the sectors of its discs.
	sectors := float64(math.Pi * math.Min(float64(r*r), float64(share*float64(deep*deep))))
	least = math.Min(least, sectors+float64(p.side*float64(mostSides+1-6)))
	least = math.Min(least, sectors+float64(p.side*float64(2*(mostWalls+1)+1-6)))
	// All round is wall: one pot on the shelf alone.
	least = math.Min(least, float64(share*w.area)+float64(p.side*float64(-4)))
	return math.Max(0, least*(1-2e-5))
}

// beside is the least area of a cell with n sides, s of them on the wall, where
// the area under a wall counts a share: convex in the angle of the walls, so
// that halving finds it.
func (w wall) beside(r, deep, share float64, n, s int) float64 {
	rest := float64(n - s)
	at := func(t float64) float64 {
		side := (360 - float64(float64(s)*t)) / (2 * rest)
		return float64(share*float64(float64(s)*w.under(t, deep))) + float64(float64(rest*float64(r*r))*tangent(side))
	}
	lo, hi := math.Max(0, (360-float64(rest*179))/float64(s)), 360/float64(s)
	if math.IsInf(w.round, 1) {
		hi = math.Min(hi, 179)
	}
	if lo >= hi {
		return math.Inf(1)
	}
	const golden = 0.6180339887498949
	a, b := hi-float64(golden*(hi-lo)), lo+float64(golden*(hi-lo))
	fa, fb := at(a), at(b)
	for range 18 {
		if fa <= fb {
			hi, b, fb = b, a, fa
			a = hi - float64(golden*(hi-lo))
			fa = at(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + float64(golden*(hi-lo))
			fb = at(b)
		}
	}
	// What is looked for is the least: what the search stops short of is taken off.
	least := math.Min(math.Min(fa, fb), math.Min(at(lo), at(hi)))
	return float64(least * (1 - 1e-4))
}

// under is the least area between a middle and the wall, at least deep mm from
// it, over an angle of t degrees. A straight wall square to the middle of the
// angle has it, or the circle of the least radius: a shape whose edge is
// nowhere more curved is a union of such discs (W. Blaschke, Kreis und Kugel,
// 1916), so one of them holds the disc of radius deep and lies inside.
func (w wall) under(t, deep float64) float64 {
	if math.IsInf(w.round, 1) {
		if t >= 180 {
			return math.Inf(1)
		}
		return float64(deep*deep) * tangent(t/2)
	}
	big := math.Max(w.round, deep)
	off := big - deep
	half := math.Min(t/2, 90)
	sin, cos := plane.SinCos(half)
	// The ray at half meets the circle of radius big at the angle of half less
	// beta about its centre, off behind the middle.
	sinBeta := off * sin / big
	cosBeta := math.Sqrt(math.Max(0, 1-float64(sinBeta*sinBeta)))
	beta := plane.Bearing(plane.Vec{sinBeta, cosBeta}) * math.Pi / 180
	angle := float64(half*math.Pi/180) - beta
	sinAngle := float64(sin*cosBeta) - float64(cos*sinBeta)
	area := float64(float64(big*big)*angle) - float64(float64(off*big)*sinAngle)
	if t > 180 { // past a right angle the circle only goes farther off
		reach := float64(big*big) - float64(off*off)
		area += float64(float64(reach/2) * float64((t-180)*math.Pi/180))
	}
	return area
}

// tangent is the tangent of an angle in degrees, from 0 to under 90.
func tangent(deg float64) float64 {
	sin, cos := plane.SinCos(deg)
	if cos <= 0 {
		return math.Inf(1)
	}
	return sin / cos
}
