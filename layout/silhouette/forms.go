package silhouette

import (
	"math"

	"threepost/layout"
	"threepost/layout/measure"
)

// share is a profile entry in shares of the height and of the width.
type share struct{ up, wide float64 }

// formKnots is the profile of a form in shares of its height and its width,
// from the foot up. The widest entry is 1. Common practice, from memory.
func formKnots(s layout.Silhouette) []share {
	switch s {
	case layout.Mug:
		return []share{{0, 0.82}, {0.08, 0.9}, {0.5, 1}, {1, 1}}
	case layout.Tumbler:
		return []share{{0, 0.76}, {0.5, 0.9}, {1, 1}}
	case layout.Bowl:
		return []share{{0, 0.5}, {0.08, 0.5}, {0.15, 0.62}, {0.4, 0.84}, {0.7, 0.96}, {1, 1}}
	case layout.Plate:
		return []share{{0, 0.6}, {0.2, 0.62}, {0.5, 0.78}, {1, 1}}
	case layout.Vase:
		return []share{{0, 0.55}, {0.2, 0.86}, {0.4, 1}, {0.6, 0.9}, {0.8, 0.55}, {0.92, 0.42}, {1, 0.5}}
	case layout.Bottle:
		return []share{{0, 0.72}, {0.12, 0.95}, {0.3, 1}, {0.5, 0.94}, {0.65, 0.62}, {0.78, 0.36}, {0.95, 0.3}, {1, 0.36}}
	case layout.Jug:
		return []share{{0, 0.7}, {0.15, 0.92}, {0.35, 1}, {0.6, 0.86}, {0.8, 0.66}, {1, 0.72}}
	case layout.Teapot:
		return []share{{0, 0.6}, {0.2, 0.9}, {0.45, 1}, {0.75, 0.86}, {0.95, 0.5}, {1, 0.46}}
	case layout.LiddedJar:
		return []share{{0, 0.72}, {0.15, 0.92}, {0.45, 1}, {0.8, 0.95}, {1, 0.84}}
	case layout.OvalBaker:
		return []share{{0, 0.86}, {0.25, 0.94}, {1, 1}}
	}
	return []share{{0, 1}, {1, 1}}
}

// handleOf is the handle that a form usually has, at a height and a width in
// mm, in whole mm: a mug of 95 x 86 has one that reaches 38, from 19 to 81.
func handleOf(s layout.Silhouette, height, across float64) (layout.Handle, bool) {
	switch s {
	case layout.Mug:
		return limbAt(0, 0.44*across, 0.2*height, 0.85*height), true
	case layout.Jug:
		return limbAt(0, 0.32*across, 0.35*height, 0.95*height), true
	case layout.Teapot:
		return limbAt(0, 0.36*across, 0.2*height, 0.9*height), true
	}
	return layout.Handle{}, false
}

// spoutOf is the spout or the lip opposite the handle.
func spoutOf(s layout.Silhouette, height, across float64) (layout.Handle, bool) {
	switch s {
	case layout.Teapot:
		return limbAt(180, 0.42*across, 0.25*height, height), true
	case layout.Jug:
		return limbAt(180, 0.06*across, 0.85*height, height), true
	}
	return layout.Handle{}, false
}

func limbAt(at, reach, from, to float64) layout.Handle {
	from, to = math.Round(from), math.Round(to)
	return layout.Handle{At: at, Reach: math.Max(1, math.Round(reach)), From: from, To: math.Max(to, from+1), Thick: 14}
}

// figure writes mm in a sentence.
func figure(mm float64) string { return measure.FormatFile(mm) }
