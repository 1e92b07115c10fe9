package packing

import "math"

const memory = 6 // pairs that the descent remembers

// descent lowers an energy by the limited memory quasi-Newton method.
//
// Source: J. Nocedal, Updating quasi-Newton matrices with limited storage,
// Math. Comp. 35 (1980), with backtracking to Armijo's condition.
type descent struct {
	g, trial, gTrial, dir []float64
	s, y                  [memory][]float64
	rho, alpha            [memory]float64
}

// stop says when a descent ends.
type stop struct {
	rounds int
	// screen: after 25 rounds an energy over this is given up; 0: never
	screen float64
	// slow: so small a part of the energy won in 5 rounds is an end
	slow float64
	// enough: an energy under this is as good as nothing, mm2
	enough float64
}

func (d *descent) size(n int) {
	fit := func(v *[]float64) {
		if cap(*v) < n {
			*v = make([]float64, n)
		}
		*v = (*v)[:n]
	}
	fit(&d.g)
	fit(&d.trial)
	fit(&d.gTrial)
	fit(&d.dir)
	for i := range d.s {
		fit(&d.s[i])
		fit(&d.y[i])
	}
}

// lower moves x to a lower energy of the crowd and returns it.
func (d *descent) lower(c *crowd, x []float64, s stop) float64 {
	n := len(x)
	d.size(n)
	e := c.energy(x, d.g)
	kept, next := 0, 0
	before := e
	for round := 0; round < s.rounds && e > s.enough; round++ {
		if s.screen > 0 && round == 25 && e > s.screen {
			return e
		}
		if round%5 == 4 {
			if before-e < float64(s.slow*e) {
				return e
			}
			before = e
		}
		d.direct(kept, next)
		slope := dot(d.dir, d.g)
		if !(slope < 0) {
			kept = 0
			for i := range d.dir {
				d.dir[i] = -0.25 * d.g[i]
			}
			slope = dot(d.dir, d.g)
			if !(slope < 0) {
				return e
			}
		}
		step, won := 1.0, false
		for try := 0; try < 12; try++ {
			for i := range d.trial {
				d.trial[i] = x[i] + float64(step*d.dir[i])
			}
			t := c.energy(d.trial, d.gTrial)
			if t <= e+float64(1e-4*step*slope) {
				won = true
				s, y := d.s[next], d.y[next]
				for i := range s {
					s[i] = d.trial[i] - x[i]
					y[i] = d.gTrial[i] - d.g[i]
				}
				copy(x, d.trial)
				copy(d.g, d.gTrial)
				e = t
				break
			}
			// the parabola through both energies and the slope
			k := float64(-slope*step) / (2 * (t - e - float64(slope*step)))
			step *= math.Min(0.5, math.Max(0.1, k))
		}
		if !won {
			if kept == 0 {
				return e
			}
			kept = 0
			continue
		}
		if sy := dot(d.s[next], d.y[next]); sy > 1e-300 {
			d.rho[next] = 1 / sy
			next = (next + 1) % memory
			kept = min(kept+1, memory)
		} else {
			kept = min(kept, memory-1) // the slot of the oldest is spoilt
		}
	}
	return e
}

// direct works out the way to go from the last kept changes.
func (d *descent) direct(kept, next int) {
	for i := range d.dir {
		d.dir[i] = -d.g[i]
	}
	if kept == 0 {
		for i := range d.dir {
			d.dir[i] *= 0.25 // two discs that overlap part in one step
		}
		return
	}
	for k := 1; k <= kept; k++ {
		i := (next - k + memory) % memory
		d.alpha[i] = float64(d.rho[i] * dot(d.s[i], d.dir))
		along(d.dir, -d.alpha[i], d.y[i])
	}
	last := (next - 1 + memory) % memory
	scale := 1 / float64(d.rho[last]*dot(d.y[last], d.y[last]))
	for i := range d.dir {
		d.dir[i] *= scale
	}
	for k := kept; k >= 1; k-- {
		i := (next - k + memory) % memory
		b := float64(d.rho[i] * dot(d.y[i], d.dir))
		along(d.dir, d.alpha[i]-b, d.s[i])
	}
}

// dot sums four products at a time: the sums do not wait for each other.
func dot(a, b []float64) float64 {
	b = b[:len(a)]
	var s0, s1, s2, s3 float64
	i := 0
	for ; i+4 <= len(a); i += 4 {
		u, v := a[i:i+4:i+4], b[i:i+4:i+4]
		s0 += float64(u[0] * v[0])
		s1 += float64(u[1] * v[1])
		s2 += float64(u[2] * v[2])
		s3 += float64(u[3] * v[3])
	}
	for ; i < len(a); i++ {
		s0 += float64(a[i] * b[i])
	}
	return (s0 + s1) + (s2 + s3)
}

func along(a []float64, k float64, b []float64) {
	b = b[:len(a)]
	i := 0
	for ; i+4 <= len(a); i += 4 {
		u, v := a[i:i+4:i+4], b[i:i+4:i+4]
		u[0] += float64(k * v[0])
		u[1] += float64(k * v[1])
		u[2] += float64(k * v[2])
		u[3] += float64(k * v[3])
	}
	for ; i < len(a); i++ {
		a[i] += float64(k * b[i])
	}
}
