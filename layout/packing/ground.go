package packing

import (
	"math"

	"threepost/geometry/plane"
)

// ground is a problem made ready: what does not change while things move.
type ground struct {
	p        *Problem
	kinds    []form
	fences   []fence
	areas    [][]int // into fences
	blocks   []block
	low, up  plane.Vec
	grid     float64 // steps per mm
	turnGrid float64 // steps per degree
	step     float64 // mm of a step
}

// form is a kind made ready.
type form struct {
	thin   bool // one point at its own origin: a disc once its need is added
	parts  []plane.Skeleton
	sides  [][]plane.Vec // normals of the parts
	reach  []float64     // of each part from the origin, mm
	far    float64       // the greatest reach
	turns  bool
	tried  []float64
	limits []Limit
	size   float64 // half the need to its like, mm: how big it acts
	area   float64 // what it takes of an area when packed, mm2, roughly
	crumb  float64 // how far rounding may move a point of it, mm
}

// block is an obstacle made ready.
type block struct {
	skeleton plane.Skeleton
	sides    []plane.Vec // its normals
	mid      plane.Vec
	reach    float64
}

const radian = 57.29577951308232 // degrees

func newGround(p *Problem) *ground {
	g := &ground{p: p, grid: stepsIn(p.Grid), turnGrid: stepsIn(p.TurnGrid)}
	g.step = 1 / g.grid
	g.low = plane.Vec{math.Inf(1), math.Inf(1)}
	g.up = plane.Vec{math.Inf(-1), math.Inf(-1)}
	for _, a := range p.Areas {
		var list []int
		for _, o := range a.Outlines {
			f := newFence(o)
			list = append(list, len(g.fences))
			g.fences = append(g.fences, f)
			for k := 0; k < 2; k++ {
				g.low[k] = math.Min(g.low[k], f.low[k])
				g.up[k] = math.Max(g.up[k], f.up[k])
			}
		}
		g.areas = append(g.areas, list)
	}
	for i := range p.Kinds {
		g.kinds = append(g.kinds, g.newForm(i))
	}
	for _, o := range p.Obstacles {
		low, up := o.Skeleton.Bounds()
		b := block{skeleton: o.Skeleton, sides: normals(o.Skeleton), mid: plane.Lerp(low, up, 0.5)}
		for _, v := range o.Skeleton {
			b.reach = math.Max(b.reach, plane.Distance(b.mid, v))
		}
		g.blocks = append(g.blocks, b)
	}
	return g
}

// stepsIn is how many steps of a grid go into one unit; a whole number where
// it nearly is, so that rounded figures are the decimals that files hold.
func stepsIn(grid float64) float64 {
	if !(grid > 0) || math.IsInf(grid, 0) {
		return 10
	}
	n := 1 / grid
	if r := math.Round(n); r > 0 && math.Abs(n-r) < 1e-6*r {
		return r
	}
	return n
}

func (g *ground) newForm(i int) form {
	k := &g.p.Kinds[i]
	f := form{parts: k.Parts, turns: k.Turns, tried: k.Tried, limits: k.Limits}
	f.reach = make([]float64, len(k.Parts))
	low := plane.Vec{math.Inf(1), math.Inf(1)}
	up := plane.Vec{math.Inf(-1), math.Inf(-1)}
	for a, s := range k.Parts {
		f.sides = append(f.sides, normals(s))
		for _, v := range s {
			f.reach[a] = math.Max(f.reach[a], plane.Length(v))
		}
		f.far = math.Max(f.far, f.reach[a])
		need := float64(math.Max(0, g.p.Need[i][a][i][a]) / 2)
		l, u := s.Bounds()
		low = plane.Vec{math.Min(low[0], l[0]-need), math.Min(low[1], l[1]-need)}
		up = plane.Vec{math.Max(up[0], u[0]+need), math.Max(up[1], u[1]+need)}
		f.size = math.Max(f.size, need)
		area := float64(math.Pi*need*need) + math.Abs(s.Area()) + float64(s.Perimeter()*need)
		f.area = math.Max(f.area, area)
	}
	f.thin = len(k.Parts) == 1 && len(k.Parts[0]) == 1 && f.far == 0
	if f.thin {
		f.turns = false
	} else {
		w := plane.Sub(up, low)
		f.size = math.Max(f.size, math.Sqrt(math.Max(0, float64(w[0]*w[1])))/2)
	}
	if f.turns && len(f.tried) == 0 {
		f.tried = make([]float64, 24)
		for t := range f.tried {
			f.tried[t] = 15 * float64(t)
		}
	}
	// half a step each way, and half a step of turn at the farthest point
	f.crumb = float64(math.Sqrt2/2*g.step) + 1e-9
	if f.turns {
		f.crumb += f.far / g.turnGrid / 2 / radian
	}
	return f
}

// turnOf is the turn of a kind that does not turn.
func (f *form) turnOf() float64 {
	if len(f.tried) > 0 {
		return plane.NormalTurn(f.tried[0])
	}
	return 0
}
