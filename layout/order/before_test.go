package order

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// relate makes a relation of n pots from pairs: first before second.
func relate(n int, pairs ...[2]int) *relation {
	r := &relation{pots: make([]int, n), first: make([][]int, n), after: make([][]int, n), lack: map[[2]int]float64{}}
	for i := range r.pots {
		r.pots[i] = i
	}
	for _, p := range pairs {
		r.before(p[0], p[1], 1)
	}
	return r
}

func TestKnotsByHand(t *testing.T) {
	for name, c := range map[string]struct {
		n     int
		pairs [][2]int
		knots [][]int
		ring  []int
	}{
		"none":                    {3, nil, nil, nil},
		"a chain":                 {3, [][2]int{{0, 1}, {1, 2}, {0, 2}}, nil, nil},
		"a wheel":                 {3, [][2]int{{0, 1}, {1, 2}, {2, 0}}, [][]int{{0, 1, 2}}, []int{0, 1, 2}},
		"a wheel with a tail":     {5, [][2]int{{4, 0}, {0, 1}, {1, 2}, {2, 0}, {2, 3}}, [][]int{{0, 1, 2}}, []int{0, 1, 2}},
		"two wheels and a bridge": {6, [][2]int{{0, 1}, {1, 2}, {2, 0}, {2, 3}, {3, 4}, {4, 5}, {5, 3}}, [][]int{{0, 1, 2}, {3, 4, 5}}, []int{0, 1, 2}},
		"the shorter ring counts": {5, [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {1, 4}, {4, 0}}, [][]int{{0, 1, 2, 3, 4}}, []int{0, 1, 4}},
	} {
		t.Run(name, func(t *testing.T) {
			r := relate(c.n, c.pairs...)
			require.Equal(t, c.knots, r.knots())
			if c.ring != nil {
				require.Equal(t, c.ring, r.ring(r.knots()[0]))
			}
		})
	}
}

// Law: there is a knot exactly when no topological order sets all.
func TestLawKnotOrOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "pots")
		var pairs [][2]int
		for k := rapid.IntRange(0, 14).Draw(t, "pairs"); k > 0; k-- {
			a, c := rapid.IntRange(0, n-1).Draw(t, "first"), rapid.IntRange(0, n-1).Draw(t, "second")
			if a != c {
				pairs = append(pairs, [2]int{a, c})
			}
		}
		r := relate(n, pairs...)
		g := &graph{after: make([][]int, n), need: make([]int, n)}
		for _, p := range pairs {
			g.add(p[0], p[1])
		}
		order := g.order(func(i, j int) bool { return i < j })
		require.Equal(t, len(order) == n, len(r.knots()) == 0)
		for _, knot := range r.knots() {
			ring := r.ring(knot)
			require.GreaterOrEqual(t, len(ring), 2)
			for k, i := range ring {
				require.Contains(t, r.after[i], ring[(k+1)%len(ring)])
			}
		}
		at := map[int]int{}
		for k, i := range order {
			at[i] = k + 1
		}
		for _, p := range pairs {
			if at[p[1]] > 0 {
				require.Less(t, at[p[0]], at[p[1]])
			}
		}
	})
}
