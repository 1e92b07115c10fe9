package clearance

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
)

// posts judges every post and what it stands on, and the posts under every
// shelf together.
func (r *run) posts() {
	for i := range r.b.Posts {
		r.postInside(i)
		r.postProbe(i)
		r.postFooting(i)
		r.inset(i)
		r.pieces(i)
	}
	for i := range r.b.Shelves {
		r.postHeights(i)
		r.postCount(i)
	}
	r.towerFooting()
}

func (r *run) postInside(i int) {
	p, n := &r.b.Posts[i], r.names
	if gap := solid.WallClearance(&p.Solid, r.b.Chamber); gap < -tol {
		r.add(layout.InsideKiln, layout.Problem, sentence(n.post(i))+" stands "+r.upUnit(-gap)+" into the wall.",
			measured{have: gap, at: at(p.At, p.Top)}, []layout.Thing{n.postThing(i), {Kind: layout.ThingWall}}, n.postLabel(i), "wall")
	}
	if over := p.Top - r.b.Height; over > tol {
		r.add(layout.InsideKiln, layout.Problem, sentence(n.post(i))+" stands "+r.upUnit(over)+" too high: the "+r.lidWord()+" stays open.",
			measured{have: -over, at: at(p.At, p.Top)}, []layout.Thing{n.postThing(i), {Kind: layout.ThingLid}}, n.postLabel(i), "lid")
	}
}

func (r *run) postProbe(i int) {
	p, n, l := &r.b.Posts[i], r.names, r.lim.probe
	for k := range r.b.Probes {
		q := &r.b.Probes[k]
		if apart(boxOf(&p.Solid), boxOf(&q.Solid)) >= worst(l) {
			continue
		}
		gap, w := solid.Gap(&p.Solid, &q.Solid)
		grade, bad := under(gap, l)
		if !bad || gap > 0 && r.separated(w) {
			continue
		}
		s := sentence(n.post(i)) + " stands " + r.downUnit(gap) + " from " + n.probe(k)
		switch {
		case gap < tol:
			s = sentence(n.post(i)) + " hits " + n.probe(k) + "."
		case grade == layout.Problem:
			s += ". Under " + r.up(l.Problem) + " it may be knocked."
		default:
			s += ". Plan " + r.up(l.Plan) + "."
		}
		r.add(layout.ToProbe, grade, s, against(gap, grade, l, middle(w)), []layout.Thing{n.postThing(i), n.probeThing(k)}, n.postLabel(i), n.probeLabel(k))
	}
}

// inset judges how far in from the shelf's edge a post stands, and that it
// stands wholly under. Where two shelves share a post, the edges that face
// each other do not count.
func (r *run) inset(i int) {
	p, n := &r.b.Posts[i], r.names
	l := r.b.Load.Limits(layout.Inset)
	if len(p.Shelves) == 0 {
		r.add(layout.PostUnder, layout.Watch, sentence(n.post(i))+" stands beside its shelf and carries nothing.",
			measured{plan: l.Plan, at: at(p.At, p.Top)}, []layout.Thing{n.postThing(i)}, n.postLabel(i))
		return
	}
	have := r.insetOf(i, p.At)
	grade, bad := under(have, l)
	things := []layout.Thing{n.postThing(i), n.shelfThing(p.Shelves[0])}
	where := at(r.b.Shelves[p.Shelves[0]].Outline.NearestEdge(p.At), p.Top)
	out := 0.0
	for _, v := range r.section(i, true) {
		out = math.Max(out, -r.insetOf(i, v))
	}
	if out > tol && have >= l.Problem-tol {
		r.add(layout.PostUnder, layout.Watch, sentence(n.post(i))+" sticks out "+r.upUnit(out)+" past the edge of the shelf it carries.",
			measured{have: -out, plan: l.Plan, at: where}, things, n.postLabel(i))
		return
	}
	if !bad {
		return
	}
	s := sentence(n.post(i)) + " stands " + r.downUnit(have) + " in from the edge of the shelf. Plan " + r.up(l.Plan) + "."
	if have < -tol {
		s = "The middle of " + n.post(i) + " stands " + r.upUnit(-have) + " outside the edge of the shelf."
	}
	r.add(layout.Inset, grade, s, against(have, grade, l, where), things, n.postLabel(i))
}

// insetOf is how deep a point under a post's shelves lies inside their outer
// edge, mm; negative outside.
func (r *run) insetOf(i int, v plane.Vec) float64 {
	p := &r.b.Posts[i]
	if len(p.Shelves) == 1 {
		return r.b.Shelves[p.Shelves[0]].Outline.Depth(v)
	}
	return r.sharedInset(p.Shelves, v)
}

// facingGap is how far apart two edges that face each other may lie for a post
// to carry both, mm.
const facingGap = 15

// sharedInset is the depth of a point in several shelves taken as one: edges
// whose nearest point lies by another of the shelves do not count.
func (r *run) sharedInset(shelves []int, v plane.Vec) float64 {
	best, inside := math.Inf(1), false
	for _, k := range shelves {
		o := r.b.Shelves[k].Outline
		if o.Depth(v) > -facingGap {
			inside = true
		}
		for _, e := range o.Edges() {
			q := nearestOn(e, v)
			faces := false
			for _, m := range shelves {
				faces = faces || m != k && r.b.Shelves[m].Outline.Depth(q) > -facingGap
			}
			if !faces {
				best = math.Min(best, plane.Distance(v, q))
			}
		}
	}
	if !inside {
		return -best
	}
	return best
}

// nearestOn is the point of an edge nearest to v.
func nearestOn(e plane.Edge, v plane.Vec) plane.Vec {
	if e.Kind == plane.Arc && facing(e, plane.Sub(v, e.Center)) {
		return plane.Add(e.Center, plane.Scale(plane.Unit(plane.Sub(v, e.Center)), e.Radius))
	}
	if e.Kind == plane.Line {
		q, _ := plane.Skeleton{e.From, e.To}.Nearest(v)
		return q
	}
	if plane.Distance(v, e.From) < plane.Distance(v, e.To) {
		return e.From
	}
	return e.To
}

// pieces judges how a post is put together and how slender it is.
func (r *run) pieces(i int) {
	p, n := &r.b.Posts[i], r.names
	things := []layout.Thing{n.postThing(i)}
	where := at(p.At, (p.Bottom+p.Top)/2)
	l := r.b.Load.Limits(layout.Pieces)
	count := float64(len(p.Pieces))
	if grade, bad := over(count, l); bad {
		r.add(layout.Pieces, grade, sentence(n.post(i))+" has "+number(len(p.Pieces))+" pieces. Plan "+pieceWord(missed(grade, l))+" at most.",
			against(count, grade, l, where), things, n.postLabel(i))
	}
	wide := math.Inf(1)
	for _, q := range p.Pieces {
		if q.Kind != nil && q.Kind.Section.Width > 0 {
			wide = math.Min(wide, q.Kind.Section.Width)
		}
	}
	l = r.b.Load.Limits(layout.Slender)
	ratio := (p.Top - p.Bottom) / wide
	if grade, bad := over(ratio, l); bad {
		r.add(layout.Slender, grade, sentence(n.post(i))+" is "+r.up(p.Top-p.Bottom)+" high and "+r.down(wide)+" wide: over "+strconv.FormatFloat(missed(grade, l), 'g', -1, 64)+" times its width it leans.",
			against(ratio, grade, l, where), things, n.postLabel(i))
	}
}

func pieceWord(limit float64) string { return number(int(limit)) }

// over grades a figure that is bad when large; false when it passes.
func over(have float64, l layout.Limits) (layout.Grade, bool) {
	switch {
	case have > l.Problem+tol:
		return layout.Problem, true
	case have > l.Watch+tol:
		return layout.Watch, true
	}
	return layout.Note, false
}

// reaches grades a figure that is bad from its limit on: heights that differ
// by 5.
func reaches(have float64, l layout.Limits) (layout.Grade, bool) {
	switch {
	case have >= l.Problem-tol:
		return layout.Problem, true
	case have >= l.Watch-tol:
		return layout.Watch, true
	}
	return layout.Note, false
}

// carriedBy lists the posts under a shelf.
func (r *run) carriedBy(shelf int) []int {
	var out []int
	for _, k := range r.b.Levels[r.b.Shelves[shelf].Level].Posts {
		for _, s := range r.b.Posts[k].Shelves {
			if s == shelf {
				out = append(out, k)
			}
		}
	}
	return out
}

// postHeights judges the heads of the posts under one shelf.
func (r *run) postHeights(i int) {
	n := r.names
	posts := r.carriedBy(i)
	if len(posts) < 2 {
		return
	}
	low, high := posts[0], posts[0]
	for _, k := range posts {
		if r.b.Posts[k].Top < r.b.Posts[low].Top {
			low = k
		}
		if r.b.Posts[k].Top > r.b.Posts[high].Top {
			high = k
		}
	}
	rule, does := layout.PostHeights, "leans"
	if len(posts) > 3 {
		rule, does = layout.PostHeights4, "rocks"
	}
	l := r.b.Load.Limits(rule)
	have := r.b.Posts[high].Top - r.b.Posts[low].Top
	grade, bad := reaches(have, l)
	if !bad || have < tol {
		return
	}
	r.add(rule, grade, sentence(n.shelf(i))+" "+does+": post "+r.b.Posts[high].Letter+" is "+sayFine(have, r)+" higher than post "+r.b.Posts[low].Letter+".",
		against(have, grade, l, at(r.b.Posts[high].At, r.b.Posts[high].Top)),
		[]layout.Thing{n.shelfThing(i), n.postThing(high), n.postThing(low)}, n.shelfLabel(i))
}

// sayFine shows a difference of heights, which may be under a mm.
func sayFine(mm float64, r *run) string {
	if mm < 1 {
		return "under " + r.upUnit(1)
	}
	return r.upUnit(mm)
}

// postCount judges how many posts carry a shelf.
func (r *run) postCount(i int) {
	s, n := &r.b.Shelves[i], r.names
	posts := r.carriedBy(i)
	if len(posts) == 0 && s.Bottom <= tol {
		return // it lies on the floor
	}
	l := r.b.Load.Limits(layout.PostCount)
	have := float64(len(posts))
	where := at(s.Outline.Centroid(), s.Bottom)
	things := []layout.Thing{n.shelfThing(i)}
	if have < l.Problem-tol {
		r.add(layout.PostCount, layout.Problem, sentence(n.shelf(i))+" stands on "+number(len(posts))+pick(len(posts), " post", " posts")+". It takes three.",
			measured{have: have, need: l.Problem, plan: l.Plan, at: where}, things, n.shelfLabel(i))
		return
	}
	if have <= l.Watch+tol {
		return
	}
	for _, k := range posts {
		if !r.needed(k) {
			things = append(things, n.postThing(k))
		}
	}
	if len(things) == 1 {
		return
	}
	r.add(layout.PostCount, layout.Watch, sentence(n.shelf(i))+" stands on "+number(len(posts))+" posts. Three do not rock, and no line above needs "+
		pick(len(things)-1, "post "+things[1].Name, "them all")+".",
		measured{have: have, need: l.Watch, plan: l.Plan, at: where}, things, n.shelfLabel(i))
}

// needed tells whether a post under a shelf carries more than that shelf:
// another shelf, or a line above.
func (r *run) needed(post int) bool {
	p := &r.b.Posts[post]
	if len(p.Shelves) > 1 {
		return true
	}
	for _, up := range r.b.Levels[p.Level].Above {
		for _, k := range r.b.Levels[up].Posts {
			if r.share(k, post) > 0 {
				return true
			}
		}
	}
	return false
}
