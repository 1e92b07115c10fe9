package drawing

import (
	"fmt"
	"strings"
)

// Paper is a sheet size in mm, upright unless turned.
type Paper struct {
	Name          string
	Width, Height float64
}

// A4 is 210 x 297 mm (ISO 216:2007, table 1).
func A4() Paper { return Paper{"A4", 210, 297} }

// Letter is 8.5 x 11 in (ANSI/ASME Y14.1, size A), 215.9 x 279.4 mm.
func Letter() Paper { return Paper{"Letter", 215.9, 279.4} }

// PaperNamed finds a paper by its name, in any case. It says which names
// there are when there is none of this one.
func PaperNamed(name string) (Paper, error) {
	for _, p := range []Paper{A4(), Letter()} {
		if strings.EqualFold(strings.TrimSpace(name), p.Name) {
			return p, nil
		}
	}
	return Paper{}, fmt.Errorf("paper %q is not known: write A4 or Letter", name)
}

// Sideways is the paper turned by a quarter.
func (p Paper) Sideways() Paper {
	return Paper{p.Name + " sideways", p.Height, p.Width}
}
