package order

import (
	"fmt"
	"math"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// hand is how wide a grip is, mm (common practice).
const hand = 80

// lying is how a shelf lies in plan: shelves that lie alike have one outline.
type lying struct {
	kind *layout.ShelfKind
	at   plane.Vec
	turn float64
}

func lyingOf(s *stacks.Shelf) lying { return lying{s.Kind, s.At, s.Turn} }

// allGrips is gripsOf every shelf. Most shelves of a tower lie over each other
// beside the same neighbours: what they share is worked out once.
func allGrips(b *stacks.Built) []Grips {
	known := map[string]Grips{}
	var out []Grips
	for i := range b.Shelves {
		key := fmt.Sprint(lyingOf(&b.Shelves[i]))
		for _, o := range besideOf(b, i) {
			key += fmt.Sprint(lyingOf(&b.Shelves[o]))
		}
		g, ok := known[key]
		if !ok {
			g = gripsOf(b, i)
			known[key] = g
		}
		g.Shelf = i
		out = append(out, g)
	}
	return out
}

// besideOf are the shelves that may lie beside one, each way of lying once.
func besideOf(b *stacks.Built, shelf int) []int {
	var out []int
	seen := map[lying]bool{}
	for i := range b.Shelves {
		if l := lyingOf(&b.Shelves[i]); i != shelf && !seen[l] && besides(b, shelf, i) {
			seen[l] = true
			out = append(out, i)
		}
	}
	return out
}

// gripsOf finds where hands hold a shelf while they lay it: two places
// opposite each other, so that the line between them goes through the shelf's
// balance point, with room for fingers between its edge and the wall. Edges
// beside other shelves are no place for hands.
func gripsOf(b *stacks.Built, shelf int) Grips {
	s := &b.Shelves[shelf]
	out := Grips{Shelf: shelf}
	if s.Outline.Empty() || b.Chamber.Empty() {
		return out
	}
	room := b.Load.Limits(layout.GripRoom).Plan
	mid := s.Outline.Centroid()
	axis := longAxis(&s.Outline)
	var beside []*plane.Outline
	for _, i := range besideOf(b, shelf) {
		beside = append(beside, &b.Shelves[i].Outline)
	}
	best := -1.0
	for k := 0; k < 36; k++ {
		bearing := float64(5 * k)
		one := gripAt(&s.Outline, &b.Chamber, beside, mid, bearing)
		two := gripAt(&s.Outline, &b.Chamber, beside, mid, bearing+180)
		tight := math.Min(one.Room, two.Room)
		// Any pair with the rule's room is good; of these the one nearest to
		// the shelf's length, where it balances best in the hands.
		off := between(bearing, axis)
		off = math.Min(off, 180-off)
		score := math.Min(tight, room) - float64(0.001*off)
		if tight > 0 && score > best {
			best = score
			out.Hold, out.Room = []Grip{one, two}, tight
		}
	}
	out.Fit = len(out.Hold) == 2 && out.Room >= room-plane.Tolerance
	return out
}

// longAxis is the bearing, 0 to 180 degrees, across which a shelf is
// narrowest; 90 (hands left and right) for a round one.
func longAxis(o *plane.Outline) float64 {
	width := func(bearing float64) float64 {
		dir := plane.FromBearing(1, bearing)
		return plane.Dot(plane.Sub(o.Support(dir), o.Support(plane.Scale(dir, -1))), dir)
	}
	axis, least := 90.0, width(0)-1 // a mm against rounding and for round shelves
	for k := 1; k < 36; k++ {
		across := float64(5 * k)
		if w := width(across); w < least {
			axis, least = plane.NormalTurn(across+90), w
		}
	}
	if axis >= 180 {
		axis -= 180
	}
	return axis
}

// gripAt is the place to hold a shelf where the way from its balance point
// toward a bearing meets its edge. Its room is the least over a hand's width
// along the edge: to the wall, and to the shelves that may lie beside.
func gripAt(shelf, chamber *plane.Outline, beside []*plane.Outline, mid plane.Vec, bearing float64) Grip {
	at := plane.Add(mid, plane.FromBearing(ray(shelf, mid, bearing), bearing))
	g := Grip{At: at, Clock: plane.Bearing(at), Room: math.Inf(1)}
	_, inward := shelf.DepthNormal(plane.Lerp(at, mid, 1e-3))
	along := plane.Left(inward)
	for _, t := range [...]float64{-hand / 2, -hand / 4, 0, hand / 4, hand / 2} {
		p := shelf.NearestEdge(plane.Add(at, plane.Scale(along, t)))
		g.Room = math.Min(g.Room, chamber.Depth(p))
		for _, o := range beside {
			g.Room = math.Min(g.Room, -o.Depth(p))
		}
	}
	return g
}

// besides tells whether another shelf can lie beside this one: it is of the
// same level, or of another tower that is not under or over it.
func besides(b *stacks.Built, shelf, other int) bool {
	s, o := &b.Shelves[shelf], &b.Shelves[other]
	if s.Level == o.Level {
		return true
	}
	if b.Levels[s.Level].Tower == b.Levels[o.Level].Tower {
		return false
	}
	// What lies under or over most of the shelf shares its middle.
	return !(o.Outline.Depth(s.Outline.Centroid()) > 0) && !(s.Outline.Depth(o.Outline.Centroid()) > 0)
}
