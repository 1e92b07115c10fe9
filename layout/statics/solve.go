package statics

import (
	"math"

	"threepost/geometry/plane"
)

// Support is a place that holds a shelf up.
type Support struct {
	At  plane.Vec
	Top float64 // mm: the height of its head
}

// Solve rests loads on supports of one height.
//
// On three supports the reactions are the only ones there are (statics:
// forces and moments balance). On more they depend on a hair of height, so
// Reactions is the rigid plate on equal springs that cannot pull (the least
// sum of squares of all reactions that balance, none negative), and Worst is
// the range of each over all reactions that balance, which is the range over
// triples that contain the balance point. On two supports, on one, and on
// supports in one line nothing stands steadily: the margin is 0 at best.
//
// Loads of no mass rest anywhere: nothing tips, every reaction is 0.
func Solve(supports []plane.Vec, loads []Load) Result {
	s := make([]Support, len(supports))
	for i, at := range supports {
		s[i].At = at
	}
	return SolveUneven(s, loads)
}

// uneven is how much the heads' heights may differ, mm, and still share the
// weight like springs.
const uneven = 0.05

// SolveUneven rests loads on supports whose heads may differ in height. A
// stiff plate on more than three of them touches three: those whose plane no
// other head pierces and whose triangle holds the balance point. The others
// are in Lifts. Heights within 0.05 mm of each other count as equal.
func SolveUneven(supports []Support, loads []Load) Result {
	total, balance := Gather(loads)
	return rest(supports, total, balance)
}

// Gather is the sum of loads, kg, and their balance point. Loads without mass
// have theirs at the origin.
func Gather(loads []Load) (total float64, balance plane.Vec) {
	var x, y float64
	for _, l := range loads {
		total += l.Mass
		x += float64(l.Mass * l.At[0])
		y += float64(l.Mass * l.At[1])
	}
	if total > 0 {
		balance = plane.Vec{x / total, y / total}
	}
	return total, balance
}

// rest rests a total at its balance point on supports.
func rest(supports []Support, total float64, balance plane.Vec) Result {
	r := Result{Total: total, Balance: balance, Reactions: make([]float64, len(supports))}
	points := make([]plane.Vec, len(supports))
	for i, s := range supports {
		points[i] = s.At
	}
	hull := ring(points)
	if !(total > 0) {
		r.Margin = math.Max(0, inside(hull, balance))
		return r
	}
	if len(supports) == 0 {
		r.Tips = true
		return r
	}
	r.Margin = inside(hull, balance)
	r.Tips = r.Margin < -plane.Tolerance
	at := balance
	if !r.Tips && r.Margin < 0 { // out by less than the tolerance: on the edge
		at = nearest(hull, balance)
	}
	switch {
	case len(hull) < 3:
		alongLine(&r, points, hull)
	case len(points) == 3:
		w, _ := weights3(points[0], points[1], points[2], at)
		for i := range w {
			r.Reactions[i] = float64(w[i] * total)
		}
		r.Bilateral = append([]float64(nil), r.Reactions...)
		if !r.Tips {
			r.Worst = make([][2]float64, 3)
			for i, v := range r.Reactions {
				r.Worst[i] = [2]float64{v, v}
			}
		}
	default:
		many(&r, supports, points, at)
	}
	return r
}

// stability is the margin of a total's balance point on supports, mm, and
// whether it tips: what rest finds first, without the reactions.
func stability(supports []Support, total float64, balance plane.Vec) (margin float64, tips bool) {
	if !(total > 0) {
		return 0, false
	}
	points := make([]plane.Vec, len(supports))
	for i, s := range supports {
		points[i] = s.At
	}
	margin = inside(ring(points), balance)
	return margin, margin < -plane.Tolerance || len(supports) == 0
}

// weights3 is the shares that three points bear of a load at p, adding up to
// 1; false for points in one line.
func weights3(a, b, c, p plane.Vec) (w [3]float64, ok bool) {
	ab, ac := plane.Sub(b, a), plane.Sub(c, a)
	area := plane.Cross(ab, ac)
	longest := math.Max(plane.Length(ab), math.Max(plane.Length(ac), plane.Distance(b, c)))
	if math.Abs(area) <= float64(collinear*longest) {
		return w, false
	}
	pa, pb, pc := plane.Sub(a, p), plane.Sub(b, p), plane.Sub(c, p)
	w[0] = plane.Cross(pb, pc) / area
	w[1] = plane.Cross(pc, pa) / area
	w[2] = plane.Cross(pa, pb) / area
	return w, true
}

// alongLine rests the load on supports that stand on one line or one spot:
// springs along the line. What lies off the line is what tips.
func alongLine(r *Result, points, hull []plane.Vec) {
	n := float64(len(points))
	if len(hull) == 1 {
		for i := range points {
			r.Reactions[i] = r.Total / n
		}
		r.Bilateral = append([]float64(nil), r.Reactions...)
		return
	}
	dir := plane.Unit(plane.Sub(hull[1], hull[0]))
	along := make([]float64, len(points))
	mean := 0.0
	for i, p := range points {
		along[i] = plane.Dot(plane.Sub(p, hull[0]), dir)
		mean += along[i] / n
	}
	spread := 0.0
	for _, t := range along {
		spread += float64((t - mean) * (t - mean))
	}
	at := plane.Dot(plane.Sub(r.Balance, hull[0]), dir)
	for i, t := range along {
		r.Reactions[i] = r.Total/n + float64(float64(r.Total*(at-mean))*(t-mean))/spread
	}
	r.Bilateral = append([]float64(nil), r.Reactions...)
	if r.Tips || len(points) == 2 {
		return
	}
	if noPull := springs(points, r.Total, r.Balance); noPull != nil {
		r.Reactions = noPull
	}
}

// many rests the load on four or more supports that make a ring; balance is
// the balance point, brought onto the ring's edge where rounding put it out.
func many(r *Result, supports []Support, points []plane.Vec, balance plane.Vec) {
	r.Bilateral = bilateral(points, r.Total, balance)
	if r.Tips {
		copy(r.Reactions, r.Bilateral)
		return
	}
	var mean []float64
	r.Worst, mean = envelope(points, r.Total, balance)
	if three, w, ok := touching(supports, balance); ok {
		for i := range r.Reactions {
			r.Reactions[i] = 0
		}
		for k, i := range three {
			r.Reactions[i] = math.Max(0, float64(w[k]*r.Total))
		}
	} else if noPull := springs(points, r.Total, balance); noPull != nil {
		copy(r.Reactions, noPull)
	} else {
		copy(r.Reactions, mean) // Newton found no end: the middle of what balances
	}
	for i, v := range r.Reactions {
		if v <= float64(1e-9*r.Total) {
			r.Lifts = append(r.Lifts, i)
		}
	}
}

// envelope is the least and the most of each reaction over all that balance:
// the corners of that region are the triples that contain the balance point.
// mean is the middle of the corners, which balances too.
func envelope(points []plane.Vec, total float64, balance plane.Vec) (out [][2]float64, mean []float64) {
	n := len(points)
	out, mean = make([][2]float64, n), make([]float64, n)
	seen := make([]int, n)
	triples := 0
	for i := 0; i < n; i++ {
		for j := i + 1; j < n; j++ {
			for k := j + 1; k < n; k++ {
				w, ok := weights3(points[i], points[j], points[k], balance)
				if !ok || w[0] < -1e-9 || w[1] < -1e-9 || w[2] < -1e-9 {
					continue
				}
				triples++
				for m, at := range [3]int{i, j, k} {
					v := math.Max(0, float64(w[m]*total))
					if seen[at] == 0 || v < out[at][0] {
						out[at][0] = v
					}
					if seen[at] == 0 || v > out[at][1] {
						out[at][1] = v
					}
					mean[at] += v
					seen[at]++
				}
			}
		}
	}
	for i := range out { // a triple without i leaves it nothing
		if seen[i] < triples {
			out[i][0] = 0
		}
		if triples > 0 {
			mean[i] /= float64(triples)
		}
	}
	return out, mean
}

// touching is the three supports a stiff plate touches when the heads differ
// in height; false when they do not, or when no such triple is found.
func touching(supports []Support, balance plane.Vec) (three [3]int, w [3]float64, ok bool) {
	low, high := supports[0].Top, supports[0].Top
	for _, s := range supports {
		low, high = math.Min(low, s.Top), math.Max(high, s.Top)
	}
	if high-low <= uneven {
		return three, w, false
	}
	best := 0.0
	n := len(supports)
	for i := 0; i < n; i++ {
		for j := i + 1; j < n; j++ {
			for k := j + 1; k < n; k++ {
				v, made := weights3(supports[i].At, supports[j].At, supports[k].At, balance)
				if !made || v[0] < -1e-9 || v[1] < -1e-9 || v[2] < -1e-9 {
					continue
				}
				// Of all triangles round the balance point the plate lies on
				// the one that holds it highest: the upper hull of the heads.
				z := float64(v[0]*supports[i].Top) + float64(v[1]*supports[j].Top) + float64(v[2]*supports[k].Top)
				if !ok || z > best+1e-9 {
					three, w, best, ok = [3]int{i, j, k}, v, z, true
				}
			}
		}
	}
	return three, w, ok
}
