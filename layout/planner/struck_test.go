package planner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

// TestAProbeAtHalfHeightLeavesMoreThanOneLevel has alike mugs whose levels, all
// of one height, meet the probe in whatever order: the plan takes another
// height for one of them, and does not leave the kiln all but empty.
func TestAProbeAtHalfHeightLeavesMoreThanOneLevel(t *testing.T) {
	t.Parallel()
	square := func(height float64, count int) layout.PostKind {
		return layout.PostKind{Height: height, Section: layout.Section{Kind: layout.SquareSection, Width: 38}, Count: count}
	}
	l := &layout.Load{Units: "mm", Firing: layout.Firing{Stage: layout.Glaze, Cone: "6"},
		Kiln: layout.Kiln{Chamber: layout.Shape{Kind: layout.Round, Across: 584}, Height: 600, Opens: layout.Top,
			Probes: []layout.Probe{{At: 270, Height: 280, Reach: 40, Diameter: 12}}},
		Furniture: layout.Furniture{
			Shelves: []layout.ShelfKind{{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: 530}, Thick: 16, Count: 4}},
			Posts:   []layout.PostKind{square(25, 3), square(110, 9), square(150, 3)}},
		Ware: []layout.Ware{{Name: "mug", Count: 60, Silhouette: layout.Tumbler, Height: 96, Across: 86, Clay: layout.Material{Cone: "6"}}}}
	s, err := Start(l, 1)
	require.NoError(t, err)
	s.Step(6000)
	p, ok := s.Best()
	require.True(t, ok)
	require.Zero(t, p.Report.Problems+p.Report.Watches)
	require.GreaterOrEqual(t, p.Levels, 3, "without a look at the probe there is no plan at all")

	// Alike storeys of 110 have a shelf at the probe's height in any order.
	c := s.context
	for _, dv := range c.maker().divisions() {
		if len(dv.sites) == 1 && dv.base == nil {
			require.True(t, c.struck(&design{division: dv, floor: 25, lists: []list{{heights: []float64{110, 110, 110}}}}))
			require.False(t, c.struck(&design{division: dv, floor: 25, lists: []list{{heights: []float64{110, 150, 110}}}}))
		}
	}
}
