package plane

import (
	"errors"
	"fmt"
	"math"
)

// MaxCorners is the most corners that a skeleton or a polygon outline may
// have.
const MaxCorners = 1024

// Skeleton is the plan core of a solid part: one point, a segment of two
// points, or a convex polygon of three or more points, counter-clockwise, mm.
// Widened by a radius it gives the part's slice at a height.
type Skeleton []Vec

// NewSkeleton checks points and returns them as a skeleton. It refuses, with
// a sentence: no point, too many, figures that are no numbers, two corners on
// one spot, corners that run clockwise, and a ring that is not convex.
// Corners on a straight side are allowed.
func NewSkeleton(points ...Vec) (Skeleton, error) {
	s := Skeleton(points)
	if err := s.Validate(); err != nil {
		return nil, err
	}
	return append(Skeleton(nil), s...), nil
}

// Validate tells with a sentence what keeps s from being a skeleton.
func (s Skeleton) Validate() error {
	n := len(s)
	if n == 0 {
		return errors.New("a skeleton has no point; give one at least")
	}
	if n > MaxCorners {
		return fmt.Errorf("a skeleton has %d corners; it takes %d at most", n, MaxCorners)
	}
	size := 0.0
	for i, v := range s {
		if !finite(v) {
			return fmt.Errorf("corner %d of a skeleton is not a number; give x and y in mm", i+1)
		}
		size = max(size, Distance(v, s[0]))
	}
	if n == 1 {
		return nil
	}
	for i, v := range s {
		if v == s[(i+1)%n] {
			return fmt.Errorf("corners %d and %d of a skeleton lie on one spot; keep one of them", i+1, (i+1)%n+1)
		}
	}
	if n == 2 {
		return nil
	}
	return s.validateRing(size)
}

// validateRing checks that every corner lies on or left of every side.
func (s Skeleton) validateRing(size float64) error {
	area := s.Area()
	if area < 0 {
		return errors.New("the corners of a skeleton run clockwise; list them counter-clockwise")
	}
	slack := float64(1e-9 * size)
	if !(area > float64(slack*size)) {
		return errors.New("the corners of a skeleton lie on one line; give the two ends only")
	}
	n := len(s)
	for i, v := range s {
		side := Sub(s[(i+1)%n], v)
		l := Length(side)
		for j, w := range s {
			if Cross(side, Sub(w, v)) < -float64(slack*l) {
				return fmt.Errorf("a skeleton is not convex: corner %d lies outside the side from corner %d; split it into convex parts", j+1, i+1)
			}
		}
	}
	return nil
}

// At is the skeleton where the pose puts it.
func (s Skeleton) At(p Pose) Skeleton { return s.AppendAt(make(Skeleton, 0, len(s)), p) }

// AppendAt appends the corners of s, where the pose puts them, to dst: At
// without an allocation when dst has room.
func (s Skeleton) AppendAt(dst Skeleton, p Pose) Skeleton {
	sin, cos := SinCos(p.Turn)
	for _, v := range s {
		dst = append(dst, Add(rotateBy(v, sin, cos), p.At))
	}
	return dst
}

// Area is the area of a polygon, mm2; 0 for a point or a segment, negative
// for a ring that runs clockwise.
func (s Skeleton) Area() float64 {
	if len(s) < 3 {
		return 0
	}
	sum := 0.0
	for i := 1; i+1 < len(s); i++ {
		sum += Cross(Sub(s[i], s[0]), Sub(s[i+1], s[0]))
	}
	return sum / 2
}

// Perimeter is the way round a skeleton, mm: a segment is walked there and
// back, a point has none.
func (s Skeleton) Perimeter() float64 {
	if len(s) < 2 {
		return 0
	}
	sum := 0.0
	for i, v := range s {
		sum += Distance(v, s[(i+1)%len(s)])
	}
	return sum
}

// Bounds is the smallest upright rectangle round s.
func (s Skeleton) Bounds() (lo, hi Vec) {
	if len(s) == 0 {
		return
	}
	lo, hi = s[0], s[0]
	for _, v := range s[1:] {
		lo = Vec{min(lo[0], v[0]), min(lo[1], v[1])}
		hi = Vec{max(hi[0], v[0]), max(hi[1], v[1])}
	}
	return lo, hi
}

// Support is the point of s that lies farthest in direction dir, the first
// listed where several do.
func (s Skeleton) Support(dir Vec) Vec {
	best, at := math.Inf(-1), Vec{}
	for _, v := range s {
		if d := Dot(v, dir); d > best {
			best, at = d, v
		}
	}
	return at
}
