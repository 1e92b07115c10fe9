package planner

import (
	"strconv"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/packing"
)

// storey is one level of a plan in the making: its shelf, the room over it, and
// what stands on it.
type storey struct {
	site   *site
	top    float64 // z where its pots stand
	zones  []zone  // what lies over it: one, or one per tower that stands on it
	posts  []standingPost
	deep   bool
	fixed  []placed // locked and standing pots, and cone packs set before the rest
	set    []placed
	sealed bool   // nothing may be added
	bars   []bool // kinds that the wishes keep off; nil: none
	tubes  []tube
}

// zone is a part of a storey with its own room.
type zone struct {
	takes  float64       // the tallest body it takes, mm over the shelf
	region plane.Outline // empty: all of the shelf; else where pots that need this zone stand
}

// standingPost is a post that stands on the storey.
type standingPost struct {
	at      plane.Vec
	turn    float64
	section layout.Section
}

// placed is a pot in its place.
type placed struct {
	kind int
	pot  layout.Pot
	at   plane.Vec
	turn float64
	lock bool
}

// tube is a line of sight that pots keep out of.
type tube struct {
	from, to plane.Vec
	low      float64 // its lowest z over the shelf, mm
}

// tallest is the tallest body the storey takes anywhere.
func (s *storey) tallest() float64 {
	t := 0.0
	for _, z := range s.zones {
		t = max(t, z.takes)
	}
	return t
}

// barred is the kinds that the wishes keep off a storey, as a text.
func (s *storey) barred() string {
	text := make([]byte, 0, len(s.bars))
	for k, b := range s.bars {
		if b {
			text = append(append(text, ' '), strconv.Itoa(k)...)
		}
	}
	return string(text)
}

// shelfProblem is a storey as a packing problem, with what its wants mean.
type shelfProblem struct {
	problem packing.Problem
	kinds   []int // planner's kind of each packing kind
	index   map[int]int
}

// problemOf turns a storey into a packing problem over the kinds that some zone
// of it takes. wants gives how many of each kind may be placed.
func (c *context) problemOf(s *storey, wants map[int]int, fixed []placed) *shelfProblem {
	sp := &shelfProblem{index: map[int]int{}}
	p := &sp.problem
	p.Areas = []packing.Area{{Outlines: append([]plane.Outline{s.site.outline}, s.site.beside...)}, {Outlines: []plane.Outline{c.chamber}}}
	zoneArea := map[int]int{}
	for i, z := range s.zones {
		if !z.region.Empty() {
			zoneArea[i] = len(p.Areas)
			p.Areas = append(p.Areas, packing.Area{Outlines: []plane.Outline{z.region}})
		}
	}
	add := func(k int) {
		if _, ok := sp.index[k]; ok {
			return
		}
		sp.index[k] = len(sp.kinds)
		sp.kinds = append(sp.kinds, k)
		p.Kinds = append(p.Kinds, c.packingKind(s, k, zoneArea))
	}
	for _, f := range fixed {
		add(f.kind)
	}
	for k := range c.kinds {
		if wants[k] > 0 {
			add(k)
		}
	}
	c.needs(s, sp)
	c.obstacles(s, sp)
	for _, f := range fixed {
		p.Fixed = append(p.Fixed, packing.Standing{Kind: sp.index[f.kind], Want: -1, At: f.at, Turn: f.turn, Fixed: true})
	}
	for i, k := range sp.kinds {
		if n := wants[k]; n > 0 {
			p.Wants = append(p.Wants, packing.Want{Kind: i, Count: n, Value: c.kinds[k].value, Must: c.kinds[k].must})
		}
	}
	return sp
}

// packingKind gives the skeletons of a kind and the outlines that hold them.
func (c *context) packingKind(s *storey, k int, zoneArea map[int]int) packing.Kind {
	body := c.kinds[k].body
	pk := packing.Kind{Turns: body.Turns}
	limits := c.limits
	rim := -limits[layout.RimPastEdge].Plan
	if s.deep && s.site.neighbor {
		rim += float64((limits[layout.PotToPotDeep].Plan - limits[layout.PotToPot].Plan) / 2)
	}
	if c.kinds[k].apart > 1 && s.site.neighbor {
		rim += limits[layout.PotToPot].Plan
	}
	zone := s.zoneFor(body.Height)
	for i, part := range body.Solid.Parts {
		pk.Parts = append(pk.Parts, part.Skeleton)
		r := part.Profile.Max()
		pk.Limits = append(pk.Limits,
			packing.Limit{Part: i, Area: 0, Depth: r + rim},
			packing.Limit{Part: i, Area: 1, Depth: r + c.wallNeed(k)})
		if area, ok := zoneArea[zone]; ok {
			pk.Limits = append(pk.Limits, packing.Limit{Part: i, Area: area, Depth: r})
		}
	}
	edge := limits[layout.FootToEdge].Plan
	if body.Stand.Kind == layout.Cookie {
		edge = limits[layout.CookieToEdge].Plan
	}
	pk.Parts = append(pk.Parts, body.Foot)
	pk.Limits = append(pk.Limits, packing.Limit{Part: len(pk.Parts) - 1, Area: 0, Depth: body.FootR + edge})
	return pk
}

// wallNeed is the plan distance of a kind from the wall.
func (c *context) wallNeed(k int) float64 {
	if c.kinds[k].cones != nil {
		return max(c.limits[layout.PotToWall].Plan, c.limits[layout.BlastRoom].Plan)
	}
	return c.limits[layout.PotToWall].Plan
}

// zoneFor is the zone that a body of this height needs: the whole shelf if
// every zone takes it, else the first that does, else -1.
func (s *storey) zoneFor(height float64) int {
	all, first := true, -1
	for i, z := range s.zones {
		if height <= z.takes+plane.Tolerance {
			if first < 0 {
				first = i
			}
		} else {
			all = false
		}
	}
	if all && len(s.zones) > 1 {
		return -1
	}
	return first
}

// fits says whether some zone takes a body of this height.
func (s *storey) fits(height float64) bool { return height <= s.tallest()+plane.Tolerance }

// gapOf is the plan gap of two kinds on a storey.
func (c *context) gapOf(s *storey, a, b int) float64 {
	g := c.limits[layout.PotToPot].Plan
	if s.deep {
		g = c.limits[layout.PotToPotDeep].Plan
	}
	return g * max(c.kinds[a].apart, c.kinds[b].apart)
}

// needs fills in the least skeleton distances of all part pairs: the plan gap,
// and never less than letting one down beside the other allows with a hand.
// What is widest low down is set before what is widest high up, so that rims
// may reach over low neighbours; one order for all keeps it free of cycles.
// Beside ware that stands in the kiln already everything comes later.
func (c *context) needs(s *storey, sp *shelfProblem) {
	p := &sp.problem
	p.Need = packing.NewNeeds(p.Kinds)
	hand := c.handRoom()
	for i, a := range sp.kinds {
		for j := i; j < len(sp.kinds); j++ {
			b := sp.kinds[j]
			gap := c.gapOf(s, a, b)
			first := c.widestAt(a) <= c.widestAt(b)
			for pa, partA := range c.kinds[a].body.Solid.Parts {
				for pb, partB := range c.kinds[b].body.Solid.Parts {
					lower := solid.NeedLower(partA, partB, 0)
					other := solid.NeedLower(partB, partA, 0)
					switch {
					case c.standing:
						lower = max(lower, other)
					case !first:
						lower = other
					}
					p.Need.Set(i, pa, j, pb, max(solid.Need(partA, partB, gap, 0), lower+hand))
				}
			}
		}
	}
}

// handRoom is the room for fingers beside a pot that is let down: the rule's,
// but no more than the gap, so that bisque that may touch can be set touching.
func (c *context) handRoom() float64 {
	return max(0, min(c.limits[layout.HandRoom].Plan, c.limits[layout.PotToPot].Plan))
}

// widestAt is the lowest height at which a kind is as wide as anywhere, mm.
func (c *context) widestAt(k int) float64 {
	widest, at := 0.0, 0.0
	for _, part := range c.kinds[k].body.Solid.Parts {
		reach := 0.0
		for _, v := range part.Skeleton {
			reach = max(reach, plane.Length(v))
		}
		for _, z := range part.Profile {
			if r := reach + z.R; r > widest+plane.Tolerance {
				widest, at = r, z.Z
			}
		}
	}
	return at
}

// obstacles are the posts that stand on the storey, the probes that reach into
// it, and the lines of sight.
func (c *context) obstacles(s *storey, sp *shelfProblem) {
	p := &sp.problem
	post, probe := c.limits[layout.PotToPost].Plan, c.limits[layout.ToProbe].Plan
	hand := c.limits[layout.HandRoom].Plan
	for _, sp2 := range s.posts {
		skeleton, r := sectionSkeleton(sp2.section)
		o := packing.Obstacle{Skeleton: skeleton.At(plane.Pose{At: sp2.at, Turn: sp2.turn})}
		part := solid.Part{Skeleton: o.Skeleton, Profile: solid.Profile{{Z: 0, R: r}, {Z: max(s.tallest(), 1), R: r}}}
		o.Need = c.obstacleNeeds(sp, func(q solid.Part) float64 { return solid.Need(part, q, post, 0) })
		p.Obstacles = append(p.Obstacles, o)
	}
	for i := range c.probes {
		placed := &c.probes[i]
		for j, part := range placed.Body.Parts {
			o := packing.Obstacle{Skeleton: placed.Skeleton(j)}
			world := solid.Part{Skeleton: o.Skeleton, Profile: part.Profile}
			dz := s.top - placed.Base()
			o.Need = c.obstacleNeeds(sp, func(q solid.Part) float64 {
				// Nor may a pot that is let down from above knock it on the way.
				return max(solid.Need(world, q, probe, dz), solid.NeedLower(world, q, dz)+hand)
			})
			p.Obstacles = append(p.Obstacles, o)
		}
	}
	for _, t := range s.tubes {
		o := packing.Obstacle{Skeleton: plane.Skeleton{t.from, t.to}}
		low := t.low
		o.Need = c.obstacleNeeds(sp, func(q solid.Part) float64 {
			if q.Profile.Top() <= low {
				return packing.NoNeed()
			}
			return q.Profile.Max() + sightRoom
		})
		p.Obstacles = append(p.Obstacles, o)
	}
}

// sightRoom keeps pots out of a 5 mm tube of sight, with 2 mm to spare.
const sightRoom = 7

// obstacleNeeds is the need of an obstacle for every part of every kind of a
// problem; feet need nothing of their own.
func (c *context) obstacleNeeds(sp *shelfProblem, need func(solid.Part) float64) [][]float64 {
	out := make([][]float64, len(sp.kinds))
	for i, k := range sp.kinds {
		parts := c.kinds[k].body.Solid.Parts
		out[i] = make([]float64, len(parts)+1)
		for j, part := range parts {
			out[i][j] = need(part)
		}
		out[i][len(parts)] = packing.NoNeed()
	}
	return out
}

// sectionSkeleton is a post's plan as a skeleton and what widens it.
func sectionSkeleton(s layout.Section) (plane.Skeleton, float64) {
	if s.Kind == layout.RoundSection {
		return plane.Skeleton{{0, 0}}, s.Width / 2
	}
	c := sectionCorners(s)
	return plane.Skeleton(c), 0
}
