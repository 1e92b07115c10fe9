package bounds

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"
)

// randomProgram has a bounded optimum: every variable has a cap.
func randomProgram(t *rapid.T) *program {
	n := rapid.IntRange(1, 6).Draw(t, "variables")
	m := rapid.IntRange(0, 6).Draw(t, "conditions")
	num := rapid.IntRange(-4, 9)
	p := &program{}
	for j := 0; j < n; j++ {
		p.gain = append(p.gain, float64(num.Draw(t, "gain")))
		p.caps = append(p.caps, float64(rapid.IntRange(0, 9).Draw(t, "cap")))
	}
	for j := range p.caps {
		p.row(p.caps[j], map[int]float64{j: 1})
	}
	for i := 0; i < m; i++ {
		row := map[int]float64{}
		for j := 0; j < n; j++ {
			row[j] = float64(num.Draw(t, "coefficient"))
		}
		p.row(float64(rapid.IntRange(0, 20).Draw(t, "limit")), row)
	}
	return p
}

// The dual bound is the optimum that gonum's simplex finds.
func TestLawBoundIsTheOptimumOfGonumsSimplex(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProgram(t)
		n, m := len(p.gain), len(p.rows)
		a := mat.NewDense(m, n+m, nil)
		cost := make([]float64, n+m)
		for j, g := range p.gain {
			cost[j] = -g
		}
		for i, row := range p.rows {
			for j, v := range row {
				a.Set(i, j, v)
			}
			a.Set(i, n+i, 1)
		}
		want, _, err := lp.Simplex(cost, a, p.limit, 1e-10, nil)
		if err != nil { // gonum gives up on some degenerate bases
			t.Logf("gonum: %v", err)
			return
		}
		prices, x := p.solve()
		require.InDelta(t, -want, p.bound(prices), 1e-4)
		got := 0.0
		for j := range x {
			got += x[j] * p.gain[j]
		}
		require.InDelta(t, -want, got, 1e-4)
	})
}

// Whatever the prices, the bound holds for every point that keeps the
// conditions.
func TestLawAnyPricesGiveABound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProgram(t)
		x := make([]float64, len(p.gain))
		value := 0.0
		for j := range x {
			x[j] = p.caps[j] * rapid.Float64Range(0, 1).Draw(t, "x")
		}
		// Shrink the point until it keeps all conditions: 0 does.
		for i, row := range p.rows {
			sum := 0.0
			for j := range x {
				sum += row[j] * x[j]
			}
			if sum > p.limit[i] {
				for j := range x {
					x[j] *= p.limit[i] / sum
				}
			}
		}
		for i, row := range p.rows { // shrinking for one row keeps the others whose sum was positive
			sum := 0.0
			for j := range x {
				sum += row[j] * x[j]
			}
			if sum > p.limit[i]+1e-9 {
				return
			}
		}
		for j := range x {
			value += p.gain[j] * x[j]
		}
		prices := make([]float64, len(p.rows))
		for i := range prices {
			prices[i] = rapid.Float64Range(0, 5).Draw(t, "price")
		}
		require.GreaterOrEqual(t, p.bound(prices), value-1e-9)
	})
}

// Rows added after a program was solved count as if they had been there from
// the start, on a fork or on the program itself; where nothing keeps them all,
// that is told.
func TestLawRowsMayBeAddedLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProgram(t)
		p.solve()
		before := len(p.rows)
		q := p.fork()
		fresh := &program{gain: p.gain, caps: p.caps}
		for i, r := range p.rows {
			fresh.add(p.limit[i], append([]float64(nil), r...))
		}
		for range rapid.IntRange(1, 4).Draw(t, "later") {
			row := map[int]float64{}
			for j := range p.gain {
				row[j] = float64(rapid.IntRange(-4, 9).Draw(t, "coefficient"))
			}
			limit := float64(rapid.IntRange(-6, 12).Draw(t, "limit"))
			q.row(limit, row)
			fresh.row(math.Max(0, limit), row)
			if limit < 0 { // the same condition, told the other way round for the one made anew
				fresh = nil
				break
			}
			prices, x := q.solve()
			for i, r := range q.rows {
				sum := 0.0
				for j := range x {
					sum += r[j] * x[j]
				}
				require.LessOrEqual(t, sum, q.limit[i]+1e-4)
			}
			want, _ := fresh.solve()
			require.InDelta(t, fresh.bound(want), q.bound(prices), 1e-4)
			fresh.tab = nil
		}
		require.Len(t, p.rows, before, "the fork is alone")
	})
}

// A condition that nothing keeps is proven; one that something keeps never is.
func TestNothingKeepsAll(t *testing.T) {
	p := &program{gain: []float64{1, 1}, caps: []float64{5, 5}}
	p.row(3, map[int]float64{0: 1})
	p.row(4, map[int]float64{1: 1})
	p.solve()
	q := p.fork()
	q.row(-8, map[int]float64{0: -1, 1: -1})
	q.solve()
	require.True(t, q.nothing())
	q = p.fork()
	q.row(-7, map[int]float64{0: -1, 1: -1})
	prices, _ := q.solve()
	require.False(t, q.nothing())
	require.InDelta(t, 7, q.bound(prices), 1e-4)
}

// Programs without variables, conditions or gain.
func TestBoundOfEmptyPrograms(t *testing.T) {
	of := func(p *program) float64 {
		prices, _ := p.solve()
		return p.bound(prices)
	}
	require.Zero(t, of(&program{}))
	require.Equal(t, 6.0, of(&program{gain: []float64{2}, caps: []float64{3}}), "the cap pays for what no condition holds")
	p := &program{gain: []float64{-2}, caps: []float64{4}}
	p.row(4, map[int]float64{0: 1})
	require.Zero(t, of(p))
	p = &program{gain: []float64{1}, caps: []float64{4}}
	p.row(1e300, nil)
	require.False(t, math.IsNaN(of(p)))
}
