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
			if o := r.inOrder(); i < len(o.Moments) {
				r.balanceWhile(&o.Moments[i], l, s.Result.Margin)
			}
		}
	}
}

// maySway tells whether some part of a shelf's load could bring its balance
// point nearer than the watch figure to a side of its posts' ring. For each
// side the worst part is everything that lies nearer to it than that figure,
// or beyond it; so no order of loading does worse.
//
// What an upper shelf brings down its posts has its balance point where the
// upper one's is. If that never comes too near to the upper ring, and the upper
// ring lies inside this one, it only helps here, and the posts alone count.
// Otherwise all that comes from above counts at the worst of its posts.
func (r *run) maySway(i int, l layout.Limits) bool {
	if was, known := r.sways[i]; known {
		return was
	}
	r.sways[i] = true // until it is known better, also against going in circles
	ring := r.ring(i)
	if len(ring) < 3 {
		return true
	}
	r.sways[i] = r.sway(i, ring, l)
	return r.sways[i]
}

func (r *run) sway(i int, ring []plane.Vec, l layout.Limits) bool {
	s, w := &r.b.Shelves[i], &r.weigh.Shelves[i]
	least, middle := worst(l), s.Outline.Centroid()
	standing, calm := r.standingOn(i, ring, l)
	for k, p := range ring {
		in := plane.Unit(plane.Left(plane.Sub(ring[(k+1)%len(ring)], p)))
		beyond := func(v plane.Vec) float64 { return plane.Dot(in, plane.Sub(v, p)) - least }
		sum := float64(s.Mass * beyond(middle))
		for _, j := range r.b.Levels[s.Level].Pots {
			if q := &r.b.Pots[j]; q.Shelf == i || q.Shelf < 0 {
				sum += float64(q.Body.Mass * math.Min(0, beyond(q.At)))
			}
		}
		deepest := 0.0
		for _, j := range standing {
			q := &r.b.Posts[j]
			deepest = math.Min(deepest, beyond(q.At))
			sum += float64(q.Mass * math.Min(0, beyond(q.At)))
		}
		if !calm {
			sum += float64(w.Above * deepest)
		}
		if sum < 0 {
			return true
		}
	}
	return false
}

// standingOn lists the posts that stand on a shelf, and tells whether all that
// they carry is calm: shelves that never sway, each wholly carried by posts
// that stand here, within the ring.
func (r *run) standingOn(i int, ring []plane.Vec, l layout.Limits) (posts []int, calm bool) {
	calm = true
	carried := map[int]bool{}
	for _, up := range r.b.Levels[r.b.Shelves[i].Level].Above {
		for _, j := range r.b.Levels[up].Posts {
			if r.weigh.Posts[j].Under != i {
				continue
			}
			posts = append(posts, j)
			calm = calm && insideRing(ring, r.b.Posts[j].At)
			for _, s := range r.b.Posts[j].Shelves {
				carried[s] = true
			}
		}
	}
	for s := range carried {
		for _, j := range r.weigh.Shelves[s].Posts {
			calm = calm && r.weigh.Posts[j].Under == i
		}
		calm = calm && !r.maySway(s, l)
	}
	return posts, calm
}

// ring is the hull of the posts under a shelf.
func (r *run) ring(i int) []plane.Vec {
	w := &r.weigh.Shelves[i]
	at := make([]plane.Vec, len(w.Posts))
	for k, p := range w.Posts {
		at[k] = r.b.Posts[p].At
	}
	return hullOf(at)
}

func insideRing(ring []plane.Vec, v plane.Vec) bool {
	for k, p := range ring {
		if plane.Cross(plane.Unit(plane.Sub(ring[(k+1)%len(ring)], p)), plane.Sub(v, p)) < -tol {
			return false
		}
	}
	return true
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
