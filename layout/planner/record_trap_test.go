package planner

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Seven cups fill a shelf as their record layout does, and six stoppers go into
// the holes between two outer cups and the edge: all thirteen go in, and the
// kiln takes just their height.
//
// A hole beside two discs of radius 1 in a circle of radius 3 holds a disc of
// 1 / (5/3 + 2 sqrt(1/3)) = 0.355 (Descartes' circle theorem, worked by hand).
func TestTrapStoppersInTheHolesOfARecordLayout(t *testing.T) {
	const r = 30.0 // of a cup with its allowance of 3
	across := math.Ceil(2 * (3*(r+3)*1.004 + 3))
	hole := (r+3)/(5.0/3+2*math.Sqrt(1.0/3)) - 3
	l := single(across, 25+15+62+25, 1, map[float64]int{25: 3},
		cylinder("cup", 7, 60, 2*r-3), cylinder("stopper", 6, 15, math.Floor(2*hole)-4))
	p := planned(t, l, 1, 60000)
	requireSound(t, p)
	require.Equal(t, 7, setOf(p, "cup"))
	require.Equal(t, 6, setOf(p, "stopper"))
}
