package measure

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Heaviest is the heaviest mass that can be typed, kg.
const Heaviest = 1e4

// leastMass is the least mass that is told from 0, kg: a thousandth of a gram.
const leastMass = 1e-6

// One pound in kg, exact by the international agreement of 1959, and its ounce.
const (
	pound = 0.45359237
	ounce = pound / 16
)

// masses is how a mass is read, in kg.
func masses() kind {
	worth := func(unit string) string {
		switch unit {
		case "kg", "kilo", "kilos", "kilogram", "kilograms":
			return "1"
		case "g", "gr", "gram", "grams", "gramme", "grammes":
			return "0.001"
		case "lb", "lbs", "pound", "pounds":
			return "0.45359237"
		case "oz", "ounce", "ounces":
			return "0.028349523125"
		}
		return ""
	}
	return kind{
		name: "mass", example: "1.2 kg, 310 g or 0.7 lb", units: "kg, g, lb or oz",
		worth: worth,
		pair: func(big string) string {
			if worth(big) == "0.45359237" {
				return "oz"
			}
			return ""
		},
	}
}

// ParseMass reads a mass and gives it in kg, correctly rounded: "310 g",
// "1.2 kg", "12 oz", "2 lb 4 oz"; a bare number is kg. Less than
// a thousandth of a gram is 0. It refuses what is less than 0 or more than Heaviest.
func ParseMass(text string) (kg float64, err error) {
	exact, err := masses().read(text, "kg")
	if err != nil {
		return 0, err
	}
	kg, _ = exact.Float64()
	switch {
	case kg > Heaviest:
		return 0, fmt.Errorf("%s is heavier than 10000 kg, the heaviest mass here; check the figure and its unit", quote(text))
	case math.Abs(kg) < leastMass:
		return 0, nil
	case kg < 0:
		return 0, fmt.Errorf("%s is less than 0; type a mass like %s", quote(text), masses().example)
	}
	return kg, nil
}

// FormatMass shows a mass with its unit, to the nearest: "310 g", "13.9 kg",
// "140 kg"; for Inches "12 oz", "3.5 lb".
func FormatMass(kg float64, in Units) string {
	if math.IsNaN(kg) || math.IsInf(kg, 0) {
		return "unknown"
	}
	small, large := kg*1000, kg
	names, change := [2]string{" g", " kg"}, 1000.0
	if in == Inches {
		small, large = kg/ounce, kg/pound
		names, change = [2]string{" oz", " lb"}, 16.0
	}
	if math.Abs(math.Round(small)) < change {
		return whole(math.Round(small)) + names[0]
	}
	places := 1
	if math.Abs(large) >= 99.95 {
		places = 0
	}
	return strings.TrimSuffix(strconv.FormatFloat(large, 'f', places, 64), ".0") + names[1]
}

// FormatMassFile writes kg for a file: the shortest decimal that ParseMass
// reads back to the same float64.
func FormatMassFile(kg float64) string {
	if math.Abs(kg) < leastMass {
		return "0"
	}
	return decimal(kg)
}
