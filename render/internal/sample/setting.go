package sample

import (
	"math"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/stacks"
)

// batch is so many pots of a row for one level.
type batch struct {
	ware  string
	count int
}

// setter sets pots by first fit.
type setter struct {
	load *layout.Load
	next map[string]int // pots of each row set so far
}

// spot is the plan of what stands somewhere: skeletons and radii.
type spot struct {
	skeleton plane.Skeleton
	r        float64
}

// set puts batches on a level of a tower, as many as find a place, and says
// how many that were. Rows go in as listed, each to the place nearest the
// back that is free, so that the result looks like a loaded shelf.
func (s *setter) set(tower string, level int, list ...batch) int {
	b, err := stacks.Build(s.load)
	if err != nil {
		panic(err)
	}
	v := 0
	for i := range b.Levels {
		if b.Towers[b.Levels[i].Tower].Name == tower && b.Levels[i].Number == level {
			v = i
		}
	}
	standing := posts(b, v)
	for _, i := range b.Levels[v].Pots {
		p := &b.Pots[i]
		standing = append(standing, plan(p.Body, p.At, p.Turn)...)
	}
	set := &s.load.Tower(tower).Levels[level-1].Set
	done := 0
	for _, one := range list {
		body, names := s.body(one.ware)
		search := scan{}
		for range one.count {
			if s.next[one.ware] >= len(names) {
				break
			}
			at, turn, found := search.place(b, v, body, standing)
			if !found {
				break
			}
			*set = append(*set, layout.Placement{Pot: names[s.next[one.ware]], At: at, Turn: turn})
			standing = append(standing, plan(body, at, turn)...)
			s.next[one.ware]++
			done++
		}
	}
	return done
}

// put stands a pot where it is told.
func (s *setter) put(tower string, level int, name string, at plane.Vec, turn float64) {
	set := &s.load.Tower(tower).Levels[level-1].Set
	*set = append(*set, layout.Placement{Pot: layout.Pot{Ware: name}, At: at, Turn: turn})
}

// body is that of a row or a cone pack, with the names of its pots.
func (s *setter) body(name string) (*stacks.Body, []layout.Pot) {
	for i := range s.load.Ware {
		if w := &s.load.Ware[i]; w.Name == name {
			body, err := stacks.BodyOf(s.load, w)
			if err != nil {
				panic(err)
			}
			return body, w.Pots()
		}
	}
	pack := s.load.ConesOf(layout.Pot{Ware: name})
	body, err := stacks.ConeBody(s.load, pack)
	if err != nil {
		panic(err)
	}
	return body, []layout.Pot{{Ware: name}}
}

// posts are the plans of the posts that stand on a level.
func posts(b *stacks.Built, v int) []spot {
	var list []spot
	for i := range b.Posts {
		p := &b.Posts[i]
		if math.Abs(p.Bottom-b.Levels[v].Top) < 1e-6 {
			list = append(list, spot{p.Solid.Skeleton(0), p.Solid.Body.Parts[0].Profile.Max()})
		}
	}
	return list
}

func plan(body *stacks.Body, at plane.Vec, turn float64) []spot {
	var list []spot
	for _, part := range body.Solid.Parts {
		list = append(list, spot{part.Skeleton.At(plane.Pose{At: at, Turn: turn}), part.Profile.Max()})
	}
	return list
}

// scan goes over the shelves of a level once for all pots of a batch: a place
// that is not free for one is not free for the next.
type scan struct{ shelf, row, column int }

const step = 4 // mm

// place finds the next free place on the level's shelves, from the back.
func (s *scan) place(b *stacks.Built, v int, body *stacks.Body, standing []spot) (plane.Vec, float64, bool) {
	gap := 6.0
	if b.Levels[v].Deep {
		gap = 9
	}
	turns := []float64{0}
	if body.Turns {
		turns = []float64{150, 210, 100, 260, 0, 45, 315, 180, 90, 270}
	}
	shelves := b.Levels[v].Shelves
	for ; s.shelf < len(shelves); s.shelf, s.row, s.column = s.shelf+1, 0, 0 {
		o := b.Shelves[shelves[s.shelf]].Outline
		lo, hi := o.Bounds()
		for ; hi[1]-float64(s.row*step) > lo[1]; s.row, s.column = s.row+1, 0 {
			for ; lo[0]+float64(s.column*step) < hi[0]; s.column++ {
				at := plane.Vec{math.Round(lo[0]) + float64(s.column*step), math.Round(hi[1]) - float64(s.row*step)}
				if o.Depth(at) < body.FootR || crowded(at, body.Drawn.Body.Radius+gap, standing) {
					continue
				}
				for _, turn := range turns {
					if fits(o, body, at, turn, standing, gap) && clear(b, v, body, at, turn) {
						return at, turn, true
					}
				}
			}
		}
	}
	return plane.Vec{}, 0, false
}

// crowded tells whether the middle of a pot that reaches r all round lies too
// near to what stands.
func crowded(at plane.Vec, r float64, standing []spot) bool {
	for _, q := range standing {
		if q.skeleton.Distance(plane.Skeleton{at})-q.r < r {
			return true
		}
	}
	return false
}

func fits(o plane.Outline, body *stacks.Body, at plane.Vec, turn float64, standing []spot, gap float64) bool {
	for _, p := range plan(body, at, turn) {
		if plane.Clearance(o, p.skeleton, p.r) < 0 {
			return false
		}
		for _, q := range standing {
			if p.skeleton.Distance(q.skeleton)-p.r-q.r < gap {
				return false
			}
		}
	}
	return true
}

// clear tells whether a pot is clear of wall, lid and probe, of the shelves of
// other levels that lie over it or that it rises past, and of their pots.
func clear(b *stacks.Built, v int, body *stacks.Body, at plane.Vec, turn float64) bool {
	bottom := b.Levels[v].Top
	top := bottom + body.Height
	if top+25 > b.Height {
		return false
	}
	for _, p := range plan(body, at, turn) {
		if plane.Clearance(b.Chamber, p.skeleton, p.r) < 25 {
			return false
		}
		for i := range b.Shelves {
			s := &b.Shelves[i]
			if s.Level != v && top > s.Bottom-12 && bottom < s.Top && s.Outline.Distance(p.skeleton)-p.r < 9 {
				return false
			}
		}
		for i := range b.Pots {
			q := &b.Pots[i]
			if q.Level != v && top > q.Z-12 && bottom < q.Solid.Top()+12 && near(p, &q.Solid, 9) {
				return false
			}
		}
		for i := range b.Probes {
			q := &b.Probes[i]
			if top > q.Solid.Bottom()-25 && bottom < q.Solid.Top()+25 && near(p, &q.Solid, 25) {
				return false
			}
		}
	}
	return true
}

// near tells whether a part comes nearer to a solid in plan than a gap.
func near(p spot, w *solid.Placed, gap float64) bool {
	for i := range w.Body.Parts {
		if p.skeleton.Distance(w.Skeleton(i))-p.r-w.Body.Parts[i].Profile.Max() < gap {
			return true
		}
	}
	return false
}
