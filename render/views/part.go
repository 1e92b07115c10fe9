package views

import (
	"threepost/geometry/plane"
	"threepost/layout/stacks"
	"threepost/render/gaps"
)

// part is a plan shape where it stands: a skeleton widened by a radius, mm.
type part struct{ gaps.Part }

func placed(w stacks.Widened, p *stacks.Pot) part { return part{gaps.PartOf(w, p)} }

func postPart(p *stacks.Post) part { return part{gaps.PartOfPost(p)} }

// trace draws a part: a disc, a capsule, or a widened polygon.
func (p part) trace(t *trace, f Frame) {
	if len(p.Skeleton) == 1 {
		x, y := f.Px(p.Skeleton[0])
		t.circle(x, y, p.Radius*f.Per)
		return
	}
	if p.Radius > 0 {
		if o, err := plane.Widened(p.Skeleton, p.Radius); err == nil {
			t.ring(f, o)
			return
		}
	}
	for i, v := range p.Skeleton {
		x, y := f.Px(v)
		if i == 0 {
			t.move(x, y)
		} else {
			t.line(x, y)
		}
	}
	t.close()
}
