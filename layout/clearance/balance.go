package clearance

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/statics"
)

// balance judges that every shelf's balance point lies inside its posts, when
// the load stands and at every moment while it is set.
func (r *run) balance() {
	l := r.b.Load.Limits(layout.Balance)
	for i := range r.weigh.Shelves {
		s := &r.weigh.Shelves[i]
		if len(s.Posts) < 3 {
			continue // told as too few posts
		}
		r.balanceOf(i, s, l)
		if r.maySway(i, l) {
			if o, _ := r.inOrder(); i < len(o.Moments) {
				r.balanceWhile(&o.Moments[i], l, s.Result.Margin)
			}
		}
	}
}

// maySway tells whether some part of a shelf's load could bring its balance
// point nearer than the watch figure to a side of its posts' ring. For each
// side the worst part is everything that lies nearer to it than that figure,
// or beyond it, and what comes down posts from above counts in full at the
// worst of those posts; so no order of loading does worse.
func (r *run) maySway(i int, l layout.Limits) bool {
	s, w := &r.b.Shelves[i], &r.weigh.Shelves[i]
	at := make([]plane.Vec, len(w.Posts))
	for k, p := range w.Posts {
		at[k] = r.b.Posts[p].At
	}
	ring := hullOf(at)
	if len(ring) < 3 {
		return true
	}
	least, middle := worst(l), s.Outline.Centroid()
	for k, p := range ring {
		in := plane.Unit(plane.Left(plane.Sub(ring[(k+1)%len(ring)], p)))
		beyond := func(v plane.Vec) float64 { return plane.Dot(in, plane.Sub(v, p)) - least }
		sum := float64(s.Mass * beyond(middle))
		for _, j := range r.b.Levels[s.Level].Pots {
			if q := &r.b.Pots[j]; q.Shelf == i {
				sum += float64(q.Body.Mass * math.Min(0, beyond(q.At)))
			}
		}
		deepest := 0.0
		for _, up := range r.b.Levels[s.Level].Above {
			for _, j := range r.b.Levels[up].Posts {
				deepest = math.Min(deepest, beyond(r.b.Posts[j].At))
			}
		}
		if sum+float64(w.Above*deepest) < 0 {
			return true
		}
	}
	return false
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

// balanceWhile tells a shelf that comes nearer to tipping while the kiln is
// loaded than when all stands.
func (r *run) balanceWhile(m *statics.Moment, l layout.Limits, final float64) {
	grade, bad := under(m.Margin, l)
	if m.Step < 0 || !bad || m.Margin >= final-tol {
		return
	}
	n := r.names
	say, where := r.afterWhat(m)
	what := n.shelf(m.Shelf)
	if grade == layout.Problem {
		say += ", " + what + " tips: its balance point lies " + r.upUnit(-m.Margin) + " outside its posts. Hold it until what stands across is in."
	} else {
		say += ", " + what + " balances " + r.downUnit(m.Margin) + " inside its posts. Plan " + r.up(l.Plan) + "."
	}
	things := []layout.Thing{n.shelfThing(m.Shelf)}
	if m.After.Kind == statics.SetPot {
		things = append(things, n.potThing(m.After.Index))
	}
	r.add(layout.Balance, grade, say, against(m.Margin, grade, l, where), things, n.shelfLabel(m.Shelf), "while loading")
}

// afterWhat says the moment of loading, and where to point.
func (r *run) afterWhat(m *statics.Moment) (string, mgl64.Vec3) {
	n := r.names
	switch i := m.After.Index; m.After.Kind {
	case statics.SetPot:
		p := &r.b.Pots[i]
		if p.Cones != nil {
			return "When " + n.pot(i) + " are set", at(p.At, p.Z)
		}
		return "When " + n.pot(i) + " is set", at(p.At, p.Z)
	case statics.SetPost:
		return "When " + n.post(i) + " is set", at(r.b.Posts[i].At, r.b.Posts[i].Bottom)
	default:
		return "When " + n.shelf(i) + " is laid", at(r.b.Shelves[i].Outline.Centroid(), r.b.Shelves[i].Top)
	}
}
