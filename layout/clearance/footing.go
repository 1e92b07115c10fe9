package clearance

import (
	"math"
	"strconv"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
)

// sameTop is how near the tops of two shelves must lie for one foot to stand
// on both, mm.
const sameTop = 2

// overhang is how far rims of one level stand out past their shelves' edges.
type overhang struct {
	pots []int
	most float64
	pot  int
}

// footing judges how a pot stands on its shelf.
func (r *run) footing(i int) {
	p, n := &r.b.Pots[i], r.names
	if p.Shelf < 0 {
		r.noShelf(i)
		return
	}
	rule, l := r.edgeLimits(i)
	o := r.b.Shelves[p.Shelf].Outline
	depth := o.Depth(p.At)
	if depth-r.broad[i] >= math.Max(worst(l), 0) {
		return
	}
	room := r.footRoom(i, p.At, p.Turn)
	grade, bad := under(room, l)
	edge := at(o.NearestEdge(p.At), p.Z)
	switch {
	case bad && room < -tol && r.overTwo(i):
	case bad:
		r.add(rule, grade, r.sayFoot(i, rule, room, grade, l), against(room, grade, l, edge),
			[]layout.Thing{n.potThing(i), n.shelfThing(p.Shelf)}, n.potLabel(i))
	}
	if depth-r.broad[i] < -r.lim.rims.Plan-tol {
		r.collectRim(i, -solid.WallClearance(&p.Solid, o))
	}
}

// shelfAt is the shelf of a pot's level that lies under a place, or nearest to
// it; -1 on a level without shelves.
func (c *Checker) shelfAt(i int, v plane.Vec) int {
	shelves := c.b.Levels[c.b.Pots[i].Level].Shelves
	if len(shelves) == 1 {
		return shelves[0]
	}
	best, which := math.Inf(-1), -1
	for _, k := range shelves {
		if d := c.b.Shelves[k].Outline.Depth(v); d > best {
			best, which = d, k
		}
	}
	return which
}

// footRoom is how far the foot, cookie or stilt of a pot standing there keeps
// inside the edge of the shelf under it; negative: past it.
func (c *Checker) footRoom(i int, v plane.Vec, turn float64) float64 {
	p := &c.b.Pots[i]
	c.foot = p.Body.Foot.AppendAt(c.foot[:0], plane.Pose{At: v, Turn: turn})
	return plane.Clearance(c.b.Shelves[c.shelfAt(i, v)].Outline, c.foot, p.Body.FootR)
}

func (r *run) noShelf(i int) {
	p, n := &r.b.Pots[i], r.names
	rule, l := r.edgeLimits(i)
	have := r.footRoom(i, p.At, p.Turn)
	r.add(rule, layout.Problem, "There is no shelf under the foot of "+n.pot(i)+".",
		measured{have: have, need: l.Problem, plan: l.Plan, at: at(p.At, p.Z)}, []layout.Thing{n.potThing(i)}, n.potLabel(i))
}

// overTwo tells one foot that stands over two shelves, and files it.
func (r *run) overTwo(i int) bool {
	p, n := &r.b.Pots[i], r.names
	for k := range r.b.Shelves {
		s := &r.b.Shelves[k]
		if k == p.Shelf || math.Abs(s.Top-p.Z) > sameTop {
			continue
		}
		r.foot = p.Body.Foot.AppendAt(r.foot[:0], plane.Pose{At: p.At, Turn: p.Turn})
		over := p.Body.FootR - s.Outline.SignedDistance(r.foot)
		if over <= tol {
			continue
		}
		where := at(s.Outline.NearestEdge(p.At), p.Z)
		r.add(layout.OneShelf, layout.Problem,
			sentence(n.pot(i))+" stands over two shelves, "+r.up(over)+" on "+n.shelf(k)+". It cracks or tips when one of them moves.",
			measured{have: -over, at: where}, []layout.Thing{n.potThing(i), n.shelfThing(p.Shelf), n.shelfThing(k)}, n.potLabel(i))
		return true
	}
	return false
}

func (r *run) sayFoot(i int, rule layout.RuleName, room float64, g layout.Grade, l layout.Limits) string {
	p := &r.b.Pots[i]
	what, edge := "foot of ", " from the edge"
	switch {
	case rule == layout.CookieToEdge || p.Body.Stand.Kind == layout.Cookie:
		what = "cookie of "
	case p.Body.Stand.Kind == layout.Stilt:
		what = "stilt of "
	}
	s := sentence("the " + what + r.names.pot(i))
	if p.Cones != nil {
		s = "The base of " + r.names.pot(i)
	}
	if room < -tol {
		return s + " stands " + r.upUnit(-room) + " past the edge of the shelf."
	}
	if r.down(room) == "0" {
		return s + " stands at the edge of the shelf. Plan " + r.up(l.Plan) + "."
	}
	return s + " stands " + r.downUnit(room) + edge + " of the shelf. Plan " + r.up(l.Plan) + "."
}

func (r *run) collectRim(i int, out float64) {
	if out <= r.lim.rims.Plan+tol {
		return
	}
	level := r.b.Pots[i].Level
	h := r.rims[level]
	if h == nil {
		h = &overhang{}
		r.rims[level] = h
	}
	h.pots = append(h.pots, i)
	if out > h.most {
		h.most, h.pot = out, i
	}
}

// tellRims files one note a level for rims that stand out past the edge, or a
// graver finding where the load's own rules ask for it.
func (r *run) tellRims() {
	for level := range r.b.Levels {
		h := r.rims[level]
		if h == nil {
			continue
		}
		n, l := r.names, r.lim.rims
		grade, need := layout.Note, l.Plan
		switch {
		case l.Problem > 0 && h.most > l.Problem+tol:
			grade, need = layout.Problem, l.Problem
		case l.Watch > 0 && h.most > l.Watch+tol:
			grade, need = layout.Watch, l.Watch
		}
		s := sentence(n.pot(h.pot)) + " stands out " + r.upUnit(h.most) + " past the edge of its shelf"
		if r.b.Pots[h.pot].Cones != nil {
			s = sentence(n.pot(h.pot)) + " stand out " + r.upUnit(h.most) + " past the edge of the shelf"
		}
		if len(h.pots) > 1 {
			s = sentence(number(len(h.pots))) + " rims on " + n.level(level) + " stand out past the edge of the shelf, the farthest by " + r.upUnit(h.most)
		}
		things := []layout.Thing{n.potThing(h.pot)}
		for _, i := range h.pots {
			if i != h.pot {
				things = append(things, n.potThing(i))
			}
		}
		p := &r.b.Pots[h.pot]
		r.add(layout.RimPastEdge, grade, s+". Plan "+r.plainNone(l.Plan)+".",
			measured{have: h.most, need: need, plan: l.Plan, at: at(r.b.Shelves[p.Shelf].Outline.NearestEdge(p.At), p.Solid.Max[2])},
			things, n.place(level))
	}
}

func (r *run) plainNone(mm float64) string {
	if mm <= 0 {
		return "none"
	}
	return r.up(mm)
}

// kindUse is what the load sets of one ware row.
type kindUse struct {
	kind int
	pots []int
}

// set lists the ware rows of which pots are set, in the order of the list.
func (r *run) set() []kindUse {
	uses := make([]kindUse, len(r.b.Load.Ware))
	for i := range r.b.Pots {
		if p := &r.b.Pots[i]; p.Ware != nil && p.Kind >= 0 && p.Kind < len(uses) {
			uses[p.Kind].kind = p.Kind
			uses[p.Kind].pots = append(uses[p.Kind].pots, i)
		}
	}
	out := uses[:0]
	for _, u := range uses {
		if len(u.pots) > 0 {
			out = append(out, u)
		}
	}
	return out
}

// row files a finding about all set pots of a ware row.
func (r *run) row(u kindUse, rule layout.RuleName, g layout.Grade, s string, m measured, more ...string) {
	n := r.names
	p := &r.b.Pots[u.pots[0]]
	if m.at == (mgl64.Vec3{}) {
		m.at = at(p.At, p.Solid.Max[2])
	}
	things := []layout.Thing{{Kind: layout.ThingWare, Name: p.Pot.Ware}}
	for _, i := range u.pots {
		things = append(things, n.potThing(i))
	}
	r.add(rule, g, s, m, things, append([]string{p.Pot.Ware}, more...)...)
}

// tallNarrow judges how a row stands on its foot: height over width of the
// pot's own foot.
func (r *run) tallNarrow(u kindUse) {
	l := r.b.Load.Limits(layout.TallNarrow)
	b := r.b.Pots[u.pots[0]].Body
	wide := leastWidth(b.Drawn.Foot.Skeleton, b.Drawn.Foot.Radius)
	high := b.Height - b.StandH
	if !(wide > 0) {
		return
	}
	ratio := high / wide
	grade, limit := layout.Watch, l.Watch
	switch {
	case l.Problem > 0 && ratio > l.Problem+tol:
		grade, limit = layout.Problem, l.Problem
	case l.Watch > 0 && ratio > l.Watch+tol:
	default:
		return
	}
	n := r.names
	they := pick(len(u.pots), "Set it late, away from the edge.", "Set them late, away from the edge.")
	r.row(u, layout.TallNarrow, grade,
		sentence(n.count(u.kind, len(u.pots)))+pick(len(u.pots), " is ", " are ")+r.up(high)+" high on a foot of "+r.down(wide)+": over "+strconv.FormatFloat(limit, 'g', -1, 64)+" times. "+they,
		measured{have: ratio, need: limit, plan: l.Plan})
}

// leastWidth is the width of a widened skeleton across its narrow way, mm.
func leastWidth(s plane.Skeleton, radius float64) float64 {
	if len(s) < 3 {
		return 2 * radius
	}
	least := math.Inf(1)
	for i := range s {
		n := plane.Unit(plane.Left(plane.Sub(s[(i+1)%len(s)], s[i])))
		least = math.Min(least, plane.Dot(n, plane.Sub(s.Support(n), s[i])))
	}
	return least + float64(2*radius)
}
