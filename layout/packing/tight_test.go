package packing

import (
	"maps"
	"os"
	"runtime"
	"slices"
	"sort"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// recordProblem is a record's discs in a container of radius 1 m.
func recordProblem(t testing.TB, rec record) Problem {
	o := round(t, 2000)
	if rec.container == "halfdisc" {
		var err error
		o, err = plane.HalfRound(2000, 1000)
		require.NoError(t, err)
	}
	p := discs(o, rec.radii, 0, 0)
	p.Grid = 1e-6
	return p
}

func median(list []float64) float64 {
	list = append([]float64(nil), list...)
	sort.Float64s(list)
	return list[len(list)/2]
}

// second is the units of work of n discs that take about a second on one core:
// the figure beside each row tells how nearly.
func second(n int) int64 { return int64(min(30000+6500*n, 420000)) }

// whole says that the records are to be run with all their work: for a file of
// one's own, and in long runs.
func whole() bool { return long() || os.Getenv("THREEPOST_RECORDS") != "" }

// result is how far over a record's radius every seed ends, %.
type result struct {
	record
	over  []float64
	work  int64
	speed float64 // units a second on one core
	naive naive   // what people do without a search
}

func (r result) worst() float64 {
	w := r.over[0]
	for _, o := range r.over {
		w = max(w, o)
	}
	return w
}

// againstRecords runs Tight on every row with a share of a second's work, as
// many rows beside each other as there are cores.
func againstRecords(t *testing.T, seeds int, share float64) []result {
	list := readRecords(t)
	out := make([]result, len(list))
	var rows sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		rows.Go(func() {
			for i := range next {
				out[i] = againstRecord(t, list[i], seeds, int64(share*float64(second(list[i].n))))
			}
		})
	}
	for i := range list {
		next <- i
	}
	close(next)
	rows.Wait()
	for _, r := range out {
		t.Logf("%-9s %-8s n %3d: median %9.5f %%, worst %9.5f %% over the record; %d units at %.0f a second; %s",
			r.family, r.container, r.n, median(r.over), r.worst(), r.work, r.speed, r.naive)
	}
	return out
}

func againstRecord(t *testing.T, rec record, seeds int, work int64) result {
	p := recordProblem(t, rec)
	r := result{record: rec, work: work}
	begin := time.Now()
	for seed := 1; seed <= seeds; seed++ {
		got, f, err := Tight(p, uint64(seed), work)
		if !assert.NoError(t, err) || !assert.Len(t, got.Set, rec.n) {
			return r
		}
		over := 100 * (1000/f/rec.best - 1)
		r.over = append(r.over, over)
		// the law: the discs, grown by the factor, are apart and inside; and
		// nothing is smaller than the best known, but for the record's digits
		assert.GreaterOrEqual(t, scaledSlack(p, got.Set, f), -1e-6)
		assert.Greater(t, over, -1e-3, "n %d below the record of %s", rec.n, rec.source)
	}
	r.speed = float64(work) * float64(seeds) / time.Since(begin).Seconds()
	r.naive = naively(rec)
	return r
}

// bar is the most that the median of a row may be over its record, %.
func bar(r record, tenth bool) float64 {
	switch {
	case r.family == "one-to-n" && tenth && r.n <= 20:
		return 1.2
	case r.family == "one-to-n" && tenth:
		return 4
	case r.family == "one-to-n" && r.n <= 15:
		return 0.01
	case r.family == "one-to-n" && r.n <= 20:
		return 0.3
	case r.family == "one-to-n":
		return 1
	case tenth && r.family == "equal" && r.n <= 50:
		return 0.3
	case tenth:
		return 2
	case r.family == "equal" && r.container == "halfdisc":
		return 0.01
	case r.family == "equal":
		return 1 // and 0.01 on most rows
	}
	return 0.1
}

// How close Tight comes to the best known radii with a tenth of a second's
// work; and with all of it, five seeds, when THREEPOST_RECORDS names a file or
// THREEPOST_LONG is set.
func TestTightAgainstRecords(t *testing.T) {
	t.Run("tenth", func(t *testing.T) {
		for _, r := range againstRecords(t, 3, 0.1) {
			require.LessOrEqual(t, median(r.over), bar(r.record, true), "n %d of %s", r.n, r.source)
			require.LessOrEqual(t, median(r.over), r.naive.least()+1e-5, "n %d: %s", r.n, r.naive)
		}
	})
	if !whole() {
		t.Log("a tenth of a second's work, 3 seeds; THREEPOST_LONG=1 spends it all on five")
		return
	}
	t.Run("whole", func(t *testing.T) {
		equal, near := 0, 0
		for _, r := range againstRecords(t, 5, 1) {
			require.LessOrEqual(t, median(r.over), bar(r.record, false), "n %d of %s", r.n, r.source)
			if r.family == "equal" && r.container == "circle" {
				equal++
				if median(r.over) <= 0.01 {
					near++
				}
			}
		}
		t.Logf("equal discs in a circle: %d of %d rows within 0.01 %%", near, equal)
		require.GreaterOrEqual(t, float64(near), 0.95*float64(equal))
	})
}

// What more work buys: the mean of the rows' medians by family, %.
func TestWorkAgainstRecords(t *testing.T) {
	shares := []float64{0.01, 0.03}
	if long() {
		shares = append(shares, 0.1, 0.3, 1)
	} else {
		t.Log("up to 3 % of a second's work; THREEPOST_LONG=1 goes on to the whole")
	}
	for _, share := range shares {
		sum, rows := map[string]float64{}, map[string]float64{}
		for _, r := range againstRecords(t, 3, share) {
			family := r.family + " in a " + r.container
			sum[family] += median(r.over)
			rows[family]++
		}
		for _, f := range slices.Sorted(maps.Keys(sum)) {
			t.Logf("%4.0f %% of a second: %-20s %8.4f %% over, mean of the medians", 100*share, f, sum[f]/rows[f])
		}
	}
}

// scaledSlack is the slack when all needs are f times as much.
func scaledSlack(p Problem, set []Standing, f float64) float64 {
	q := p
	q.Kinds = append([]Kind(nil), p.Kinds...)
	for i := range q.Kinds {
		q.Kinds[i].Limits = append([]Limit(nil), q.Kinds[i].Limits...)
		for j := range q.Kinds[i].Limits {
			q.Kinds[i].Limits[j].Depth *= f
		}
	}
	q.Need = NewNeeds(p.Kinds)
	for a := range p.Kinds {
		for b := range p.Kinds {
			q.Need.Set(a, 0, b, 0, f*p.Need[a][0][b][0])
		}
	}
	return Slack(&q, set)
}
