package stacks

import (
	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
)

// Body is what stands in the place of one pot of a row, allowances, cookie or
// stilt included, about its own origin, with the figures every reader needs.
type Body struct {
	Solid   solid.Body
	Foot    plane.Skeleton // what touches the shelf (cookie or foot), widened by FootR
	FootR   float64
	Height  float64 // top over the shelf, allowance and stand included, mm
	Mass    float64 // kg, stand included
	Turns   bool    // turning it changes something
	Value   float64 // what setting one is worth to the planner
	Stand   layout.Stand
	StandH  float64 // how high the pot's own foot stands over the shelf
	Assumed bool    // foot, profile or handle come from a silhouette
	// Drawn is the real plan for pictures: greatest outline, foot, handles.
	Drawn Drawn
	owned int // the row of the load's cookies or stilts it stands on, or -1
}

// Drawn is the plan of a pot for pictures, without allowances: every part is a
// skeleton widened by a radius.
type Drawn struct {
	Body    Widened
	Foot    Widened
	Cookie  *Widened
	Handles []Widened
	Profile []layout.Knot // height over its own foot, diameter: the side view
	Knob    float64
	Oblong  bool
}

// Widened is a skeleton widened by a radius.
type Widened struct {
	Skeleton plane.Skeleton
	Radius   float64
}
