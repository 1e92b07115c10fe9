package measure

// Units is the choice of a load: what a bare length means and how lengths are shown.
type Units string

const (
	MM     Units = "mm" // millimetres, grams and kilograms, degrees C
	Inches Units = "in" // inches, ounces and pounds, degrees F
)

// Round says to which side a shown length is rounded.
type Round int

const (
	Nearest Round = iota // to the nearest step, halves away from zero
	Up                   // to the greater: a need, a pot's size
	Down                 // to the less: room, a gap
	Exact                // not at all
)

// Grain is the finest part of an inch that is shown, as its denominator.
type Grain int

const (
	PotGrain  Grain = 8  // 1/8 in
	PostGrain Grain = 16 // 1/16 in
)

// ParseUnits reads "mm" or "in".
func ParseUnits(text string) (Units, error) { return MM, nil }

// ParseLength reads a length; a bare number is in the given units. mm.
func ParseLength(text string, in Units) (mm float64, err error) { return 0, nil }

// ParsePositive is ParseLength for a size: it refuses 0 and less.
func ParsePositive(text string, in Units) (mm float64, err error) { return 0, nil }

// ParseNotNegative is ParseLength for a gap or an offset: it refuses less than 0.
func ParseNotNegative(text string, in Units) (mm float64, err error) { return 0, nil }

// FormatLength writes mm without a unit, to whole mm or 1/8 in.
func FormatLength(mm float64, in Units, round Round) string { return "" }

// FormatLengthTo is FormatLength with a grain of one's own.
func FormatLengthTo(mm float64, in Units, round Round, grain Grain) string { return "" }

// SayLength is FormatLength with the unit: "115 mm", "4 1/2 in".
func SayLength(mm float64, in Units, round Round) string { return "" }

// SayLengthTo is SayLength with a grain of one's own.
func SayLengthTo(mm float64, in Units, round Round, grain Grain) string { return "" }

// FormatFile writes a number as the shortest decimal that reads back the same: "34.5".
func FormatFile(mm float64) string { return "" }
