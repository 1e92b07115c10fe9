package planner

import (
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// A watched pack always goes in; that it stands in sight of a spyhole is a wish,
// and costs a tall storey at the height of the hole and a free line to it.
//
// sightShare is the share of the value that may wait for one watched pack in
// sight. That at least one pack is in sight is common practice; how much ware
// that is worth is the potter's.
const sightShare = 0.05

// sighted is a value less what so many watched packs out of sight count for.
func sighted(value float64, unseen int) float64 {
	return value * max(0, 1-float64(sightShare*float64(unseen)))
}

// weighed is a candidate's value less what its packs out of sight count for.
func (c *candidate) weighed() float64 { return sighted(c.value, c.unseen) }

// hopes is what a design may hold, less what its packs out of sight count for.
func (d *design) hopes() float64 { return sighted(d.estimate, d.unseen) }

// watchedPacks is how many packs are to be watched.
func (c *context) watchedPacks() int {
	n := 0
	for _, k := range c.kinds {
		if k.cones != nil && k.cones.Watched && len(k.free) > 0 {
			n++
		}
	}
	return n
}

// unseenOf is how many watched packs no order of a design's storeys brings
// before a spyhole.
func (c *context) unseenOf(d *design) int {
	if c.blind(d) {
		return c.watchedPacks()
	}
	return 0
}

// movable says whether things of a kind are packed like ware: pots, and watched
// packs that no spyhole shows, which stand where they take least room.
func (c *context) movable(k int) bool {
	kd := c.kinds[k]
	return kd.cones == nil || kd.cones.Watched
}

// isUnseen says whether a finding tells of a watched pack out of sight, and of
// which.
func isUnseen(fd layout.Finding) (pack string, ok bool) {
	if fd.Rule != layout.InSight {
		return "", false
	}
	for _, t := range fd.Things {
		if t.Kind == layout.ThingCones {
			return t.Name, true
		}
	}
	return "", false
}

// keepsSight says whether a frame keeps a line of sight free to a pack: then a
// pot that hides it is out of place. Packs that were set without one stay, seen
// or not.
func (s *Search) keepsSight(f *frame, pack string) bool {
	for _, st := range f.storeys {
		for _, p := range st.fixed {
			if s.context.kinds[p.kind].name == pack {
				return st.keepsLineTo(p.at)
			}
		}
	}
	return false
}

// keepsLineTo says whether a storey keeps a line of sight free to a place.
func (s *storey) keepsLineTo(at plane.Vec) bool {
	for _, t := range s.tubes {
		if t.to == at {
			return true
		}
	}
	return false
}

// keepSights keeps the lines of sight free to those watched packs of a frame
// that are seen in a built load, in which they stand where they do in the frame.
func (c *context) keepSights(f *frame, b *stacks.Built) {
	if b == nil || !c.watches() {
		return
	}
	hidden := map[string]bool{}
	for _, fd := range clearance.Check(b).Findings {
		if pack, ok := isUnseen(fd); ok {
			hidden[pack] = true
		}
	}
	for _, st := range f.storeys {
		for _, p := range st.fixed {
			k := c.kinds[p.kind]
			if k.cones == nil || !k.cones.Watched || hidden[k.name] || st.keepsLineTo(p.at) {
				continue
			}
			st.tubes = append(st.tubes, c.tubeTo(st, p))
		}
	}
}

// watches says whether the load has packs that are to be watched, wherever they
// stand.
func (c *context) watches() bool {
	for _, k := range c.kinds {
		if k.cones != nil && k.cones.Watched {
			return true
		}
	}
	return false
}

// bareOf is a frame built with nothing on it but what is fixed; nil where it
// does not stand up.
func (s *Search) bareOf(f *frame) *stacks.Built {
	g := f.clone()
	for _, st := range g.storeys {
		st.set = nil
	}
	l := *s.context.load
	l.Towers = s.arrangement(g)
	b, err := stacks.Build(&l)
	if err != nil {
		return nil
	}
	return b
}

// noteSight keeps the best candidate with all watched packs in sight, and the
// best without: what sight costs is told by both.
func (s *Search) noteSight(c *candidate) {
	best := &s.inSight
	if c.unseen > 0 {
		best = &s.outOfSight
	}
	if *best == nil || c.beats(*best) {
		*best = c
	}
}

// mostLoosened is how many designs are packed anew with their watched packs
// wherever they take least room.
const mostLoosened = 4

// loosen packs the best plan's design anew without regard to sight, where pots
// wait and its packs are in sight: the line to them may cost more than it is
// worth. It reports whether it did.
func (s *Search) loosen() bool {
	if s.best == nil || s.best.frame.kept || s.best.unseen > 0 || s.context.watchedPacks() == 0 || s.loosened >= mostLoosened || s.allSet() {
		return false
	}
	of := s.best.frame.design
	if of.loose || of.loosened {
		return false
	}
	of.loosened = true
	s.loosened++
	d := *of
	d.loose, d.unseen, d.bare, d.way, d.mixed = true, s.context.watchedPacks(), nil, way{}, 0
	s.try(&d, firstWork)
	return true
}

// saySight says what packs out of sight would cost in sight, or what those in
// sight cost; nothing where it costs nothing or is not known. It works on the
// best plan with all in sight, so that it is told fairly.
func (s *Search) saySight(p *Plan) (says string) {
	if s.best == nil || s.best.frame.kept || s.context.watchedPacks() == 0 || len(s.context.spies) == 0 {
		return ""
	}
	if p.unseen == 0 {
		if s.outOfSight == nil {
			return ""
		}
		s.aside(func() {
			if q := s.planOf(s.outOfSight); q.Value > p.Value+1e-9 {
				says = keepsOut("The cones are in sight: that keeps ", p.Load, q.Load.Towers, p.Load.Towers)
			}
		})
		return says
	}
	which := "The cones are"
	if p.unseen < s.context.watchedPacks() {
		which = "Some of the cones are"
	}
	if s.inSight == nil {
		return which + " not in sight: no way to stack that was tried brings them before a spyhole."
	}
	s.aside(func() {
		says = keepsOut(which+" not in sight: that would keep ", p.Load, p.Load.Towers, s.pursued(s.inSight, wayWork).towers)
	})
	return says
}

// keepsOut says what is set less in one arrangement than in another, and in
// brackets what is set more; nothing where nothing is set less.
func keepsOut(start string, l *layout.Load, from, to []layout.Tower) string {
	var out, in []string
	for _, g := range gains(l, &Plan{Load: &layout.Load{Towers: from}}, &Plan{Load: &layout.Load{Towers: to}}) {
		if g.Count < 0 {
			out = append(out, silhouette.Counted(-g.Count, g.Ware))
		} else {
			in = append(in, silhouette.Counted(g.Count, g.Ware))
		}
	}
	if len(out) == 0 {
		return ""
	}
	say := start + strings.Join(out, ", ") + " out"
	if len(in) > 0 {
		say += " and let " + strings.Join(in, ", ") + " in"
	}
	return say + "."
}
