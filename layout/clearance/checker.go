package clearance

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/nearby"
	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/stacks"
)

const tol = plane.Tolerance

// Checker judges one built load, several times over. It keeps the tables of
// needs and the broad phase. It is not safe for use by several goroutines, and
// the built load must not change under it.
type Checker struct {
	b      *stacks.Built
	lim    limits
	grid   *nearby.Grid // pots by their index, then posts
	reach  float64      // the widest gap that any pair of pots or posts is asked for
	parts  []int        // by pot: number of its body's first part in the tables
	deep   []bool       // by pot: stands on a deep level
	twice  []bool       // by pot: keeps twice the gap
	broad  []float64    // by pot: Body.Solid.Reach
	needs  map[needKey]float64
	widest float64        // the widest plan figure between pots and posts
	foot   plane.Skeleton // scratch
	near   []int          // scratch
	hand   solid.Placed   // the pot that is being moved
	held   int            // which that is
	names  *namer
}

// limits are the rows of the table that every pot meets.
type limits struct {
	pot, deep, wall, post, above, lid, probe, foot, cookie, rims, blast layout.Limits
}

// needKey names two parts, how much higher the second body stands, and the gap
// they are to keep. Equal keys need equal plan distances, however the two are
// turned.
type needKey struct {
	a, b    int
	dz, gap float64
}

// New prepares a checker for a built load.
func New(b *stacks.Built) *Checker {
	c := &Checker{b: b, needs: map[needKey]float64{}, names: newNamer(b)}
	l := b.Load
	c.lim = limits{
		pot: l.Limits(layout.PotToPot), deep: l.Limits(layout.PotToPotDeep), wall: l.Limits(layout.PotToWall),
		post: l.Limits(layout.PotToPost), above: l.Limits(layout.RoomAbove), lid: l.Limits(layout.RoomToLid),
		probe: l.Limits(layout.ToProbe), foot: l.Limits(layout.FootToEdge), cookie: l.Limits(layout.CookieToEdge),
		rims: l.Limits(layout.RimPastEdge), blast: l.Limits(layout.BlastRoom),
	}
	c.numberParts()
	cell := 0.0
	for i := range b.Pots {
		p := &b.Pots[i]
		c.broad = append(c.broad, p.Body.Solid.Reach())
		c.deep = append(c.deep, p.Level >= 0 && b.Levels[p.Level].Deep)
		c.twice = append(c.twice, p.Ware != nil && (p.Ware.Flags.Bloats || p.Ware.Flags.Spits || p.Ware.Flags.Refire))
		cell += float64(2 * c.broad[i])
		c.reach = math.Max(c.reach, worst(c.potLimits(i, i)))
	}
	c.reach = math.Max(c.reach, math.Max(worst(c.lim.post), c.handRoom()))
	c.widest, c.held = c.planReach(), -1
	c.grid = nearby.New(math.Max(40, cell/math.Max(1, float64(len(b.Pots)))))
	for i := range b.Pots {
		c.grid.Insert(i, boxOf(&b.Pots[i].Solid))
	}
	for i := range b.Posts {
		c.grid.Insert(len(b.Pots)+i, boxOf(&b.Posts[i].Solid))
	}
	return c
}

// numberParts gives every part of every different body its number.
func (c *Checker) numberParts() {
	seen := map[*stacks.Body]int{}
	n := 0
	c.parts = make([]int, len(c.b.Pots))
	for i := range c.b.Pots {
		body := c.b.Pots[i].Body
		first, ok := seen[body]
		if !ok {
			first = n
			seen[body] = first
			n += len(body.Solid.Parts)
		}
		c.parts[i] = first
	}
}

// worst is the greater of the two limits under which a gap is told.
func worst(l layout.Limits) float64 { return math.Max(l.Problem, l.Watch) }

// under grades a figure that is bad when small; false when it passes.
func under(have float64, l layout.Limits) (layout.Grade, bool) {
	switch {
	case have < l.Problem-tol:
		return layout.Problem, true
	case have < l.Watch-tol:
		return layout.Watch, true
	}
	return layout.Note, false
}

// missed is the limit that a figure of that grade missed.
func missed(g layout.Grade, l layout.Limits) float64 {
	if g == layout.Problem {
		return l.Problem
	}
	return l.Watch
}

// potLimits is the row for two pots: deep levels plan wider, and all columns
// double for what bloats, spits or is a refire.
func (c *Checker) potLimits(a, b int) layout.Limits {
	l := c.lim.pot
	if c.deep[a] && c.deep[b] {
		l = c.lim.deep
	}
	if c.twice[a] || c.twice[b] {
		l.Problem, l.Watch, l.Plan = 2*l.Problem, 2*l.Watch, 2*l.Plan
	}
	return l
}

// wallLimits is the row for a pot and the wall; cones stand farther off.
func (c *Checker) wallLimits(pot int) (layout.RuleName, layout.Limits) {
	if c.b.Pots[pot].Cones != nil {
		return layout.BlastRoom, c.lim.blast
	}
	return layout.PotToWall, c.lim.wall
}

// edgeLimits is the row for a foot and the edge of its shelf.
func (c *Checker) edgeLimits(pot int) (layout.RuleName, layout.Limits) {
	p := &c.b.Pots[pot]
	if p.Ware != nil && p.Ware.Flags.Runny && p.Body.Stand.Kind == layout.Cookie {
		return layout.CookieToEdge, c.lim.cookie
	}
	return layout.FootToEdge, c.lim.foot
}

// potsClear tells from plan distances and tabled needs alone whether pot b,
// standing as solid sb, keeps the gap g from pot a, standing as sa.
func (c *Checker) potsClear(a int, sa *solid.Placed, b int, sb *solid.Placed, g float64) bool {
	dz := sb.Base() - sa.Base()
	for i := range sa.Body.Parts {
		ski := sa.Skeleton(i)
		for j := range sb.Body.Parts {
			d := ski.Distance(sb.Skeleton(j))
			if d < c.need(c.parts[a]+i, &sa.Body.Parts[i], c.parts[b]+j, &sb.Body.Parts[j], dz, g)-tol {
				return false
			}
		}
	}
	return true
}

// need is solid.Need out of the table.
func (c *Checker) need(ka int, a *solid.Part, kb int, b *solid.Part, dz, g float64) float64 {
	k := needKey{ka, kb, dz, g}
	if kb < ka {
		k = needKey{kb, ka, -dz, g}
	}
	d, ok := c.needs[k]
	if !ok {
		d = solid.Need(*a, *b, g, dz)
		c.needs[k] = d
	}
	return d
}

func boxOf(p *solid.Placed) nearby.Box { return nearby.Box{Min: p.Min, Max: p.Max} }

// apart is a lower bound of the distance of two boxes.
func apart(a, b nearby.Box) float64 {
	sum := 0.0
	for i := range a.Min {
		if d := math.Max(a.Min[i]-b.Max[i], b.Min[i]-a.Max[i]); d > 0 {
			sum += float64(d * d)
		}
	}
	return math.Sqrt(sum)
}

// separated tells whether a shelf lies between the two ends of a gap, so that
// nothing can pass from one thing to the other.
func (c *Checker) separated(w solid.Witness) bool {
	lo, hi := math.Min(w.A[2], w.B[2]), math.Max(w.A[2], w.B[2])
	mid := plane.Vec{(w.A[0] + w.B[0]) / 2, (w.A[1] + w.B[1]) / 2}
	for i := range c.b.Shelves {
		s := &c.b.Shelves[i]
		if s.Bottom >= lo-tol && s.Top <= hi+tol && s.Outline.Contains(mid) {
			return true
		}
	}
	return false
}

// middle is the point half way along a gap.
func middle(w solid.Witness) mgl64.Vec3 {
	return mgl64.Vec3{(w.A[0] + w.B[0]) / 2, (w.A[1] + w.B[1]) / 2, (w.A[2] + w.B[2]) / 2}
}
