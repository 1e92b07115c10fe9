package packing

import (
	"math"

	"threepost/geometry/plane"
)

// Figures of Scatter, found by looking at shelves of few pots.
const (
	scatterRounds  = 60
	scatterSamples = 900 // points of the areas that are shared out, about
	scatterStill   = 0.5 // mm; when no thing goes farther the rounds end
)

// Scatter fills the ground evenly where there is more of it than comfort asks
// for: it moves what is not Fixed toward the middle of the ground that lies
// nearest to it, again and again, so that no large pocket stays beside a row
// along the edge. Every thing keeps 98 % of the comfortable slack; an
// arrangement that does not have it, or is not valid, is left as it is. Turns
// stay.
//
// Source: S. P. Lloyd, Least squares quantization in PCM, IEEE Trans. Inf.
// Theory 28 (1982), whose rounds end where every point is the middle of its
// cell.
func Scatter(p Problem, r Result, e Ease) Result {
	if p.Fault() != nil || !standsWell(&p, r.Set) || !(e.Comfort > 0) || math.IsInf(e.Comfort, 0) || !Valid(&p, r.Set) {
		return r
	}
	c := crowdOf(newGround(&p), r.Set)
	s := &stretcher{c: c, a: e.asked()}
	keep := float64(0.98 * e.Comfort) // rounding took a little from what was comfortable
	if c.n-c.fixed < 2 || s.bears() < keep {
		return r
	}
	points := c.g.points()
	for range scatterRounds {
		if !s.toMiddles(points, keep) {
			break
		}
	}
	set, ok := c.settle(c.x)
	if !ok {
		return r
	}
	out, ok := s.inOrder(set, r)
	if !ok || e.Least(p, out) < keep-float64(2*c.g.step) { // rounding costs a step or two
		return r
	}
	out.Work += c.work / Look
	return out
}

// points are spots of all areas on a lattice.
func (g *ground) points() []plane.Vec {
	room := 0.0
	for _, f := range g.fences {
		room += f.outline.Area()
	}
	step := math.Max(math.Sqrt(room/scatterSamples), g.step)
	var out []plane.Vec
	for i := 0; ; i++ {
		x := g.low[0] + float64((float64(i)+0.5)*step)
		if x > g.up[0] {
			return out
		}
		for k := 0; ; k++ {
			y := g.low[1] + float64((float64(k)+0.5)*step)
			if y > g.up[1] {
				break
			}
			for f := range g.fences {
				if g.fences[f].depth(x, y) >= 0 {
					out = append(out, plane.Vec{x, y})
					break
				}
			}
		}
	}
}

// toMiddles moves every thing toward the middle of the points that lie nearest
// to it, as far as it keeps its slack. It is false when hardly anything moved.
func (s *stretcher) toMiddles(points []plane.Vec, keep float64) bool {
	c := s.c
	sum := make([]plane.Vec, c.n)
	count := make([]float64, c.n)
	c.work += int64(len(points) * c.n / 4)
	for _, at := range points {
		near, least := -1, math.Inf(1)
		for i := 0; i < c.n; i++ {
			d := plane.Hypot(at[0]-c.x[2*i], at[1]-c.x[2*i+1]) - c.g.kinds[c.kind[i]].size
			if d < least {
				near, least = i, d
			}
		}
		sum[near] = plane.Add(sum[near], at)
		count[near]++
	}
	moved := false
	for i := c.fixed; i < c.n; i++ {
		if count[i] == 0 {
			continue
		}
		from := plane.Vec{c.x[2*i], c.x[2*i+1]}
		way := plane.Sub(plane.Scale(sum[i], 1/count[i]), from)
		for share := 0.8; share > 0.05; share /= 2 {
			c.x[2*i], c.x[2*i+1] = from[0]+float64(share*way[0]), from[1]+float64(share*way[1])
			if s.bearsAlone(i) >= keep {
				moved = moved || float64(share*plane.Length(way)) > scatterStill
				break
			}
			c.x[2*i], c.x[2*i+1] = from[0], from[1]
		}
	}
	return moved
}
