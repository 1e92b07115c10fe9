package measure

// ParseMass reads a mass; a bare number is kg.
func ParseMass(text string) (kg float64, err error) { return 0, nil }

// FormatMass shows a mass with its unit: "310 g", "13.9 kg"; "12 oz", "3.5 lb" for Inches.
func FormatMass(kg float64, in Units) string { return "" }

// FormatMassFile writes kg as the shortest decimal that reads back the same.
func FormatMassFile(kg float64) string { return "" }
