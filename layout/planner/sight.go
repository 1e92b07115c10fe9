package planner

import (
	"fmt"
	"slices"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
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
	return float64(value * max(0, 1-float64(sightShare*float64(unseen))))
}

// weighed is a candidate's value less what its packs out of sight count for, and
// the levels that owners' pots roam over.
func (c *candidate) weighed() float64 {
	return float64(sighted(c.value, c.unseen) * max(0, 1-float64(roamShare*float64(c.roams))))
}

// roamShare is the share of the value that a level more for an owner's pots
// counts for who are kept together or apart: as few levels as hold them, but not
// at any price.
const roamShare = 0.02

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

// unplaced is how many watched packs a bare frame has no place for before a
// spyhole.
func (s *Search) unplaced(f *frame) int {
	n := 0
	for k, left := range s.restOf(f) {
		if s.context.kinds[k].cones != nil {
			n += left
		}
	}
	return n
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
	hidden := clearance.New(b).Unseen()
	for _, st := range f.storeys {
		for _, p := range st.fixed {
			k := c.kinds[p.kind]
			if k.cones == nil || !k.cones.Watched || slices.Contains(hidden, k.name) || st.keepsLineTo(p.at) {
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

// seesPast says whether no shelf and no post of a frame lies in the line from a
// spyhole to the tip of a pack on a storey.
func (c *context) seesPast(f *frame, st *storey, spy *stacks.Spy, p placed) bool {
	tip := st.top + c.kinds[p.kind].body.Height
	// within is the part of the line that runs between two heights.
	within := func(low, high float64) (plane.Skeleton, bool) {
		from, to := 0.0, 1.0
		if rise := tip - spy.Height; abs(rise) < plane.Tolerance {
			if spy.Height < low || spy.Height > high {
				return nil, false
			}
		} else {
			a, b := (low-spy.Height)/rise, (high-spy.Height)/rise
			from, to = max(from, min(a, b)), min(to, max(a, b))
		}
		if from > to {
			return nil, false
		}
		return plane.Skeleton{plane.Lerp(spy.Mouth, p.at, from), plane.Lerp(spy.Mouth, p.at, to)}, true
	}
	for _, x := range f.storeys {
		if x.site == nil || x.site.kind == nil {
			continue
		}
		if line, ok := within(x.top-x.site.kind.Thick-sightRoom, x.top+sightRoom); ok {
			for _, o := range append([]plane.Outline{x.site.outline}, x.site.beside...) {
				if o.Distance(line) < sightRoom {
					return false
				}
			}
		}
		if line, ok := within(x.top, x.top+x.tallest()+c.room); ok {
			for _, q := range x.posts {
				if skeleton, r := sectionSkeleton(q.section); skeleton.At(plane.Pose{At: q.at, Turn: q.turn}).Distance(line)-r < sightRoom {
					return false
				}
			}
		}
	}
	return true
}

// mostLoosened is how many designs are packed anew with their watched packs
// wherever they take least room.
const mostLoosened = 4

// loosen packs the best plan's design anew without regard to sight, where pots
// wait and its packs are in sight: the line to them may cost more than it is
// worth. It reports whether it did.
func (s *Search) loosen() bool {
	if s.best == nil || s.best.frame.kept || s.best.unseen > 0 || s.mustSee || s.context.watchedPacks() == 0 || s.loosened >= mostLoosened || s.allSet() {
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

// sightWish is that the watched packs stand in sight, as a load keeps it; false
// where it has none or no spyhole.
func sightWish(b *stacks.Built, judge *clearance.Checker) (Wished, bool) {
	var packs, hidden []int
	for i := range b.Pots {
		if c := b.Pots[i].Cones; c != nil && c.Watched {
			packs = append(packs, i)
		}
	}
	if len(packs) == 0 || len(b.Spies) == 0 {
		return Wished{}, false
	}
	out := judge.Unseen()
	for _, i := range packs {
		if slices.Contains(out, b.Pots[i].Pot.String()) {
			hidden = append(hidden, b.Pots[i].Level)
		}
	}
	x := Wished{Key: "sight", Wish: "cones in sight", Kept: len(hidden) == 0, sight: true, without: func(l *layout.Load) {
		for i := range l.Cones {
			l.Cones[i].Watched = false
		}
	}}
	switch {
	case x.Kept:
		return x, true
	case len(hidden) == len(packs):
		x.Says = fmt.Sprintf("They stand on %s.", sayLevels(b, distinct(hidden)))
	default:
		x.Says = fmt.Sprintf("Some stand out of sight on %s.", sayLevels(b, distinct(hidden)))
	}
	return x, true
}

// inSight tells what is kept out by a plan of the same load that shows the
// watched packs.
func inSight(p *Plan) (string, error) {
	s, err := Start(p.Load, p.Seed)
	if err != nil {
		return "", err
	}
	s.mustSee = true
	s.Step(mostWish)
	q, ok := s.Best()
	if !ok || q.unseen >= p.unseen {
		return "No way to stack that was tried brings them before a spyhole.", nil
	}
	all := gains(p.Load, p, q)
	less := false
	for _, g := range all {
		less = less || g.Count < 0
	}
	if !less {
		return "", nil
	}
	return "A plan that keeps it sets " + sayGains(all) + ".", nil
}

// distinct is a list without what occurs again.
func distinct(list []int) []int {
	var out []int
	for _, x := range list {
		if !slices.Contains(out, x) {
			out = append(out, x)
		}
	}
	return out
}
