package sheet

import (
	"math"
	"sort"

	"threepost/layout"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/elevation"
)

// A ware board as studios use them, mm (common practice).
const (
	boardLong = 1200
	boardWide = 300
	boardGap  = 6 // between pots on a board
)

// lot is alike pots of one level.
type lot struct {
	ware  *layout.Ware     // nil for a cone pack
	cones *layout.ConePack // nil for pots
	pots  []int            // into Built.Pots
	side  elevation.Silhouette
	wide  float64 // place along the board, mm
	deep  float64 // across the board, mm
}

// part is so many of a lot in front and behind on one board.
type part struct {
	lot           *lot
	front, behind int
}

// board is what is carried out at once.
type board struct {
	level int // into Built.Levels
	parts []part
}

// boardsOf shares out the pots of every level, in order of loading, on boards
// of their own: in one row if they go, else in two.
func boardsOf(b *stacks.Built, o *order.Order) []board {
	var boards []board
	for _, v := range levelOrder(b, o) {
		boards = append(boards, share(v, lotsOf(b, v))...)
	}
	return boards
}

// levelOrder is the order in which levels are loaded; levels that the order
// leaves out come last.
func levelOrder(b *stacks.Built, o *order.Order) []int {
	var list []int
	seen := make([]bool, len(b.Levels))
	for _, l := range o.Levels {
		if l.Level >= 0 && l.Level < len(seen) && !seen[l.Level] {
			seen[l.Level] = true
			list = append(list, l.Level)
		}
	}
	for v := range b.Levels {
		if !seen[v] {
			list = append(list, v)
		}
	}
	return list
}

// lotsOf groups the pots of a level by row, the tallest first, cone packs
// last.
func lotsOf(b *stacks.Built, v int) []*lot {
	var lots []*lot
	byKind := map[int]*lot{}
	for _, i := range b.Levels[v].Pots {
		p := &b.Pots[i]
		l := byKind[p.Kind]
		if l == nil {
			l = &lot{ware: p.Ware, cones: p.Cones, side: elevation.Aside(p)}
			l.wide = l.side.Max - l.side.Min + boardGap
			l.deep = depthOf(p)
			byKind[p.Kind] = l
			lots = append(lots, l)
		}
		l.pots = append(l.pots, i)
	}
	sort.SliceStable(lots, func(i, j int) bool {
		if (lots[i].ware == nil) != (lots[j].ware == nil) {
			return lots[i].ware != nil
		}
		return lots[i].side.Top > lots[j].side.Top
	})
	return lots
}

// depthOf is how far a pot reaches across a board, mm.
func depthOf(p *stacks.Pot) float64 {
	lo, hi := p.Body.Drawn.Body.Skeleton.Bounds()
	return hi[1] - lo[1] + 2*p.Body.Drawn.Body.Radius
}

// share puts lots on boards of one level.
func share(v int, lots []*lot) []board {
	long, deep := 0.0, 0.0
	for _, l := range lots {
		long += l.wide * float64(len(l.pots))
		deep = math.Max(deep, l.deep)
	}
	if long <= boardLong || 2*deep > boardWide {
		return singly(v, lots)
	}
	return doubly(v, lots)
}

// singly fills boards in one row.
func singly(v int, lots []*lot) []board {
	var boards []board
	room := 0.0
	for _, l := range lots {
		for left := len(l.pots); left > 0; {
			n := min(left, int((room+1e-9)/l.wide))
			if n == 0 || (n < left && len(boards) > 0 && room < boardLong && float64(left)*l.wide <= boardLong) {
				boards = append(boards, board{level: v})
				room = boardLong
				n = min(left, max(1, int(room/l.wide)))
			}
			last := &boards[len(boards)-1]
			last.parts = append(last.parts, part{l, n, 0})
			room -= float64(n) * l.wide
			left -= n
		}
	}
	return boards
}

// doubly fills boards in two rows, half of each lot in front.
func doubly(v int, lots []*lot) []board {
	var boards []board
	room := 0.0
	for _, l := range lots {
		for left := len(l.pots); left > 0; {
			n := min(left, 2*int((room+1e-9)/l.wide))
			if n == 0 || (n < left && room < boardLong && float64((left+1)/2)*l.wide <= boardLong) {
				boards = append(boards, board{level: v})
				room = boardLong
				n = min(left, 2*max(1, int(room/l.wide)))
			}
			inFront := (n + 1) / 2
			last := &boards[len(boards)-1]
			last.parts = append(last.parts, part{l, inFront, n - inFront})
			room -= float64(inFront) * l.wide
			left -= n
		}
	}
	for i := range boards {
		boards[i].inOneRow()
	}
	return boards
}

// inOneRow brings the pots of a board into one row where that goes.
func (b *board) inOneRow() {
	long := 0.0
	for _, p := range b.parts {
		long += float64(p.front+p.behind) * p.lot.wide
	}
	if long > boardLong {
		return
	}
	for i := range b.parts {
		p := &b.parts[i]
		p.front, p.behind = p.front+p.behind, 0
	}
}
