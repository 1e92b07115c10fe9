package stacks

import (
	"fmt"
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
)

// Caps of what is built, far beyond any kiln: a document over them is refused
// before anything is made.
const (
	maxTowers = 64
	maxLevels = 64   // of a tower
	maxLines  = 64   // of a tower
	maxPieces = 32   // of a post
	maxSet    = 4096 // pots of a level
)

// Build turns a load into solids in the kiln's frame, with all heights. Its
// error is of type Refusals and tells everything that cannot be built; the
// result is then nil. It judges no gap and no count.
//
// A shelf lies on the highest of its posts by their real heights. A post
// stands on the shelf under it, on the floor where its tower stands on the
// floor, else at the height of its level's base. Several supports of one
// tower may differ in height: the tower's base is the highest of them, and the
// check tells by how much they differ.
func Build(l *layout.Load) (*Built, error) {
	m := &mason{load: l, b: &Built{Load: l}, dress: newWardrobe(l)}
	m.kiln()
	m.towers()
	if len(m.refused) > 0 {
		m.sortRefused()
		return nil, m.refused
	}
	m.letters()
	m.names()
	m.ceilings()
	return m.b, nil
}

// mason builds.
type mason struct {
	load    *layout.Load
	b       *Built
	dress   *wardrobe
	refused Refusals
	bodies  []*Body // by kind, made when first set
	seen    map[layout.Pot]bool
	first   []int // by tower: its first level in Built.Levels
}

func (m *mason) refuse(where layout.Thing, format string, args ...any) {
	m.refused = append(m.refused, &Refusal{Where: where, Sentence: fmt.Sprintf(format, args...)})
}

// sortRefused brings refusals, which are found carriers first and pots last,
// into the order of the load.
func (m *mason) sortRefused() {
	rank := map[string]int{}
	for i := range m.load.Towers {
		if name := m.load.Towers[i].Name; rank[name] == 0 {
			rank[name] = i + 1
		}
	}
	sort.SliceStable(m.refused, func(i, j int) bool {
		a, b := m.refused[i].Where, m.refused[j].Where
		if rank[a.Tower] != rank[b.Tower] {
			return rank[a.Tower] < rank[b.Tower]
		}
		return a.Level < b.Level
	})
}

// kiln builds the chamber, the probes and the spyholes.
func (m *mason) kiln() {
	k := &m.load.Kiln
	at := layout.Thing{Kind: layout.ThingKiln, Name: k.Name}
	o, err := k.Chamber.Outline()
	if err != nil {
		m.refuse(at, "The kiln's chamber: %v.", err)
		return
	}
	if !(k.Height > 0 && k.Height <= 1e5) {
		m.refuse(at, "The kiln's chamber is %v high; give its height from the floor to the lid.", k.Height)
		return
	}
	if !(o.Depth(plane.Vec{}) > 0) {
		m.refuse(at, "The middle of the kiln's floor lies on its wall; give the shape of the whole chamber.")
		return
	}
	m.b.Chamber, m.b.Height = o, k.Height
	for i := range k.Probes {
		m.probe(&k.Probes[i])
	}
	for i := range k.Spyholes {
		s := &k.Spyholes[i]
		if !finite(s.At, s.Height) {
			m.refuse(layout.Thing{Kind: layout.ThingSpy}, "A spyhole has a bearing or a height that is no number; give a clock position and mm over the floor.")
			continue
		}
		m.b.Spies = append(m.b.Spies, Spy{
			Kiln: s, Mouth: wallAt(o, s.At), Height: s.Height, Inward: plane.FromBearing(-1, s.At),
		})
	}
}

// probe builds a probe: a tube whose end is rounded in plan and whose section
// is the octagon round the circle, so that it contains the real one.
func (m *mason) probe(p *layout.Probe) {
	if !finite(p.At, p.Height) || !(p.Reach > 0 && p.Reach <= 1e5) || !(p.Diameter > 0 && p.Diameter <= 1e4) {
		m.refuse(layout.Thing{Kind: layout.ThingProbe}, "A probe reaches %v in and is %v thick; give both in mm, over 0.", p.Reach, p.Diameter)
		return
	}
	r := float64(p.Diameter / 2)
	s, c := plane.SinCos(22.5)
	flat := float64(r * s / c)
	skeleton := plane.Skeleton{{0, 0}}
	if p.Reach > r {
		skeleton = append(skeleton, plane.Vec{0, r - p.Reach})
	}
	body := solid.Body{Parts: []solid.Part{{Skeleton: skeleton, Profile: solid.Profile{
		{Z: -r, R: flat}, {Z: -flat, R: r}, {Z: flat, R: r}, {Z: r, R: flat},
	}}}}
	inner := wallAt(m.b.Chamber, p.At)
	m.b.Probes = append(m.b.Probes, Probe{
		Kiln: p, Inner: inner, Tip: plane.Add(inner, plane.FromBearing(-p.Reach, p.At)),
		Solid: solid.Place(body, solid.Pose{At: inner, Turn: p.At, Z: p.Height}),
	})
}

// wallAt is where the wall stands on a bearing from the middle of the floor.
func wallAt(o plane.Outline, bearing float64) plane.Vec {
	lo, hi := 0.0, o.Reach(plane.Vec{})+1
	for i := 0; i < 64; i++ {
		mid := (lo + hi) / 2
		if o.Contains(plane.FromBearing(mid, bearing)) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return plane.FromBearing(lo, bearing)
}

func finite(figures ...float64) bool {
	for _, x := range figures {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

// towers builds all towers, those that carry before those that stand on them,
// and lists them in the order of the load.
func (m *mason) towers() {
	l := m.load
	if len(l.Towers) > maxTowers {
		m.refuse(layout.Thing{Kind: layout.ThingKiln}, "The load has %d towers; a kiln takes %d at most.", len(l.Towers), maxTowers)
		return
	}
	m.seen = map[layout.Pot]bool{}
	m.bodies = make([]*Body, len(l.Ware)+len(l.Cones))
	m.first = make([]int, len(l.Towers))
	for i := range l.Towers {
		m.b.Towers = append(m.b.Towers, Tower{Index: i, Name: l.Towers[i].Name})
	}
	order, ok := m.footings()
	if !ok {
		return
	}
	m.raise(order)
	for t := range l.Towers {
		for j := range l.Towers[t].Levels {
			m.setPots(t, j)
		}
	}
}

// footings finds the levels that each tower stands on and an order in which
// carriers come first.
func (m *mason) footings() (order []int, ok bool) {
	l := m.load
	names := map[string]int{}
	for i := range l.Towers {
		t := &l.Towers[i]
		at := layout.Thing{Kind: layout.ThingLevel, Tower: t.Name}
		if j, twice := names[t.Name]; twice {
			m.refuse(at, "Towers %d and %d are both called %q; give each a name of its own.", j+1, i+1, t.Name)
			return nil, false
		}
		names[t.Name] = i
		if len(t.Levels) > maxLevels || len(t.Lines) > maxLines {
			m.refuse(at, "%q has %d levels and %d lines; a tower takes %d and %d at most.", t.Name, len(t.Levels), len(t.Lines), maxLevels, maxLines)
			return nil, false
		}
	}
	n := 0
	for i := range l.Towers {
		m.first[i] = n
		n += len(l.Towers[i].Levels)
	}
	good := true
	on := make([][]int, len(l.Towers)) // towers under each
	for i := range l.Towers {
		t := &l.Towers[i]
		at := layout.Thing{Kind: layout.ThingLevel, Tower: t.Name}
		for _, s := range t.On {
			if s.Tower == "" {
				continue
			}
			j, known := names[s.Tower]
			switch {
			case !known:
				m.refuse(at, "%q stands on %q, and there is no tower of that name.", t.Name, s.Tower)
				good = false
			case j == i:
				m.refuse(at, "%q stands on itself; let it stand on the floor or on another tower.", t.Name)
				good = false
			case s.Level < 1 || s.Level > len(l.Towers[j].Levels):
				m.refuse(at, "%q stands on level %d of %q, which has %d.", t.Name, s.Level, s.Tower, len(l.Towers[j].Levels))
				good = false
			default:
				on[i] = append(on[i], j)
				m.b.Towers[i].On = append(m.b.Towers[i].On, m.first[j]+s.Level-1)
			}
		}
	}
	if !good {
		return nil, false
	}
	return m.carriersFirst(on)
}

// carriersFirst orders the towers so that each comes after those under it.
func (m *mason) carriersFirst(on [][]int) (order []int, ok bool) {
	done := make([]bool, len(on))
	for len(order) < len(on) {
		grown := false
		for i := range on {
			if done[i] {
				continue
			}
			free := true
			for _, j := range on[i] {
				free = free && done[j]
			}
			if free {
				done[i], grown = true, true
				order = append(order, i)
			}
		}
		if grown {
			continue
		}
		for i := range on {
			if !done[i] {
				name := m.load.Towers[i].Name
				m.refuse(layout.Thing{Kind: layout.ThingLevel, Tower: name}, "%q stands, over other towers, on itself; let one of them stand on the floor.", name)
				return nil, false
			}
		}
	}
	return order, true
}

// raise builds the levels of all towers; carriers come first in order.
func (m *mason) raise(order []int) {
	l := m.load
	total := 0
	for i := range l.Towers {
		total += len(l.Towers[i].Levels)
	}
	m.b.Levels = make([]Level, total)
	built := make([]storey, total)
	for _, t := range order {
		tower := &m.b.Towers[t]
		under := footing{floor: len(l.Towers[t].On) == 0, levels: tower.On}
		for _, s := range l.Towers[t].On {
			under.floor = under.floor || s.Tower == ""
		}
		for _, v := range tower.On {
			tower.Base = math.Max(tower.Base, m.b.Levels[v].Top)
		}
		under.base = tower.Base
		for j := range l.Towers[t].Levels {
			v := m.first[t] + j
			tower.Levels = append(tower.Levels, v)
			m.level(t, j, under, &m.b.Levels[v], &built[v], built)
			under = footing{base: m.b.Levels[v].Top, levels: []int{v}}
		}
	}
	m.markLeaves()
	m.flatten(built)
}

// markLeaves marks the towers on whose top level nothing stands.
func (m *mason) markLeaves() {
	for i := range m.b.Towers {
		t := &m.b.Towers[i]
		t.Leaf = true
		for j := range m.b.Towers {
			for _, v := range m.b.Towers[j].On {
				if n := len(t.Levels); n > 0 && v == t.Levels[n-1] {
					t.Leaf = false
				}
			}
		}
	}
}

// flatten gathers shelves and posts in the order of the levels.
func (m *mason) flatten(built []storey) {
	for v := range built {
		s, level := &built[v], &m.b.Levels[v]
		shelf0 := len(m.b.Shelves)
		for i := range s.shelves {
			level.Shelves = append(level.Shelves, shelf0+i)
			m.b.Shelves = append(m.b.Shelves, s.shelves[i])
		}
		for i := range s.posts {
			p := s.posts[i]
			for k := range p.Shelves {
				p.Shelves[k] += shelf0
			}
			level.Posts = append(level.Posts, len(m.b.Posts))
			m.b.Posts = append(m.b.Posts, p)
		}
	}
}
