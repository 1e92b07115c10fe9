package warelist

import (
	"threepost/layout"
	"threepost/layout/measure"
)

// Parse reads many lines of the short form.
func Parse(text string, units measure.Units) ([]layout.Ware, error) { return nil, nil }

// ParseLine reads one line of the short form.
func ParseLine(line string, units measure.Units) (layout.Ware, error) { return layout.Ware{}, nil }

// Format writes a row in the short form.
func Format(w layout.Ware, units measure.Units) string { return "" }

// ReadCSV reads ware rows from CSV. The file's name is used in messages only.
func ReadCSV(file string, data []byte, units measure.Units) ([]layout.Ware, error) { return nil, nil }

// WriteCSV writes the ware rows of a load as CSV.
func WriteCSV(l *layout.Load) []byte { return nil }
