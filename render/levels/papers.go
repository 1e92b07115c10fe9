package levels

import (
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/frame"
)

// Papers are the shelf papers at 1:1 of the levels named (indices into
// Built.Levels), or of every level with pots. They stay out of the kiln and
// are not counted among the sheets.
func Papers(s *frame.Sheet, b *stacks.Built, o *order.Order, levels ...int) []frame.Draft {
	return nil
}
