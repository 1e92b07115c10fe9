package views

import (
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/drawing"
)

// Easel holds what all pictures share. It is read-only.
type Easel struct {
	Fonts *drawing.Fonts
	Units measure.Units
	Words measure.Words
}

// Subject is the load that is drawn. Order and Findings may be missing; the
// pictures then have no order numbers or no hatch.
type Subject struct {
	Built    *stacks.Built
	Order    *order.Order
	Findings []layout.Finding
	Letters  map[int]string // small letters of the kinds by stacks.Pot.Kind; nil: as on paper
}
