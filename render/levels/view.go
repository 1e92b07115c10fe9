package levels

import (
	"threepost/geometry/plane"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/gaps"
)

// view takes places of the kiln, mm, to places of the page: 12 o'clock is up
// the page.
type view struct {
	at    drawing.Point // where the origin lies on the page
	scale float64       // mm of paper per mm of kiln
}

// point is where a place of the kiln lies on the page.
func (v view) point(p plane.Vec) drawing.Point {
	return drawing.At(v.at.X+float64(p[0]*v.scale), v.at.Y-float64(p[1]*v.scale))
}

// back is the place of the kiln under a point of the page.
func (v view) back(p drawing.Point) plane.Vec {
	return plane.Vec{(p.X - v.at.X) / v.scale, (v.at.Y - p.Y) / v.scale}
}

// path is an outline of the kiln on the page. Its ring runs counter-clockwise
// and bearings are the same in both frames.
func (v view) path(o plane.Outline) drawing.Path {
	var path drawing.Path
	edges := o.Edges()
	for i, e := range edges {
		if i == 0 {
			path.Move(v.point(e.From))
		}
		if e.Kind == plane.Line {
			path.Line(v.point(e.To))
			continue
		}
		from := plane.Bearing(plane.Sub(e.From, e.Center))
		path.Arc(v.point(e.Center), e.Radius*v.scale, from, from-e.Sweep())
	}
	if len(edges) > 0 {
		path.Close()
	}
	return path
}

// part is a plan shape where it stands: a skeleton widened by a radius.
type part struct{ gaps.Part }

// placed puts a drawn part of a pot where the pot stands.
func placed(w stacks.Widened, p *stacks.Pot) part { return part{gaps.PartOf(w, p)} }

// postPart is the plan of a post.
func postPart(p *stacks.Post) part { return part{gaps.PartOfPost(p)} }

// outline is the ring round a part; the zero outline for one without area.
func (p part) outline() plane.Outline {
	if p.Radius > 0 {
		if o, err := plane.Widened(p.Skeleton, p.Radius); err == nil {
			return o
		}
	}
	if o, err := plane.Polygon(p.Skeleton); err == nil && len(p.Skeleton) > 2 {
		return o
	}
	return plane.Outline{}
}

// wall is where the chamber's wall lies on a bearing from the middle.
func wall(o plane.Outline, bearing float64) plane.Vec {
	near, far := 0.0, o.Reach(plane.Vec{})
	for range 40 {
		mid := (near + far) / 2
		if o.Depth(plane.FromBearing(mid, bearing)) > 0 {
			near = mid
		} else {
			far = mid
		}
	}
	return plane.FromBearing(near, bearing)
}
