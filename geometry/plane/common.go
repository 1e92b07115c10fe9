package plane

// Common is a point that two skeletons share; when they share none it is the
// point of a nearest to b. It serves witnesses, not verdicts.
func Common(a, b Skeleton) Vec {
	for _, p := range a {
		if q, d := b.Nearest(p); d == 0 {
			return q
		}
	}
	for _, q := range b {
		if p, d := a.Nearest(q); d == 0 {
			return p
		}
	}
	for i, p := range a {
		for j, q := range b {
			if x, ok := crossing(p, a[(i+1)%len(a)], q, b[(j+1)%len(b)]); ok && len(a) > 1 && len(b) > 1 {
				return x
			}
		}
	}
	_, p, _ := SignedDistance(a, b)
	return p
}
