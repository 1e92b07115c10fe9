package bounds

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

// equalRecords reads the best known radius of the smallest container of n unit
// discs from the shared sample, or THREEPOST_RECORDS.
//
// Source: the column source of every row (E. Specht, Packomania).
func equalRecords(t *testing.T, container string) map[int]float64 {
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
	out := map[int]float64{}
	for _, row := range rows[1:] {
		if row[0] == "equal" && row[2] == container {
			n, err := strconv.Atoi(row[1])
			require.NoError(t, err)
			out[n], err = strconv.ParseFloat(row[4], 64)
			require.NoError(t, err)
		}
	}
	require.NotEmpty(t, out)
	return out
}

func outline(t require.TestingT) func(plane.Outline, error) plane.Outline {
	return func(o plane.Outline, err error) plane.Outline {
		require.NoError(t, err)
		return o
	}
}

// A packing that somebody found is never more than the bound: unit discs in
// the record's container are points 1 inside it and 2 apart.
func TestLawPointsAreNeverFewerThanARecordsPacking(t *testing.T) {
	for n, r := range equalRecords(t, "circle") {
		got := Points(outline(t)(plane.Round(2*r*(1+1e-9))), 1, 2)
		require.GreaterOrEqual(t, got, n, "circle of %d", n)
		require.LessOrEqual(t, got, n+2+n/5, "circle of %d: the bound says little", n)
	}
	for n, r := range equalRecords(t, "halfdisc") {
		got := Points(outline(t)(plane.HalfRound(2*r*(1+1e-9), r*(1+1e-9))), 1, 2)
		require.GreaterOrEqual(t, got, n, "half disc of %d", n)
		require.LessOrEqual(t, got, n+2+n/5, "half disc of %d: the bound says little", n)
	}
}

// Where a hexagon of seven just goes in, no eighth does: 7 discs of radius 1
// in a circle of 3, and 7 in the half disc of the records.
func TestPointsOfTheTightCases(t *testing.T) {
	require.Equal(t, 7, Points(outline(t)(plane.Round(6)), 1, 2))
	half := equalRecords(t, "halfdisc")
	require.Contains(t, half, 7)
	require.Equal(t, 7, Points(outline(t)(plane.HalfRound(2*half[7], half[7])), 1, 2))
	// A triangular piece of the lattice is Oler's own case of equality
	// (Oler 1961; Folkman & Graham 1969): k(k+1)/2 points, k on a side.
	for k := 2; k < 9; k++ {
		side := float64(k - 1)
		tri := outline(t)(plane.Polygon([]plane.Vec{{0, 0}, {side, 0}, {side / 2, side * math.Sqrt(3) / 2}}))
		require.Equal(t, k*(k+1)/2, Points(tri, 0, 1), "triangle of %d", k)
	}
}

// Points at random places that keep their distance are never more than the
// bound, in every shape and beside a cut.
func TestLawPointsAreNeverFewerThanRandomOnes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		across := rapid.Float64Range(50, 700).Draw(t, "across")
		deep := across * rapid.Float64Range(0.3, 1).Draw(t, "deep")
		o := []plane.Outline{
			outline(t)(plane.Round(across)), outline(t)(plane.HalfRound(across, across/2)),
			outline(t)(plane.Oval(across, deep)), outline(t)(plane.HalfOval(across, deep/2)),
			outline(t)(plane.Sided(12, across, 0)), outline(t)(plane.Rectangle(across, deep)),
		}[rapid.IntRange(0, 5).Draw(t, "shape")].At(plane.Pose{Turn: rapid.Float64Range(0, 360).Draw(t, "turn")})
		apart := rapid.Float64Range(8, 200).Draw(t, "apart")
		inset := rapid.Float64Range(-10, 60).Draw(t, "inset")
		side := Side{Out: plane.FromBearing(1, rapid.Float64Range(0, 360).Draw(t, "cut")), At: rapid.Float64Range(-100, 200).Draw(t, "at")}
		lo, hi := o.Bounds()
		var set []plane.Vec
		// The rows of a lattice, where they keep the inset and the side.
		for y := lo[1] - 10; y < hi[1]+10; y += apart * math.Sqrt(3) / 2 {
			odd := float64(int(math.Round((y-lo[1]+10)/(apart*math.Sqrt(3)/2)))%2) * apart / 2
			for x := lo[0] - 10 + odd; x < hi[0]+10; x += apart {
				p := plane.Vec{x, y}
				if o.Depth(p) >= inset && plane.Dot(p, side.Out) <= side.At {
					set = append(set, p)
				}
			}
		}
		require.LessOrEqual(t, len(set), Points(o, inset, apart*(1-1e-12), side))
	})
}

// What has no meaning has no bound, or no room.
func TestPointsOfDegenerateInput(t *testing.T) {
	o := outline(t)(plane.Round(100))
	require.Equal(t, 0, Points(plane.Outline{}, 0, 10))
	require.Equal(t, 0, Points(o, 51, 10), "deeper than the middle")
	require.Equal(t, 1, Points(o, 49, 1e6), "a point is always one")
	require.Equal(t, -1, Points(o, 0, 0))
	require.Equal(t, -1, Points(o, 0, -1))
	require.Equal(t, -1, Points(o, 0, math.Inf(1)))
	require.Equal(t, -1, Points(o, 0, math.NaN()))
	require.Equal(t, -1, Points(o, math.NaN(), 1))
	require.Equal(t, -1, Points(o, 0, 1e-5), "a count of no use")
	require.Equal(t, 0, Points(o, 0, 10, Side{Out: plane.Vec{1, 0}, At: -60}), "nothing lies on that side")
}
