package planner

import (
	"threepost/geometry/plane"
	"threepost/layout"
)

// frame is a design with its storeys in their order and at their heights, and
// the make-ups of all posts.
type frame struct {
	design  *design
	storeys []*storey
	towers  []layout.Tower // without pots; storey i is at[i]
	at      []place
	heard   heard
	kept    bool // made from a load of which some stays
}

// place is a level of a tower, both counted from 0.
type place struct{ tower, level int }

// erect puts the storeys of a design into an order and stands them up. It
// fails when the stock has no make-ups for it.
func (s *Search) erect(d *design) (*frame, error) {
	if d.division.columns != nil {
		return s.erectRest(d)
	}
	c := s.context
	makeups, err := c.catalogue.Assign(nil, d.demand(), c.load.Units)
	if err != nil {
		return nil, err
	}
	posts := map[float64][]layout.MakeUp{}
	next := func(height float64, n int) []layout.MakeUp {
		have := posts[height]
		out := append([]layout.MakeUp(nil), have[:n]...)
		posts[height] = have[n:]
		return out
	}
	for i, dm := range d.demand() {
		posts[dm.Height] = append(posts[dm.Height], makeups[i]...)
	}
	f := &frame{design: d}
	dv := d.division
	z := 0.0
	order := c.orders(d)
	if dv.base != nil {
		z = f.erectBase(c, d, order.base, next)
	}
	for i, st := range dv.sites {
		f.erectSite(c, d, i, st, order.sites[i], z, next)
	}
	return f, nil
}

// erectBase stands up the full levels and returns the z of the last one's top.
func (f *frame) erectBase(c *context, d *design, order []float64, next func(float64, int) []layout.MakeUp) float64 {
	b := d.division.base
	t := layout.Tower{Name: b.name, On: []layout.Support{{}}, Lines: b.lines}
	z := 0.0
	for j := 0; j < d.division.bases; j++ {
		h := d.floor
		if j > 0 {
			h = order[j-1]
		}
		z += h + b.kind.Thick
		t.Levels = append(t.Levels, layout.Level{Shelves: []layout.ShelfAt{b.shelf}, Posts: oneIfAlike(next(h, len(b.lines)))})
		s := &storey{site: b, top: z, deep: c.deep(z)}
		if j+1 < d.division.bases {
			s.zones = []zone{{takes: order[j] - c.room - b.kind.Bow}}
			s.posts = c.postsAt(b)
		}
		f.storeys = append(f.storeys, s)
		f.at = append(f.at, place{0, j})
	}
	f.towers = append(f.towers, t)
	return z
}

// erectSite stands up one side: on the floor, or on the base whose last storey
// gets a zone under it.
func (f *frame) erectSite(c *context, d *design, i int, st *site, heights []float64, z float64, next func(float64, int) []layout.MakeUp) {
	lid := c.limits[layout.RoomToLid].Plan
	onBase := d.division.base != nil
	t := layout.Tower{Name: st.name, Lines: st.lines}
	var carried *storey
	if onBase {
		t.On = []layout.Support{{Tower: d.division.base.name, Level: d.division.bases}}
		carried = f.storeys[d.division.bases-1]
		zn := zone{takes: c.load.Kiln.Height - z - lid}
		if len(heights) > 0 {
			zn.takes = heights[0] - c.room - st.kind.Bow
			carried.posts = append(carried.posts, c.postsAt(st)...)
		}
		if len(d.division.sites) == 2 {
			zn.region = c.beside(d.division.sites[1-i], len(d.lists[1-i].heights) > 0)
		}
		carried.zones = append(carried.zones, zn)
	} else {
		t.On = []layout.Support{{}}
	}
	levels := heights
	if !onBase {
		levels = append([]float64{d.floor}, heights...)
	}
	tower := len(f.towers)
	for j, h := range levels {
		z += h + st.kind.Thick
		t.Levels = append(t.Levels, layout.Level{Shelves: []layout.ShelfAt{st.shelf}, Posts: oneIfAlike(next(h, len(st.lines)))})
		s := &storey{site: st, top: z, deep: c.deep(z)}
		if j+1 < len(levels) {
			s.zones = []zone{{takes: levels[j+1] - c.room - st.kind.Bow}}
			s.posts = c.postsAt(st)
		} else {
			s.zones = []zone{{takes: c.load.Kiln.Height - z - lid}}
		}
		f.storeys = append(f.storeys, s)
		f.at = append(f.at, place{tower, j})
	}
	if len(t.Levels) > 0 {
		f.towers = append(f.towers, t)
	}
}

// oneIfAlike writes alike make-ups once, as the file does.
func oneIfAlike(m []layout.MakeUp) []layout.MakeUp {
	for _, x := range m[1:] {
		if len(x) != len(m[0]) {
			return m
		}
		for i := range x {
			if x[i] != m[0][i] {
				return m
			}
		}
	}
	return m[:1]
}

// beside is the part of the kiln where a pot may rise past another site's
// shelves; empty when that site has none.
func (c *context) beside(other *site, shelves bool) plane.Outline {
	if !shelves {
		return plane.Outline{}
	}
	lo, hi := other.outline.Bounds()
	gap := max(c.room, c.limits[layout.PotToPost].Plan)
	far := 4 * (hi[0] - lo[0] + hi[1] - lo[1])
	half := float64(far / 2)
	middle := other.outline.Centroid()
	var at plane.Vec
	switch {
	case middle[0] > 0 && middle[0] >= abs(middle[1]):
		at = plane.Vec{lo[0] - gap - half, 0}
	case middle[0] < 0 && -middle[0] >= abs(middle[1]):
		at = plane.Vec{hi[0] + gap + half, 0}
	case middle[1] > 0:
		at = plane.Vec{0, lo[1] - gap - half}
	default:
		at = plane.Vec{0, hi[1] + gap + half}
	}
	o, err := plane.Rectangle(far, far)
	if err != nil {
		return plane.Outline{}
	}
	return o.At(plane.Pose{At: at})
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}

// deep says whether pots that stand at z stand deeper below the rim than the
// rule's depth.
func (c *context) deep(z float64) bool {
	from := c.limits[layout.DeepFrom].Plan
	return c.load.Kiln.Opens != layout.Front && from > 0 && c.load.Kiln.Height-z > from
}

// postsAt are the posts of a site as obstacles of a storey they stand on.
func (c *context) postsAt(st *site) []standingPost {
	out := make([]standingPost, 0, len(st.lines))
	for _, l := range st.lines {
		out = append(out, standingPost{at: l.At, turn: l.Turn, section: c.section})
	}
	return out
}

// sightCost is how far the tips of watched cone packs would stand from the
// heights of the spyholes that may show them, mm beyond what a line of sight can
// lean, summed over the packs.
func (c *context) sightCost(heights, tops []float64) float64 {
	cost := 0.0
	for _, w := range c.wantedSights() {
		least := c.load.Kiln.Height
		for j, top := range tops {
			takes := c.load.Kiln.Height - top - c.limits[layout.RoomToLid].Plan
			if j < len(heights) {
				takes = heights[j] - c.room
			}
			least = min(least, w.off(c, top, takes))
		}
		cost += max(0, least-lean)
	}
	return cost
}

// lean is how far off a spyhole's axis tips may stand, mm, at some 150 mm from
// the wall.
const lean = 30

// wantedSight is a pack that is to be watched, and the heights of the spyholes
// that may show it.
type wantedSight struct {
	tall  float64
	holes []float64
}

// wantedSights are the watched packs for which there is a spyhole.
func (c *context) wantedSights() []wantedSight {
	var out []wantedSight
	for _, k := range c.kinds {
		if k.cones == nil || !k.cones.Watched {
			continue
		}
		w := wantedSight{tall: k.body.Height}
		for i := range c.spies {
			if k.cones.Spyhole == 0 || k.cones.Spyhole == i+1 {
				w.holes = append(w.holes, c.spies[i].Height)
			}
		}
		if len(w.holes) > 0 {
			out = append(out, w)
		}
	}
	return out
}

// off is how far from the nearest of its spyholes the tips of a pack stand on a
// storey at z that takes so much; the kiln's height where it does not go in.
func (w *wantedSight) off(c *context, z, takes float64) float64 {
	least := c.load.Kiln.Height
	if takes < w.tall {
		return least
	}
	for _, h := range w.holes {
		least = min(least, abs(z+w.tall-h))
	}
	return least
}

// probeCost is how much a shelf from bottom to top lacks to the plan distance
// from the probes, mm, summed over the probes that reach over it.
func (c *context) probeCost(st *site, bottom, top float64) float64 {
	need := c.limits[layout.ToProbe].Plan
	cost := 0.0
	for i := range c.probes {
		p := &c.probes[i]
		gap := max(bottom-p.Top(), p.Bottom()-top)
		if gap >= need { // most shelves: the cheap question first
			continue
		}
		if st.comesTo(p, need) {
			cost += need - gap
		}
	}
	return cost
}
