package order

import (
	"threepost/layout/stacks"
	"threepost/layout/statics"
)

// Order is how a whole load goes in.
type Order struct {
	Levels []LevelOrder    // in the order in which their pots are set
	Acts   []Act           // everything hands do, in sequence
	Grips  []Grips         // as Built.Shelves
	Events []statics.Event // the acts as pieces put in one by one
	// Moments is the worst moment of every shelf (as Built.Shelves) while
	// the whole load goes in.
	Moments []statics.Moment
}

// LevelOrder is the order of setting the pots of one level.
type LevelOrder struct {
	Level int // into Built.Levels
	// ShelvesFirst lists levels of other towers (into Built.Levels) whose
	// shelves go in before this level's pots, which would rise past them,
	// while their own pots come after.
	ShelvesFirst []int
	// RisesPast lists all levels of other towers for whose shelves this
	// level's pots wait: "its bottles rise past both".
	RisesPast []int
	PostsOn   []PostStep // the posts that stand on this level, set first
	Pots      []Step     // pots and cone packs in order of setting
	Patterns  []Pattern
	// Margin is the least distance of the balance point inside the posts at
	// any moment while this level is loaded, mm; Tips when it is outside.
	Margin float64
	Tips   bool
	Worst  int // pot (into Built.Pots) after which that is; -1: the bare shelf
}

// StepOf is the step of a pot, or nil.
func (l *LevelOrder) StepOf(pot int) *Step {
	for i := range l.Pots {
		if l.Pots[i].Pot == pot {
			return &l.Pots[i]
		}
	}
	return nil
}

// LevelOf is the order of a built level, or nil.
func (o *Order) LevelOf(level int) *LevelOrder {
	for i := range o.Levels {
		if o.Levels[i].Level == level {
			return &o.Levels[i]
		}
	}
	return nil
}

// Number is the order number of a pot on its level, 0 for a cone pack and for
// a pot that is in no order.
func (o *Order) Number(pot int) int {
	for i := range o.Levels {
		if s := o.Levels[i].StepOf(pot); s != nil {
			return s.Number
		}
	}
	return 0
}

// Cycle is a ring of pots each of which has to be set before the next, and the
// last before the first: no order sets them all. Two pots make a cycle when
// neither can be let down beside the other.
type Cycle struct {
	Level int      // into Built.Levels
	Pots  []int    // into Built.Pots
	Names []string // as in the load: "mug 3"
	Short float64  // mm of room that would break it: the least that one of its pairs lacks
}

// Of finds the order of a load. It always gives an order of all levels and
// pots; the cycles say where no hand can follow it.
func Of(b *stacks.Built) (*Order, []Cycle) {
	o := &Order{Levels: []LevelOrder{}}
	var cycles []Cycle
	s := sequenceOf(b)
	standing, floor := statics.Standing(b)
	laid := map[int]bool{}
	set := map[int]bool{}
	for _, st := range s.stages {
		if !st.pots {
			laid[st.level] = true
			continue
		}
		l, c := levelOrder(b, st.level, standing)
		l.RisesPast = s.waits[st.level]
		for _, x := range l.RisesPast {
			if laid[x] && !set[x] {
				l.ShelvesFirst = append(l.ShelvesFirst, x)
			}
		}
		set[st.level] = true
		o.Levels = append(o.Levels, l)
		cycles = append(cycles, c...)
	}
	o.Grips = allGrips(b)
	o.Acts = actsOf(b, o, s, floor)
	o.Events = eventsOf(b, o)
	o.Moments = statics.WhileLoading(b, o.Events)
	return o, cycles
}

// Cycles finds only what forbids every order of setting, level by level: the
// part of Of that a check needs.
func Cycles(b *stacks.Built) []Cycle {
	var out []Cycle
	for l := range b.Levels {
		out = append(out, CyclesOn(b, l)...)
	}
	return out
}

// CyclesOn is Cycles for one level (into Built.Levels).
func CyclesOn(b *stacks.Built, level int) []Cycle {
	if level < 0 || level >= len(b.Levels) {
		return nil
	}
	return relationOf(b, level).cycles(b, level)
}

// GripsOn is where hands hold one shelf (into Built.Shelves).
func GripsOn(b *stacks.Built, shelf int) Grips {
	if shelf < 0 || shelf >= len(b.Shelves) {
		return Grips{Shelf: shelf}
	}
	return gripsOf(b, shelf)
}
