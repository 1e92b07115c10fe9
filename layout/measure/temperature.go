package measure

import (
	"fmt"
	"math"
	"math/big"
	"strings"
)

// Hottest is the hottest temperature that can be typed, C.
const Hottest = 2000

// absoluteZero is the coldest there is, C, exact in the SI.
const absoluteZero = -273.15

// ParseTemperature reads a temperature and gives it in degrees C: "1222",
// "1222 C", "2232 F", "1222°C". A bare number is C. It refuses what is colder
// than absolute zero or hotter than Hottest.
func ParseTemperature(text string) (c float64, err error) {
	const example = "1222 C or 2232 F"
	if strings.TrimSpace(text) == "" {
		return 0, fmt.Errorf("a temperature is missing; type one like %s", example)
	}
	negative, terms, ok := readTerms(text)
	if !ok || len(terms) != 1 {
		return 0, fmt.Errorf("%s is not a temperature; type one like %s", quote(text), example)
	}
	exact := terms[0].value
	if negative {
		exact.Neg(exact)
	}
	switch strings.TrimSpace(strings.TrimLeft(strings.Replace(terms[0].unit, "°", "", 1), " ")) {
	case "", "c", "deg", "deg c", "degrees", "degrees c", "celsius", "degrees celsius", "centigrade":
	case "f", "deg f", "degrees f", "fahrenheit", "degrees fahrenheit":
		exact.Sub(exact, big.NewRat(32, 1))
		exact.Mul(exact, big.NewRat(5, 9))
	default:
		return 0, fmt.Errorf("%s is not a temperature, which is in C or F; type one like %s", quote(text), example)
	}
	c, _ = exact.Float64()
	switch {
	case c > Hottest && terms[0].unit == "":
		return 0, fmt.Errorf("%s C is hotter than %d C, the hottest here; for Fahrenheit type %s F", decimal(c), Hottest, decimal(c))
	case c > Hottest:
		return 0, fmt.Errorf("%s is hotter than %d C, the hottest here; type one like %s", quote(text), Hottest, example)
	case c < absoluteZero:
		return 0, fmt.Errorf("%s is colder than anything can be; type one like %s", quote(text), example)
	case math.Abs(c) < Tolerance:
		return 0, nil
	}
	return c, nil
}

// FormatTemperature shows degrees C to the nearest whole degree: "1222 C", or
// "2232 F" for Inches. For files FormatFile(c) is exact.
func FormatTemperature(c float64, in Units) string {
	if math.IsNaN(c) || math.IsInf(c, 0) {
		return "unknown"
	}
	if in == Inches {
		return whole(math.Round(float64(c*9/5)+32)) + " F"
	}
	return whole(math.Round(c)) + " C"
}
