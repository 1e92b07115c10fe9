// Package edit changes loads: it applies edits as data, finds the nearest
// place that clears, and works out mends for findings.
//
// Apply never changes the load it is given and refuses only what has no
// meaning; a tight gap is not refused but found by package clearance. A mend
// is an edit that was applied, rounded to the grid, built and checked again:
// the finding is gone and nothing worse has come.
package edit
