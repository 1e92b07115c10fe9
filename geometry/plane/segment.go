package plane

// nearestOnSegment is the point of the segment from a to b that lies nearest
// to p.
func nearestOnSegment(p, a, b Vec) Vec {
	ab := Sub(b, a)
	t := Dot(Sub(p, a), ab)
	if !(t > 0) {
		return a
	}
	l := Dot(ab, ab)
	if t >= l {
		return b
	}
	return Lerp(a, b, t/l)
}

// square is the squared distance of a and b.
func square(a, b Vec) float64 {
	d := Sub(a, b)
	return Dot(d, d)
}

// crossing is the point where segments a-b and c-d cross, if they do. Lines
// so nearly parallel that the crossing cannot be told are said not to cross;
// then an end of one lies near enough to the other.
func crossing(a, b, c, d Vec) (Vec, bool) {
	r, s := Sub(b, a), Sub(d, c)
	den := Cross(r, s)
	if den == 0 {
		return Vec{}, false
	}
	ac := Sub(c, a)
	t, u := Cross(ac, s)/den, Cross(ac, r)/den
	if !(t >= 0 && t <= 1 && u >= 0 && u <= 1) {
		return Vec{}, false
	}
	p, q := Lerp(a, b, t), Lerp(c, d, u)
	if square(p, q) > 1e-18 {
		return Vec{}, false
	}
	return p, true
}

// segmentsNearest is the squared distance of two segments and the nearest
// pair.
func segmentsNearest(a, b, c, d Vec) (d2 float64, p, q Vec) {
	if x, ok := crossing(a, b, c, d); ok {
		return 0, x, x
	}
	p, q = a, nearestOnSegment(a, c, d)
	d2 = square(p, q)
	if y := nearestOnSegment(b, c, d); square(b, y) < d2 {
		d2, p, q = square(b, y), b, y
	}
	if y := nearestOnSegment(c, a, b); square(c, y) < d2 {
		d2, p, q = square(c, y), y, c
	}
	if y := nearestOnSegment(d, a, b); square(d, y) < d2 {
		d2, p, q = square(d, y), y, d
	}
	return d2, p, q
}
