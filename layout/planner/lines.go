package planner

import (
	"threepost/geometry/plane"
	"threepost/layout"
)

// roundLines are three lines for a shelf that stands alone: a triangle as far
// out as the inset allows, turned so that the posts keep clear of the probes,
// one post at the back if it can be.
func (m *maker) roundLines(o plane.Outline) []layout.Line {
	for _, turn := range []float64{0, 60, 30, 90, 15, 45, 75, 105} {
		var dirs []plane.Vec
		for _, b := range []float64{0, 120, 240} {
			dirs = append(dirs, plane.FromBearing(1, b+turn))
		}
		if lines := m.outermost(o, dirs); lines != nil {
			return lines
		}
	}
	return nil
}

// halfLines are three lines for a half shelf: one near each end of the sawn
// edge and one in the middle of the arc. pose is the shelf's.
func (m *maker) halfLines(o plane.Outline, pose plane.Pose) []layout.Line {
	for _, lean := range []float64{20, 10, 30, 45} {
		var dirs []plane.Vec
		// In the shelf's own frame the sawn edge lies along x and the body
		// toward +y: its ends are at 3 and 9 o'clock, the arc's middle at 12.
		for _, b := range []float64{90 + lean, 270 - lean, 0} {
			dirs = append(dirs, plane.FromBearing(1, b+pose.Turn))
		}
		if lines := m.outermost(o, dirs); lines != nil {
			return lines
		}
	}
	return nil
}

// boxLines are three lines for a rectangle that stands beside others: two at
// the back and one in front, or the other way about where a probe is in the way.
func (m *maker) boxLines(o plane.Outline) []layout.Line {
	for _, bearings := range [][]float64{{315, 45, 180}, {225, 135, 0}, {315, 225, 90}, {45, 135, 270}} {
		var dirs []plane.Vec
		for _, b := range bearings {
			dirs = append(dirs, plane.FromBearing(1, b))
		}
		if lines := m.outermost(o, dirs); lines != nil {
			return lines
		}
	}
	return nil
}

// outermost puts a post as far out as it goes in each direction, probes kept
// clear of, or is nil where one finds no place.
func (m *maker) outermost(o plane.Outline, dirs []plane.Vec) []layout.Line {
	var lines []layout.Line
	for _, d := range dirs {
		p, ok := m.far(o, d)
		if !ok {
			return nil
		}
		lines = append(lines, layout.Line{At: p})
	}
	return lines
}

// far is the place farthest along dir where a post stands whole under the
// shelf and its middle keeps the inset, on a grid of 1 mm.
func (m *maker) far(o plane.Outline, dir plane.Vec) (plane.Vec, bool) {
	middle := o.Centroid()
	best, most, found := plane.Vec{}, 0.0, false
	for step := 0; step < 720; step++ {
		ray := plane.FromBearing(1, float64(step)/2)
		if plane.Dot(ray, dir) < 0 {
			continue
		}
		lo, hi := 0.0, o.Reach(middle)
		if !m.holds(o, middle) {
			return best, false
		}
		for i := 0; i < 30; i++ {
			mid := (lo + hi) / 2
			if m.holds(o, plane.Add(middle, plane.Scale(ray, mid))) {
				lo = mid
			} else {
				hi = mid
			}
		}
		p, ok := m.nearest(o, middle, ray, lo)
		if !ok {
			continue
		}
		// Along a straight edge the place straight in the direction wins.
		off := plane.Sub(p, middle)
		score := plane.Dot(off, dir) - float64(0.1*abs(plane.Cross(off, dir)))
		if !found || score > most+1e-9 {
			best, most, found = p, score, true
		}
	}
	return best, found
}

// nearest is the place on a ray from the middle, at most far out, where a post
// holds and keeps clear of the probes.
func (m *maker) nearest(o plane.Outline, middle, ray plane.Vec, far float64) (plane.Vec, bool) {
	for t := far; t > 0.4*far; t -= 3 {
		p := toward(plane.Add(middle, plane.Scale(ray, t)), middle)
		if m.holds(o, p) && m.clearOfProbes(p) {
			return p, true
		}
	}
	return plane.Vec{}, false
}

// toward rounds p to whole mm, each coordinate toward the middle.
func toward(p, middle plane.Vec) plane.Vec {
	for i := 0; i < 2; i++ {
		whole := float64(int64(p[i]))
		switch {
		case p[i] > middle[i] && whole > p[i]:
			whole--
		case p[i] < middle[i] && whole < p[i]:
			whole++
		}
		p[i] = whole
	}
	return p
}

// holds says whether a post with its middle at p stands as a plan wants it.
func (m *maker) holds(o plane.Outline, p plane.Vec) bool {
	if o.Depth(p) < m.inset-plane.Tolerance {
		return false
	}
	for _, c := range sectionCorners(m.section) {
		if o.Depth(plane.Add(p, c)) < -plane.Tolerance {
			return false
		}
	}
	return true
}

// sectionCorners are points whose hull contains the section about its middle.
func sectionCorners(s layout.Section) []plane.Vec {
	h := s.Width / 2
	if s.Kind == layout.TriangleSection || s.Kind == layout.HexagonSection {
		h = s.Width * 0.58
	}
	return []plane.Vec{{h, h}, {-h, h}, {-h, -h}, {h, -h}}
}

// clearOfProbes says whether a post at p keeps the plan distance from every
// probe, whatever the height.
func (m *maker) clearOfProbes(p plane.Vec) bool {
	need := m.load.Limits(layout.ToProbe).Plan
	post := plane.Skeleton{}
	for _, c := range sectionCorners(m.section) {
		post = append(post, plane.Add(p, c))
	}
	for i := range m.probes {
		for j, part := range m.probes[i].Body.Parts {
			if d, _, _ := plane.SignedDistance(post, m.probes[i].Skeleton(j)); d-part.Profile.Max() < need {
				return false
			}
		}
	}
	return true
}
