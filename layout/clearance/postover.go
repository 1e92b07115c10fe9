package clearance

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
)

// postFooting judges what a post stands on: the floor, or a shelf with a post
// under it. Each level is judged so, and that carries every line to the floor.
func (r *run) postFooting(i int) {
	p, n := &r.b.Posts[i], r.names
	if p.Bottom <= tol {
		return // on the floor
	}
	things := []layout.Thing{n.postThing(i)}
	shelf := r.shelfUnder(i)
	if shelf < 0 {
		r.add(layout.TowerFooting, layout.Problem, sentence(n.post(i))+" stands over air: no shelf lies under it.",
			measured{at: at(p.At, p.Bottom)}, things, n.postLabel(i))
		return
	}
	l := r.b.Load.Limits(layout.PostOverPost)
	share, below := r.bestBelow(i, r.b.Shelves[shelf].Level)
	grade, bad := under(share, l)
	if !bad {
		return
	}
	s := sentence(n.post(i)) + " stands on " + n.shelf(shelf) + " with no post below it."
	if below >= 0 {
		things = append(things, n.postThing(below))
		s = "Post " + p.Letter + " under " + n.level(p.Level) + " stands " + sayShare(share) + " over the post below it."
		if r.b.Posts[below].Letter != p.Letter {
			s = "Post " + p.Letter + " under " + n.level(p.Level) + " stands " + sayShare(share) + " over post " + r.b.Posts[below].Letter + " below it."
		}
	}
	r.add(layout.PostOverPost, grade, s, against(share, grade, l, at(p.At, p.Bottom)), things, n.postLabel(i))
}

// sayShare says how much of a post's section is carried.
func sayShare(share float64) string {
	switch {
	case share > 0.45 && share < 0.55:
		return "half"
	case share > 0.7 && share < 0.78:
		return "three quarters"
	}
	return strconv.Itoa(int(math.Floor(share*100))) + " %"
}

// shelfUnder is the shelf that a post's foot stands on, or -1. Its middle
// decides.
func (r *run) shelfUnder(i int) int {
	p := &r.b.Posts[i]
	for k := range r.b.Shelves {
		s := &r.b.Shelves[k]
		if s.Level != p.Level && math.Abs(s.Top-p.Bottom) < sameTop && s.Outline.Depth(p.At) >= -postSlack(r.section(i, false)) {
			return k
		}
	}
	return -1
}

// postSlack is how far the middle of a post may lie beyond the shelf it stands
// on: under half of its width, since a post shared by two shelves stands on
// both.
func postSlack(s plane.Skeleton) float64 {
	lo, hi := s.Bounds()
	return (hi[0] - lo[0]) / 2
}

// bestBelow is the post of a level that best carries post i, and the share of
// the section that it carries.
func (r *run) bestBelow(i, level int) (float64, int) {
	best, which := 0.0, -1
	for _, k := range r.b.Levels[level].Posts {
		if share := r.share(i, k); share > best {
			best, which = share, k
		}
	}
	return best, which
}

// share is how much of the sections of two posts overlaps: the foot of the
// upper one and the head of the lower one, as a share of the smaller.
func (r *run) share(upper, lower int) float64 {
	p, q := &r.b.Posts[upper], &r.b.Posts[lower]
	if plane.Distance(p.At, q.At) > p.Solid.Body.Reach()+q.Solid.Body.Reach() {
		return 0
	}
	a, b := r.section(upper, false), r.section(lower, true)
	less := math.Min(a.Area(), b.Area())
	if !(less > 0) {
		return 0
	}
	return plane.Intersection(a, b).Area() / less
}

// section is the plan of a post's lowest or highest piece as a polygon in the
// kiln's frame.
func (r *run) section(i int, top bool) plane.Skeleton {
	p := &r.b.Posts[i]
	if len(p.Solid.Body.Parts) == 0 {
		return plane.Skeleton{p.At}
	}
	k, z := 0, math.Inf(1)
	for j, part := range p.Solid.Body.Parts {
		lo := part.Profile.Bottom()
		if top {
			lo = -part.Profile.Top()
		}
		if lo < z {
			k, z = j, lo
		}
	}
	radius := p.Solid.Body.Parts[k].Profile.Max()
	s := p.Solid.Skeleton(k)
	if radius < tol {
		return s
	}
	o, err := plane.Widened(s, radius)
	if err != nil {
		return s
	}
	return plane.Skeleton(o.Points(sectionSag))
}

// sectionSag is how finely round sections are drawn when their overlap is
// measured, mm: under a thousandth of the area.
const sectionSag = 0.01

// towerFooting judges that a tower's supports agree in height.
func (r *run) towerFooting() {
	l := r.b.Load.Limits(layout.PostHeights)
	for t := range r.b.Towers {
		w := &r.b.Towers[t]
		if len(w.On) < 2 || len(w.Levels) == 0 {
			continue
		}
		low, high := w.On[0], w.On[0]
		for _, v := range w.On {
			if r.b.Levels[v].Top < r.b.Levels[low].Top {
				low = v
			}
			if r.b.Levels[v].Top > r.b.Levels[high].Top {
				high = v
			}
		}
		have := r.b.Levels[high].Top - r.b.Levels[low].Top
		grade, bad := reaches(have, l)
		if !bad {
			continue
		}
		n := r.names
		r.add(layout.TowerFooting, grade, sentence(n.level(w.Levels[0]))+" stands on "+n.level(high)+" and "+n.level(low)+", which differ by "+r.upUnit(have)+".",
			against(have, grade, l, at(plane.Vec{}, r.b.Levels[high].Top)), []layout.Thing{n.levelThing(w.Levels[0]), n.levelThing(high), n.levelThing(low)}, "tower "+w.Name)
	}
}
