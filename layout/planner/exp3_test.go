package planner

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// fixed designs
func TestExpFixed(t *testing.T) {
	fmt.Sscan(os.Getenv("PAR"), &walkLoss, &walkBack, &pairWork, &aloneWork, &rollA, &rollB)
	l := sample(t, "studio")
	s, err := Start(l, 1)
	require.NoError(t, err)
	for len(s.tasks) > 0 && len(s.field) < 100 {
		task := s.tasks[0]
		s.tasks = s.tasks[1:]
		task()
	}
	for len(s.tasks) > 20 || len(s.tasks) < 8 {
		task := s.tasks[0]
		s.tasks = s.tasks[1:]
		task()
	}
	for _, want := range strings.Split(os.Getenv("EXP"), "|") {
		var d *design
		for _, x := range s.field {
			c := &candidate{frame: &frame{design: x}}
			if w := s.way(c); w.heights == want {
				d = x
			}
		}
		if d == nil {
			for i, x := range s.field {
				if i < 40 {
					c := &candidate{frame: &frame{design: x}}
					t.Log(s.way(c))
				}
			}
			t.Fatal("no")
		}
		t0 := time.Now()
		sum := [5]float64{}
		for seed := uint64(11); seed < 16; seed++ {
			q := newSearch(s.context, seed)
			d.mixed = 0
			f, err := q.erect(d)
			require.NoError(t, err)
			q.placeCones(f)
			q.fillAll(f, 1500, 1)
			q.keep(f)
			sum[0] += q.worthSet()
			line := fmt.Sprintf("%d quick %.2f", q.spent, q.worthSet())
			for i := range 4 {
				if os.Getenv("WALK") == "" {
					q.Step(10000)
				} else {
					w := &walk{at: q.best, best: q.best}
					for lim := q.spent + 10000; q.spent < lim; {
						q.step(w)
					}
					q.best = w.best
				}
				sum[i+1] += q.worthSet()
				line += fmt.Sprintf("  %d: %.3f", q.spent, q.worthSet())
			}
			t.Log(line)
		}
		t.Logf("%s mean %.3f %.3f %.3f %.3f %.3f %v", want, sum[0]/5, sum[1]/5, sum[2]/5, sum[3]/5, sum[4]/5, time.Since(t0))
	}
}

func TestZDbg(t *testing.T) {
	for k, d := range Dbg {
		t.Logf("%s best %.0f gain %.2f: n %.0f work %.0f (%.0f each) better %.0f gain %.2f  per 1000: %.4f", k, d[4], d[5], d[0], d[1], d[1]/d[0], d[2], d[3], 1000*d[3]/d[1])
	}
}
