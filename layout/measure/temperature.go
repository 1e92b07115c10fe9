package measure

// ParseTemperature reads a temperature; a bare number is degrees C.
func ParseTemperature(text string) (c float64, err error) { return 0, nil }

// FormatTemperature shows a temperature in whole degrees: "1222 C", "2232 F" for Inches.
func FormatTemperature(c float64, in Units) string { return "" }
