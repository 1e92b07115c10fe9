package packing

import (
	"math"

	"threepost/geometry/plane"
)

// round brings a standing thing to the grid.
func (g *ground) round(s Standing) Standing {
	if s.Fixed {
		return s
	}
	for k := range s.At {
		s.At[k] = math.Round(s.At[k]*g.grid) / g.grid
		if s.At[k] == 0 {
			s.At[k] = 0 // no minus
		}
	}
	f := &g.kinds[s.Kind]
	if f.turns {
		s.Turn = plane.NormalTurn(math.Round(s.Turn*g.turnGrid) / g.turnGrid)
	}
	return s
}

// settle rounds the crowd where it stands and says whether every need is met
// then. Where rounding broke one, the things concerned try the grid points
// round them.
func (c *crowd) settle(x []float64) ([]Standing, bool) {
	set := c.standings(x)
	for i := range set {
		set[i] = c.g.round(set[i])
	}
	c.work += int64(c.n * c.n)
	if Valid(c.g.p, set) {
		return set, true
	}
	return set, c.repair(set)
}

// repair moves single things by single steps of the grid while that lessens
// what is missing, a few times round.
func (c *crowd) repair(set []Standing) bool {
	r := newCrowd(c.g, nil)
	for i, s := range set {
		r.add(s.Kind, s.Want, s.At, s.Turn, false)
		if s.Fixed {
			r.swing[i] = -1
		}
	}
	r.fixed = c.fixed
	for i := 0; i < r.fixed; i++ {
		r.turn[i] = set[i].Turn
	}
	r.ask(asked{})
	const bar = 0.9 * plane.Tolerance * plane.Tolerance
	for round := 0; round < 6; round++ {
		lost := r.missing(nil)
		sum := 0.0
		for _, e := range lost {
			sum += e
		}
		if sum <= bar {
			break
		}
		moved := false
		for i := r.fixed; i < r.n; i++ {
			moved = r.nudge(i, set) || moved
		}
		if !moved {
			break
		}
	}
	c.work += r.work + int64(c.n*c.n)
	return Valid(c.g.p, set)
}

// nudge tries the grid points round thing i.
func (r *crowd) nudge(i int, set []Standing) bool {
	if r.anyone {
		r.place(r.x)
	}
	cl := int(r.class[i])
	now := spot{x: set[i].At[0], y: set[i].At[1], turn: set[i].Turn}
	now.e, _, _, _ = r.alone(cl, now, i, math.Inf(1))
	if now.e < 1e-14 {
		return false
	}
	best := now
	turns := 0
	if r.g.kinds[r.kind[i]].turns {
		turns = 1
	}
	for a := -turns; a <= turns; a++ {
		for dx := -1; dx <= 1; dx++ {
			for dy := -1; dy <= 1; dy++ {
				s := set[i]
				s.At = plane.Vec{now.x + float64(dx)/r.g.grid, now.y + float64(dy)/r.g.grid}
				s.Turn += float64(a) / r.g.turnGrid
				s = r.g.round(s)
				n := spot{x: s.At[0], y: s.At[1], turn: s.Turn}
				n.e, _, _, _ = r.alone(cl, n, i, best.e)
				if n.e < best.e {
					best = n
					set[i] = s
				}
			}
		}
	}
	if best.e >= now.e {
		return false
	}
	r.x[2*i], r.x[2*i+1] = best.x, best.y
	if s := r.swing[i]; s >= 0 {
		r.x[s] = best.turn / r.g.kinds[r.kind[i]].degrees()
	}
	return true
}
