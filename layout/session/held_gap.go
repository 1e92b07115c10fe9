package session

import (
	"fmt"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/clearance"
)

// gapLine is the shortest way from a held pot to a neighbour.
func gapLine(h *held, n *clearance.Near) *GapLine {
	b := h.built
	switch n.Thing.Kind {
	case layout.ThingPot, layout.ThingCones:
		for i := range b.Pots {
			if b.Pots[i].Pot.String() == n.Thing.Name {
				return lineTo(h, &b.Pots[i].Solid)
			}
		}
	case layout.ThingPost:
		for i := range b.Posts {
			p := &b.Posts[i]
			if v := &b.Levels[p.Level]; p.Letter == n.Thing.Name && v.Number == n.Thing.Level && b.Towers[v.Tower].Name == n.Thing.Tower {
				return lineTo(h, &p.Solid)
			}
		}
	case layout.ThingProbe:
		for i := range b.Probes {
			if fmt.Sprint(i+1) == n.Thing.Name {
				return lineTo(h, &b.Probes[i].Solid)
			}
		}
	case layout.ThingWall:
		depth, in := b.Chamber.DepthNormal(h.at)
		z := h.solid.Base() + float64((h.solid.Top()-h.solid.Base())/2)
		wall := plane.Sub(h.at, plane.Scale(in, depth))
		near := plane.Add(wall, plane.Scale(in, n.Gap))
		return &GapLine{From: mgl64.Vec3{near[0], near[1], z}, To: mgl64.Vec3{wall[0], wall[1], z}}
	case layout.ThingLid:
		return &GapLine{From: mgl64.Vec3{h.at[0], h.at[1], h.solid.Top()}, To: mgl64.Vec3{h.at[0], h.at[1], b.Height}}
	case layout.ThingShelf:
		return shelfLine(h, n)
	}
	return nil
}

func lineTo(h *held, other *solid.Placed) *GapLine {
	_, w := solid.Gap(&h.solid, other)
	return &GapLine{From: w.A, To: w.B}
}

// shelfLine is the way to a shelf: up to the one above, else to the nearest
// edge.
func shelfLine(h *held, n *clearance.Near) *GapLine {
	b := h.built
	for i := range b.Shelves {
		sh := &b.Shelves[i]
		v := &b.Levels[sh.Level]
		if fmt.Sprint(sh.Index+1) != n.Thing.Name || v.Number != n.Thing.Level || b.Towers[v.Tower].Name != n.Thing.Tower {
			continue
		}
		if n.Rule == layout.RoomAbove {
			return &GapLine{From: mgl64.Vec3{h.at[0], h.at[1], h.solid.Top()}, To: mgl64.Vec3{h.at[0], h.at[1], sh.Bottom}}
		}
		edge := sh.Outline.NearestEdge(h.at)
		way := plane.Unit(plane.Sub(h.at, edge))
		if n.Rule == layout.PotToPost { // another side's shelf beside it
			way = plane.Unit(plane.Sub(edge, h.at))
			from := plane.Sub(edge, plane.Scale(way, n.Gap))
			return &GapLine{From: mgl64.Vec3{from[0], from[1], sh.Top}, To: mgl64.Vec3{edge[0], edge[1], sh.Top}}
		}
		from := plane.Add(edge, plane.Scale(way, n.Gap))
		z := h.solid.Base()
		return &GapLine{From: mgl64.Vec3{from[0], from[1], z}, To: mgl64.Vec3{edge[0], edge[1], z}}
	}
	return nil
}
