package views

import (
	"math"
	"sort"

	"threepost/geometry/plane"
)

// BalancePost is a post under a shelf with the weight on it.
type BalancePost struct {
	Letter string
	At     plane.Vec // mm
	Said   string    // "3.1 kg"
}

// BalanceOptions say how the load of a level lies on its posts.
type BalanceOptions struct {
	W, H  float64 // px
	Posts []BalancePost
	Point plane.Vec // the balance point, mm
	Out   bool      // it lies outside the posts
	Large bool      // with letters and weights
}

// Balance draws the ring of posts with the balance point in it: small as a
// mark beside a shelf, large with letters and weights.
func (e *Easel) Balance(o BalanceOptions) Picture {
	s := &sketch{e: e}
	f := s.balanceFrame(o)
	class := "balance"
	if o.Out {
		class += " out"
	}
	s.group(class, "", "", func() {
		t := new(trace)
		for i, p := range hull(o.Posts) {
			if x, y := f.Px(p); i == 0 {
				t.move(x, y)
			} else {
				t.line(x, y)
			}
		}
		if len(*t) > 0 {
			t.close()
		}
		s.path("triangle", string(*t))
		places := sidestepped(o, f)
		for i, p := range o.Posts {
			x, y := places[i][0], places[i][1]
			if o.Large {
				s.path("solid", rectPath(x-11, y-11, 22, 22))
				s.text(x, y+e.capital(noteSize)/2, p.Letter, "letter heavy on", "middle", noteSize)
			} else {
				s.path("tip", circlePath(x, y, 2.6))
			}
		}
		r := 4.5
		if o.Large {
			r = 8
		}
		x, y := f.Px(o.Point)
		s.path("point", circlePath(x, y, r))
		t = new(trace).move(x, y).line(x, y-r)
		t.arc(x, y, r, 0, 90)
		t.close().move(x, y).line(x, y+r)
		t.arc(x, y, r, 180, 270)
		t.close()
		s.path("quarter", string(*t))
		if o.Large {
			s.weights(o, places)
		}
	})
	return s.picture(o.W, o.H, "How the load lies on its posts", f)
}

// balanceFrame fits posts and point into the picture.
func (s *sketch) balanceFrame(o BalanceOptions) Frame {
	lo, hi := o.Point, o.Point
	for _, p := range o.Posts {
		lo = plane.Vec{math.Min(lo[0], p.At[0]), math.Min(lo[1], p.At[1])}
		hi = plane.Vec{math.Max(hi[0], p.At[0]), math.Max(hi[1], p.At[1])}
	}
	mx, my := 6.0, 6.0
	if o.Large {
		mx, my = 24, 34
		for _, p := range o.Posts {
			mx = math.Max(mx, s.e.width(noteSize, strong, p.Said)/2+4)
		}
	}
	per := math.Min((o.W-2*mx)/math.Max(hi[0]-lo[0], 1), (o.H-2*my)/math.Max(hi[1]-lo[1], 1))
	per = math.Max(per, 0.001)
	return Frame{Per: per, X0: o.W/2 - (lo[0]+hi[0])/2*per, Y0: o.H/2 + (lo[1]+hi[1])/2*per}
}

// sidestepped is where the posts are drawn, px: large ones of neighbouring lines that
// would cover each other step sideways until both letters are seen.
func sidestepped(o BalanceOptions, f Frame) []plane.Vec {
	var out []plane.Vec
	for _, p := range o.Posts {
		x, y := f.Px(p.At)
		out = append(out, plane.Vec{x, y})
	}
	const wide = 25 // the square of a letter and a little air
	for i := range out {
		for j := range out[:i] {
			d := plane.Sub(out[i], out[j])
			if !o.Large || math.Abs(d[0]) >= wide || math.Abs(d[1]) >= wide {
				continue
			}
			k := 0
			if math.Abs(d[1]) > math.Abs(d[0]) {
				k = 1
			}
			push := (wide - math.Abs(d[k])) / 2
			if d[k] < 0 {
				push = -push
			}
			out[i][k] += push
			out[j][k] -= push
		}
	}
	return out
}

// weights sets what stands on every post beside it: over those in the upper
// half, under the others. Where there is no room the rows beside tell it.
func (s *sketch) weights(o BalanceOptions, places []plane.Vec) {
	for i, p := range o.Posts {
		x, y := places[i][0], places[i][1]
		cap := s.e.capital(noteSize)
		up := y - 11 - 5
		down := y + 11 + 5 + cap
		base, found := down, len(o.Posts) <= 3
		if y < o.H/2-1 {
			base = up
		}
		for _, try := range [...]float64{base, up + down - base} {
			b := s.e.textBox(x, try, p.Said, strong, "middle", noteSize)
			free := true
			for _, c := range s.boxes {
				free = free && b.off(c) > 2
			}
			if free {
				base, found = try, true
				break
			}
		}
		if !found {
			continue
		}
		s.text(x, base, p.Said, "strong halo", "middle", noteSize)
	}
}

// hull is the ring of the posts, counter-clockwise.
func hull(posts []BalancePost) []plane.Vec {
	points := make([]plane.Vec, 0, len(posts))
	for _, p := range posts {
		points = append(points, p.At)
	}
	sort.Slice(points, func(i, j int) bool {
		if points[i][0] != points[j][0] {
			return points[i][0] < points[j][0]
		}
		return points[i][1] < points[j][1]
	})
	if len(points) < 3 {
		return points
	}
	var ring []plane.Vec
	for pass := 0; pass < 2; pass++ {
		start := len(ring)
		for _, p := range points {
			for len(ring) >= start+2 && plane.Cross(plane.Sub(ring[len(ring)-1], ring[len(ring)-2]), plane.Sub(p, ring[len(ring)-1])) <= 0 {
				ring = ring[:len(ring)-1]
			}
			ring = append(ring, p)
		}
		ring = ring[:len(ring)-1]
		for i, j := 0, len(points)-1; i < j; i, j = i+1, j-1 {
			points[i], points[j] = points[j], points[i]
		}
	}
	return ring
}
