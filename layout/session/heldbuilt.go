package session

import "threepost/layout/stacks"

// HeldBuilt is the load as if the pot in hand stood on the level it is over,
// where it was taken or carried in, and its index into Built.Pots; for
// pictures. It is nil when no pot is in hand or it is over no level.
func (s *Session) HeldBuilt() (*stacks.Built, int) {
	if s.held == nil || s.held.level < 0 {
		return nil, -1
	}
	return s.held.built, s.held.index
}
