package packing

import (
	"sort"
	"testing"
	"time"

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
func second(n int) int64 { return int64(min(30000+3000*n, 200000)) }

// How close Tight comes to the best known radii. The bars here are loose, for
// little work; the figures are printed. THREEPOST_LONG=1 spends about a second
// on every row and five seeds.
func TestTightAgainstRecords(t *testing.T) {
	seeds := uint64(1)
	if long() {
		seeds = 5
	}
	for _, rec := range readRecords(t) {
		p := recordProblem(t, rec)
		work := int64(2500)
		if long() {
			work = second(rec.n)
		}
		var over []float64
		begin := time.Now()
		for seed := uint64(1); seed <= seeds; seed++ {
			r, f, err := Tight(p, seed, work)
			require.NoError(t, err)
			require.Len(t, r.Set, rec.n)
			over = append(over, 100*(1000/f/rec.best-1))
			// the law: the discs, grown by the factor, are apart and inside
			require.GreaterOrEqual(t, scaledSlack(p, r.Set, f), -1e-6)
		}
		took := time.Since(begin).Seconds() / float64(seeds)
		worst := over[0]
		for _, o := range over {
			worst = max(worst, o)
			require.Greater(t, o, -1e-3, "n %d below the record of %s", rec.n, rec.source)
		}
		t.Logf("%-9s %-8s n %3d: median %9.5f %%, worst %9.5f %% over the record; %.2f s, %.0f units/s",
			rec.family, rec.container, rec.n, median(over), worst, took, float64(work)/took)
		bar := 1.0
		switch {
		case rec.family == "one-to-n" && rec.n > 20:
			bar = 6
		case rec.family == "one-to-n" && rec.n > 10:
			bar = 4
		}
		require.Less(t, median(over), bar, "n %d of %s", rec.n, rec.source)
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
