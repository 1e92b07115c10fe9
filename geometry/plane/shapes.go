package plane

import (
	"errors"
	"fmt"
	"math"
)

// ring gathers the edges of an outline, leaving out those without length.
type ring struct{ edges []ringEdge }

func (r *ring) line(from, to Vec) {
	if from != to {
		r.edges = append(r.edges, newRingEdge(Edge{Kind: Line, From: from, To: to}, false))
	}
}

func (r *ring) arc(center Vec, radius float64, from, to Vec, whole bool) {
	if from != to {
		r.edges = append(r.edges, newRingEdge(Edge{Kind: Arc, From: from, To: to, Center: center, Radius: radius}, whole))
	}
}

// measure refuses a length that is not a number of mm over 0.
func measure(name string, mm float64) error {
	if !isFinite(mm) || mm <= 0 {
		return fmt.Errorf("%s is %v; give a length over 0 mm", name, mm)
	}
	if mm > 1e6 {
		return fmt.Errorf("%s is %g mm, over 1 km; give a length in mm", name, mm)
	}
	return nil
}

func measures(w string, width float64, d string, depth float64) error {
	if err := measure(w, width); err != nil {
		return err
	}
	return measure(d, depth)
}

// Round is a disc about the origin, across mm wide.
func Round(across float64) (Outline, error) {
	if err := measure("the width of a round shape", across); err != nil {
		return Outline{}, err
	}
	return circle(Vec{}, across/2), nil
}

// circle is a disc about a centre: one arc from 3 o'clock round to itself.
func circle(center Vec, radius float64) Outline {
	at := Add(center, Vec{radius, 0})
	return Outline{edges: []ringEdge{newRingEdge(Edge{Kind: Arc, From: at, To: at, Center: center, Radius: radius}, true)}}
}

// Rectangle is a rectangle about the origin, width along x, depth along y, mm.
func Rectangle(width, depth float64) (Outline, error) {
	if err := measures("the width of a rectangle", width, "the depth of a rectangle", depth); err != nil {
		return Outline{}, err
	}
	x, y := width/2, depth/2
	return Polygon([]Vec{{-x, -y}, {x, -y}, {x, y}, {-x, y}})
}

// Polygon is the convex polygon with the given corners, counter-clockwise, mm.
func Polygon(corners []Vec) (Outline, error) {
	s, err := NewSkeleton(corners...)
	if err != nil {
		return Outline{}, err
	}
	return Widened(s, 0)
}

// Sided is the regular shape of n sides about the origin, acrossFlats mm from
// the middle of a side to the middle of the side across (twice the distance
// from the origin to a side where n is odd), with the middle of one side at
// bearing flatBearing.
func Sided(n int, acrossFlats, flatBearing float64) (Outline, error) {
	s, err := sidedCorners(n, acrossFlats, flatBearing)
	if err != nil {
		return Outline{}, err
	}
	return Widened(s, 0)
}

func sidedCorners(n int, acrossFlats, flatBearing float64) (Skeleton, error) {
	if n < 3 || n > MaxCorners {
		return nil, fmt.Errorf("a shape has %d sides; it takes 3 to %d", n, MaxCorners)
	}
	if err := measure("the width across flats", acrossFlats); err != nil {
		return nil, err
	}
	if !isFinite(flatBearing) {
		return nil, errors.New("the bearing of a flat is not a number; give degrees clockwise from 12 o'clock")
	}
	half := 180 / float64(n)
	_, c := SinCos(half)
	radius := acrossFlats / 2 / c
	s := make(Skeleton, n)
	for i := range s {
		s[i] = FromBearing(radius, flatBearing+half-float64(2*half*float64(i)))
	}
	return s, nil
}

// HalfRound is a disc of diameter across, sawn straight so that depth is left
// from the sawn edge to the top of the arc. The origin is the middle of the
// sawn edge, which lies along x; the arc is toward +y. A depth over half of
// across keeps more than half of the disc.
func HalfRound(across, depth float64) (Outline, error) {
	if err := measures("the width of a half round", across, "the depth of a half round", depth); err != nil {
		return Outline{}, err
	}
	if depth >= across {
		return Outline{}, fmt.Errorf("a half round is %g deep and %g across; saw it to less depth than its width", depth, across)
	}
	r := float64(across / 2)
	x := math.Sqrt(float64(depth * (across - depth))) // chord of a circle: x^2 = depth (2r - depth)
	var g ring
	g.line(Vec{-x, 0}, Vec{x, 0})
	g.arc(Vec{0, depth - r}, r, Vec{x, 0}, Vec{-x, 0}, true)
	return Outline(g), nil
}

// HalfSided is a regular shape of n sides with a flat at 12 o'clock, sawn
// straight from side to side so that depth is left under that flat; the frame
// is that of HalfRound.
func HalfSided(n int, acrossFlats, depth float64) (Outline, error) {
	s, err := sidedCorners(n, acrossFlats, 0)
	if err != nil {
		return Outline{}, err
	}
	if err := measure("the depth of a sawn half", depth); err != nil {
		return Outline{}, err
	}
	low, _ := s.Bounds()
	saw := float64(acrossFlats/2) - depth
	if saw <= low[1] {
		return Outline{}, fmt.Errorf("a sawn half is %g deep and its whole is %g; saw it to less depth", depth, float64(acrossFlats/2)-low[1])
	}
	s = s.Clip(Vec{0, saw}, Vec{0, 1})
	for i, v := range s {
		s[i] = Vec{v[0], v[1] - saw}
	}
	return Polygon(s)
}

// Oval is two half circles joined by straights (a stadium) about the origin,
// width along x, depth along y; the straights run along the longer of them.
func Oval(width, depth float64) (Outline, error) {
	if err := measures("the width of an oval", width, "the depth of an oval", depth); err != nil {
		return Outline{}, err
	}
	return RoundedRectangle(width, depth, min(width, depth)/2)
}

// HalfOval is one half of an oval sawn along its long axis: width along the
// sawn edge, depth across it, two quarter circles of radius depth joined by a
// straight. The frame is that of HalfRound. The width is at least twice the
// depth.
func HalfOval(width, depth float64) (Outline, error) {
	if err := measures("the width of a half oval", width, "the depth of a half oval", depth); err != nil {
		return Outline{}, err
	}
	if width < 2*depth {
		return Outline{}, fmt.Errorf("a half oval is %g wide and %g deep; its width is at least twice its depth", width, depth)
	}
	x, c := width/2, float64(width/2)-depth
	var g ring
	g.line(Vec{-x, 0}, Vec{x, 0})
	g.arc(Vec{c, 0}, depth, Vec{x, 0}, Vec{c, depth}, false)
	g.line(Vec{c, depth}, Vec{-c, depth})
	g.arc(Vec{-c, 0}, depth, Vec{-c, depth}, Vec{-x, 0}, false)
	return Outline(g), nil
}

// RoundedRectangle is a rectangle about the origin whose corners are rounded
// with the given radius, at most half of its shorter side.
func RoundedRectangle(width, depth, radius float64) (Outline, error) {
	if err := measures("the width of a rectangle", width, "the depth of a rectangle", depth); err != nil {
		return Outline{}, err
	}
	if !isFinite(radius) || radius < 0 || radius > min(width, depth)/2 {
		return Outline{}, fmt.Errorf("corners are rounded by %g; give 0 to %g, half of the shorter side", radius, min(width, depth)/2)
	}
	x, y := float64(width/2)-radius, float64(depth/2)-radius
	switch {
	case x == 0 && y == 0:
		return circle(Vec{}, radius), nil
	case y == 0:
		return Widened(Skeleton{{-x, 0}, {x, 0}}, radius)
	case x == 0:
		return Widened(Skeleton{{0, -y}, {0, y}}, radius)
	}
	return Widened(Skeleton{{-x, -y}, {x, -y}, {x, y}, {-x, y}}, radius)
}

// Widened is a skeleton widened all round by radius mm: every point within
// radius of it. A point or a segment needs a radius over 0.
func Widened(s Skeleton, radius float64) (Outline, error) {
	if err := s.Validate(); err != nil {
		return Outline{}, err
	}
	if !isFinite(radius) || radius < 0 || (radius == 0 && len(s) < 3) {
		return Outline{}, fmt.Errorf("a shape is widened by %g; give a radius over 0 mm", radius)
	}
	if len(s) == 1 {
		return circle(s[0], radius), nil
	}
	var g ring
	n := len(s)
	for i, v := range s {
		w, x := s[(i+1)%n], s[(i+2)%n]
		out := Scale(Unit(Right(Sub(w, v))), radius)
		next := Scale(Unit(Right(Sub(x, w))), radius)
		g.line(Add(v, out), Add(w, out))
		if radius > 0 {
			g.arc(w, radius, Add(w, out), Add(w, next), false)
		}
	}
	return Outline(g), nil
}
