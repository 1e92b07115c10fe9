package clearance

import (
	"threepost/geometry/solid"
	"threepost/layout"
)

// pairs judges pot to pot and pot to post, over the whole kiln: pots of other
// levels and towers count.
func (r *run) pairs() {
	pots := len(r.b.Pots)
	r.grid.Pairs(r.reach, func(a, b int) {
		switch {
		case b < pots:
			r.potToPot(a, b)
		case a < pots:
			r.potToPost(a, b-pots)
		default:
			r.postToPost(a-pots, b-pots)
		}
	})
}

func (r *run) potToPot(a, b int) {
	r.lowering(a, b)
	l := r.potLimits(a, b)
	sa, sb := &r.b.Pots[a].Solid, &r.b.Pots[b].Solid
	if r.potsClear(a, sa, b, sb, worst(l)) {
		return
	}
	gap, w := solid.Gap(sa, sb)
	grade, bad := under(gap, l)
	if !bad || gap > 0 && r.separated(w) {
		return
	}
	if r.subject(b, a) {
		a, b = b, a
	}
	n := r.names
	labels := sorted(n.potLabel(a), n.potLabel(b))
	r.add(layout.PotToPot, grade, r.sayPair(a, b, gap, grade, l), against(gap, grade, l, middle(w)),
		[]layout.Thing{n.potThing(a), n.potThing(b)}, labels...)
}

// subject tells whether pot a is the better one to begin a sentence with, and
// to move: one that has a name or stands beside a post, and is not locked.
func (r *run) subject(a, b int) bool {
	pa, pb := &r.b.Pots[a], &r.b.Pots[b]
	if pa.Locked != pb.Locked {
		return pb.Locked
	}
	rate := func(i int) int {
		p := &r.b.Pots[i]
		switch {
		case p.Cones != nil:
			return 0
		case p.Pot.Number == 0:
			return 3
		case r.names.postBeside(i, r.names.alike(i)) != "":
			return 2
		}
		return 1
	}
	return rate(a) > rate(b)
}

func (r *run) sayPair(a, b int, gap float64, g layout.Grade, l layout.Limits) string {
	n := r.names
	s := sentence(n.pot(a)) + " " + r.stands(a, gap, n.from(a, b))
	if gap < -tol {
		return s + "."
	}
	if g == layout.Problem {
		s += ". Under " + r.up(l.Problem) + " they may fuse"
	} else {
		s += ". Plan " + r.up(l.Plan)
	}
	if why := r.whyTwice(a, b); why != "" {
		s += ", " + why
	}
	return s + "."
}

// whyTwice says why a pair keeps twice the gap.
func (r *run) whyTwice(a, b int) string {
	for _, i := range []int{a, b} {
		p := &r.b.Pots[i]
		if p.Ware == nil {
			continue
		}
		name := p.Pot.Ware
		switch f := p.Ware.Flags; {
		case f.Bloats:
			return "twice the usual, because the " + name + " bloats"
		case f.Spits:
			return "twice the usual, because the " + name + " spits"
		case f.Refire:
			return "twice the usual, because the " + name + " is a refire"
		}
	}
	return ""
}

// stands says a pot's gap to something: "stands 4 mm from it", "touches it",
// "overlaps it by 3 mm".
func (r *run) stands(pot int, gap float64, what string) string {
	many := ""
	if r.b.Pots[pot].Cones == nil {
		many = "s"
	}
	switch {
	case gap < -tol:
		return "overlap" + many + " " + what + " by " + r.upUnit(-gap)
	case r.down(gap) == "0" && many == "":
		return "touch " + what
	case r.down(gap) == "0":
		return "touches " + what
	}
	return "stand" + many + " " + r.downUnit(gap) + " from " + what
}

func (r *run) potToPost(pot, post int) {
	p, q := &r.b.Pots[pot], &r.b.Posts[post]
	if r.underOwnShelf(pot, post) {
		return
	}
	l := r.lim.post
	if solid.GapAtLeast(&p.Solid, &q.Solid, worst(l)) {
		return
	}
	gap, w := solid.Gap(&p.Solid, &q.Solid)
	grade, bad := under(gap, l)
	if !bad || gap > 0 && r.separated(w) {
		return
	}
	n := r.names
	r.add(layout.PotToPost, grade, r.sayGap(pot, "post "+q.Letter, gap, grade, l, "they may fuse"), against(gap, grade, l, middle(w)),
		[]layout.Thing{n.potThing(pot), n.postThing(post)}, n.potLabel(pot), n.postLabel(post))
}

// sayGap is the sentence of a pot too near to something. danger says what
// happens under the problem figure.
func (r *run) sayGap(pot int, what string, gap float64, g layout.Grade, l layout.Limits, danger string) string {
	s := sentence(r.names.pot(pot)) + " " + r.stands(pot, gap, what)
	switch {
	case gap < -tol:
		return s + "."
	case g == layout.Problem:
		return s + ". Under " + r.up(l.Problem) + " " + danger + "."
	}
	return s + ". Plan " + r.up(l.Plan) + "."
}

// postToPost judges posts of different towers, which must not meet. Posts of
// one tower share its lines.
func (r *run) postToPost(a, b int) {
	p, q := &r.b.Posts[a], &r.b.Posts[b]
	if p.Level == q.Level && p.Line == q.Line || p.Top <= q.Bottom+tol || q.Top <= p.Bottom+tol {
		return
	}
	gap, w := solid.Gap(&p.Solid, &q.Solid)
	if gap >= -tol {
		return
	}
	n := r.names
	r.add(layout.TowerFooting, layout.Problem,
		sentence(n.post(a))+" and "+n.post(b)+" stand in one place: they overlap by "+r.upUnit(-gap)+".",
		measured{have: gap, at: middle(w)}, []layout.Thing{n.postThing(a), n.postThing(b)}, sorted(n.postLabel(a), n.postLabel(b))...)
}
