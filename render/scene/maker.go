package scene

import "threepost/layout/stacks"

// maker makes one scene.
type maker struct {
	b *stacks.Built
	o Options
	s *Scene
}

func newMaker(b *stacks.Built, o Options) *maker {
	return &maker{b: b, o: o, s: &Scene{Pieces: []Piece{{Level: -1}}, Look: LookOf(o.Dark)}}
}

func (m *maker) scene() *Scene { return m.s }
