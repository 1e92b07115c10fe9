package statics

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestPlateTable reads the published table back: Timoshenko &
// Woinowsky-Krieger (edge, from memory) and own Ritz computation (inset).
func TestPlateTable(t *testing.T) {
	f, err := os.Open("../../testdata/tables/plate.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	checked := 0
	for _, row := range rows[1:] {
		cut := strings.SplitAfter(row[0], "r/a=")
		if len(cut) != 2 || !strings.Contains(row[0], "3 square posts") {
			continue
		}
		ratio, err := strconv.ParseFloat(cut[1], 64)
		require.NoError(t, err)
		sag, err := strconv.ParseFloat(row[2], 64)
		require.NoError(t, err)
		hog, err := strconv.ParseFloat(row[7], 64)
		require.NoError(t, err)
		// a = 1 m of plate, q and D of one: mass such that q a^2 is known.
		e, ok := Plate(100, 10, 100*ratio, 1, 20000)
		require.True(t, ok)
		q := 9.80665 / (math.Pi * 100 * 100)
		d := 20000.0 * 1000 / (12 * 0.9375)
		require.InEpsilon(t, sag*q*1e8/d, e.Sag, 1e-9, row[0])
		require.InEpsilon(t, -hog*q*1e4, e.Moment, 1e-9, row[0])
		require.InEpsilon(t, 6*e.Moment/100, e.Stress, 1e-12)
		checked++
	}
	require.Equal(t, 7, checked)
}

// Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells: a circular
// plate on three points of its edge sags 0.0362 P a^2 / D (from memory).
func TestPlateOnItsEdge(t *testing.T) {
	e, ok := Plate(200, 15, 200, 10, 20000)
	require.True(t, ok)
	d := 20000.0 * 15 * 15 * 15 / (12 * (1 - 0.25*0.25))
	require.InEpsilon(t, 0.0362*10*9.80665*200*200/d, e.Sag, 2e-3)
}

func TestPlateRefuses(t *testing.T) {
	for name, c := range map[string][5]float64{
		"posts too far in":   {200, 15, 100, 10, 20000},
		"posts past the rim": {200, 15, 201, 10, 20000},
		"no thickness":       {200, 0, 170, 10, 20000},
		"no radius":          {0, 15, 0, 10, 20000},
		"not a number":       {200, 15, math.NaN(), 10, 20000},
		"no modulus":         {200, 15, 170, 10, 0},
		"negative mass":      {200, 15, 170, -1, 20000},
	} {
		_, ok := Plate(c[0], c[1], c[2], c[3], c[4])
		require.False(t, ok, name)
	}
}

// A thicker shelf, or posts further in, sag less.
func TestPlateFallsWithThicknessAndInset(t *testing.T) {
	last := math.Inf(1)
	for _, r := range []float64{200, 190, 180, 170, 160, 150, 140, 130, 120} {
		e, ok := Plate(200, 15, r, 10, 20000)
		require.True(t, ok)
		require.Less(t, e.Sag, last)
		last = e.Sag
		thick, _ := Plate(200, 19, r, 10, 20000)
		require.Less(t, thick.Sag, e.Sag)
		require.Less(t, thick.Stress, e.Stress)
	}
}
