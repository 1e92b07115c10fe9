package views

import (
	"threepost/geometry/plane"
	"threepost/layout/stacks"
)

// part is a plan shape where it stands: a skeleton widened by a radius, mm.
type part struct {
	skeleton plane.Skeleton
	radius   float64
}

func placed(w stacks.Widened, p *stacks.Pot) part {
	return part{w.Skeleton.At(plane.Pose{At: p.At, Turn: p.Turn}), w.Radius}
}

func postPart(p *stacks.Post) part {
	if len(p.Solid.Body.Parts) == 0 {
		return part{plane.Skeleton{p.At}, 1}
	}
	return part{p.Solid.Skeleton(0), p.Solid.Body.Parts[0].Profile.Max()}
}

// bounds is the upright box round a part, mm.
func (p part) bounds() (lo, hi plane.Vec) {
	lo, hi = p.skeleton.Bounds()
	r := plane.Vec{p.radius, p.radius}
	return plane.Sub(lo, r), plane.Add(hi, r)
}

// trace draws a part: a disc, a capsule, or a widened polygon.
func (p part) trace(t *trace, f Frame) {
	if len(p.skeleton) == 1 {
		x, y := f.Px(p.skeleton[0])
		t.circle(x, y, p.radius*f.Per)
		return
	}
	if p.radius > 0 {
		if o, err := plane.Widened(p.skeleton, p.radius); err == nil {
			t.ring(f, o)
			return
		}
	}
	for i, v := range p.skeleton {
		x, y := f.Px(v)
		if i == 0 {
			t.move(x, y)
		} else {
			t.line(x, y)
		}
	}
	t.close()
}
