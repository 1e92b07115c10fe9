package planner

import (
	"fmt"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// What of a built load goes against wishes for how it is stacked; empty where
// nothing does.

// An order of levels says whether three rooms of a tower that follow each other
// upwards, or two where the third is below zero, stand as is wished, mm.
type levelOrder func(low, next, after float64) bool

func descends(low, next, _ float64) bool { return low >= next-plane.Tolerance }

func ascends(low, next, _ float64) bool { return low <= next+plane.Tolerance }

func takesTurns(low, next, after float64) bool {
	return after < 0 || !(low > next+plane.Tolerance && next > after+plane.Tolerance) && !(low < next-plane.Tolerance && next < after-plane.Tolerance)
}

// saysOrder tells of a tower whose levels do not stand in an order: the rooms
// under its shelves from the bottom up. Probes, spyholes and what stands come
// first, so it may not be possible.
func saysOrder(b *stacks.Built, as levelOrder) string {
	for t := range b.Towers {
		levels := b.Towers[t].Levels
		var rooms []float64
		for i := 1; i < len(levels); i++ {
			rooms = append(rooms, b.Levels[levels[i]].Bottom-b.Levels[levels[i-1]].Top)
		}
		for i := 1; i < len(rooms); i++ {
			after := -1.0
			if i+1 < len(rooms) {
				after = rooms[i+1]
			}
			if !as(rooms[i-1], rooms[i], after) {
				return fmt.Sprintf("From %s up the order is another.", b.Levels[levels[i-1]].Name)
			}
		}
	}
	return ""
}

// saysInset tells of a post nearer to its shelf's edge than is wished.
func saysInset(b *stacks.Built) string {
	for i := range b.Posts {
		p := &b.Posts[i]
		for _, s := range p.Shelves {
			if b.Shelves[s].Outline.Depth(p.At) < b.Load.Wishes.Inset-plane.Tolerance {
				return fmt.Sprintf("Post %s under %s stands nearer.", p.Letter, b.Levels[p.Level].Name)
			}
		}
	}
	return ""
}

// saysRoom tells of a level with less room above its ware than is wished.
func saysRoom(b *stacks.Built) string {
	for i := range b.Levels {
		v := &b.Levels[i]
		for _, pi := range v.Pots {
			most := b.TakesEach(i)
			if len(v.Above) > 0 && b.Pots[pi].Solid.Max[2]-v.Top > most[len(most)-1]+plane.Tolerance {
				return fmt.Sprintf("There is less on %s.", v.Name)
			}
		}
	}
	return ""
}

// saysTowers tells of a load that is divided otherwise than is wished.
func saysTowers(b *stacks.Built) string {
	side := false // two towers stand beside each other
	for i := range b.Towers {
		for j := range i {
			side = side || !standsOver(b, i, j) && !standsOver(b, j, i)
		}
	}
	switch {
	case b.Load.Wishes.Towers == layout.OneTower && len(b.Towers) > 1:
		return fmt.Sprintf("It stands in %d.", len(b.Towers))
	case b.Load.Wishes.Towers == layout.HalfTowers && !side && len(b.Towers) > 0:
		return "It stands in one."
	}
	return ""
}
