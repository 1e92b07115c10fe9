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
func randomProgram(t *rapid.T) (*program, []float64) {
	n := rapid.IntRange(1, 6).Draw(t, "variables")
	m := rapid.IntRange(0, 6).Draw(t, "conditions")
	num := rapid.IntRange(-4, 9)
	p := &program{}
	var caps []float64
	for j := 0; j < n; j++ {
		p.gain = append(p.gain, float64(num.Draw(t, "gain")))
		caps = append(caps, float64(rapid.IntRange(0, 9).Draw(t, "cap")))
	}
	for j := range caps {
		p.row(caps[j], map[int]float64{j: 1})
	}
	for i := 0; i < m; i++ {
		row := map[int]float64{}
		for j := 0; j < n; j++ {
			row[j] = float64(num.Draw(t, "coefficient"))
		}
		p.row(float64(rapid.IntRange(0, 20).Draw(t, "limit")), row)
	}
	return p, caps
}

// The dual bound is the optimum that gonum's simplex finds.
func TestLawBoundIsTheOptimumOfGonumsSimplex(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, caps := randomProgram(t)
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
		require.InDelta(t, -want, p.bound(p.solve(), caps), 1e-6)
	})
}

// Whatever the prices, the bound holds for every point that keeps the
// conditions.
func TestLawAnyPricesGiveABound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, caps := randomProgram(t)
		x := make([]float64, len(p.gain))
		value := 0.0
		for j := range x {
			x[j] = caps[j] * rapid.Float64Range(0, 1).Draw(t, "x")
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
		require.GreaterOrEqual(t, p.bound(prices, caps), value-1e-9)
	})
}

// Programs without variables, conditions or gain.
func TestBoundOfEmptyPrograms(t *testing.T) {
	p := &program{}
	require.Zero(t, p.bound(p.solve(), nil))
	p = &program{gain: []float64{2}}
	require.Equal(t, 6.0, p.bound(p.solve(), []float64{3}), "the cap pays for what no condition holds")
	p = &program{gain: []float64{-2}}
	p.row(4, map[int]float64{0: 1})
	require.Zero(t, p.bound(p.solve(), []float64{4}))
	p = &program{gain: []float64{1}}
	p.row(math.Inf(1), nil)
	require.False(t, math.IsNaN(p.bound(p.solve(), []float64{4})))
}
