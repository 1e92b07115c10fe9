package planner

import (
	"threepost/geometry/plane"
	"threepost/layout"
)

// Long kilns are shelved in three: a half shelf at each end and a rectangle
// between them.
//
//	 .-----+--------+-----.
//	(      |        |      )     sawn edges along the rectangle's
//	 '-----+--------+-----'

// trios are the half shelves that go with a rectangle between them, along the
// kiln and across it.
func (m *maker) trios() []*division {
	var out []*division
	for i := range m.load.Furniture.Shelves {
		half := &m.load.Furniture.Shelves[i]
		if !usable(half) || half.Count < 2 || !isHalf(half.Shape.Kind) {
			continue
		}
		for j := range m.load.Furniture.Shelves {
			box := &m.load.Furniture.Shelves[j]
			if !usable(box) || box.Shape.Kind != layout.Rectangle {
				continue
			}
			for _, t := range trioWays {
				if d := m.trio(half, i, box, j, t); d != nil {
					out = append(out, d)
				}
			}
		}
	}
	return out
}

// trioWay is how three shelves lie in a row.
type trioWay struct {
	names [3]string // of the ends, and of the middle between them
	turns [2]float64
	dir   plane.Vec // from the first end to the second
}

var trioWays = [...]trioWay{
	{[3]string{"left side", "right side", "middle"}, [2]float64{270, 90}, plane.Vec{1, 0}},
	{[3]string{"back", "front", "middle"}, [2]float64{0, 180}, plane.Vec{0, -1}},
}

// trio is one row of three, or nil when it does not go in: the rectangle lies
// with the side along the sawn edges that is nearest to their length.
func (m *maker) trio(half *layout.ShelfKind, group int, box *layout.ShelfKind, boxGroup int, t trioWay) *division {
	end, err := half.Shape.Outline()
	if err != nil {
		return nil
	}
	middle, err := box.Shape.Outline()
	if err != nil {
		return nil
	}
	d := &division{name: "sides and middle"}
	add := func(s *site, lines []layout.Line) bool {
		if m.wallRoom(s.outline) < m.load.Limits(layout.ShelfToWall).Plan-plane.Tolerance || lines == nil {
			return false
		}
		s.lines = lines
		d.sites = append(d.sites, s)
		return true
	}
	sawn := spanOf(end, plane.Vec{1, 0})
	for _, turn := range []float64{0, 90} {
		posed := middle.At(plane.Pose{Turn: turn})
		along, wide := spanOf(posed, plane.Right(t.dir)), spanOf(posed, t.dir)
		other := spanOf(middle.At(plane.Pose{Turn: 90 - turn}), plane.Right(t.dir))
		if abs(along-sawn) > abs(other-sawn)+plane.Tolerance || along == other && turn > 0 {
			continue
		}
		off := float64(wide/2) + m.load.Limits(layout.ShelfToShelf).Plan
		for side := range 2 {
			at := plane.Scale(t.dir, float64(2*side-1)*off)
			pose := plane.Pose{At: at, Turn: t.turns[side]}
			o := end.At(pose)
			s := &site{name: t.names[side], kind: half, stock: half.Count, group: group, outline: o,
				shelf: layout.ShelfAt{Kind: half.Name, At: at, Turn: t.turns[side]}, sibling: -1, neighbor: true}
			if side == 1 {
				s.sibling, s.like = 0, d.sites[0]
			}
			if !add(s, m.halfLines(o, pose)) {
				return nil
			}
		}
		s := &site{name: t.names[2], kind: box, stock: box.Count, group: boxGroup, outline: posed,
			shelf: layout.ShelfAt{Kind: box.Name, Turn: turn}, sibling: -1, neighbor: true}
		if !add(s, m.boxLines(posed)) {
			return nil
		}
		return d
	}
	return nil
}

// spanOf is how far an outline reaches along a direction, mm.
func spanOf(o plane.Outline, along plane.Vec) float64 {
	least, most := 1e300, -1e300
	for _, p := range o.Points(0.05) {
		x := plane.Dot(p, along)
		least, most = min(least, x), max(most, x)
	}
	return most - least
}
