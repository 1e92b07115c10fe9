package packing

import (
	"fmt"
	"math"

	"threepost/geometry/plane"
)

// Most figures a problem may have. They are far beyond any kiln and only keep
// bad input from asking for all the memory there is.
const (
	MaxKinds = 1000
	MaxParts = 64
	MaxItems = 5000
)

// Kind is a sort of thing to place: one or more convex skeletons in its own
// frame. What widens a skeleton is part of the needs and depths, not of the
// kind.
type Kind struct {
	// Parts are the skeletons about the kind's own origin at turn 0, mm: a
	// point, a segment, or a convex polygon in either sense.
	Parts []plane.Skeleton
	// Turns says that turning it changes something and that every turn is
	// allowed. A kind that does not turn stands at Tried[0], or at 0.
	Turns bool
	// Tried are the turns to start from, degrees clockwise; empty means 24
	// turns all round. They are starts, not the only turns a thing may have.
	Tried []float64
	// Limits are the outlines that hold it, all of them.
	Limits []Limit
}

// Limit says that every vertex of a kind's part lies at least Depth mm inside
// an area: the foot inside the shelf's edge, the rim inside the wall.
type Limit struct {
	Part  int     // into Kind.Parts
	Area  int     // into Problem.Areas
	Depth float64 // mm; may be negative: so much it may stand out
}

// Area is the inside of an outline, or of several when it is made of shelves
// side by side: then a part lies in one of them, whole.
type Area struct {
	Outlines []plane.Outline
}

// Obstacle is something fixed that is no thing of a kind: a post, the probe,
// the edge of another tower's shelf, a pot of another level.
type Obstacle struct {
	Skeleton plane.Skeleton // where it stands, mm
	// Need is the least distance of its skeleton from each kind's parts,
	// [kind][part], mm; NoNeed where they never meet.
	Need [][]float64
}

// Standing is a thing in its place.
type Standing struct {
	Kind  int       // into Problem.Kinds
	Want  int       // into Problem.Wants; -1 for what stood there before
	At    plane.Vec // its origin, mm
	Turn  float64   // degrees clockwise, [0, 360)
	Fixed bool      // it stood there before and has not been moved
}

// Want is a number of alike things to place.
type Want struct {
	Kind  int
	Count int
	Value float64 // of one; more is better. Not negative.
	Must  bool    // goes before everything that is not a must
}

// NoNeed is the need of two parts that may be at any distance: minus infinity.
func NoNeed() float64 { return math.Inf(-1) }

// Problem is what is asked of one area.
type Problem struct {
	Kinds     []Kind
	Need      Needs
	Areas     []Area
	Obstacles []Obstacle
	Fixed     []Standing // what stands already and stays; it is not checked against itself
	Wants     []Want
	// Grid and TurnGrid are what positions and turns are rounded to;
	// 0 means 0.1 mm and 0.1 degree.
	Grid, TurnGrid float64
	// Pause, when there is one, is called now and then while Insert, Squeeze
	// and Spread work, so that a page can do them in slices; when it answers
	// false they end early. It has no part in what they find.
	Pause func() bool
}

// goOn is Pause, or true.
func (p *Problem) goOn() bool { return p.Pause == nil || p.Pause() }

// Needs are the least distances of the skeletons of two kinds' parts, mm:
// [kindA][partA][kindB][partB]. They are symmetric, and need not be metric.
type Needs [][][][]float64

// NewNeeds is a table for these kinds in which nothing needs anything.
func NewNeeds(kinds []Kind) Needs {
	n := make(Needs, len(kinds))
	for a := range kinds {
		n[a] = make([][][]float64, len(kinds[a].Parts))
		for pa := range n[a] {
			n[a][pa] = make([][]float64, len(kinds))
			for b := range kinds {
				row := make([]float64, len(kinds[b].Parts))
				for i := range row {
					row[i] = NoNeed()
				}
				n[a][pa][b] = row
			}
		}
	}
	return n
}

// Set writes the need of two parts, mm, both ways round.
func (n Needs) Set(kindA, partA, kindB, partB int, need float64) {
	n[kindA][partA][kindB][partB] = need
	n[kindB][partB][kindA][partA] = need
}

// Fault says what about a problem has no meaning, or nil.
func (p *Problem) Fault() error {
	if len(p.Kinds) > MaxKinds {
		return fmt.Errorf("%d kinds are more than %d", len(p.Kinds), MaxKinds)
	}
	if err := p.faultOfKinds(); err != nil {
		return err
	}
	if err := p.faultOfNeeds(); err != nil {
		return err
	}
	total := len(p.Fixed)
	for i, w := range p.Wants {
		if w.Kind < 0 || w.Kind >= len(p.Kinds) {
			return fmt.Errorf("want %d is of kind %d, and there are %d kinds", i, w.Kind, len(p.Kinds))
		}
		if w.Count < 0 || !(w.Value >= 0) || math.IsInf(w.Value, 0) {
			return fmt.Errorf("want %d: count %d and value %g", i, w.Count, w.Value)
		}
		if w.Count > MaxItems || total > MaxItems {
			return fmt.Errorf("more than %d things are asked of one area", MaxItems)
		}
		total += w.Count
	}
	if total > MaxItems {
		return fmt.Errorf("more than %d things are asked of one area", MaxItems)
	}
	for i, s := range p.Fixed {
		if s.Kind < 0 || s.Kind >= len(p.Kinds) {
			return fmt.Errorf("standing thing %d is of kind %d, and there are %d kinds", i, s.Kind, len(p.Kinds))
		}
		if !finite(s.At[0]) || !finite(s.At[1]) || !finite(s.Turn) {
			return fmt.Errorf("standing thing %d has no place", i)
		}
	}
	return nil
}

func (p *Problem) faultOfKinds() error {
	for i, k := range p.Kinds {
		if len(k.Parts) == 0 || len(k.Parts) > MaxParts {
			return fmt.Errorf("kind %d has %d parts, from 1 to %d are possible", i, len(k.Parts), MaxParts)
		}
		for j, s := range k.Parts {
			if len(s) == 0 {
				return fmt.Errorf("part %d of kind %d has no point", j, i)
			}
			for _, v := range s {
				if !finite(v[0]) || !finite(v[1]) {
					return fmt.Errorf("part %d of kind %d has a point that is no number", j, i)
				}
			}
		}
		for _, l := range k.Limits {
			if l.Part < 0 || l.Part >= len(k.Parts) || l.Area < 0 || l.Area >= len(p.Areas) || !finite(l.Depth) {
				return fmt.Errorf("a limit of kind %d names part %d, area %d, depth %g", i, l.Part, l.Area, l.Depth)
			}
		}
		if len(k.Limits) == 0 {
			return fmt.Errorf("kind %d has no area that holds it", i)
		}
	}
	for i, a := range p.Areas {
		if len(a.Outlines) == 0 {
			return fmt.Errorf("area %d has no outline", i)
		}
		for _, o := range a.Outlines {
			if o.Empty() {
				return fmt.Errorf("area %d has an empty outline", i)
			}
		}
	}
	return nil
}

func (p *Problem) faultOfNeeds() error {
	if len(p.Need) != len(p.Kinds) {
		return fmt.Errorf("the needs are of %d kinds, and there are %d", len(p.Need), len(p.Kinds))
	}
	for a := range p.Kinds {
		if len(p.Need[a]) != len(p.Kinds[a].Parts) {
			return fmt.Errorf("the needs of kind %d are of %d parts", a, len(p.Need[a]))
		}
		for pa := range p.Need[a] {
			if len(p.Need[a][pa]) != len(p.Kinds) {
				return fmt.Errorf("the needs of kind %d, part %d are of %d kinds", a, pa, len(p.Need[a][pa]))
			}
			for b := range p.Kinds {
				if len(p.Need[a][pa][b]) != len(p.Kinds[b].Parts) {
					return fmt.Errorf("the needs of kinds %d and %d leave parts out", a, b)
				}
				for pb, d := range p.Need[a][pa][b] {
					if math.IsNaN(d) || math.IsInf(d, 1) {
						return fmt.Errorf("the need of kinds %d and %d is no distance", a, b)
					}
					if len(p.Need) > b && len(p.Need[b]) > pb && len(p.Need[b][pb]) > a &&
						len(p.Need[b][pb][a]) > pa && p.Need[b][pb][a][pa] != d {
						return fmt.Errorf("the need of kinds %d and %d differs from that of %d and %d", a, b, b, a)
					}
				}
			}
		}
	}
	for i, o := range p.Obstacles {
		if len(o.Skeleton) == 0 || len(o.Need) != len(p.Kinds) {
			return fmt.Errorf("obstacle %d has %d points and needs of %d kinds", i, len(o.Skeleton), len(o.Need))
		}
		for k := range o.Need {
			if len(o.Need[k]) != len(p.Kinds[k].Parts) {
				return fmt.Errorf("obstacle %d leaves parts of kind %d out", i, k)
			}
			for _, d := range o.Need[k] {
				if math.IsNaN(d) || math.IsInf(d, 1) {
					return fmt.Errorf("the need of obstacle %d and kind %d is no distance", i, k)
				}
			}
		}
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
