package statics

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// oracleCase is a case of schema statics-oracle/1.
type oracleCase struct {
	ID    string `json:"id"`
	Shelf struct {
		Mass     float64    `json:"mass_kg"`
		Centroid [2]float64 `json:"centroid"`
	} `json:"shelf"`
	Supports [][2]float64 `json:"supports"`
	Loads    []struct {
		Mass float64    `json:"mass_kg"`
		At   [2]float64 `json:"at"`
	} `json:"loads"`
	Expect struct {
		Total     float64      `json:"total_kg"`
		Balance   [2]float64   `json:"cg"`
		Margin    float64      `json:"cg_margin_mm"`
		Status    string       `json:"status"`
		Reactions []float64    `json:"reactions_kg"`
		Least     *float64     `json:"min_reaction_kg"`
		Nominal   []float64    `json:"nominal_kg"`
		Range     [][2]float64 `json:"range_kg"`
		MinNorm   []float64    `json:"min_norm_kg"`
		Bilateral []float64    `json:"bilateral_min_norm_kg"`
		Lifts     []int        `json:"lifts"`
	} `json:"expect"`
}

// TestOracleSupports checks against cases worked by independent methods: exact
// fractions (Cramer) and a linear solver for three supports, a quadratic and a
// linear program for more. THREEPOST_SUPPORTS names another file.
func TestOracleSupports(t *testing.T) {
	path := os.Getenv("THREEPOST_SUPPORTS")
	if path == "" {
		path = "../../testdata/oracle/supports.json"
	}
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	var file struct {
		Schema string       `json:"schema"`
		Tol    float64      `json:"tol_kg"`
		Three  []oracleCase `json:"three"`
		Many   []oracleCase `json:"many"`
	}
	require.NoError(t, json.Unmarshal(raw, &file))
	require.Equal(t, "statics-oracle/1", file.Schema)
	require.NotEmpty(t, file.Three)
	require.Greater(t, file.Tol, 0.0)
	for _, c := range file.Three {
		t.Run(c.ID, func(t *testing.T) { checkThree(t, c, file.Tol) })
	}
	for _, c := range file.Many {
		t.Run(c.ID, func(t *testing.T) { checkMany(t, c, file.Tol) })
	}
	t.Logf("%s: %d cases of three supports, %d of more", file.Schema, len(file.Three), len(file.Many))
}

// solveCase solves a case and checks what both kinds share.
func solveCase(t *testing.T, c oracleCase, tol float64) Result {
	loads := []Load{{Mass: c.Shelf.Mass, At: plane.Vec(c.Shelf.Centroid)}}
	for _, l := range c.Loads {
		loads = append(loads, Load{Mass: l.Mass, At: plane.Vec(l.At)})
	}
	supports := make([]plane.Vec, len(c.Supports))
	for i, s := range c.Supports {
		supports[i] = plane.Vec(s)
	}
	r := Solve(supports, loads)
	require.InDelta(t, c.Expect.Total, r.Total, tol)
	require.InDelta(t, c.Expect.Balance[0], r.Balance[0], 1e-6)
	require.InDelta(t, c.Expect.Balance[1], r.Balance[1], 1e-6)
	require.InDelta(t, c.Expect.Margin, r.Margin, 1e-6)
	require.Contains(t, []string{"tips", "stable"}, c.Expect.Status)
	require.Equal(t, c.Expect.Status == "tips", r.Tips)
	return r
}

func checkThree(t *testing.T, c oracleCase, tol float64) {
	r := solveCase(t, c, tol)
	closeTo(t, c.Expect.Reactions, r.Reactions, tol)
	require.NotNil(t, c.Expect.Least)
	least := r.Reactions[0]
	for _, v := range r.Reactions {
		least = min(least, v)
	}
	require.InDelta(t, *c.Expect.Least, least, tol)
}

func checkMany(t *testing.T, c oracleCase, tol float64) {
	r := solveCase(t, c, tol)
	if c.Expect.MinNorm != nil {
		closeTo(t, c.Expect.MinNorm, r.Bilateral, tol)
	}
	if c.Expect.Bilateral != nil {
		closeTo(t, c.Expect.Bilateral, r.Bilateral, tol)
	}
	if r.Tips {
		require.Nil(t, c.Expect.Nominal)
		require.Nil(t, c.Expect.Range)
		require.Nil(t, r.Worst)
		return
	}
	closeTo(t, c.Expect.Nominal, r.Reactions, tol)
	require.Len(t, r.Worst, len(c.Expect.Range))
	for i, want := range c.Expect.Range {
		require.InDelta(t, want[0], r.Worst[i][0], tol, "least of support %d", i)
		require.InDelta(t, want[1], r.Worst[i][1], tol, "most of support %d", i)
	}
	require.ElementsMatch(t, c.Expect.Lifts, r.Lifts)
}

func closeTo(t *testing.T, want, got []float64, tol float64) {
	t.Helper()
	require.Len(t, got, len(want))
	for i := range want {
		require.InDelta(t, want[i], got[i], tol, "support %d", i)
	}
}
