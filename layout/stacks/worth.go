package stacks

import (
	"strings"

	"threepost/layout"
)

// Class ranks how much a row of ware wants to go in: 2 before all others, 0
// after all others.
func Class(w *layout.Ware) int {
	switch w.Must {
	case layout.MustGo:
		return 2
	case layout.Filler:
		return 0
	}
	return 1
}

// Before compares two rows of ware by who goes in first: must before normal
// before filler, then who waits longest, by the date as it is written; a row
// without a date waits least. It is negative when a goes first, 0 when neither
// does.
func Before(a, b *layout.Ware) int {
	if d := Class(b) - Class(a); d != 0 {
		return d
	}
	switch {
	case a.Since == b.Since:
		return 0
	case a.Since == "":
		return 1
	case b.Since == "":
		return -1
	}
	return strings.Compare(a.Since, b.Since)
}
