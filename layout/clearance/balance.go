package clearance

import (
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/order"
	"threepost/layout/statics"
)

// balance judges that every shelf's balance point lies inside its posts, when
// the load stands and at every moment while it is set.
func (r *run) balance() {
	l := r.b.Load.Limits(layout.Balance)
	final := map[int]float64{} // by level: the least margin told or seen
	for i := range r.weigh.Shelves {
		s := &r.weigh.Shelves[i]
		level := r.b.Shelves[i].Level
		if m, ok := final[level]; !ok || s.Result.Margin < m {
			final[level] = s.Result.Margin
		}
		if len(s.Posts) < 3 {
			continue // told as too few posts
		}
		r.balanceOf(i, s, l)
	}
	for i := range r.order.Levels {
		r.balanceWhile(&r.order.Levels[i], l, final)
	}
}

func (r *run) balanceOf(i int, s *statics.ShelfWeight, l layout.Limits) {
	n := r.names
	grade, bad := under(s.Result.Margin, l)
	if !bad {
		return
	}
	say := "The balance point of " + n.level(r.b.Shelves[i].Level) + " lies " + r.downUnit(s.Result.Margin) + " inside its posts. Plan " + r.up(l.Plan) + "."
	if grade == layout.Problem {
		say = sentence(n.shelf(i)) + " tips: its balance point lies " + r.upUnit(-s.Result.Margin) + " outside its posts."
	}
	r.add(layout.Balance, grade, say, against(s.Result.Margin, grade, l, at(s.Result.Balance, r.b.Shelves[i].Top)),
		[]layout.Thing{n.shelfThing(i)}, n.shelfLabel(i))
}

// balanceWhile tells a level that comes nearer to tipping while it is set than
// when all stands.
func (r *run) balanceWhile(o *order.LevelOrder, l layout.Limits, final map[int]float64) {
	n := r.names
	grade, bad := under(o.Margin, l)
	if o.Tips {
		grade, bad = layout.Problem, true
	}
	if at, ok := final[o.Level]; !bad || len(r.b.Levels[o.Level].Posts) < 3 || ok && o.Margin >= at-tol {
		return
	}
	say := "The bare shelf of " + n.level(o.Level)
	things := []layout.Thing{n.levelThing(o.Level)}
	where := at(plane.Vec{}, r.b.Levels[o.Level].Top)
	if len(r.b.Levels[o.Level].Shelves) > 0 {
		where = at(r.b.Shelves[r.b.Levels[o.Level].Shelves[0]].Outline.Centroid(), r.b.Levels[o.Level].Top)
	}
	if o.Worst >= 0 && o.Worst < len(r.b.Pots) {
		say = "After " + n.pot(o.Worst) + " is set, " + n.level(o.Level)
		if r.b.Pots[o.Worst].Cones != nil {
			say = "After " + n.pot(o.Worst) + " are set, " + n.level(o.Level)
		}
		things = append(things, n.potThing(o.Worst))
		where = at(r.b.Pots[o.Worst].At, r.b.Levels[o.Level].Top)
	}
	if grade == layout.Problem {
		say += " tips: its balance point lies " + r.upUnit(-o.Margin) + " outside its posts. Hold it until the pots across stand."
	} else {
		say += " balances " + r.downUnit(o.Margin) + " inside its posts. Plan " + r.up(l.Plan) + "."
	}
	r.add(layout.Balance, grade, say, against(o.Margin, grade, l, where), things, n.place(o.Level), "while loading")
}

// margin is how far a point lies inside the ring of some supports, mm.
func (c *Checker) margin(supports []plane.Vec, p plane.Vec) float64 {
	return statics.Solve(supports, []statics.Load{{Mass: 1, At: p}}).Margin
}

// settable tells the rings of pots that no order of setting allows.
func (r *run) settable() {
	for _, c := range r.cycles {
		if len(c.Pots) < 2 {
			continue
		}
		n := r.names
		things := make([]layout.Thing, len(c.Pots))
		labels := make([]string, len(c.Pots))
		for i, p := range c.Pots {
			things[i], labels[i] = n.potThing(p), n.potLabel(p)
		}
		say := sentence(n.pot(c.Pots[0])) + " and " + n.from(c.Pots[0], c.Pots[1]) + " reach under each other: neither can be let down beside the other."
		if len(c.Pots) > 2 {
			says := make([]string, 0, len(c.Pots))
			for _, p := range c.Pots {
				says = append(says, n.pot(p))
			}
			say = sentence(strings.Join(says[:len(says)-1], ", ")) + " and " + says[len(says)-1] + " each have to go in before the next: no order sets them."
		}
		l := r.b.Load.Limits(layout.HandRoom)
		mid := plane.Lerp(r.b.Pots[c.Pots[0]].At, r.b.Pots[c.Pots[1]].At, 0.5)
		r.add(layout.CanBeSet, layout.Problem, say, measured{have: -c.Short, plan: l.Plan, at: at(mid, r.b.Pots[c.Pots[0]].Z)}, things, sorted(labels...)...)
	}
}
