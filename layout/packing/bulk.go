package packing

import (
	"math"

	"threepost/geometry/plane"
)

// bulk is the simplest bound: where needs act like radii, things widened by
// half their own need do not overlap, and all lie in the outlines widened by
// what they may stand out.
type bulk struct {
	room float64   // mm2; infinite where no bound is known
	each []float64 // of a thing of every want, mm2
}

func newBulk(g *ground) bulk {
	b := bulk{room: math.Inf(1), each: make([]float64, len(g.p.Wants))}
	main := make([]int, len(g.p.Wants)) // the part that takes most
	half := make([]float64, len(g.p.Wants))
	out := make([]float64, len(g.areas)) // how far things may stand out of an area
	in := make([]bool, len(g.areas))
	for i, w := range g.p.Wants {
		f := &g.kinds[w.Kind]
		for a, s := range f.parts {
			r := float64(math.Max(0, g.p.Need[w.Kind][a][w.Kind][a]) / 2)
			area := float64(math.Pi*r*r) + math.Abs(s.Area()) + float64(s.Perimeter()*r)
			if area > b.each[i] {
				b.each[i], main[i], half[i] = area, a, r
			}
		}
	}
	for i, w := range g.p.Wants {
		for j, v := range g.p.Wants[:i] {
			if g.p.Need[w.Kind][main[i]][v.Kind][main[j]] < half[i]+half[j]-1e-9 {
				return b // one may lie partly under the other
			}
		}
	}
	// one area must hold the main part of every kind
	for a := range g.areas {
		in[a] = true
		for i, w := range g.p.Wants {
			held := false
			for _, l := range g.kinds[w.Kind].limits {
				if l.Area == a && l.Part == main[i] {
					held = true
					out[a] = math.Max(out[a], half[i]-l.Depth)
				}
			}
			in[a] = in[a] && held
		}
		if !in[a] {
			continue
		}
		room := 0.0
		for _, k := range g.areas[a] {
			o := &g.fences[k].outline
			around := 0.0
			for _, e := range o.Edges() {
				if e.Kind == plane.Line {
					around += plane.Distance(e.From, e.To)
				} else {
					around += float64(e.Radius * e.Sweep() / radian)
				}
			}
			room += o.Area() + float64(around*out[a]) + float64(math.Pi*out[a]*out[a])
		}
		b.room = math.Min(b.room, room)
	}
	return b
}

// hopeless says that so many of every want cannot stand, whatever is tried.
func (b *bulk) hopeless(counts []int) bool {
	sum := 0.0
	for i, n := range counts {
		sum += float64(float64(n) * b.each[i])
	}
	return sum > float64(b.room*(1+1e-9))
}
