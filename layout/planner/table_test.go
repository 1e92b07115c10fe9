package planner

import (
	"fmt"
	"math"
	"os"
	"strings"
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

// TestValueAgainstWork
func TestValueAgainstWork(t *testing.T) {
	works := []int64{10000, 30000, 100000}
	seeds := uint64(1)
	if os.Getenv("THREEPOST_LONG") != "" {
		works = append(works, 300000)
		seeds = 3
	}
	type row struct {
		name string
		load *layout.Load
		ref  float64
	}
	var rows []row
	for _, name := range samples() {
		ref, err := Value(sample(t, "reference/"+name))
		require.NoError(t, err)
		rows = append(rows, row{name, sample(t, name), ref})
	}
	for _, name := range []string{"studio", "newcomer", "small-round", "oval", "front-loader"} {
		l := crowded(sample(t, name), map[string]float64{"studio": 1.5}[name]+2)
		rows = append(rows, row{name + " crowded", l, 0})
	}
	only := os.Getenv("ONLY")
	for _, r := range rows {
		if only != "" && !strings.Contains(r.name, only) {
			continue
		}
		for seed := uint64(1); seed <= seeds; seed++ {
			s, err := Start(r.load.Clone(), seed)
			require.NoError(t, err)
			line := fmt.Sprintf("%-24s seed %d", r.name, seed)
			done := int64(0)
			if r.ref == 0 {
				b, err := Bound(r.load)
				require.NoError(t, err)
				r.ref = b.Value
			}
			for _, w := range works {
				s.Step(w - done)
				done = w
				line += fmt.Sprintf("  %7.3f (%.3f)", s.worthSet(), s.worthSet()/r.ref)
			}
			t.Log(line)
		}
	}
}
