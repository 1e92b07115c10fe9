package measure

// SayGap says a gap as a hand feels it, in mm: "a pencil", "two fingers".
func SayGap(mm float64) string { return "" }

// SayGapIn is SayGap with figures in the person's units.
func SayGapIn(mm float64, in Units) string { return "" }
