package planner

import "sort"

// Merge picks up to three plans that differ, the best first: the one that was
// told already, and of others, such as several searches of one load give by
// Plans, those that differ most from it. They differ in how the kiln is
// divided, in the number of levels or in their heights, in this order; of plans
// on the same posts the better one is kept, the one that was told in any case.
// Those that hold clearly less, or leave a must, are left out.
func Merge(told *Plan, others ...*Plan) []*Plan {
	rest := append([]*Plan(nil), others...)
	sort.SliceStable(rest, func(i, j int) bool { return rest[i].beats(rest[j]) })
	picked := []*Plan{told}
	take := func(new func(*Plan) bool) {
		for _, p := range rest {
			if len(picked) < mostPlans && !p.amongPlans(picked) && p.worth(told) && new(p) {
				picked = append(picked, p)
			}
		}
	}
	take(func(p *Plan) bool { return !otherIs(picked, p, func(w, v way) bool { return w.split == v.split }) })
	take(func(p *Plan) bool {
		return p.way.split == told.way.split && !otherIs(picked, p, func(w, v way) bool { return w.split == v.split && w.levels == v.levels })
	})
	take(func(*Plan) bool { return true })
	sort.SliceStable(picked, func(i, j int) bool { return picked[i].beats(picked[j]) })
	out := make([]*Plan, len(picked))
	for i, p := range picked {
		q := *p
		q.Differs = ""
		if i > 0 {
			q.Differs = differs(picked[0].way, p.way)
		}
		out[i] = &q
	}
	return out
}

// beats orders plans as candidates are ordered.
func (p *Plan) beats(q *Plan) bool {
	return p.ranked().beats(q.ranked())
}

// ranked is what a plan is ordered by.
func (p *Plan) ranked() *candidate {
	return &candidate{musts: p.musts, watch: p.watch, deaf: p.deaf, roams: p.roams, unseen: p.unseen, value: p.weight, pieces: p.Pieces}
}

// worth says whether a plan is worth showing beside another.
func (p *Plan) worth(told *Plan) bool {
	return p.Value >= worthWhile*told.Value && p.musts >= told.musts-1e-9
}

// amongPlans says whether one of the plans stands on the same posts.
func (p *Plan) amongPlans(others []*Plan) bool {
	return otherIs(others, p, func(w, v way) bool { return w.split == v.split && w.heights == v.heights })
}

// otherIs says whether one of the plans is to another as asked.
func otherIs(others []*Plan, p *Plan, same func(w, v way) bool) bool {
	for _, o := range others {
		if same(o.way, p.way) {
			return true
		}
	}
	return false
}
