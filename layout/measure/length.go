package measure

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Units is the choice of a load: what a bare length means and how measures are
// shown. The zero value shows mm.
type Units string

const (
	MM     Units = "mm" // millimetres, grams and kilograms, degrees C
	Inches Units = "in" // inches, ounces and pounds, degrees F
)

// Tolerance is the one tolerance of the program, mm: a length within it of a
// step counts as that step, and a gap within it of the need passes.
const Tolerance = 1e-6

// Longest is the longest length that can be typed, mm: 100 m.
const Longest = 1e5

// inch is one inch in mm, exact by the international agreement of 1959.
const inch = 25.4

// Round says to which side a shown length is rounded, on the number line: the
// safe side is Up for a need or a pot's size, Down for room or a gap, so that
// what is shown never promises more than there is. An overlap, a gap below 0,
// goes Down to the larger overlap.
type Round int

const (
	Nearest Round = iota // to the nearest step, halves away from zero
	Up                   // to the greater: a need, a pot's size
	Down                 // to the less: room, a gap
	Exact                // not at all: reading it again gives the same mm
)

// Grain is the finest part of an inch that is shown, as its denominator.
type Grain int

const (
	PotGrain  Grain = 8  // 1/8 in, for pots and room
	PostGrain Grain = 16 // 1/16 in, for posts and spacers
)

// finest is the finest grain that an inch rule shows.
const finest = 64

// ParseUnits reads "mm" or "in", also spelt out. An empty text is mm.
func ParseUnits(text string) (Units, error) {
	switch tidy(text) {
	case "", "mm", "millimetres", "millimeters", "metric":
		return MM, nil
	case "in", "inch", "inches":
		return Inches, nil
	}
	return MM, fmt.Errorf("%s is not a choice of units; type mm or in", quote(text))
}

// lengths is how a length is read, in mm.
func lengths(in Units) kind {
	k := kind{name: "length", example: "115, 11.5 cm or 4 1/2 in", units: "mm, cm, m, in or ft"}
	if in == Inches {
		k.example = "4 1/2, 4.5 in or 115 mm"
	}
	k.worth = func(unit string) string {
		switch unit {
		case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
			return "1"
		case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
			return "10"
		case "m", "metre", "metres", "meter", "meters":
			return "1000"
		case "in", "inch", "inches", "\"":
			return "25.4"
		case "ft", "foot", "feet", "'":
			return "304.8"
		}
		return ""
	}
	k.pair = func(big string) string {
		if k.worth(big) == "304.8" {
			return "in"
		}
		return ""
	}
	return k
}

// ParseLength reads a length and gives it in mm, correctly rounded. A bare
// number is in the given units; a unit after it wins: "4 1/2 in", `4.5"`,
// "4½", "11.5 cm", "1 ft 6 in". Exactly one comma and no dot is a decimal
// comma. Less than Tolerance is 0. It refuses, with a sentence, what is not a
// plain decimal or fraction, unknown units, and more than Longest either way
// of 0. A negative length is read: it may be a position.
func ParseLength(text string, in Units) (mm float64, err error) {
	bare := "mm"
	if in == Inches {
		bare = "in"
	}
	exact, err := lengths(in).read(text, bare)
	if err != nil {
		return 0, err
	}
	mm, _ = exact.Float64()
	switch {
	case math.Abs(mm) > Longest:
		return 0, fmt.Errorf("%s is longer than 100 m, the longest length here; check the figure and its unit", quote(text))
	case math.Abs(mm) < Tolerance:
		return 0, nil
	}
	return mm, nil
}

// ParsePositive is ParseLength for a size: it refuses 0 and less.
func ParsePositive(text string, in Units) (mm float64, err error) {
	mm, err = ParseLength(text, in)
	if err == nil && mm <= 0 {
		return 0, fmt.Errorf("%s is not more than 0; type a length like %s", quote(text), lengths(in).example)
	}
	return mm, err
}

// ParseNotNegative is ParseLength for a gap or an offset: it refuses less than 0.
func ParseNotNegative(text string, in Units) (mm float64, err error) {
	mm, err = ParseLength(text, in)
	if err == nil && mm < 0 {
		return 0, fmt.Errorf("%s is less than 0; type 0 or a length like %s", quote(text), lengths(in).example)
	}
	return mm, err
}

// FormatLength shows mm without a unit: whole mm, or inches to 1/8 as
// "4 1/2". See Round for the safe side. What is not finite is "unknown".
func FormatLength(mm float64, in Units, round Round) string {
	return FormatLengthTo(mm, in, round, PotGrain)
}

// FormatLengthTo is FormatLength with another grain, for inches only; mm stay
// whole. The coarsest grain is 1, the finest 64.
func FormatLengthTo(mm float64, in Units, round Round, grain Grain) string {
	switch {
	case math.IsNaN(mm) || math.IsInf(mm, 0):
		return "unknown"
	case in != Inches && round == Exact:
		return FormatFile(mm)
	case in != Inches:
		return whole(steps(mm, 1, 1, round))
	case round == Exact || math.Abs(mm) > 1e12: // beyond any kiln and near the end of int64
		return exactInches(mm)
	}
	grain = min(max(grain, 1), finest)
	return fraction(int64(steps(mm, float64(grain), inch, round)), int64(grain))
}

// SayLength is FormatLength with the unit: "115 mm", "4 1/2 in".
func SayLength(mm float64, in Units, round Round) string {
	return SayLengthTo(mm, in, round, PotGrain)
}

// SayLengthTo is SayLength with another grain.
func SayLengthTo(mm float64, in Units, round Round, grain Grain) string {
	figure := FormatLengthTo(mm, in, round, grain)
	if figure == "unknown" {
		return figure
	}
	if in == Inches {
		return figure + " in"
	}
	return figure + " mm"
}

// FormatFile writes a number for a file: the shortest decimal that reads back
// to the same float64, "34.5". Less than Tolerance is "0", as ParseLength reads
// it; what is not finite is "unknown", which no reader accepts.
func FormatFile(mm float64) string {
	if math.Abs(mm) < Tolerance {
		return "0"
	}
	return decimal(mm)
}

// decimal is the shortest decimal of a number without exponent.
func decimal(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "unknown"
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// steps is mm in steps of size/per mm, rounded; a step within Tolerance counts.
func steps(mm, per, size float64, round Round) float64 {
	switch round {
	case Up:
		return math.Ceil((mm - Tolerance) * per / size)
	case Down:
		return math.Floor((mm + Tolerance) * per / size)
	}
	// A half that a division has pushed a hair under still goes away from zero.
	if mm < 0 {
		return math.Round((mm - Tolerance) * per / size)
	}
	return math.Round((mm + Tolerance) * per / size)
}

// whole writes a whole number; -0 is 0.
func whole(n float64) string {
	if n == 0 {
		return "0"
	}
	return strconv.FormatFloat(n, 'f', 0, 64)
}

// fraction writes n/grain in lowest terms: "4 1/2", "-3/8", "0".
func fraction(n, grain int64) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	units, top := n/grain, n%grain
	if top == 0 {
		if units == 0 {
			return "0"
		}
		return sign + strconv.FormatInt(units, 10)
	}
	for a, b := grain, top; ; a, b = b, a%b {
		if b == 0 {
			top, grain = top/a, grain/a
			break
		}
	}
	text := strconv.FormatInt(top, 10) + "/" + strconv.FormatInt(grain, 10)
	if units > 0 {
		text = strconv.FormatInt(units, 10) + " " + text
	}
	return sign + text
}

// exactInches writes inches that ParseLength reads back to the same mm: a
// fraction down to 1/64 where one fits, else the fewest decimals.
func exactInches(mm float64) string {
	if math.Abs(mm) < Tolerance {
		return "0"
	}
	if n := math.Round(mm * finest / inch); math.Abs(n) < 1e15 {
		back, _ := big.NewRat(int64(n)*127, finest*5).Float64()
		if back == mm {
			return fraction(int64(n), finest)
		}
	}
	exact := new(big.Rat).Quo(new(big.Rat).SetFloat64(mm), big.NewRat(127, 5))
	text := ""
	// 26 decimals tell any float64 from Tolerance up from its neighbours.
	for places := 0; places <= 26; places++ {
		text = exact.FloatString(places)
		read := new(big.Rat).Mul(rat(strings.TrimPrefix(text, "-")), big.NewRat(127, 5))
		if back, _ := read.Float64(); back == math.Abs(mm) {
			break
		}
	}
	return text
}
