package gaps

import (
	"math"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout/stacks"
)

// Narrow is the gap, mm, under which a bar shows it: the plan figure of deep
// levels (common practice).
const Narrow = 9

// least is the gap, mm, under which a bar would be no longer than its line is
// wide.
const least = 0.5

// Part is a drawn outline in the kiln's frame: a skeleton widened by a radius,
// mm.
type Part struct {
	Skeleton plane.Skeleton
	Radius   float64
}

// PartOf puts a drawn part of a pot where the pot stands.
func PartOf(w stacks.Widened, p *stacks.Pot) Part {
	return Part{w.Skeleton.At(plane.Pose{At: p.At, Turn: p.Turn}), w.Radius}
}

// PartOfPost is the plan of a post.
func PartOfPost(p *stacks.Post) Part {
	if len(p.Solid.Body.Parts) == 0 {
		return Part{plane.Skeleton{p.At}, 1}
	}
	return Part{p.Solid.Skeleton(0), p.Solid.Body.Parts[0].Profile.Max()}
}

// Gap is how far two drawn outlines are apart, mm, and between which places.
func (p Part) Gap(q Part) (mm float64, a, b plane.Vec) {
	d, pa, pb, n := plane.Separation(p.Skeleton, q.Skeleton)
	return d - p.Radius - q.Radius, plane.Add(pa, plane.Scale(n, p.Radius)), plane.Sub(pb, plane.Scale(n, q.Radius))
}

// Bounds is the upright box round a part.
func (p Part) Bounds() (lo, hi plane.Vec) {
	lo, hi = p.Skeleton.Bounds()
	r := plane.Vec{p.Radius, p.Radius}
	return plane.Sub(lo, r), plane.Add(hi, r)
}

// Bar is a narrow gap between two drawn outlines: from A to B.
type Bar struct {
	A, B plane.Vec
	Gap  float64 // of the solids, allowances included, mm
}

// Drawn are the outlines of one pot on a page: its body and its handles.
type Drawn struct {
	Pot   int // into Built.Pots
	Parts []Part
}

// Bars finds the narrow gaps between pots of one level, and between pots and
// the posts that stand on it, in the order of the pots. Bars run from drawn
// line to drawn line; where the drawn lines meet there is none.
func Bars(b *stacks.Built, pots []Drawn, standing func(level int) []int) []Bar {
	var out []Bar
	add := func(one, other *solid.Placed, a, c []Part) {
		if apart(one, other) {
			return
		}
		gap, _ := solid.Gap(one, other)
		if gap >= Narrow-plane.Tolerance || gap < least {
			return
		}
		near, bar := math.Inf(1), Bar{Gap: gap}
		for _, q := range a {
			for _, r := range c {
				if d, u, v := q.Gap(r); d < near {
					near, bar.A, bar.B = d, u, v
				}
			}
		}
		if near > least {
			out = append(out, bar)
		}
	}
	for i, d := range pots {
		one := &b.Pots[d.Pot]
		for _, e := range pots[i+1:] {
			if other := &b.Pots[e.Pot]; one.Level == other.Level {
				add(&one.Solid, &other.Solid, d.Parts, e.Parts)
			}
		}
		for _, k := range standing(one.Level) {
			post := &b.Posts[k]
			add(&one.Solid, &post.Solid, d.Parts, []Part{PartOfPost(post)})
		}
	}
	return out
}

// apart tells whether two boxes are too far from each other for a narrow gap.
func apart(a, b *solid.Placed) bool {
	return a.Min[0] > b.Max[0]+Narrow || b.Min[0] > a.Max[0]+Narrow || a.Min[1] > b.Max[1]+Narrow || b.Min[1] > a.Max[1]+Narrow
}
