package raster

import (
	"math"

	"threepost/render/scene"
)

// stripe is how much of a stripe lies at a place across a pattern, 0 to 1.
func stripe(at, apart, wide float64) float64 {
	d := math.Abs(at/apart-math.Floor(at/apart)-0.5) * apart
	return 1 - smooth(wide/2-0.5, wide/2+0.5, d)
}

// smooth rises from 0 at lo to 1 at hi.
func smooth(lo, hi, x float64) float64 {
	t := math.Min(1, math.Max(0, (x-lo)/(hi-lo)))
	return t * t * (3 - 2*t)
}

// hatched is the ink of a pattern at px of the screen, y running down, and how
// much of it.
func hatched(h scene.Hatch, x, y float64, look *scene.Look) (scene.Colour, float64) {
	up, down := (x+y)*math.Sqrt2/2, (x-y)*math.Sqrt2/2
	const soft = 0.62
	switch h {
	case scene.WatchLines:
		return look.Watch, stripe(up, 8, 1.8)
	case scene.FaultLines:
		return look.Problem, stripe(up, 5, 1.8)
	case scene.Rising:
		return look.Ink, soft * stripe(up, 9, 1.2)
	case scene.Falling:
		return look.Ink, soft * stripe(down, 9, 1.2)
	case scene.LevelLines:
		return look.Ink, soft * stripe(y, 8, 1.2)
	case scene.UprightLines:
		return look.Ink, soft * stripe(x, 8, 1.2)
	case scene.Crossed:
		return look.Ink, soft * math.Max(stripe(up, 11, 1.2), stripe(down, 11, 1.2))
	case scene.Dots:
		cx, cy := (x/8-math.Floor(x/8)-0.5)*8, (y/8-math.Floor(y/8)-0.5)*8
		return look.Ink, soft * (1 - smooth(1, 2, math.Hypot(cx, cy)))
	case scene.Dashes:
		row := math.Floor(y / 9)
		at := x/13 + 0.5*math.Mod(row, 2)
		if at-math.Floor(at) < 0.45 {
			return look.Ink, 0
		}
		return look.Ink, soft * stripe(y, 9, 1.2)
	}
	return look.Ink, 0
}
