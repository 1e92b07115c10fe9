package plane

import "math"

// Area is the area of the outline, mm2.
func (o Outline) Area() float64 {
	a, _ := o.moments()
	return a
}

// Centroid is the balance point of the outline as an even plate.
func (o Outline) Centroid() Vec {
	a, m := o.moments()
	if !(a > 0) {
		return Vec{}
	}
	return Add(o.edges[0].From, Scale(m, 1/a))
}

// Perimeter is the length of the ring, mm.
func (o Outline) Perimeter() float64 {
	sum := 0.0
	for _, e := range o.edges {
		if e.Kind == Line {
			sum += Distance(e.From, e.To)
		} else {
			sum += float64(e.Radius * float64(e.Sweep()*radiansPerDegree))
		}
	}
	return sum
}

// moments is the area and the first moment about the first corner: a fan of
// triangles from that corner, and what each arc adds beyond its chord. A
// circular segment over an angle t has area r^2 (t - sin t)/2 and its balance
// point 2 r^3 sin^3(t/2) / (3 area) from the centre (centroid of a circular
// segment as in any handbook of mechanics; from memory).
func (o Outline) moments() (area float64, moment Vec) {
	if len(o.edges) == 0 {
		return 0, Vec{}
	}
	base := o.edges[0].From
	for i := range o.edges {
		e := &o.edges[i]
		u, v := Sub(e.From, base), Sub(e.To, base)
		t := float64(Cross(u, v) / 2)
		area += t
		moment = Add(moment, Scale(Add(u, v), t/3))
		if e.Kind == Line {
			continue
		}
		sweep := e.Sweep()
		sin, _ := SinCos(sweep)
		sinHalf, _ := SinCos(sweep / 2)
		r2 := float64(e.Radius * e.Radius)
		cap := float64(float64(r2*(float64(sweep*radiansPerDegree)-sin)) / 2)
		lever := float64(float64(r2*e.Radius)*float64(float64(sinHalf*sinHalf)*sinHalf)) * 2 / 3
		chord := Sub(e.To, e.From)
		area += cap
		moment = Add(moment, Scale(Sub(e.Center, base), cap))
		if !e.full {
			moment = Add(moment, Scale(Unit(Right(chord)), lever))
		}
	}
	return area, moment
}

// Clip is the part of s on the side of the line through at that n points to.
// It may be empty; a part without area is left out of a polygon.
func (s Skeleton) Clip(at, n Vec) Skeleton {
	var out Skeleton
	for i, v := range s {
		w := s[(i+1)%len(s)]
		hv, hw := Dot(Sub(v, at), n), Dot(Sub(w, at), n)
		if hv >= 0 {
			out = appendCorner(out, v)
		}
		if (hv > 0 && hw < 0) || (hv < 0 && hw > 0) {
			if len(s) == 2 && i == 1 {
				continue // a segment's way back crosses where its way there did
			}
			out = appendCorner(out, Lerp(v, w, hv/(hv-hw)))
		}
	}
	if len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	if len(s) > 2 && (len(out) < 3 || !(out.Area() > 0)) {
		return nil
	}
	return out
}

func appendCorner(s Skeleton, v Vec) Skeleton {
	if len(s) > 0 && s[len(s)-1] == v {
		return s
	}
	return append(s, v)
}

// Intersection is what two convex polygons share, empty when they share no
// area.
func Intersection(a, b Skeleton) Skeleton {
	if len(a) < 3 || len(b) < 3 {
		return nil
	}
	out := append(Skeleton(nil), a...)
	for i, v := range b {
		out = out.Clip(v, Left(Sub(b[(i+1)%len(b)], v)))
		if len(out) < 3 || math.IsNaN(out[0][0]) {
			return nil
		}
	}
	return out
}
