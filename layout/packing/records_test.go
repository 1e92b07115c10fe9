package packing

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// record is a row of the records: the best known radius of the smallest
// container (of the full disc for a half disc) for given discs.
type record struct {
	family    string
	n         int
	container string
	radii     []float64
	best      float64
	source    string
}

// readRecords reads THREEPOST_RECORDS, or the sample in testdata.
//
// Source: the column source of every row; E. Specht, Packomania (equal circles
// in a circle, in a semicircle, radii 1..N in a circle); Ye, Huang & Lu,
// arXiv:1306.0694.
func readRecords(t testing.TB) []record {
	t.Helper()
	name := os.Getenv("THREEPOST_RECORDS")
	if name == "" {
		name = "../../testdata/packing/records.csv"
	}
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"family", "n", "container", "radii", "best_R", "source"}, rows[0])
	var list []record
	for _, row := range rows[1:] {
		r := record{family: row[0], container: row[2], source: row[5]}
		r.n, err = strconv.Atoi(row[1])
		require.NoError(t, err)
		r.radii = parseRadii(t, row[3])
		require.Len(t, r.radii, r.n)
		r.best, err = strconv.ParseFloat(row[4], 64)
		require.NoError(t, err)
		list = append(list, r)
	}
	return list
}

// parseRadii reads "1*7", "1..9", "3 2.5*2" with blanks, commas or semicolons
// between.
func parseRadii(t testing.TB, text string) []float64 {
	t.Helper()
	var list []float64
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;", r) }) {
		if a, b, ok := strings.Cut(w, ".."); ok {
			from, err := strconv.Atoi(a)
			require.NoError(t, err)
			to, err := strconv.Atoi(b)
			require.NoError(t, err)
			for k := from; k <= to; k++ {
				list = append(list, float64(k))
			}
			continue
		}
		a, b, many := strings.Cut(w, "*")
		r, err := strconv.ParseFloat(a, 64)
		require.NoError(t, err)
		k := 1
		if many {
			k, err = strconv.Atoi(b)
			require.NoError(t, err)
		}
		for ; k > 0; k-- {
			list = append(list, r)
		}
	}
	return list
}

// discs is the problem of placing discs, radii in mm, with gap between them
// and edge to the outline.
func discs(o plane.Outline, radii []float64, gap, edge float64) Problem {
	p := Problem{Areas: []Area{{Outlines: []plane.Outline{o}}}}
	var sizes []float64
	for _, r := range radii {
		k := -1
		for i, s := range sizes {
			if s == r {
				k = i
			}
		}
		if k < 0 {
			k = len(sizes)
			sizes = append(sizes, r)
			p.Kinds = append(p.Kinds, Kind{Parts: []plane.Skeleton{{{0, 0}}}, Limits: []Limit{{0, 0, r + edge}}})
			p.Wants = append(p.Wants, Want{Kind: k, Value: r * r})
		}
		p.Wants[k].Count++
	}
	p.Need = NewNeeds(p.Kinds)
	for a := range sizes {
		for b := range sizes {
			p.Need.Set(a, 0, b, 0, sizes[a]+sizes[b]+gap)
		}
	}
	return p
}

func round(t testing.TB, across float64) plane.Outline {
	t.Helper()
	o, err := plane.Round(across)
	require.NoError(t, err)
	return o
}

// On a round shelf of 1.01 times the record radius, with the gap g between
// pots and none to the edge, all pots are placed: discs of r + g/2 in a circle
// of R + g/2.
func TestAllAtOnePercentOverTheRecords(t *testing.T) {
	const r, g = 40.0, 6.0
	want := map[int]bool{7: true, 12: true, 19: true, 30: true, 37: true}
	for _, rec := range readRecords(t) {
		if rec.family != "equal" || rec.container != "circle" || !want[rec.n] {
			continue
		}
		delete(want, rec.n)
		for seed := uint64(1); seed <= 3; seed++ {
			R := rec.best*(r+g/2)*1.01 - g/2
			p := discs(round(t, 2*R), repeat(r, rec.n), g, 0)
			got, err := Fill(p, seed, 400000)
			require.NoError(t, err)
			require.True(t, Valid(&p, got.Set))
			t.Logf("N=%d seed %d: %d placed, work %d", rec.n, seed, len(got.Set), got.Work)
			require.Len(t, got.Set, rec.n, "N=%d of %s", rec.n, rec.source)
		}
	}
	require.Empty(t, want)
}

func repeat(r float64, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = r
	}
	return list
}

// long says that long sweeps are wanted.
func long() bool { return os.Getenv("THREEPOST_LONG") != "" }
