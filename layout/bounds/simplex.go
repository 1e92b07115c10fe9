package bounds

import "math"

// program is a linear program: the most of gain . x with rows x <= limit,
// x >= 0 and x <= caps. Rows may be added after it has been solved.
type program struct {
	gain  []float64
	caps  []float64 // what no x exceeds; they pay for what no price covers
	rows  [][]float64
	limit []float64
	tab   *tableau
	work  *int // multiplications of this program and its forks
}

func (p *program) spent() int { return *p.work }

// row adds a condition over some of the variables.
func (p *program) row(limit float64, coefficients map[int]float64) {
	r := make([]float64, len(p.gain))
	for i, c := range coefficients {
		r[i] = c
	}
	p.add(limit, r)
}

// add adds a condition over all variables, its largest figure made 1.
func (p *program) add(limit float64, row []float64) {
	most := 0.0
	for _, v := range row {
		most = math.Max(most, math.Abs(v))
	}
	if most > 0 && most != 1 {
		for j := range row {
			row[j] /= most
		}
		limit /= most
	}
	p.rows = append(p.rows, row)
	p.limit = append(p.limit, limit)
	if p.tab != nil {
		p.tab.add(limit, row)
	}
}

// fork is the program as it stands, to go on with alone.
func (p *program) fork() *program {
	q := *p
	q.rows = append([][]float64(nil), p.rows...)
	q.limit = append([]float64(nil), p.limit...)
	if p.tab != nil {
		q.tab = p.tab.clone()
	}
	return &q
}

// tableau is the dense simplex tableau: variables, then one slack a row.
type tableau struct {
	vars  int
	rows  [][]float64
	right []float64
	costs []float64
	basis []int
	work  *int
	void  []float64 // prices that show that nothing keeps all conditions
}

// Most pivots of one call; what is reached by then gives prices all the same.
const mostPivots = 3000

const tiny = 1e-9

func newTableau(p *program) *tableau {
	t := &tableau{vars: len(p.gain), costs: make([]float64, len(p.gain))}
	for j, g := range p.gain {
		t.costs[j] = -g - float64((1+math.Abs(g))*shift(j))
	}
	for i, r := range p.rows {
		t.add(p.limit[i], r)
	}
	return t
}

func (t *tableau) clone() *tableau {
	c := &tableau{vars: t.vars, work: t.work, right: append([]float64(nil), t.right...),
		costs: append([]float64(nil), t.costs...), basis: append([]int(nil), t.basis...)}
	for _, r := range t.rows {
		c.rows = append(c.rows, append(make([]float64, 0, len(r)+8), r...))
	}
	return c
}

// add appends a condition, told by what is out of the basis.
func (t *tableau) add(limit float64, row []float64) {
	n := t.vars + len(t.rows)
	r := make([]float64, n+1, n+16)
	copy(r, row)
	r[n] = 1
	for i, b := range t.basis {
		if k := r[b]; b < t.vars && k != 0 {
			for j, v := range t.rows[i] {
				if v != 0 {
					r[j] -= float64(k * v)
				}
			}
			r[b] = 0
			limit -= float64(k * t.right[i])
		}
	}
	for i := range t.rows {
		t.rows[i] = append(t.rows[i], 0)
	}
	t.costs = append(t.costs, 0)
	t.rows = append(t.rows, r)
	t.right = append(t.right, limit+shift(len(t.rows)))
	t.basis = append(t.basis, n)
}

// shift is a small number of its own for every variable and condition: gains and
// limits that are a little off one another have no ties to go round in. The
// bound is worked out from the prices and the true figures.
func shift(i int) float64 {
	return float64(1e-7 * (1 + float64((i*7919)%1009)/1009))
}

// solve gives prices of the conditions and x: by the simplex method with the
// largest-gain rule, and the first negative one when that stalls; by its dual
// where conditions were added that the last x does not keep.
func (p *program) solve() (prices, x []float64) {
	if p.tab == nil {
		p.tab = newTableau(p)
		if p.work == nil {
			p.work = new(int)
		}
		p.tab.work = p.work
	}
	t := p.tab
	t.void = nil
	if !t.dual() {
		t.primal()
	}
	prices = make([]float64, len(p.rows))
	for i := range prices {
		prices[i] = math.Max(0, t.costs[t.vars+i])
	}
	x = make([]float64, t.vars)
	for i, b := range t.basis {
		if b < t.vars {
			x[b] = math.Max(0, t.right[i])
		}
	}
	return prices, x
}

// primal pivots until no cost is negative.
func (t *tableau) primal() {
	stalled := 0
	for range mostPivots {
		col := entering(t.costs, stalled > 20)
		if col < 0 {
			return
		}
		row := t.leaving(col)
		if row < 0 {
			return
		}
		if t.right[row] > 1e-12 {
			stalled = 0
		} else {
			stalled++
		}
		t.pivot(row, col)
	}
}

// dual pivots until no right side is negative. It is for tableaus without
// negative costs and says false, having done nothing, for others.
func (t *tableau) dual() bool {
	if entering(t.costs, true) >= 0 {
		return false
	}
	for range mostPivots {
		row, least := -1, -1e-8
		for i, v := range t.right {
			if v < least {
				row, least = i, v
			}
		}
		if row < 0 {
			return true
		}
		col, ratio := -1, math.Inf(1)
		for j, v := range t.rows[row] {
			if v < -tiny {
				if q := math.Max(0, t.costs[j]) / -v; q < ratio-1e-12 {
					col, ratio = j, q
				}
			}
		}
		if col < 0 {
			t.void = append([]float64(nil), t.rows[row][t.vars:]...)
			return true
		}
		t.pivot(row, col)
	}
	return true
}

func entering(costs []float64, first bool) int {
	at, least := -1, -tiny
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

func (t *tableau) leaving(col int) int {
	at, least := -1, math.Inf(1)
	for i, r := range t.rows {
		if r[col] > tiny {
			if q := t.right[i] / r[col]; q < least-1e-12 {
				at, least = i, q
			}
		}
	}
	return at
}

func (t *tableau) pivot(row, col int) {
	r := t.rows[row]
	by := r[col]
	for j := range r {
		r[j] /= by
	}
	r[col] = 1
	t.right[row] /= by
	for i, other := range t.rows {
		if i != row {
			if other[col] != 0 {
				*t.work += len(r)
			}
			subtract(other, r, col, &t.right[i], t.right[row])
		}
	}
	var whole float64
	subtract(t.costs, r, col, &whole, t.right[row])
	t.basis[row] = col
}

// subtract takes so much of a row from another that its column is 0.
func subtract(from, r []float64, col int, right *float64, of float64) {
	k := from[col]
	if k == 0 {
		return
	}
	from = from[:len(r)]
	for j, v := range r {
		from[j] -= float64(k * v)
	}
	from[col] = 0
	*right -= float64(k * of)
}

// bound is an upper bound on gain . x from prices of the conditions: with
// y >= 0 and y A >= gain, gain . x <= y b. Where y falls short of a gain by a
// little, the caps of x pay for what no price covers.
func (p *program) bound(prices []float64) float64 {
	sum := 0.0
	covered := make([]float64, len(p.gain))
	for i, y := range prices {
		if y > 0 {
			sum += float64(y * p.limit[i])
			for j, v := range p.rows[i] {
				covered[j] += float64(y * v)
			}
		}
	}
	for j, g := range p.gain {
		if short := g - covered[j]; short > 0 {
			sum += float64(short * p.caps[j])
		}
	}
	return sum
}

// nothing says that no x keeps all conditions, where the last solve came upon
// prices that prove it: with y >= 0, y A x <= y b, and the left side is at least
// what it lacks to 0 over the caps.
func (p *program) nothing() bool {
	if p.tab == nil || p.tab.void == nil {
		return false
	}
	least, right := 0.0, 0.0
	sums := make([]float64, len(p.gain))
	for i, y := range p.tab.void {
		if y > 0 {
			right += float64(y * p.limit[i])
			for j, v := range p.rows[i] {
				sums[j] += float64(y * v)
			}
		}
	}
	for j, v := range sums {
		if v < 0 {
			least += float64(v * p.caps[j])
		}
	}
	return right < least-tiny
}
