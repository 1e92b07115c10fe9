package clearance

import (
	"math"
	"sort"

	"threepost/geometry/nearby"
	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
)

// Grain is the grid that places lie on, mm, and turns, degrees.
const Grain = 0.1

// Round puts a figure on the grid of 0.1.
func Round(x float64) float64 { return math.Round(x*10) / 10 }

// maxBorders is how many borders a snap looks at, the nearest first.
const maxBorders = 64

// Asked is which column of the table a snap keeps.
type Asked int

// A snap keeps the plan figures, or only what no finding is made of.
const (
	AskPlan Asked = iota
	AskWatch
)

// Snap is the place nearest to v, on the grid of 0.1 mm, where the pot keeps
// the plan figures to all that stands on or hangs over its level, to the wall,
// the probes and the edge of its shelf. It answers false when there is none
// within reach (mm). Heights do not change by sliding: room above and rims
// past the edge are only kept from getting worse.
//
// The forbidden places of a round pot are discs, those of others discs and
// strips about the difference of two skeletons, widened by their need. The
// nearest free place is v itself, or the point of one border nearest to v, or
// a point where two borders cross; these are tried from the nearest on.
func (c *Checker) Snap(pot int, v plane.Vec, turn, reach float64) (plane.Vec, bool) {
	return c.SnapTo(pot, v, turn, reach, AskPlan)
}

// SnapTo is Snap for another column of the table.
func (c *Checker) SnapTo(pot int, v plane.Vec, turn, reach float64, ask Asked) (plane.Vec, bool) {
	if pot < 0 || pot >= len(c.b.Pots) {
		return v, false
	}
	s := c.newSnapper(pot, v, turn, reach, ask)
	if at, ok := s.round(v); ok {
		return at, true
	}
	for _, q := range s.candidates() {
		if !s.clears(q, 1e-3) {
			continue
		}
		if at, ok := s.round(q); ok {
			return at, true
		}
	}
	return v, false
}

// snapper looks for a place for one pot.
type snapper struct {
	*Checker
	pot     int
	want    plane.Vec
	turn    float64
	reach   float64
	ask     Asked
	pots    []int // near enough to matter
	posts   []int
	shelves []int
	above   map[int]float64 // by shelf: room above that is to be kept
	rim     float64         // how far rims may stand out
	borders []border
}

// border is a piece of the edge of a forbidden place: a circle, or a straight
// from a to b.
type border struct {
	round  bool
	a, b   plane.Vec // a: centre of a circle
	radius float64
}

func (c *Checker) newSnapper(pot int, v plane.Vec, turn, reach float64, ask Asked) *snapper {
	s := &snapper{Checker: c, pot: pot, want: v, turn: turn, reach: reach, ask: ask, above: map[int]float64{}}
	p := &c.b.Pots[pot]
	box := boxOf(c.moving(pot, v, turn))
	c.near = c.grid.Near(c.near[:0], box, reach+c.widest)
	for _, id := range c.near {
		switch {
		case id == pot:
		case id < len(c.b.Pots):
			s.pots = append(s.pots, id)
		case !c.underOwnShelf(pot, id-len(c.b.Pots)):
			s.posts = append(s.posts, id-len(c.b.Pots))
		}
	}
	now := c.moving(pot, p.At, p.Turn)
	for k := range c.b.Shelves {
		q := &c.b.Shelves[k]
		lo, hi := q.Solid.Min, q.Solid.Max
		if q.Level == p.Level || q.Top <= p.Z+tol || apart(box, nearby.Box{Min: lo, Max: hi}) > reach+c.widest+bowOf(q) {
			continue
		}
		s.shelves = append(s.shelves, k)
		if rule, gap, ok := c.toShelf(pot, now, k); ok && rule == layout.RoomAbove {
			s.above[k] = gap
		}
	}
	out := -solid.WallClearance(now, c.b.Shelves[c.shelfAt(pot, p.At)].Outline)
	s.rim = math.Max(c.lim.rims.Plan, out)
	s.drawBorders()
	return s
}

// figure is what the snap keeps of a row.
func (s *snapper) figure(l layout.Limits) float64 {
	if s.ask == AskWatch {
		return worst(l)
	}
	return math.Max(l.Plan, worst(l))
}

// clears tells whether the pot may stand at v, every figure less a slack.
func (s *snapper) clears(v plane.Vec, slack float64) bool {
	if plane.Distance(v, s.want) > s.reach {
		return false
	}
	_, edge := s.edgeLimits(s.pot)
	if s.footRoom(s.pot, v, s.turn) < s.figure(edge)-slack-tol {
		return false
	}
	m := s.moving(s.pot, v, s.turn)
	_, wall := s.wallLimits(s.pot)
	if solid.WallClearance(m, s.b.Chamber) < s.figure(wall)-slack-tol {
		return false
	}
	if -solid.WallClearance(m, s.b.Shelves[s.shelfAt(s.pot, v)].Outline) > s.rim+slack+tol {
		return false
	}
	for _, j := range s.pots {
		if !s.clearOf(m, j, slack) {
			return false
		}
	}
	for _, j := range s.posts {
		if q := &s.b.Posts[j].Solid; !solid.GapAtLeast(m, q, math.Max(0, s.figure(s.lim.post)-slack)) && !s.behindShelf(m, q) {
			return false
		}
	}
	return s.clearsKiln(m, slack)
}

func (s *snapper) clearOf(m *solid.Placed, j int, slack float64) bool {
	g, q := s.figure(s.potLimits(s.pot, j)), &s.b.Pots[j].Solid
	if s.potsClear(s.pot, m, j, q, g) {
		return true
	}
	gap, w := solid.Gap(m, q)
	return gap >= g-slack-tol || gap > 0 && s.separated(w)
}

func (s *snapper) behindShelf(m, q *solid.Placed) bool {
	gap, w := solid.Gap(m, q)
	return gap > 0 && s.separated(w)
}

func (s *snapper) clearsKiln(m *solid.Placed, slack float64) bool {
	for k := range s.b.Probes {
		q := &s.b.Probes[k].Solid
		if g := s.figure(s.lim.probe) - slack; !solid.GapAtLeast(m, q, math.Max(0, g)) && !s.behindShelf(m, q) {
			return false
		}
	}
	for _, k := range s.shelves {
		rule, gap, ok := s.toShelf(s.pot, m, k)
		if !ok {
			continue
		}
		keep := s.figure(s.lim.post)
		if rule == layout.RoomAbove {
			keep = s.figure(s.lim.above)
			if now, was := s.above[k]; was {
				keep = math.Min(keep, now)
			}
		}
		if gap < keep-slack-tol {
			return false
		}
	}
	return true
}

// round is the place of the grid about q, nearest to what is wanted, that
// clears.
func (s *snapper) round(q plane.Vec) (plane.Vec, bool) {
	const rings = 3
	x, y := math.Round(q[0]*10), math.Round(q[1]*10)
	var places []plane.Vec
	for i := -rings; i <= rings; i++ {
		for j := -rings; j <= rings; j++ {
			places = append(places, plane.Vec{(x + float64(i)) / 10, (y + float64(j)) / 10})
		}
	}
	s.nearestFirst(places)
	for _, v := range places {
		if s.clears(v, 0) {
			return v, true
		}
	}
	return q, false
}

func (s *snapper) nearestFirst(places []plane.Vec) {
	sort.SliceStable(places, func(i, j int) bool {
		return plane.Distance(places[i], s.want) < plane.Distance(places[j], s.want)
	})
}

// candidates are the points of borders that may be the nearest free place.
func (s *snapper) candidates() []plane.Vec {
	sort.SliceStable(s.borders, func(i, j int) bool {
		return plane.Distance(s.borders[i].nearest(s.want), s.want) < plane.Distance(s.borders[j].nearest(s.want), s.want)
	})
	if len(s.borders) > maxBorders {
		s.borders = s.borders[:maxBorders]
	}
	var out []plane.Vec
	take := func(v plane.Vec) {
		if plane.Distance(v, s.want) <= s.reach {
			out = append(out, v)
		}
	}
	for i, b := range s.borders {
		take(b.nearest(s.want))
		for _, o := range s.borders[:i] {
			for _, v := range cross(b, o) {
				take(v)
			}
		}
	}
	s.nearestFirst(out)
	return out
}
