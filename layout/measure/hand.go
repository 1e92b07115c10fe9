package measure

import "math"

// SayGap says a gap of so many mm as a hand feels it: "a pencil" (5 to 10),
// "one finger" (11 to 24), "two fingers" (25 to 41), "three fingers" (42 to
// 59), "a hand's breadth" (60 to 99). Those widths are our choice after common
// practice. Less is "under a pencil (4 mm)", nothing is "touching", 100 and
// more the figure. Parts of a mm are dropped: a gap is never said larger.
func SayGap(mm float64) string { return SayGapIn(mm, MM) }

// SayGapIn is SayGap with its figures in the person's units, rounded down.
func SayGapIn(mm float64, in Units) string {
	whole := math.Floor(mm + Tolerance)
	switch {
	case math.IsNaN(mm) || math.IsInf(mm, 0):
		return "unknown"
	case mm <= Tolerance:
		return "touching"
	case whole < 1 || FormatLengthTo(mm, in, Down, PostGrain) == "0":
		return "under " + SayLengthTo(1, in, Up, PostGrain)
	case whole < 5:
		return "under a pencil (" + SayLengthTo(mm, in, Down, PostGrain) + ")"
	case whole < 11:
		return "a pencil"
	case whole < 25:
		return "one finger"
	case whole < 42:
		return "two fingers"
	case whole < 60:
		return "three fingers"
	case whole < 100:
		return "a hand's breadth"
	}
	return SayLength(mm, in, Down)
}
