package stacks

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
)

// footprintGen draws a plan of a pot with the outline that package plane, by
// its own way, makes of the same measures.
func footprintGen(t *rapid.T) (footprint, plane.Outline) {
	x := rapid.Float64Range(10, 500).Draw(t, "length")
	y := rapid.Float64Range(10, 500).Draw(t, "width")
	var f footprint
	var o plane.Outline
	var err error
	switch rapid.IntRange(0, 2).Draw(t, "kind") {
	case 0:
		f = footprint{layout.Round, x, x}
		o, err = plane.Round(x)
	case 1:
		f = footprint{layout.Oval, x, y}
		o, err = plane.Oval(x, y)
	default:
		f = footprint{layout.Rectangle, x, y}
		o, err = plane.Rectangle(x, y)
	}
	require.NoError(t, err)
	return f, o
}

// The edge on a bearing lies on the outline.
func TestExitLiesOnTheOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, o := footprintGen(t)
		bearing := rapid.OneOf(rapid.Float64Range(0, 360), rapid.SampledFrom([]float64{0, 45, 90, 135, 180, 270})).Draw(t, "bearing")
		require.InDelta(t, 0, o.Depth(plane.FromBearing(f.exit(bearing), bearing)), 1e-6)
	})
}

// The area is that of the outline; less a wall, that of the outline narrowed.
func TestAreaIsThatOfTheOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, o := footprintGen(t)
		require.InEpsilon(t, o.Area(), f.area(1, 0), 1e-9)
		wall := rapid.Float64Range(0, 4).Draw(t, "wall")
		inner, err := layoutShape(f, f.length-2*wall, f.width-2*wall).Outline()
		require.NoError(t, err)
		require.InEpsilon(t, inner.Area(), f.area(1, wall), 1e-9)
		require.Zero(t, f.area(1, 300), "a wall thicker than the pot leaves nothing inside")
	})
}

func layoutShape(f footprint, x, y float64) layout.Shape {
	if f.kind == layout.Round {
		return layout.Shape{Kind: layout.Round, Across: x}
	}
	return layout.Shape{Kind: f.kind, Width: x, Depth: y}
}

// The skeleton and radius of a plan cover the outline and no more.
func TestFootprintIsItsOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, o := footprintGen(t)
		if f.kind == layout.Oval && f.length == f.width {
			return // footprintOf makes it round
		}
		w := f.at(1, 0)
		require.NoError(t, w.Skeleton.Validate())
		for _, p := range o.Points(0.05) {
			d, _, _ := plane.SignedDistance(w.Skeleton, plane.Skeleton{p})
			require.LessOrEqual(t, d-w.Radius, 1e-6)
		}
		for _, v := range w.Skeleton {
			require.InDelta(t, w.Radius, o.Depth(v), 1e-6)
		}
		more := f.at(1, 5)
		for _, p := range o.Points(5) {
			d, _, _ := plane.SignedDistance(more.Skeleton, plane.Skeleton{p})
			require.LessOrEqual(t, d-more.Radius, -5+1e-6, "5 mm all round")
		}
	})
}

// An oval as wide as it is long is a disc, which its skeleton could not be.
func TestARoundOvalIsADisc(t *testing.T) {
	f := footprintOf(&layout.Ware{Length: 100, Width: 100, Plan: layout.Oval})
	require.Equal(t, layout.Round, f.kind)
	w := f.at(1, 0)
	require.NoError(t, w.Skeleton.Validate())
	require.Equal(t, 50.0, w.Radius)
}
