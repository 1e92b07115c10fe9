package drawing

import "math"

// quarters divides a turn in degrees into equal pieces of at most 90. More
// than one turn is drawn as one.
func quarters(from, to float64) (n int, step float64) {
	turn := max(-360, min(360, to-from))
	n = max(1, int(math.Ceil(math.Abs(turn)/90-1e-9)))
	return n, turn / float64(n)
}

// arcHandle is the length of a Bezier handle for an arc of the given degrees
// and radius 1: 4/3 tan(a/4), the choice that meets the arc at its middle.
func arcHandle(degrees float64) float64 {
	s, c := sinCos(degrees / 4)
	if degrees < 0 {
		s, c = sinCos(-degrees / 4)
		s = -s
	}
	return 4.0 / 3 * s / c
}
