package planner

import (
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

// worthSet is the value of the best plan so far, without showing it.
func (s *Search) worthSet() float64 {
	if s.best == nil {
		return 0
	}
	v := 0.0
	for _, st := range s.best.frame.storeys {
		for _, p := range append(append([]placed(nil), st.set...), st.fixed...) {
			if k := s.context.kinds[p.kind]; k.ware != nil {
				v += k.worth
			}
		}
	}
	return v
}

// crowded is a load with more of every row.
func crowded(l *layout.Load, times float64) *layout.Load {
	for i := range l.Ware {
		l.Ware[i].Count = int(math.Round(float64(max(1, l.Ware[i].Count)) * times))
	}
	return l
}

// TestValueAgainstWork prints what is set after so much work: for the samples
// against their references, which were searched with several seeds and far more
// work, and for loads of much more ware than goes in against the bound. About
// 33,000 units are a second of one core of a small machine.
func TestValueAgainstWork(t *testing.T) {
	t.Parallel()
	works, seeds, bar := []int64{3000, 10000}, uint64(1), 0.88
	long := os.Getenv("THREEPOST_LONG") != ""
	if long {
		works, seeds, bar = []int64{3000, 10000, 30000, 100000, 300000}, 3, 0.97
	} else {
		t.Logf("four of ten loads, one seed, up to 10000 units; THREEPOST_LONG=1 takes 3 seeds and goes on to 300000")
	}
	var rows []race
	for _, name := range samples() {
		rows = append(rows, race{name: name, load: sample(t, name)})
	}
	for _, name := range []string{"studio", "newcomer", "oval", "front-loader"} {
		l := crowded(sample(t, name), map[string]float64{"studio": 1.5}[name]+2)
		rows = append(rows, race{name: name + ", far too much", load: l, full: true})
	}
	head := fmt.Sprintf("%-28s", "share of the value")
	for _, w := range works {
		head += fmt.Sprintf("%8d", w)
	}
	t.Log(head)
	for i, r := range rows {
		if !long && (i%2 == 1 || r.name == "front-loader") {
			continue
		}
		line, last := fmt.Sprintf("%-28s", r.name), 0.0
		for _, v := range r.run(t, works, seeds) {
			require.GreaterOrEqual(t, v, 0.0)
			line, last = line+fmt.Sprintf("  %.4f", v), v
		}
		t.Log(line)
		if i < len(samples()) { // a sample after most work
			require.GreaterOrEqual(t, last, bar, r.name)
		}
	}
}

// race is a load with the value its plans are compared with.
type race struct {
	name string
	load *layout.Load
	full bool // more than goes in: the bound
}

// ref is the value of the reference, or the bound.
func (r race) ref(t *testing.T) float64 {
	if !r.full {
		v, err := Value(sample(t, "reference/"+r.name))
		require.NoError(t, err)
		return v
	}
	b, err := Bound(r.load)
	require.NoError(t, err)
	return b.Value
}

// run is the share of the value that is set after each work, the mean of the
// seeds.
func (r race) run(t *testing.T, works []int64, seeds uint64) []float64 {
	out, ref := make([]float64, len(works)), r.ref(t)
	for seed := uint64(1); seed <= seeds; seed++ {
		s, err := Start(r.load.Clone(), seed)
		require.NoError(t, err)
		done := int64(0)
		for i, w := range works {
			s.Step(w - done)
			done = w
			out[i] += s.worthSet() / ref / float64(seeds)
		}
	}
	return out
}
