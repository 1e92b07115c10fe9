package clearance

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// Report is what a check found, graver findings first, then by rule in the
// order of the table, then by key.
type Report struct {
	Findings []layout.Finding `json:"findings"`
	Problems int              `json:"problems"`
	Watches  int              `json:"watches"`  // open ones
	Accepted int              `json:"accepted"` // watches that were accepted with a reason
	Notes    int              `json:"notes"`
}

// Check judges a built load by every rule.
func Check(b *stacks.Built) Report { return New(b).Check() }

// Checker judges one built load, several times over.
type Checker struct {
	b *stacks.Built
}

// New prepares a checker for a built load, which must not change while the
// checker is used. A Checker is not safe for use by several goroutines.
func New(b *stacks.Built) *Checker { return &Checker{b: b} }

// Check judges the load by every rule.
func (c *Checker) Check() Report { return Report{} }

// Near is one neighbour of a pot that is being moved: the least gap to it and
// how the rule grades that.
type Near struct {
	Thing layout.Thing    `json:"thing"`
	Name  string          `json:"name"` // as the person points at it: "the mug toward 8", "post B", "the wall"
	Rule  layout.RuleName `json:"rule"`
	Gap   float64         `json:"gap"`  // mm, negative when they overlap
	Plan  float64         `json:"plan"` // mm
	Grade layout.Grade    `json:"grade"`
	Clear bool            `json:"clear"` // at least the plan figure
}

// Watch tells the gaps of one pot of the load as if it stood at another place
// of its level: one Near for each neighbour within sight of a rule, closest to
// its limit first. pot is an index into Built.Pots.
func (c *Checker) Watch(pot int, at plane.Vec, turn float64) []Near { return nil }

// Snap is the place nearest to at, on the grid of 0.1 mm, where the pot clears
// everything around it by the plan figures. It answers false when there is
// none within reach (mm).
func (c *Checker) Snap(pot int, at plane.Vec, turn, reach float64) (plane.Vec, bool) {
	return at, false
}
