package packing

import "math"

// neighbours lists, for every unfixed thing, the earlier ones that can come to
// matter to it while no thing goes farther than a slack from where it stood
// when the list was made.
//
// Source: L. Verlet, Computer experiments on classical fluids, Physical Review
// 159 (1967), which keeps such a list for particles.
type neighbours struct {
	stood []float64 // x and y of all things when the list was made; empty: no list
	slack float64   // mm along x and along y
	first []int32   // of the list of each unfixed thing; one more at the end
	list  []int32
}

// neighbourSlack is the slack as a share of the mean size of the things: with
// less the list is made too often, with more it is too long. Found by trial.
const neighbourSlack = 0.25

// hold says whether the list is still good for things at x.
func (v *neighbours) hold(x []float64) bool {
	if len(v.stood) == 0 {
		return false
	}
	x = x[:len(v.stood)]
	for i, s := range v.stood {
		if d := x[i] - s; d > v.slack || -d > v.slack {
			return false
		}
	}
	return true
}

// forget is called when the things or the needs have changed.
func (v *neighbours) forget() { v.stood = v.stood[:0] }

// gather makes the list anew for things at x.
func (c *crowd) gather(x []float64) {
	v := &c.near
	sum := 0.0
	for i := 0; i < c.n; i++ {
		sum += c.g.kinds[c.kind[i]].size
	}
	v.slack = neighbourSlack * sum / math.Max(float64(c.n), 1)
	v.stood = append(v.stood[:0], x[:2*c.n]...)
	v.first, v.list = v.first[:0], v.list[:0]
	nc := len(c.table.classes)
	more := 2 * v.slack
	for i := c.fixed; i < c.n; i++ {
		v.first = append(v.first, int32(len(v.list)))
		xi, yi := x[2*i], x[2*i+1]
		row := c.table.touch[int(c.class[i])*nc:][:nc]
		for j, k := range c.class[:i] {
			r := row[k] + more
			if dx := xi - x[2*j]; dx >= r || -dx >= r {
				continue
			}
			if dy := yi - x[2*j+1]; dy < r && -dy < r {
				v.list = append(v.list, int32(j))
			}
		}
	}
	v.first = append(v.first, int32(len(v.list)))
}
