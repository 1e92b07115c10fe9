package planner

import (
	"fmt"
	"os"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

func cpu() time.Duration {
	var r syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &r)
	return time.Duration(r.Utime.Nano())
}

func TestExp(t *testing.T) {
	seeds := uint64(3)
	fmt.Sscan(os.Getenv("SEEDS"), &seeds)
	works := []int64{10000, 30000, 100000}
	type row struct {
		name string
		load *layout.Load
		ref  float64
	}
	rows := []row{
		{"studio", sample(t, "studio"), 80.085},
		{"studio crowded", crowded(sample(t, "studio"), 3.5), 93.393},
		{"newcomer crowded", crowded(sample(t, "newcomer"), 2), 19.923},
		{"oval crowded", crowded(sample(t, "oval"), 2), 97.462},
		{"front crowded", crowded(sample(t, "front-loader"), 2), 244.257},
		{"planted 6", plant(t, 6).load, 0},
		{"planted 17", plant(t, 17).load, 0},
	}
	total := make([]float64, len(works))
	for _, r := range rows {
		if r.ref == 0 {
			for _, w := range r.load.Ware {
				_ = w
			}
			c, err := newContext(r.load)
			require.NoError(t, err)
			for _, k := range c.kinds {
				r.ref += k.worth * float64(len(k.free))
			}
		}
		t0 := cpu()
		sums := make([]float64, len(works))
		for seed := uint64(1); seed <= seeds; seed++ {
			s, err := Start(r.load.Clone(), seed)
			require.NoError(t, err)
			done := int64(0)
			for i, w := range works {
				s.Step(w - done)
				done = w
				sums[i] += s.worthSet() / r.ref / float64(seeds)
			}
		}
		line := fmt.Sprintf("%-18s", r.name)
		for i, v := range sums {
			line += fmt.Sprintf("  %.4f", v)
			total[i] += v / float64(len(rows))
		}
		t.Log(line, (cpu() - t0).Round(time.Millisecond))
	}
	t.Logf("mean %.4f", total)
}
