package bounds

import "math"

// program is a linear program: the most of gain . x with rows x <= limit and
// x >= 0, every limit at least 0.
type program struct {
	gain  []float64
	rows  [][]float64
	limit []float64
}

// row adds a condition; it must be as long as gain.
func (p *program) row(limit float64, coefficients map[int]float64) {
	r := make([]float64, len(p.gain))
	for i, c := range coefficients {
		r[i] = c
	}
	p.rows = append(p.rows, r)
	p.limit = append(p.limit, limit)
}

// most pivots before the answer is taken as it stands: any prices give a bound.
const mostPivots = 5000

// solve gives prices of the conditions, from the dense simplex tableau with the
// largest-gain rule, and the first negative one when that stalls.
func (p *program) solve() (prices []float64) {
	n, m := len(p.gain), len(p.rows)
	width := n + m + 1
	tab := make([][]float64, m+1)
	for i := range p.rows {
		tab[i] = make([]float64, width)
		copy(tab[i], p.rows[i])
		tab[i][n+i] = 1
		tab[i][width-1] = p.limit[i]
	}
	tab[m] = make([]float64, width)
	for j, g := range p.gain {
		tab[m][j] = -g
	}
	stalled := 0
	for pivots := 0; pivots < mostPivots; pivots++ {
		col := entering(tab[m][:width-1], stalled > 20)
		if col < 0 {
			break
		}
		row := leaving(tab[:m], col)
		if row < 0 {
			break
		}
		before := tab[m][width-1]
		pivot(tab, row, col)
		if tab[m][width-1] > before+1e-12 {
			stalled = 0
		} else {
			stalled++
		}
	}
	prices = make([]float64, m)
	for i := range prices {
		prices[i] = math.Max(0, tab[m][n+i])
	}
	return prices
}

func entering(costs []float64, first bool) int {
	at, least := -1, -1e-9
	for j, c := range costs {
		if c < least {
			at, least = j, c
			if first {
				break
			}
		}
	}
	return at
}

func leaving(rows [][]float64, col int) int {
	at, least := -1, math.Inf(1)
	for i, r := range rows {
		if r[col] > 1e-9 {
			if q := r[len(r)-1] / r[col]; q < least-1e-12 {
				at, least = i, q
			}
		}
	}
	return at
}

func pivot(tab [][]float64, row, col int) {
	by := tab[row][col]
	for j := range tab[row] {
		tab[row][j] /= by
	}
	for i, r := range tab {
		if k := r[col]; i != row && k != 0 {
			for j, v := range tab[row] {
				if v != 0 {
					r[j] -= float64(k * v)
				}
			}
		}
	}
}

// bound is an upper bound on gain . x from prices of the conditions: with
// y >= 0 and y A >= gain, gain . x <= y b. Where y falls short of a gain by a
// little, all of y is raised until it does not; cap is a bound on each x that
// pays for what no price covers.
func (p *program) bound(prices, cap []float64) float64 {
	sum := 0.0
	for i, y := range prices {
		if y > 0 {
			sum += float64(y * p.limit[i])
		}
	}
	for j, g := range p.gain {
		covered := 0.0
		for i, y := range prices {
			covered += float64(y * p.rows[i][j])
		}
		if short := g - covered; short > 0 {
			sum += float64(short * cap[j])
		}
	}
	return sum
}
